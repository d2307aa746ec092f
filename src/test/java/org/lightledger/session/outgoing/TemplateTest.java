package org.lightledger.session.outgoing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.session.MessageKind;

class TemplateTest {

  @Test
  void anUnknownFieldIsNamedWithTheFieldsThereAre() {
    assertThatThrownBy(() -> template("Hello {{cleint}}"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("expected one of the fields " + Field.list() + "; found {{cleint}} in the text")
        .hasMessageContaining("{{meeting time}}");
  }

  @ParameterizedTest
  @ValueSource(strings = {"Hello {{to", "{{ {{to}} }}", "{{to {{client}}"})
  void bracesThatDoNotCloseAreRefused(String body) {
    assertThatThrownBy(() -> template(body)).hasMessageContaining("expected }} after {{");
  }

  @Test
  void caseAndSpacesInAFieldDoNotMatter() {
    assertThat(template("{{ Meeting   TIME }}").fields()).containsExactly(Field.MEETING_TIME);
  }

  @Test
  void aSubjectIsOneLine() {
    assertThatThrownBy(
            () -> new Template(MessageKind.PLAN, "Hello\r\nBcc: all@example.org", "text"))
        .hasMessageContaining("one line");
  }

  @Test
  void aValueIsNotLookedThroughForFieldsAgain() {
    Template template = template("{{client}}");

    assertThat(template.body((field, atStart) -> "{{studio}}")).isEqualTo("{{studio}}");
  }

  @ParameterizedTest
  @EnumSource(MessageKind.class)
  void theStandardWordingCanBeSavedAgain(MessageKind kind) {
    Template standard = StandardTemplates.of(kind);

    assertThat(new Template(kind, standard.subject(), standard.body())).isEqualTo(standard);
  }

  private static Template template(String body) {
    return new Template(MessageKind.PLAN, "Subject", body);
  }
}
