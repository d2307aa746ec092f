package org.lightledger.map.osm;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.map.MapBox;
import org.lightledger.map.MapSink;

/**
 * An OpenStreetMap extract, read. The file is passed over three times, for relations, for ways and
 * for nodes, because each says which of the next are needed; only those are held. Then {@link
 * #show} puts them together one after the other.
 *
 * <p>Not safe for use by several threads.
 */
public final class OsmExtract {
  private final Needed needed;
  private final MapBox bounds;
  private final @Nullable String licence;
  private final Problems problems = new Problems();

  private OsmExtract(Needed needed, MapBox bounds, @Nullable String licence) {
    this.needed = needed;
    this.bounds = bounds;
    this.licence = licence;
  }

  /**
   * Reads a file.
   *
   * @param file OSM XML of version 0.6, plain or packed by gzip, or OSM PBF
   * @return what it holds
   * @throws IOException when it can not be read, breaks off, is damaged or no extract; the message
   *     says what to do
   */
  public static OsmExtract read(Path file) throws IOException {
    OsmFile osm = new OsmFile(file);
    RelationsPass relations = new RelationsPass();
    osm.read(relations);
    WaysPass ways = new WaysPass(relations.needed());
    osm.read(ways);
    NodesPass nodes = new NodesPass(ways.nodeIds());
    osm.read(nodes);
    MapBox declared = relations.bounds();
    MapBox found = nodes.extent();
    if (found == null) {
      throw new OsmFileException(
          file.getFileName()
              + ": expected an extract with buildings or ways and their nodes, found none");
    }
    return new OsmExtract(
        new Needed(relations.needed(), ways.ways(), nodes.points(), nodes.places()),
        declared == null ? found : declared,
        relations.licence());
  }

  /**
   * The region: as the file declares it, else around the nodes of all ways that are taken.
   *
   * @return the box
   */
  public MapBox bounds() {
    return bounds;
  }

  /**
   * The licence that the file itself names.
   *
   * @return an address or a name; nothing when the file names none
   */
  public Optional<String> licence() {
    return Optional.ofNullable(licence);
  }

  /**
   * Puts everything together and shows it, obstructions and features in the file's order.
   *
   * @param sink takes them
   */
  public void show(MapSink sink) {
    new Assembly(needed, bounds, problems, sink).run();
  }

  /**
   * What is wrong with things in the file and was left out or replaced by a default; complete once
   * {@link #show} is done.
   *
   * @return the first thousand, each with what it is about
   */
  public List<String> problems() {
    return problems.lines();
  }

  /**
   * How many problems there are, those beyond the first thousand as well.
   *
   * @return the count
   */
  public int problemCount() {
    return problems.count();
  }
}
