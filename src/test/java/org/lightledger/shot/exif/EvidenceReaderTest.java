package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.lightledger.shot.exif.ExifBuilder.Directory.EXIF;
import static org.lightledger.shot.exif.ExifBuilder.Directory.GPS;
import static org.lightledger.shot.exif.ExifBuilder.Directory.IFD0;

import java.nio.ByteBuffer;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Exposure;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Problem.Kind;

/** Each trap of image metadata, on a file of some hundred bytes made for it. */
class EvidenceReaderTest {
  private static final String TIME = "2024:06:21 19:30:05";
  private static final long[] LATITUDE = {41, 1, 57, 1, 1234, 100};
  private static final long[] LONGITUDE = {6, 1, 36, 1, 3456, 100};
  private static final GeoPoint PLACE =
      new GeoPoint(41 + 57 / 60.0 + 12.34 / 3600, -(6 + 36 / 60.0 + 34.56 / 3600));

  private static ExifBuilder builder() {
    return ExifBuilder.bigEndian();
  }

  private static Evidence read(ExifBuilder builder) throws UnreadableImageException {
    return EvidenceReader.read(builder.jpeg());
  }

  private static List<String> messages(Evidence evidence, Kind kind) {
    return evidence.problems().stream()
        .filter(problem -> problem.kind() == kind)
        .map(Problem::message)
        .toList();
  }

  @Test
  void readsEverythingThatACompleteFileSays() throws Exception {
    for (ExifBuilder builder : List.of(ExifBuilder.bigEndian(), ExifBuilder.littleEndian())) {
      Evidence evidence =
          read(
              builder
                  .ascii(IFD0, Tags.MAKE, "Maker")
                  .ascii(IFD0, Tags.MODEL, "Model 7")
                  .shorts(IFD0, Tags.ORIENTATION, 6)
                  .ascii(EXIF, Tags.DATE_TIME_ORIGINAL, TIME)
                  .ascii(EXIF, Tags.SUB_SEC_TIME_ORIGINAL, "04")
                  .ascii(EXIF, Tags.OFFSET_TIME_ORIGINAL, "+02:00")
                  .rationals(EXIF, Tags.EXPOSURE_TIME, 1, 250)
                  .rationals(EXIF, Tags.F_NUMBER, 28, 10)
                  .shorts(EXIF, Tags.PHOTOGRAPHIC_SENSITIVITY, 200)
                  .shorts(EXIF, Tags.FOCAL_LENGTH_IN_35MM_FILM, 85)
                  .position("N", LATITUDE, "W", LONGITUDE)
                  .bytes(GPS, Tags.GPS_ALTITUDE_REF, 0)
                  .rationals(GPS, Tags.GPS_ALTITUDE, 7654, 10)
                  .rationals(GPS, Tags.GPS_TIME_STAMP, 17, 1, 30, 1, 350, 100)
                  .ascii(GPS, Tags.GPS_DATE_STAMP, "2024:06:21")
                  .ascii(GPS, Tags.GPS_IMG_DIRECTION_REF, "T")
                  .rationals(GPS, Tags.GPS_IMG_DIRECTION, 12345, 100)
                  .rationals(GPS, Tags.GPS_H_POSITIONING_ERROR, 47, 10));
      assertThat(evidence)
          .isEqualTo(
              new Evidence(
                  "JPEG",
                  LocalDateTime.parse("2024-06-21T19:30:05.04"),
                  ZoneOffset.ofHours(2),
                  Instant.parse("2024-06-21T17:30:03.5Z"),
                  LocalTime.parse("17:30:03.5"),
                  PLACE,
                  765.4,
                  4.7,
                  new Evidence.Direction(123.45, Evidence.North.TRUE),
                  new Exposure(0.004, 2.8, 200.0),
                  85.0,
                  6,
                  4,
                  3,
                  "Maker Model 7",
                  List.of()));
    }
  }

  @Test
  void readsTiffAsItReadsJpeg() throws Exception {
    ExifBuilder builder =
        builder()
            .longs(IFD0, Tags.IMAGE_WIDTH, 6000)
            .longs(IFD0, Tags.IMAGE_LENGTH, 4000)
            .ascii(EXIF, Tags.DATE_TIME_ORIGINAL, TIME)
            .position("S", LATITUDE, "E", LONGITUDE);
    Evidence evidence = EvidenceReader.read(builder.tiff());
    assertThat(evidence.format()).isEqualTo("TIFF");
    assertThat(evidence.widthPx()).isEqualTo(6000);
    assertThat(evidence.heightPx()).isEqualTo(4000);
    assertThat(evidence.localTime()).isEqualTo(LocalDateTime.parse("2024-06-21T19:30:05"));
    assertThat(evidence.position())
        .isEqualTo(new GeoPoint(-PLACE.latitudeDeg(), -PLACE.longitudeDeg()));
  }

