package org.lightledger.shot;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ClockCorrectionTest {
  private static final LocalDateTime READING = LocalDateTime.parse("2024-06-01T15:00:00");

  /** One millisecond less than a million hours. */
  private static final long LARGEST_MS = 1_000_000L * 3_600_000L - 1;

  @ParameterizedTest
  @CsvSource({
    "-1:00:00, 2024-06-01T14:00:00",
    "+0:00:01, 2024-06-01T15:00:01",
    "+00:30:00, 2024-06-01T15:30:00",
    "-24:00:00, 2024-05-31T15:00:00",
    "+213950:00:07.25, 2048-10-28T05:00:07.25",
    "-0:00:00.001, 2024-06-01T14:59:59.999",
  })
  void theCorrectionIsAddedToTheReading(String text, LocalDateTime truth) {
    assertThat(ClockCorrection.parse(text).apply(READING)).isEqualTo(truth);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "1:00:00",
        "+1:00",
        "+1",
        "+1:60:00",
        "+1:00:60",
        "+1:00:00.",
        "+1:00:00.0001",
        "+1000000:00:00",
        "±1:00:00",
        "+ 1:00:00",
        "-1:00:00 ",
        "+1:0:00",
        "--1:00:00"
      })
  void otherTextsAreRefused(String text) {
    assertThatThrownBy(() -> ClockCorrection.parse(text))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "expected a clock correction ±H:MM:SS, what to add to the camera's time (-1:00:00 when"
                + " the camera is an hour ahead), found \""
                + text
                + "\"");
  }

  @Property
  void textsAreReadBack(@ForAll @LongRange(min = -LARGEST_MS, max = LARGEST_MS) long millis) {
    ClockCorrection correction = new ClockCorrection(Duration.ofMillis(millis));

    assertThat(ClockCorrection.parse(correction.toText())).isEqualTo(correction);
  }

  @ParameterizedTest
  @CsvSource({
    "0, +0:00:00",
    "-3600000, -1:00:00",
    "-1, -0:00:00.001",
    "61001, +0:01:01.001",
    "90000000, +25:00:00"
  })
  void textsAreShort(long millis, String text) {
    assertThat(new ClockCorrection(Duration.ofMillis(millis)).toText()).isEqualTo(text);
  }

  @Property
  void theShotWhoseTimeIsKnownGetsIt(
      @ForAll @LongRange(min = -LARGEST_MS, max = LARGEST_MS) long millis) {
    LocalDateTime truth = READING.plus(Duration.ofMillis(millis));

    assertThat(ClockCorrection.between(READING, truth).apply(READING)).isEqualTo(truth);
    assertThat(
            ClockCorrection.between(
                READING, truth.toInstant(ZoneOffset.ofHours(2)), ZoneOffset.ofHours(2)))
        .isEqualTo(ClockCorrection.between(READING, truth));
  }

  @ParameterizedTest
  @CsvSource({"1499999, 1", "1500000, 2", "-1499999, -1", "-1500001, -2", "499999, 0"})
  void aDerivedCorrectionIsRoundedToTheMillisecond(long nanos, long millis) {
    assertThat(ClockCorrection.between(READING, READING.plusNanos(nanos)).toAdd())
        .isEqualTo(Duration.ofMillis(millis));
  }

  @Test
  void aCorrectionThatNoClockNeedsIsRefused() {
    assertThatThrownBy(() -> new ClockCorrection(Duration.ofMillis(LARGEST_MS + 1)))
        .hasMessageContaining("less than a million hours");
    assertThatThrownBy(() -> new ClockCorrection(Duration.ofMillis(-LARGEST_MS - 1)))
        .hasMessageContaining("less than a million hours");
    assertThatThrownBy(() -> new ClockCorrection(Duration.ofNanos(1)))
        .hasMessageContaining("whole milliseconds");
    assertThatThrownBy(() -> ClockCorrection.between(READING, READING.minusYears(200)))
        .hasMessageContaining("less than a million hours");
  }
}
