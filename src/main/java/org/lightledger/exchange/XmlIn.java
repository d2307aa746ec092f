package org.lightledger.exchange;

import java.io.StringReader;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.XMLConstants;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.jspecify.annotations.Nullable;

/**
 * Reads the XML of others: a document type declaration is refused, so that there are no entities
 * beyond XML's own five, and elements nest within a bound. Not thread-safe.
 */
final class XmlIn {
  /** Elements within each other; own choice, KML's folders rarely nest deeper than ten. */
  static final int DEEPEST = 100;

  private static final Pattern DECLARED_ENCODING =
      Pattern.compile("<\\?xml[^>]{0,100}?\\sencoding\\s*=\\s*[\"']([A-Za-z][A-Za-z0-9._-]*)[\"']");

  private static final Map<String, Charset> BYTE_ORDER_MARKS =
      Map.of(
          "\u00ef\u00bb\u00bf", StandardCharsets.UTF_8,
          "\u00fe\u00ff", StandardCharsets.UTF_16BE,
          "\u00ff\u00fe", StandardCharsets.UTF_16LE);

  private final XMLStreamReader xml;
  private int depth;

  private XmlIn(XMLStreamReader xml) {
    this.xml = xml;
  }

  /** Stands on the outermost element of a file. */
  static XmlIn atRoot(byte[] content) throws UnreadableSpotsException {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
    factory.setProperty(XMLConstants.ACCESS_EXTERNAL_DTD, "");
    try {
      XmlIn in = new XmlIn(factory.createXMLStreamReader(new StringReader(text(content))));
      while (!in.isStart()) {
        in.next();
      }
      return in;
    } catch (XMLStreamException e) {
      throw broken(e);
    }
  }

  /** The text, in the encoding that its first bytes tell (XML 1.0, appendix F). */
  private static String text(byte[] content) {
    String head =
        new String(content, 0, Math.min(content.length, 200), StandardCharsets.ISO_8859_1);
    for (Map.Entry<String, Charset> mark : BYTE_ORDER_MARKS.entrySet()) {
      int length = mark.getKey().length();
      if (head.startsWith(mark.getKey())) {
        return new String(content, length, content.length - length, mark.getValue());
      }
    }
    Matcher declared = DECLARED_ENCODING.matcher(head);
    String name = declared.lookingAt() ? declared.group(1) : "UTF-8";
    boolean known = Charset.isSupported(name) && !name.startsWith("UTF-16");
    return new String(content, known ? Charset.forName(name) : StandardCharsets.UTF_8);
  }

  /** Goes on to what comes next; false at the end of the file. */
  boolean next() throws UnreadableSpotsException {
    try {
      if (!xml.hasNext()) {
        return false;
      }
      int event = xml.next();
      if (event == XMLStreamConstants.DTD) {
        throw new UnreadableSpotsException(
            "The file has a document type declaration, which KML and GPX do not need and which can"
                + " do harm; nothing of it was read. Export it again without one.");
      }
      if (event == XMLStreamConstants.START_ELEMENT && ++depth > DEEPEST) {
        throw new UnreadableSpotsException(
            "The file has more than "
                + DEEPEST
                + " elements within each other, which no map has; nothing of it was taken over.");
      }
      if (event == XMLStreamConstants.END_ELEMENT) {
        depth--;
      }
      return event != XMLStreamConstants.END_DOCUMENT;
    } catch (XMLStreamException e) {
      throw broken(e);
    }
  }

  boolean isStart() {
    return xml.getEventType() == XMLStreamConstants.START_ELEMENT;
  }

  boolean isEnd() {
    return xml.getEventType() == XMLStreamConstants.END_ELEMENT;
  }

  String name() {
    return xml.getLocalName();
  }

  String namespace() {
    String namespace = xml.getNamespaceURI();
    return namespace == null ? "" : namespace;
  }

  @Nullable String attribute(String name) {
    return xml.getAttributeValue(null, name);
  }

  int line() {
    return xml.getLocation().getLineNumber();
  }

  int depth() {
    return depth;
  }

  /** The text of the element it stands on and of those within; stands on its end afterwards. */
  String elementText() throws UnreadableSpotsException {
    StringBuilder text = new StringBuilder();
    int outside = depth - 1;
    while (next() && depth > outside) {
      if (xml.hasText()
          && xml.getEventType() != XMLStreamConstants.COMMENT
          && xml.getEventType() != XMLStreamConstants.PROCESSING_INSTRUCTION) {
        text.append(xml.getText());
      }
    }
    return text.toString();
  }

  /** Passes over the element it stands on; stands on its end afterwards. */
  void skip() throws UnreadableSpotsException {
    int outside = depth - 1;
    while (next() && depth > outside) {
      continue;
    }
  }

  private static UnreadableSpotsException broken(XMLStreamException e) {
    return new UnreadableSpotsException(
        "Expected whole XML, found a mistake near line "
            + (e.getLocation() == null ? 1 : e.getLocation().getLineNumber())
            + "; the file breaks off or is damaged, and nothing of it was taken over. Export it"
            + " again.",
        e);
  }
}
