package org.lightledger.shot.exif;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.Exposure;
import org.lightledger.shot.Problem;

/**
 * Exposure settings (Exif, CIPA DC-008, 4.6.5 table 8 group G).
 *
 * <p>ExposureTime and FNumber are taken as written. The APEX values of old cameras contradict them
 * by up to five stops in real files, so ShutterSpeedValue and ApertureValue only stand in where the
 * plain tag is missing, and that is said.
 */
final class ExposureTags {
  /**
   * No lens in air is faster than f/0.5: its numerical aperture can not exceed 1, and N = 1/(2 NA)
   * (Abbe sine condition).
   */
  private static final double FASTEST_F_NUMBER = 0.5;

  /** A pinhole of 0.1 mm at one metre is f/10000; beyond lies no camera. */
  private static final double SLOWEST_F_NUMBER = 10_000;

  /** Exif: a PhotographicSensitivity of 65535 says that the value stands in another tag. */
  private static final long SEE_OTHER_TAG = 65535;

  private ExposureTags() {}

  static Exposure read(TagDirectory exif, Findings findings) {
    List<String> missing = new ArrayList<>();
    Double time = exposureTimeS(exif, findings);
    Double aperture = fNumber(exif, findings);
    Double iso = isoSpeed(exif);
    if (time == null) {
      missing.add("exposure time");
    }
    if (aperture == null) {
      missing.add("f-number");
    }
    if (iso == null) {
      missing.add("ISO speed");
    }
    if (!missing.isEmpty()) {
      findings.add(
          Problem.Kind.EXPOSURE_INCOMPLETE,
          "The file does not say a usable %s; no exposure value follows.",
          String.join(" or ", missing));
    }
    return new Exposure(time, aperture, iso);
  }

  private static @Nullable Double exposureTimeS(TagDirectory exif, Findings findings) {
    Ratio ratio = exif.ratio(Tags.EXPOSURE_TIME);
    if (ratio != null) {
      return ratio.positiveValue();
    }
    Double apex = apex(exif, Tags.SHUTTER_SPEED_VALUE);
    return apex == null ? null : derived("exposure time", Math.pow(2, -apex), findings);
  }

  private static @Nullable Double fNumber(TagDirectory exif, Findings findings) {
    Ratio ratio = exif.ratio(Tags.F_NUMBER);
    Double value = ratio == null ? null : ratio.positiveValue();
    if (ratio == null) {
      Double apex = apex(exif, Tags.APERTURE_VALUE);
      value =
          apex == null || apex == 0 ? null : derived("f-number", Math.pow(2, apex / 2), findings);
    }
    return value != null && value >= FASTEST_F_NUMBER && value <= SLOWEST_F_NUMBER ? value : null;
  }

  /**
   * An APEX value within what cameras can do: 2^-20 s to 2^20 s, f/1 to f/1000. An aperture of 0
   * would be f/1; it is not taken, because cameras without a value write it too.
   */
  private static @Nullable Double apex(TagDirectory exif, int tag) {
    Ratio ratio = exif.ratio(tag);
    Double value = ratio == null ? null : ratio.value();
    return value != null && Math.abs(value) <= 20 ? value : null;
  }

  private static double derived(String what, double value, Findings findings) {
    findings.add(
        Problem.Kind.EXPOSURE_INCOMPLETE,
        "The file has no %s of its own; its APEX value is used, which is less reliable.",
        what);
    return value;
  }

  private static @Nullable Double isoSpeed(TagDirectory exif) {
    Long sensitivity = exif.integer(Tags.PHOTOGRAPHIC_SENSITIVITY);
    if (sensitivity != null && sensitivity > 0 && sensitivity != SEE_OTHER_TAG) {
      return sensitivity.doubleValue();
    }
    for (int tag :
        List.of(
            Tags.RECOMMENDED_EXPOSURE_INDEX, Tags.STANDARD_OUTPUT_SENSITIVITY, Tags.ISO_SPEED)) {
      Long value = exif.integer(tag);
      if (value != null && value > 0) {
        return value.doubleValue();
      }
    }
    return null;
  }
}
