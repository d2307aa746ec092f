package org.lightledger.web;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.LongFunction;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.ask.Answers;
import org.lightledger.ask.ExpectedLight;
import org.lightledger.ask.OtherWindows;
import org.lightledger.ask.Shape;
import org.lightledger.ask.Terms;
import org.lightledger.ask.TimeOfDay;
import org.lightledger.ask.WhyNone;
import org.lightledger.light.LightClass;
import org.lightledger.session.drive.Drive;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Hazard;
import org.lightledger.web.chart.FacingDial;
import org.lightledger.web.chart.LightGlyph;

/** Turns a question and its answers into what the start page shows. */
final class AskViews {
  private AskViews() {}

  static AskPage page(AskForm.Read read, LocalDate today, AskPage.@Nullable AnswersView answers) {
    AskForm form = read.form();
    List<AskPage.LightChoice> lights = new ArrayList<>();
    for (LightClass light : LightClass.values()) {
      lights.add(
          new AskPage.LightChoice(
              light.code(), light.label(), LightGlyph.of(light), form.lights().contains(light)));
    }
    TimeOfDay.Clock clock = form.time() instanceof TimeOfDay.Clock c ? c : null;
    TimeOfDay.FromSun sun = form.time() instanceof TimeOfDay.FromSun s ? s : null;
    return new AskPage(
        lights,
        form.first().toString(),
        form.last().toString(),
        read.byClock(),
        clock == null ? read.at() : Words.hour(clock.from()),
        clock == null ? read.until() : Words.hour(clock.to()),
        sun == null ? "60" : String.valueOf(sun.offset().abs().toMinutes()),
        sun != null && !sun.offset().isNegative() && !sun.offset().isZero() ? "after" : "before",
        sun != null && sun.anchor() == TimeOfDay.Anchor.SUNRISE ? "sunrise" : "sunset",
        form.near() == null ? read.near() : form.near().toText(),
        Words.plain(form.withinKm()),
        form.driveMinutes() == null ? "" : String.valueOf(form.driveMinutes()),
        more(read),
        spans(form, today),
        read.problems(),
        answers);
  }

  private static AskPage.More more(AskForm.Read read) {
    Terms terms = read.form().terms();
    Shape shape = terms.shape();
    boolean bad =
        read.problems().stream().anyMatch(problem -> AskTerms.FIELDS.contains(problem.field()));
    return new AskPage.More(
        bad || !terms.equals(Terms.NONE),
        AskTerms.code(terms.sky()),
        AskTerms.code(terms.sun()),
        AskTerms.weekdayChoices(terms.weekdays()),
        terms.atLeast().isZero() ? "" : String.valueOf(terms.atLeast().toMinutes()),
        AskTerms.traitChoices(terms.traits()),
        shape == null ? read.inside() : shape.toText());
  }

  private static List<AskPage.Span> spans(AskForm form, LocalDate today) {
    LocalDate saturday = today.with(TemporalAdjusters.nextOrSame(DayOfWeek.SATURDAY));
    YearMonth next = YearMonth.from(today).plusMonths(1);
    return List.of(
        span("Today", form, today, today),
        span("Weekend", form, saturday, saturday.plusDays(1)),
        span("14 days", form, today, today.plusDays(13)),
        span("Next month", form, next.atDay(1), next.atEndOfMonth()));
  }

  private static AskPage.Span span(String label, AskForm form, LocalDate from, LocalDate to) {
    boolean open = form.first().equals(from) && form.last().equals(to);
    return new AskPage.Span(
        label, form.withDays(from, to).href(), from.toString(), to.toString(), open);
  }

  static AskPage.AnswersView answers(
      AskForm form,
      Answers answers,
      LongFunction<Optional<Drive>> drives,
      Map<Long, Set<Hazard>> hazards,
      boolean emptyStock,
      List<ShortlistChoice> lists,
      AskPage.Skylines skylines,
      AskPage.KeptQuestions kept) {
    List<AskPage.Card> cards = new ArrayList<>();
    for (Answer answer : answers.matches()) {
      cards.add(card(form, answer, String.valueOf(cards.size() + 1), drives, hazards));
    }
    List<AskPage.Card> suggestions =
        answers.suggestions().stream()
            .map(answer -> card(form, answer, "", drives, hazards))
            .toList();
    int hidden = answers.matched() - cards.size();
    return new AskPage.AnswersView(
        emptyStock ? "Nothing to answer from yet" : headline(form, answers),
        Words.days(form.first(), form.last()) + ", " + form.hourWords(),
        AskTerms.words(form.terms()),
        form.href(),
        cards,
        hidden > 0 ? Words.count(hidden, "more match is", "more matches are") + " not shown." : "",
        suggestions,
        answers.notKnown().stream()
            .map(n -> new AskPage.NotKnown(n.spot().name(), "/spots/" + n.spot().id(), n.reason()))
            .toList(),
        cards.isEmpty() ? nothing(form, answers, emptyStock) : null,
        lists,
        form.near() == null ? "" : form.near().toText() + "," + Words.plain(form.withinKm() * 1000),
        emptyStock,
        skylines,
        kept);
  }

  private static String drive(Drive drive) {
    return "Drive "
        + Words.count(drive.minutes(), "minute", "minutes")
        + ", "
        + drive.source().label();
  }

  private static AskPage.Reach reach(Answer answer) {
    SunWords words = SunWords.of(answer.light(), answer.directSun(), answer.clearance());
    return new AskPage.Reach(
        words.kind(),
        Words.capital(words.wordUntil(answer.directUntil())),
        words.clearance(),
        "/spots/"
            + answer.spot().id()
            + "?day="
            + answer.at().toLocalDate()
            + "&at="
            + Words.hour(answer.at())
            + "&facing="
            + SkyChoice.plain(answer.facing())
            + "#sun-head");
  }

