package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.io.EOFException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Camera makers' own containers, as their published descriptions and other readers tell (dcraw's
 * source and ExifTool's tag tables, from memory).
 */
final class MakerImages {
  /** RAF: where the offset of the embedded JPEG stands; its length follows. */
  private static final int RAF_JPEG = 84;

  /** RW2: the tag that holds the embedded JPEG. */
  static final int RW2_JPEG = 0x002E;

  /** MRW: a block is a name of four characters and a length. */
  private static final int MRW_BLOCK_HEADER = 8;

  /** MRW: the block that holds a TIFF structure. */
  private static final byte[] MRW_TIFF = {0, 'T', 'T', 'W'};

  /** X3F: a directory entry is an offset, a length and a name of four characters. */
  private static final int X3F_ENTRY = 12;

  /** X3F: the section's header before its picture. */
  private static final int X3F_PICTURE_HEADER = 28;

  /** X3F: a picture of this format is a JPEG. */
  private static final int X3F_JPEG = 18;

  private static final int MOST_BLOCKS = 256;

  private MakerImages() {}

  /** RAF: everything is said by the embedded JPEG. */
  static Optional<Container> raf(ImageBytes bytes) {
    try {
      long from = bytes.uint32(RAF_JPEG);
      return ofJpeg(bytes, from, bytes.uint32(RAF_JPEG + 4));
    } catch (EOFException e) {
      return Optional.empty();
    }
  }

  /**
   * RW2: the embedded JPEG holds the Exif block; files without one have it in the main directory.
   */
  static Optional<Container> rw2(ImageBytes bytes) {
    try {
      for (TiffWalk.Directory directory : TiffWalk.directories(bytes)) {
        TiffWalk.Entry entry = directory.entries().get(RW2_JPEG);
        if (entry != null) {
          Optional<Container> jpeg = ofJpeg(bytes, entry.valueAt(), entry.bytes());
          if (jpeg.isPresent() && !jpeg.get().exif().ifd0().isEmpty()) {
            return jpeg;
          }
        }
      }
    } catch (EOFException e) {
      return Optional.empty();
    }
    ExifBlock exif = ExifBlock.read(new TiffBytes(bytes));
    return exif.ifd0().isEmpty()
        ? Optional.empty()
        : Optional.of(new Container(exif, null, null, null, false));
  }

  /** MRW: one of its blocks is a TIFF structure. */
  static Optional<Container> mrw(ImageBytes bytes) {
    try {
      long at = MRW_BLOCK_HEADER;
      for (int i = 0; i < MOST_BLOCKS && bytes.has(at, MRW_BLOCK_HEADER); i++) {
        long length = bytes.uint32(at + 4);
        if (bytes.startsWith(at, MRW_TIFF)) {
          ImageBytes tiff = bytes.part(at + MRW_BLOCK_HEADER, length);
          return Optional.of(
              new Container(ExifBlock.read(new TiffBytes(tiff)), null, null, null, false));
        }
        at += MRW_BLOCK_HEADER + length;
      }
    } catch (EOFException e) {
      return Optional.empty();
    }
    return Optional.empty();
  }

  /** X3F: the embedded JPEG holds the Exif block, in files since the DP series. */
  static Optional<Container> x3f(ImageBytes bytes) {
    try {
      for (long start : x3fJpegs(bytes)) {
        Optional<Container> jpeg = ofJpeg(bytes, start, bytes.length() - start);
        if (jpeg.isPresent() && !jpeg.get().exif().ifd0().isEmpty()) {
          return jpeg;
        }
      }
    } catch (EOFException e) {
      return Optional.empty();
    }
    return Optional.empty();
  }

  /** Where the JPEG pictures in an X3F file begin. */
  static List<Long> x3fJpegs(ImageBytes bytes) throws EOFException {
    List<Long> starts = new ArrayList<>();
    long directory = bytes.uint32LittleEndian(bytes.length() - 4);
    if (!bytes.startsWith(directory, "SECd".getBytes(ISO_8859_1))) {
      return starts;
    }
    long count = Math.min(MOST_BLOCKS, bytes.uint32LittleEndian(directory + 8));
    for (long i = 0; i < count; i++) {
      long entry = directory + 12 + i * X3F_ENTRY;
      long section = bytes.uint32LittleEndian(entry);
      if (bytes.startsWith(section, "SECi".getBytes(ISO_8859_1))
          && bytes.uint32LittleEndian(section + 12) == X3F_JPEG) {
        starts.add(section + X3F_PICTURE_HEADER);
      }
    }
    return starts;
  }

  /** Where the JPEG picture in a RAF file begins. */
  static long rafJpeg(ImageBytes bytes) throws EOFException {
    return bytes.uint32(RAF_JPEG);
  }

  private static Optional<Container> ofJpeg(ImageBytes bytes, long from, long length)
      throws EOFException {
    JpegSegments jpeg = JpegSegments.read(bytes.part(from, length));
    byte[] exif = jpeg.exif();
    return jpeg.segments() == 0
        ? Optional.empty()
        : Optional.of(
            new Container(
                exif == null ? ExifBlock.empty() : ExifBlock.read(exif),
                jpeg.xmp(),
                null,
                null,
                jpeg.damaged()));
  }
}
