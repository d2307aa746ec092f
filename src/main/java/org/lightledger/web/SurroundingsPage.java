package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the ledger knows of the surroundings of its spots.
 *
 * @param elevation the elevation files and folders
 * @param maps the maps of the region
 * @param path the path as it was typed, when something was wrong
 * @param problems what was wrong with it
 * @param done what has just been done, "" for nothing
 * @param state how far the skylines are, in words
 * @param working whether some are still being worked out
 * @param problem what keeps them from being worked out, or null
 */
public record SurroundingsPage(
    List<ElevationRow> elevation,
    List<MapRow> maps,
    String path,
    List<FieldProblem> problems,
    String done,
    String state,
    boolean working,
    @Nullable String problem) {

  /** A map, and what came of it. */
  public record MapRow(long id, String name, String words) {}

  /** An elevation file or folder, and whether it is there. */
  public record ElevationRow(long id, String path, String kind, boolean there) {}
}
