package org.lightledger.shot.track;

import java.io.BufferedInputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.XMLConstants;
import javax.xml.stream.Location;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/** Opens the XML of a track log: safely, in its encoding, and only up to a size. */
final class TrackXml {
  /** A day at one fix in a second has some 20 MB; own choice. */
  static final long LARGEST_BYTES = 128L * 1024 * 1024;

  /** Bytes that an XML declaration fits into; own choice. */
  private static final int LONGEST_DECLARATION = 200;

  private static final Pattern DECLARED_ENCODING =
      Pattern.compile("<\\?xml[^>]*?\\sencoding\\s*=\\s*[\"']([A-Za-z][A-Za-z0-9._-]*)[\"']");

  private static final Map<String, Charset> BYTE_ORDER_MARKS =
      Map.of(
          "\u00ef\u00bb\u00bf", StandardCharsets.UTF_8,
          "\u00fe\u00ff", StandardCharsets.UTF_16BE,
          "\u00ff\u00fe", StandardCharsets.UTF_16LE);

  private TrackXml() {}

  /**
   * Opens a file.
   *
   * @param in the file's content; not closed
   * @return its XML; reading on fails where it breaks or becomes too large, see {@link #broken}
   */
  static XMLStreamReader open(InputStream in) throws IOException, XMLStreamException {
    return factory().createXMLStreamReader(characters(new Limited(in)));
  }

  /** Of the JDK, so that no library on the class path decides what is safe. */
  private static XMLInputFactory factory() {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
    factory.setProperty(XMLConstants.ACCESS_EXTERNAL_DTD, "");
    return factory;
  }

  /**
   * The file's characters, in the encoding that its first bytes tell (XML 1.0, appendix F). A byte
   * that is none in that encoding becomes a mark: it stands in some name, and is no reason to lose
   * a track.
   */
  private static Reader characters(InputStream in) throws IOException {
    BufferedInputStream buffered = new BufferedInputStream(in);
    buffered.mark(LONGEST_DECLARATION);
    byte[] head = buffered.readNBytes(LONGEST_DECLARATION);
    buffered.reset();
    String bytes = new String(head, StandardCharsets.ISO_8859_1);
    for (Map.Entry<String, Charset> mark : BYTE_ORDER_MARKS.entrySet()) {
      if (bytes.startsWith(mark.getKey())) {
        buffered.skipNBytes(mark.getKey().length());
        return new InputStreamReader(buffered, mark.getValue());
      }
    }
    if (bytes.startsWith("\0<")) {
      return new InputStreamReader(buffered, StandardCharsets.UTF_16BE);
    }
    if (bytes.startsWith("<\0")) {
      return new InputStreamReader(buffered, StandardCharsets.UTF_16LE);
    }
    Matcher declared = DECLARED_ENCODING.matcher(bytes);
    String name = declared.lookingAt() ? declared.group(1) : "UTF-8";
    boolean isOfSingleBytes = Charset.isSupported(name) && !name.startsWith("UTF-16");
    return new InputStreamReader(
        buffered, isOfSingleBytes ? Charset.forName(name) : StandardCharsets.UTF_8);
  }

  /** What to say of XML that can not be read on; a failing or endless stream is thrown at once. */
  static UnreadableTrackException broken(XMLStreamException e)
      throws IOException, UnreadableTrackException {
    if (e.getNestedException() instanceof TooLargeException) {
      throw new UnreadableTrackException(
          "The file has more than "
              + (LARGEST_BYTES >> 20)
              + " MB, the most that is read of a track log; split it.");
    }
    if (e.getNestedException() instanceof IOException failed) {
      throw failed;
    }
    return new UnreadableTrackException(
        "The file is no whole XML: it breaks at line "
            + line(e)
            + ", before any point could be used.");
  }

  /** Where it breaks, from 1 on. */
  static int line(XMLStreamException e) {
    Location location = e.getLocation();
    return location == null ? 1 : Math.max(1, location.getLineNumber());
  }

  private static final class TooLargeException extends IOException {
    private static final long serialVersionUID = 1L;
  }

  /** Ends with an error when more than the allowed number of bytes comes. */
  private static final class Limited extends FilterInputStream {
    private long left = LARGEST_BYTES;

    Limited(InputStream in) {
      super(in);
    }

    @Override
    public int read() throws IOException {
      int value = super.read();
      count(value < 0 ? 0 : 1);
      return value;
    }

    @Override
    public int read(byte[] buffer, int offset, int length) throws IOException {
      int count = super.read(buffer, offset, length);
      count(count);
      return count;
    }

    private void count(int count) throws TooLargeException {
      left -= Math.max(0, count);
      if (left < 0) {
        throw new TooLargeException();
      }
    }
  }
}
