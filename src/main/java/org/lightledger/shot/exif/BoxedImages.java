package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.io.EOFException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Files made of boxes: HEIF with its children HEIC and AVIF (ISO/IEC 23008-12, and 14496-12 8.11
 * for items), CR3, and JPEG XL (ISO/IEC 18181-2).
 */
final class BoxedImages {
  /** "full boxes" begin with a version and flags (ISO/IEC 14496-12, 4.2). */
  private static final int VERSION_AND_FLAGS = 4;

  /** An Exif item has one extent, in practice; own choice. */
  private static final int MOST_EXTENTS = 64;

  /** CR3 user types, and what lies in them; lclevy's description of the format, from memory. */
  private static final byte[] CR3_METADATA =
      HexFormat.of().parseHex("85c0b687820f11e08111f4ce462b6a48");

  private static final byte[] CR3_PREVIEW =
      HexFormat.of().parseHex("eaf42b5e1c984b88b9fbb7dc406e4d16");

  /** XMP specification part 3, table 13: the user type of an XMP box. */
  private static final byte[] XMP_UUID =
      HexFormat.of().parseHex("be7acfcb97a942e89c71999491e3afac");

  private static final byte[] EXIF = "Exif".getBytes(ISO_8859_1);

  private BoxedImages() {}

  /** Where an item lies: offsets and lengths within the file. */
  private record Extent(long from, long length) {}

  /** HEIC, HEIF and AVIF; nothing when there is no list of items. */
  static Optional<Container> heif(ImageBytes bytes) {
    byte[] exif = null;
    byte[] xmp = null;
    Size size = new Size(null, null);
    boolean damaged = false;
    try {
      Optional<Box> meta = Box.first(Box.list(bytes, 0, bytes.length()), "meta");
      if (meta.isEmpty()) {
        return Optional.empty();
      }
      List<Box> boxes = meta.get().children(bytes, VERSION_AND_FLAGS);
      size = largestSize(bytes, boxes);
      Map<Long, String> kinds = metadataItems(bytes, boxes);
      Map<Long, List<Extent>> places = places(bytes, boxes, kinds);
      damaged = places.size() < kinds.size();
      for (Map.Entry<Long, List<Extent>> item : places.entrySet()) {
        try {
          byte[] content = content(bytes, item.getValue());
          if ("Exif".equals(kinds.get(item.getKey()))) {
            exif = exif == null ? content : exif;
          } else {
            xmp = xmp == null ? content : xmp;
          }
        } catch (EOFException e) {
          damaged = true;
        }
      }
    } catch (EOFException e) {
      damaged = true;
    }
    return Optional.of(
        new Container(
            exif == null ? ExifBlock.empty() : Container.exifOf(exif),
            xmp,
            size.widthPx(),
            size.heightPx(),
            damaged));
  }

  private record Size(@Nullable Integer widthPx, @Nullable Integer heightPx) {}

  /** A picture cut into tiles has a size of its own and one for the tiles: the largest is meant. */
  private static Size largestSize(ImageBytes bytes, List<Box> meta) throws EOFException {
    Size largest = new Size(null, null);
    long pixels = 0;
    Optional<Box> properties = Box.first(meta, "iprp");
    if (properties.isEmpty()) {
      return largest;
    }
    Optional<Box> list = Box.first(properties.get().children(bytes, 0), "ipco");
    for (Box box : list.isEmpty() ? List.<Box>of() : list.get().children(bytes, 0)) {
      if (box.type().equals("ispe") && box.length() >= 12) {
        Integer width = Container.dimension(bytes.uint32(box.from() + 4));
        Integer height = Container.dimension(bytes.uint32(box.from() + 8));
        if (width != null && height != null && (long) width * height > pixels) {
          pixels = (long) width * height;
          largest = new Size(width, height);
        }
      }
    }
    return largest;
  }

