package org.lightledger.web;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import javax.imageio.ImageIO;
import org.lightledger.map.MapContent;
import org.lightledger.map.MapView;
import org.lightledger.map.picture.PinnedMap;
import org.lightledger.session.outgoing.Dossier;
import org.lightledger.session.outgoing.Sheet;
import org.lightledger.session.outgoing.SheetMaker;
import org.lightledger.session.print.Paper;
import org.lightledger.store.DossierReader;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SunEphemeris;

/** Makes call sheets: the page for a phone and the file to print, both from one template. */
public final class CallSheets {
  private static final int MAP_WIDTH_PX = 360;
  private static final int MAP_HEIGHT_PX = 220;
  private static final int MAP_SCALE = 3;

  /**
   * Sizes of letters to try, points: own choice, from comfortable to what a hand can still hold.
   */
  private static final List<Double> SIZES_PT = List.of(9.5, 8.8, 8.0, 7.2);

  private final Ledger ledger;
  private final SunEphemeris sun;
  private final Clock clock;
  private final Pages pages;
  private final String printCss;

  CallSheets(Ledger ledger, SunEphemeris sun, Clock clock, Pages pages, Assets assets) {
    this.ledger = ledger;
    this.sun = sun;
    this.clock = clock;
    this.pages = pages;
    this.printCss = assets.text("callsheet-print.css");
  }

  /**
   * Call sheets that need nothing but the class path.
   *
   * @param ledger where the sessions are
   * @param sun where the sun is
   * @param clock tells the present
   * @return the maker
   */
  public static CallSheets of(Ledger ledger, SunEphemeris sun, Clock clock) {
    return new CallSheets(ledger, sun, clock, new Pages(), Assets.load());
  }

  /** What is read from the ledger at once. */
  private record Found(
      Dossier dossier,
      Sheet sheet,
      List<PinnedMap.Pin> pins,
      MapView view,
      MapContent map,
      String licence) {}

  /**
   * The sheet as a file to print.
   *
   * @param sessionId the ledger's number of the session
   * @return a PDF, one page of A4 unless the texts are very long
   * @throws IllegalArgumentException when there is no such session, or it has no plan
   */
  public byte[] pdf(long sessionId) {
    CallSheetPage page = page(sessionId);
    return Paper.print(
        SIZES_PT,
        sizePt ->
            pages.render(
                "callsheetprint",
                Map.of(
                    "page", page,
                    "css", printCss,
                    "size", String.format(Locale.ROOT, "%.1f", sizePt))),
        clock.instant());
  }

  /** The sheet as a page. */
  CallSheetPage page(long sessionId) {
    Found found =
        ledger.read(
            session -> {
              Dossier dossier =
                  DossierReader.read(session, sessionId)
                      .orElseThrow(
                          () ->
                              new IllegalArgumentException(
                                  "expected the number of a session, found "
                                      + sessionId
                                      + ", which the ledger does not have"));
              Sheet sheet = SheetMaker.of(sun, dossier);
              List<PinnedMap.Pin> pins = pins(sheet);
              MapView view = PinnedMap.view(pins, MAP_WIDTH_PX, MAP_HEIGHT_PX);
              MapContent map = session.maps().content(view);
              BaseMap base = map.regions().isEmpty() ? null : BaseMap.of(session.maps());
              return new Found(dossier, sheet, pins, view, map, base == null ? "" : base.licence());
            });
    BufferedImage picture = PinnedMap.draw(found.view(), found.map(), found.pins(), MAP_SCALE);
    return new CallSheetPage(sessionId, found.sheet(), dataAddress(picture), found.licence());
  }

  /** The meeting place has a pin of its own when it is not the first stop. */
  private static List<PinnedMap.Pin> pins(Sheet sheet) {
    List<PinnedMap.Pin> pins = new ArrayList<>();
    if (!sheet.meeting().equals(sheet.stops().get(0).place())) {
      pins.add(new PinnedMap.Pin("M", sheet.meeting()));
    }
    for (Sheet.Stop stop : sheet.stops()) {
      pins.add(new PinnedMap.Pin(String.valueOf(stop.number()), stop.place()));
    }
    return pins;
  }

  private static String dataAddress(BufferedImage picture) {
    ByteArrayOutputStream out = new ByteArrayOutputStream(1 << 16);
    try {
      ImageIO.write(picture, "png", out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return "data:image/png;base64," + Base64.getEncoder().encodeToString(out.toByteArray());
  }
}
