package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.lightledger.shot.exif.ExifBuilder.Directory.EXIF;
import static org.lightledger.shot.exif.ExifBuilder.Directory.GPS;

import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Problem.Kind;

class XmpSidecarTest {
  private static final String POSITION =
      "exif:GPSLatitude=\"48,30.0N\" exif:GPSLongitude=\"21,15.0W\"";
  private static final GeoPoint PLACE = new GeoPoint(48.5, -21.25);
  private static final LocalDateTime TIME = LocalDateTime.parse("2024-06-21T19:30:05");

  private static byte[] sidecar(String attributes) {
    return ("<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">"
            + "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">"
            + "<rdf:Description rdf:about=\"\" xmlns:exif=\"http://ns.adobe.com/exif/1.0/\""
            + " xmlns:tiff=\"http://ns.adobe.com/tiff/1.0/\""
            + " xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\""
            + " xmlns:photoshop=\"http://ns.adobe.com/photoshop/1.0/\" "
            + attributes
            + "/></rdf:RDF></x:xmpmeta>")
        .getBytes(UTF_8);
  }

  private static Evidence bare() throws UnreadableImageException {
    return EvidenceReader.read(ExifBuilder.bigEndian().jpeg());
  }

  private static Evidence placed() throws UnreadableImageException {
    return EvidenceReader.read(
        ExifBuilder.bigEndian()
            .ascii(EXIF, Tags.DATE_TIME_ORIGINAL, "2024:06:21 19:30:05")
            .ascii(EXIF, Tags.OFFSET_TIME_ORIGINAL, "+02:00")
            .position("N", new long[] {48, 1, 30, 1, 0, 1}, "W", new long[] {21, 1, 15, 1, 0, 1})
            .rationals(GPS, Tags.GPS_H_POSITIONING_ERROR, 5, 1)
            .ascii(GPS, Tags.GPS_IMG_DIRECTION_REF, "T")
            .rationals(GPS, Tags.GPS_IMG_DIRECTION, 90, 1)
            .jpeg());
  }

  private static List<String> messages(Evidence evidence, Kind kind) {
    return evidence.problems().stream()
        .filter(problem -> problem.kind() == kind)
        .map(Problem::message)
        .toList();
  }

  @Test
  void fillsWhatTheImageDoesNotSay() throws Exception {
    Evidence joined =
        XmpSidecar.join(
            bare(),
            sidecar(
                POSITION
                    + " exif:DateTimeOriginal=\"2024-06-21T19:30:05.25+02:00\""
                    + " exif:GPSImgDirection=\"12345/100\" exif:GPSImgDirectionRef=\"M\""
                    + " tiff:Orientation=\"6\""));

    assertThat(joined.position()).isEqualTo(PLACE);
    assertThat(joined.localTime()).isEqualTo(TIME.plusNanos(250_000_000));
    assertThat(joined.offset()).isEqualTo(ZoneOffset.ofHours(2));
    assertThat(joined.direction())
        .isEqualTo(new Evidence.Direction(123.45, Evidence.North.MAGNETIC));
    assertThat(joined.orientation()).isEqualTo(6);
    assertThat(messages(joined, Kind.SIDECAR_USED))
        .containsExactly(
            "Taken from the XMP sidecar of the file: position, direction, capture time.");
  }

  @Test
  void whatBothSayAlikeIsTheImagesOwnAndNotMentioned() throws Exception {
    Evidence image = placed();

    Evidence joined =
        XmpSidecar.join(
            image,
            sidecar(
                "exif:GPSLatitude=\"48,30.0004N\" exif:GPSLongitude=\"21,15.0W\""
                    + " exif:DateTimeOriginal=\"2024-06-21T17:30:05+00:00\""
                    + " exif:GPSImgDirection=\"90.05\" exif:GPSImgDirectionRef=\"T\""));

    assertThat(joined).isEqualTo(image);
  }

  @Test
  void aMovedPositionAndAnotherDirectionAreLaterCorrections() throws Exception {
    Evidence joined =
        XmpSidecar.join(
            placed(),
            sidecar(
                "exif:GPSLatitude=\"48,31.0N\" exif:GPSLongitude=\"21,15.0W\""
                    + " exif:GPSImgDirection=\"270\" exif:GPSImgDirectionRef=\"T\""));

    assertThat(joined.position()).isEqualTo(new GeoPoint(48 + 31.0 / 60, -21.25));
    assertThat(joined.positionErrorM()).as("the receiver's error is not the editor's").isNull();
    assertThat(joined.direction()).isEqualTo(new Evidence.Direction(270, Evidence.North.TRUE));
    // A minute of latitude at 48.5 degrees is 1853.5 m on the ellipsoid (WGS 84).
    assertThat(messages(joined, Kind.POSITION_CONTRADICTED))
        .containsExactly(
            "The XMP sidecar of the file says a position 1853 m from the file's own; the sidecar's"
                + " is used, as a later correction.");
    assertThat(messages(joined, Kind.DIRECTION_CONTRADICTED)).hasSize(1);
  }

