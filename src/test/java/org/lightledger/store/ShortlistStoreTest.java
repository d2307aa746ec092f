package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.share.ShareSubject;
import org.lightledger.shortlist.Shortlist;

class ShortlistStoreTest extends LedgerTestBase {
  private static final Shortlist.Moment EVENING =
      new Shortlist.Moment(
          OffsetDateTime.parse("2026-06-20T20:05:00+02:00"),
          OffsetDateTime.parse("2026-06-20T20:47:30.5+02:00"),
          LightClass.THREE_QUARTER_FRONT,
          new Bearing(201.25));

  private long chapel;
  private long bridge;
  private long shot;
  private long list;

  @BeforeEach
  void fill() {
    chapel = insertSpot("Chapel", CHAPEL);
    bridge = insertSpot("Bridge", CHAPEL);
    shot =
        ledger.write(
            session ->
                session
                    .shots()
                    .insert(Samples.shot(CHAPEL, Instant.EPOCH), Samples.sha256(1), null, chapel));
    list = ledger.write(session -> session.shortlists().create("Ana and Luis", "Hello!"));
  }

  @Test
  void aShortlistComesBackAsItWentIn() {
    Shortlist.Entry full = new Shortlist.Entry(chapel, EVENING, shot, "By the west door.");
    Shortlist.Entry bare = new Shortlist.Entry(bridge, null, null, "");
    Shortlist.Entry again = new Shortlist.Entry(chapel, null, null, "Or in the morning.");
    for (Shortlist.Entry entry : List.of(full, bare, again)) {
      add(entry);
    }
    assertThat(find(list))
        .contains(new Shortlist(list, "Ana and Luis", "Hello!", List.of(full, bare, again)));
    assertThat(find(99)).isEmpty();
  }

  @Test
  void theNewestShortlistComesFirst() {
    long newer = ledger.write(session -> session.shortlists().create("Berta", ""));
    List<Shortlist> all = ledger.read(session -> session.shortlists().all());
    assertThat(all)
        .containsExactly(
            new Shortlist(newer, "Berta", "", List.of()),
            new Shortlist(list, "Ana and Luis", "Hello!", List.of()));
  }

  @Test
  void entriesAreRemovedAndPutIntoAnotherOrder() {
    long first = add(new Shortlist.Entry(chapel, null, null, "1"));
    long second = add(new Shortlist.Entry(bridge, null, null, "2"));
    long third = add(new Shortlist.Entry(chapel, EVENING, null, "3"));
    change(lists -> lists.reorder(list, List.of(third, first, second)));
    assertThat(words()).containsExactly("3", "1", "2");
    change(lists -> lists.remove(first));
    assertThat(words()).containsExactly("3", "2");
    add(new Shortlist.Entry(chapel, null, null, "4"));
    assertThat(words()).containsExactly("3", "2", "4");
  }

  @Test
  void anOrderThatIsNotOfTheSameEntriesIsRefused() {
    long first = add(new Shortlist.Entry(chapel, null, null, "1"));
    long second = add(new Shortlist.Entry(bridge, null, null, "2"));
    for (List<Long> order :
        List.of(
            List.of(first),
            List.of(first, first),
            List.of(first, 99L),
            List.of(second, first, first))) {
      assertThatThrownBy(() -> change(lists -> lists.reorder(list, order)))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageContaining("expected the entries [1, 2] of shortlist 1")
          .hasMessageContaining("found " + order);
    }
  }

  @Test
  void wordsAndCoverAreReplaced() {
    long entry = add(new Shortlist.Entry(chapel, EVENING, null, ""));
    change(lists -> lists.describe(entry, "Bring a coat.", shot));
    change(lists -> lists.update(list, "Ana & Luis", ""));
    assertThat(find(list))
        .contains(
            new Shortlist(
                list,
                "Ana & Luis",
                "",
                List.of(new Shortlist.Entry(chapel, EVENING, shot, "Bring a coat."))));
  }

  @Test
  void deletingAShortlistTakesItsEntriesAndSharesAlong() {
    add(new Shortlist.Entry(chapel, null, null, ""));
    ledger.change(session -> SessionSamples.share(session, ShareSubject.shortlist(list)));
    change(lists -> lists.delete(list));
    assertThat(find(list)).isEmpty();
    assertThat(number("SELECT count(*) FROM shortlist_entries")).isZero();
    assertThat(number("SELECT count(*) FROM shares")).isZero();
  }

  @Test
  void whatIsNotThereCanNotBeChanged() {
    assertMissing("shortlist", lists -> lists.update(9, "x", ""));
    assertMissing("shortlist", lists -> lists.delete(9));
    assertMissing("shortlist entry", lists -> lists.remove(9));
    assertMissing("shortlist entry", lists -> lists.describe(9, "", null));
    for (Shortlist.Entry entry :
        List.of(
            new Shortlist.Entry(99, null, null, ""), new Shortlist.Entry(chapel, null, 99L, ""))) {
      assertThatThrownBy(() -> add(entry))
          .isInstanceOf(LedgerException.class)
          .hasMessageContaining("names another row that is not in the ledger");
    }
  }

  private void assertMissing(String what, Consumer<ShortlistStore> work) {
    assertThatThrownBy(() -> change(work))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("found no " + what + " with the number 9");
  }

  private void change(Consumer<ShortlistStore> work) {
    ledger.change(session -> work.accept(session.shortlists()));
  }

  private long add(Shortlist.Entry entry) {
    return ledger.write(session -> session.shortlists().add(list, entry));
  }

  private Optional<Shortlist> find(long id) {
    return ledger.read(session -> session.shortlists().find(id));
  }

  private List<String> words() {
    List<ShortlistEntry> entries = ledger.read(session -> session.shortlists().entries(list));
    return entries.stream().map(entry -> entry.entry().words()).toList();
  }
}
