package org.lightledger.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class QuestionTextTest {

  @ParameterizedTest
  @CsvSource({
    "17:00, 17:00",
    "16:30..18:00, 16:30..18:00",
    "sunset-60m, sunset-60m",
    "sunset-1h30m, sunset-90m",
    "Sunrise+15m, sunrise+15m",
    "sunset, sunset",
  })
  void hoursAreReadAndWritten(String text, String canonical) {
    assertThat(QuestionText.time(QuestionText.parseTime(text))).isEqualTo(canonical);
  }

  @ParameterizedTest
  @ValueSource(strings = {"5pm", "25:00", "sunset-", "sunset60", "17:00..", "", "moonrise+5m"})
  void anUnreadableHourSaysWhatIsExpected(String text) {
    assertThatThrownBy(() -> QuestionText.parseTime(text))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("sunset-60m")
        .hasMessageContaining("\"" + text + "\"");
  }

  @Test
  void daysAreReadAndWritten() {
    QuestionText.Days days = QuestionText.parseDays("2026-12-01..2026-12-31");

    assertThat(days.first()).isEqualTo(LocalDate.of(2026, 12, 1));
    assertThat(QuestionText.days(days.first(), days.last())).isEqualTo("2026-12-01..2026-12-31");
    assertThat(QuestionText.days(days.first(), days.first())).isEqualTo("2026-12-01");
    assertThatThrownBy(() -> QuestionText.parseDays("2026-02-30"))
        .hasMessageContaining("dates that exist")
        .hasMessageContaining("2026-02-30");
  }

  @Test
  void lightsAreReadAndWritten() {
    assertThat(QuestionText.lights(QuestionText.parseLights("rim, Backlit")))
        .isEqualTo("backlit,rim");
  }
}
