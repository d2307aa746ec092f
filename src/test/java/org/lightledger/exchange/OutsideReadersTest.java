package org.lightledger.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.offset;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.File;
import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import javax.xml.XMLConstants;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.SchemaFactory;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.store.Ledger;
import org.lightledger.store.SpotExport;

/** Programs that know nothing of ledgers read what leaves one. */
class OutsideReadersTest {
  private static final int SPOTS = 220;
  private static final Instant NOW = Instant.parse("2026-11-25T12:00:00Z");

  /** Tenth parts of a centimetre on the ground, far below what a spot means. */
  private static final double WITHIN_DEG = 1e-7;

  /**
   * What GPX 1.1 says of a file that holds waypoints alone, written anew from the rules of
   * topografix.com/GPX/1/1/gpx.xsd: the order of a waypoint's elements, the intervals of its place,
   * decimals without an exponent, and extensions of other namespaces only.
   */
  private static final String GPX_RULES =
      """
      <schema xmlns="http://www.w3.org/2001/XMLSchema" xmlns:g="http://www.topografix.com/GPX/1/1"
          targetNamespace="http://www.topografix.com/GPX/1/1" elementFormDefault="qualified">
        <element name="gpx"><complexType>
          <sequence><element name="wpt" type="g:point" minOccurs="0" maxOccurs="unbounded"/></sequence>
          <attribute name="version" use="required" fixed="1.1"/>
          <attribute name="creator" type="string" use="required"/>
        </complexType></element>
        <complexType name="point">
          <sequence>
            <element name="name" type="string" minOccurs="0"/>
            <element name="cmt" type="string" minOccurs="0"/>
            <element name="desc" type="string" minOccurs="0"/>
            <element name="extensions" minOccurs="0"><complexType><sequence>
              <any namespace="##other" processContents="lax" minOccurs="0" maxOccurs="unbounded"/>
            </sequence></complexType></element>
          </sequence>
          <attribute name="lat" use="required"><simpleType><restriction base="decimal">
            <minInclusive value="-90.0"/><maxInclusive value="90.0"/>
          </restriction></simpleType></attribute>
          <attribute name="lon" use="required"><simpleType><restriction base="decimal">
            <minInclusive value="-180.0"/><maxExclusive value="180.0"/>
          </restriction></simpleType></attribute>
        </complexType>
      </schema>
      """;

  @TempDir static Path folder;
  private static List<ExchangedSpot> stock;

  @BeforeAll
  static void export() {
    try (Ledger ledger = Ledger.open(folder.resolve("ledger"), Clock.fixed(NOW, ZoneOffset.UTC))) {
      ledger.change(session -> RandomSpots.fill(session, SPOTS, new Random(8)));
      stock = ledger.read(session -> SpotExport.spots(session, List.of(), true));
    }
    for (SpotFormat format : SpotFormat.values()) {
      SpotExport.write(file(format), format, stock, NOW);
    }
  }

  private static Path file(SpotFormat format) {
    return folder.resolve("spots." + format.code());
  }

  @ParameterizedTest
  @EnumSource(SpotFormat.class)
  void gdalReadsEverySpotWhereItIs(SpotFormat format) throws Exception {
    String ogr2ogr = require("ogr2ogr");
    Path table = folder.resolve(format.code() + ".csv");
    String layer = format == SpotFormat.GPX ? "waypoints" : "";
    List<String> command =
        new ArrayList<>(
            List.of(
                ogr2ogr,
                "-f",
                "CSV",
                "-lco",
                "GEOMETRY=AS_XY",
                table.toString(),
                file(format).toString()));
    if (format == SpotFormat.GPKG) {
      command.add("spots");
    } else if (!layer.isEmpty()) {
      command.add(layer);
    }
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String told = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);

    assertThat(process.waitFor()).as(told).isZero();
    List<Map<String, String>> rows;
    try (MappingIterator<Map<String, String>> read =
        new CsvMapper()
            .readerForMapOf(String.class)
            .with(CsvSchema.emptySchema().withHeader())
            .readValues(table.toFile())) {
      rows = read.readAll();
    }
    assertThat(rows).hasSize(SPOTS);
    for (int index = 0; index < SPOTS; index++) {
      ExchangedSpot spot = stock.get(index);
      assertThat(Double.parseDouble(rows.get(index).get("X")))
          .isCloseTo(spot.position().longitudeDeg(), offset(WITHIN_DEG));
      assertThat(Double.parseDouble(rows.get(index).get("Y")))
          .isCloseTo(spot.position().latitudeDeg(), offset(WITHIN_DEG));
    }
  }

  @Test
  void geoJsonKeepsTheRulesOfRfc7946() throws IOException {
    JsonNode root = new ObjectMapper().readTree(Files.readAllBytes(file(SpotFormat.GEOJSON)));

    assertThat(names(root)).isEqualTo(Set.of("type", "features"));
    assertThat(root.get("type").textValue()).isEqualTo("FeatureCollection");
    assertThat(root.get("features")).hasSize(SPOTS);
    for (int index = 0; index < SPOTS; index++) {
      JsonNode feature = root.get("features").get(index);
      assertThat(names(feature)).isEqualTo(Set.of("type", "geometry", "properties"));
      assertThat(feature.get("type").textValue()).isEqualTo("Feature");
      assertThat(feature.get("properties").isObject()).isTrue();
      JsonNode geometry = feature.get("geometry");
      assertThat(names(geometry)).isEqualTo(Set.of("type", "coordinates"));
      assertThat(geometry.get("type").textValue()).isEqualTo("Point");
      assertThat(geometry.get("coordinates")).hasSize(2);
      assertThat(geometry.get("coordinates").get(0).doubleValue())
          .as("longitude first")
          .isEqualTo(stock.get(index).position().longitudeDeg());
      assertThat(geometry.get("coordinates").get(1).doubleValue())
          .isEqualTo(stock.get(index).position().latitudeDeg());
    }
  }

  private static Set<String> names(JsonNode object) {
    Set<String> names = new HashSet<>();
    for (Iterator<String> name = object.fieldNames(); name.hasNext(); ) {
      names.add(name.next());
    }
    return names;
  }

  @Test
  void gpxKeepsTheRulesOfItsSchema() throws Exception {
    SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI)
        .newSchema(new StreamSource(new StringReader(GPX_RULES)))
        .newValidator()
        .validate(new StreamSource(file(SpotFormat.GPX).toFile()));
  }

  /** Where the program is missing the test is skipped, except on the machine that must have it. */
  private static String require(String program) {
    Optional<String> found =
        Arrays.stream(String.valueOf(System.getenv("PATH")).split(File.pathSeparator))
            .map(directory -> Path.of(directory, program))
            .filter(Files::isExecutable)
            .map(Path::toString)
            .findFirst();
    if (found.isEmpty() && "true".equals(System.getenv("CI"))) {
      throw new AssertionError("expected " + program + " on the path; install GDAL");
    }
    Assumptions.assumeTrue(found.isPresent(), "skipped: found no " + program + " on the path");
    return found.orElseThrow();
  }
}