  /** The items that hold Exif or XMP, by number (ISO/IEC 14496-12, 8.11.6). */
  private static Map<Long, String> metadataItems(ImageBytes bytes, List<Box> meta)
      throws EOFException {
    Map<Long, String> kinds = new HashMap<>();
    Optional<Box> items = Box.first(meta, "iinf");
    if (items.isEmpty()) {
      return kinds;
    }
    int count = bytes.uint8(items.get().from()) == 0 ? 2 : 4;
    for (Box entry : items.get().children(bytes, VERSION_AND_FLAGS + count)) {
      int version = bytes.uint8(entry.from());
      if (!entry.type().equals("infe") || version < 2) {
        continue;
      }
      int idBytes = version == 2 ? 2 : 4;
      long id = bytes.uint(entry.from() + 4, idBytes);
      long typeAt = entry.from() + 4 + idBytes + 2;
      String type = new String(bytes.copy(typeAt, 4), ISO_8859_1);
      boolean xmp = type.equals("mime") && text(bytes, typeAt + 4, entry).contains("rdf+xml");
      if (type.equals("Exif") || xmp) {
        kinds.putIfAbsent(id, type);
      }
    }
    return kinds;
  }

  private static String text(ImageBytes bytes, long from, Box within) throws EOFException {
    return new String(bytes.copy(from, Math.min(256, within.to() - from)), ISO_8859_1);
  }

  /** Where the wanted items lie (ISO/IEC 14496-12, 8.11.3). */
  private static Map<Long, List<Extent>> places(
      ImageBytes bytes, List<Box> meta, Map<Long, String> wanted) throws EOFException {
    Map<Long, List<Extent>> places = new HashMap<>();
    Optional<Box> list = Box.first(meta, "iloc");
    if (list.isEmpty()) {
      return places;
    }
    long at = list.get().from();
    int version = bytes.uint8(at);
    int offsetBytes = bytes.uint8(at + 4) >> 4;
    int lengthBytes = bytes.uint8(at + 4) & 0xF;
    int baseBytes = bytes.uint8(at + 5) >> 4;
    int indexBytes = version == 0 ? 0 : bytes.uint8(at + 5) & 0xF;
    int idBytes = version < 2 ? 2 : 4;
    long count = bytes.uint(at + 6, idBytes);
    at += 6 + idBytes;
    long dataFrom = Box.first(meta, "idat").map(Box::from).orElse(-1L);
    for (long i = 0; i < count && places.size() < wanted.size(); i++) {
      long id = bytes.uint(at, idBytes);
      at += idBytes;
      int method = 0;
      if (version > 0) {
        method = bytes.uint16(at) & 0xF;
        at += 2;
      }
      at += 2;
      long base = bytes.uint(at, baseBytes);
      at += baseBytes;
      int extents = bytes.uint16(at);
      at += 2;
      int extentBytes = indexBytes + offsetBytes + lengthBytes;
      // Method 0 counts from the start of the file, 1 from the item data box; 2 is no metadata's.
      long origin = method == 0 ? 0 : method == 1 ? dataFrom : -1;
      if (wanted.containsKey(id) && origin >= 0 && extents <= MOST_EXTENTS) {
        List<Extent> parts = new ArrayList<>();
        for (int e = 0; e < extents; e++) {
          long from = at + (long) e * extentBytes + indexBytes;
          parts.add(
              new Extent(
                  origin + base + bytes.uint(from, offsetBytes),
                  bytes.uint(from + offsetBytes, lengthBytes)));
        }
        places.putIfAbsent(id, parts);
      }
      at += (long) extents * extentBytes;
    }
    return places;
  }

  private static byte[] content(ImageBytes bytes, List<Extent> extents) throws EOFException {
    byte[] content = new byte[0];
    for (Extent extent : extents) {
      if (content.length + extent.length() > Container.METADATA_LIMIT) {
        throw bytes.outside(extent.from(), extent.length());
      }
      byte[] part = Container.metadata(bytes, extent.from(), extent.length());
      int before = content.length;
      content = Arrays.copyOf(content, before + part.length);
      System.arraycopy(part, 0, content, before, part.length);
    }
    return content;
  }

  /**
   * CR3: CMT1, CMT2 and CMT4 are TIFF structures whose first directory is the main, the Exif and
   * the GPS directory.
   */
  static Optional<Container> cr3(ImageBytes bytes) {
    byte[] main = null;
    byte[] exif = null;
    byte[] gps = null;
    byte[] xmp = null;
    boolean damaged = false;
    try {
      List<Box> top = Box.list(bytes, 0, bytes.length());
      for (Box box : top) {
        if (isUser(bytes, box, XMP_UUID)) {
          xmp = metadata(bytes, box, Box.USER_TYPE_BYTES);
        }
      }
      for (Box box : cr3Metadata(bytes, top)) {
        switch (box.type()) {
          case "CMT1" -> main = metadata(bytes, box, 0);
          case "CMT2" -> exif = metadata(bytes, box, 0);
          case "CMT4" -> gps = metadata(bytes, box, 0);
          default -> {}
        }
      }
    } catch (EOFException e) {
      damaged = true;
    }
    return main == null && exif == null
        ? Optional.empty()
        : Optional.of(
            new Container(
                ExifBlock.ofParts(main, exif, gps), xmp, null, null, damaged || exif == null));
  }

