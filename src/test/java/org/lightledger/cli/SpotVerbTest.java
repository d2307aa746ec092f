package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Changes to spots by hand, in the terminal. */
class SpotVerbTest {
  @TempDir Path folder;

  @BeforeEach
  void importShots() {
    CliPhotos.write(folder.resolve("photos"), "a.jpg", 41.93, -6.42);
    CliPhotos.write(folder.resolve("photos"), "b.jpg", 41.9301, -6.42);
    CliPhotos.write(folder.resolve("photos"), "c.jpg", 41.94, -6.42);
    importAgain();
  }

  private JsonNode importAgain() {
    return json(run("import", folder.resolve("photos").toString(), "--json"));
  }

  private Console.Outcome run(String... words) {
    return new Console(folder.resolve("ledger")).run(words);
  }

  private static JsonNode json(Console.Outcome outcome) {
    assertThat(outcome.err()).doesNotContain("expected");
    assertThat(outcome.exitCode()).isZero();
    try {
      return new ObjectMapper().readTree(outcome.out());
    } catch (JsonProcessingException e) {
      throw new AssertionError(outcome.out(), e);
    }
  }

  private int spots() {
    return json(run("spots", "--json")).size();
  }

  @Test
  void splitJoinTakeAndTheImportAfterwardsAddsNothing() {
    assertThat(spots()).isEqualTo(2);
    assertThat(run("spot", "1", "--split", "2").err()).contains("Split off into spot 3");
    assertThat(spots()).isEqualTo(3);
    assertThat(run("spot", "1", "--take", "2").exitCode()).isZero();
    assertThat(json(run("spot", "1", "--json")).get("observations")).hasSize(2);
    assertThat(json(run("spot", "3", "--json")).get("observations")).isEmpty();
    assertThat(run("spot", "1", "--join", "3").err()).contains("Spot 3 is now part of spot 1.");

    JsonNode again = importAgain();

    assertThat(again.get("known").asInt()).isEqualTo(3);
    assertThat(again.get("spotsMade").asInt()).isZero();
    assertThat(again.get("cancelled").asBoolean()).isFalse();
    assertThat(spots()).isEqualTo(2);
  }

  @Test
  void positionNameAndDeletion() {
    JsonNode moved = json(run("spot", "2", "--move-to", "41.9402,-6.4203", "--json"));
    assertThat(moved.get("lat").asDouble()).isEqualTo(41.9402);
    assertThat(moved.get("positionByOwner").asBoolean()).isTrue();
    assertThat(run("spot", "2").out()).contains("You set its position");
    JsonNode released = json(run("spot", "2", "--position-from-shots", "--json"));
    assertThat(released.get("lat").asDouble()).isEqualTo(41.94);
    assertThat(run("spot", "2", "--name", "Mill race").out()).contains("Mill race");

    assertThat(json(run("spot", "2", "--delete", "--json")).get("deleted").asLong()).isEqualTo(2);
    assertThat(run("spots").out()).doesNotContain("Mill race");
    assertThat(run("spots", "--deleted").out()).contains("Mill race");
    assertThat(importAgain().get("spotsMade").asInt()).isZero();
    assertThat(run("spot", "2", "--bring-back").out()).contains("Mill race", "shot 3");
    assertThat(json(run("spots", "--deleted", "--json"))).isEmpty();
  }

  @Test
  void whatWasNotDeletedIsNotBroughtBack() {
    Console.Outcome outcome = run("spot", "2", "--bring-back");

    assertThat(outcome.exitCode()).isEqualTo(1);
    assertThat(outcome.err())
        .contains("found no deleted spot with the number 2")
        .doesNotContain("dropped");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "--join 1",
        "--join 77",
        "--split 1,2",
        "--split x",
        "--move-to 95,0",
        "--name ' '",
        "--join 2 --delete"
      })
  void whatCanNotBeDoneIsBadUsage(String words) {
    String[] change = words.split(" ", 2);
    Console.Outcome outcome =
        words.contains("--delete")
            ? run("spot", "1", "--join", "2", "--delete")
            : run("spot", "1", change[0], change[1].replace("'", ""));

    assertThat(outcome.exitCode()).isEqualTo(2);
    assertThat(outcome.err()).isNotBlank();
    assertThat(spots()).isEqualTo(2);
  }
}
