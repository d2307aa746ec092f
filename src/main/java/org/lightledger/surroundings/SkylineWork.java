package org.lightledger.surroundings;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.LongConsumer;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.skyline.ShotProof;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineEvidence;
import org.lightledger.skyline.buildings.BuildingHorizon;
import org.lightledger.skyline.buildings.BuildingOptions;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.Obstructions;
import org.lightledger.skyline.terrain.ElevationSurface;
import org.lightledger.skyline.terrain.TerrainHorizon;
import org.lightledger.skyline.terrain.TerrainOptions;
import org.lightledger.store.ElevationStore;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.SkylineStore;

/**
 * Makes the skylines that are due: of spots that are new or moved, and of all that a changed source
 * touches. Safe for use by several threads; they take turns.
 */
public final class SkylineWork {
  /** So many spots are made between two writes, and lost when the work is stopped. */
  private static final int BATCH = 32;

  private final Ledger ledger;
  private final Clock clock;
  private final Elevation elevation = new Elevation();

  /**
   * The work on a ledger.
   *
   * @param ledger an open ledger
   * @param clock tells when a skyline was made
   */
  public SkylineWork(Ledger ledger, Clock clock) {
    this.ledger = ledger;
    this.clock = clock;
  }

  /** Everything around a spot that its skyline is made from. */
  private record Sources(
      SkylineStore.Due spot,
      List<Obstruction> obstructions,
      List<MeasuredSkyline.Point> measured,
      List<ShotProof> proofs) {}

  /** What is to be made, as the ledger stood at one moment. */
  private record Batch(long sourcesVersion, List<Path> elevation, List<Sources> spots) {}

  private record Made(SkylineStore.Due spot, Skyline skyline, List<String> remarks) {}

  /**
   * How many spots are waiting for their skyline.
   *
   * @return the number
   */
  public long waiting() {
    return ledger.read(session -> session.skylines().countDue());
  }

  /**
   * Makes all that are due.
   *
   * @param made is told how many have been made so far
   * @param stop asked between batches; true ends the work, and what is made is kept
   * @return how many were made
   * @throws UnreadableElevationException when an elevation file can not be read; skylines that were
   *     made with it stay as they are
   */
  public synchronized long makeDue(LongConsumer made, BooleanSupplier stop) {
    long count = 0;
    while (!stop.getAsBoolean()) {
      Batch batch = ledger.read(SkylineWork::next);
      if (batch.spots().isEmpty()) {
        break;
      }
      count += make(batch);
      made.accept(count);
    }
    return count;
  }

  private static Batch next(LedgerSession session) {
    return new Batch(
        session.skylines().sourcesVersion(),
        session.elevation().all().stream().map(ElevationStore.ElevationFile::path).toList(),
        session.skylines().due(BATCH).stream().map(due -> sources(session, due)).toList());
  }

  private static Sources sources(LedgerSession session, SkylineStore.Due due) {
    return new Sources(
        due,
        session.obstructions().near(due.place(), BuildingOptions.STANDARD.rangeM()),
        session.skylines().measured(due.spotId()),
        session.skylines().proofs(due.spotId()));
  }

  private long make(Batch batch) {
    ElevationSurface surface = elevation.of(batch.elevation());
    List<Made> made = batch.spots().parallelStream().map(spot -> make(spot, surface)).toList();
    Instant now = clock.instant();
    return ledger.write(
        session -> {
          if (session.skylines().sourcesVersion() != batch.sourcesVersion()) {
            return 0L;
          }
          for (Made one : made) {
            session.skylines().put(one.spot(), one.skyline(), one.remarks(), now);
          }
          return (long) made.size();
        });
  }

  private static Made make(Sources sources, @Nullable ElevationSurface surface) {
    GeoPoint place = sources.spot().place();
    List<String> remarks = new ArrayList<>();
    Skyline skyline = land(place, surface, remarks);
    if (!sources.obstructions().isEmpty()) {
      BuildingHorizon horizon =
          Obstructions.of(sources.obstructions(), surface).around(place, BuildingOptions.STANDARD);
      horizon.inside().stream().map(SkylineWork::insideOf).distinct().forEach(remarks::add);
      skyline = horizon.onto(skyline);
    }
    if (!sources.measured().isEmpty()) {
      skyline = MeasuredSkyline.onto(sources.measured(), skyline);
    }
    SkylineEvidence.Result proven = SkylineEvidence.apply(skyline, sources.proofs());
    proven.corrections().stream().map(SkylineEvidence.Correction::toText).forEach(remarks::add);
    proven.contradictions().stream()
        .map(SkylineEvidence.Contradiction::toText)
        .forEach(remarks::add);
    return new Made(sources.spot(), proven.skyline(), remarks);
  }

  private static Skyline land(
      GeoPoint place, @Nullable ElevationSurface surface, List<String> remarks) {
    if (surface == null) {
      return Skyline.notKnown();
    }
    return TerrainHorizon.around(surface, place, TerrainOptions.STANDARD)
        .map(TerrainHorizon::skyline)
        .orElseGet(
            () -> {
              remarks.add("No elevation is known at this place, so the land around it is not.");
              return Skyline.notKnown();
            });
  }

  private static String insideOf(Obstruction obstruction) {
    String what =
        switch (obstruction.kind()) {
          case BUILDING -> "a building";
          case TREE -> "a tree";
          case TREE_ROW -> "a row of trees";
          case WOOD -> "a wood";
        };
    return "The spot lies inside the outline of "
        + what
        + " ("
        + obstruction.id()
        + "), which is left out. Whether something stands over it is not known, so the sun is never"
        + " said to reach it: look at its position, measure by hand, or say of shots what they show.";
  }
}
