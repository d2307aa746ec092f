package org.lightledger.web;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.LightCalendar;
import org.lightledger.ask.SpotDay;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredShot;
import org.lightledger.store.StoredSkyline;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.web.chart.SunPathChart;

/** Puts together what is known of the sky over a spot. */
final class SpotSky {
  /** Fine enough for the chart: four drawing units wide, two high. */
  private static final int DAYS_PER_COLUMN = 2;

  private static final int MINUTES_PER_ROW = 5;

  private final House house;
  private final SunEphemeris sun;

  SpotSky(House house, SunEphemeris sun) {
    this.house = house;
    this.sun = sun;
  }

  SkyView view(Context ctx, LedgerSession session, Spot spot, List<StoredShot> shots) {
    ZoneId zone = zone(spot);
    LocalDate today = LocalDate.ofInstant(house.clock().instant(), zone);
    SkyChoice choice = SkyChoice.read(ctx, spot, zone, today);
    StoredSkyline stored = session.skylines().find(spot.id()).orElse(null);
    Skyline skyline = known(stored);
    SunPathChart.Moment moment = moment(spot, choice.at());
    SunPathChart.Model chart =
        new SunPathChart.Model(
            spot.position(),
            zone,
            choice.day(),
            spot.facings(),
            SpotViews.suns(shots),
            skyline,
            moment);
    SpotDay day = SpotDay.of(sun, spot.position(), zone, choice.day(), skyline);
    LightCalendar calendar =
        LightCalendar.of(
            sun,
            spot.position(),
            zone,
            choice.facing(),
            skyline,
            choice.year(),
            DAYS_PER_COLUMN,
            MINUTES_PER_ROW);
    boolean waiting = stored == null ? session.skylines().hasSources() : stored.due();
    return new SkyView(
        spot.id(),
        choice.href(spot.id()),
        Words.day(choice.day()),
        choice.fields(),
        choice.problems(),
        SunPathChart.draw(sun, "sunpath-wide", chart, SunPathChart.Size.WIDE),
        SunPathChart.draw(sun, "sunpath-narrow", chart, SunPathChart.Size.NARROW),
        moment == null
            ? ""
            : moment.hour() + ": sun " + Words.sun(moment.sun()) + reach(skyline, moment.sun()),
        SkylineViews.around(
            spot.id(),
            skyline,
            waiting,
            house.skylines().problem(),
            stored == null ? List.of() : stored.remarks()),
        DayViews.day(sun, day, skyline),
        YearViews.year(calendar, spot, choice));
  }

  private static String reach(@Nullable Skyline skyline, SunDirection sun) {
    SunWords words = SunWords.of(skyline, sun);
    return "; " + words.word() + (words.clearance().isEmpty() ? "" : ", " + words.clearance());
  }

  private SunPathChart.@Nullable Moment moment(Spot spot, @Nullable OffsetDateTime at) {
    return at == null
        ? null
        : new SunPathChart.Moment(Words.hour(at), sun.direction(at.toInstant(), spot.position()));
  }

  static @Nullable Skyline known(@Nullable StoredSkyline stored) {
    return stored == null || stored.skyline().equals(Skyline.notKnown()) ? null : stored.skyline();
  }

  static ZoneId zone(Spot spot) {
    ZoneId zone = spot.zone();
    return zone == null ? ZoneOffset.UTC : zone;
  }
}
