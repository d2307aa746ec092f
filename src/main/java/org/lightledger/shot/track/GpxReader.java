package org.lightledger.shot.track;

import java.io.IOException;
import java.io.InputStream;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.chrono.IsoChronology;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.format.ResolverStyle;
import java.time.temporal.ChronoUnit;
import java.time.temporal.Temporal;
import java.time.temporal.TemporalAccessor;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;

/**
 * Reads GPX, versions 1.0 and 1.1 (the schemas gpx.xsd of topografix.com/GPX/1/0 and /1/1), as a
 * stream. Only track points with a time are used; whatever else stands in the file is passed over,
 * and what an owner may wonder about is counted.
 *
 * <p>The schema says that times are UTC; one that has no offset is taken so. A point is not used
 * when its time lies before GPS time began, when it is at exactly 0,0, which receivers write when
 * they have no fix, or when it says itself that there was none.
 *
 * <p>A file that breaks off gives the points before the break. One with a document type declaration
 * is refused whole: GPX has none, and its entities could read other files or fill the memory.
 *
 * <p>A reader serves one file.
 */
public final class GpxReader {
  /**
   * Horizontal error of a receiver for each unit of dilution, metres: 4.9 m is the error of phones
   * under open sky (van Diggelen and Enge, The World's first GPS MOOC and Worldwide Laboratory
   * using Smartphones, ION GNSS+ 2015), where the horizontal dilution is about 1.
   */
  static final double ERROR_PER_DILUTION_M = 4.9;

  /** GPS time begins (IS-GPS-200, 3.3.4). */
  private static final Instant GPS_EPOCH = Instant.parse("1980-01-06T00:00:00Z");

  /** The shore of the Dead Sea lies some 440 m below the sea (from memory). */
  private static final double LOWEST_ALTITUDE_M = -500;

  /** No aeroplane with passengers flies so high; own choice. */
  private static final double HIGHEST_ALTITUDE_M = 20_000;

  /** Times and numbers are shorter; own choice. */
  private static final int LONGEST_TEXT = 100;

  private static final Pattern DECIMAL =
      Pattern.compile("[+-]?(?:\\d+(?:\\.\\d*)?|\\.\\d+)(?:[eE][+-]?\\d{1,3})?");

  /** What xsd:dateTime allows: the offset may be missing. */
  private static final DateTimeFormatter TIME =
      new DateTimeFormatterBuilder()
          .append(DateTimeFormatter.ISO_LOCAL_DATE_TIME)
          .optionalStart()
          .appendOffsetId()
          .optionalEnd()
          .toFormatter(Locale.ROOT)
          .withResolverStyle(ResolverStyle.STRICT)
          .withChronology(IsoChronology.INSTANCE);

  /** xsd:dateTime has as many digits as one likes, Java nine. */
  private static final Pattern BEYOND_NANOSECONDS = Pattern.compile("(\\.\\d{9})\\d+");

  /** The end of a day is the next midnight (XML Schema Part 2, 3.2.7). */
  private static final Pattern END_OF_DAY = Pattern.compile("T24:00:00(?:\\.0+)?(?![.\\d])");

  private final XMLStreamReader xml;
  private final List<TrackSegment> segments = new ArrayList<>();
  private TrackSegment.Builder segment = new TrackSegment.Builder();
  private int withoutTime;
  private int impossibleTime;
  private int withoutPlace;
  private int takenAsUtc;
  private int outOfOrder;
  private int otherPoints;

  private GpxReader(XMLStreamReader xml) {
    this.xml = xml;
  }

  /**
   * Reads a file.
   *
   * @param in the file's content; not closed
   * @return what it tells, possibly no point at all
   * @throws UnreadableTrackException when it is no GPX, breaks before its first usable point, is
   *     too large, or has a document type declaration
   * @throws IOException when the stream can not be read
   */
  public static TrackLog read(InputStream in) throws IOException, UnreadableTrackException {
    try {
      return new GpxReader(TrackXml.open(in)).read();
    } catch (XMLStreamException e) {
      throw TrackXml.broken(e);
    }
  }

  private TrackLog read() throws IOException, UnreadableTrackException {
    Integer brokenAtLine = null;
    try {
      readRoot();
    } catch (XMLStreamException e) {
      UnreadableTrackException broken = TrackXml.broken(e);
      endSegment();
      if (segments.isEmpty()) {
        throw broken;
      }
      brokenAtLine = TrackXml.line(e);
    }
    return new TrackLog(
        segments,
        new TrackLog.NotUsed(
            withoutTime,
            impossibleTime,
            withoutPlace,
            takenAsUtc,
            outOfOrder,
            otherPoints,
            brokenAtLine));
  }

  private void readRoot() throws XMLStreamException, UnreadableTrackException {
    while (xml.next() != XMLStreamConstants.START_ELEMENT) {
      if (xml.getEventType() == XMLStreamConstants.DTD) {
        throw new UnreadableTrackException(
            "The file has a document type declaration, which GPX does not need and which can do"
                + " harm; it is not read.");
      }
    }
    if (!xml.getLocalName().equals("gpx")) {
      throw new UnreadableTrackException(
          "The file is no GPX: its outermost element is "
              + shortened(xml.getLocalName())
              + ", expected gpx.");
    }
    String namespace = xml.getNamespaceURI();
    int skipped = 0;
    for (int event = xml.next(); event != XMLStreamConstants.END_DOCUMENT; event = xml.next()) {
      if (event == XMLStreamConstants.START_ELEMENT) {
        skipped = skipped > 0 ? skipped + 1 : open(namespace);
      } else if (event == XMLStreamConstants.END_ELEMENT) {
        if (skipped > 0) {
          skipped--;
        } else if (xml.getLocalName().equals("trkseg")) {
          endSegment();
        }
      }
    }
  }

