package org.lightledger.bench;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.concurrent.TimeUnit;
import org.lightledger.ask.LightCalendar;
import org.lightledger.ask.SpotDay;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.web.chart.CalendarChart;
import org.lightledger.web.chart.Svg;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * How long the year of a spot's page takes, as it is shown: every second day, every five minutes;
 * and the direct sun of one day.
 *
 * <p>Run with {@code mvn -q test-compile exec:java -Dexec.classpathScope=test
 * -Dexec.mainClass=org.openjdk.jmh.Main -Dexec.args=CalendarBench}.
 */
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 2, time = 2)
@Measurement(iterations = 3, time = 2)
@SuppressWarnings("NullAway.Init")
public class CalendarBench {
  private static final GeoPoint PLACE = new GeoPoint(41.95, -6.61);
  private static final ZoneId ZONE = ZoneId.of("Europe/Madrid");

  /** A wavy skyline and the calendar made under it. */
  @State(Scope.Benchmark)
  public static class Hills {
    Skyline skyline;
    LightCalendar calendar;

    /** Makes both. */
    @Setup
    public void make() {
      SkylineBuilder builder = new SkylineBuilder();
      for (int step = 0; step < Skyline.STEPS; step++) {
        builder.set(
            step,
            5 + 4 * Math.sin(step / 20.0),
            0.4,
            SkylineSource.TERRAIN,
            EnumSet.noneOf(SkylineFlag.class));
      }
      skyline = builder.build();
      calendar = year(skyline);
    }
  }

  private static LightCalendar year(Skyline skyline) {
    return LightCalendar.of(new SpaEphemeris(), PLACE, ZONE, Bearing.of(234), skyline, 2026, 2, 5);
  }

  /** The lights alone. */
  @Benchmark
  public LightCalendar lights(Hills hills) {
    return year(hills.skyline);
  }

  /** The drawing alone. */
  @Benchmark
  public Svg drawing(Hills hills) {
    return CalendarChart.draw("year", hills.calendar, CalendarChart.Size.WIDE, null);
  }

  /** One day. */
  @Benchmark
  public SpotDay day(Hills hills) {
    return SpotDay.of(new SpaEphemeris(), PLACE, ZONE, LocalDate.of(2026, 12, 15), hills.skyline);
  }
}
