package org.lightledger.shot;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TimeZone;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestReporter;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.magnetic.WorldMagneticModel;
import org.lightledger.shot.Problem.Kind;
import org.lightledger.shot.exif.EvidenceReader;
import org.lightledger.shot.exif.UnreadableImageException;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.testing.Reference;

/**
 * Real camera files against what an independent reader says of them. Each file is right, or has a
 * named problem, or is listed here with the reason why this project says something else.
 */
class ReferencePhotosTest {
  private static final ShotRules RULES = new ShotRules(new PlaceZones());
  private static final DateTimeFormatter EXIF_TIME =
      DateTimeFormatter.ofPattern("yyyy:MM:dd HH:mm:ss", Locale.ROOT);

  /** Formats that this project calls by another name than the table. */
  private static final Map<String, String> NAMES =
      Map.of(
          "Extended WEBP", "WebP",
          "HEIF", "HEIC",
          "JXL", "JPEG XL",
          "JXL Codestream", "JPEG XL");

  /** Files that are named and not read, and why. */
  private static final Map<String, String> NOT_READ =
      Map.of(
          "exiftool/CanonRaw.crw", "a container of its own, without Exif",
          "exiftool/JXL2.jxl", "its Exif box is compressed with Brotli",
          "exiftool/QuickTime.mov", "a film",
          "exiftool/Sigma.x3f", "it has no Exif; later cameras write it");

  /** What is said of those whose format is read. */
  private static final Map<String, String> SAID =
      Map.of(
          "exiftool/JXL2.jxl", "This JPEG XL file holds its Exif compressed,",
          "exiftool/Sigma.x3f", "This X3F file holds no Exif,");

  /** Where this project says something else, field by field, and why. */
  private static final Map<String, String> DIFFERENT = different();

  /** By format and field: right / with a named problem / different for a reason listed below. */
  private static final List<String> COUNTS =
      List.of(
          "ARW: 1 read, time 0/1/0, place 0/1/0, direction 0/1/0, exposure 1/0/0, upright 1/0/0",
          "AVIF: 1 read, time 1/0/0, place 1/0/0, direction 1/0/0, exposure 1/0/0, upright 1/0/0",
          "CR2: 2 read, time 0/2/0, place 0/2/0, direction 0/2/0, exposure 2/0/0, upright 2/0/0",
          "CR3: 1 read, time 1/0/0, place 0/1/0, direction 0/1/0, exposure 1/0/0, upright 1/0/0",
          "CRW: 1 not read",
          "DNG: 2 read, time 0/2/0, place 0/2/0, direction 0/2/0, exposure 2/0/0, upright 2/0/0",
          "HEIC: 4 read, time 3/1/0, place 3/1/0, direction 2/2/0, exposure 3/1/0, upright 4/0/0",
          "IIQ: 1 read, time 0/1/0, place 0/1/0, direction 0/1/0, exposure 1/0/0, upright 1/0/0",
          "JPEG: 91 read, time 25/58/8, place 25/63/3, direction 10/81/0, exposure 44/33/14, upright 91/0/0",
          "JPEG XL: 1 read, time 0/1/0, place 0/1/0, direction 0/1/0, exposure 0/1/0, upright 1/0/0; 1 not read",
          "MOV: 1 not read",
          "MRW: 1 read, time 0/1/0, place 0/1/0, direction 0/1/0, exposure 1/0/0, upright 1/0/0",
          "NEF: 2 read, time 0/2/0, place 0/2/0, direction 0/2/0, exposure 1/1/0, upright 2/0/0",
          "PEF: 1 read, time 0/0/1, place 1/0/0, direction 1/0/0, exposure 1/0/0, upright 1/0/0",
          "PNG: 2 read, time 1/1/0, place 1/1/0, direction 1/1/0, exposure 1/1/0, upright 2/0/0",
          "RAF: 1 read, time 0/1/0, place 0/1/0, direction 0/1/0, exposure 1/0/0, upright 1/0/0",
          "RW2: 1 read, time 0/1/0, place 0/1/0, direction 0/1/0, exposure 1/0/0, upright 1/0/0",
          "TIFF: 2 read, time 0/2/0, place 0/2/0, direction 0/2/0, exposure 0/2/0, upright 2/0/0",
          "WebP: 3 read, time 2/1/0, place 2/1/0, direction 1/2/0, exposure 1/2/0, upright 3/0/0",
          "X3F: 1 read, time 0/1/0, place 0/1/0, direction 0/1/0, exposure 1/0/0, upright 1/0/0; 1 not read");

