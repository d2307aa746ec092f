package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.time.Duration;
import java.time.OffsetDateTime;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** When one planned moment is rehearsed, and several in one outing. */
class RehearseVerbTest {
  private static final String[] TWO = {
    "--spot", "1", "--for", "2026-12-12T17:00", "--spot", "2", "--for", "2026-12-12T16:00"
  };

  @TempDir static Path home;

  @BeforeAll
  static void importTwoSpots() {
    Path photos = home.resolve("photos");
    CliPhotos.write(photos, "1-near.jpg", 41.93, -6.42);
    CliPhotos.write(photos, "2-far.jpg", 41.99, -6.42);
    assertThat(run(new String[] {"import"}, photos.toString()).exitCode()).isZero();
  }

  private static Console.Outcome run(String[] first, String... more) {
    String[] all = new String[first.length + more.length];
    System.arraycopy(first, 0, all, 0, first.length);
    System.arraycopy(more, 0, all, first.length, more.length);
    return new Console(home.resolve("ledger")).run(all);
  }

  private static Console.Outcome rehearse(String[] first, String... more) {
    String[] all = new String[first.length + 1];
    all[0] = "rehearse";
    System.arraycopy(first, 0, all, 1, first.length);
    return run(all, more);
  }

  private static JsonNode json(Console.Outcome outcome) throws JsonProcessingException {
    assertThat(outcome.err()).isEmpty();
    assertThat(outcome.exitCode()).isZero();
    return new ObjectMapper().readTree(outcome.out());
  }

  @Test
  void oneMomentGivesItsBestEarlierMoments() throws JsonProcessingException {
    String[] one = {"--spot", "1", "--for", "2026-12-12T17:00"};
    JsonNode moments = json(rehearse(one, "--limit", "3", "--json"));

    assertThat(moments).hasSize(3);
    assertThat(moments.get(0).fieldNames())
        .toIterable()
        .containsExactly(
            "at",
            "sunGapDeg",
            "azimuthDifferenceDeg",
            "altitudeDifferenceDeg",
            "directSun",
            "difference");
    assertThat(moments.get(0).get("at").asText()).startsWith("2026-12-1");
    assertThat(rehearse(one, "--limit", "3").out().lines())
        .hasSize(3)
        .allMatch(line -> line.matches("2026-12-.. 1[67]:..  sun gap [01]\\.\\d°  The sun .*"));
  }

  @Test
  void severalGiveOutingsInWhichTheDrivesFit() throws JsonProcessingException {
    JsonNode runs = json(rehearse(TWO, "--stay", "20", "--limit", "4", "--json"));

    assertThat(runs).hasSize(4);
    for (JsonNode run : runs) {
      JsonNode visits = run.get("visits");
      assertThat(visits).hasSize(2);
      assertThat(run.get("left")).isEmpty();
      JsonNode first = visits.get(0);
      JsonNode second = visits.get(1);
      assertThat(first.get("spotId").asLong()).isEqualTo(2);
      assertThat(second.get("spotId").asLong()).isEqualTo(1);
      assertThat(first.get("driveMinutes").isNull()).isTrue();
      assertThat(second.get("driveSource").asText()).isEqualTo("estimated");
      assertThat(second.get("driveMinutes").asLong())
          .isPositive()
          .isLessThanOrEqualTo(minutes(first.get("leave"), second.get("arrive")));
      assertThat(minutes(first.get("arrive"), first.get("leave"))).isEqualTo(20);
      assertThat(run.get("meanSunGapDeg").asDouble())
          .isCloseTo(
              (first.get("sunGapDeg").asDouble() + second.get("sunGapDeg").asDouble()) / 2,
              within(1e-4));
    }
    assertThat(runs.get(0).get("visits").get(0).fieldNames())
        .toIterable()
        .contains(
            "name",
            "plannedFor",
            "azimuthDifferenceDeg",
            "altitudeDifferenceDeg",
            "directSun",
            "difference");
  }

  private static long minutes(JsonNode from, JsonNode to) {
    return Duration.between(OffsetDateTime.parse(from.asText()), OffsetDateTime.parse(to.asText()))
        .toMinutes();
  }

  @Test
  void whatIsLeftOutIsNamedWithTheReason() throws JsonProcessingException {
    String[] night = {"--spot", "1", "--for", "2026-12-12T23:00"};
    JsonNode run =
        json(rehearse(night, "--spot", "2", "--for", "2026-12-12T16:00", "--json")).get(0);

    assertThat(run.get("left")).hasSize(1);
    assertThat(run.get("left").get(0).asLong()).isEqualTo(1);
    assertThat(rehearse(night, "--spot", "2", "--for", "2026-12-12T16:00").out())
        .contains("  1 of 2, mean sun gap ")
        .contains("(spot 1), because at the planned moment the sun is too far below the horizon");
  }

  @Test
  void wrongPairsAreRefusedInWords() {
    Console.Outcome uneven = rehearse(TWO, "--spot", "1");
    assertThat(uneven.exitCode()).isEqualTo(2);
    assertThat(uneven.err())
        .contains("expected a --for with each --spot, found 3 of --spot and 2 of --for");

    assertThat(rehearse(TWO, "--stay", "3").err())
        .contains("expected a stay of 5 to 240 minutes, found 3");
    String[] one = {"--spot", "1", "--for", "2026-12-12T17:00"};
    assertThat(rehearse(one, "--stay", "20").err()).contains("--stay: expected several pairs");
    String[] none = {"--spot", "1", "--for", "2027-03-28T02:30", "--spot", "2", "--for"};
    assertThat(rehearse(none, "2027-03-27T16:00").err())
        .contains("2027-03-28T02:30, which a clock change leaves out in Europe/Madrid");
  }
}
