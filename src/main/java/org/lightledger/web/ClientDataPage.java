package org.lightledger.web;

import java.util.List;

/**
 * What is held about a client.
 *
 * @param id the client's number
 * @param name the client's full name
 * @param held how much there is, by kind
 * @param elsewhere where else the name stands, in the owner's own words
 * @param problems what was wrong with a form
 */
public record ClientDataPage(
    long id, String name, List<String> held, List<String> elsewhere, List<FieldProblem> problems) {}
