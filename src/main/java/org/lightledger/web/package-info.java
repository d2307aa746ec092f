/**
 * The web interface. Each page has its routes, and a record that holds everything its template
 * shows, so that templates hold no logic. The client's routes stand apart from the owner's.
 */
@NullMarked
package org.lightledger.web;

import org.jspecify.annotations.NullMarked;