  @Test
  void aFileWithoutMetadataIsEvidenceOfItsSizeAlone() throws Exception {
    Evidence evidence = EvidenceReader.read(ExifBuilder.jpegOf());
    assertThat(evidence.widthPx()).isEqualTo(4);
    assertThat(evidence.localTime()).isNull();
    assertThat(evidence.position()).isNull();
    assertThat(evidence.exposure()).isEqualTo(Exposure.UNKNOWN);
    assertThat(evidence.orientation()).isEqualTo(1);
    assertThat(messages(evidence, Kind.METADATA_DAMAGED)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"0000:00:00 00:00:00", "    :  :     :  :  ", "", "                   "})
  void aClockThatWasNeverSetIsNoTimeAndNoDamage(String text) throws Exception {
    Evidence evidence = read(builder().ascii(EXIF, Tags.DATE_TIME_ORIGINAL, text));
    assertThat(evidence.localTime()).isNull();
    assertThat(messages(evidence, Kind.METADATA_DAMAGED)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "97:02:02 00:50:30",
        "2024:02:30 10:00:00",
        "2024:13:01 10:00:00",
        "2024:06:21 25:00:00",
        "2024:06:21",
        "21.06.2024 19:30",
        "0001:01:01 00:00:00",
        "Fri Jun 21 19:30:05"
      })
  void aTimeThatIsNoneIsNamedAndNotGuessed(String text) throws Exception {
    Evidence evidence = read(builder().ascii(EXIF, Tags.DATE_TIME_ORIGINAL, text));
    assertThat(evidence.localTime()).isNull();
    assertThat(messages(evidence, Kind.METADATA_DAMAGED))
        .containsExactly(
            "The capture time reads \""
                + text
                + "\"; expected a date and time such as 2024:06:21 19:30:00.");
  }

  @Test
  void theTimeOfTheLastChangeIsNeverTheCaptureTime() throws Exception {
    Evidence evidence =
        read(
            builder().ascii(IFD0, Tags.DATE_TIME, TIME).rationals(EXIF, Tags.EXPOSURE_TIME, 1, 60));
    assertThat(evidence.localTime()).isNull();
  }

  @Test
  void theTimeOfDigitisationStandsInForACameraOnly() throws Exception {
    ExifBuilder scanner = builder().ascii(EXIF, Tags.DATE_TIME_DIGITIZED, TIME);
    assertThat(read(scanner).localTime()).isNull();
    Evidence camera = read(scanner.rationals(EXIF, Tags.EXPOSURE_TIME, 1, 60));
    assertThat(camera.localTime()).isEqualTo(LocalDateTime.parse("2024-06-21T19:30:05"));
    assertThat(messages(camera, Kind.METADATA_DAMAGED))
        .singleElement()
        .asString()
        .contains("time of its digitisation is used");
  }

  @ParameterizedTest
  @CsvSource({
    "04, 40000000",
    "715, 715000000",
    "'5  ', 500000000",
    "123456789, 123456789",
    "x1, 0",
    "'', 0",
    "-5, 0"
  })
  void partsOfASecondAreADecimalFraction(String text, int nanos) throws Exception {
    Evidence evidence =
        read(
            builder()
                .ascii(EXIF, Tags.DATE_TIME_ORIGINAL, TIME)
                .ascii(EXIF, Tags.SUB_SEC_TIME_ORIGINAL, text));
    assertThat(evidence.localTime())
        .isEqualTo(LocalDateTime.parse("2024-06-21T19:30:05").withNano(nanos));
  }

  @ParameterizedTest
  @CsvSource({"+02:00, +02:00", "-03:30, -03:30", "Z, Z", "+14:00, +14:00", "-12:00, -12:00"})
  void anOffsetIsReadAsWritten(String text, String expected) throws Exception {
    assertThat(withOffset(text).offset()).isEqualTo(ZoneOffset.of(expected));
  }

  @ParameterizedTest
  @ValueSource(strings = {"   :  ", "", "      "})
  void aBlankOffsetIsNoOffset(String text) throws Exception {
    Evidence evidence = withOffset(text);
    assertThat(evidence.offset()).isNull();
    assertThat(messages(evidence, Kind.METADATA_DAMAGED)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"+99:99", "+14:15", "-12:30", "+02:60", "CEST", "+2", "0200"})
  void anOffsetOfNoClockOnEarthIsNamed(String text) throws Exception {
    Evidence evidence = withOffset(text);
    assertThat(evidence.offset()).isNull();
    assertThat(messages(evidence, Kind.METADATA_DAMAGED))
        .containsExactly(
            "The time offset reads \""
                + text
                + "\"; expected one between -12:00 and +14:00; it is not used.");
  }