  private static List<Box> cr3Metadata(ImageBytes bytes, List<Box> top) throws EOFException {
    Optional<Box> movie = Box.first(top, "moov");
    for (Box box : movie.isEmpty() ? List.<Box>of() : movie.get().children(bytes, 0)) {
      if (isUser(bytes, box, CR3_METADATA)) {
        return box.children(bytes, Box.USER_TYPE_BYTES);
      }
    }
    return List.of();
  }

  private static boolean isUser(ImageBytes bytes, Box box, byte[] type) throws EOFException {
    return box.type().equals("uuid")
        && box.length() >= Box.USER_TYPE_BYTES
        && bytes.startsWith(box.from(), type);
  }

  private static byte[] metadata(ImageBytes bytes, Box box, int behind) throws EOFException {
    return Container.metadata(bytes, box.from() + behind, box.length() - behind);
  }

  /** JPEG XL: the Exif block in a box of its own, or nothing when it is compressed. */
  static Optional<Container> jpegXl(ImageBytes bytes) {
    ExifBlock exif = ExifBlock.empty();
    byte[] xmp = null;
    boolean damaged = false;
    try {
      for (Box box : Box.list(bytes, 0, bytes.length())) {
        if (box.type().equals("brob") && bytes.startsWith(box.from(), EXIF)) {
          return Optional.empty();
        } else if (box.type().equals("Exif")) {
          exif = Container.exifOf(metadata(bytes, box, 0));
        } else if (box.type().equals("xml ")) {
          xmp = metadata(bytes, box, 0);
        }
      }
    } catch (EOFException e) {
      damaged = true;
    }
    return Optional.of(new Container(exif, xmp, null, null, damaged));
  }

  /** Where the JPEG pictures in a CR3 file may begin. */
  static List<Long> cr3Jpegs(ImageBytes bytes) throws EOFException {
    List<Long> starts = new ArrayList<>();
    List<Box> top = Box.list(bytes, 0, bytes.length());
    for (Box box : cr3Metadata(bytes, top)) {
      if (box.type().equals("THMB")) {
        starts.add(jpegStart(bytes, box));
      }
    }
    for (Box box : top) {
      if (isUser(bytes, box, CR3_PREVIEW)) {
        // Eight bytes stand between the user type and the box PRVW.
        for (Box preview : box.children(bytes, Box.USER_TYPE_BYTES + 8)) {
          starts.add(jpegStart(bytes, preview));
        }
      }
    }
    Optional<Box> movie = Box.first(top, "moov");
    for (Box track : movie.isEmpty() ? List.<Box>of() : movie.get().children(bytes, 0)) {
      if (track.type().equals("trak")) {
        firstChunk(bytes, track).ifPresent(starts::add);
      }
    }
    return starts;
  }

  /** Where the first chunk of a track lies (ISO/IEC 14496-12, 8.7.5). */
  private static Optional<Long> firstChunk(ImageBytes bytes, Box track) throws EOFException {
    Box box = track;
    for (String inner : List.of("mdia", "minf", "stbl", "co64")) {
      Optional<Box> next = Box.first(box.children(bytes, 0), inner);
      if (next.isEmpty()) {
        return Optional.empty();
      }
      box = next.get();
    }
    return box.length() < 16 ? Optional.empty() : Optional.of(bytes.uint(box.from() + 8, 8));
  }

  /** The start of image behind some header fields of a box; the box's start when there is none. */
  private static long jpegStart(ImageBytes bytes, Box box) throws EOFException {
    for (long at = box.from(); at < box.from() + 32 && at + 2 <= box.to(); at++) {
      if (bytes.uint16(at) == 0xFFD8) {
        return at;
      }
    }
    return box.from();
  }
}
