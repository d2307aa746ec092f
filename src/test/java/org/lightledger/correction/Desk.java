package org.lightledger.correction;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.indexing.ImportOptions;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.ImportReport;
import org.lightledger.indexing.Importer;
import org.lightledger.indexing.SpotEditing;
import org.lightledger.shot.exif.ExifBuilder;
import org.lightledger.shot.exif.ExifBuilder.Directory;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.spot.LightProfile;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerCheck;
import org.lightledger.store.StoredShot;
import org.lightledger.sun.SpaEphemeris;

/** A real ledger of real files, with everything that corrects it. */
final class Desk implements AutoCloseable {
  static final PlaceZones ZONES = new PlaceZones();
  static final SpaEphemeris SUN = new SpaEphemeris();

  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC);

  private final Path photos;
  private final Path ledgerFolder;
  private final Ledger ledger;
  private final Corrections corrections;

  Desk(Path folder) {
    this.photos = folder.resolve("photos");
    this.ledgerFolder = folder.resolve("ledger");
    this.ledger = Ledger.open(ledgerFolder, CLOCK);
    this.corrections = new Corrections(ledger, ZONES, SUN, CLOCK);
  }

  /** What a photo of the tests says; null where it says nothing. */
  record Photo(
      @Nullable String local,
      @Nullable String offset,
      @Nullable GeoPoint place,
      @Nullable Double facingDeg,
      int widthPx,
      int heightPx) {
    static Photo at(@Nullable String local, @Nullable String offset, @Nullable GeoPoint place) {
      return new Photo(local, offset, place, null, 6000, 4000);
    }

    Photo looking(double facingDeg) {
      return new Photo(local, offset, place, facingDeg, widthPx, heightPx);
    }

    private byte[] jpeg() {
      return exif().jpeg();
    }

    /** Without a camera's name, so that no two are taken for one burst. */
    private ExifBuilder exif() {
      ExifBuilder exif =
          ExifBuilder.bigEndian()
              .rationals(Directory.EXIF, 0x829A, 1, 250)
              .rationals(Directory.EXIF, 0x829D, 28, 10)
              .shorts(Directory.EXIF, 0x8827, 100)
              .shorts(Directory.EXIF, 0xA405, 35)
              .longs(Directory.EXIF, 0xA002, widthPx)
              .longs(Directory.EXIF, 0xA003, heightPx);
      if (local != null) {
        exif.ascii(Directory.EXIF, 0x9003, local);
      }
      if (offset != null) {
        exif.ascii(Directory.EXIF, 0x9011, offset);
      }
      if (place != null) {
        exif.position(
            place.latitudeDeg() < 0 ? "S" : "N",
            degrees(place.latitudeDeg()),
            place.longitudeDeg() < 0 ? "W" : "E",
            degrees(place.longitudeDeg()));
      }
      if (facingDeg != null) {
        exif.ascii(Directory.GPS, 0x10, "T")
            .rationals(Directory.GPS, 0x11, Math.round(facingDeg * 100), 100);
      }
      return exif;
    }

    private static long[] degrees(double angleDeg) {
      return new long[] {Math.round(Math.abs(angleDeg) * 1e7), 10_000_000, 0, 1, 0, 1};
    }
  }

  /** Imports photos; each gets a name, and with it a number, by its place in the list. */
  Desk with(Photo... shots) {
    try {
      Files.createDirectories(photos);
      for (Photo shot : shots) {
        try (var there = Files.list(photos)) {
          Path file = photos.resolve(String.format("%04d.jpg", there.count()));
          Files.write(file, shot.jpeg());
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    importAgain();
    return this;
  }

  /** Imports one shot as a pair of files of one camera, the first now and the second on call. */
  Runnable withPair(Photo first, Photo second) {
    try {
      Files.createDirectories(photos);
      Files.write(photos.resolve("pair.jpg"), ofCamera(first).jpeg());
      importAgain();
      return () -> {
        try {
          Files.write(photos.resolve("pair.tif"), ofCamera(second).tiff());
        } catch (IOException e) {
          throw new UncheckedIOException(e);
        }
        importAgain();
      };
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static ExifBuilder ofCamera(Photo photo) {
    return photo.exif().ascii(Directory.IFD0, 0x010F, "Test");
  }

  ImportReport importAgain() {
    return importFrom(photos);
  }

  ImportReport importFrom(Path folder) {
    return new Importer(ledger, ZONES, SUN)
        .run(List.of(folder), ImportOptions.standard(), ImportProgress.NONE);
  }

  /** What the owner changes by hand about spots. */
  void group(Consumer<SpotEditing> hand) {
    Importer importer = new Importer(ledger, ZONES, SUN);
    ledger.change(session -> hand.accept(importer.editing(session)));
  }

  Ledger ledger() {
    return ledger;
  }

  Corrections corrections() {
    return corrections;
  }

  Corrected apply(Correction correction, long... shotIds) {
    return corrections.apply(LongStream.of(shotIds).boxed().toList(), correction);
  }

  StoredShot shot(long id) {
    return ledger.read(session -> session.shots().find(id).orElseThrow());
  }

  List<Spot> spots() {
    return ledger.read(session -> session.spots().all());
  }

  List<LightProfile> profiles() {
    return ledger.read(
        session ->
            session.spots().all().stream()
                .map(spot -> session.spots().profile(spot.id()).orElseThrow())
                .toList());
  }

  /**
   * Every value of every shot, spot and facing, and both spatial indexes, as they stand in the
   * file. A facing's own number is left out: facings are written anew and are named by nothing.
   */
  List<String> everything() {
    List<String> rows = new ArrayList<>();
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + ledger.file());
        Statement statement = connection.createStatement()) {
      for (String query :
          List.of(
              "SELECT * FROM shots ORDER BY id",
              "SELECT * FROM spots ORDER BY id",
              "SELECT spot_id, bearing_deg, spread_deg, origin, shots FROM facings"
                  + " ORDER BY spot_id, origin, id",
              "SELECT * FROM rtree_shots_geom ORDER BY id",
              "SELECT * FROM rtree_spots_geom ORDER BY id",
              "SELECT * FROM anchors ORDER BY id",
              "SELECT * FROM dropped_spots ORDER BY id",
              "SELECT * FROM files ORDER BY id")) {
        try (ResultSet result = statement.executeQuery(query)) {
          while (result.next()) {
            StringBuilder row = new StringBuilder();
            for (int i = 1; i <= result.getMetaData().getColumnCount(); i++) {
              Object value = result.getObject(i);
              row.append(value instanceof byte[] blob ? HexFormat.of().formatHex(blob) : value)
                  .append('|');
            }
            rows.add(row.toString());
          }
        }
      }
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
    return rows;
  }

  @Override
  public void close() {
    ledger.close();
    var findings = LedgerCheck.run(ledgerFolder);
    if (!findings.isEmpty()) {
      throw new AssertionError("the ledger is not sound: " + findings);
    }
  }
}
