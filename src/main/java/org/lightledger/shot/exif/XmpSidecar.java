package org.lightledger.shot.exif;

import com.adobe.internal.xmp.XMPConst;
import com.adobe.internal.xmp.XMPException;
import com.adobe.internal.xmp.XMPMeta;
import java.time.Duration;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Exposure;
import org.lightledger.shot.Problem;

/**
 * Joins what an XMP sidecar says to what its image says (XMP specification parts 1 and 2). The
 * sidecar fills what the image does not say. Where the two disagree:
 *
 * <ul>
 *   <li>position and direction are the sidecar's: editors copy the camera's own into it, so a
 *       difference is a correction that somebody made later, and cameras err more than owners;
 *   <li>the turn (tiff:Orientation) is the sidecar's, for the same reason;
 *   <li>the time is the image's: editors rewrite times with the zone of the computer, and a
 *       corrected clock is the owner's to tell for a whole import.
 * </ul>
 *
 * Each is said.
 */
public final class XmpSidecar {
  /** Positions so near differ by rounding: four decimals of a minute are 0.2 m. Own choice. */
  private static final double SAME_PLACE_M = 2;

  /** Directions so near differ by rounding: Exif writes hundredths. Own choice. */
  private static final double SAME_DIRECTION_DEG = 0.1;

  /** ISO 8601 as in XMP part 1, 8.2.1.2; a date without a time tells no light. */
  private static final Pattern DATE_TIME =
      Pattern.compile(
          "(\\d{4}-\\d{2}-\\d{2})T(\\d{2}:\\d{2})(?::(\\d{2})(\\.\\d{1,9})?\\d*)?"
              + "(Z|[+-]\\d{2}:\\d{2})?");

  private static final Pattern RATIONAL = Pattern.compile("(\\d{1,9})/(\\d{1,9})");
  private static final Pattern DECIMAL = Pattern.compile("\\d{1,6}(?:\\.\\d{1,12})?");

  private XmpSidecar() {}

  private record SidecarTime(LocalDateTime local, @Nullable ZoneOffset offset) {}

  /**
   * Joins a sidecar to its image.
   *
   * @param image what the image says
   * @param packet the sidecar's content
   * @return what both say together, with a problem for everything taken and every disagreement
   */
  public static Evidence join(Evidence image, byte[] packet) {
    Findings findings = new Findings();
    Evidence joined = image;
    try {
      joined = join(image, XmpPlace.parse(packet), findings);
    } catch (XMPException e) {
      findings.damaged("The XMP sidecar of the file can not be read; it is not used.");
    }
    return joined.withProblems(problems(image, joined, findings));
  }

  private static Evidence join(Evidence image, XMPMeta meta, Findings findings)
      throws XMPException {
    List<String> taken = new ArrayList<>();
    GeoPoint position = position(image, place(image, meta, findings), taken, findings);
    Evidence.Direction direction = direction(image, meta, taken, findings);
    Evidence placed = with(image, position, direction, orientation(image, meta));
    Evidence joined = timed(placed, time(meta, image.exposure()), taken, findings);
    if (!taken.isEmpty()) {
      findings.add(
          Problem.Kind.SIDECAR_USED,
          "Taken from the XMP sidecar of the file: %s.",
          String.join(", ", taken));
    }
    return joined;
  }

  /** What the image was refused for is settled where the sidecar says it. */
  private static List<Problem> problems(Evidence image, Evidence joined, Findings findings) {
    List<Problem> problems = new ArrayList<>(image.problems());
    problems.removeIf(
        problem ->
            switch (problem.kind()) {
              case POSITION_REFUSED -> image.position() == null && joined.position() != null;
              case DIRECTION_REFUSED -> image.direction() == null && joined.direction() != null;
              default -> false;
            });
    problems.addAll(findings.problems());
    return problems;
  }

  /** A position that is refused leaves the image's own in force, and no question to the owner. */
  private static @Nullable GeoPoint place(Evidence image, XMPMeta meta, Findings findings)
      throws XMPException {
    Findings refused = new Findings();
    GeoPoint written = XmpPlace.read(meta, refused);
    for (Problem problem : refused.problems()) {
      findings.add(
          image.position() == null ? problem.kind() : Problem.Kind.METADATA_DAMAGED,
          "%s",
          problem.message());
    }
    return written;
  }

  private static @Nullable GeoPoint position(
      Evidence image, @Nullable GeoPoint written, List<String> taken, Findings findings) {
    GeoPoint own = image.position();
    if (written == null || isNullIsland(written)) {
      return own;
    }
    if (own == null || isNullIsland(own)) {
      taken.add("position");
      return written;
    }
    double apartM = Geodesy.distanceM(own, written);
    if (apartM <= SAME_PLACE_M) {
      return own;
    }
    findings.add(
        Problem.Kind.POSITION_CONTRADICTED,
        "The XMP sidecar of the file says a position %.0f m from the file's own; the sidecar's is"
            + " used, as a later correction.",
        apartM);
    return written;
  }

  /** What devices and programs write when they have no position. */
  private static boolean isNullIsland(GeoPoint point) {
    return point.latitudeDeg() == 0 && point.longitudeDeg() == 0;
  }