  /** Enters an element outside of points; 1 when it is to be skipped with all that it holds. */
  private int open(@Nullable String namespace) throws XMLStreamException {
    if (!String.valueOf(namespace).equals(String.valueOf(xml.getNamespaceURI()))) {
      return 1;
    }
    switch (xml.getLocalName()) {
      case "trk", "trkseg" -> {
        return 0;
      }
      case "trkpt" -> {
        readPoint(namespace);
        return 0;
      }
      case "rte" -> {
        return 0;
      }
      case "wpt", "rtept" -> {
        otherPoints++;
        return 1;
      }
      default -> {
        return 1;
      }
    }
  }

  private void endSegment() {
    if (!segment.isEmpty()) {
      outOfOrder += segment.outOfOrder();
      segments.add(segment.build());
      segment = new TrackSegment.Builder();
    }
  }

  private void readPoint(@Nullable String namespace) throws XMLStreamException {
    Double latitude = number(xml.getAttributeValue(null, "lat"));
    Double longitude = number(xml.getAttributeValue(null, "lon"));
    String time = null;
    Double altitudeM = null;
    Double horizontal = null;
    Double threeDimensional = null;
    boolean hasFix = true;
    while (xml.next() != XMLStreamConstants.END_ELEMENT) {
      if (xml.getEventType() != XMLStreamConstants.START_ELEMENT) {
        continue;
      }
      boolean known = String.valueOf(namespace).equals(String.valueOf(xml.getNamespaceURI()));
      String name = known ? xml.getLocalName() : "";
      String text = text();
      switch (name) {
        case "time" -> time = text;
        case "ele" -> altitudeM = number(text);
        case "hdop" -> horizontal = number(text);
        case "pdop" -> threeDimensional = number(text);
        case "fix" -> hasFix = !text.equals("none");
        default -> {}
      }
    }
    GeoPoint place = hasFix ? place(latitude, longitude) : null;
    if (place == null) {
      withoutPlace++;
    } else if (time == null) {
      withoutTime++;
    } else {
      add(place, time, altitudeM, errorM(horizontal, threeDimensional));
    }
  }

  private void add(
      GeoPoint place, String timeText, @Nullable Double altitudeM, @Nullable Double errorM) {
    TemporalAccessor time = time(timeText);
    Instant instant =
        time instanceof OffsetDateTime withOffset
            ? withOffset.toInstant()
            : time instanceof LocalDateTime withoutOffset
                ? withoutOffset.toInstant(ZoneOffset.UTC)
                : null;
    if (instant == null || instant.isBefore(GPS_EPOCH) || !instant.isBefore(TrackSegment.END)) {
      impossibleTime++;
      return;
    }
    if (time instanceof LocalDateTime) {
      takenAsUtc++;
    }
    boolean possible =
        altitudeM != null && altitudeM >= LOWEST_ALTITUDE_M && altitudeM <= HIGHEST_ALTITUDE_M;
    segment.add(new TrackPoint(instant, place, possible ? altitudeM : null, errorM));
  }

  /** The text of the element just opened, without that of elements in it, up to its end. */
  private String text() throws XMLStreamException {
    StringBuilder text = new StringBuilder();
    int depth = 1;
    while (depth > 0) {
      switch (xml.next()) {
        case XMLStreamConstants.START_ELEMENT -> depth++;
        case XMLStreamConstants.END_ELEMENT -> depth--;
        case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA -> {
          if (depth == 1 && text.length() <= LONGEST_TEXT) {
            text.append(xml.getText());
          }
        }
        default -> {}
      }
    }
    return text.length() > LONGEST_TEXT ? "" : text.toString().strip();
  }

  private static @Nullable TemporalAccessor time(String text) {
    Matcher endOfDay = END_OF_DAY.matcher(text);
    int days = endOfDay.find() ? 1 : 0;
    String midnight = endOfDay.replaceFirst("T00:00:00");
    String held = BEYOND_NANOSECONDS.matcher(midnight).replaceFirst("$1");
    try {
      TemporalAccessor time = TIME.parseBest(held, OffsetDateTime::from, LocalDateTime::from);
      return ((Temporal) time).plus(days, ChronoUnit.DAYS);
    } catch (DateTimeException e) {
      return null;
    }
  }

  /** A decimal number as XML has it; the language's own parser would take "NaN" and "1d" too. */
  private static @Nullable Double number(@Nullable String text) {
    if (text == null || text.length() > LONGEST_TEXT) {
      return null;
    }
    String stripped = text.strip();
    return DECIMAL.matcher(stripped).matches() ? Double.valueOf(stripped) : null;
  }

  private static @Nullable GeoPoint place(@Nullable Double latitude, @Nullable Double longitude) {
    return latitude == null
            || longitude == null
            || Math.abs(latitude) > 90
            || Math.abs(longitude) > 180
            || (latitude == 0 && longitude == 0)
        ? null
        : new GeoPoint(latitude, longitude);
  }

  /** The dilution in three dimensions is never smaller than the horizontal one. */
  private static @Nullable Double errorM(
      @Nullable Double horizontal, @Nullable Double threeDimensional) {
    Double dilution = horizontal != null && horizontal > 0 ? horizontal : threeDimensional;
    return dilution != null && dilution > 0 && dilution < Double.POSITIVE_INFINITY
        ? Double.valueOf(dilution * ERROR_PER_DILUTION_M)
        : null;
  }

  private static String shortened(String name) {
    return name.length() <= 40 ? name : name.substring(0, 40) + "…";
  }
}
