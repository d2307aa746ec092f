package org.lightledger.store;

import java.nio.file.Path;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.lightledger.map.MapBox;

/**
 * An extract that was added.
 *
 * @param id the ledger's number
 * @param fileName the file's name
 * @param path where it was when it was added
 * @param sha256 the fingerprint of its content, 64 digits of 0-9 a-f
 * @param addedAt when it was added
 * @param licence the licence that the file names, or null when it names none
 * @param bounds its region
 * @param obstructions how many buildings, parts of buildings, trees, rows and woods came of it
 * @param features how many other things came of it
 * @param problems how many things in it were left out or replaced by a default
 */
public record StoredMap(
    long id,
    String fileName,
    Path path,
    String sha256,
    Instant addedAt,
    @Nullable String licence,
    MapBox bounds,
    int obstructions,
    int features,
    int problems) {}
