package org.lightledger.shot.exif;

import java.io.EOFException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The JPEG pictures inside a file that common decoders do not show: a raw file's preview, a
 * thumbnail in an Exif block. They are looked for where the format says, and, when nothing is
 * there, by their first bytes all over the file.
 *
 * @param isHeif whether the file is HEIC, HEIF or AVIF, for which there are converters
 * @param pictures the pictures, largest first; none when the file itself is a common picture
 */
public record EmbeddedPreview(boolean isHeif, List<Picture> pictures) {
  /** Own choice: a raw file holds one to four. */
  private static final int MOST_PICTURES = 64;

  /** Chance makes some hundred starts in a file of 100 MB that are none. Own choice. */
  private static final int MOST_STARTS = 10_000;

  /** No preview is larger. Own choice, bytes. */
  private static final long LARGEST_BYTES = 64L * 1024 * 1024;

  /** TIFF 6.0 section 22: where a JPEG begins; StripOffsets holds it in newer files. */
  private static final int JPEG_INTERCHANGE_FORMAT = 0x0201;

  private static final int STRIP_OFFSETS = 0x0111;

  /**
   * A picture.
   *
   * @param from its first byte in the file
   * @param length at most so many bytes belong to it; what stands behind its end is no harm
   * @param widthPx width, pixels
   * @param heightPx height, pixels
   */
  public record Picture(long from, long length, int widthPx, int heightPx) {}

  /** Keeps an own copy of the pictures. */
  public EmbeddedPreview {
    pictures = List.copyOf(pictures);
  }

  /**
   * Finds the pictures.
   *
   * @param bytes the whole file
   * @return them, or none
   */
  public static EmbeddedPreview find(ImageBytes bytes) {
    ImageFormat format = ImageFormat.of(bytes.head(ImageFormat.HEAD_BYTES));
    if (format == ImageFormat.TIFF && isRaw(bytes)) {
      format = ImageFormat.OTHER_TIFF_RAW;
    }
    List<Picture> pictures =
        switch (format) {
          case OTHER_TIFF_RAW, CR2, IIQ, ORF, RW2, CR3, RAF, X3F, CRW, MRW, HEIC, AVIF, WEBP ->
              inside(format, bytes);
          default -> List.of();
        };
    return new EmbeddedPreview(format == ImageFormat.HEIC || format == ImageFormat.AVIF, pictures);
  }

  private static boolean isRaw(ImageBytes bytes) {
    ExifBlock block = ExifBlock.read(new TiffBytes(bytes));
    return ImageFormat.ofTiff(block.ifd0(), block.sensor() != null) != ImageFormat.TIFF;
  }

  private static List<Picture> inside(ImageFormat format, ImageBytes bytes) {
    List<Picture> pictures = List.of();
    try {
      pictures = at(bytes, starts(format, bytes));
    } catch (EOFException e) {
      // The structure is damaged: the pictures may still be found by their first bytes.
      pictures = List.of();
    }
    return pictures.isEmpty() ? at(bytes, anywhere(bytes)) : pictures;
  }

  private static Collection<Long> starts(ImageFormat format, ImageBytes bytes) throws EOFException {
    return switch (format) {
      case OTHER_TIFF_RAW, CR2, IIQ, ORF, RW2 -> inDirectories(bytes);
      case CR3 -> BoxedImages.cr3Jpegs(bytes);
      case RAF -> List.of(MakerImages.rafJpeg(bytes));
      case X3F -> MakerImages.x3fJpegs(bytes);
      default -> List.of();
    };
  }

  private static Set<Long> inDirectories(ImageBytes bytes) throws EOFException {
    Set<Long> starts = new LinkedHashSet<>();
    for (TiffWalk.Directory directory : TiffWalk.directories(bytes)) {
      starts.add(directory.number(JPEG_INTERCHANGE_FORMAT));
      starts.add(directory.number(STRIP_OFFSETS));
      TiffWalk.Entry rw2 = directory.entries().get(MakerImages.RW2_JPEG);
      if (rw2 != null) {
        starts.add(rw2.valueAt());
      }
    }
    return starts;
  }

  /** Every start of image that is followed by a marker. */
  private static Set<Long> anywhere(ImageBytes bytes) {
    Set<Long> starts = new LinkedHashSet<>();
    try {
      int before = 0;
      for (long at = 0; at < bytes.length() && starts.size() < MOST_STARTS; at++) {
        before = (before << 8 | bytes.uint8(at)) & 0xFFFFFF;
        if (before == 0xFFD8FF) {
          starts.add(at - 2);
        }
      }
    } catch (EOFException e) {
      throw new IllegalStateException("an offset below the length was refused", e);
    }
    return starts;
  }

  private static List<Picture> at(ImageBytes bytes, Collection<Long> starts) {
    record Found(long from, JpegFrame frame) {}
    List<Found> found = new ArrayList<>();
    for (long start : starts) {
      Optional<JpegFrame> frame = JpegFrame.at(bytes, start);
      frame.ifPresent(known -> found.add(new Found(start, known)));
    }
    found.sort(
        Comparator.comparingLong((Found picture) -> picture.frame().pixels())
            .reversed()
            .thenComparingLong(Found::from));
    return found.stream()
        .limit(MOST_PICTURES)
        .map(
            picture ->
                new Picture(
                    picture.from(),
                    Math.min(LARGEST_BYTES, bytes.length() - picture.from()),
                    picture.frame().widthPx(),
                    picture.frame().heightPx()))
        .toList();
  }
}
