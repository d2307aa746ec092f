package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.lightledger.ask.Shape;
import org.lightledger.ask.Sky;
import org.lightledger.ask.Terms;
import org.lightledger.ask.TimeOfDay;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.spot.Trait;

class AskFormTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 12, 31);

  @Test
  void aFreshPageAsksForBacklightAnHourBeforeSunsetThroughTheNextMonth() {
    AskForm form = AskForm.read(Map.of(), TODAY).form();

    assertThat(form.lights()).containsExactly(LightClass.BACKLIT);
    assertThat(form.first()).isEqualTo(LocalDate.of(2027, 1, 1));
    assertThat(form.last()).isEqualTo(LocalDate.of(2027, 1, 31));
    assertThat(form.hourWords()).isEqualTo("60 min before sunset");
    assertThat(form.near()).isNull();
  }

  @Property(tries = 300)
  void theAddressOfAQuestionAsksTheSameQuestion(@ForAll("forms") AskForm form) {
    AskForm.Read read = AskForm.read(query(form.href()), TODAY);

    assertThat(read.problems()).isEmpty();
    assertThat(read.form().question()).isEqualTo(form.question());
  }

  @Provide
  Arbitrary<AskForm> forms() {
    Arbitrary<Set<LightClass>> lights =
        Arbitraries.of(LightClass.class).set().ofMinSize(1).map(EnumSet::copyOf);
    Arbitrary<LocalDate> days =
        Arbitraries.longs().between(-20_000, 60_000).map(LocalDate::ofEpochDay);
    Arbitrary<TimeOfDay> times =
        Arbitraries.oneOf(
            Combinators.combine(
                    Arbitraries.integers().between(0, 1439),
                    Arbitraries.integers().between(0, 1439))
                .as(
                    (one, other) ->
                        new TimeOfDay.Clock(
                            LocalTime.ofSecondOfDay(60L * Math.min(one, other)),
                            LocalTime.ofSecondOfDay(60L * Math.max(one, other)))),
            Combinators.combine(
                    Arbitraries.of(TimeOfDay.Anchor.class),
                    Arbitraries.integers().between(-720, 720))
                .as(
                    (anchor, minutes) ->
                        new TimeOfDay.FromSun(anchor, Duration.ofMinutes(minutes))));
    Arbitrary<GeoPoint> places =
        Combinators.combine(
                Arbitraries.integers().between(-90_000_000, 90_000_000),
                Arbitraries.integers().between(-180_000_000, 180_000_000))
            .as((lat, lon) -> new GeoPoint(lat / 1e6, lon / 1e6))
            .injectNull(0.3);
    Arbitrary<Double> radii = Arbitraries.integers().between(1, 40_000).map(i -> i / 20.0);
    return Combinators.combine(
            lights, days, Arbitraries.integers().between(0, 365), times, places, radii, terms())
        .as(
            (light, day, length, time, place, radius, terms) ->
                new AskForm(
                    light,
                    day,
                    day.plusDays(length),
                    time,
                    place,
                    radius,
                    place == null ? null : 25,
                    terms));
  }

  private static Arbitrary<Terms> terms() {
    Arbitrary<Shape> shapes =
        Combinators.combine(
                Arbitraries.integers().between(-89_000_000, 89_000_000),
                Arbitraries.integers().between(-179_000_000, 179_000_000))
            .as((lat, lon) -> new GeoPoint(lat / 1e6, lon / 1e6))
            .list()
            .ofMinSize(3)
            .ofMaxSize(9)
            .map(Shape::new)
            .injectNull(0.5);
    return Combinators.combine(
            Arbitraries.of(Sky.class),
            Arbitraries.of(Terms.SunWanted.class),
            Arbitraries.of(DayOfWeek.class).set().ofMinSize(1),
            Arbitraries.integers().between(0, 1440),
            Arbitraries.of(Trait.class).set(),
            shapes)
        .as(
            (sky, sun, days, minutes, traits, shape) ->
                new Terms(sky, sun, days, Duration.ofMinutes(minutes), traits, shape))
        .filter(t -> t.sky() == Sky.CLEAR || t.sun() != Terms.SunWanted.DIRECT);
  }

  @Test
  void everyBadTermIsNamedAndSoIsSunUnderClouds() {
    String fine = "/?light=rim&from=2026-05-02&when=sun";

    assertThat(
            AskForm.read(
                    query(
                        fine
                            + "&sky=green&sun=both&weekday=someday&least=x&with=lift"
                            + "&inside=1,2;3,4"),
                    TODAY)
                .problems())
        .extracting(FieldProblem::field)
        .containsExactly("sky", "sun", "least", "weekday", "with", "inside");
    assertThat(AskForm.read(query(fine + "&sky=overcast&sun=direct"), TODAY).problems())
        .extracting(FieldProblem::field)
        .containsExactly("sun");
  }

  @Test
  void theTermsAreSaidInWordsAndNoTermsAreNot() {
    String fine = "/?light=rim&from=2026-05-02&when=sun";

    assertThat(AskTerms.words(AskForm.read(query(fine), TODAY).form().terms())).isEmpty();
    assertThat(
            AskTerms.words(
                AskForm.read(
                        query(
                            fine
                                + "&sky=overcast&weekday=sunday&weekday=saturday&least=30"
                                + "&with=water&inside=1,2;3,4;5,1"),
                        TODAY)
                    .form()
                    .terms()))
        .isEqualTo(
            "Only under an overcast sky; on Saturdays or Sundays; for at least 30 min; where the"
                + " place has: water; inside a shape of 3 corners.");
  }

  @Test
  void allBadFieldsAreNamedAtOnceWithWhatWasExpectedAndFound() {
    AskForm.Read read =
        AskForm.read(
            query(
                "/?light=backlit&light=moonlit&from=x&to=2026-13-01&when=clock&at=25:00&until=1"
                    + "&near=north&within=-3"),
            TODAY);

    assertThat(read.problems())
        .extracting(FieldProblem::field)
        .containsExactly("light", "from", "to", "at", "until", "near", "within");
    assertThat(read.problems())
        .allSatisfy(problem -> assertThat(problem.message()).contains("expected", "found"));
    assertThat(read.problems()).extracting(FieldProblem::label).contains("Time from");
    assertThat(read.byClock()).isTrue();
    assertThat(read.at()).isEqualTo("25:00");
    assertThat(read.until()).isEqualTo("1");
  }

  @Test
  void aRangeThatEndsBeforeItStartsIsRefusedForDaysAndForHours() {
    AskForm.Read read =
        AskForm.read(
            query("/?light=rim&from=2026-05-02&to=2026-05-01&when=clock&at=18:00&until=17:00"),
            TODAY);

    assertThat(read.problems()).extracting(FieldProblem::field).containsExactly("to", "until");
  }

  @Test
  void moreThanAYearIsRefusedAndAYearIsNot() {
    String href = "/?light=rim&from=2026-01-01&when=sun&to=";

    assertThat(AskForm.read(query(href + "2027-01-01"), TODAY).problems()).isEmpty();
    assertThat(AskForm.read(query(href + "2027-01-02"), TODAY).problems()).hasSize(1);
  }

  @Test
  void oneDayAloneIsEnough() {
    AskForm form = AskForm.read(query("/?light=rim&from=2026-05-02&when=sun"), TODAY).form();

    assertThat(form.last()).isEqualTo(LocalDate.of(2026, 5, 2));
  }

  @Test
  void noLightAtAllIsNamed() {
    assertThat(AskForm.read(query("/?from=2026-05-02&when=sun"), TODAY).problems())
        .extracting(FieldProblem::field)
        .containsExactly("light");
  }

  static Map<String, List<String>> query(String href) {
    Map<String, List<String>> query = new LinkedHashMap<>();
    for (String part : URI.create(href).getRawQuery().split("&")) {
      int equals = part.indexOf('=');
      query
          .computeIfAbsent(part.substring(0, equals), name -> new ArrayList<>())
          .add(URLDecoder.decode(part.substring(equals + 1), StandardCharsets.UTF_8));
    }
    return query;
  }
}
