package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.MessageKind;
import org.lightledger.session.SentMessage;
import org.lightledger.session.outgoing.Dossier;
import org.lightledger.session.outgoing.StandardTemplates;
import org.lightledger.session.outgoing.Template;

class MessageStoreTest extends LedgerTestBase {
  private static final Instant AT = Instant.parse("2026-06-01T10:00:00.123Z");

  private long addSession() {
    return ledger.write(
        session ->
            session
                .sessions()
                .add(SessionSamples.session(session.clients().add(SessionSamples.adult()))));
  }

  private Template template() {
    return ledger.read(session -> session.messages().template(MessageKind.PLAN));
  }

  @Test
  void theOwnersWordingHoldsUntilItIsForgotten() {
    Template own = new Template(MessageKind.PLAN, "On {{date}}", "Hello {{to}}\n\nSee you");
    assertThat(template()).isEqualTo(StandardTemplates.of(MessageKind.PLAN));

    ledger.change(session -> session.messages().keep(own));
    ledger.change(session -> session.messages().keep(own));
    assertThat(template()).isEqualTo(own);
    assertThat(number("SELECT count(*) FROM templates")).isEqualTo(1);

    ledger.change(session -> session.messages().forget(MessageKind.PLAN));
    assertThat(template()).isEqualTo(StandardTemplates.of(MessageKind.PLAN));
  }

  @Test
  void aTemplateThatAnotherProgramWroteIsNamed() {
    sql("INSERT INTO templates (kind, subject, body) VALUES ('PLAN', 'x', '{{nonsense}}')");

    assertThatThrownBy(this::template)
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("the template of the plan message")
        .hasMessageContaining("{{nonsense}}");
  }

  @Test
  void whatWentOutIsKeptAsItWentOutNewestFirst() {
    long id = addSession();
    SentMessage first =
        new SentMessage(
            MessageKind.QUESTIONS, SentMessage.Way.COPIED, "", "Subject", "Line\nñ 🌅", AT);
    SentMessage second =
        new SentMessage(
            MessageKind.PLAN,
            SentMessage.Way.MAIL,
            "berta@example.org",
            "Subject",
            "Text",
            AT.plusSeconds(60));

    ledger.change(session -> session.messages().sent(id, first));
    ledger.change(session -> session.messages().sent(id, second));

    assertThat(ledger.<List<SentMessage>>read(s -> s.messages().ofSession(id)))
        .containsExactly(second, first);
  }

  @Test
  void nothingGoesOutOfASessionThatIsNotThere() {
    SentMessage message =
        new SentMessage(MessageKind.PLAN, SentMessage.Way.COPIED, "", "Subject", "Text", AT);

    assertThatThrownBy(() -> ledger.change(session -> session.messages().sent(99, message)))
        .isInstanceOf(LedgerException.class);
  }

  @Test
  void theDossierHasThePlansSpotsAndTheirFallbacks() {
    long id = addSession();
    long one = insertSpot("One", CHAPEL);
    long two = insertSpot("Two", new GeoPoint(41.96, -6.61));
    ledger.change(session -> session.plans().keep(id, SessionSamples.plan(one, two)));

    Dossier dossier = ledger.read(session -> DossierReader.read(session, id).orElseThrow());

    assertThat(dossier.spots()).containsOnlyKeys(one, two);
    assertThat(dossier.client().calledName()).isEqualTo("Berta");
    assertThat(dossier.plan()).isEqualTo(SessionSamples.plan(one, two));
    assertThat(dossier.questions()).hasSize(5);
    assertThat(ledger.<Boolean>read(s -> DossierReader.read(s, 99).isEmpty())).isTrue();
  }
}
