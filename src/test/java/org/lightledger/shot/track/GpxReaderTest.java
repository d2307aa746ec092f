package org.lightledger.shot.track;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.Placement;
import org.lightledger.shot.track.TrackLog.NotUsed;

class GpxReaderTest {
  private static final String HEAD =
      "<gpx version=\"1.1\" creator=\"t\" xmlns=\"http://www.topografix.com/GPX/1/1\">";

  private static String track(String points) {
    return HEAD + "<trk><trkseg>" + points + "</trkseg></trk></gpx>";
  }

  private static String point(String inside) {
    return "<trkpt lat=\"47.5\" lon=\"7.25\">" + inside + "</trkpt>";
  }

  @Test
  void aPointWithAllThatIsKept() throws Exception {
    TrackLog log =
        Tracks.ofText(
            track(
                point(
                    "<ele> 212.5 </ele><time>2016-08-21T12:24:27.125Z</time><hdop>2</hdop>"
                        + "<pdop>3</pdop><extensions><ele>9</ele></extensions>")));

    assertThat(log.notUsed()).isEqualTo(NotUsed.NOTHING);
    assertThat(log.segments()).hasSize(1);
    assertThat(log.segments().get(0).points())
        .containsExactly(
            new TrackPoint(
                Instant.parse("2016-08-21T12:24:27.125Z"),
                new GeoPoint(47.5, 7.25),
                212.5,
                2 * GpxReader.ERROR_PER_DILUTION_M));
  }