  private static Map<String, String> different() {
    Map<String, String> map = new TreeMap<>();
    // The other reader gives up on these damaged files; what they still say is read here, and each
    // has the problem METADATA_DAMAGED.
    map.put("bep/2216-11-15-11-46-51-sep-2216-11-15-11-46-51a.jpg exposure", "0.001016 4.8 80.0");
    map.put(
        "bep/2216-11-15-11-46-51-sep-2216-11-15-11-46-51a.jpg time", "reading 2216-11-15T11:46:51");
    map.put("bep/huge_tag_exif.jpg place", "at 38.883264,-104.871433");
    map.put("bep/max_uint32_exif.jpg place", "at 38.883264,-104.871433");
    // The position is written as text with decimal commas, "52,00000,50,00000,34,01180". The other
    // reader takes the fraction of the degrees for the minutes; read as 52 degrees 50 minutes 34
    // seconds, the GPS time beside it in the same writing, 17:08:29, fits the clock at UTC+2.
    map.put("bep/geodegrees_as_string.jpg place", "at 52.842781,11.182857");
    // The clock contradicts the zone, which the table assumes to be right; GPS date and time prove
    // the clock to be at UTC+4 in Germany, at UTC+1 in Spain in summer, at UTC+2 in Norway in
    // winter.
    map.put("bep/jølstravatnet.pef time", "known as 2021-02-05T08:56:53Z");
    map.put("bep/withPanasonicFaces.jpg time", "known as 2010-06-24T10:17:04Z");
    map.put("exiftool/Ricoh2.jpg time", "known as 2006-05-26T10:48:48Z");
    // The GPS time of day, without a date, contradicts the zone; the table assumes the zone.
    map.put(
        "mei/Apple iPhone 4.jpg time",
        "ambiguous [2011-01-13T14:33:39+01:00, 2011-01-13T14:33:39Z]");
    map.put(
        "mei/FujiFilm FinePixS2Pro.jpg time",
        "ambiguous [2002-08-24T13:59:08+02:00, 2002-08-24T13:59:08+01:00]");
    // The table takes a zone from the place 0,0, which is refused here.
    map.put("mei/Issue 308.jpg time", "unknown");
    map.put("mei/Samsung GT-I9000 (Galaxy S).jpg time", "unknown");
    // The table has no position, and so no time, for seconds of 0/0; the XMP packet confirms the
    // degrees and minutes.
    map.put("mei/Nikon D5000.jpg time", "known as 2011-03-12T14:36:11Z");
    // Only APEX values, or an f-number of 0.2 that no lens has.
    map.put("bep/geodegrees_as_string.jpg exposure", "null 2.0 125.0");
    map.put("bep/withUncompressedYCbCrThumbnail4.jpg exposure", "0.011048543456039806 8.0 null");
    map.put("exiftool/ExifTool.jpg exposure", "0.015625 3.5 100.0");
    map.put("exiftool/FujiFilm.jpg exposure", "0.015625 3.5 100.0");
    map.put("exiftool/GPS.jpg exposure", "0.0013810679320049757 0.640234375 null");
    map.put("exiftool/Ricoh.jpg exposure", "0.003644660123190655 2.6390158215457884 150.0");
    map.put("exiftool/XMP.jpg exposure", "0.015625 3.5 100.0");
    map.put("mei/FujiFilm DS-7 (1).jpg exposure", "0.015625 2.2191389441356897 null");
    map.put("mei/FujiFilm FinePixS1Pro (1).jpg exposure", "0.0013810679320049757 0.640234375 null");
    map.put("mei/FujiFilm FinePixS1Pro (3).jpg exposure", "0.05812237484390964 null null");
    map.put("mei/FujiFilm FinePixS1Pro (4).jpg exposure", "0.05812237484390964 null null");
    map.put("mei/FujiFilm FinePixS2Pro.jpg exposure", "0.07348930673173533 null null");
    map.put("mei/Ricoh DC-3Z (low res).jpg exposure", "0.00390625 4.0 null");
    return map;
  }

  private record Outcome(
      Map<String, String> truth, @Nullable Shot shot, @Nullable Problem problem) {
    String file() {
      return text("file");
    }

    String text(String column) {
      return Objects.requireNonNull(truth.get(column), column);
    }

    String format() {
      return NAMES.getOrDefault(text("type"), text("type"));
    }

    boolean has(Kind kind) {
      return shot != null && shot.problems().stream().anyMatch(p -> p.kind() == kind);
    }
  }

  private static List<Outcome> outcomes() throws IOException {
    List<Outcome> outcomes = new ArrayList<>();
    for (Map<String, String> row : Reference.csv("photos/truth.csv")) {
      byte[] content = Files.readAllBytes(Reference.path("photos/" + row.get("file")));
      try {
        Shot shot = RULES.conclude(EvidenceReader.read(content), null);
        outcomes.add(new Outcome(row, shot, null));
      } catch (UnreadableImageException e) {
        outcomes.add(new Outcome(row, null, e.problem()));
      }
    }
    return outcomes;
  }

