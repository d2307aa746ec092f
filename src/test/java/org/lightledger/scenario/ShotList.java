package org.lightledger.scenario;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.lightledger.scenario.render.Outfit;
import org.lightledger.scenario.render.Weather;

/** The studio's outings of one year, October 2025 to October 2026. */
final class ShotList {
  private static final Weather CLEAR = new Weather(Weather.Kind.CLEAR, 0.35, 38, 0, 1);
  private static final Weather HAZY = new Weather(Weather.Kind.HAZY, 0.5, 18, 0, 2);
  private static final Weather GREY = new Weather(Weather.Kind.OVERCAST, 0, 22, 0, 3);
  private static final Weather MIST = new Weather(Weather.Kind.CLEAR, 0.2, 22, 0.010, 4);

  private final List<ShotPlan> plans = new ArrayList<>();
  private final Map<Body, Integer> counters = new EnumMap<>(Body.class);
  private LocalDate date = LocalDate.of(2025, 10, 18);
  private Body body = Body.MAIN;
  private Weather weather = CLEAR;
  private Outfit outfit = Outfit.CREAM;
  private Set<Fault> faults = EnumSet.noneOf(Fault.class);

  private ShotList() {
    counters.put(Body.MAIN, 402);
    counters.put(Body.PHONE, 117);
    counters.put(Body.OLD, 2210);
  }

  static List<ShotPlan> plans() {
    ShotList list = new ShotList();
    list.autumn();
    list.winter();
    list.spring();
    list.summer();
    list.secondAutumn();
    return List.copyOf(list.plans);
  }

  private void autumn() {
    outing("2025-10-18", Body.MAIN, CLEAR, Outfit.ROSE);
    wide("Orchard Rows", 217, "17:05", 35, 4, 6, -9, 1, 25);
    wide("Poplar Avenue", 232, "17:40", 35, 4, 6, -8, 2, -20);
    tall("Hedge Lane", 252, "18:25", 40, 4, 5.5, 4, 4, 15);
    wide("Wheat Edge", 247, "19:02", 35, 4, 6, 9, 2, -30);

    outing("2025-10-26", Body.OLD, CLEAR, Outfit.CAMEL_COAT, Fault.LOCAL_TIME_TWICE);
    wide("Walled Garden", 302, "14:40", 35, 5.6, 6, -8, 1, 30);

    outing("2025-11-15", Body.MAIN, CLEAR, Outfit.CAMEL_COAT);
    tall("Poplar Avenue", 231, "16:58", 40, 5.6, 5.5, -4, 5, 20);
    wide("Ansar Meadow", 240, "17:12", 35, 4, 6, 9, 2, -25);
    wide("Reed Bank", 231, "17:24", 35, 4, 6, -9, 1, 30);
    outing("2025-11-15", Body.OLD, CLEAR, Outfit.CAMEL_COAT, Fault.NO_POSITION, Fault.NO_OFFSET);
    wide("Reed Bank", 229, "17:27", 50, 4, 7.5, 6, 1, -30);
  }

  private void winter() {
    outing("2025-12-13", Body.MAIN, CLEAR, Outfit.RUST_COAT);
    wide("Market Square", 20, "15:05", 28, 5.6, 5.5, 10, 4, -15);
    tall("Mill Wall", 324, "15:45", 35, 4, 5, 3, 5, -35);
    wide("Bridge Landing", 226, "16:20", 35, 5.6, 6, -9, 1, 25);
    wide("Tordel Top", 243, "17:18", 35, 4, 6, 8, 2, -25);

    outing("2026-01-24", Body.PHONE, GREY, Outfit.CAMEL_COAT, Fault.NO_OFFSET);
    wide("Cloth Hall Arcade", 108, "12:35", 28, 2.0, 5, -3, 1, 20);
    wide("Market Square", 22, "12:50", 28, 2.0, 5.5, 11, 4, -15);
    tall("Chapel Steps", 56, "13:30", 30, 2.0, 5, -3, 6, 10);

    outing("2026-02-21", Body.MAIN, HAZY, Outfit.RUST_COAT);
    wide("Walled Garden", 298, "16:25", 35, 4, 6, 8, 1, -30);
    tall("Tinajo Alley", 240, "17:06", 35, 4, 5, -2, 5, 20);
    wide("Hedge Lane", 256, "17:45", 40, 4, 6.5, -8, 1, 25);
    wide("Bridge Landing", 230, "18:12", 35, 4, 6, 9, 1, -25);
  }

