package org.lightledger.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.SpotDay;
import org.lightledger.geo.GeoPoint;
import org.lightledger.indexing.Importer;
import org.lightledger.indexing.JoinDistance;
import org.lightledger.indexing.SpotEditing;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SunOnSubject;
import org.lightledger.spot.LightProfile;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.SkylineStore;
import org.lightledger.store.Standing;
import org.lightledger.store.StoredSkyline;
import org.lightledger.sun.SunEphemeris;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "spot",
    description = {
      "Shows the light profile of one spot, after changing it if asked to.",
      "What is changed by hand is never undone by an import."
    })
final class SpotVerb extends Verb {
  @Parameters(paramLabel = "ID", description = "The spot's number, as \"spots\" lists it.")
  private long spotId;

  @Option(
      names = "--on",
      paramLabel = "DATE",
      description = "The local day whose direct sun is told; today if not given.")
  private @Nullable LocalDate on;

  @ArgGroup private @Nullable Change change;

  SpotVerb(Services services) {
    super(services);
  }

  /** One change at a time. */
  static final class Change {
    @Option(
        names = "--join",
        paramLabel = "OTHER",
        description = "Another spot becomes part of this one.")
    private @Nullable Long other;

    @Option(
        names = "--split",
        paramLabel = "SHOT",
        split = ",",
        description = "Splits shots, by their numbers, off into a new spot.")
    private @Nullable List<Long> parting;

    @Option(
        names = "--take",
        paramLabel = "SHOT",
        split = ",",
        description = "Moves shots, by their numbers, from other spots to this one.")
    private @Nullable List<Long> coming;

    @Option(
        names = "--move-to",
        paramLabel = "LAT,LON",
        description = "Moves the spot; from then on its shots do not move it.")
    private @Nullable String position;

    @Option(
        names = "--position-from-shots",
        description = "Takes --move-to back: the shots say where the spot is.")
    private boolean released;

    @Option(names = "--name", paramLabel = "NAME", description = "Names the spot.")
    private @Nullable String name;

    @Option(
        names = "--measured",
        paramLabel = "FILE.csv",
        description =
            "Keeps a skyline measured at the spot: lines of azimuth and altitude in degrees.")
    private @Nullable Path measured;

    @Option(
        names = "--sun-on-subject",
        paramLabel = "SHOT=yes|no|dappled|unknown",
        description = "Says what a shot, by its number, shows: direct sun, shade, or both.")
    private @Nullable Map<Long, String> sunOnSubject;

    @Option(
        names = "--traits",
        split = ",",
        paramLabel = "TRAIT",
        description = "Says what the spot is and has, as in \"ask --with\"; none for nothing.")
    private @Nullable List<String> traits;

    @Option(
        names = "--delete",
        description = "Deletes the spot; its shots stay, and no import makes it again.")
    private boolean deleted;

    @Option(names = "--bring-back", description = "Takes --delete back.")
    private boolean broughtBack;

    /** Keeps what the owner says of the place; tells in words what was done, if it was that. */
    private @Nullable String keep(LedgerSession session, long spotId) {
      SkylineStore skylines = session.skylines();
      List<String> codes = traits;
      if (codes != null) {
        Set<Trait> kept = EnumSet.noneOf(Trait.class);
        codes.stream().filter(code -> !code.equals("none")).map(Trait::parse).forEach(kept::add);
        session.traits().set(spotId, kept);
        return "Kept what spot " + spotId + " is and has.";
      }
      Path file = measured;
      Map<Long, String> seen = sunOnSubject;
      if (file != null) {
        List<MeasuredSkyline.Point> points = readPoints(file);
        skylines.measure(spotId, points);
        return points.size() + " measured points are kept.";
      }
      if (seen != null) {
        seen.forEach((shotId, word) -> skylines.setSunOnSubject(shotId, sunOnSubject(word)));
        return "Kept what the shots " + seen.keySet() + " show.";
      }
      return null;
    }