  @Test
  void everyFileIsRightOrNamedOrListedWithAReason(TestReporter reporter) throws IOException {
    Map<String, String> found = new TreeMap<>();
    Map<String, Map<String, Integer>> counts = new TreeMap<>();
    List<String> notRead = new ArrayList<>();
    for (Outcome outcome : outcomes()) {
      Shot shot = outcome.shot();
      if (shot == null) {
        Problem problem = Objects.requireNonNull(outcome.problem());
        assertThat(problem.kind()).as(outcome.file()).isEqualTo(Kind.FORMAT_NOT_READ);
        assertThat(problem.message())
            .as(outcome.file())
            .startsWith(
                SAID.getOrDefault(
                    outcome.file(), "This is a file of the format " + outcome.format() + ","));
        notRead.add(outcome.file());
        counts
            .computeIfAbsent(outcome.format(), format -> new TreeMap<>())
            .merge("named", 1, Integer::sum);
        continue;
      }
      assertThat(shot.evidence().format()).as(outcome.file()).isEqualTo(outcome.format());
      Map<String, Integer> ofFormat =
          counts.computeIfAbsent(outcome.format(), format -> new TreeMap<>());
      ofFormat.merge("read", 1, Integer::sum);
      Map<String, String> verdicts = new LinkedHashMap<>();
      verdicts.put("time", time(outcome, shot));
      verdicts.put("place", place(outcome, shot));
      verdicts.put("direction", direction(outcome, shot));
      verdicts.put("exposure", exposure(outcome, shot));
      verdicts.put("upright", upright(outcome, shot));
      verdicts.forEach(
          (field, verdict) -> {
            boolean plain = verdict.equals("right") || verdict.equals("named");
            ofFormat.merge(field + (plain ? " " + verdict : " different"), 1, Integer::sum);
            if (!plain) {
              found.put(outcome.file() + " " + field, verdict);
            }
          });
    }
    List<String> table =
        counts.entrySet().stream().map(e -> line(e.getKey(), e.getValue())).toList();
    reporter.publishEntry("counts", String.join("\n", table));
    assertThat(table).containsExactlyElementsOf(COUNTS);
    assertThat(notRead).containsExactlyInAnyOrderElementsOf(NOT_READ.keySet());
    assertThat(found).containsExactlyInAnyOrderEntriesOf(DIFFERENT);
  }

  private static String line(String format, Map<String, Integer> counts) {
    String notRead = counts.containsKey("named") ? counts.get("named") + " not read" : "";
    if (!counts.containsKey("read")) {
      return format + ": " + notRead;
    }
    StringBuilder line = new StringBuilder(format);
    line.append(": ").append(counts.get("read")).append(" read");
    for (String field : List.of("time", "place", "direction", "exposure", "upright")) {
      line.append(", ").append(field);
      for (String verdict : List.of(" right", " named", " different")) {
        line.append(verdict.equals(" right") ? " " : "/");
        line.append(counts.getOrDefault(field + verdict, 0));
      }
    }
    return line.append(notRead.isEmpty() ? "" : "; " + notRead).toString();
  }

  private static String time(Outcome outcome, Shot shot) {
    LocalDateTime local = shot.evidence().localTime();
    String written = outcome.text("datetime_original");
    boolean readable = written.matches("[1-9].*");
    if (readable != (local != null)
        || (local != null && !EXIF_TIME.format(local).equals(written))) {
      return "reading " + local;
    }
    List<Instant> accepted =
        Stream.of("utc_by_offset_tag", "utc_by_zone", "utc_by_gps")
            .map(outcome::text)
            .filter(text -> !text.isEmpty())
            .limit(1)
            .map(Instant::parse)
            .toList();
    CaptureTime time = shot.time();
    if (time instanceof CaptureTime.Known known) {
      Instant instant = known.instant().truncatedTo(ChronoUnit.SECONDS);
      return accepted.contains(instant) ? "right" : "known as " + instant;
    }
    if (!accepted.isEmpty() && readable) {
      return time instanceof CaptureTime.Ambiguous ambiguous
          ? "ambiguous " + ambiguous.candidates().stream().map(OffsetDateTime::toString).toList()
          : "unknown";
    }
    return outcome.has(Kind.TIME_MISSING) ? "named" : "unknown without a word";
  }