  private static Evidence withOffset(String text) throws UnreadableImageException {
    return read(
        builder()
            .ascii(EXIF, Tags.DATE_TIME_ORIGINAL, TIME)
            .ascii(EXIF, Tags.OFFSET_TIME_ORIGINAL, text));
  }

  @Test
  void theOffsetOfAnEditorIsNotTheCamerasOffset() throws Exception {
    ExifBuilder edited =
        builder()
            .ascii(IFD0, Tags.DATE_TIME, "2025:01:02 10:00:00")
            .ascii(EXIF, Tags.DATE_TIME_ORIGINAL, TIME)
            .ascii(EXIF, Tags.OFFSET_TIME, "+08:00");
    assertThat(read(edited).offset()).isNull();
    ExifBuilder untouched =
        builder()
            .ascii(IFD0, Tags.DATE_TIME, TIME)
            .ascii(EXIF, Tags.DATE_TIME_ORIGINAL, TIME)
            .ascii(EXIF, Tags.OFFSET_TIME, "+08:00");
    assertThat(read(untouched).offset()).isEqualTo(ZoneOffset.ofHours(8));
  }

  @ParameterizedTest
  @CsvSource({
    "2014:09:259, The GPS date reads \"2014:09:259\"; expected a date such as 2024:06:21; it is not"
        + " used.",
    "2023:02:29, The GPS date reads \"2023:02:29\"; expected a date such as 2024:06:21; it is not"
        + " used.",
    "1979:12:31, The GPS date reads \"1979:12:31\"; expected a date such as 2024:06:21; it is not"
        + " used."
  })
  void aGpsDateThatIsNoneLeavesTheTimeOfDay(String date, String message) throws Exception {
    Evidence evidence = withGpsTime(date, 13, 1, 5, 1, 12, 1);
    assertThat(evidence.gpsInstant()).isNull();
    assertThat(evidence.gpsTimeOfDay()).isEqualTo(LocalTime.of(13, 5, 12));
    assertThat(messages(evidence, Kind.METADATA_DAMAGED)).containsExactly(message);
  }

  @Test
  void aGpsTimeOfZerosOnADateOfZerosIsNoTime() throws Exception {
    Evidence evidence = withGpsTime("0000:00:00", 0, 1, 0, 1, 0, 1);
    assertThat(evidence.gpsInstant()).isNull();
    assertThat(evidence.gpsTimeOfDay()).isNull();
    assertThat(withGpsTime("2024:06:21", 0, 1, 0, 1, 0, 1).gpsInstant())
        .isEqualTo(Instant.parse("2024-06-21T00:00:00Z"));
  }

  @Test
  void aGpsTimeThatIsNoneIsNotUsed() throws Exception {
    assertThat(withGpsTime("2024:06:21", 0, 0, 0, 0, 0, 0).gpsTimeOfDay()).isNull();
    Evidence late = withGpsTime("2024:06:21", 24, 1, 0, 1, 0, 1);
    assertThat(late.gpsInstant()).isNull();
    assertThat(messages(late, Kind.METADATA_DAMAGED))
        .containsExactly(
            "The GPS time reads 24/1 0/1 0/1; expected hour, minute and second; it is not used.");
  }

  private static Evidence withGpsTime(String date, long... time) throws UnreadableImageException {
    return read(
        builder().rationals(GPS, Tags.GPS_TIME_STAMP, time).ascii(GPS, Tags.GPS_DATE_STAMP, date));
  }

  @Test
  void aPositionWithoutNumbersIsNoPositionAndNotZero() throws Exception {
    Evidence evidence = read(builder().position("N", new long[6], "E", new long[6]));
    assertThat(evidence.position()).isNull();
    assertThat(messages(evidence, Kind.POSITION_REFUSED)).isEmpty();
  }

  @Test
  void zeroZeroIsKeptAsWrittenForTheRulesToJudge() throws Exception {
    Evidence evidence =
        read(
            builder()
                .position("N", new long[] {0, 1, 0, 1, 0, 1}, "E", new long[] {0, 1, 0, 1, 0, 1}));
    assertThat(evidence.position()).isEqualTo(new GeoPoint(0, 0));
  }

