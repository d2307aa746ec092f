package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.util.List;
import java.util.Set;

/**
 * Image formats by their content, never by the file's name. Signatures: JPEG (ITU-T T.81), TIFF 6.0
 * section 2, PNG (ISO/IEC 15948), RIFF, ISO base media file format (ISO/IEC 14496-12, "ftyp"
 * brands) and, for camera makers' own formats, the leading bytes that their files carry.
 */
enum ImageFormat {
  JPEG("JPEG"),
  TIFF("TIFF"),
  DNG("DNG"),
  NEF("NEF"),
  ARW("ARW"),
  PEF("PEF"),
  CR2("CR2"),
  IIQ("IIQ"),
  OTHER_TIFF_RAW("raw (TIFF)"),
  BIG_TIFF("BigTIFF"),
  RW2("RW2"),
  ORF("ORF"),
  CRW("CRW"),
  RAF("RAF"),
  X3F("X3F"),
  MRW("MRW"),
  CR3("CR3"),
  HEIC("HEIC"),
  AVIF("AVIF"),
  JPEG_XL("JPEG XL"),
  JPEG_2000("JPEG 2000"),
  WEBP("WebP"),
  AVI("AVI"),
  PNG("PNG"),
  GIF("GIF"),
  BMP("BMP"),
  PSD("PSD"),
  MOV("MOV"),
  MP4("MP4"),
  UNKNOWN("unknown");

  private static final Set<String> HEIC_BRANDS =
      Set.of("heic", "heix", "hevc", "hevx", "heim", "heis", "mif1", "msf1");
  private static final Set<String> AVIF_BRANDS = Set.of("avif", "avis");
  private static final Set<String> QUICKTIME_ATOMS =
      Set.of("moov", "mdat", "wide", "free", "skip", "pnot");

  /** So many bytes from the start of a file tell its format: the longest list of brands. */
  static final int HEAD_BYTES = 1024;

  private final String label;

  ImageFormat(String label) {
    this.label = label;
  }

  /** The name for the owner. */
  String label() {
    return label;
  }

  /**
   * Recognises a format. Raw files in a TIFF container look like {@link #TIFF} here; {@link
   * #ofTiff} tells them apart once their tags are read.
   */
  static ImageFormat of(byte[] content) {
    if (hasBytes(content, 0, 0xFF, 0xD8)) {
      return JPEG;
    }
    if (hasText(content, 0, "II") || hasText(content, 0, "MM")) {
      return ofByteOrdered(content);
    }
    if (hasBytes(content, 0, 0x89) && hasText(content, 1, "PNG\r\n")) {
      return PNG;
    }
    if (hasText(content, 0, "RIFF")) {
      return hasText(content, 8, "WEBP") ? WEBP : hasText(content, 8, "AVI ") ? AVI : UNKNOWN;
    }
    if (hasText(content, 4, "ftyp")) {
      return ofBrands(content);
    }
    if (content.length >= 8 && QUICKTIME_ATOMS.contains(text(content, 4, 4))) {
      return MOV;
    }
    record Signature(String start, ImageFormat format) {}
    List<Signature> signatures =
        List.of(
            new Signature("FUJIFILMCCD-RAW", RAF),
            new Signature("FOVb", X3F),
            new Signature("\0MRM", MRW),
            new Signature("GIF8", GIF),
            new Signature("8BPS", PSD),
            new Signature("\0\0\0\fJXL \r\n", JPEG_XL),
            new Signature("\u00ff\n", JPEG_XL),
            new Signature("\0\0\0\fjP  \r\n", JPEG_2000),
            new Signature("\u00ffO\u00ffQ", JPEG_2000),
            new Signature("BM", BMP));
    for (Signature signature : signatures) {
      if (hasText(content, 0, signature.start())) {
        return signature.format();
      }
    }
    return UNKNOWN;
  }

  private static ImageFormat ofByteOrdered(byte[] content) {
    if (hasText(content, 6, "HEAPCCDR")) {
      return CRW;
    }
    if (hasText(content, 2, "U\0")) {
      return RW2;
    }
    if (hasText(content, 2, "RO") || hasText(content, 2, "RS") || hasText(content, 2, "OR")) {
      return ORF;
    }
    if (hasText(content, 0, "II+\0") || hasText(content, 0, "MM\0+")) {
      return BIG_TIFF;
    }
    if (hasText(content, 0, "II*\0") || hasText(content, 0, "MM\0*")) {
      if (hasText(content, 8, "CR\2")) {
        return CR2;
      }
      return hasText(content, 8, "IIII") || hasText(content, 8, "MMMM") ? IIQ : TIFF;
    }
    return UNKNOWN;
  }

  /** Reads the major brand, then the compatible brands of a file type box. */
  private static ImageFormat ofBrands(byte[] content) {
    int boxEnd = Math.min(content.length, Math.max(12, boxSize(content)));
    boolean heic = false;
    for (int at = 8; at + 4 <= boxEnd; at += at == 8 ? 8 : 4) {
      String brand = text(content, at, 4);
      if (brand.equals("crx ")) {
        return CR3;
      }
      if (brand.equals("jxl ")) {
        return JPEG_XL;
      }
      if (AVIF_BRANDS.contains(brand)) {
        return AVIF;
      }
      if (brand.equals("qt  ") && at == 8) {
        return MOV;
      }
      heic |= HEIC_BRANDS.contains(brand);
    }
    return heic ? HEIC : MP4;
  }

  /** The file type box is small; a size that says otherwise is not believed. */
  private static int boxSize(byte[] content) {
    int size =
        (content[0] & 0xFF) << 24
            | (content[1] & 0xFF) << 16
            | (content[2] & 0xFF) << 8
            | (content[3] & 0xFF);
    return size < 0 || size > 1024 ? 1024 : size;
  }

  /**
   * Tells camera raw files from plain TIFF by the first directory's tags: DNGVersion (DNG
   * specification 1.6), or a colour filter array or a maker's compression together with the maker's
   * name.
   */
  static ImageFormat ofTiff(TagDirectory ifd0, boolean holdsSensorData) {
    if (ifd0.has(Tags.DNG_VERSION)) {
      return DNG;
    }
    if (!holdsSensorData) {
      return TIFF;
    }
    String make = ifd0.text(Tags.MAKE);
    if (make == null) {
      return OTHER_TIFF_RAW;
    }
    if (make.startsWith("NIKON")) {
      return NEF;
    }
    if (make.startsWith("SONY")) {
      return ARW;
    }
    return make.startsWith("PENTAX") || make.startsWith("RICOH") ? PEF : OTHER_TIFF_RAW;
  }

  private static boolean hasBytes(byte[] content, int at, int... expected) {
    if (content.length < at + expected.length) {
      return false;
    }
    for (int i = 0; i < expected.length; i++) {
      if ((content[at + i] & 0xFF) != expected[i]) {
        return false;
      }
    }
    return true;
  }

  private static boolean hasText(byte[] content, int at, String expected) {
    return content.length >= at + expected.length()
        && text(content, at, expected.length()).equals(expected);
  }

  private static String text(byte[] content, int at, int length) {
    return new String(content, at, length, ISO_8859_1);
  }
}
