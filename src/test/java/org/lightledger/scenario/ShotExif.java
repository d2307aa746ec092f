package org.lightledger.scenario;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.lightledger.geo.Angles;
import org.lightledger.geo.GeoPoint;
import org.lightledger.scenario.render.Exposure;

/** What a camera writes into the file of one shot, faults included. */
final class ShotExif {
  /**
   * Magnetic declination at the town in 2026, degrees east: WMM2025 (NOAA NCEI and British
   * Geological Survey, 2024) at the scenario's origin, 0.85 km above the ellipsoid, rounded.
   */
  static final double DECLINATION_DEG = -0.2;

  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("yyyy:MM:dd HH:mm:ss", Locale.ROOT);
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("yyyy:MM:dd", Locale.ROOT);

  private ShotExif() {}

  /** The file's bytes: the picture with its Exif segment. */
  static byte[] write(
      byte[] jpeg,
      ShotPlan plan,
      Exposure exposure,
      GeoPoint tagged,
      double elevationM,
      double errorM,
      boolean quarterTurn,
      int hundredths) {
    ExifWriter.Directory main = new ExifWriter.Directory();
    main.ascii(0x010F, plan.body().make())
        .ascii(0x0110, plan.body().model())
        .number(0x0112, quarterTurn ? 6 : 1)
        .rationals(0x011A, 72, 1)
        .rationals(0x011B, 72, 1)
        .number(0x0128, 2)
        .ascii(0x0132, STAMP.format(clock(plan)))
        .number(0x0213, 1);
    ExifWriter.Directory exif = exif(plan, exposure, hundredths);
    boolean wide = !plan.upright() || quarterTurn;
    exif.size(0xA002, wide ? 960 : 640).size(0xA003, wide ? 640 : 960);
    ExifWriter.Directory gps = new ExifWriter.Directory();
    if (!plan.faults().contains(Fault.NO_POSITION)) {
      gps(gps, plan, tagged, elevationM, errorM);
    }
    return ExifWriter.insert(jpeg, main, exif, gps);
  }

  private static LocalDateTime clock(ShotPlan plan) {
    boolean slow =
        plan.faults().contains(Fault.LOCAL_TIME_SKIPPED)
            || plan.faults().contains(Fault.LOCAL_TIME_TWICE);
    return slow ? plan.local().minusHours(12) : plan.local();
  }

  private static boolean hasOffset(ShotPlan plan) {
    return plan.faults().stream()
        .noneMatch(
            fault ->
                fault == Fault.NO_OFFSET
                    || fault == Fault.LOCAL_TIME_SKIPPED
                    || fault == Fault.LOCAL_TIME_TWICE);
  }

  private static ExifWriter.Directory exif(ShotPlan plan, Exposure exposure, int hundredths) {
    String stamp = STAMP.format(clock(plan));
    ExifWriter.Directory exif = new ExifWriter.Directory();
    exif.rationals(0x829A, 1, exposure.shutterUnder())
        .rationals(0x829D, Math.round(exposure.fNumber() * 10), 10)
        .number(0x8822, 3)
        .number(0x8827, exposure.iso())
        .number(0x8830, 2)
        .undefined(0x9000, '0', '2', '3', '2')
        .ascii(0x9003, stamp)
        .ascii(0x9004, stamp)
        .undefined(0x9101, 1, 2, 3, 0)
        .ascii(0x9291, String.format(Locale.ROOT, "%02d", hundredths))
        .rationals(0x920A, Math.round(plan.focalMm() / plan.body().crop() * 100), 100)
        .undefined(0xA000, '0', '1', '0', '0')
        .number(0xA001, 1)
        .number(0xA405, (int) Math.round(plan.focalMm()));
    if (hasOffset(plan)) {
      exif.ascii(0x9011, plan.moment().getOffset().getId());
    }
    return exif;
  }

  private static void gps(
      ExifWriter.Directory gps, ShotPlan plan, GeoPoint tagged, double elevationM, double errorM) {
    boolean zero = plan.faults().contains(Fault.ZERO_POSITION);
    double latitude = zero ? 0 : tagged.latitudeDeg();
    double longitude = zero ? 0 : tagged.longitudeDeg();
    gps.bytes(0x0000, 2, 3, 0, 0)
        .ascii(0x0001, latitude < 0 ? "S" : "N")
        .rationals(0x0002, sexagesimal(latitude))
        .ascii(0x0003, longitude < 0 ? "W" : "E")
        .rationals(0x0004, sexagesimal(longitude));
    if (!zero) {
      gps.bytes(0x0005, 0)
          .rationals(0x0006, Math.round(elevationM * 10), 10)
          .rationals(0x001F, Math.round(errorM * 10), 10);
    }
    boolean clockTrusted = hasOffset(plan) && !zero;
    if (clockTrusted) {
      Instant instant = plan.moment().toInstant();
      LocalDateTime utc = LocalDateTime.ofInstant(instant, ZoneOffset.UTC);
      gps.rationals(0x0007, utc.getHour(), 1, utc.getMinute(), 1, utc.getSecond(), 1)
          .ascii(0x001D, DAY.format(utc));
    }
    if (!plan.faults().contains(Fault.NO_DIRECTION)) {
      boolean magnetic = plan.faults().contains(Fault.MAGNETIC_DIRECTION);
      double written = Angles.normalizeDeg(plan.facingDeg() - (magnetic ? DECLINATION_DEG : 0));
      gps.ascii(0x0010, magnetic ? "M" : "T").rationals(0x0011, Math.round(written * 100), 100);
    }
  }

  /** Degrees, minutes and ten-thousandths of seconds, which is 3 mm. */
  private static long[] sexagesimal(double angleDeg) {
    long parts = Math.round(Math.abs(angleDeg) * 36_000_000);
    return new long[] {
      parts / 36_000_000, 1, parts % 36_000_000 / 600_000, 1, parts % 600_000, 10_000
    };
  }
}