  @Test
  void secondsThatAreNotKnownLeaveDegreesAndMinutes() throws Exception {
    Evidence evidence =
        read(
            builder()
                .position(
                    "N",
                    new long[] {48, 1, 533235, 10000, 0, 0},
                    "E",
                    new long[] {21, 1, 2595, 1000, 0, 0}));
    assertThat(evidence.position()).isEqualTo(new GeoPoint(48 + 53.3235 / 60, 21 + 2.595 / 60));
    assertThat(messages(evidence, Kind.METADATA_DAMAGED))
        .containsExactly(
            "The seconds of the latitude are not known (0/0); degrees and minutes are used.",
            "The seconds of the longitude are not known (0/0); degrees and minutes are used.");
  }

  @Test
  void minutesThatAreNotKnownLeaveNothing() throws Exception {
    assertRefused(
        builder().position("N", new long[] {48, 1, 0, 0, 5, 1}, "E", LONGITUDE),
        "its latitude reads 48/1 0/0 5/1; expected degrees in [0, 90], minutes and seconds below"
            + " 60");
  }

  @Test
  void coordinatesOutsideTheirIntervalAreRefused() throws Exception {
    assertRefused(
        builder().position("N", new long[] {95, 1, 0, 1, 0, 1}, "E", LONGITUDE),
        "its latitude reads 95/1 0/1 0/1; expected degrees in [0, 90], minutes and seconds below"
            + " 60");
    assertRefused(
        builder().position("N", LATITUDE, "E", new long[] {180, 1, 0, 1, 1, 1}),
        "its longitude reads 180/1 0/1 1/1; expected degrees in [0, 180], minutes and seconds below"
            + " 60");
    assertRefused(
        builder().position("N", new long[] {41, 1, 75, 1, 0, 1}, "E", LONGITUDE),
        "its latitude reads 41/1 75/1 0/1; expected degrees in [0, 90], minutes and seconds below"
            + " 60");
  }

  @Test
  void aHemisphereLetterIsNeeded() throws Exception {
    assertRefused(
        builder().position("", LATITUDE, "E", LONGITUDE),
        "its latitude needs the letter N or S, but has none");
    assertRefused(
        builder().position("N", LATITUDE, "N", LONGITUDE),
        "its longitude needs the letter E or W, but has \"N\"");
    assertRefused(
        builder()
            .rationals(GPS, Tags.GPS_LATITUDE, LATITUDE)
            .ascii(GPS, Tags.GPS_LONGITUDE_REF, "E")
            .rationals(GPS, Tags.GPS_LONGITUDE, LONGITUDE),
        "its latitude needs the letter N or S, but has none");
  }

  @Test
  void halfAPositionIsRefused() throws Exception {
    assertRefused(
        builder()
            .ascii(GPS, Tags.GPS_LATITUDE_REF, "N")
            .rationals(GPS, Tags.GPS_LATITUDE, LATITUDE),
        "it has a latitude without a longitude");
  }

  @Test
  void aPositionWithoutAFixIsRefusedWithItsTime() throws Exception {
    ExifBuilder builder =
        builder()
            .position("N", LATITUDE, "W", LONGITUDE)
            .rationals(GPS, Tags.GPS_TIME_STAMP, 13, 1, 5, 1, 12, 1)
            .ascii(GPS, Tags.GPS_DATE_STAMP, "2024:06:21")
            .ascii(GPS, Tags.GPS_STATUS, "V");
    assertRefused(
        builder,
        "the file says that the receiver had no fix (status V) when it wrote 41.953428,-6.609600");
    assertThat(read(builder).gpsInstant()).isNull();
    assertThat(read(builder).gpsTimeOfDay()).isNull();
  }

  @ParameterizedTest
  @ValueSource(strings = {"WGS-84", "WGS84", "WGS 1984", "WGS-84   ", "ETRS89", ""})
  void datumsLikeWgs84AreTaken(String datum) throws Exception {
    assertThat(
            read(builder()
                    .position("N", LATITUDE, "W", LONGITUDE)
                    .ascii(GPS, Tags.GPS_MAP_DATUM, datum))
                .position())
        .isEqualTo(PLACE);
  }

  @Test
  void anotherDatumIsNamed() throws Exception {
    assertRefused(
        builder().position("N", LATITUDE, "W", LONGITUDE).ascii(GPS, Tags.GPS_MAP_DATUM, "TOKYO"),
        "41.953428,-6.609600 is written in the datum \"TOKYO\", not WGS 84, and can lie hundreds of"
            + " metres away");
  }

  private static void assertRefused(ExifBuilder builder, String why)
      throws UnreadableImageException {
    Evidence evidence = read(builder);
    assertThat(evidence.position()).isNull();
    assertThat(messages(evidence, Kind.POSITION_REFUSED))
        .containsExactly("The position of the file is not used: " + why + ".");
  }

