package org.lightledger.shot.exif;

import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Exposure;
import org.lightledger.shot.Problem;

/**
 * Reads what an image file says about itself. Photos of cameras and phones are read; other formats
 * are recognised by their content and named. Safe for use by several threads.
 */
public final class EvidenceReader {
  private EvidenceReader() {}

  /**
   * Reads a file in memory.
   *
   * @param content the whole file, or at least the part before its image data
   * @return what the file says
   * @throws UnreadableImageException when the format is not read yet, or the content is no image
   */
  public static Evidence read(byte[] content) throws UnreadableImageException {
    return read(ImageBytes.of(content));
  }

  /**
   * Reads a file. Damage inside the file becomes a {@link Problem} of the evidence; only a file of
   * which nothing can be said is refused.
   *
   * @param bytes the whole file, or at least the part before its image data
   * @return what the file says
   * @throws UnreadableImageException when the format is not read yet, or the content is no image
   */
  public static Evidence read(ImageBytes bytes) throws UnreadableImageException {
    byte[] head = bytes.head(ImageFormat.HEAD_BYTES);
    ImageFormat format = ImageFormat.of(head);
    return switch (format) {
      case JPEG -> readJpeg(bytes);
      case TIFF, CR2, IIQ, ORF -> readTiff(format, bytes);
      case HEIC, AVIF -> contained(format, BoxedImages.heif(bytes));
      case CR3 -> contained(format, BoxedImages.cr3(bytes));
      case JPEG_XL ->
          contained(
              format,
              BoxedImages.jpegXl(bytes)
                  .orElseThrow(
                      () ->
                          notRead(
                              "This JPEG XL file holds its Exif compressed, which is not yet read")));
      case PNG -> contained(format, ChunkedImages.png(bytes));
      case WEBP -> contained(format, ChunkedImages.webp(bytes));
      case RAF -> contained(format, MakerImages.raf(bytes));
      case RW2 -> contained(format, MakerImages.rw2(bytes));
      case MRW -> contained(format, MakerImages.mrw(bytes));
      case X3F ->
          contained(
              format,
              MakerImages.x3f(bytes)
                  .orElseThrow(
                      () ->
                          notRead("This X3F file holds no Exif, so nothing is known of its shot")));
      case UNKNOWN ->
          throw new UnreadableImageException(
              new Problem(
                  Problem.Kind.UNREADABLE,
                  bytes.length() == 0
                      ? "The file is empty."
                      : "The content is no image that Lightledger recognises; expected a photo of"
                          + " a camera or a phone."));
      default ->
          throw notRead(
              "This is a file of the format " + format.label() + ", which is not yet read");
    };
  }

  private static UnreadableImageException notRead(String why) {
    return new UnreadableImageException(
        new Problem(Problem.Kind.FORMAT_NOT_READ, why + "; import a JPEG of the same shot."));
  }

  private static UnreadableImageException nothingReadable(ImageFormat format) {
    return new UnreadableImageException(
        new Problem(
            Problem.Kind.UNREADABLE,
            "The file begins like "
                + format.label()
                + " but holds no readable metadata; copy it from the camera again."));
  }

  private static Evidence readJpeg(ImageBytes bytes) throws UnreadableImageException {
    JpegSegments segments = JpegSegments.read(bytes);
    if (segments.segments() == 0) {
      throw nothingReadable(ImageFormat.JPEG);
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

  /** TIFF and the raw files that are TIFF; in those, the main directory describes a thumbnail. */
  private static Evidence readTiff(ImageFormat container, ImageBytes bytes)
      throws UnreadableImageException {
    ExifBlock block = ExifBlock.read(new TiffBytes(bytes));
    TagDirectory sensor = block.sensor();
    ImageFormat format =
        container == ImageFormat.TIFF
            ? ImageFormat.ofTiff(block.ifd0(), sensor != null)
            : container;
    if (block.ifd0().isEmpty()) {
      throw nothingReadable(format);
    }
    TagDirectory picture = format == ImageFormat.TIFF ? block.ifd0() : sensor;
    return evidence(
        format,
        block,
        block.ifd0().bytes(Tags.XMP),
        picture == null ? null : Container.dimension(picture.integer(Tags.IMAGE_WIDTH)),
        picture == null ? null : Container.dimension(picture.integer(Tags.IMAGE_LENGTH)),
        new Findings());
  }

  private static Evidence contained(ImageFormat format, Optional<Container> found)
      throws UnreadableImageException {
    return contained(format, found.orElseThrow(() -> nothingReadable(format)));
  }

  private static Evidence contained(ImageFormat format, Container found) {
    Findings findings = new Findings();
    if (found.damaged()) {
      findings.damaged(
          "The %s file is cut off or damaged; what could be read of it is used.", format.label());
    }
    return evidence(format, found.exif(), found.xmp(), found.widthPx(), found.heightPx(), findings);
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
        widthPx != null
            ? widthPx
            : Container.dimension(block.exif().integer(Tags.PIXEL_X_DIMENSION)),
        heightPx != null
            ? heightPx
            : Container.dimension(block.exif().integer(Tags.PIXEL_Y_DIMENSION)),
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
