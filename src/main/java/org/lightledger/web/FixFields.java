package org.lightledger.web;

import io.javalin.http.Context;
import io.javalin.http.UploadedFile;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.correction.Correction;
import org.lightledger.correction.FacingWord;
import org.lightledger.correction.PlaceWord;
import org.lightledger.correction.Taps;
import org.lightledger.correction.TimeWord;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.PlacesByTime;
import org.lightledger.shot.track.GpxReader;
import org.lightledger.shot.track.TrackLimits;
import org.lightledger.shot.track.TrackLog;
import org.lightledger.shot.track.TrackPlaces;
import org.lightledger.shot.track.UnreadableTrackException;

/** Reads a correction from the fields of a form. */
final class FixFields {
  private static final List<String> ECHOED =
      List.of(
          "zone",
          "clock",
          "of",
          "truth",
          "local",
          "handzone",
          "offset",
          "place",
          "trackclock",
          "trackof",
          "tracktruth",
          "bearing");
  private static final int MOST_SENT = 200;

  /** The minus sign of typographers and of some keyboards. */
  private static final char MINUS = '\u2212';

  private final Context ctx;
  private final Fields fields;
  private final String prefix;
  private final String fix;

  FixFields(Context ctx, Fields fields, String prefix) {
    this.ctx = ctx;
    this.fields = fields;
    this.prefix = prefix;
    this.fix = fields.raw("fix");
  }

  /** What was sent, to be shown again. */
  Map<String, String> sent() {
    Map<String, String> sent = new HashMap<>();
    for (String name : ECHOED) {
      String text = fields.raw(name(name));
      sent.put(name, text.substring(0, Math.min(text.length(), MOST_SENT)));
    }
    return sent;
  }

  /** The fix asked for. */
  String fix() {
    return fix;
  }

  /** The correction, or null when a field was bad. */
  @Nullable Correction correction() {
    return switch (fix) {
      case "zone" -> {
        ZoneId zone = zone("zone", true);
        yield time(zone == null ? null : new TimeWord.Zone(zone));
      }
      case "clock" -> {
        ClockCorrection clock = clock("clock", true);
        yield time(clock == null ? null : new TimeWord.Clock(clock));
      }
      case "clockof" -> time(clockOf("of", "truth"));
      case "hand" -> time(byHand());
      case "choice" -> time(choice());
      case "point" -> point();
      case "track" -> track();
      case "nearby" -> Correction.of(new PlaceWord.Nearby());
      case "bearing" -> bearing();
      case "tap" -> {
        Taps taps = TapFields.read(fields);
        yield taps == null ? null : Correction.of(new FacingWord.Tapped(taps));
      }
      default -> {
        fields.problem(
            name("fix"),
            "Fix",
            "expected the button of one of the fixes, found " + Fields.found(fix));
        yield null;
      }
    };
  }

  private static @Nullable Correction time(@Nullable TimeWord word) {
    return word == null ? null : Correction.of(word);
  }

  private String name(String name) {
    return prefix + "-" + name;
  }

  private @Nullable ZoneId zone(String name, boolean required) {
    String text = fields.raw(name(name));
    if (text.isEmpty() && !required) {
      return null;
    }
    try {
      return ZoneId.of(text);
    } catch (DateTimeException e) {
      fields.problem(
          name(name),
          "Zone",
          "expected a zone such as Europe/Madrid or an offset such as +02:00, found "
              + Fields.found(text));
      return null;
    }
  }

  private @Nullable ClockCorrection clock(String name, boolean required) {
    String text = fields.raw(name(name));
    if (text.isEmpty() && !required) {
      return null;
    }
    try {
      return ClockCorrection.parse(text.replace(MINUS, '-'));
    } catch (IllegalArgumentException e) {
      fields.problem(
          name(name),
          "Correction",
          "expected what to add to the camera's time, such as -1:00:00 when it is an hour ahead,"
              + " found "
              + Fields.found(text));
      return null;
    }
  }

  private @Nullable LocalDateTime local(String name, String label) {
    String text = fields.raw(name(name)).replace(' ', 'T');
    try {
      return LocalDateTime.parse(text);
    } catch (DateTimeException e) {
      fields.problem(
          name(name),
          label,
          "expected a day and a time such as 2026-05-09 19:30:00, found " + Fields.found(text));
      return null;
    }
  }

