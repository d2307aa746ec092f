package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.exchange.SpotFile;
import org.lightledger.exchange.SpotReader;
import org.lightledger.store.ForeignPackage;

class ExchangeRoutesTest {
  private static final String SCRIPT = "<script>alert(1)</script>";

  @TempDir static Path folder;
  private static TestSite site;

  @BeforeAll
  static void open() {
    site = new TestSite(folder).withPhotos();
    site.post("/spots/1", "name", "Mill", "area", "", "notes", "for my eyes", "cautions", "");
  }

  @AfterAll
  static void close() {
    site.close();
  }

  @ParameterizedTest
  @CsvSource({
    "geojson, application/geo+json",
    "kml, application/vnd.google-earth.kml+xml",
    "gpx, application/gpx+xml",
    "gpkg, application/geopackage+sqlite3"
  })
  void aButtonSendsTheSpots(String code, String mediaType) throws Exception {
    TestSite.Answer one = site.get("/spots/export?as=" + code + "&spot=1");

    assertThat(one.status()).isEqualTo(200);
    assertThat(one.header("Content-Type")).startsWith(mediaType);
    assertThat(one.header("Content-Disposition"))
        .isEqualTo("attachment; filename=\"spots." + code + "\"");
    assertThat(read(one, code).found())
        .singleElement()
        .satisfies(found -> assertThat(found.spot().name()).isEqualTo("Mill"))
        .satisfies(found -> assertThat(found.spot().notes()).isEmpty());
    SpotFile noted = read(site.get("/spots/export?as=" + code + "&spot=1&notes=yes"), code);
    assertThat(noted.found().get(0).spot().notes()).isEqualTo("for my eyes");
    assertThat(read(site.get("/spots/export?as=" + code), code).found())
        .hasSizeGreaterThanOrEqualTo(3);
  }

  private static SpotFile read(TestSite.Answer answer, String code) throws Exception {
    Path file = Files.write(folder.resolve("got." + code), answer.body());
    return SpotReader.isSqlite(file) ? ForeignPackage.read(file) : SpotReader.read(file);
  }

  @ParameterizedTest
  @CsvSource({"as=shapefile, 422", "spot=1, 422", "as=gpx&spot=x, 404", "as=gpx&spot=999, 404"})
  void aWrongWishIsRefused(String query, int status) {
    assertThat(site.get("/spots/export?" + query).status()).isEqualTo(status);
  }

  @Test
  void aFileIsTriedThenImportedAndItsWordsStayWords() {
    byte[] file =
        ("{\"type\":\"FeatureCollection\",\"features\":["
                + point("-6.7", SCRIPT)
                + ","
                + point("95,-95", "Bad")
                + "]}")
            .getBytes(StandardCharsets.UTF_8);

    TestSite.Answer tried = site.postFile("/spots/import", "file", file, "try", "yes");
    assertThat(tried.text())
        .contains("Nothing was changed. It would be 2 read: 1 added, 0 known, 1 unreadable.");
    assertThat(site.get("/spots").text()).doesNotContain("alert(1)");

    TestSite.Answer done = site.postFile("/spots/import", "file", file);
    assertThat(done.status()).isEqualTo(200);
    assertThat(done.text())
        .contains("2 read: 1 added, 0 known, 1 unreadable.", "feature 2: expected a latitude")
        .contains("&lt;script&gt;alert(1)&lt;/script&gt;")
        .doesNotContain(SCRIPT);
    assertThat(site.postFile("/spots/import", "file", file).text())
        .contains("2 read: 0 added, 1 known, 1 unreadable.");
  }

  private static String point(String coordinates, String name) {
    String both = coordinates.contains(",") ? coordinates : coordinates + ",41.9";
    return "{\"type\":\"Feature\",\"geometry\":{\"type\":\"Point\",\"coordinates\":["
        + both
        + "]},\"properties\":{\"name\":\""
        + name
        + "\"}}";
  }

  @Test
  void whatCanNotBeReadIsSaid() {
    TestSite.Answer bad =
        site.postFile("/spots/import", "file", "hello".getBytes(StandardCharsets.UTF_8));
    assertThat(bad.status()).isEqualTo(422);
    assertThat(bad.text()).contains("Expected GeoJSON, KML, KMZ, GPX or a GeoPackage");
    TestSite.Answer none = site.postFile("/spots/import", "file", new byte[0]);
    assertThat(none.status()).isEqualTo(422);
    assertThat(none.text()).contains("Expected a file of spots, found none.");
  }
}
