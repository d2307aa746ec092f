package org.lightledger.cli;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.indexing.Importer;
import org.lightledger.indexing.JoinDistance;
import org.lightledger.indexing.SpotEditing;
import org.lightledger.spot.LightProfile;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.Standing;
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
        names = "--delete",
        description = "Deletes the spot; its shots stay, and no import makes it again.")
    private boolean deleted;

    @Option(names = "--bring-back", description = "Takes --delete back.")
    private boolean broughtBack;

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
        note(ledger.write(session -> asked.apply(importer.editing(session), spotId)));
      }
      if (asked == null || !asked.deleted) {
        Shown shown = ledger.read(this::shown);
        print(
            () -> SpotOutput.json(shown.profile(), shown.standing()),
            () -> SpotOutput.text(shown.profile(), shown.standing()));
      } else {
        print(() -> Json.fields().put("deleted", spotId).map(), () -> "");
      }
    }
    return 0;
  }

  private record Shown(LightProfile profile, Standing standing) {}

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
        profile, session.grouping().standing(spotId, JoinDistance.of(session)).orElseThrow());
  }
}
