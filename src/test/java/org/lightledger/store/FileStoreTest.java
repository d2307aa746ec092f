package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.lightledger.shot.Problem;

class FileStoreTest extends LedgerTestBase {
  private static final Instant CHANGED = Instant.parse("2026-05-01T06:20:00.123456789Z");

  @Test
  void everyFileComesBackAsItWentInToTheMillisecond() {
    StoredFile unread =
        new StoredFile(
            Path.of("b", "größe 'ü' ☀.jpg"),
            0,
            CHANGED,
            null,
            FileStatus.UNREADABLE,
            null,
            List.of(new Problem(Problem.Kind.UNREADABLE, "Found 0 bytes, expected a photograph.")));
    StoredFile read = file("a.jpg", 1, FileStatus.READ);
    record(unread);
    record(read);
    assertThat(unread.modified()).isEqualTo(Instant.parse("2026-05-01T06:20:00.123Z"));
    List<StoredFile> all = ledger.read(session -> session.files().all());
    assertThat(all).containsExactly(read, unread);
    assertThat(find(unread.path())).contains(unread);
    assertThat(find(Path.of("c.jpg"))).isEmpty();
  }

  @Test
  void recordingAPathAgainReplacesWhatWasKnownOfIt() {
    record(file("a.jpg", 1, FileStatus.UNREADABLE));
    record(file("a.jpg", 2, FileStatus.READ));
    List<StoredFile> all = ledger.read(session -> session.files().all());
    assertThat(all).containsExactly(file("a.jpg", 2, FileStatus.READ));
  }

  @Test
  void aFileIsKnownByPathAndContentTogether() {
    record(file("a.jpg", 1, FileStatus.READ));
    assertThat(known("a.jpg", 1)).isTrue();
    assertThat(known("a.jpg", 2)).isFalse();
    assertThat(known("b.jpg", 1)).isFalse();
  }

  @Test
  void filesAreListedAndCountedByStatus() {
    record(file("c.jpg", 1, FileStatus.UNREADABLE));
    record(file("a.jpg", 2, FileStatus.UNREADABLE));
    record(file("b.jpg", 3, FileStatus.READ));
    List<StoredFile> unreadable =
        ledger.read(session -> session.files().withStatus(FileStatus.UNREADABLE));
    assertThat(unreadable)
        .extracting(StoredFile::path)
        .containsExactly(Path.of("a.jpg"), Path.of("c.jpg"));
    Map<FileStatus, Long> counts = ledger.read(session -> session.files().counts());
    assertThat(counts)
        .isEqualTo(
            Map.of(FileStatus.READ, 1L, FileStatus.FORMAT_NOT_READ, 0L, FileStatus.UNREADABLE, 2L));
  }

  private static StoredFile file(String path, long content, FileStatus status) {
    return new StoredFile(
        Path.of(path), 10, CHANGED, Samples.sha256(content), status, null, List.of());
  }

  private void record(StoredFile file) {
    ledger.change(session -> session.files().record(file));
  }

  private boolean known(String path, long content) {
    return ledger.read(session -> session.files().known(Path.of(path), Samples.sha256(content)));
  }

  private Optional<StoredFile> find(Path path) {
    return ledger.read(session -> session.files().find(path));
  }
}