  @Test
  void anotherTimeIsReportedAndTheImagesOwnIsKept() throws Exception {
    Evidence joined =
        XmpSidecar.join(placed(), sidecar("exif:DateTimeOriginal=\"2024-06-21T20:30:05\""));

    assertThat(joined.localTime()).isEqualTo(TIME);
    assertThat(messages(joined, Kind.TIME_CONTRADICTED))
        .containsExactly(
            "The XMP sidecar of the file says the time 2024-06-21T20:30:05, the file itself"
                + " 2024-06-21T19:30:05; the file's own is used. Correct the camera's clock for the"
                + " import if it was wrong.");
  }

  @ParameterizedTest
  @CsvSource({
    "photoshop:DateCreated, 2024-06-21T19:30:05, true",
    "photoshop:DateCreated, 2024-06-21, false",
    "photoshop:DateCreated, 2024-06-31T19:30:05, false",
    "xmp:CreateDate, 2024-06-21T19:30:05, false",
    "xmp:ModifyDate, 2024-06-21T19:30:05, false"
  })
  void onlyDatesThatMeanTheCaptureAreTaken(String name, String value, boolean taken)
      throws Exception {
    Evidence joined = XmpSidecar.join(bare(), sidecar(name + "=\"" + value + "\""));

    assertThat(joined.localTime()).isEqualTo(taken ? TIME : null);
  }

  @Test
  void theDateOfDigitisationIsACamerasCapture() throws Exception {
    Evidence camera =
        EvidenceReader.read(
            ExifBuilder.bigEndian().rationals(EXIF, Tags.EXPOSURE_TIME, 1, 250).jpeg());

    Evidence joined = XmpSidecar.join(camera, sidecar("xmp:CreateDate=\"2024-06-21T19:30:05Z\""));

    assertThat(joined.localTime()).isEqualTo(TIME);
    assertThat(joined.offset()).as("Z may mean that no zone is known").isNull();
  }

  @Test
  void aRefusedPositionOfTheImageIsSettledBySidecar() throws Exception {
    Evidence refused =
        EvidenceReader.read(
            ExifBuilder.bigEndian()
                .position("", new long[] {48, 1, 30, 1, 0, 1}, "W", new long[] {21, 1, 15, 1, 0, 1})
                .jpeg());
    assertThat(messages(refused, Kind.POSITION_REFUSED)).hasSize(1);

    Evidence joined = XmpSidecar.join(refused, sidecar(POSITION));

    assertThat(joined.position()).isEqualTo(PLACE);
    assertThat(messages(joined, Kind.POSITION_REFUSED)).isEmpty();
  }

  @Test
  void aRefusedPositionOfTheSidecarLeavesTheImagesOwn() throws Exception {
    byte[] sidecar = sidecar("exif:GPSLatitude=\"95,0.0N\" exif:GPSLongitude=\"21,15.0W\"");

    Evidence joined = XmpSidecar.join(placed(), sidecar);

    assertThat(joined.position()).isNotNull();
    assertThat(joined.position().latitudeDeg()).isCloseTo(48.5, within(1e-9));
    assertThat(messages(joined, Kind.POSITION_REFUSED)).isEmpty();
    assertThat(messages(joined, Kind.METADATA_DAMAGED)).hasSize(1);
    assertThat(messages(XmpSidecar.join(bare(), sidecar), Kind.POSITION_REFUSED)).hasSize(1);
  }

  @ParameterizedTest
  @CsvSource({
    "'<x:xmpmeta'",
    "'not XML at all'",
    "'<!DOCTYPE x [<!ENTITY a SYSTEM \"file:///etc/hostname\">]><x>&a;</x>'"
  })
  void aSidecarThatIsNoneIsReportedAndTheImageKept(String content) throws Exception {
    Evidence image = placed();

    Evidence joined = XmpSidecar.join(image, content.getBytes(UTF_8));

    assertThat(joined.withProblems(image.problems())).isEqualTo(image);
    assertThat(messages(joined, Kind.METADATA_DAMAGED))
        .containsExactly("The XMP sidecar of the file can not be read; it is not used.");
  }
}
