package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.zone.ZonesAtPlace;
import org.lightledger.store.Ledger;
import org.lightledger.store.Samples;
import org.lightledger.sun.SpaEphemeris;

class CheckVerbTest {
  @TempDir Path folder;

  @Test
  void whatTheCheckAdvisesRepairsTheLedger() throws SQLException {
    try (Ledger ledger = Samples.open(folder)) {
      ledger.change(
          session -> session.spots().insert(Samples.spot("Chapel", new GeoPoint(41.95, -6.61))));
    }
    assertThat(run(0, "check")).isEqualToIgnoringNewLines("The ledger is sound.");
    try (Connection connection =
            DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("ledger.gpkg"));
        Statement statement = connection.createStatement()) {
      statement.execute("DELETE FROM rtree_spots_geom");
    }
    assertThat(run(1, "check"))
        .contains(
            "Found: 1 rows of spots that the spatial index misses or misplaces",
            "What to do: rebuild the spatial indexes (check --repair)");
    assertThat(run(0, "check", "--repair")).isEqualToIgnoringNewLines("The ledger is sound.");
  }

  private String run(int exit, String... words) {
    Services services =
        new Services(
            Clock.fixed(Samples.NOW, ZoneOffset.UTC),
            new SpaEphemeris(),
            (place, errorM) -> new ZonesAtPlace(List.of(), List.of()),
            folder);
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = new Lightledger(services).run(new PrintWriter(out), new PrintWriter(err), words);
    assertThat(err.toString()).isEmpty();
    assertThat(code).isEqualTo(exit);
    return out.toString();
  }
}
