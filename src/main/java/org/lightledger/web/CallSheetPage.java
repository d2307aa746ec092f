package org.lightledger.web;

import org.lightledger.session.outgoing.Sheet;

/**
 * The call sheet of a session.
 *
 * @param sessionId the ledger's number of the session
 * @param sheet what it says
 * @param map the small map as a data address
 * @param licence whose map it is, "" when there is none below the pins
 */
public record CallSheetPage(long sessionId, Sheet sheet, String map, String licence) {}
