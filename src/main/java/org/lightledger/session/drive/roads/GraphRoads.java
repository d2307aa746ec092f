package org.lightledger.session.drive.roads;

import com.graphhopper.GHRequest;
import com.graphhopper.GHResponse;
import com.graphhopper.GraphHopper;
import com.graphhopper.ResponsePath;
import com.graphhopper.config.CHProfile;
import com.graphhopper.config.Profile;
import com.graphhopper.routing.ev.Subnetwork;
import com.graphhopper.routing.util.DefaultSnapFilter;
import com.graphhopper.routing.util.EdgeFilter;
import com.graphhopper.storage.index.Snap;
import com.graphhopper.util.GHUtility;
import com.graphhopper.util.PMap;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.lightledger.geo.GeoPoint;
import org.lightledger.map.osm.RoadsFile;
import org.lightledger.session.drive.Roads;

/**
 * The roads of an OpenStreetMap extract, prepared once into the ledger's folder and opened again
 * from there.
 *
 * <p>Routes are the fastest for a car by GraphHopper's speeds for each kind of road and limit,
 * without traffic, lights and turn restrictions; one-way streets and closed roads count. Safe for
 * use by several threads.
 */
public final class GraphRoads implements Roads, AutoCloseable {
  /**
   * A place farther from any road for cars is not led to the nearest one. Own choice: about what
   * handling on arrival leaves for walking.
   */
  public static final double FARTHEST_FROM_ROAD_M = 300;

  private static final String FOLDER = "roads";

  /**
   * Grows when roads must be prepared anew: with the library's form or with what is asked of it.
   */
  private static final String FORM = "-1";

  private static final String CAR = "car";

  private final GraphHopper hopper;
  private final EdgeFilter forCars;

  private GraphRoads(GraphHopper hopper) {
    this.hopper = hopper;
    this.forCars =
        new DefaultSnapFilter(
            hopper.createWeighting(hopper.getProfile(CAR), new PMap()),
            hopper.getEncodingManager().getBooleanEncodedValue(Subnetwork.key(CAR)));
  }

  /**
   * Prepares the roads of an extract, unless that was done before. What was begun and broken off
   * leaves nothing that counts.
   *
   * @param extract .osm, .osm.gz or .osm.pbf
   * @param sha256 the fingerprint of its content
   * @param ledgerFolder the ledger's folder
   * @throws IOException when the extract can not be read or the folder not be written
   */
  public static void prepare(Path extract, String sha256, Path ledgerFolder) throws IOException {
    Path ready = folder(ledgerFolder, sha256);
    if (Files.isDirectory(ready)) {
      return;
    }
    Path begun = ready.resolveSibling(ready.getFileName() + ".part");
    delete(begun);
    Files.createDirectories(begun);
    Path roads = ready.resolveSibling(ready.getFileName() + ".osm.gz");
    GraphHopper hopper = car(begun);
    try {
      RoadsFile.write(extract, roads);
      hopper.setOSMFile(roads.toString());
      hopper.importOrLoad();
    } catch (RuntimeException e) {
      throw new IOException(
          "No routes can be made of the roads of %s: %s"
              .formatted(extract.getFileName(), e.getMessage()),
          e);
    } finally {
      hopper.close();
      Files.deleteIfExists(roads);
    }
    Files.move(begun, ready, StandardCopyOption.ATOMIC_MOVE);
  }

  /**
   * Opens roads that were prepared before.
   *
   * @param ledgerFolder the ledger's folder
   * @param sha256 the fingerprint of the extract
   * @return the roads, or nothing when none were prepared or they can not be opened any more; then
   *     they are to be prepared again
   */
  public static Optional<GraphRoads> open(Path ledgerFolder, String sha256) {
    Path ready = folder(ledgerFolder, sha256);
    if (!Files.isDirectory(ready)) {
      return Optional.empty();
    }
    GraphHopper hopper = car(ready).setAllowWrites(false);
    if (!hopper.load()) {
      hopper.close();
      return Optional.empty();
    }
    return Optional.of(new GraphRoads(hopper));
  }

  /**
   * Removes the roads of an extract; nobody may have them open.
   *
   * @param ledgerFolder the ledger's folder
   * @param sha256 the fingerprint of the extract
   * @throws IOException when a file can not be deleted
   */
  public static void remove(Path ledgerFolder, String sha256) throws IOException {
    delete(folder(ledgerFolder, sha256));
  }

  @Override
  public Route between(GeoPoint from, GeoPoint to) {
    Snap start = snap(from);
    Snap end = snap(to);
    if (tooFar(start)) {
      return new Route.None("the start " + howFar(start));
    }
    if (tooFar(end)) {
      return new Route.None("the end " + howFar(end));
    }
    GHRequest request =
        new GHRequest(from.latitudeDeg(), from.longitudeDeg(), to.latitudeDeg(), to.longitudeDeg())
            .setProfile(CAR);
    request.putHint("instructions", false).putHint("calc_points", false);
    GHResponse response = hopper.route(request);
    if (response.hasErrors()) {
      return new Route.None("the map's roads do not lead from one to the other");
    }
    ResponsePath best = response.getBest();
    return new Route.Found(
        best.getTime() / 1000.0,
        best.getDistance(),
        start.getQueryDistance(),
        end.getQueryDistance());
  }

  @Override
  public void close() {
    hopper.close();
  }

  private Snap snap(GeoPoint place) {
    return hopper
        .getLocationIndex()
        .findClosest(place.latitudeDeg(), place.longitudeDeg(), forCars);
  }

  private static boolean tooFar(Snap snap) {
    return !snap.isValid() || snap.getQueryDistance() > FARTHEST_FROM_ROAD_M;
  }

  private static String howFar(Snap snap) {
    return snap.isValid()
        ? String.format(
            Locale.ROOT, "lies %.0f m from any road for cars on the map", snap.getQueryDistance())
        : "lies far from any road for cars on the map";
  }

  private static GraphHopper car(Path folder) {
    GraphHopper hopper = new GraphHopper();
    hopper.setGraphHopperLocation(folder.toString());
    hopper.setEncodedValuesString("car_access, car_average_speed");
    hopper.setProfiles(
        new Profile(CAR).setCustomModel(GHUtility.loadCustomModelFromJar("car.json")));
    hopper.getCHPreparationHandler().setCHProfiles(new CHProfile(CAR));
    return hopper;
  }

  private static Path folder(Path ledgerFolder, String sha256) {
    return ledgerFolder.resolve(FOLDER).resolve(sha256 + FORM);
  }

  private static void delete(Path folder) throws IOException {
    if (!Files.exists(folder)) {
      return;
    }
    List<Path> deepestFirst;
    try (Stream<Path> files = Files.walk(folder)) {
      deepestFirst = files.sorted(Comparator.reverseOrder()).toList();
    }
    for (Path file : deepestFirst) {
      Files.delete(file);
    }
  }
}