  private static String place(Outcome outcome, Shot shot) {
    Shot.Position position = shot.position();
    if (position == null) {
      boolean named = outcome.has(Kind.POSITION_MISSING) || outcome.has(Kind.POSITION_REFUSED);
      boolean truly =
          outcome.text("lat_signed").isEmpty() || outcome.text("quirks").contains("null-island");
      return named && truly ? "named" : "no position";
    }
    GeoPoint point = position.point();
    String inXmp = outcome.text("xmp_gps");
    GeoPoint truth =
        outcome.text("lat_signed").isEmpty()
            ? inXmp.isEmpty()
                ? null
                : new GeoPoint(xmp(inXmp, "GPSLatitude"), xmp(inXmp, "GPSLongitude"))
            : new GeoPoint(
                Double.parseDouble(outcome.text("lat_signed")),
                Double.parseDouble(outcome.text("lon_signed")));
    // The table is rounded to seven decimals.
    boolean right =
        truth != null
            && Math.abs(point.latitudeDeg() - truth.latitudeDeg()) <= 5.1e-8
            && Math.abs(point.longitudeDeg() - truth.longitudeDeg()) <= 5.1e-8;
    return right ? "right" : "at " + point.toText();
  }

  private static double xmp(String column, String name) {
    for (String field : column.split(" ", -1)) {
      if (field.startsWith("XMP-exif:" + name + "=")) {
        return Double.parseDouble(field.substring(field.indexOf('=') + 1));
      }
    }
    throw new AssertionError(name + " not in " + column);
  }

  private static String direction(Outcome outcome, Shot shot) {
    Shot.Facing facing = shot.facing();
    String written = outcome.text("img_dir");
    if (facing == null) {
      boolean named = outcome.has(Kind.DIRECTION_MISSING) || outcome.has(Kind.DIRECTION_REFUSED);
      return named && written.isEmpty() ? "named" : "no facing";
    }
    double expected = written.isEmpty() ? Double.NaN : Double.parseDouble(written);
    if (outcome.text("img_dir_ref").equals("M")) {
      assertThat(facing.source()).isEqualTo(Shot.FacingSource.MAGNETIC_DIRECTION_TAG);
      expected +=
          WorldMagneticModel.field(
                  Objects.requireNonNull(shot.position()).point(),
                  Objects.requireNonNull(shot.evidence().altitudeM()),
                  ((CaptureTime.Known) shot.time()).instant())
              .orElseThrow()
              .declinationDeg();
    }
    // The table is rounded to seven decimals.
    return Math.abs(facing.bearing().trueDeg() - expected) <= 1e-6
        ? "right"
        : "facing " + facing.bearing().trueDeg();
  }

  private static String exposure(Outcome outcome, Shot shot) {
    Exposure exposure = shot.evidence().exposure();
    boolean right =
        same(outcome.text("exposure_time"), exposure.exposureTimeS())
            && same(outcome.text("fnumber"), exposure.fNumber())
            && same(outcome.text("iso"), exposure.isoSpeed());
    if (!right) {
      return exposure.exposureTimeS() + " " + exposure.fNumber() + " " + exposure.isoSpeed();
    }
    boolean complete = exposure.ev100() != null;
    if (complete == outcome.has(Kind.EXPOSURE_INCOMPLETE)) {
      return "a word too many or too few";
    }
    return complete ? "right" : "named";
  }

  /** The table is rounded to ten significant digits; 0 is how the tags say unknown. */
  private static boolean same(String written, @Nullable Double found) {
    double truth = written.isEmpty() ? 0 : Double.parseDouble(written);
    return found == null ? truth == 0 : Math.abs(found - truth) <= 1e-9 * truth;
  }

  private static String upright(Outcome outcome, Shot shot) {
    String written = outcome.text("orientation");
    int truth = written.isEmpty() || written.equals("0") ? 1 : Integer.parseInt(written);
    return truth == shot.evidence().orientation()
        ? "right"
        : "orientation " + shot.evidence().orientation();
  }

  /** What is said of a file may depend on neither the machine's zone nor its language. */
  @Test
  void theMachinesZoneAndLanguageChangeNothing() throws IOException {
    TimeZone zone = TimeZone.getDefault();
    Locale locale = Locale.getDefault();
    try {
      TimeZone.setDefault(TimeZone.getTimeZone(ZoneId.of("UTC")));
      Locale.setDefault(Locale.ROOT);
      List<String> atHome = outcomes().stream().map(Outcome::toString).toList();
      TimeZone.setDefault(TimeZone.getTimeZone(ZoneId.of("Pacific/Auckland")));
      for (Locale other : List.of(Locale.GERMANY, Locale.forLanguageTag("ar-EG-u-nu-arab"))) {
        Locale.setDefault(other);
        assertThat(outcomes().stream().map(Outcome::toString).toList()).isEqualTo(atHome);
      }
    } finally {
      TimeZone.setDefault(zone);
      Locale.setDefault(locale);
    }
  }
}
