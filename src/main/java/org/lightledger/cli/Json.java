package org.lightledger.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Writes machine output: plain numbers, ISO 8601 times with their offset. */
final class Json {
  private static final int ANGLE_DECIMALS = 4;
  private static final int COORDINATE_DECIMALS = 7;
  private static final ObjectMapper MAPPER =
      new ObjectMapper()
          .enable(SerializationFeature.INDENT_OUTPUT)
          .enable(JsonGenerator.Feature.WRITE_BIGDECIMAL_AS_PLAIN);

  private Json() {}

  /** An object whose fields keep their order; values may be null. */
  static final class Fields {
    private final Map<String, @Nullable Object> map = new LinkedHashMap<>();

    Fields put(String name, @Nullable Object value) {
      map.put(name, value);
      return this;
    }

    Map<String, @Nullable Object> map() {
      return map;
    }
  }

  static Fields fields() {
    return new Fields();
  }

  static @Nullable BigDecimal angle(@Nullable Double valueDeg) {
    return rounded(valueDeg, ANGLE_DECIMALS);
  }

  static @Nullable BigDecimal coordinate(@Nullable Double valueDeg) {
    return rounded(valueDeg, COORDINATE_DECIMALS);
  }

  static @Nullable BigDecimal rounded(@Nullable Double value, int decimals) {
    return value == null
        ? null
        : BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
  }

  static @Nullable String time(@Nullable OffsetDateTime time) {
    return time == null ? null : DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(time);
  }

  /** Writes a value too large to be held; the writer stays open. */
  static JsonGenerator generator(Writer out) {
    try {
      return MAPPER
          .createGenerator(out)
          .useDefaultPrettyPrinter()
          .disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
    } catch (IOException e) {
      throw new UncheckedIOException("machine output can not be written", e);
    }
  }

  static String text(Object value) {
    try {
      return MAPPER.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("machine output can not be written", e);
    }
  }
}
