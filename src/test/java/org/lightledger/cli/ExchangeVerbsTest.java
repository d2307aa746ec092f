package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ExchangeVerbsTest {
  @TempDir Path home;

  private Console.Outcome run(String... words) {
    return new Console(home.resolve("ledger")).run(words);
  }

  private String path(String name) {
    return home.resolve(name).toString();
  }

  private void spots() throws IOException {
    Files.writeString(
        home.resolve("points.gpx"),
        "<gpx><wpt lat='41.9' lon='-6.4'><name>Mill</name></wpt>"
            + "<wpt lat='95' lon='0'><name>Nowhere</name></wpt>"
            + "<wpt lat='41.91' lon='-6.4'><name>Wall</name></wpt></gpx>");
  }

  @Test
  void importsTriesAndExports() throws IOException {
    spots();
    assertThat(run("import-spots", path("points.gpx"), "--dry-run").out())
        .contains("3 read: 2 added, 0 known, 1 unreadable; nothing was changed");
    Console.Outcome added = run("import-spots", path("points.gpx"));
    assertThat(added.exitCode()).isZero();
    assertThat(added.out())
        .contains("no spot: waypoint 2: expected a latitude in [-90, 90] degrees, found 95.0")
        .contains("3 read: 2 added, 0 known, 1 unreadable");
    assertThat(run("import-spots", path("points.gpx"), "--json").out())
        .contains("\"known\" : 2", "\"added\" : 0", "\"status\" : \"unreadable\"");

    assertThat(run("export", path("one.kml"), "--spots", "1").out())
        .startsWith("Wrote 1 spot as KML to ");
    assertThat(Files.readString(home.resolve("one.kml"))).contains("<name>Mill</name>");
    assertThat(run("export", path("all.txt"), "--as", "geojson", "--json").out())
        .contains("\"spots\" : 2", "\"notes\" : false");
  }

  @Test
  void refusesWithWords() throws IOException {
    spots();
    run("import-spots", path("points.gpx"));

    Console.Outcome ending = run("export", path("all.txt"));
    assertThat(ending.exitCode()).isEqualTo(2);
    assertThat(ending.err()).contains("ends in one of geojson, kml, gpx, gpkg");
    assertThat(run("export", path("a.kml"), "--spots", "77").err()).contains("found 77");
    assertThat(run("export", path("a.kml"), "--as", "shp").err()).contains("--as: expected one of");
    run("export", path("a.kml"));
    Console.Outcome twice = run("export", path("a.kml"));
    assertThat(twice.exitCode()).isEqualTo(1);
    assertThat(twice.err()).contains("a.kml exists; choose another name");
    assertThat(run("import-spots", path("none.kml")).exitCode()).isEqualTo(2);
    Files.writeString(home.resolve("bad.kml"), "<!DOCTYPE a><kml/>");
    Console.Outcome bad = run("import-spots", path("bad.kml"));
    assertThat(bad.exitCode()).isEqualTo(1);
    assertThat(bad.err()).contains("document type declaration");
  }

  @Test
  void restoresABackup() throws IOException {
    spots();
    run("import-spots", path("points.gpx"));
    run("backup", path("copy.gpkg"));

    Console.Outcome refused = run("restore", path("copy.gpkg"));
    assertThat(refused.exitCode()).isEqualTo(1);
    assertThat(refused.err()).contains("--replace moves it aside first");
    assertThat(run("restore", path("copy.gpkg"), "--replace").out())
        .contains("which has 2 spots.", "The one that was there is now ");
    assertThat(run("check").out()).contains("The ledger is sound.");
  }
}