  private @Nullable TimeWord clockOf(String of, String its) {
    LocalDateTime truth = local(its, "True local time");
    String text = fields.raw(name(of));
    try {
      long shotId = Long.parseLong(text);
      return truth == null ? null : new TimeWord.ClockOf(shotId, truth);
    } catch (NumberFormatException e) {
      fields.problem(name(of), "Shot", "expected a shot of the list, found " + Fields.found(text));
      return null;
    }
  }

  private @Nullable TimeWord byHand() {
    int before = fields.problems().size();
    LocalDateTime local = local("local", "Local time");
    ZoneId zone = zone("handzone", false);
    return local == null || fields.problems().size() > before
        ? null
        : new TimeWord.ByHand(local, zone);
  }

  private @Nullable TimeWord choice() {
    String text = fields.raw(name("offset"));
    try {
      return new TimeWord.Choice(ZoneOffset.of(text));
    } catch (DateTimeException e) {
      fields.problem(
          name("offset"),
          "Which time",
          "expected one of the times listed, found " + Fields.found(text));
      return null;
    }
  }

  private @Nullable Correction point() {
    int before = fields.problems().size();
    GeoPoint point = fields.place(name("place"), "Place");
    if (point == null && fields.problems().size() == before) {
      fields.problem(
          name("place"),
          "Place",
          "expected a click on the map, or latitude and longitude such as 41.95,-6.61, found"
              + " nothing");
    }
    return point == null ? null : Correction.of(new PlaceWord.Point(point));
  }

  private @Nullable Correction track() {
    PlacesByTime places = trackPlaces();
    int before = fields.problems().size();
    TimeWord clock = trackClock();
    return places == null || fields.problems().size() > before
        ? null
        : new Correction(clock, new PlaceWord.Track(places), null);
  }

  /** How the camera's clock is put right with the track, or null when it was right. */
  private @Nullable TimeWord trackClock() {
    ClockCorrection clock = clock("trackclock", false);
    boolean ofOne =
        !fields.raw(name("trackof")).isEmpty() || !fields.raw(name("tracktruth")).isEmpty();
    if (ofOne && !fields.raw(name("trackclock")).isEmpty()) {
      fields.problem(
          name("trackclock"),
          "Correction",
          "expected either what to add to the camera's time or one shot's true time, found both");
      return null;
    }
    if (ofOne) {
      return clockOf("trackof", "tracktruth");
    }
    return clock == null ? null : new TimeWord.Clock(clock);
  }

  private @Nullable PlacesByTime trackPlaces() {
    String expected = "expected a GPX file, ";
    UploadedFile file = ctx.isMultipartFormData() ? ctx.uploadedFile(name("track")) : null;
    if (file == null || file.size() == 0) {
      fields.problem(name("track"), "Track log", expected + "found none");
      return null;
    }
    try (InputStream in = new BufferedInputStream(file.content())) {
      TrackLog log = GpxReader.read(in);
      if (log.size() > 0) {
        return new TrackPlaces(List.of(log), TrackLimits.standard());
      }
      fields.problem(
          name("track"), "Track log", expected + "found one without a point that has a time");
    } catch (UnreadableTrackException e) {
      fields.problem(name("track"), "Track log", expected + "but: " + plain(e));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return null;
  }

  /** The sentence goes on after it, so its full stop goes. */
  private static String plain(UnreadableTrackException problem) {
    String message = String.valueOf(problem.getMessage());
    return message.endsWith(".") ? message.substring(0, message.length() - 1) : message;
  }

  private @Nullable Correction bearing() {
    int before = fields.problems().size();
    Double bearing = fields.number(name("bearing"), "Bearing", 0, 360, "°");
    if (bearing == null && fields.problems().size() == before) {
      fields.problem(
          name("bearing"),
          "Bearing",
          "expected degrees from true north such as 245, found nothing");
    }
    return bearing == null ? null : Correction.of(new FacingWord.Looked(Bearing.of(bearing)));
  }
}
