package org.lightledger.store;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.HexFormat;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Exposure;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunDirection;

/** Records to store. */
public final class Samples {
  /** The time of every change in tests. */
  public static final Instant NOW = Instant.parse("2026-05-02T10:15:30.123Z");

  private static final Clock CLOCK = Clock.fixed(NOW, ZoneOffset.UTC);

  private Samples() {}

  /** Opens a ledger with the tests' clock. */
  public static Ledger open(Path folder) {
    return Ledger.open(folder, CLOCK);
  }

  /** A fingerprint that no other number gives. */
  public static String sha256(long number) {
    return HexFormat.of().toHexDigits(number).repeat(4);
  }

  /** A spot at a place. */
  public static Spot spot(String name, GeoPoint position, Facing... facings) {
    return new Spot(
        0, name, null, position, ZoneId.of("Europe/Madrid"), false, List.of(facings), "", "");
  }

  /** A shot of which everything is known, at a place. */
  public static Shot shot(GeoPoint place, Instant at) {
    ZoneOffset offset = ZoneOffset.ofHours(2);
    Evidence evidence =
        new Evidence(
            "JPEG",
            LocalDateTime.ofInstant(at, offset),
            offset,
            null,
            null,
            place,
            812.5,
            4.0,
            new Evidence.Direction(201.5, Evidence.North.TRUE),
            new Exposure(1 / 250.0, 2.8, 200.0),
            35.0,
            1,
            4000,
            3000,
            "Maker Model",
            List.of());
    return new Shot(
        evidence,
        new CaptureTime.Known(at, offset, CaptureTime.Source.OFFSET_TAG),
        new Shot.Position(place, Shot.PositionSource.GPS, 4.0),
        new Shot.Facing(new Bearing(201.5), Shot.FacingSource.TRUE_DIRECTION_TAG),
        List.of());
  }

  /** Where the sun stood. */
  public static SunDirection sun(double azimuthDeg, double altitudeDeg) {
    return new SunDirection(new Bearing(azimuthDeg), altitudeDeg, altitudeDeg + 0.01);
  }

  /** Any shot, with anything missing. */
  public static Shot anyShot(Random random) {
    return new Shot(
        anyEvidence(random),
        anyTime(random),
        random.nextInt(3) == 0
            ? null
            : new Shot.Position(
                anyPlace(random),
                any(random, Shot.PositionSource.values()),
                maybe(random, 1e-3 + random.nextDouble() * 1e3),
                maybe(random, random.nextDouble() * 5000 - 400)),
        random.nextInt(3) == 0
            ? null
            : new Shot.Facing(
                new Bearing(random.nextDouble() * 360), any(random, Shot.FacingSource.values())),
        anyProblems(random),
        new ClockCorrection(Duration.ofMillis(random.nextLong(-10_000_000, 10_000_000))));
  }

  /** The sun, when the shot tells where and when; else null. */
  public static @Nullable SunDirection anySun(Random random, Shot shot) {
    if (shot.position() == null || !(shot.time() instanceof CaptureTime.Known)) {
      return null;
    }
    return new SunDirection(
        new Bearing(random.nextDouble() * 360),
        random.nextDouble() * 180 - 90,
        random.nextDouble() * 180 - 90);
  }

  /** Any place, often at the edges of the map. */
  public static GeoPoint anyPlace(Random random) {
    double latitude = random.nextDouble() * 180 - 90;
    double longitude = random.nextDouble() * 360 - 180;
    return switch (random.nextInt(10)) {
      case 0 -> new GeoPoint(90, longitude);
      case 1 -> new GeoPoint(-90, longitude);
      case 2 -> new GeoPoint(latitude, 180);
      case 3 -> new GeoPoint(latitude, -180);
      default -> new GeoPoint(latitude, longitude);
    };
  }

  private static Evidence anyEvidence(Random random) {
    return new Evidence(
        any(random, "JPEG", "HEIC", "Größe ☀"),
        maybe(random, anyLocal(random)),
        maybe(random, anyOffset(random)),
        maybe(random, anyInstant(random)),
        maybe(random, LocalTime.ofNanoOfDay(random.nextLong(86_400_000_000_000L))),
        maybe(random, anyPlace(random)),
        maybe(random, random.nextGaussian() * 4000),
        maybe(random, 1e-3 + random.nextDouble() * 1e3),
        random.nextBoolean()
            ? null
            : new Evidence.Direction(
                random.nextDouble() * 360, any(random, Evidence.North.values())),
        new Exposure(
            maybe(random, 1e-4 + random.nextDouble()),
            maybe(random, 1 + random.nextDouble() * 21),
            maybe(random, 25 + random.nextDouble() * 100_000)),
        maybe(random, 8 + random.nextDouble() * 800),
        1 + random.nextInt(8),
        maybe(random, 1 + random.nextInt(20_000)),
        maybe(random, 1 + random.nextInt(20_000)),
        maybe(random, any(random, "", "Maker 'quoted' \"Model\"", "カメラ")),
        anyProblems(random));
  }

  private static CaptureTime anyTime(Random random) {
    return switch (random.nextInt(4)) {
      case 0 -> new CaptureTime.Unknown(maybe(random, anyLocal(random)), "The file says nothing.");
      case 1 ->
          new CaptureTime.Ambiguous(
              anyLocal(random),
              List.of(
                  OffsetDateTime.ofInstant(anyInstant(random), anyOffset(random)),
                  OffsetDateTime.ofInstant(anyInstant(random), anyOffset(random))),
              "The clocks were set back, \"twice\".");
      default ->
          new CaptureTime.Known(
              anyInstant(random), anyOffset(random), any(random, CaptureTime.Source.values()));
    };
  }

  private static List<Problem> anyProblems(Random random) {
    return random
        .ints(random.nextInt(3), 0, 4)
        .mapToObj(
            number ->
                new Problem(
                    any(random, Problem.Kind.values()),
                    any(random, "", "Found \"95\", expected [-90, 90].", "Zeile\nzwei \\ ☂")))
        .toList();
  }

  private static LocalDateTime anyLocal(Random random) {
    return LocalDateTime.ofInstant(anyInstant(random), ZoneOffset.UTC);
  }

  /** Before and after 1970, with any number of nanoseconds. */
  private static Instant anyInstant(Random random) {
    long second = random.nextLong(-3_000_000_000L, 4_000_000_000L);
    return Instant.ofEpochSecond(second, random.nextBoolean() ? 0 : random.nextInt(1_000_000_000));
  }

  private static ZoneOffset anyOffset(Random random) {
    return ZoneOffset.ofTotalSeconds(random.nextInt(-64_800, 64_801));
  }

  private static <T> @Nullable T maybe(Random random, T value) {
    return random.nextBoolean() ? value : null;
  }

  @SafeVarargs
  private static <T> T any(Random random, T... values) {
    return values[random.nextInt(values.length)];
  }
}
