package org.lightledger.session.planner;

/**
 * A rule without which there would be a plan.
 *
 * @param rule the rule
 * @param found what stands in the way
 * @param help what would help
 */
public record Refusal(Rule rule, String found, String help) {}
