package org.lightledger.ask;

import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.light.SunCare;
import org.lightledger.skyline.Clearance;
import org.lightledger.skyline.Skyline;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/**
 * The light at a spot along one facing from the first picture of a stay to its last.
 *
 * @param spans the classes of the light, one after the other, each with the whole of its window;
 *     one or more, and never one class twice in a row
 * @param sunAtStart where the sun stands at the first picture
 * @param sunAtMiddle where it stands half way
 * @param sunAtEnd where it stands at the last
 * @param directSun whether the sun reaches the spot half way; null while that is not known
 * @param directUntil when the sun leaves the spot on that day; null unless it is known to reach it
 *     at the first picture and for a minute from there on
 * @param directCertain whether it surely reaches the spot at the first picture, however the
 *     skyline's uncertainty falls
 * @param expected the exposure to be expected half way
 * @param expectedAtStart the same at the first picture
 * @param expectedAtEnd the same at the last
 */
public record StayLight(
    List<Span> spans,
    SunDirection sunAtStart,
    SunDirection sunAtMiddle,
    SunDirection sunAtEnd,
    @Nullable Boolean directSun,
    @Nullable OffsetDateTime directUntil,
    boolean directCertain,
    ExpectedLight expected,
    ExpectedLight expectedAtStart,
    ExpectedLight expectedAtEnd) {

  /** Sun that goes within is not told: nobody has taken a picture in it. Own choice. */
  private static final Duration SHORTEST_DIRECT = Duration.ofMinutes(1);

  /** One exposure serves a whole stay unless it changes by more than its own uncertainty, stops. */
  private static final double ALIKE_STOPS = 1;

  /**
   * The exposure to be expected.
   *
   * @return one number and setting, or those at first and at last when they differ by more than a
   *     stop
   */
  public String expectedWords() {
    return Math.abs(expectedAtStart.ev100() - expectedAtEnd.ev100()) <= ALIKE_STOPS
        ? expected.words()
        : "at first " + expectedAtStart.words() + "; at last " + expectedAtEnd.words();
  }

  /**
   * Whether one looks towards a low sun at some time of the stay.
   *
   * @return true when the warning of the sun is due
   */
  public boolean needsSunCare() {
    double lowestDeg = Math.min(sunAtStart.apparentAltitudeDeg(), sunAtEnd.apparentAltitudeDeg());
    return spans.stream().anyMatch(span -> SunCare.isDue(span.light(), lowestDeg));
  }

  /**
   * A class of light and the window in which it holds.
   *
   * @param light the class
   * @param window from when to when it holds; it may begin before the stay and end after it
   */
  public record Span(LightClass light, Answer.Window window) {}

  /**
   * A stay.
   *
   * @param place the spot
   * @param zone the zone of the place
   * @param facing where the camera looks
   * @param skyline what stands around the spot; null when nothing is known
   * @param sky what the sky is like
   * @param from the first picture
   * @param to the last picture, later than the first
   */
  public record Stay(
      GeoPoint place,
      ZoneId zone,
      Bearing facing,
      @Nullable Skyline skyline,
      Sky sky,
      Instant from,
      Instant to) {

    /** Checks the order. */
    public Stay {
      if (!from.isBefore(to)) {
        throw new IllegalArgumentException(
            "expected a last picture after the first, found " + from + " and " + to);
      }
    }
  }

  /** Keeps an own copy. */
  public StayLight {
    spans = List.copyOf(spans);
  }

  /**
   * Tells the light.
   *
   * @param sun where the sun is
   * @param stay where and when
   * @return the light
   */
  public static StayLight of(SunEphemeris sun, Stay stay) {
    ZoneOffset utc = ZoneOffset.UTC;
    SunCurve curve =
        SunCurve.of(
            sun,
            stay.from().atZone(utc).toLocalDate().minusDays(3).atStartOfDay(utc).toInstant(),
            stay.to().atZone(utc).toLocalDate().plusDays(4).atStartOfDay(utc).toInstant());
    WindowFinder.View view =
        new WindowFinder.View(stay.place(), stay.facing(), stay.skyline(), stay.zone(), stay.sky());
    WindowFinder windows = new WindowFinder(curve);
    Instant middle = stay.from().plus(Duration.between(stay.from(), stay.to()).dividedBy(2));
    SunDirection sunAtMiddle = curve.direction(middle, stay.place());
    SpotLight light = lightUnder(sunAtMiddle, stay);
    SunDirection sunAtStart = curve.direction(stay.from(), stay.place());
    SunDirection sunAtEnd = curve.direction(stay.to(), stay.place());
    SpotLight atStart = lightUnder(sunAtStart, stay);
    OffsetDateTime until =
        Boolean.TRUE.equals(atStart.directSun()) ? windows.directUntil(stay.from(), view) : null;
    boolean direct =
        until != null && !until.toInstant().isBefore(stay.from().plus(SHORTEST_DIRECT));
    Clearance clearance = atStart.clearance();
    return new StayLight(
        spans(curve, windows, view, stay),
        sunAtStart,
        sunAtMiddle,
        sunAtEnd,
        light.directSun(),
        direct ? until : null,
        direct && clearance != null && clearance.certain(),
        expected(sunAtMiddle, stay),
        expected(sunAtStart, stay),
        expected(sunAtEnd, stay));
  }

  private static SpotLight lightUnder(SunDirection sun, Stay stay) {
    return SpotLight.of(sun, stay.facing(), stay.skyline(), stay.sky());
  }

  private static ExpectedLight expected(SunDirection sun, Stay stay) {
    SpotLight light = lightUnder(sun, stay);
    return ExpectedLight.of(sun, stay.facing(), light.light(), light.directSun(), stay.sky());
  }

  private static List<Span> spans(
      SunCurve curve, WindowFinder windows, WindowFinder.View view, Stay stay) {
    List<Span> spans = new ArrayList<>();
    Instant at = stay.from();
    while (!at.isAfter(stay.to())) {
      Answer.Window window = windows.around(at, view);
      LightClass light = view.classOf(curve.direction(at, stay.place()));
      int last = spans.size() - 1;
      // A window ends with its day, the light goes on.
      if (last >= 0 && spans.get(last).light() == light) {
        Answer.Window whole = new Answer.Window(spans.get(last).window().from(), window.to());
        spans.set(last, new Span(light, whole));
      } else {
        spans.add(new Span(light, window));
      }
      Instant end = window.to().toInstant();
      at = (end.isAfter(at) ? end : at).plusSeconds(1);
    }
    return spans;
  }
}