  private void spring() {
    outing("2026-03-14", Body.MAIN, CLEAR, Outfit.CREAM, Fault.MAGNETIC_DIRECTION);
    wide("Orchard Rows", 215, "16:10", 35, 4, 6, 8, 1, -20);
    tall("Tordel Top", 249, "18:15", 40, 5.6, 5.5, -4, 5, 25);

    outing("2026-03-29", Body.OLD, CLEAR, Outfit.RUST_COAT, Fault.LOCAL_TIME_SKIPPED);
    wide("Barn Door", 106, "14:35", 35, 5.6, 6, -8, 1, 20);

    outing("2026-04-18", Body.MAIN, CLEAR, Outfit.ROSE);
    wide("Orchard Rows", 218, "18:00", 35, 4, 6, -9, 1, 25);
    wide("Mill Wall", 320, "18:35", 35, 4, 6, 8, 1, -30);
    tall("Bridge Landing", 13, "19:10", 35, 5.6, 5, 3, 4, 15);
    wide("Chapel Steps", 54, "19:55", 24, 4, 5.5, -12, 8, 20);
    wide("Hedge Lane", 258, "20:28", 35, 4, 6, -7, 2, -25);
    outing("2026-04-18", Body.PHONE, CLEAR, Outfit.ROSE, Fault.NO_DIRECTION);
    wide("Washing Place", 317, "18:50", 26, 2.0, 5.5, -9, 1, 30);

    outing("2026-05-09", Body.MAIN, CLEAR, Outfit.CREAM);
    wide("Barn Door", 109, "19:15", 35, 4, 6, 9, 1, -20);
    tall("Walled Garden", 302, "19:40", 40, 4, 5.5, -4, 4, 25);
    wide("Reed Bank", 244, "20:35", 35, 4, 6, -10, 2, 25);
    wide("Ansar Meadow", 252, "20:58", 40, 4, 6.5, -8, 2, -30);
    outing("2026-05-10", Body.MAIN, MIST, Outfit.CREAM);
    wide("Bridge Landing", 14, "08:05", 35, 4, 6, -9, 2, 25);
    wide("Ansar Meadow", 238, "08:25", 35, 4, 6, 9, 2, -20);
  }

  private void summer() {
    outing("2026-06-20", Body.MAIN, CLEAR, Outfit.STRAW_HAT);
    wide("Market Square", 19, "14:20", 28, 8, 5.5, 10, 4, -20);
    wide("Tinajo Alley", 243, "18:40", 35, 4, 5.5, 4, 2, -20);
    wide("Wheat Edge", 256, "20:35", 35, 4, 6, -9, 2, 30);
    tall("Tordel Top", 262, "21:12", 40, 4, 5.5, 4, 4, -25);
    outing("2026-06-20", Body.PHONE, CLEAR, Outfit.STRAW_HAT, Fault.ZERO_POSITION);
    wide("Wheat Edge", 250, "20:40", 26, 2.0, 5, 10, 2, 20);

    outing("2026-07-18", Body.MAIN, CLEAR, Outfit.STRAW_HAT);
    tall("Cloth Hall Arcade", 107, "17:05", 35, 2.8, 5, -2, 4, 25);
    wide("Walled Garden", 299, "20:20", 35, 4, 6, -8, 1, 25);
    wide("Wheat Edge", 262, "21:02", 40, 5.6, 6.5, -8, 2, -25);
    outing("2026-07-18", Body.PHONE, CLEAR, Outfit.STRAW_HAT, Fault.NO_DIRECTION);
    wide("Washing Place", 314, "17:45", 26, 2.0, 5.5, 9, 1, -30);
    tall("Washing Place", 318, "19:30", 30, 2.0, 5, -3, 4, 25);
  }

