package org.lightledger.web.chart;

import gg.jte.Content;
import gg.jte.TemplateOutput;

/**
 * A finished drawing. Templates write it as it stands: everything variable in it was escaped when
 * it was drawn.
 *
 * @param markup one svg element
 */
public record Svg(String markup) implements Content {
  @Override
  public void writeTo(TemplateOutput output) {
    output.writeContent(markup);
  }
}
