package org.lightledger.map.osm;

import java.io.BufferedInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.zip.GZIPInputStream;
import java.util.zip.ZipException;

/** An extract on the disk, told apart by its content: XML, XML packed by gzip, or PBF. */
final class OsmFile {
  private static final int BUFFER_BYTES = 1 << 16;

  /** Enough to tell the formats apart. */
  private static final int HEAD_BYTES = 64;

  private final Path path;

  OsmFile(Path path) {
    this.path = path;
  }

  /** Shows one part of the file to a visitor. */
  void read(OsmVisitor visitor) throws IOException {
    try (InputStream file = new BufferedInputStream(Files.newInputStream(path), BUFFER_BYTES)) {
      byte[] head = head(file);
      if (head.length >= 2 && (head[0] & 0xff) == 0x1f && (head[1] & 0xff) == 0x8b) {
        InputStream plain =
            new BufferedInputStream(new GZIPInputStream(file, BUFFER_BYTES), BUFFER_BYTES);
        if (!isXml(head(plain))) {
          throw unknown();
        }
        new XmlOsm(visitor).read(plain);
      } else if (isXml(head)) {
        new XmlOsm(visitor).read(file);
      } else if (PbfOsm.begins(head)) {
        new PbfOsm(visitor).read(file);
      } else {
        throw unknown();
      }
    } catch (EOFException | ZipException | CharacterCodingException e) {
      throw new OsmFileException(
          name()
              + ": expected a whole file, found that it breaks off or is damaged; fetch it again",
          e);
    } catch (OsmFileException e) {
      throw new OsmFileException(name() + ": " + e.getMessage(), e);
    }
  }

  private OsmFileException unknown() {
    return new OsmFileException(
        "expected an OpenStreetMap extract (.osm, .osm.gz or .osm.pbf), found something else");
  }

  private String name() {
    return String.valueOf(path.getFileName());
  }

  private static byte[] head(InputStream in) throws IOException {
    in.mark(HEAD_BYTES);
    byte[] head = in.readNBytes(HEAD_BYTES);
    in.reset();
    return head;
  }

  /** Whether "<" comes first, after blanks or the mark of UTF-8. */
  private static boolean isXml(byte[] head) {
    String first = new String(head, StandardCharsets.ISO_8859_1);
    return first.matches("(?s)(?:\u00ef\u00bb\u00bf)?\\s*<.*");
  }
}