  private void secondAutumn() {
    outing("2026-08-29", Body.MAIN, HAZY, Outfit.ROSE);
    wide("Barn Door", 107, "18:50", 35, 4, 6, -9, 1, 25);
    wide("Hedge Lane", 257, "19:35", 35, 4, 6, 7, 1, -25);
    wide("Tordel Top", 257, "20:22", 35, 5.6, 6, -9, 2, 25);
    outing("2026-08-30", Body.MAIN, GREY, Outfit.CREAM, Fault.NO_OFFSET);
    wide("Reed Bank", 226, "11:20", 35, 4, 6, 9, 1, 20);
    tall("Tinajo Alley", 240, "12:10", 35, 2.8, 5, 2, 5, -20);

    outing("2026-09-26", Body.MAIN, CLEAR, Outfit.CREAM, Fault.MAGNETIC_DIRECTION);
    wide("Mill Wall", 323, "17:15", 35, 4, 6, -9, 1, 30);
    tall("Orchard Rows", 214, "17:50", 40, 4, 5.5, 3, 4, -25);
    outing("2026-09-26", Body.MAIN, CLEAR, Outfit.CREAM);
    wide("Poplar Avenue", 233, "18:40", 40, 4, 6.5, 8, 2, -25);
    wide("Ansar Meadow", 246, "19:15", 35, 4, 6, -10, 2, 25);
    outing("2026-09-26", Body.OLD, CLEAR, Outfit.CREAM, Fault.NO_POSITION);
    tall("Ansar Meadow", 243, "19:20", 50, 4, 5.8, 3, 3, -20);

    outing("2026-10-10", Body.MAIN, CLEAR, Outfit.CAMEL_COAT);
    wide("Cloth Hall Arcade", 109, "16:40", 35, 2.8, 5.5, -3, 1, 20);
    wide("Chapel Steps", 57, "18:20", 24, 4, 5.5, 13, 8, -20);
    wide("Poplar Avenue", 229, "18:52", 50, 4, 7, -7, 1, 25);
  }

  private void outing(String day, Body with, Weather air, Outfit dress, Fault... wrong) {
    date = LocalDate.parse(day);
    body = with;
    weather =
        new Weather(
            air.kind(), air.cirrus(), air.visibilityKm(), air.mist(), date.getDayOfYear() % 97);
    outfit = dress;
    faults = EnumSet.noneOf(Fault.class);
    faults.addAll(List.of(wrong));
  }

  private void wide(
      String spot,
      double facing,
      String time,
      double focal,
      double fNumber,
      double distance,
      double offset,
      double pitch,
      double turn) {
    add(spot, facing, time, false, focal, fNumber, distance, offset, pitch, turn);
  }

  private void tall(
      String spot,
      double facing,
      String time,
      double focal,
      double fNumber,
      double distance,
      double offset,
      double pitch,
      double turn) {
    add(spot, facing, time, true, focal, fNumber, distance, offset, pitch, turn);
  }

  private void add(
      String spot,
      double facing,
      String time,
      boolean upright,
      double focal,
      double fNumber,
      double distance,
      double offset,
      double pitch,
      double turn) {
    int number = counters.merge(body, 3, Integer::sum);
    String file = String.format(Locale.ROOT, "outing-%s/%s%04d.jpg", date, body.prefix(), number);
    LocalTime clock = LocalTime.parse(time).plusSeconds(number * 17L % 60);
    double bias = weather.kind() == Weather.Kind.OVERCAST ? -0.4 : 0;
    plans.add(
        new ShotPlan(
            file,
            spot,
            facing,
            date.atTime(clock),
            body,
            upright,
            focal,
            fNumber,
            distance,
            offset,
            pitch,
            weather,
            outfit,
            turn,
            bias,
            Set.copyOf(faults)));
  }
}
