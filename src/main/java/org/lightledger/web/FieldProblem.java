package org.lightledger.web;

/**
 * What is wrong with one field of a form.
 *
 * @param field the field's name in the form
 * @param label what the page calls it
 * @param message what was expected and what was found
 */
public record FieldProblem(String field, String label, String message) {}
