package org.lightledger.exchange;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Reads points from anybody's GeoJSON (RFC 7946) as a stream, so that a feature that is no point
 * costs no memory. Of the properties those are taken over that {@link GeoJsonSpots} writes; a name
 * may be a {@code title} as well, and notes a {@code description} or {@code desc}. Not thread-safe.
 */
final class GeoJsonReading {
  /** Values within each other; own choice, GeoJSON itself needs ten. */
  private static final int DEEPEST = 100;

  private static final JsonFactory JSON =
      JsonFactory.builder()
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(DEEPEST)
                  .maxNumberLength(1000)
                  .maxNameLength(10_000)
                  .build())
          .build();

  private final JsonParser json;
  private final SpotFile.Gathering gathering = new SpotFile.Gathering();
  private int features;

  private GeoJsonReading(JsonParser json) {
    this.json = json;
  }

  static SpotFile read(byte[] content) throws IOException, UnreadableSpotsException {
    try (JsonParser json = JSON.createParser(content)) {
      GeoJsonReading reading = new GeoJsonReading(json);
      reading.root();
      return reading.gathering.file();
    } catch (JsonProcessingException e) {
      throw new UnreadableSpotsException(
          "Expected GeoJSON, found a mistake near line "
              + (e.getLocation() == null ? 1 : e.getLocation().getLineNr())
              + " ("
              + firstLine(e.getOriginalMessage())
              + "); nothing of it was taken over. Export it again.",
          e);
    }
  }

  private static String firstLine(String message) {
    String line = message.lines().findFirst().orElse("");
    return line.length() > 150 ? line.substring(0, 150) + "…" : line;
  }

  /** A collection, or one feature alone; its type may stand behind its features. */
  private void root() throws IOException, UnreadableSpotsException {
    if (json.nextToken() != JsonToken.START_OBJECT) {
      throw noGeoJson("no object");
    }
    Feature alone = new Feature();
    String type = null;
    boolean crs = false;
    while (json.nextToken() == JsonToken.FIELD_NAME) {
      String field = json.currentName();
      JsonToken value = json.nextToken();
      if (field.equals("features") && value == JsonToken.START_ARRAY) {
        features();
      } else if (field.equals("type")) {
        type = scalar();
      } else if (field.equals("crs")) {
        crs = !isWgs84(value);
      } else {
        alone.field(field, value);
      }
    }
    if (json.nextToken() != null) {
      throw noGeoJson("more after its end");
    }
    if (crs) {
      throw new UnreadableSpotsException(
          "The file names a reference system of its own, which GeoJSON no longer has (RFC 7946, 4)."
              + " Nothing of it was taken over; export it again in WGS 84, longitude and latitude.");
    }
    if ("Feature".equals(type)) {
      alone.take(1);
    } else if (!"FeatureCollection".equals(type)) {
      throw noGeoJson(type == null ? "no type" : "the type \"" + shortened(type) + "\"");
    }
  }

  private static UnreadableSpotsException noGeoJson(String found) {
    return new UnreadableSpotsException(
        "Expected a GeoJSON FeatureCollection or Feature, found "
            + found
            + "; nothing of the file was taken over.");
  }

  /** GeoJSON of 2008 could name its system; that of the standard is the only one read. */
  private boolean isWgs84(JsonToken value) throws IOException {
    if (value == JsonToken.VALUE_NULL) {
      return true;
    }
    boolean named = false;
    if (value == JsonToken.START_OBJECT || value == JsonToken.START_ARRAY) {
      int depth = 1;
      while (depth > 0) {
        JsonToken token = json.nextToken();
        if (token == null) {
          return false;
        }
        depth += token.isStructStart() ? 1 : token.isStructEnd() ? -1 : 0;
        if (token == JsonToken.VALUE_STRING) {
          String name = json.getText().toUpperCase(Locale.ROOT);
          named |= name.matches("URN:OGC:DEF:CRS:OGC:(1\\.3)?:CRS84");
        }
      }
    }
    return named;
  }

  private void features() throws IOException, UnreadableSpotsException {
    while (json.nextToken() != JsonToken.END_ARRAY) {
      features++;
      if (json.currentToken() != JsonToken.START_OBJECT) {
        json.skipChildren();
        gathering.refuse("feature " + features, "expected an object, found something else");
        continue;
      }
      Feature feature = new Feature();
      while (json.nextToken() == JsonToken.FIELD_NAME) {
        String field = json.currentName();
        feature.field(field, json.nextToken());
      }
      feature.take(features);
    }
  }

  private @Nullable String scalar() throws IOException {
    if (json.currentToken().isScalarValue()) {
      return json.currentToken() == JsonToken.VALUE_NULL ? null : json.getText();
    }
    json.skipChildren();
    return null;
  }

  private static String shortened(String text) {
    return text.length() <= 40 ? text : text.substring(0, 40) + "…";
  }

  /** One feature, whatever the order of its fields. */
  private final class Feature {
    private final SpotDraft draft = new SpotDraft();
    private @Nullable String title;
    private @Nullable String notes;
    private @Nullable String description;

    void field(String field, JsonToken value) throws IOException {
      if (field.equals("geometry") && value == JsonToken.START_OBJECT) {
        geometry();
      } else if (field.equals("properties") && value == JsonToken.START_OBJECT) {
        properties();
      } else {
        json.skipChildren();
      }
    }

    void take(int number) throws UnreadableSpotsException {
      if (!draft.isNamed()) {
        draft.name(title);
      }
      draft.notes(notes == null ? description : notes);
      gathering.take("feature " + number, draft);
    }

    private void geometry() throws IOException {
      String type = null;
      List<String> numbers = null;
      while (json.nextToken() == JsonToken.FIELD_NAME) {
        String field = json.currentName();
        JsonToken value = json.nextToken();
        if (field.equals("type")) {
          type = scalar();
        } else if (field.equals("coordinates") && value == JsonToken.START_ARRAY) {
          numbers = numbers();
        } else {
          json.skipChildren();
        }
      }
      if (!"Point".equals(type)) {
        draft.noPlace(
            "expected a Point, found " + (type == null ? "no type of geometry" : shortened(type)));
      } else if (numbers == null || numbers.size() < 2) {
        draft.noPlace("expected longitude and latitude as numbers, found something else");
      } else {
        place(numbers);
      }
    }

    private void place(List<String> numbers) {
      try {
        draft.at(Numbers.real(numbers.get(1)), Numbers.real(numbers.get(0)));
      } catch (IllegalArgumentException e) {
        draft.noPlace(String.valueOf(e.getMessage()));
      }
    }

    /** The first numbers of an array, or null when it holds anything else. */
    private @Nullable List<String> numbers() throws IOException {
      List<String> numbers = new ArrayList<>();
      boolean others = false;
      while (json.nextToken() != JsonToken.END_ARRAY) {
        if (!json.currentToken().isNumeric()) {
          others = true;
          json.skipChildren();
        } else if (numbers.size() < 3) {
          numbers.add(json.getText());
        }
      }
      return others ? null : numbers;
    }

    private void properties() throws IOException {
      while (json.nextToken() == JsonToken.FIELD_NAME) {
        String field = json.currentName();
        JsonToken value = json.nextToken();
        switch (field) {
          case "name" -> draft.name(scalar());
          case "title" -> title = scalar();
          case "area" -> draft.area(scalar());
          case "zone" -> draft.zone(scalar());
          case "open" -> draft.open(scalar());
          case "notes" -> notes = scalar();
          case "description", "desc" -> description = scalar();
          case "cautions" -> draft.cautions(scalar());
          case "facings" -> facings(value);
          case "traits" -> codes(value, draft::traits);
          case "hazards" -> codes(value, draft::hazards);
          default -> json.skipChildren();
        }
      }
    }

    private void facings(JsonToken value) throws IOException {
      if (value != JsonToken.START_ARRAY) {
        draft.facings(scalar());
        return;
      }
      while (json.nextToken() != JsonToken.END_ARRAY) {
        if (json.currentToken() != JsonToken.START_OBJECT) {
          json.skipChildren();
          draft.leaveOut("facing", "expected bearingDeg and spreadDeg, found something else");
          continue;
        }
        String bearing = null;
        String spread = null;
        while (json.nextToken() == JsonToken.FIELD_NAME) {
          String field = json.currentName();
          json.nextToken();
          if (field.equals("bearingDeg")) {
            bearing = scalar();
          } else if (field.equals("spreadDeg")) {
            spread = scalar();
          } else {
            json.skipChildren();
          }
        }
        draft.facing(bearing, spread);
      }
    }

    private void codes(JsonToken value, Consumer<@Nullable String> add) throws IOException {
      if (value != JsonToken.START_ARRAY) {
        add.accept(scalar());
        return;
      }
      while (json.nextToken() != JsonToken.END_ARRAY) {
        add.accept(scalar());
      }
    }
  }
}
