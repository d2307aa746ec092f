package org.lightledger.shot.exif;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Exposure;
import org.lightledger.shot.Problem;

/**
 * Reads what an image file says about itself. JPEG and TIFF are read; every other format is
 * recognised by its content and named. Safe for use by several threads.
 */
public final class EvidenceReader {
  private EvidenceReader() {}

  /**
   * Reads a file. Damage inside the file becomes a {@link Problem} of the evidence; only a file of
   * which nothing can be said is refused.
   *
   * @param content the whole file, or at least the part before its image data
   * @return what the file says
   * @throws UnreadableImageException when the format is not read yet, or the content is no image
   */
  public static Evidence read(byte[] content) throws UnreadableImageException {
    ImageFormat format = ImageFormat.of(content);
    return switch (format) {
      case JPEG -> readJpeg(content);
      case TIFF -> readTiff(content);
      case UNKNOWN ->
          throw new UnreadableImageException(
              new Problem(
                  Problem.Kind.UNREADABLE,
                  content.length == 0
                      ? "The file is empty."
                      : "The content is no image that Lightledger recognises; expected a JPEG or"
                          + " TIFF file."));
      default -> throw notRead(format);
    };
  }

  private static UnreadableImageException notRead(ImageFormat format) {
    return new UnreadableImageException(
        new Problem(
            Problem.Kind.FORMAT_NOT_READ,
            "This is a file of the format "
                + format.label()
                + ", which is not yet read; import a JPEG of the same shot."));
  }

  private static Evidence readJpeg(byte[] content) throws UnreadableImageException {
    JpegSegments segments = JpegSegments.read(content);
    if (segments.segments() == 0) {
      throw new UnreadableImageException(
          new Problem(
              Problem.Kind.UNREADABLE,
              "The file begins like a JPEG but holds no readable part; copy it from the camera"
                  + " again."));
    }
    Findings findings = new Findings();
    if (segments.damaged()) {
      findings.damaged("The JPEG file is cut off or damaged before its image data.");
    }
    byte[] exif = segments.exif();
    ExifBlock block = exif == null ? ExifBlock.empty() : ExifBlock.read(exif);
    return evidence(
        ImageFormat.JPEG, block, segments.xmp(), segments.widthPx(), segments.heightPx(), findings);
  }

  private static Evidence readTiff(byte[] content) throws UnreadableImageException {
    ExifBlock block = ExifBlock.read(content);
    ImageFormat format = ImageFormat.ofTiff(block.ifd0(), block.sensorData());
    if (format != ImageFormat.TIFF) {
      throw notRead(format);
    }
    if (block.ifd0().isEmpty()) {
      throw new UnreadableImageException(
          new Problem(
              Problem.Kind.UNREADABLE,
              "The file begins like a TIFF but holds no readable directory; copy it again."));
    }
    return evidence(
        ImageFormat.TIFF,
        block,
        block.ifd0().bytes(Tags.XMP),
        dimension(block.ifd0().integer(Tags.IMAGE_WIDTH)),
        dimension(block.ifd0().integer(Tags.IMAGE_LENGTH)),
        new Findings());
  }

  private static Evidence evidence(
      ImageFormat format,
      ExifBlock block,
      byte @Nullable [] xmp,
      @Nullable Integer widthPx,
      @Nullable Integer heightPx,
      Findings findings) {
    if (block.damaged()) {
      findings.damaged("A part of the Exif data can not be read; the rest was read.");
    }
    CameraClock clock = CameraClock.read(block, findings);
    GpsClock gpsClock = GpsClock.read(block.gps(), findings);
    GpsPlace place = GpsPlace.read(block.gps(), findings);
    GeoPoint position = place.position();
    // A position that the Exif block holds but that is refused is not replaced by XMP's: editing
    // programs copy the one from the other.
    if (position == null && xmp != null && !findings.has(Problem.Kind.POSITION_REFUSED)) {
      position = XmpPlace.read(xmp, findings);
    }
    Exposure exposure = ExposureTags.read(block.exif(), findings);
    return new Evidence(
        format.label(),
        clock.time(),
        clock.offset(),
        gpsClock.instant(),
        gpsClock.timeOfDay(),
        position,
        place.altitudeM(),
        place.positionErrorM(),
        place.direction(),
        exposure,
        focalLength35mmMm(block.exif()),
        orientation(block.ifd0()),
        widthPx != null ? widthPx : dimension(block.exif().integer(Tags.PIXEL_X_DIMENSION)),
        heightPx != null ? heightPx : dimension(block.exif().integer(Tags.PIXEL_Y_DIMENSION)),
        camera(block.ifd0()),
        findings.problems());
  }

  /**
   * Only the equivalent that the camera states; Exif: 0 means unknown. FocalLength with the focal
   * plane's resolution is not used instead, because the resolution keeps describing the sensor when
   * a picture is cropped or scaled.
   */
  private static @Nullable Double focalLength35mmMm(TagDirectory exif) {
    Long focalLength = exif.integer(Tags.FOCAL_LENGTH_IN_35MM_FILM);
    return focalLength == null || focalLength <= 0 ? null : Double.valueOf(focalLength);
  }

  private static int orientation(TagDirectory ifd0) {
    Long orientation = ifd0.integer(Tags.ORIENTATION);
    return orientation != null && orientation >= 1 && orientation <= 8 ? orientation.intValue() : 1;
  }

  private static @Nullable Integer dimension(@Nullable Long pixels) {
    return pixels == null || pixels <= 0 || pixels > Integer.MAX_VALUE
        ? null
        : Integer.valueOf(pixels.intValue());
  }

  /** Make and model; many models repeat the make. */
  private static @Nullable String camera(TagDirectory ifd0) {
    String make = ifd0.text(Tags.MAKE);
    String model = ifd0.text(Tags.MODEL);
    if (make == null || model == null) {
      return model != null ? model : make;
    }
    return model.toLowerCase(Locale.ROOT).startsWith(make.toLowerCase(Locale.ROOT))
        ? model
        : make + " " + model;
  }
}