  @ParameterizedTest
  @CsvSource({
    "41.953428, 41.953428",
    "'41, 57, 12.34', 41.953427778",
    "'41,57,12.34', 41.953427778",
    "'52,00000,50,00000,34,01180', 52.842781056"
  })
  void aPositionWrittenAsTextIsReadAndNamed(String text, double expectedDeg) throws Exception {
    Evidence evidence = withLatitudeText(text);
    GeoPoint position = evidence.position();
    assertThat(position).isNotNull();
    // Half of the last decimal of the expected values.
    assertThat(position.latitudeDeg()).isCloseTo(expectedDeg, within(5e-10));
    assertThat(messages(evidence, Kind.METADATA_DAMAGED))
        .singleElement()
        .asString()
        .startsWith("The latitude is written as text \"" + text + "\"");
  }

  @ParameterizedTest
  @ValueSource(strings = {"north", "95.2", "41,57", "41,75,00.5", "1,2,3,4", "NaN"})
  void aTextThatIsNoAngleIsRefused(String text) throws Exception {
    Evidence evidence = withLatitudeText(text);
    assertThat(evidence.position()).isNull();
    assertThat(messages(evidence, Kind.POSITION_REFUSED))
        .containsExactly(
            "The position of the file is not used: its latitude reads "
                + text
                + "; expected degrees in [0, 90], minutes and seconds below 60.");
  }

  private static Evidence withLatitudeText(String text) throws UnreadableImageException {
    return read(
        builder()
            .ascii(GPS, Tags.GPS_LATITUDE_REF, "N")
            .ascii(GPS, Tags.GPS_LATITUDE, text)
            .ascii(GPS, Tags.GPS_LONGITUDE_REF, "W")
            .rationals(GPS, Tags.GPS_LONGITUDE, LONGITUDE));
  }

  @Test
  void theAltitudeKnowsItsSideOfTheSea() throws Exception {
    assertThat(withAltitude(0, 3983, 1000).altitudeM()).isEqualTo(3.983);
    assertThat(withAltitude(1, 3983, 1000).altitudeM()).isEqualTo(-3.983);
    assertThat(withAltitude(0, 0, 0).altitudeM()).isNull();
    assertThat(withAltitude(2, 3983, 1000).altitudeM()).as("above the ellipsoid").isNull();
    Evidence deep = withAltitude(1, 848, 1);
    assertThat(deep.altitudeM()).isNull();
    assertThat(messages(deep, Kind.METADATA_DAMAGED))
        .containsExactly("The altitude reads -848 m, lower than any ground; it is not used.");
  }

  private static Evidence withAltitude(int ref, long numerator, long denominator)
      throws UnreadableImageException {
    return read(
        builder()
            .bytes(GPS, Tags.GPS_ALTITUDE_REF, ref)
            .rationals(GPS, Tags.GPS_ALTITUDE, numerator, denominator));
  }

  @Test
  void aDirectionSaysWhichNorthOrThatItDoesNot() throws Exception {
    assertThat(withDirection("T", 36000, 100).direction())
        .isEqualTo(new Evidence.Direction(0, Evidence.North.TRUE));
    assertThat(withDirection("M", 35999, 100).direction())
        .isEqualTo(new Evidence.Direction(359.99, Evidence.North.MAGNETIC));
    assertThat(withDirection(null, 90, 1).direction())
        .isEqualTo(new Evidence.Direction(90, Evidence.North.NOT_STATED));
    assertThat(withDirection("", 90, 1).direction())
        .isEqualTo(new Evidence.Direction(90, Evidence.North.NOT_STATED));
    assertThat(withDirection("X", 90, 1).direction())
        .isEqualTo(new Evidence.Direction(90, Evidence.North.NOT_STATED));
  }

  @Test
  void aDirectionThatIsNoneIsRefused() throws Exception {
    for (long[] ratio : new long[][] {{400, 1}, {0, 0}, {90, 0}}) {
      Evidence evidence = withDirection("T", ratio[0], ratio[1]);
      assertThat(evidence.direction()).isNull();
      assertThat(messages(evidence, Kind.DIRECTION_REFUSED))
          .containsExactly(
              "The direction of the file reads "
                  + ratio[0]
                  + "/"
                  + ratio[1]
                  + "; expected degrees in [0, 360); it is not used.");
    }
  }

  private static Evidence withDirection(@Nullable String ref, long numerator, long denominator)
      throws UnreadableImageException {
    ExifBuilder builder = builder().rationals(GPS, Tags.GPS_IMG_DIRECTION, numerator, denominator);
    return read(ref == null ? builder : builder.ascii(GPS, Tags.GPS_IMG_DIRECTION_REF, ref));
  }

