package org.lightledger.store;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.Problem;

/** Lists that fill one column. */
final class Json {
  private static final String EMPTY = "[]";
  private static final JsonFactory FACTORY = new JsonFactory();

  private Json() {}

  static String ofProblems(List<Problem> problems) {
    if (problems.isEmpty()) {
      return EMPTY;
    }
    StringWriter out = new StringWriter();
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      json.writeStartArray();
      for (Problem problem : problems) {
        json.writeStartObject();
        json.writeStringField("kind", problem.kind().name());
        json.writeStringField("message", problem.message());
        json.writeEndObject();
      }
      json.writeEndArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toString();
  }

  static List<Problem> problems(String text) {
    if (text.equals(EMPTY)) {
      return List.of();
    }
    List<Problem> problems = new ArrayList<>();
    try (JsonParser json = FACTORY.createParser(text)) {
      expect(json.nextToken() == JsonToken.START_ARRAY, text);
      while (json.nextToken() == JsonToken.START_OBJECT) {
        expect("kind".equals(json.nextFieldName()), text);
        Problem.Kind kind = Problem.Kind.valueOf(json.nextTextValue());
        expect("message".equals(json.nextFieldName()), text);
        problems.add(new Problem(kind, json.nextTextValue()));
        expect(json.nextToken() == JsonToken.END_OBJECT, text);
      }
      expect(json.currentToken() == JsonToken.END_ARRAY, text);
    } catch (IOException e) {
      throw unreadable(text, e);
    }
    return problems;
  }

  static String ofTexts(List<?> values) {
    StringWriter out = new StringWriter();
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      json.writeStartArray();
      for (Object value : values) {
        json.writeString(value.toString());
      }
      json.writeEndArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toString();
  }

  static List<String> texts(String text) {
    List<String> values = new ArrayList<>();
    try (JsonParser json = FACTORY.createParser(text)) {
      expect(json.nextToken() == JsonToken.START_ARRAY, text);
      while (json.nextToken() == JsonToken.VALUE_STRING) {
        values.add(json.getText());
      }
      expect(json.currentToken() == JsonToken.END_ARRAY, text);
    } catch (IOException e) {
      throw unreadable(text, e);
    }
    return values;
  }

  private static void expect(boolean found, String text) {
    if (!found) {
      throw unreadable(text, null);
    }
  }

  private static IllegalArgumentException unreadable(String text, @Nullable Exception cause) {
    return new IllegalArgumentException(
        "expected a list as Lightledger writes it, found " + text, cause);
  }
}
