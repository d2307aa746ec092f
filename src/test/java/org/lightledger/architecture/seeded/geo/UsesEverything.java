package org.lightledger.architecture.seeded.geo;

import biweekly.ICalendar;
import com.drew.metadata.Metadata;
import com.graphhopper.GraphHopper;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import crosby.binary.Osmformat;
import io.javalin.Javalin;
import jakarta.mail.Transport;
import java.sql.Connection;
import java.time.Instant;
import net.iakovlev.timeshape.TimeZoneEngine;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.sis.storage.DataStore;
import org.flywaydb.core.Flyway;
import org.jspecify.annotations.Nullable;
import org.lightledger.architecture.seeded.app.Wiring;
import org.lightledger.architecture.seeded.store.Shelf;
import picocli.CommandLine;

/** Breaks every rule about libraries and rooms, so that the rules are known to bite. */
public final class UsesEverything {
  private final @Nullable Metadata metadata = null;
  private final @Nullable Javalin javalin = null;
  private final @Nullable Connection connection = null;
  private final @Nullable TimeZoneEngine zones = null;
  private final @Nullable Flyway flyway = null;
  private final @Nullable DataStore rasters = null;
  private final @Nullable Wiring wiring = null;
  private final @Nullable Shelf shelf = null;
  private final @Nullable CommandLine commandLine = null;
  private final Osmformat.@Nullable Way way = null;
  private final @Nullable GraphHopper hopper = null;
  private final @Nullable ICalendar calendar = null;
  private final @Nullable Transport mail = null;
  private final @Nullable PdfRendererBuilder printer = null;
  private final @Nullable PDDocument print = null;

  @Override
  public String toString() {
    return Stream.all(
        metadata,
        javalin,
        connection,
        zones,
        flyway,
        rasters,
        wiring,
        shelf,
        commandLine,
        way,
        hopper,
        calendar,
        mail,
        printer,
        print,
        now());
  }

  private static Instant now() {
    return Instant.now();
  }

  private static final class Stream {
    static String all(@Nullable Object... parts) {
      return java.util.Arrays.toString(parts);
    }
  }
}