  @Test
  void apexValuesStandInOnlyForMissingTags() throws Exception {
    ExifBuilder contradicted =
        builder()
            .rationals(EXIF, Tags.EXPOSURE_TIME, 1, 250)
            .rationals(EXIF, Tags.F_NUMBER, 28, 10)
            .signedRationals(EXIF, Tags.SHUTTER_SPEED_VALUE, 3, 1)
            .rationals(EXIF, Tags.APERTURE_VALUE, 8, 1);
    assertThat(read(contradicted).exposure()).isEqualTo(new Exposure(0.004, 2.8, null));
    Evidence apex =
        read(
            builder()
                .signedRationals(EXIF, Tags.SHUTTER_SPEED_VALUE, -1, 1)
                .rationals(EXIF, Tags.APERTURE_VALUE, 6, 1));
    assertThat(apex.exposure()).isEqualTo(new Exposure(2.0, 8.0, null));
    assertThat(messages(apex, Kind.EXPOSURE_INCOMPLETE))
        .containsExactly(
            "The file has no exposure time of its own; its APEX value is used, which is less"
                + " reliable.",
            "The file has no f-number of its own; its APEX value is used, which is less reliable.",
            "The file does not say a usable ISO speed; no exposure value follows.");
  }

  @Test
  void exposuresThatAreNoneAreNotZero() throws Exception {
    for (long[] ratio : new long[][] {{0, 0}, {0, 1}, {1, 0}}) {
      Evidence evidence =
          read(
              builder()
                  .rationals(EXIF, Tags.EXPOSURE_TIME, ratio)
                  .rationals(EXIF, Tags.F_NUMBER, ratio)
                  .shorts(EXIF, Tags.PHOTOGRAPHIC_SENSITIVITY, 0));
      assertThat(evidence.exposure()).isEqualTo(Exposure.UNKNOWN);
      assertThat(messages(evidence, Kind.EXPOSURE_INCOMPLETE))
          .containsExactly(
              "The file does not say a usable exposure time or f-number or ISO speed; no exposure"
                  + " value follows.");
    }
    assertThat(read(builder().rationals(EXIF, Tags.F_NUMBER, 2, 10)).exposure().fNumber())
        .as("faster than any lens in air")
        .isNull();
  }

  @Test
  void aSensitivityOf65535StandsElsewhere() throws Exception {
    ExifBuilder builder = builder().shorts(EXIF, Tags.PHOTOGRAPHIC_SENSITIVITY, 65535);
    assertThat(read(builder).exposure().isoSpeed()).isNull();
    builder.longs(EXIF, Tags.ISO_SPEED, 51200);
    assertThat(read(builder).exposure().isoSpeed()).isEqualTo(51200);
    builder.longs(EXIF, Tags.RECOMMENDED_EXPOSURE_INDEX, 102400);
    assertThat(read(builder).exposure().isoSpeed()).isEqualTo(102400);
  }

  @Test
  void anOrientationOutsideItsIntervalIsUpright() throws Exception {
    assertThat(read(builder().shorts(IFD0, Tags.ORIENTATION, 0)).orientation()).isEqualTo(1);
    assertThat(read(builder().shorts(IFD0, Tags.ORIENTATION, 9)).orientation()).isEqualTo(1);
    assertThat(read(builder().shorts(IFD0, Tags.ORIENTATION, 8)).orientation()).isEqualTo(8);
  }

  @Test
  void aModelThatRepeatsItsMakeIsNotNamedTwice() throws Exception {
    assertThat(
            read(builder()
                    .ascii(IFD0, Tags.MAKE, "Maker  ")
                    .ascii(IFD0, Tags.MODEL, "MAKER X-1\u0007"))
                .camera())
        .isEqualTo("MAKER X-1");
  }

  @Test
  void aPositionOnlyInXmpIsRead() throws Exception {
    Evidence evidence =
        EvidenceReader.read(
            ExifBuilder.jpegWithXmp(
                "exif:GPSLatitude=\"48,53.323582N\" exif:GPSLongitude=\"21,2,35.7042W\""));
    assertThat(evidence.position())
        .isEqualTo(new GeoPoint(48 + 53.323582 / 60, -(21 + 2 / 60.0 + 35.7042 / 3600)));
  }

