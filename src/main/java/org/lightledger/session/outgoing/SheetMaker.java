package org.lightledger.session.outgoing;

import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.ask.StayLight;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.light.SunCare;
import org.lightledger.session.Answer;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Cautions;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.sun.SunEvening;

/** Makes the call sheet from the session, its plan and what the ledger knows of the light. */
public final class SheetMaker {
  private final SunEphemeris sun;
  private final Dossier dossier;
  private final KeptPlan plan;
  private final ZoneId zone;

  private SheetMaker(SunEphemeris sun, Dossier dossier, KeptPlan plan) {
    this.sun = sun;
    this.dossier = dossier;
    this.plan = plan;
    this.zone = dossier.session().zone();
  }

  /**
   * Makes the sheet.
   *
   * @param sun where the sun is
   * @param dossier what the ledger holds of the session
   * @return the sheet
   * @throws IllegalArgumentException when the session has no plan
   */
  public static Sheet of(SunEphemeris sun, Dossier dossier) {
    KeptPlan plan = dossier.plan();
    if (plan == null) {
      throw new IllegalArgumentException(
          "expected a session with a plan, found none; plan it first");
    }
    return new SheetMaker(sun, dossier, plan).make();
  }

  private Sheet make() {
    SharedSession shared = SessionRedaction.view(dossier);
    List<Sheet.Stop> stops = new ArrayList<>();
    for (int i = 0; i < plan.stops().size(); i++) {
      stops.add(stop(i + 1, plan.stops().get(i)));
    }
    GeoPoint own = plan.meeting().place();
    boolean cancelled = dossier.session().state() == Session.State.CANCELLED;
    return new Sheet(
        (cancelled ? "CANCELLED: " : "") + shared.client() + ", " + Plainly.day(shared.date()),
        head(shared),
        stops,
        brief(),
        dossier.packing().stream()
            .map(item -> new Sheet.Packed(Plainly.line(item.words()), item.doneAt() != null))
            .toList(),
        own == null ? stops.get(0).place() : own);
  }

  private List<Sheet.Line> head(SharedSession shared) {
    List<Sheet.Line> head = new ArrayList<>();
    head.add(
        new Sheet.Line(
            "Call time",
            hour(plan.callTime()) + ", " + Plainly.zone(plan.callTime().atZone(zone))));
    SharedSession.Meeting meeting = shared.meeting();
    if (meeting != null) {
      String words = meeting.words();
      head.add(
          new Sheet.Line(
              "Meet",
              (words.isEmpty() ? "" : words + ", ") + Plainly.coordinates(meeting.place())));
    }
    head.add(new Sheet.Line("End", hour(plan.end())));
    head.add(new Sheet.Line("Sunset", sunset()));
    head.add(
        new Sheet.Line(
            "Planned for",
            (plan.sky() == Sky.OVERCAST ? "an overcast sky" : "a clear sky")
                + (plan.byHand() ? ", in your own order" : "")));
    head.add(
        new Sheet.Line(
            "Outfits",
            shared.outfits()
                + "; up to "
                + dossier.session().terms().outfitLimit()
                + " are booked"));
    return head;
  }

  /** The almanac's sunset of the session's evening at the last stop. */
  private String sunset() {
    GeoPoint place = dossier.spot(plan.stops().get(plan.stops().size() - 1).spotId()).position();
    SunEvening evening = SunEvening.of(sun, place, zone, dossier.session().date());
    return evening.sunset().map(this::hour).orElse(evening.absence());
  }

  private Sheet.Stop stop(int number, KeptPlan.Stop stop) {
    Spot spot = dossier.spot(stop.spotId());
    Bearing facing = stop.facing();
    Skyline skyline = dossier.skylines().get(spot.id());
    List<Sheet.Line> lines = new ArrayList<>();
    LightClass light = null;
    double turnDeg = 0.0;
    StayLight stay = StopLight.of(sun, stop, spot, skyline, plan.sky(), zone);
    if (facing == null || stay == null) {
      lines.add(new Sheet.Line("Sun", sunWithoutFacing(spot, stop)));
      lines.add(new Sheet.Line("Light", "not known: no facing is set for this stop"));
    } else {
      light = lightHalfWay(stay, stop);
      turnDeg = facing.turnToDeg(stay.sunAtMiddle().azimuth());
      lines.add(new Sheet.Line("Sun", suns(stay.sunAtStart(), stay.sunAtEnd())));
      lines.add(new Sheet.Line("Face", bearing(facing)));
      lines.add(new Sheet.Line("Light", windows(stay)));
      lines.add(new Sheet.Line("Direct sun", direct(stay, skyline)));
      lines.add(new Sheet.Line("Expect", stay.expectedWords()));
      if (stay.needsSunCare()) {
        lines.add(new Sheet.Line("Sun in view", SunCare.WARNING));
      }
    }
    add(lines, "Mind", Cautions.forOwner(dossier.hazards(spot.id()), spot.cautions()));
    add(lines, "If it can not be used", fallback(stop));
    return new Sheet.Stop(
        number,
        Plainly.line(spot.name()),
        spot.position(),
        hour(stop.arrive())
            + (stop.shootFrom().equals(stop.arrive())
                ? ""
                : ", pictures from " + hour(stop.shootFrom()))
            + (stop.shootUntil().equals(stop.leave()) ? "" : " to " + hour(stop.shootUntil()))
            + ", until "
            + hour(stop.leave()),
        outfits(stop),
        drive(stop.drive()),
        light,
        turnDeg,
        lines);
  }

