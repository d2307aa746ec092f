package org.lightledger.studio;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.session.Candidate;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.outgoing.OutgoingSamples;
import org.lightledger.store.Ledger;

/** A plan is kept only for the session that it was made for. */
class PlanKeepingTest {
  private static final LocalDateTime CALL = LocalDateTime.of(2026, 12, 15, 15, 0);
  private static final KeptPlan PLAN = OutgoingSamples.plan(CALL, OutgoingSamples.MADRID, 1);

  @TempDir Path folder;
  private Ledger ledger;
  private long id;

  @BeforeEach
  void book() {
    ledger =
        Ledger.open(folder, Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC));
    ledger.change(
        session -> {
          session.spots().insert(OutgoingSamples.spot(1));
          session.spots().insert(OutgoingSamples.spot(2));
          session.clients().add(OutgoingSamples.adult());
          id =
              session
                  .sessions()
                  .add(OutgoingSamples.session(CALL.toLocalDate(), OutgoingSamples.MADRID));
          session.candidates().put(id, free(1));
        });
  }

  @AfterEach
  void close() {
    ledger.close();
  }

  private static Candidate free(long spotId) {
    return new Candidate(spotId, Candidate.Choice.FREE, Set.of(), null, null);
  }

  private PlanKeeping.Basis basis() {
    return ledger.read(
        session -> PlanKeeping.Basis.of(session, session.sessions().find(id).orElseThrow()));
  }

  private Optional<KeptPlan> kept() {
    return ledger.read(session -> session.plans().find(id));
  }

  @Test
  void theSessionAsItWasKeepsIt() {
    assertThat(PlanKeeping.keep(ledger, basis(), PLAN)).isPresent();
    assertThat(kept()).isPresent();
  }

  @Test
  void aSessionThatWasMovedMeanwhileDoesNot() {
    PlanKeeping.Basis basis = basis();
    Session was = basis.booked();
    ledger.change(
        session ->
            session
                .sessions()
                .reschedule(
                    new Session(
                        was.id(),
                        was.uid(),
                        was.revision(),
                        was.clientId(),
                        LocalDate.of(2026, 12, 5),
                        was.zone(),
                        was.anchor(),
                        was.terms(),
                        was.state(),
                        was.brief())));

    assertThat(PlanKeeping.keep(ledger, basis, PLAN)).isEmpty();
    assertThat(kept()).isEmpty();
  }

  @Test
  void otherSpotsToStopAtAreAnotherSession() {
    PlanKeeping.Basis basis = basis();
    ledger.change(session -> session.candidates().put(id, free(2)));

    assertThat(PlanKeeping.keep(ledger, basis, PLAN)).isEmpty();
  }

  @Test
  void aDeletedSessionKeepsNothing() {
    PlanKeeping.Basis basis = basis();
    ledger.change(session -> session.sessionRecords().delete(id));

    assertThat(PlanKeeping.keep(ledger, basis, PLAN)).isEmpty();
  }
}