  @Test
  void aPositionInXmpIsHeldToTheSameRules() throws Exception {
    for (String latitude : List.of("95,0.0N", "48,75.0N", "48,53.3E", "48.5", "48,53N ,")) {
      Evidence evidence =
          EvidenceReader.read(
              ExifBuilder.jpegWithXmp(
                  "exif:GPSLatitude=\"%s\" exif:GPSLongitude=\"21,2.5E\"".replace("%s", latitude)));
      assertThat(evidence.position()).isNull();
      assertThat(messages(evidence, Kind.POSITION_REFUSED))
          .containsExactly(
              "The position of the XMP packet is not used: it reads \""
                  + latitude
                  + "\", \"21,2.5E\"; expected such as 48,53.3235N and 21,2.595E.");
    }
  }

  @Test
  void xmpDoesNotReplaceAPositionThatExifHasOrRefuses() throws Exception {
    byte[] xmp = ExifBuilder.xmpSegment("exif:GPSLatitude=\"1,0.0N\" exif:GPSLongitude=\"1,0.0E\"");
    byte[] good =
        ExifBuilder.segment(
            0xE1, "Exif\0\0", builder().position("N", LATITUDE, "W", LONGITUDE).tiff());
    assertThat(EvidenceReader.read(ExifBuilder.jpegOf(xmp, good)).position()).isEqualTo(PLACE);
    byte[] refused =
        ExifBuilder.segment(
            0xE1, "Exif\0\0", builder().position("", LATITUDE, "W", LONGITUDE).tiff());
    assertThat(EvidenceReader.read(ExifBuilder.jpegOf(xmp, refused)).position()).isNull();
  }

  @Test
  void anXmpPacketWithADocumentTypeIsNotParsed() throws Exception {
    byte[] packet =
        ("<!DOCTYPE x [<!ENTITY a SYSTEM \"file:///etc/hostname\">]><x>&a;GPSLatitude</x>")
            .getBytes(ISO_8859_1);
    Evidence evidence =
        EvidenceReader.read(
            ExifBuilder.jpegOf(
                ExifBuilder.segment(0xE1, "http://ns.adobe.com/xap/1.0/\0", packet)));
    assertThat(evidence.position()).isNull();
    assertThat(messages(evidence, Kind.METADATA_DAMAGED))
        .containsExactly("The XMP packet can not be read; its position is not used.");
  }

  @Test
  void aFileCutBehindItsExifStillSpeaks() throws Exception {
    byte[] whole =
        builder()
            .ascii(EXIF, Tags.DATE_TIME_ORIGINAL, TIME)
            .position("N", LATITUDE, "W", LONGITUDE)
            .jpeg();
    int exifEnd = 2 + 4 + 6 + exifLength(whole) - 8;
    Evidence evidence = EvidenceReader.read(Arrays.copyOf(whole, exifEnd));
    assertThat(evidence.localTime()).isEqualTo(LocalDateTime.parse("2024-06-21T19:30:05"));
    assertThat(evidence.position()).isEqualTo(PLACE);
    assertThat(messages(evidence, Kind.METADATA_DAMAGED))
        .containsExactly("The JPEG file is cut off or damaged before its image data.");
  }

  private static int exifLength(byte[] jpeg) {
    return ByteBuffer.wrap(jpeg).getShort(4);
  }

  @Test
  void exifBehindABrokenSegmentIsFound() throws Exception {
    byte[] exif =
        ExifBuilder.segment(
            0xE1, "Exif\0\0", builder().ascii(EXIF, Tags.DATE_TIME_ORIGINAL, TIME).tiff());
    byte[] broken = ExifBuilder.segment(0xE0, "JFIF\0", new byte[9]);
    ByteBuffer.wrap(broken).putShort(2, (short) 11);
    Evidence evidence = EvidenceReader.read(ExifBuilder.jpegOf(broken, exif));
    assertThat(evidence.localTime()).isEqualTo(LocalDateTime.parse("2024-06-21T19:30:05"));
    assertThat(messages(evidence, Kind.METADATA_DAMAGED)).hasSize(1);
  }

  @Test
  void damageInOneDirectoryLeavesTheOthers() throws Exception {
    byte[] tiff =
        builder()
            .ascii(EXIF, Tags.DATE_TIME_ORIGINAL, TIME)
            .position("N", LATITUDE, "W", LONGITUDE)
            .tiff();
    // IFD0 begins at 8 and its first entry, the pointer to the Exif directory, at 10.
    ByteBuffer.wrap(tiff).putInt(10 + 8, 0x7FFFFFF0);
    Evidence evidence =
        EvidenceReader.read(ExifBuilder.jpegOf(ExifBuilder.segment(0xE1, "Exif\0\0", tiff)));
    assertThat(evidence.localTime()).isNull();
    assertThat(evidence.position()).isEqualTo(PLACE);
    assertThat(messages(evidence, Kind.METADATA_DAMAGED))
        .containsExactly("A part of the Exif data can not be read; the rest was read.");
  }

