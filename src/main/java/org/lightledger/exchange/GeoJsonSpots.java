package org.lightledger.exchange;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.ZoneId;
import java.util.List;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Trait;

/**
 * Writes spots as GeoJSON (RFC 7946): a feature collection of points, longitude before latitude,
 * without a crs member, since the reference system is WGS 84 by definition.
 */
public final class GeoJsonSpots {
  private static final JsonFactory JSON = new JsonFactory();

  private GeoJsonSpots() {}

  /**
   * Writes a file.
   *
   * @param spots the spots
   * @param out where to; flushed, not closed
   * @throws IOException when it can not be written
   */
  public static void write(List<ExchangedSpot> spots, OutputStream out) throws IOException {
    // Through a writer, so that half a pair of surrogates becomes a mark and no error.
    Writer writer = new OutputStreamWriter(out, StandardCharsets.UTF_8);
    JsonGenerator json =
        JSON.createGenerator(writer)
            .setPrettyPrinter(
                new DefaultPrettyPrinter().withObjectIndenter(new DefaultIndenter("  ", "\n")))
            .disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET)
            .enable(JsonGenerator.Feature.WRITE_BIGDECIMAL_AS_PLAIN);
    json.writeStartObject();
    json.writeStringField("type", "FeatureCollection");
    json.writeArrayFieldStart("features");
    for (ExchangedSpot spot : spots) {
      write(spot, json);
    }
    json.writeEndArray();
    json.writeEndObject();
    json.flush();
    writer.write('\n');
    writer.flush();
  }

  private static void write(ExchangedSpot spot, JsonGenerator json) throws IOException {
    json.writeStartObject();
    json.writeStringField("type", "Feature");
    json.writeObjectFieldStart("geometry");
    json.writeStringField("type", "Point");
    json.writeArrayFieldStart("coordinates");
    number(spot.position().longitudeDeg(), json);
    number(spot.position().latitudeDeg(), json);
    json.writeEndArray();
    json.writeEndObject();
    json.writeObjectFieldStart("properties");
    text("name", spot.name() == null ? "" : spot.name(), json);
    text("area", spot.area() == null ? "" : spot.area(), json);
    ZoneId zone = spot.zone();
    text("zone", zone == null ? "" : zone.getId(), json);
    json.writeBooleanField("open", spot.open());
    json.writeArrayFieldStart("facings");
    for (ExchangedSpot.Looking facing : spot.facings()) {
      json.writeStartObject();
      json.writeFieldName("bearingDeg");
      number(facing.bearing().trueDeg(), json);
      json.writeFieldName("spreadDeg");
      number(facing.spreadDeg(), json);
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("traits");
    for (Trait trait : spot.traits()) {
      json.writeString(trait.code());
    }
    json.writeEndArray();
    json.writeArrayFieldStart("hazards");
    for (Hazard hazard : spot.hazards()) {
      json.writeString(hazard.code());
    }
    json.writeEndArray();
    text("cautions", spot.cautions(), json);
    text("notes", spot.notes(), json);
    json.writeEndObject();
    json.writeEndObject();
  }

  private static void text(String field, String value, JsonGenerator json) throws IOException {
    if (!value.isEmpty()) {
      json.writeStringField(field, value);
    }
  }

  private static void number(double value, JsonGenerator json) throws IOException {
    json.writeNumber(new BigDecimal(Numbers.plain(value)));
  }
}