  @ParameterizedTest
  @CsvSource({
    "2016-08-21T12:24:27Z, 2016-08-21T12:24:27Z, 0",
    "2016-08-21T12:24:27.2073437Z, 2016-08-21T12:24:27.207343700Z, 0",
    "2015-12-11T15:43:13.994+01:00, 2015-12-11T14:43:13.994Z, 0",
    "2013-01-01T12:00:04, 2013-01-01T12:00:04Z, 1",
    "1980-01-06T00:00:00Z, 1980-01-06T00:00:00Z, 0",
    "2016-08-21T12:24:27.12345678987Z, 2016-08-21T12:24:27.123456789Z, 0",
    "2016-08-21T12:24:27.1234567899999+02:00, 2016-08-21T10:24:27.123456789Z, 0",
    "2016-08-21T24:00:00Z, 2016-08-22T00:00:00Z, 0",
    "2016-12-31T24:00:00.0000000000-05:00, 2017-01-01T05:00:00Z, 0",
    "2016-02-28T24:00:00, 2016-02-29T00:00:00Z, 1",
  })
  void timesAreInUtcUnlessTheySayOtherwise(String text, Instant instant, int takenAsUtc)
      throws Exception {
    TrackLog log = Tracks.ofText(track(point("<time>" + text + "</time>")));

    assertThat(log.segments().get(0).start()).isEqualTo(instant);
    assertThat(log.notUsed()).isEqualTo(new NotUsed(0, 0, 0, takenAsUtc, 0, 0, null));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "1901-12-13T20:45:52Z",
        "1970-01-01T00:00:00Z",
        "1980-01-05T23:59:59Z",
        "2262-01-01T00:00:00Z",
        "2013-02-30T00:00:00Z",
        "2013-01-01T25:00:00Z",
        "2013-01-01T24:00:01Z",
        "2013-01-01T24:00:00.000000001Z",
        "2013-01-01T24:01:00Z",
        "2013-02-30T24:00:00Z",
        "2013-01-01",
        "yesterday",
        "",
      })
  void impossibleTimesAreCounted(String text) throws Exception {
    TrackLog log = Tracks.ofText(track(point("<time>" + text + "</time>")));

    assertThat(log.segments()).isEmpty();
    assertThat(log.notUsed()).isEqualTo(new NotUsed(0, 1, 0, 0, 0, 0, null));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "lat='90.1' lon='7'",
        "lat='45' lon='180.5'",
        "lat='NaN' lon='7'",
        "lat='0x1p3' lon='7'",
        "lat='1d' lon='7'",
        "lat='45,5' lon='7'",
        "lat='' lon='7'",
        "lon='7'",
        "lat='45'",
        "lat='0' lon='-0.0'",
      })
  void impossiblePlacesAreCounted(String attributes) throws Exception {
    TrackLog log =
        Tracks.ofText(track("<trkpt " + attributes + "><time>2016-08-21T12:24:27Z</time></trkpt>"));

    assertThat(log.segments()).isEmpty();
    assertThat(log.notUsed()).isEqualTo(new NotUsed(0, 0, 1, 0, 0, 0, null));
  }

  @Test
  void aPointThatSaysItHadNoFixIsNoPlace() throws Exception {
    TrackLog log = Tracks.ofText(track(point("<time>2016-08-21T12:24:27Z</time><fix>none</fix>")));

    assertThat(log.size()).isZero();
    assertThat(log.notUsed().pointsWithoutPlace()).isEqualTo(1);
  }

  @ParameterizedTest
  @CsvSource({
    "<hdop>1.5</hdop><pdop>9</pdop>, 7.35",
    "<pdop>2</pdop>, 9.8",
    "<hdop>0</hdop><pdop>2</pdop>, 9.8",
    "<vdop>2</vdop>,",
    "<hdop>0</hdop>,",
    "<hdop>-1</hdop>,",
    "<hdop>NaN</hdop>,",
    "<hdop>1e999</hdop>,",
  })
  void theErrorFollowsFromTheDilution(String dilution, Double errorM) throws Exception {
    TrackPoint point =
        Tracks.ofText(track(point("<time>2016-08-21T12:24:27Z</time>" + dilution)))
            .segments()
            .get(0)
            .point(0);

    if (errorM == null) {
      assertThat(point.errorM()).isNull();
    } else {
      assertThat(point.errorM()).isCloseTo(errorM, within(1e-12));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"1.0E25", "-501", "20001", "NaN", "high", ""})
  void anImpossibleHeightLeavesThePlace(String text) throws Exception {
    TrackPoint point =
        Tracks.ofText(track(point("<time>2016-08-21T12:24:27Z</time><ele>" + text + "</ele>")))
            .segments()
            .get(0)
            .point(0);

    assertThat(point.altitudeM()).isNull();
    assertThat(point.point()).isEqualTo(new GeoPoint(47.5, 7.25));
  }

  @Test
  void pointsOutOfOrderArePutInOrder() throws Exception {
    TrackLog log =
        Tracks.ofText(
            track(
                point("<time>2016-08-21T12:00:02Z</time>")
                    + point("<time>2016-08-21T12:00:01Z</time>")
                    + point("<time>2016-08-21T12:00:03Z</time>")));

    assertThat(log.segments().get(0).points())
        .extracting(TrackPoint::instant)
        .containsExactly(
            Instant.parse("2016-08-21T12:00:01Z"),
            Instant.parse("2016-08-21T12:00:02Z"),
            Instant.parse("2016-08-21T12:00:03Z"));
    assertThat(log.notUsed().pointsOutOfOrder()).isEqualTo(1);
  }

  @Test
  void elementsOfOthersAndUnknownOnesArePassedOver() throws Exception {
    String other = "<x:trkpt xmlns:x='urn:other' lat='1' lon='1'><x:time>2016</x:time></x:trkpt>";
    TrackLog log =
        Tracks.ofText(
            HEAD
                + "<foo><trk><trkseg>"
                + point("<time>2016-08-21T12:00:00Z</time>")
                + "</trkseg></trk></foo><trk><trkseg>"
                + other
                + point(
                    "<x:time xmlns:x='urn:other'>2001-01-01T00:00:00Z</x:time>"
                        + "<time><![CDATA[2016-08-21T12:00:01Z]]></time>")
                + "</trkseg></trk></gpx>");

    assertThat(log.size()).isEqualTo(1);
    assertThat(log.segments().get(0).start()).isEqualTo(Instant.parse("2016-08-21T12:00:01Z"));
  }

  @Test
  void aFileThatBreaksOffGivesThePointsBefore() throws Exception {
    String whole =
        track(
            "\n"
                + point("<time>2016-08-21T12:00:00Z</time>")
                + "\n"
                + point("<time>2016-08-21T12"));
    TrackLog log = Tracks.ofText(whole.substring(0, whole.lastIndexOf("T12")));

    assertThat(log.size()).isEqualTo(1);
    assertThat(log.notUsed()).isEqualTo(new NotUsed(0, 0, 0, 0, 0, 0, 3));
    assertThat(log.notUsed().sentences())
        .containsExactly("The file is broken at line 3; what stands before is used.");
  }

  @ParameterizedTest
  @CsvSource({
    "UTF-8, ''",
    "UTF-8, \uFEFF",
    "UTF-16LE, \uFEFF",
    "UTF-16BE, \uFEFF",
    "UTF-16LE, ''",
    "UTF-16BE, ''",
    "ISO-8859-1, ''",
    "windows-1252, ''",
  })
  void everyUsualEncodingIsRead(String encoding, String mark) throws Exception {
    String text =
        mark
            + "<?xml version='1.0' encoding='"
            + encoding
            + "'?>"
            + track(point("<name>Bäume</name><time>2016-08-21T12:00:00Z</time>"));

    assertThat(GpxReader.read(new ByteArrayInputStream(text.getBytes(encoding))).size())
        .isEqualTo(1);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "<?xml version='1.0' encoding='UTF-16'?>",
        "<?xml version='1.0' encoding='none-such'?>"
      })
  void aWrongOrMissingEncodingLosesNoTrack(String declaration) throws Exception {
    String text = declaration + track(point("<name>Bäume</name><time>2016-08-21T12:00:00Z</time>"));

    assertThat(
            GpxReader.read(new ByteArrayInputStream(text.getBytes(StandardCharsets.ISO_8859_1)))
                .size())
        .isEqualTo(1);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "''|The file is no whole XML: it breaks at line 1, before any point could be used.",
        "not xml at all|The file is no whole XML: it breaks at line 1, before any point could be"
            + " used.",
        "<gpx><trk>|The file is no whole XML: it breaks at line 1, before any point could be used.",
        "<kml/>|The file is no GPX: its outermost element is kml, expected gpx.",
      })
  void whatIsNoTrackIsRefused(String text, String message) {
    assertThatThrownBy(() -> Tracks.ofText(text))
        .isInstanceOf(UnreadableTrackException.class)
        .hasMessage(message);
  }

  @Test
  void entitiesThatReadFilesAreRefused(@TempDir Path folder) throws Exception {
    Path secret = Files.writeString(folder.resolve("secret"), "2016-08-21T12:00:00Z");
    assertRefusedForItsDeclaration(
        "<!DOCTYPE gpx [<!ENTITY x SYSTEM \""
            + secret.toUri()
            + "\">]>"
            + track(point("<time>&x;</time>")));
  }

  @Test
  void entitiesThatMultiplyAreRefused() {
    StringBuilder bomb = new StringBuilder("<!DOCTYPE gpx [<!ENTITY a0 \"0123456789\">");
    for (int i = 1; i < 30; i++) {
      bomb.append("<!ENTITY a%d \"".formatted(i))
          .append("&a%d;".formatted(i - 1).repeat(10))
          .append("\">");
    }
    bomb.append("]>").append(track(point("<time>&a29;</time>")));

    assertRefusedForItsDeclaration(bomb.toString());
  }

  @Test
  void aDeclarationElsewhereIsRefused() {
    assertRefusedForItsDeclaration(
        "<!DOCTYPE gpx SYSTEM \"http://127.0.0.1:9/gpx.dtd\">" + track(point("")));
  }

  private static void assertRefusedForItsDeclaration(String text) {
    assertThatThrownBy(() -> Tracks.ofText(text))
        .isInstanceOf(UnreadableTrackException.class)
        .hasMessageContaining("document type declaration");
  }

  @Test
  void anEndlessFileIsRefused() {
    byte[] chunk = point("<time>2016-08-21T12:00:00Z</time>").getBytes(StandardCharsets.UTF_8);
    byte[] head = (HEAD + "<trk><trkseg>").getBytes(StandardCharsets.UTF_8);
    InputStream endless =
        new InputStream() {
          private long at;

          @Override
          public int read() {
            long here = at++;
            return here < head.length
                ? head[(int) here]
                : chunk[(int) ((here - head.length) % chunk.length)];
          }
        };

    assertThatThrownBy(() -> GpxReader.read(endless))
        .isInstanceOf(UnreadableTrackException.class)
        .hasMessageContaining("128 MB");
  }

  @Test
  void aFailingStreamIsNoBrokenFile() {
    byte[] head =
        track(point("<time>2016-08-21T12:00:00Z</time>")).getBytes(StandardCharsets.UTF_8);
    InputStream failing =
        new InputStream() {
          private int at;

          @Override
          public int read() throws IOException {
            if (at == head.length - 10) {
              throw new IOException("unplugged");
            }
            return head[at++];
          }
        };

    assertThatThrownBy(() -> GpxReader.read(failing))
        .isInstanceOf(IOException.class)
        .hasMessage("unplugged");
  }

  /** Each odd file of the reference collection has an outcome of its own. */
  @ParameterizedTest
  @CsvSource({
    "gpxpy-Mojstrovka.gpx, 0, 0, 0, 184, 0, 0, 0, 0,",
    "gpxpy-around-visnjan-with-car.gpx, 1, 104, 0, 0, 0, 0, 0, 0,",
    "gpxpy-cerknicko-jezero.gpx, 7, 296, 0, 0, 0, 0, 0, 7,",
    "gpxpy-cerknicko-without-times.gpx, 1, 5, 291, 0, 0, 0, 0, 7,",
    "gpxpy-gpx1.0_with_all_fields.gpx, 1, 1, 0, 0, 0, 1, 0, 7,",
    "gpxpy-gpx1.1_with_all_fields.gpx, 1, 1, 0, 0, 0, 1, 0, 7,",
    "gpxpy-gpx_with_garmin_extension.gpx, 0, 0, 0, 0, 0, 0, 0, 1,",
    "gpxpy-korita-zbevnica.gpx, 2, 513, 358, 0, 0, 0, 0, 2,",
    "gpxpy-track-with-empty-segment.gpx, 1, 9, 0, 0, 0, 0, 0, 0,",
    "gpxpy-track-with-extremes.gpx, 0, 0, 25, 0, 0, 0, 0, 0,",
    "gpxpy-track-with-less-sec-time.gpx, 1, 2, 0, 0, 0, 0, 0, 0,",
    "gpxpy-track_with_dilution_errors.gpx, 0, 0, 1, 0, 0, 0, 0, 2,",
    "gpxpy-unicode_with_bom.gpx, 0, 0, 0, 0, 0, 0, 0, 1,",
    "jpx-Austria.gpx, 0, 0, 0, 0, 0, 0, 0, 82,",
    "jpx-GPX_invalid_extensions.gpx, 1, 2, 0, 0, 0, 0, 0, 1, 39",
    "jpx-Gpx-full-sample.gpx, 1, 2747, 0, 0, 0, 0, 0, 0,",
    "jpx-ISSUE-151.gpx, 0, 0, 1140, 0, 0, 0, 0, 0,",
    "jpx-ISSUE-170.gpx, 1, 2, 0, 0, 0, 0, 0, 0,",
    "jpx-ISSUE-49.gpx, 0, 0, 26, 0, 0, 0, 0, 1,",
    "jpx-ISSUE-82.gpx, 1, 479, 0, 0, 0, 0, 0, 0,",
  })
  void theReferenceFiles(
      String file,
      int segments,
      int points,
      int withoutTime,
      int impossibleTime,
      int withoutPlace,
      int takenAsUtc,
      int outOfOrder,
      int others,
      Integer brokenAtLine)
      throws Exception {
    TrackLog log = Tracks.ofReference(file);

    assertThat(log.segments()).hasSize(segments);
    assertThat(log.size()).isEqualTo(points);
    assertThat(log.notUsed())
        .isEqualTo(
            new NotUsed(
                withoutTime,
                impossibleTime,
                withoutPlace,
                takenAsUtc,
                outOfOrder,
                others,
                brokenAtLine));
  }

  @Test
  void theTablesOfTheseTestsAreTheReferenceFiles() throws Exception {
    for (String name : List.of("korita-zbevnica", "cerknicko-jezero")) {
      List<TrackPoint> table =
          Tracks.ofTable(name).segments().stream().flatMap(s -> s.points().stream()).toList();
      List<TrackPoint> file =
          Tracks.ofReference("gpxpy-" + name + ".gpx").segments().stream()
              .flatMap(s -> s.points().stream())
              .toList();

      assertThat(table).isEqualTo(file);
    }
  }

  /** Whatever the bytes, there is a log or a reason; seeded, so that a failure can be repeated. */
  @Test
  void damagedFilesNeverCrash() throws Exception {
    Random random = new Random(20260101);
    byte[] whole =
        track(
                point("<ele>1</ele><time>2016-08-21T12:00:00Z</time><hdop>1</hdop>")
                    + "<!-- c --><?p i?>"
                    + point("<time><![CDATA[2016-08-21T12:00:01Z]]></time><fix>3d</fix>"))
            .getBytes(StandardCharsets.UTF_8);
    int read = 0;
    int refused = 0;
    for (int i = 0; i < 5000; i++) {
      byte[] damaged = whole.clone();
      for (int j = random.nextInt(4); j >= 0; j--) {
        damaged[random.nextInt(damaged.length)] = (byte) random.nextInt(256);
      }
      try {
        TrackLog log = GpxReader.read(new ByteArrayInputStream(damaged));
        assertThat(log.size()).isBetween(0, 2);
        read++;
      } catch (UnreadableTrackException e) {
        assertThat(e).hasMessageStartingWith("The file ");
        refused++;
      }
    }
    assertThat(read).isPositive();
    assertThat(refused).isPositive();
  }

  /** A day at a fix a second; the limit is several times what it takes, of processor time. */
  @Test
  void aHundredThousandPointsAreReadAndAskedQuickly() throws Exception {
    StringBuilder text = new StringBuilder(HEAD).append("<trk><trkseg>");
    Instant start = Instant.parse("2024-06-01T00:00:00Z");
    for (int i = 0; i < 100_000; i++) {
      text.append(
          String.format(
              Locale.ROOT,
              "<trkpt lat=\"%.7f\" lon=\"7.5\"><ele>%d</ele><time>%s</time></trkpt>",
              45 + i * 1e-5,
              i % 1000,
              start.plusSeconds(i)));
    }
    byte[] file = text.append("</trkseg></trk></gpx>").toString().getBytes(StandardCharsets.UTF_8);
    ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    long begun = threads.getCurrentThreadCpuTime();

    TrackLog log = GpxReader.read(new ByteArrayInputStream(file));
    TrackPlaces places = new TrackPlaces(List.of(log), TrackLimits.standard());
    for (int i = 0; i < 100_000; i++) {
      assertThat(places.at(start.plusMillis(i * 999L))).isInstanceOf(Placement.Placed.class);
    }

    assertThat(log.size()).isEqualTo(100_000);
    assertThat(Duration.ofNanos(threads.getCurrentThreadCpuTime() - begun))
        .isLessThan(Duration.ofSeconds(10));
  }
}
