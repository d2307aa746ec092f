package org.lightledger.bench;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.concurrent.TimeUnit;
import org.lightledger.geo.GeoPoint;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SubsolarPoint;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDay;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.suncalc.SuncalcEphemeris;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.shredzone.commons.suncalc.SunPosition;
import org.shredzone.commons.suncalc.SunTimes;

/**
 * What the sun costs, beside commons-suncalc asked directly. Every call gets a new instant, so that
 * nothing is reused.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class SunBench {
  private static final Instant START = Instant.parse("2026-01-01T00:00:00Z");
  private static final long YEAR_S = Duration.ofDays(365).toSeconds();
  private static final ZoneId ZONE = ZoneId.of("Europe/Berlin");

  private final GeoPoint place = new GeoPoint(52.52, 13.405);
  private final SpaEphemeris spa = new SpaEphemeris();
  private final SuncalcEphemeris suncalc = new SuncalcEphemeris();
  private final SunCurve year = SunCurve.of(spa, START, START.plusSeconds(YEAR_S));
  private final SubsolarPoint subsolar = spa.at(START);
  private long tick;

  private Instant instant() {
    tick = (tick + 7_919) % YEAR_S;
    return START.plusSeconds(tick);
  }

  private LocalDate date() {
    tick = (tick + 1) % 363;
    return LocalDate.of(2026, 1, 2).plusDays(tick);
  }

  /** One subsolar point by the Solar Position Algorithm. */
  @Benchmark
  public SubsolarPoint spaAt() {
    return spa.at(instant());
  }

  /** One subsolar point by commons-suncalc behind our interface. */
  @Benchmark
  public SubsolarPoint suncalcAt() {
    return suncalc.at(instant());
  }

  /** The spherical triangle of one place. */
  @Benchmark
  public SunDirection from() {
    return subsolar.from(place);
  }

  /** Direction by an interpolated year. */
  @Benchmark
  public SunDirection curveDirection() {
    return year.direction(instant(), place);
  }

  /** Altitude alone by an interpolated year. */
  @Benchmark
  public double curveAltitude() {
    tick = (tick + 7_919) % YEAR_S;
    return year.geometricAltitudeDeg((START.getEpochSecond() + tick) * 1000, place);
  }

  /** A whole local day. */
  @Benchmark
  public SunDay day() {
    return SunDay.of(spa, place, ZONE, date());
  }

  /** A whole local day by an interpolated year. */
  @Benchmark
  public SunDay dayOnCurve() {
    return SunDay.of(year, place, ZONE, date());
  }

  /** Making an interpolated year. */
  @Benchmark
  public SunCurve curveOfYear() {
    return SunCurve.of(spa, START, START.plusSeconds(YEAR_S));
  }

  /** Baseline: direction by commons-suncalc itself. */
  @Benchmark
  public SunPosition baselinePosition() {
    return SunPosition.compute()
        .on(instant().atZone(ZoneOffset.UTC))
        .at(place.latitudeDeg(), place.longitudeDeg())
        .execute();
  }

  /** Baseline: rise, set, noon and nadir of a day by commons-suncalc itself, one threshold. */
  @Benchmark
  public SunTimes baselineTimes() {
    return SunTimes.compute()
        .on(date().atStartOfDay(ZONE))
        .at(place.latitudeDeg(), place.longitudeDeg())
        .oneDay()
        .execute();
  }
}
