package org.lightledger.indexing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.OwnerWord;
import org.lightledger.shot.zone.ZonesAtPlace;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerCheck;
import org.lightledger.store.LedgerException;
import org.lightledger.sun.SpaEphemeris;

/**
 * A ledger on a disk that is really full: a small file system in memory, which a program of its own
 * mounts in a name space of its own and fills to the last byte. Where the system forbids that the
 * test is skipped.
 */
class FullDiskTest {
  private static final String MEGABYTES = "4";
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC);

  @TempDir Path folder;

  @Test
  void nothingIsLostAndEachIsRefusedWithWords() throws Exception {
    Path disk = Files.createDirectory(folder.resolve("disk"));
    Assumptions.assumeTrue(mounts(disk), "skipped: no file system can be mounted here");
    Path photos = folder.resolve("photos");
    TestPhotos.fill(photos, 30);
    Path backup = folder.resolve("backup.gpkg");
    try (Ledger ledger = Ledger.open(folder.resolve("other"), CLOCK)) {
      add(ledger, "From the backup");
      ledger.backup(backup);
    }
    Process child =
        onSmallDisk(
                disk,
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Child.class.getName(),
                disk.toString(),
                photos.toString(),
                backup.toString())
            .redirectErrorStream(true)
            .start();
    String told = new String(child.getInputStream().readAllBytes(), StandardCharsets.UTF_8);

    assertThat(child.waitFor()).as(told).isZero();
    assertThat(told)
        .contains(
            "edit: STORAGE the disk is full; nothing was changed; make room and try again",
            "import: STORAGE the disk is full",
            "backup: STORAGE ",
            "restore: STORAGE the backup could not be restored; the ledger is as it was",
            "left behind: []",
            "findings: []",
            "kept: all",
            "then: works");
  }

  private static boolean mounts(Path disk) throws InterruptedException {
    try {
      Process trial = onSmallDisk(disk, "true").redirectErrorStream(true).start();
      trial.getInputStream().readAllBytes();
      return trial.waitFor() == 0;
    } catch (IOException e) {
      return false;
    }
  }

  private static ProcessBuilder onSmallDisk(Path disk, String... command) {
    return new ProcessBuilder(
        Stream.concat(
                Stream.of(
                    "unshare",
                    "--map-root-user",
                    "--mount",
                    "sh",
                    "-c",
                    "mount -t tmpfs -o size=" + MEGABYTES + "m none \"$0\" && exec \"$@\"",
                    disk.toString()),
                Stream.of(command))
            .toList());
  }

  private static void add(Ledger ledger, String name) {
    Spot spot =
        new Spot(0, name, null, new GeoPoint(1, 2), null, false, List.of(), "x".repeat(9000), "");
    ledger.change(session -> session.spots().insert(spot));
  }

  /** Fills its disk and tries what an owner does. */
  static final class Child {
    private Child() {}

    public static void main(String[] args) throws IOException {
      Path disk = Path.of(args[0]);
      Path folder = disk.resolve("ledger");
      Path ballast = disk.resolve("ballast");
      int kept = 0;
      try (Ledger ledger = Ledger.open(folder, CLOCK)) {
        for (; kept < 20; kept++) {
          add(ledger, "Spot " + kept);
        }
        fill(ballast);
        try {
          while (kept < 10_000) {
            add(ledger, "Spot " + kept);
            kept++;
          }
        } catch (LedgerException e) {
          tell("edit", e);
        }
        fill(ballast);
        try {
          new Importer(
                  ledger,
                  (place, errorM) -> new ZonesAtPlace(List.of(), List.of()),
                  new SpaEphemeris())
              .run(
                  List.of(Path.of(args[1])),
                  new ImportOptions(OwnerWord.NOTHING, 1, 25),
                  ImportProgress.NONE);
        } catch (LedgerException e) {
          tell("import", e);
        }
        try {
          ledger.backup(disk.resolve("copy.gpkg"));
        } catch (LedgerException e) {
          tell("backup", e);
        }
      }
      fill(ballast);
      try {
        Ledger.restore(Path.of(args[2]), folder, true, CLOCK);
      } catch (LedgerException e) {
        tell("restore", e);
      }
      try (Stream<Path> files = Files.walk(disk)) {
        System.out.println(
            "left behind: "
                + files
                    .map(file -> file.getFileName().toString())
                    .filter(
                        name ->
                            name.contains("part")
                                || name.contains("before")
                                || name.contains("copy"))
                    .toList());
      }
      Files.delete(ballast);
      System.out.println("findings: " + LedgerCheck.run(folder));
      try (Ledger ledger = Ledger.open(folder, CLOCK)) {
        long there = ledger.<Long>read(session -> session.spots().count());
        long shots = ledger.<Long>read(session -> session.shots().counts().all());
        System.out.println(
            "kept: "
                + (there == kept && shots == 0 ? "all" : there + " of " + kept + ", " + shots));
        add(ledger, "Afterwards");
        System.out.println("then: works");
      }
    }

    private static void tell(String what, LedgerException e) {
      System.out.println(what + ": " + e.reason() + " " + e.getMessage());
    }

    /** Takes what is left of the disk. */
    private static void fill(Path ballast) throws IOException {
      try (OutputStream out =
          Files.newOutputStream(ballast, StandardOpenOption.CREATE, StandardOpenOption.APPEND)) {
        while (true) {
          out.write(new byte[4096]);
        }
      } catch (IOException e) {
        if (!String.valueOf(e.getMessage()).contains("No space left")) {
          throw e;
        }
      }
    }
  }
}
