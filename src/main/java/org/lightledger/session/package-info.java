/**
 * Clients, sessions and what belongs to them: the agreed terms, questions and answers, the kept
 * plan, what was sent, and the things to pack.
 */
@NullMarked
package org.lightledger.session;

import org.jspecify.annotations.NullMarked;
