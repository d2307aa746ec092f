package org.lightledger.map.osm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Files that break off, are damaged, or mean harm. */
class HostileExtractTest {
  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          ``                                                                  | expected an OpenStreetMap extract
          This is a letter.                                                   | expected an OpenStreetMap extract
          <html><body/></html>                                                | expected an extract that begins with <osm>, found <html>
          <osmChange version="0.6"/>                                          | expected an extract that begins with <osm>, found <osmChange>
          <osm version="0.5"/>                                                | expected OSM XML of version 0.6, found 0.5
          <?xml version="1.0" encoding="ISO-8859-1"?><osm version="0.6"/>     | expected OSM XML in UTF-8, found it in ISO-8859-1
          <osm version="0.6"/>                                                | expected an extract with buildings or ways
          <osm version="0.6"><node id="1" lat="1" lon="2"/>                   | the file breaks off or is damaged
          <osm version="0.6"><node id="1" lat="95" lon="2"/></osm>            | line 1: expected lat in [-90, 90], found "95"
          <osm version="0.6"><node id="1" lat="NaN" lon="2"/></osm>           | expected lat in [-90, 90], found "NaN"
          <osm version="0.6"><node id="1" lat="north" lon="2"/></osm>         | expected degrees in lat, found "north"
          <osm version="0.6"><node id="1" lat="1"/></osm>                     | expected <node> with lon, found "none"
          <osm version="0.6"><way id="x"/></osm>                              | expected a whole number in id, found "x"
          <osm version="0.6"><bounds minlat="2" maxlat="1" minlon="0" maxlon="0"/></osm> | the file's bounds: expected -90 <= south
          <!DOCTYPE osm [<!ENTITY a SYSTEM "file:///etc/hostname">]><osm version="0.6">&a;</osm> | a document type declaration
          <!DOCTYPE osm [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><osm version="0.6">&b;</osm>    | a document type declaration
          """)
  void areRefusedWithWhatWasExpected(String content, String message) throws IOException {
    Path file = Files.writeString(folder.resolve("odd.osm"), content);
    assertThatThrownBy(() -> OsmExtract.read(file))
        .isInstanceOf(OsmFileException.class)
        .hasMessageStartingWith("odd.osm: ")
        .hasMessageContaining(message);
  }

  @Test
  void anElementWithoutEndFillsNoMemory() throws IOException {
    Path file =
        Files.writeString(
            folder.resolve("long.osm"),
            "<osm version=\"0.6\"><node id=\"" + "1".repeat(2 * TagEnds.LONGEST_BYTES));
    assertThatThrownBy(() -> OsmExtract.read(file))
        .isInstanceOf(OsmFileException.class)
        .hasMessageContaining("expected elements of less than 1 MB");
  }

  @Test
  void aPackedFileThatBreaksOffIsRefused() throws IOException {
    byte[] packed = packed(soundXml());
    Path file = folder.resolve("half.osm.gz");
    Files.write(file, java.util.Arrays.copyOf(packed, packed.length / 2));
    assertThatThrownBy(() -> OsmExtract.read(file))
        .isInstanceOf(OsmFileException.class)
        .hasMessageContaining("breaks off or is damaged");
  }

  @Test
  void aPackedLetterIsRefused() throws IOException {
    Path file = Files.write(folder.resolve("letter.osm.gz"), packed("Dear Ana"));
    assertThatThrownBy(() -> OsmExtract.read(file))
        .isInstanceOf(OsmFileException.class)
        .hasMessageContaining("expected an OpenStreetMap extract");
  }

  /** However a file is damaged: it is read or refused with words, and never anything else. */
  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void damageAnywhereIsReadOrRefused(boolean pbf) throws IOException {
    byte[] sound = pbf ? soundPbf() : soundXml().getBytes(StandardCharsets.UTF_8);
    Path file = folder.resolve("damaged");
    Random random = new Random(3);
    int refused = 0;
    for (int round = 0; round < 1500; round++) {
      byte[] damaged = sound.clone();
      for (int i = 0; i < 1 + round % 3; i++) {
        damaged[random.nextInt(damaged.length)] = (byte) random.nextInt(256);
      }
      int length = round % 4 == 0 ? random.nextInt(damaged.length) : damaged.length;
      Files.write(file, java.util.Arrays.copyOf(damaged, length));
      try {
        Shown.of(OsmExtract.read(file));
      } catch (OsmFileException e) {
        assertThat(e).hasMessageStartingWith("damaged: ");
        refused++;
      }
    }
    assertThat(refused).isGreaterThan(100);
  }

  @Test
  void aPbfThatSaysItUnpacksToTooMuchIsRefused() throws IOException {
    Path file = folder.resolve("huge.osm.pbf");
    Files.write(file, PbfWriter.claiming(Integer.MAX_VALUE));
    assertThatThrownBy(() -> OsmExtract.read(file))
        .isInstanceOf(OsmFileException.class)
        .hasMessageContaining("expected an unpacked block of at most 33554432 bytes");
  }

  @Test
  void aPbfThatRequiresWhatIsNotKnownIsRefused() throws IOException {
    Path file = folder.resolve("history.osm.pbf");
    Files.write(file, PbfWriter.requiring("HistoricalInformation"));
    assertThatThrownBy(() -> OsmExtract.read(file))
        .isInstanceOf(OsmFileException.class)
        .hasMessageContaining("found one that requires \"HistoricalInformation\"");
  }

  private static Xml sound() {
    Xml xml = new Xml();
    xml.node(48.0, 16.0, "natural=tree");
    long[] coast = {xml.node(48.0, 15.9), xml.node(48.0, 16.0), xml.node(48.0, 16.1)};
    return xml.square(1, 48.0, 16.0, 0.004, "building=yes", "height=9")
        .square(2, 48.0, 16.0, 0.002)
        .multipolygon(3, new String[] {"outer 1", "inner 2"}, "landuse=grass")
        .way(4, coast, "natural=coastline")
        .way(5, coast, "highway=path");
  }

  private static String soundXml() {
    return sound().text();
  }

  private byte[] soundPbf() throws IOException {
    return PbfWriter.of(sound().write(folder));
  }

  private static byte[] packed(String text) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(bytes)) {
      out.write(text.getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }
}
