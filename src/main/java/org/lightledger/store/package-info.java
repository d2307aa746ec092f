/**
 * The ledger: one SQLite file that is at the same time an OGC GeoPackage.
 *
 * <p>What was decided, and why:
 *
 * <ul>
 *   <li>Plain prepared JDBC statements, kept open with their connection. An import costs tens of
 *       microseconds for each shot, and what a mapping library adds to that shows.
 *   <li>Write-ahead log with {@code synchronous=FULL}. A process that dies loses no committed row
 *       at either setting; {@code NORMAL} would lose the last commits with the power. One sync for
 *       each transaction is what that costs, and an import commits in batches.
 *   <li>One connection writes, any number read, each read from one snapshot.
 *   <li>Instants are kept as milliseconds since 1970-01-01T00:00Z. Only the time of a shot keeps
 *       its nanoseconds; everything else is cut to the millisecond.
 * </ul>
 */
@NullMarked
package org.lightledger.store;

import org.jspecify.annotations.NullMarked;