  @ParameterizedTest
  @CsvSource({
    "MOV, 'xxxxftypqt  xxxx'",
    "MOV, 'xxxxmoovxxxxxxxx'",
    "MP4, 'xxxxftypisomxxxx'",
    "AVI, 'RIFFxxxxAVI LIST'",
    "GIF, 'GIF89axxxxxxxxxx'",
    "PSD, '8BPSxxxxxxxxxxxx'",
    "BMP, 'BMxxxxxxxxxxxxxx'",
    "CRW, 'IIxxxxHEAPCCDRxx'"
  })
  void otherFormatsAreNamedByTheirContent(String format, String content) {
    assertThatThrownBy(() -> EvidenceReader.read(content.getBytes(ISO_8859_1)))
        .isInstanceOfSatisfying(
            UnreadableImageException.class,
            e ->
                assertThat(e.problem())
                    .isEqualTo(
                        new Problem(
                            Kind.FORMAT_NOT_READ,
                            "This is a file of the format "
                                + format
                                + ", which is not yet read; import a JPEG of the same shot.")));
  }

  /** Files of these formats are read, but not all of them say what is looked for. */
  @Test
  void aFileThatIsReadInVainSaysWhatItLacks() {
    refuses("FOVbxxxxxxxxxxxx", "This X3F file holds no Exif, so nothing is known of its shot");
    refuses(
        "\0\0\0\fJXL \r\n\u0087\n\0\0\0\020brobExifxxxx",
        "This JPEG XL file holds its Exif compressed, which is not yet read");
  }

  private static void refuses(String content, String words) {
    assertThatThrownBy(() -> EvidenceReader.read(content.getBytes(ISO_8859_1)))
        .isInstanceOfSatisfying(
            UnreadableImageException.class,
            e ->
                assertThat(e.problem())
                    .isEqualTo(
                        new Problem(
                            Kind.FORMAT_NOT_READ, words + "; import a JPEG of the same shot.")));
  }

  @ParameterizedTest
  @CsvSource({
    "HEIC, 'xxxxftypheicxxxx'",
    "HEIC, 'xxxxftypmif1xxxxheic'",
    "AVIF, 'xxxxftypavifxxxx'",
    "AVIF, 'xxxxftypmif1xxxxavif'",
    "CR3, 'xxxxftypcrx xxxx'",
    "WebP, 'RIFFxxxxWEBP'",
    "RAF, 'FUJIFILMCCD-RAW 0201'",
    "ORF, 'IIROxxxxxxxxxxxx'"
  })
  void aFormatWithNothingInItIsRefusedByName(String format, String content) {
    assertThatThrownBy(() -> EvidenceReader.read(content.getBytes(ISO_8859_1)))
        .isInstanceOfSatisfying(
            UnreadableImageException.class,
            e ->
                assertThat(e.problem())
                    .isEqualTo(
                        new Problem(
                            Kind.UNREADABLE,
                            "The file begins like "
                                + format
                                + " but holds no readable metadata; copy it from the camera"
                                + " again.")));
  }

  @Test
  void rawFilesInATiffContainerAreToldFromTiff() throws Exception {
    assertThat(formatOf(builder().bytes(IFD0, Tags.DNG_VERSION, 1, 4, 0, 0))).isEqualTo("DNG");
    assertThat(
            formatOf(
                builder()
                    .ascii(IFD0, Tags.MAKE, "NIKON CORPORATION")
                    .shorts(IFD0, Tags.PHOTOMETRIC_INTERPRETATION, 32803)))
        .isEqualTo("NEF");
    assertThat(
            formatOf(
                builder().ascii(IFD0, Tags.MAKE, "SONY").shorts(IFD0, Tags.COMPRESSION, 32767)))
        .isEqualTo("ARW");
    assertThat(
            formatOf(
                builder()
                    .ascii(IFD0, Tags.MAKE, "NIKON CORPORATION")
                    .shorts(IFD0, Tags.PHOTOMETRIC_INTERPRETATION, 2)))
        .isEqualTo("TIFF");
  }

  private static String formatOf(ExifBuilder builder) throws UnreadableImageException {
    return EvidenceReader.read(builder.tiff()).format();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "hello", "\u00ff\u00d8", "\u00ff\u00d8\u00ff", "II*\0", "MM\0*\0\0\0\b"})
  void contentOfWhichNothingCanBeSaidIsRefused(String content) {
    assertThatThrownBy(() -> EvidenceReader.read(content.getBytes(ISO_8859_1)))
        .isInstanceOfSatisfying(
            UnreadableImageException.class,
            e -> assertThat(e.problem().kind()).isEqualTo(Kind.UNREADABLE));
  }
}