  private static Evidence.@Nullable Direction direction(
      Evidence image, XMPMeta meta, List<String> taken, Findings findings) throws XMPException {
    Evidence.Direction own = image.direction();
    Ratio ratio = ratio(meta.getPropertyString(XMPConst.NS_EXIF, "GPSImgDirection"));
    if (ratio == null) {
      return own;
    }
    String ref = meta.getPropertyString(XMPConst.NS_EXIF, "GPSImgDirectionRef");
    Evidence.Direction written =
        GpsPlace.direction(ratio, ref == null ? null : ref.strip(), findings);
    if (written == null) {
      return own;
    }
    if (own == null) {
      taken.add("direction");
      return written;
    }
    double apartDeg = Math.abs(own.azimuthDeg() - written.azimuthDeg());
    if (own.reference() == written.reference()
        && Math.min(apartDeg, 360 - apartDeg) <= SAME_DIRECTION_DEG) {
      return own;
    }
    findings.add(
        Problem.Kind.DIRECTION_CONTRADICTED,
        "The XMP sidecar of the file says the direction %.1f degrees, the file itself %.1f; the"
            + " sidecar's is used, as a later correction.",
        written.azimuthDeg(),
        own.azimuthDeg());
    return written;
  }

  private static @Nullable Ratio ratio(@Nullable String text) {
    if (text == null) {
      return null;
    }
    Matcher rational = RATIONAL.matcher(text.strip());
    if (rational.matches()) {
      return new Ratio(Long.parseLong(rational.group(1)), Long.parseLong(rational.group(2)));
    }
    return DECIMAL.matcher(text.strip()).matches()
        ? new Ratio(Math.round(Double.parseDouble(text.strip()) * 1_000_000), 1_000_000)
        : null;
  }

  private static int orientation(Evidence image, XMPMeta meta) throws XMPException {
    String text = meta.getPropertyString(XMPConst.NS_TIFF, "Orientation");
    return text != null && text.strip().matches("[1-8]")
        ? Integer.parseInt(text.strip())
        : image.orientation();
  }

  /**
   * The capture time: exif:DateTimeOriginal, else photoshop:DateCreated, which is the same by the
   * Metadata Working Group's guidelines (2.0, 5.4, from memory). xmp:CreateDate is when the file
   * was made digital; for a camera that is the capture, so it stands in where there is an exposure.
   */
  private static @Nullable SidecarTime time(XMPMeta meta, Exposure exposure) throws XMPException {
    SidecarTime time = parse(meta.getPropertyString(XMPConst.NS_EXIF, "DateTimeOriginal"));
    if (time == null) {
      time = parse(meta.getPropertyString(XMPConst.NS_PHOTOSHOP, "DateCreated"));
    }
    boolean fromCamera = exposure.exposureTimeS() != null || exposure.fNumber() != null;
    return time == null && fromCamera
        ? parse(meta.getPropertyString(XMPConst.NS_XMP, "CreateDate"))
        : time;
  }

  /** A "Z" is not taken for an offset: programs write it for times whose zone they do not know. */
  private static @Nullable SidecarTime parse(@Nullable String text) {
    Matcher matcher = DATE_TIME.matcher(text == null ? "" : text.strip());
    if (!matcher.matches()) {
      return null;
    }
    String seconds = matcher.group(3) == null ? "00" : matcher.group(3);
    String fraction = matcher.group(4) == null ? "" : matcher.group(4);
    LocalDateTime local =
        CameraClock.parse(
            matcher.group(1) + " " + matcher.group(2) + ":" + seconds + fraction, null);
    String zone = matcher.group(5);
    return local == null
        ? null
        : new SidecarTime(
            local, zone == null || zone.equals("Z") ? null : CameraClock.parseOffset(zone));
  }

  private static Evidence timed(
      Evidence image, @Nullable SidecarTime time, List<String> taken, Findings findings) {
    LocalDateTime own = image.localTime();
    if (time == null) {
      return image;
    }
    if (own == null) {
      taken.add("capture time");
      return image.withTime(time.local(), time.offset());
    }
    if (!isSame(own, image.offset(), time)) {
      findings.add(
          Problem.Kind.TIME_CONTRADICTED,
          "The XMP sidecar of the file says the time %s, the file itself %s; the file's own is"
              + " used. Correct the camera's clock for the import if it was wrong.",
          time.local(),
          own);
    }
    return image;
  }

  /** The same reading, or the same instant; sidecars may leave out the seconds or their parts. */
  private static boolean isSame(LocalDateTime own, @Nullable ZoneOffset offset, SidecarTime time) {
    ZoneOffset written = time.offset();
    Duration apart = Duration.between(own, time.local());
    if (written != null && offset != null && !written.equals(offset)) {
      apart = Duration.between(own.atOffset(offset), time.local().atOffset(written));
    }
    boolean toTheMinute = time.local().getSecond() == 0 && time.local().getNano() == 0;
    return apart.abs().compareTo(Duration.ofSeconds(toTheMinute ? 60 : 1)) < 0;
  }

  private static Evidence with(
      Evidence image,
      @Nullable GeoPoint position,
      Evidence.@Nullable Direction direction,
      int orientation) {
    boolean moved = position != null && !position.equals(image.position());
    return new Evidence(
        image.format(),
        image.localTime(),
        image.offset(),
        image.gpsInstant(),
        image.gpsTimeOfDay(),
        position,
        image.altitudeM(),
        moved ? null : image.positionErrorM(),
        direction,
        image.exposure(),
        image.focalLength35mmMm(),
        orientation,
        image.widthPx(),
        image.heightPx(),
        image.camera(),
        image.problems());
  }
}
