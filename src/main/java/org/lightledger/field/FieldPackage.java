package org.lightledger.field;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.lightledger.light.LightClass;
import org.lightledger.light.SunCare;
import org.lightledger.spot.Hazard;

/**
 * What a phone takes along for one day.
 *
 * @param madeAt when it was put together
 * @param day the day
 * @param spots the stops of the plan and what lies around them
 */
public record FieldPackage(Instant madeAt, FieldDay day, List<FieldSpot> spots) {
  private static final JsonFactory FACTORY = new JsonFactory();

  /** Keeps an own copy of the spots. */
  public FieldPackage {
    spots = List.copyOf(spots);
  }

  /**
   * The package as JSON. Numbers are plain, instants milliseconds of the Unix clock, runs pairs of
   * a minute and a code. No "<" is in it, so that it is no markup wherever it is shown.
   *
   * @return one object
   */
  public String toJson() {
    StringWriter out = new StringWriter();
    try (JsonGenerator json = FACTORY.createGenerator(out)) {
      json.writeStartObject();
      json.writeNumberField("madeAt", madeAt.toEpochMilli());
      json.writeStringField("date", day.date().toString());
      json.writeStringField("zone", day.zone().getId());
      json.writeNumberField("from", day.from().toEpochMilli());
      json.writeNumberField("minutes", day.minutes());
      json.writeStringField("sunCare", SunCare.WARNING);
      json.writeNumberField("lowSunTenths", Math.round(SunCare.LOW_SUN_UP_TO_DEG * 10));
      json.writeObjectFieldStart("lights");
      for (LightClass light : LightClass.values()) {
        json.writeStringField(light.code(), light.label());
      }
      json.writeEndObject();
      json.writeArrayFieldStart("spots");
      for (FieldSpot spot : spots) {
        write(spot, json);
      }
      json.writeEndArray();
      json.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toString().replace("<", "\\u003c");
  }

  private static void write(FieldSpot spot, JsonGenerator json) throws IOException {
    json.writeStartObject();
    json.writeNumberField("id", spot.spot().id());
    json.writeStringField("name", spot.spot().name());
    json.writeNumberField("lat", spot.spot().position().latitudeDeg());
    json.writeNumberField("lon", spot.spot().position().longitudeDeg());
    Double declinationDeg = spot.declinationDeg();
    if (declinationDeg == null) {
      json.writeNullField("declinationDeg");
    } else {
      json.writeNumberField("declinationDeg", Math.round(declinationDeg * 100) / 100.0);
    }
    json.writeArrayFieldStart("hazards");
    for (Hazard hazard : Hazard.values()) {
      if (spot.hazards().contains(hazard)) {
        json.writeString(hazard.toText());
      }
    }
    json.writeEndArray();
    json.writeStringField("cautions", spot.spot().cautions());
    writeNumbers("azimuthTenths", spot.azimuthTenths(), json);
    writeNumbers("altitudeTenths", spot.altitudeTenths(), json);
    writeRuns("direct", spot.direct(), json);
    json.writeArrayFieldStart("facings");
    for (FacingLight facing : spot.facings()) {
      json.writeStartObject();
      json.writeNumberField("deg", Math.round(facing.facing().trueDeg() * 10) / 10.0);
      json.writeStringField(
          "words",
          String.format(
              Locale.ROOT,
              "%s %d°",
              facing.facing().compassPoint(),
              Math.floorMod(Math.round(facing.facing().trueDeg()), 360)));
      json.writeBooleanField("planned", facing.planned());
      writeRuns("lights", facing.lights(), json);
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void writeNumbers(String name, List<Integer> numbers, JsonGenerator json)
      throws IOException {
    json.writeArrayFieldStart(name);
    for (int number : numbers) {
      json.writeNumber(number);
    }
    json.writeEndArray();
  }

  private static void writeRuns(String name, List<DayRun> runs, JsonGenerator json)
      throws IOException {
    json.writeArrayFieldStart(name);
    for (DayRun run : runs) {
      json.writeStartArray();
      json.writeNumber(run.fromMinute());
      json.writeString(run.code());
      json.writeEndArray();
    }
    json.writeEndArray();
  }
}