  private String outfits(KeptPlan.Stop stop) {
    String changes =
        stop.changes().stream()
            .map(
                change ->
                    "change to "
                        + change.toOutfit()
                        + " at "
                        + hour(change.from())
                        + " to "
                        + hour(change.until()))
            .collect(Collectors.joining(", "));
    return "outfit " + stop.outfit() + (changes.isEmpty() ? "" : " (" + changes + ")");
  }

  private static LightClass lightHalfWay(StayLight stay, KeptPlan.Stop stop) {
    Instant middle =
        stop.shootFrom().plus(Duration.between(stop.shootFrom(), stop.shootUntil()).dividedBy(2));
    LightClass light = stay.spans().get(0).light();
    for (StayLight.Span span : stay.spans()) {
      if (!span.window().from().toInstant().isAfter(middle)) {
        light = span.light();
      }
    }
    return light;
  }

  private String sunWithoutFacing(Spot spot, KeptPlan.Stop stop) {
    return suns(
        sun.direction(stop.shootFrom(), spot.position()),
        sun.direction(stop.shootUntil(), spot.position()));
  }

  private static String suns(SunDirection start, SunDirection end) {
    return String.format(
        Locale.ROOT,
        "%s, %s; at the end %s, %s",
        bearing(start.azimuth()),
        altitude(start),
        bearing(end.azimuth()),
        altitude(end));
  }

  private static String altitude(SunDirection sun) {
    return String.format(
        Locale.ROOT,
        sun.apparentAltitudeDeg() < 0.0 ? "%.1f° below the horizon" : "%.1f° high",
        Math.abs(sun.apparentAltitudeDeg()));
  }

  private static String bearing(Bearing bearing) {
    return String.format(
        Locale.ROOT,
        "%s %d°",
        bearing.compassPoint(),
        Math.floorMod(Math.round(bearing.trueDeg()), 360L));
  }

  private static String windows(StayLight stay) {
    return stay.spans().stream()
        .map(
            span ->
                span.light().label()
                    + " "
                    + Plainly.hour(span.window().from())
                    + " to "
                    + Plainly.hour(span.window().to()))
        .collect(Collectors.joining(", then "));
  }

  private String direct(StayLight stay, @Nullable Skyline skyline) {
    OffsetDateTime until = stay.directUntil();
    if (until != null) {
      return (stay.directCertain() ? "until " : "not certain; as modelled until ")
          + Plainly.hour(until);
    }
    if (plan.sky() == Sky.OVERCAST) {
      return "none under an overcast sky";
    }
    if (stay.sunAtStart().apparentAltitudeDeg() < 0.0) {
      return "none, the sun is down";
    }
    boolean shade = stay.spans().stream().anyMatch(span -> span.light() == LightClass.OPEN_SHADE);
    return shade && Boolean.FALSE.equals(stay.directSun())
        ? "none"
        : "not known: "
            + (skyline == null ? "nothing is known" : "only part is known")
            + " of what stands around";
  }

  private static String drive(KeptPlan.@Nullable Drive drive) {
    return drive == null || drive.minutes() == 0
        ? ""
        : drive.minutes() + " min by car, " + drive.source().label();
  }

  private String fallback(KeptPlan.Stop stop) {
    Long id = stop.fallbackSpotId();
    Spot spot = id == null ? null : dossier.spots().get(id);
    return spot == null
        ? ""
        : "go to " + Plainly.line(spot.name()) + ", " + Plainly.coordinates(spot.position());
  }

  private List<Sheet.Line> brief() {
    Session.Brief brief = dossier.session().brief();
    List<Sheet.Line> lines = new ArrayList<>();
    add(lines, "Wishes", brief.wishes());
    add(lines, "Talk about", brief.talkingPoints());
    add(lines, "Pictures wanted", brief.pictures());
    add(lines, "Small goal", brief.goal());
    for (Answer answer : dossier.answers()) {
      add(lines, Plainly.line(answer.asked()), answer(answer));
    }
    return lines;
  }

  private static String answer(Answer answer) {
    String places =
        answer.places().stream().map(Trait::label).sorted().collect(Collectors.joining(", "));
    return places.isEmpty() || answer.words().isBlank()
        ? places + answer.words()
        : places + "; " + answer.words();
  }

  private static void add(List<Sheet.Line> lines, String name, String words) {
    String text = Plainly.text(words);
    if (!text.isEmpty()) {
      lines.add(new Sheet.Line(name, text));
    }
  }

  private String hour(Instant at) {
    return Plainly.hour(at.atZone(zone).toOffsetDateTime());
  }
}
