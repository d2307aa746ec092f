package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.ImportReport;
import org.lightledger.indexing.Importer;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SpaEphemeris;

class UploadsTest {
  private static final byte[] PHOTO =
      TestPhotos.shot("2026:11:20 17:00:00", "+01:00", 41.95, -6.61, 232.0, 1);

  @TempDir Path folder;
  private Ledger ledger;

  @BeforeEach
  void open() {
    Clock clock = Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC);
    ledger = Ledger.open(folder.resolve("ledger"), clock);
  }

  @AfterEach
  void close() {
    ledger.close();
  }

  private Path photo(String name) throws IOException {
    return Files.write(folder.resolve(name), PHOTO);
  }

  private ImportReport bring(Path photo) {
    Importer importer = new Importer(ledger, new PlaceZones(), new SpaEphemeris());
    return importer.run(List.of(photo), importer.options(), ImportProgress.NONE);
  }

  private void tidy(Path copy, ImportReport report) {
    Uploads.Kept kept = new Uploads.Kept(List.of(copy), Map.of(), Set.of(copy));
    new Uploads(folder).tidy(kept, report, ledger);
  }

  /** Two uploads of one picture share a copy; the other one may have imported it meanwhile. */
  @Test
  void theOnlyFileOfAShotStaysWhoeverBroughtIt() throws IOException {
    Path copy = photo("copy.jpg");
    bring(copy);

    tidy(copy, bring(copy));

    assertThat(copy).exists();
  }

  @Test
  void aCopyOfAShotThatIsThereElsewhereGoes() throws IOException {
    bring(photo("original.jpg"));
    Path copy = photo("copy.jpg");

    tidy(copy, bring(copy));

    assertThat(copy).doesNotExist();
  }

  @Test
  void aCopyOfAShotWhoseFileIsGoneStays() throws IOException {
    Path original = photo("original.jpg");
    bring(original);
    Files.delete(original);
    Path copy = photo("copy.jpg");

    tidy(copy, bring(copy));

    assertThat(copy).exists();
  }
}
