package org.lightledger.exchange;

import java.math.BigDecimal;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Numbers as text: plain decimals that come back as the same double. */
final class Numbers {
  /** The decimals of XML Schema and of JSON, and nothing that Java alone understands. */
  private static final Pattern DECIMAL =
      Pattern.compile("[+-]?(?:\\d{1,400}(?:\\.\\d{0,400})?|\\.\\d{1,400})(?:[eE][+-]?\\d{1,3})?");

  private static final int SHOWN = 40;

  private Numbers() {}

  /** Without an exponent, which neither xsd:decimal nor KML allows. */
  static String plain(double value) {
    BigDecimal decimal = BigDecimal.valueOf(value);
    return decimal.signum() == 0 ? "0" : decimal.stripTrailingZeros().toPlainString();
  }

  /**
   * Reads a number.
   *
   * @throws IllegalArgumentException when the text is none
   */
  static double real(@Nullable String text) {
    String stripped = text == null ? "" : text.strip();
    if (!DECIMAL.matcher(stripped).matches()) {
      throw new IllegalArgumentException(
          "expected a decimal number, found "
              + (text == null
                  ? "none"
                  : "\""
                      + (stripped.length() > SHOWN ? stripped.substring(0, SHOWN) + "…" : stripped)
                      + "\""));
    }
    return Double.parseDouble(stripped);
  }

  /** Facings in one line: BEARING/SPREAD in degrees, with spaces between them. */
  static String facings(List<ExchangedSpot.Looking> facings) {
    return facings.stream()
        .map(facing -> plain(facing.bearing().trueDeg()) + "/" + plain(facing.spreadDeg()))
        .collect(Collectors.joining(" "));
  }
}
