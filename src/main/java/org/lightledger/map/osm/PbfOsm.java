package org.lightledger.map.osm;

import com.google.protobuf.ByteString;
import com.google.protobuf.InvalidProtocolBufferException;
import crosby.binary.Fileformat;
import crosby.binary.Osmformat;
import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Set;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import org.lightledger.map.MapBox;

/** Reads OSM PBF block by block (OpenStreetMap wiki, "PBF Format"). */
final class PbfOsm {
  /** The format's own bounds for a block's header and its content. */
  private static final int LARGEST_HEADER_BYTES = 64 << 10;

  private static final int LARGEST_BLOCK_BYTES = 32 << 20;

  /** What this reader understands; a file that requires more is refused, as the format has it. */
  private static final Set<String> UNDERSTOOD = Set.of("OsmSchema-V0.6", "DenseNodes");

  private static final String FIRST = "OSMHeader";

  /** The format counts in nanodegrees. */
  static final double PER_DEGREE = 1e9;

  private final OsmVisitor visitor;

  PbfOsm(OsmVisitor visitor) {
    this.visitor = visitor;
  }

  /** Whether a file with this beginning is PBF: a length, then a header that names its type. */
  static boolean begins(byte[] head) {
    return new String(head, StandardCharsets.ISO_8859_1).indexOf(FIRST) == 2 * Short.BYTES + 2;
  }

  void read(InputStream in) throws IOException {
    DataInputStream data = new DataInputStream(in);
    boolean first = true;
    for (int start = data.read(); start >= 0; start = data.read()) {
      int headerBytes = start << 24 | data.readUnsignedByte() << 16 | data.readUnsignedShort();
      require(headerBytes, LARGEST_HEADER_BYTES, "a block's header");
      try {
        Fileformat.BlobHeader header = Fileformat.BlobHeader.parseFrom(whole(data, headerBytes));
        require(header.getDatasize(), LARGEST_BLOCK_BYTES, "a block");
        byte[] content = unpacked(Fileformat.Blob.parseFrom(whole(data, header.getDatasize())));
        if (first != header.getType().equals(FIRST)) {
          throw new OsmFileException("expected one header at the start, found another order");
        }
        if (first) {
          header(Osmformat.HeaderBlock.parseFrom(content));
        } else if (header.getType().equals("OSMData")) {
          new PbfBlock(Osmformat.PrimitiveBlock.parseFrom(content), visitor).show();
        }
        first = false;
      } catch (InvalidProtocolBufferException | IndexOutOfBoundsException e) {
        throw new OsmFileException("expected a sound block, found damage; fetch the file again", e);
      }
    }
  }

  private static void require(int bytes, int most, String what) throws OsmFileException {
    if (bytes < 0 || bytes > most) {
      throw new OsmFileException(
          "expected %s of at most %d bytes, found one of %d; the file is damaged"
              .formatted(what, most, Integer.toUnsignedLong(bytes)));
    }
  }

  private static byte[] whole(DataInputStream data, int length) throws IOException {
    byte[] bytes = data.readNBytes(length);
    if (bytes.length < length) {
      throw new EOFException("a block breaks off");
    }
    return bytes;
  }

  private static byte[] unpacked(Fileformat.Blob blob) throws OsmFileException {
    if (blob.hasRaw()) {
      return blob.getRaw().toByteArray();
    }
    if (!blob.hasZlibData()) {
      throw new OsmFileException(
          "expected blocks that are packed by zlib or not at all, found another way; convert the"
              + " file with \"osmium cat -f pbf\"");
    }
    require(blob.getRawSize(), LARGEST_BLOCK_BYTES, "an unpacked block");
    byte[] content = new byte[blob.getRawSize()];
    Inflater inflater = new Inflater();
    try {
      inflater.setInput(blob.getZlibData().toByteArray());
      int length = 0;
      while (length < content.length && !inflater.finished()) {
        int more = inflater.inflate(content, length, content.length - length);
        if (more == 0) {
          break;
        }
        length += more;
      }
      if (length != content.length) {
        throw new OsmFileException("expected a whole block, found a shorter one");
      }
      return content;
    } catch (DataFormatException e) {
      throw new OsmFileException("expected a block packed by zlib, found damage", e);
    } finally {
      inflater.end();
    }
  }

  private void header(Osmformat.HeaderBlock header) throws OsmFileException {
    for (ByteString feature : header.getRequiredFeaturesList().asByteStringList()) {
      if (!UNDERSTOOD.contains(feature.toStringUtf8())) {
        throw new OsmFileException(
            "expected a plain extract, found one that requires \""
                + feature.toStringUtf8()
                + "\"; convert it with \"osmium cat\"");
      }
    }
    if (header.hasBbox()) {
      Osmformat.HeaderBBox box = header.getBbox();
      try {
        visitor.bounds(
            new MapBox(
                box.getLeft() / PER_DEGREE,
                box.getBottom() / PER_DEGREE,
                box.getRight() / PER_DEGREE,
                box.getTop() / PER_DEGREE));
      } catch (IllegalArgumentException e) {
        throw new OsmFileException("the file's bounds: " + e.getMessage(), e);
      }
    }
  }
}