    private static List<MeasuredSkyline.Point> readPoints(Path file) {
      try {
        return MeasuredSkyline.read(file);
      } catch (IOException e) {
        throw new IllegalArgumentException(
            "--measured: expected a file that can be read, found " + file, e);
      }
    }

    private static @Nullable SunOnSubject sunOnSubject(String word) {
      return switch (word.strip().toLowerCase(Locale.ROOT)) {
        case "yes" -> SunOnSubject.YES;
        case "no" -> SunOnSubject.NO;
        case "dappled" -> SunOnSubject.DAPPLED;
        case "unknown" -> null;
        default ->
            throw new IllegalArgumentException(
                "--sun-on-subject: expected yes, no, dappled or unknown, found \"" + word + "\"");
      };
    }

    /** Changes the ledger and tells in words what was done. */
    private String apply(SpotEditing editing, long spotId) {
      Long joined = other;
      List<Long> off = parting;
      List<Long> on = coming;
      String place = position;
      String words = name;
      if (joined != null) {
        editing.join(spotId, joined);
        return "Spot " + joined + " is now part of spot " + spotId + ".";
      }
      if (off != null) {
        long made = editing.split(spotId, off);
        return "Split off into spot "
            + made
            + "; \"spot "
            + spotId
            + " --join "
            + made
            + "\" takes it back.";
      }
      if (on != null) {
        editing.moveShots(on, spotId);
        return "Moved to spot " + spotId + ": shots " + on + ".";
      }
      if (place != null) {
        editing.moveTo(spotId, GeoPoint.parse(place));
        return "Moved spot " + spotId + "; \"--position-from-shots\" takes it back.";
      }
      if (words != null) {
        editing.name(spotId, words);
        return "Named spot " + spotId + ".";
      }
      if (deleted) {
        editing.delete(spotId);
        return "Deleted spot " + spotId + "; \"spot " + spotId + " --bring-back\" takes it back.";
      }
      if (broughtBack) {
        editing.bringBack(spotId);
        return "Brought back spot " + spotId + ".";
      }
      editing.release(spotId);
      return "The shots of spot " + spotId + " say where it is.";
    }
  }

  @Override
  public Integer call() {
    try (Ledger ledger = open()) {
      Change asked = change;
      if (asked != null) {
        Importer importer = services.importer(ledger);
        note(
            ledger.write(
                session -> {
                  String kept = asked.keep(session, spotId);
                  return kept == null ? asked.apply(importer.editing(session), spotId) : kept;
                }));
      }
      if (asked == null || !asked.deleted) {
        makeSkylines(ledger);
        Shown shown = ledger.read(this::shown);
        SpotSkyline around = shown.around(services.sun(), day());
        print(
            () -> SpotOutput.json(shown.profile(), shown.standing(), around),
            () -> SpotOutput.text(shown.profile(), shown.standing(), around));
      } else {
        print(() -> Json.fields().put("deleted", spotId).map(), () -> "");
      }
    }
    return 0;
  }

  private LocalDate day() {
    LocalDate day = on;
    return day == null ? LocalDate.ofInstant(services.clock().instant(), ZoneOffset.UTC) : day;
  }

  private record Shown(LightProfile profile, Standing standing, @Nullable StoredSkyline skyline) {
    SpotSkyline around(SunEphemeris sun, LocalDate day) {
      Skyline angles = skyline == null ? null : skyline.skyline();
      Spot spot = profile.spot();
      return new SpotSkyline(
          angles,
          skyline == null ? List.of() : skyline.remarks(),
          spot.zone() == null ? null : SpotDay.of(sun, spot.position(), spot.zone(), day, angles));
    }
  }

  private Shown shown(LedgerSession session) {
    LightProfile profile =
        session
            .spots()
            .profile(spotId)
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "expected the number of a spot, found "
                            + spotId
                            + ", which the ledger does not have; \"spots\" lists them"));
    return new Shown(
        profile,
        session.grouping().standing(spotId, JoinDistance.of(session)).orElseThrow(),
        session.skylines().find(spotId).orElse(null));
  }
}
