package org.lightledger.scenario;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.lightledger.geo.GeoPoint;

/**
 * What is true of one sample file, whatever the file itself says.
 *
 * @param file relative to the sample folder
 * @param spot name of the spot
 * @param utc the true moment, ISO 8601
 * @param camera where the camera truly stood
 * @param subject where the stand-in stood
 * @param facingDeg true bearing of the view
 * @param sunAzimuthDeg the sun's azimuth from the camera
 * @param sunApparentAltitudeDeg the sun's altitude with refraction
 * @param ev100 the exposure
 * @param sunOnSubject whether direct sun reaches the stand-in
 * @param sunInFrame whether the sun's disc lies in the picture with nothing before it
 * @param sunX where the sun's middle falls in the picture as shown, pixels from the left
 * @param sunY pixels from the top
 * @param wrong what is wrong with the file on purpose
 */
record TruthLine(
    String file,
    String spot,
    String utc,
    GeoPoint camera,
    GeoPoint subject,
    double facingDeg,
    double sunAzimuthDeg,
    double sunApparentAltitudeDeg,
    double ev100,
    boolean sunOnSubject,
    boolean sunInFrame,
    double sunX,
    double sunY,
    String wrong) {
  static final String HEADER =
      "file,spot,utc,lat,lon,subject_lat,subject_lon,facing_true_deg,sun_azimuth_deg,"
          + "sun_apparent_altitude_deg,ev100,sun_on_subject,sun_in_frame,sun_x_px,sun_y_px,wrong";

  String toCsv() {
    return String.format(
        Locale.ROOT,
        "%s,%s,%s,%.7f,%.7f,%.7f,%.7f,%.2f,%.4f,%.4f,%.3f,%s,%s,%.1f,%.1f,%s",
        file,
        spot,
        utc,
        camera.latitudeDeg(),
        camera.longitudeDeg(),
        subject.latitudeDeg(),
        subject.longitudeDeg(),
        facingDeg,
        sunAzimuthDeg,
        sunApparentAltitudeDeg,
        ev100,
        sunOnSubject ? "yes" : "no",
        sunInFrame ? "yes" : "no",
        sunX,
        sunY,
        wrong);
  }

  static TruthLine parse(String line) {
    List<String> f = Arrays.asList(line.split(",", -1));
    return new TruthLine(
        f.get(0),
        f.get(1),
        f.get(2),
        new GeoPoint(Double.parseDouble(f.get(3)), Double.parseDouble(f.get(4))),
        new GeoPoint(Double.parseDouble(f.get(5)), Double.parseDouble(f.get(6))),
        Double.parseDouble(f.get(7)),
        Double.parseDouble(f.get(8)),
        Double.parseDouble(f.get(9)),
        Double.parseDouble(f.get(10)),
        f.get(11).equals("yes"),
        f.get(12).equals("yes"),
        Double.parseDouble(f.get(13)),
        Double.parseDouble(f.get(14)),
        f.get(15));
  }

  static List<TruthLine> parseAll(List<String> lines) {
    return lines.stream().skip(1).map(TruthLine::parse).collect(Collectors.toList());
  }
}
