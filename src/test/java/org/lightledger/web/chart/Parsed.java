package org.lightledger.web.chart;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/** A drawing read back by an XML parser, which refuses what is not well formed. */
final class Parsed {
  private final Element root;

  Parsed(Svg svg) {
    try {
      root =
          DocumentBuilderFactory.newInstance()
              .newDocumentBuilder()
              .parse(new ByteArrayInputStream(svg.markup().getBytes(UTF_8)))
              .getDocumentElement();
    } catch (Exception e) {
      throw new AssertionError("the drawing is not well-formed XML: " + svg.markup(), e);
    }
  }

  Element root() {
    return root;
  }

  /** Elements of a name that carry a class. */
  List<Element> all(String name, String cssClass) {
    NodeList nodes = root.getElementsByTagName(name);
    List<Element> found = new ArrayList<>();
    for (int i = 0; i < nodes.getLength(); i++) {
      Element element = (Element) nodes.item(i);
      if (List.of(element.getAttribute("class").split(" ")).contains(cssClass)) {
        found.add(element);
      }
    }
    return found;
  }

  Element one(String name, String cssClass) {
    List<Element> found = all(name, cssClass);
    if (found.size() != 1) {
      throw new AssertionError(
          "expected one " + name + " of class " + cssClass + ", found " + found.size());
    }
    return found.get(0);
  }

  static double number(Element element, String attribute) {
    return Double.parseDouble(element.getAttribute(attribute));
  }
}
