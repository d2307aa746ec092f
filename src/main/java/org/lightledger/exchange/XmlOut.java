package org.lightledger.exchange;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * Writes XML 1.0 in UTF-8, an element in a line. A carriage return is written as a reference,
 * because a bare one is read as a line feed (XML 1.0, 2.11). Characters that XML 1.0 can not hold
 * at all (2.2) become U+FFFD.
 */
final class XmlOut {
  private static final char REPLACEMENT = '\uFFFD';

  private final XMLStreamWriter xml;
  private int depth;

  XmlOut(OutputStream out) throws IOException {
    try {
      xml =
          XMLOutputFactory.newDefaultFactory()
              .createXMLStreamWriter(out, StandardCharsets.UTF_8.name());
      xml.writeStartDocument(StandardCharsets.UTF_8.name(), "1.0");
    } catch (XMLStreamException e) {
      throw notWritten(e);
    }
  }

  /** Opens an element with attributes, given as names and values in turn. */
  XmlOut open(String name, String... attributes) throws IOException {
    try {
      indent();
      xml.writeStartElement(name);
      attributes(attributes);
      depth++;
      return this;
    } catch (XMLStreamException e) {
      throw notWritten(e);
    }
  }

  XmlOut close() throws IOException {
    try {
      depth--;
      indent();
      xml.writeEndElement();
      return this;
    } catch (XMLStreamException e) {
      throw notWritten(e);
    }
  }

  /** An element without content. */
  XmlOut empty(String name, String... attributes) throws IOException {
    try {
      indent();
      xml.writeEmptyElement(name);
      attributes(attributes);
      return this;
    } catch (XMLStreamException e) {
      throw notWritten(e);
    }
  }

  /** An element that holds text; none when the text is empty. */
  XmlOut text(String name, String text, String... attributes) throws IOException {
    if (text.isEmpty()) {
      return this;
    }
    try {
      indent();
      xml.writeStartElement(name);
      attributes(attributes);
      characters(holdable(text));
      xml.writeEndElement();
      return this;
    } catch (XMLStreamException e) {
      throw notWritten(e);
    }
  }

  void end() throws IOException {
    try {
      xml.writeCharacters("\n");
      xml.writeEndDocument();
      xml.flush();
    } catch (XMLStreamException e) {
      throw notWritten(e);
    }
  }

  private void attributes(String... attributes) throws XMLStreamException {
    for (int index = 0; index < attributes.length; index += 2) {
      xml.writeAttribute(attributes[index], attributes[index + 1]);
    }
  }

  private void characters(String text) throws XMLStreamException {
    int from = 0;
    for (int at = text.indexOf('\r'); at >= 0; at = text.indexOf('\r', from)) {
      xml.writeCharacters(text.substring(from, at));
      xml.writeEntityRef("#13");
      from = at + 1;
    }
    xml.writeCharacters(text.substring(from));
  }

  /** The text as XML 1.0 can hold it (production 2, Char). */
  static String holdable(String text) {
    StringBuilder held = new StringBuilder(text.length());
    text.codePoints()
        .map(
            c ->
                c == '\t'
                        || c == '\n'
                        || c == '\r'
                        || (c >= 0x20 && c <= 0xD7FF)
                        || (c >= 0xE000 && c <= 0xFFFD)
                        || c >= 0x10000
                    ? c
                    : REPLACEMENT)
        .forEach(held::appendCodePoint);
    return held.toString();
  }

  private void indent() throws XMLStreamException {
    xml.writeCharacters("\n" + " ".repeat(2 * depth));
  }

  private static IOException notWritten(XMLStreamException e) {
    return e.getNestedException() instanceof IOException cause ? cause : new IOException(e);
  }
}
