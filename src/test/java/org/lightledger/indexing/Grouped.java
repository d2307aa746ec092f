package org.lightledger.indexing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Exposure;
import org.lightledger.shot.Shot;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.spot.Spot;
import org.lightledger.store.DroppedSpot;
import org.lightledger.store.GroupingStore;
import org.lightledger.store.Ledger;
import org.lightledger.store.Standing;
import org.lightledger.store.StoredShot;

/** A ledger to which shots are added by their places, each placed as an import does it. */
final class Grouped implements AutoCloseable {
  static final GeoPoint HERE = new GeoPoint(41.93, -6.42);
  static final double JOIN_M = ImportOptions.STANDARD_JOIN_DISTANCE_M;

  private static final PlaceZones ZONES = new PlaceZones();
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC);

  private final Ledger ledger;
  private final Map<String, Long> shots = new LinkedHashMap<>();

  Grouped(Path folder) {
    ledger = Ledger.open(folder, CLOCK);
  }

  /** An empty ledger to copy, because making one costs more than a try of a property. */
  static byte[] empty(Path folder) {
    Ledger.open(folder, CLOCK).close();
    try {
      return Files.readAllBytes(folder.resolve("ledger.gpkg"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Grouped copyOf(byte[] empty, Path folder) {
    try {
      Files.createDirectories(folder);
      Files.write(folder.resolve("ledger.gpkg"), empty);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return new Grouped(folder);
  }

  /** A change by the owner's hand. */
  @FunctionalInterface
  interface Edit {
    void in(SpotEditing editing);
  }

  Ledger ledger() {
    return ledger;
  }

  /** Adds a shot as an import does; one with a known name is not added again. */
  long add(String name, GeoPoint place, @Nullable Double errorM) {
    Shot.Position position = new Shot.Position(place, Shot.PositionSource.GPS, errorM);
    long id =
        ledger.write(
            session -> {
              String sha256 = sha256(name);
              if (session.shots().idOf(sha256).isPresent()) {
                return session.shots().idOf(sha256).orElseThrow();
              }
              SpotPlacing placing = new SpotPlacing(session, ZONES, JOIN_M);
              long made = session.shots().insert(shot(position), sha256, null, null);
              placing.place(made, position);
              placing.learnFacings();
              return made;
            });
    shots.put(name, id);
    return id;
  }

  private static Shot shot(Shot.Position position) {
    Evidence evidence =
        new Evidence(
            "JPEG",
            null,
            null,
            null,
            null,
            position.point(),
            null,
            position.errorM(),
            null,
            new Exposure(null, null, null),
            null,
            1,
            null,
            null,
            null,
            List.of());
    return new Shot(
        evidence, new CaptureTime.Unknown(null, "not asked"), position, null, List.of());
  }

  private static String sha256(String name) {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(name.getBytes(StandardCharsets.UTF_8));
      return String.format(Locale.ROOT, "%064x", new BigInteger(1, digest));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  void edit(Edit edit) {
    ledger.change(session -> edit.in(new SpotEditing(session, ZONES, JOIN_M)));
  }

  List<Spot> spots() {
    return ledger.read(session -> session.spots().all());
  }

  Spot spot(long id) {
    return ledger.read(session -> session.spots().find(id)).orElseThrow();
  }

  long shot(String name) {
    return shots.getOrDefault(name, 0L);
  }

  GroupingStore.Source source(long shotId) {
    return ledger.read(session -> session.grouping().source(shotId)).orElseThrow();
  }

  List<DroppedSpot> dropped() {
    return ledger.read(session -> session.droppedSpots().all());
  }

  Standing standing(long spotId) {
    return ledger.read(session -> session.grouping().standing(spotId, JOIN_M)).orElseThrow();
  }

  /** The spot of each shot that has one. */
  Map<String, Long> home() {
    Map<String, Long> homes = new TreeMap<>();
    ledger.read(
        session -> {
          shots.forEach(
              (name, id) ->
                  session
                      .shots()
                      .find(id)
                      .map(StoredShot::spotId)
                      .ifPresent(spot -> homes.put(name, spot)));
          return homes.size();
        });
    return homes;
  }

  Map<Long, GeoPoint> positions() {
    Map<Long, GeoPoint> positions = new TreeMap<>();
    spots().forEach(spot -> positions.put(spot.id(), spot.position()));
    return positions;
  }

  List<GeoPoint> anchors(long spotId) {
    return ledger.read(
        session ->
            session.anchors().ofSpot(spotId).stream().map(anchor -> anchor.place()).toList());
  }

  @Override
  public void close() {
    ledger.close();
  }
}