  private static String headline(AskForm form, Answers answers) {
    long spots = answers.matches().stream().map(answer -> answer.spot().id()).distinct().count();
    String verb = spots == 1 ? " spot is " : " spots are ";
    String found =
        answers.matched() > answers.matches().size() ? "At least " + spots : String.valueOf(spots);
    String count = answers.matches().isEmpty() ? "No" : found;
    return count + verb + form.lightWords();
  }

  private static AskPage.Nothing nothing(AskForm form, Answers answers, boolean emptyStock) {
    if (emptyStock) {
      return new AskPage.Nothing(
          "The ledger holds no spots yet",
          List.of(
              "Import a folder of scouting shots. Each shot that knows when, where and which way it"
                  + " was taken becomes part of a spot.",
              "Then this page says which spots have the light you want, at the hour you want it."),
          List.of(new AskPage.Link("Import scouting shots", "/import")));
    }
    List<String> advice = new ArrayList<>();
    if (answers.considered() == 0) {
      advice.add(
          form.near() == null || !form.terms().equals(Terms.NONE)
              ? "No spot lies in that area and has what is asked for: ask for less under “More”."
              : "No spot lies within the circle: make it wider, or ask the whole stock.");
    } else {
      advice.addAll(WhyNone.of(answers));
    }
    if (answers.suggested() > 0) {
      advice.add("Below are spots without a facing, with the way to face there.");
    }
    List<AskPage.Link> links =
        form.near() == null
            ? List.of()
            : List.of(new AskPage.Link("Ask the whole stock", form.withoutCircle().href()));
    return new AskPage.Nothing("No known facing has this light then", advice, links);
  }

  private static AskPage.Card card(
      AskForm form,
      Answer answer,
      String number,
      LongFunction<Optional<Drive>> drives,
      Map<Long, Set<Hazard>> hazards) {
    long id = answer.spot().id();
    Answer.NearestShot nearest = answer.nearestShot();
    double spreadDeg = spread(answer);
    String area = answer.spot().area();
    ExpectedLight expected = ExpectedLight.of(answer, form.terms().sky());
    return new AskPage.Card(
        number,
        new AskPage.Place(
            id + "-" + Math.round(answer.facing().trueDeg()),
            coordinate(answer.spot().position().latitudeDeg()),
            coordinate(answer.spot().position().longitudeDeg()),
            angle(answer.facing().trueDeg()),
            angle(spreadDeg),
            angle(answer.sun().azimuth().trueDeg()),
            String.valueOf(answer.sun().apparentAltitudeDeg() > 0)),
        answer.spot().name(),
        area == null ? "" : area,
        "/spots/" + id,
        nearest == null ? null : "/shots/" + nearest.shotId() + "/preview?w=480",
        nearest == null
            ? "no shot yet"
            : "nearest light: sun gap " + Words.fineDegrees(nearest.sunGapDeg()),
        LightGlyph.of(answer.light(), answer.relativeBearingDeg()),
        Words.capital(answer.light().label()),
        Words.side(answer.light(), answer.relativeBearingDeg()),
        Words.window(answer.window().from(), answer.window().to()),
        day(form, answer),
        drives.apply(id).map(AskViews::drive).orElse(""),
        Words.bearing(answer.facing()),
        switch (answer.facingBasis()) {
          case KNOWN -> "";
          case OPEN -> "open spot: any way works, this one gives the light";
          case SUGGESTED -> "no facing known yet";
        },
        Words.sun(answer.sun()),
        reach(answer),
        expected.words(),
        Words.capital(expected.contrastWords()) + ". " + expected.basis(),
        nearest == null ? "" : "/shots/" + nearest.shotId() + "/contrast",
        FacingDial.moment(answer.facing(), spreadDeg, answer.sun()),
        answer.tier().label(),
        answer.tier() == Answer.Tier.GEOMETRY ? "geometry only" : answer.tier().label(),
        answer.reason(),
        HazardWords.hints(
            hazards.getOrDefault(id, Set.of()), answer.light(), answer.sun().apparentAltitudeDeg()),
        new AskPage.Keep(
            String.valueOf(id),
            answer.window().from().toString(),
            answer.window().to().toString(),
            answer.light().code(),
            angle(answer.facing().trueDeg()),
            nearest == null ? "" : String.valueOf(nearest.shotId())));
  }

  private static double spread(Answer answer) {
    return answer.spot().facings().stream()
        .filter(
            facing -> Math.abs(facing.bearing().turnToDeg(answer.facing())) <= facing.spreadDeg())
        .mapToDouble(Facing::spreadDeg)
        .min()
        .orElse(0);
  }

  private static String day(AskForm form, Answer answer) {
    String also = OtherWindows.text(answer.others(), answer.light());
    String best =
        Words.day(answer.at().toLocalDate())
            + ", best at "
            + Words.hour(answer.at())
            + (also.isEmpty() ? "" : "; " + also);
    long asked = ChronoUnit.DAYS.between(form.first(), form.last()) + 1;
    return asked == 1 ? best : best + "; on " + answer.days() + " of " + asked + " days";
  }

  private static String coordinate(double angleDeg) {
    return String.format(Locale.ROOT, "%.6f", angleDeg);
  }

  private static String angle(double angleDeg) {
    return String.format(Locale.ROOT, "%.1f", angleDeg);
  }
}
