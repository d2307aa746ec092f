package org.lightledger.web;

import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Problem;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredShot;
import org.lightledger.web.AttentionPage.Kind;

/** Turns waiting shots into what the tray shows. */
final class AttentionViews {
  /** More pictures make the page slow on a phone; own choice. */
  static final int MOST_SHOWN = 96;

  private AttentionViews() {}

  /** The shots by what they lack; one that lacks two things is in two groups. */
  static Map<Kind, List<StoredShot>> groups(LedgerSession session) {
    Map<Kind, List<StoredShot>> groups = new EnumMap<>(Kind.class);
    for (StoredShot stored : session.shots().needingAttention()) {
      for (Kind kind : Kind.values()) {
        if (stored.shot().problems().stream().anyMatch(problem -> isOf(kind, problem))) {
          groups.computeIfAbsent(kind, any -> new ArrayList<>()).add(stored);
        }
      }
    }
    List<StoredShot> undirected = session.shots().withoutFacing(MOST_SHOWN);
    if (!undirected.isEmpty()) {
      groups.put(Kind.WAY, undirected);
    }
    return groups;
  }

  private static boolean isOf(Kind kind, Problem problem) {
    return switch (problem.kind()) {
      case TIME_MISSING -> kind == Kind.TIME;
      case TIME_AMBIGUOUS -> kind == Kind.CHOICE;
      case POSITION_MISSING, POSITION_REFUSED -> kind == Kind.PLACE;
      case UNREADABLE,
          FORMAT_NOT_READ,
          TIME_CONTRADICTED,
          POSITION_CONTRADICTED,
          DIRECTION_CONTRADICTED,
          SIDECAR_USED,
          DIRECTION_MISSING,
          DIRECTION_REFUSED,
          EXPOSURE_INCOMPLETE,
          METADATA_DAMAGED ->
          false;
    };
  }

  static AttentionPage.Row row(Kind kind, StoredShot stored, Set<Long> ticked) {
    List<String> reasons = new ArrayList<>();
    boolean more = false;
    for (Problem problem : stored.shot().problems()) {
      if (isOf(kind, problem)) {
        reasons.add(problem.message());
      } else if (problem.kind().needsAttention()) {
        more = true;
      }
    }
    if (more) {
      reasons.add(
          kind == Kind.PLACE ? "Its time is missing as well." : "Its place is missing as well.");
    }
    return new AttentionPage.Row(
        stored.id(),
        name(stored),
        SpotViews.when(stored.shot().time()),
        reasons,
        ticked.contains(stored.id()));
  }

  static List<FixForm.Choice> choices(List<StoredShot> shots) {
    List<FixForm.Choice> choices = new ArrayList<>();
    for (StoredShot stored : shots.subList(0, Math.min(shots.size(), MOST_SHOWN))) {
      if (stored.shot().evidence().localTime() != null) {
        choices.add(
            new FixForm.Choice(
                String.valueOf(stored.id()),
                name(stored)
                    + ", camera said "
                    + String.valueOf(stored.shot().evidence().localTime()).replace('T', ' ')));
      }
    }
    return choices;
  }

  /**
   * The offsets of all times that fit, with what each means. They come in the order of their
   * moments: of one local time, the one with the greater offset is the earlier.
   */
  static List<FixForm.Choice> offsets(List<StoredShot> shots) {
    Map<ZoneOffset, List<OffsetDateTime>> byOffset = new TreeMap<>();
    for (StoredShot stored : shots) {
      if (stored.shot().time() instanceof CaptureTime.Ambiguous ambiguous) {
        for (OffsetDateTime candidate : ambiguous.candidates()) {
          byOffset.computeIfAbsent(candidate.getOffset(), any -> new ArrayList<>()).add(candidate);
        }
      }
    }
    List<FixForm.Choice> choices = new ArrayList<>();
    byOffset.forEach(
        (offset, times) -> {
          String which =
              byOffset.size() != 2
                  ? ""
                  : choices.isEmpty() ? ", the earlier moment" : ", the later moment";
          String what =
              times.size() == 1
                  ? Words.hour(times.get(0).withOffsetSameInstant(ZoneOffset.UTC)) + " UTC"
                  : Words.count(times.size(), "shot", "shots");
          String at = offset.equals(ZoneOffset.UTC) ? "at UTC" : "at UTC" + offset.getId();
          choices.add(new FixForm.Choice(offset.getId(), at + which + ": " + what));
        });
    return choices;
  }

  static AttentionPage.Place place(Spot spot) {
    return new AttentionPage.Place(
        spot.name(),
        SpotViews.coordinate(spot.position().latitudeDeg()),
        SpotViews.coordinate(spot.position().longitudeDeg()));
  }

  static String name(StoredShot stored) {
    if (stored.files().isEmpty()) {
      return "file gone";
    }
    Path path = stored.files().get(0);
    Path last = path.getFileName();
    return last == null ? path.toString() : last.toString();
  }
}
