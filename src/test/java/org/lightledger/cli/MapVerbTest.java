package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.testing.Reference;

class MapVerbTest {
  @TempDir Path home;

  private Console.Outcome run(String... args) {
    return new Console(home.resolve("ledger")).run(args);
  }

  private static JsonNode json(Console.Outcome outcome) throws JsonProcessingException {
    assertThat(outcome.exitCode()).isZero();
    return new ObjectMapper().readTree(outcome.out());
  }

  @Test
  void aMapIsAddedOnceListedAndRemoved() throws IOException {
    String file = Reference.path("extract/berlin-siegessaeule.osm.gz").toString();
    Console.Outcome first = run("map", "add", file, "--json");
    JsonNode added = json(first);

    assertThat(added.get("added").asBoolean()).isTrue();
    assertThat(added.get("mapId").asInt()).isEqualTo(1);
    assertThat(added.get("obstructions").asInt()).isGreaterThan(200);
    assertThat(added.get("problems").asInt()).isEqualTo(4);
    assertThat(first.err()).contains("relation/1637832: expected ways that close to rings");
    assertThat(added.at("/bounds/west").decimalValue()).isEqualByComparingTo("13.34766");
    assertThat(added.at("/changed/west").isNumber()).isTrue();
    assertThat(added.get("licence").asText()).contains("odbl");

    assertThat(json(run("map", "add", file, "--json")).get("added").asBoolean()).isFalse();
    assertThat(run("map", "add", file).out()).contains("Map 1 holds this file already");
    assertThat(json(run("map", "list", "--json")).get("maps")).hasSize(1);
    assertThat(run("map", "list").out()).contains("1  berlin-siegessaeule.osm.gz: ");

    assertThat(run("map", "remove", "1").out()).isEqualTo("Removed map 1.\n");
    assertThat(run("map", "remove", "1").exitCode()).isEqualTo(1);
    assertThat(run("map", "list").out()).startsWith("No map");
  }

  @Test
  void aNewerFileOfTheSameRegionIsNoticed() throws IOException {
    String square =
        "<osm version=\"0.6\"><node id=\"1\" lat=\"48\" lon=\"16\"/><node id=\"2\" lat=\"48.1\""
            + " lon=\"16.1\"/><way id=\"3\"><nd ref=\"1\"/><nd ref=\"2\"/>"
            + "<tag k=\"highway\" v=\"path\"/></way>%s</osm>";
    Path older = Files.writeString(home.resolve("older.osm"), square.formatted(""));
    Path newer = Files.writeString(home.resolve("newer.osm"), square.formatted("<!-- new -->"));
    run("map", "add", older.toString());

    assertThat(run("map", "add", newer.toString()).err())
        .contains("Map 1 (older.osm) shows some of the same region")
        .contains("\"map remove 1\"");
  }

  @Test
  void whatIsNoExtractIsRefusedAndChangesNothing() throws IOException {
    Path letter = Files.writeString(home.resolve("letter.osm"), "Dear Ana");
    Console.Outcome outcome = run("map", "add", letter.toString());

    assertThat(outcome.exitCode()).isEqualTo(1);
    assertThat(outcome.out()).isEmpty();
    assertThat(outcome.err())
        .contains("letter.osm: expected an OpenStreetMap extract", "Nothing was added.");
    assertThat(run("map", "list").out()).startsWith("No map");
    assertThat(run("map", "add", "nowhere.osm").exitCode()).isEqualTo(2);
    assertThat(run("map").exitCode()).isEqualTo(2);
  }
}
