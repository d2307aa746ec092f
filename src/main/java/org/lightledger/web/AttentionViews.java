package org.lightledger.web;

import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredShot;
import org.lightledger.web.AttentionPage.Kind;

/** Turns waiting shots into what the tray shows. */
final class AttentionViews {
  /** More pictures make the page slow on a phone; own choice. */
  static final int MOST_SHOWN = 96;

  private static final DateTimeFormatter READING =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss", Locale.ROOT);

  private AttentionViews() {}

  /** The shots by what they lack, each in one group. */
  static Map<Kind, List<StoredShot>> groups(LedgerSession session) {
    Map<Kind, List<StoredShot>> groups = new EnumMap<>(Kind.class);
    for (StoredShot stored : session.shots().needingAttention()) {
      groups.computeIfAbsent(kind(stored.shot()), any -> new ArrayList<>()).add(stored);
    }
    List<StoredShot> undirected = session.shots().withoutFacing(MOST_SHOWN);
    if (!undirected.isEmpty()) {
      groups.put(Kind.WAY, undirected);
    }
    return groups;
  }

  private static Kind kind(Shot shot) {
    if (shot.time() instanceof CaptureTime.Known) {
      return Kind.PLACE;
    }
    if (shot.position() == null) {
      return Kind.BOTH;
    }
    return shot.time() instanceof CaptureTime.Ambiguous ? Kind.CHOICE : Kind.TIME;
  }

  /** The shots by folder and reasons, most first, then in the order of the first of each. */
  static List<AttentionPage.Batch> batches(Kind kind, List<StoredShot> shots, Set<Long> ticked) {
    record Alike(String folder, List<String> reasons) {}
    Map<Alike, List<AttentionPage.Row>> alike = new LinkedHashMap<>();
    for (StoredShot stored : shots) {
      List<String> reasons =
          kind == Kind.WAY
              ? List.of()
              : stored.shot().problems().stream()
                  .filter(problem -> problem.kind().needsAttention())
                  .map(Problem::message)
                  .toList();
      alike
          .computeIfAbsent(new Alike(folder(stored), reasons), any -> new ArrayList<>())
          .add(
              new AttentionPage.Row(
                  stored.id(), name(stored), when(stored.shot()), ticked.contains(stored.id())));
    }
    List<AttentionPage.Batch> batches = new ArrayList<>();
    alike.forEach(
        (of, rows) ->
            batches.add(
                new AttentionPage.Batch(
                    (rows.size() == 1 ? "1 shot" : "These " + rows.size() + " shots")
                        + (of.folder().isEmpty() ? "" : " of " + of.folder()),
                    of.reasons(),
                    rows)));
    batches.sort(
        Comparator.comparingInt((AttentionPage.Batch batch) -> batch.rows().size()).reversed());
    return batches;
  }

  private static String when(Shot shot) {
    LocalDateTime reading = shot.evidence().localTime();
    return shot.time() instanceof CaptureTime.Unknown && reading != null
        ? "camera: "
            + Words.shortDay(reading.toLocalDate())
            + ", "
            + Words.hour(reading.toLocalTime())
        : SpotViews.when(shot.time());
  }

  /** The shots whose true time can be given. */
  static List<FixForm.Reading> readings(List<StoredShot> shots) {
    List<FixForm.Reading> readings = new ArrayList<>();
    for (StoredShot stored : shots.subList(0, Math.min(shots.size(), MOST_SHOWN))) {
      LocalDateTime reading = stored.shot().evidence().localTime();
      if (reading != null) {
        String whole = READING.format(reading);
        readings.add(
            new FixForm.Reading(
                String.valueOf(stored.id()),
                whole,
                name(stored) + ", camera said " + whole.replace('T', ' ')));
      }
    }
    return readings;
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

  private static String folder(StoredShot stored) {
    Path folder = stored.files().isEmpty() ? null : stored.files().get(0).getParent();
    Path last = folder == null ? null : folder.getFileName();
    return last == null ? "" : last.toString();
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
