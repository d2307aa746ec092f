package org.lightledger.scenario.render;

/**
 * The sky's light. Clear and hazy skies: A. J. Preetham, P. Shirley and B. Smits, "A practical
 * analytic model for daylight" (SIGGRAPH 1999), its distribution scaled so that level ground
 * receives what {@link Daylight} says. Grey skies: the CIE standard overcast sky (Moon and Spencer
 * 1942). Below the horizon the sky goes on as haze of the same direction's horizon.
 */
final class Sky {
  private static final int AZIMUTHS = 180;
  private static final int ALTITUDES = 120;
  private static final double SUN_RADIUS_RAD = Math.toRadians(0.2666);

  /** The sun's share of the sky, steradians. */
  static final double SUN_SOLID_ANGLE = Math.PI * SUN_RADIUS_RAD * SUN_RADIUS_RAD;

  private final Vec3 sun;
  private final Weather weather;
  private final Daylight daylight;
  private final Vec3 sunColour;
  private final Vec3 skyMean;
  private final Vec3[] table = new Vec3[(AZIMUTHS + 1) * (ALTITUDES + 1)];

  Sky(double sunAzimuthDeg, double sunAltitudeDeg, Weather weather) {
    this.weather = weather;
    sun = Vec3.towards(sunAzimuthDeg, sunAltitudeDeg);
    daylight =
        switch (weather.kind()) {
          case CLEAR -> Daylight.clear(sunAltitudeDeg);
          case HAZY -> Daylight.hazy(sunAltitudeDeg);
          case OVERCAST -> Daylight.overcast(sunAltitudeDeg);
        };
    double turbidity = weather.kind() == Weather.Kind.HAZY ? 4.5 : 2.6;
    sunColour = transmitted(Daylight.airMass(sunAltitudeDeg), turbidity);
    Preetham model = new Preetham(Math.max(0.6, sunAltitudeDeg), turbidity);
    Vec3 sum = Vec3.ZERO;
    double weight = 0;
    for (int j = 0; j <= ALTITUDES; j++) {
      double altitude = 90.0 * j * j / (ALTITUDES * ALTITUDES);
      double next = 90.0 * Math.min(1, (j + 1.0) * (j + 1.0) / (ALTITUDES * ALTITUDES));
      double level = Math.cos(Math.toRadians(altitude)) * Math.sin(Math.toRadians(altitude));
      for (int i = 0; i <= AZIMUTHS; i++) {
        Vec3 colour =
            weather.kind() == Weather.Kind.OVERCAST
                ? overcast(altitude)
                : warmed(model.colour(altitude, 180.0 * i / AZIMUTHS), altitude, sunAltitudeDeg);
        table[j * (AZIMUTHS + 1) + i] = colour;
        double share = level * (next - altitude) * (i == 0 || i == AZIMUTHS ? 0.5 : 1);
        sum = sum.plus(colour.times(share));
        weight += share;
      }
    }
    Vec3 mean = sum.times(1 / weight);
    double scale = daylight.skyLux() / Math.PI / mean.luminance();
    for (int i = 0; i < table.length; i++) {
      table[i] = table[i].times(scale);
    }
    skyMean = mean.times(scale);
  }

  private static Vec3 overcast(double altitudeDeg) {
    return new Vec3(0.97, 1.0, 1.05).times((1 + 2 * Math.sin(Math.toRadians(altitudeDeg))) / 3);
  }

  /**
   * The colour of sunlight behind a mass of air, luminance 1: Rayleigh scattering and Ångström's
   * aerosol as in Preetham et al. 1999, appendix 1, at 680, 550 and 440 nm.
   */
  private static Vec3 transmitted(double airMass, double turbidity) {
    double beta = 0.04608 * turbidity - 0.04586;
    double[] micrometres = {0.680, 0.550, 0.440};
    double[] t = new double[3];
    for (int i = 0; i < 3; i++) {
      double rayleigh = 0.008735 * Math.pow(micrometres[i], -4.08);
      double aerosol = beta * Math.pow(micrometres[i], -1.3);
      t[i] = Math.exp(-(rayleigh + aerosol) * Math.min(airMass, 18));
    }
    Vec3 colour = new Vec3(t[0], t[1], t[2]);
    return colour.times(1 / colour.luminance());
  }

  /**
   * Leans the lowest sky of a low sun towards the colour of the light that reaches it, which the
   * model leaves too green near the horizon.
   */
  private Vec3 warmed(Vec3 colour, double altitudeDeg, double sunAltitudeDeg) {
    double low = Math.exp(-altitudeDeg / 11) * Math.exp(-Math.max(0, sunAltitudeDeg) / 9);
    Vec3 warm = sunColour.mix(Vec3.grey(1), 0.45);
    return colour.mix(warm.times(colour.luminance()), 0.62 * low);
  }

  /** The unit vector to the sun as it is seen. */
  Vec3 sun() {
    return sun;
  }

  /** What falls on a surface that faces the sun, lux by channel. */
  Vec3 beam() {
    return sunColour.times(daylight.beamLux());
  }

  /** The mean radiance of the sky, weighted as level ground sees it. */
  Vec3 mean() {
    return skyMean;
  }

  /** The light a camera should take for white: a mixture of sunlight and skylight, luminance 1. */
  Vec3 white() {
    Vec3 light = beam().times(0.5).plus(skyMean.times(Math.PI));
    return light.times(1 / light.luminance());
  }

  /** The smooth sky without sun and cloud detail. */
  Vec3 smooth(Vec3 direction) {
    double altitude = Math.toDegrees(Math.asin(Math.max(0, Math.min(1, direction.z()))));
    double level = Math.hypot(direction.x(), direction.y()) * Math.hypot(sun.x(), sun.y());
    double cos = level < 1e-9 ? 1 : (direction.x() * sun.x() + direction.y() * sun.y()) / level;
    double azimuth = Math.toDegrees(Math.acos(Math.max(-1, Math.min(1, cos))));
    double i = azimuth / 180 * AZIMUTHS;
    double j = Math.sqrt(altitude / 90) * ALTITUDES;
    int i0 = Math.min(AZIMUTHS - 1, (int) i);
    int j0 = Math.min(ALTITUDES - 1, (int) j);
    Vec3 low = at(i0, j0).mix(at(i0 + 1, j0), i - i0);
    Vec3 high = at(i0, j0 + 1).mix(at(i0 + 1, j0 + 1), i - i0);
    return low.mix(high, j - j0);
  }

  private Vec3 at(int i, int j) {
    return table[j * (AZIMUTHS + 1) + i];
  }

  /** The sky as a camera sees it, with cloud, without the sun's disc. */
  Vec3 seen(Vec3 direction) {
    Vec3 sky = smooth(direction);
    if (direction.z() <= 0.004) {
      return sky;
    }
    double flat = 1 / (direction.z() + 0.06);
    double x = direction.x() * flat + weather.seed() * 7.31;
    double y = direction.y() * flat - weather.seed() * 3.77;
    if (weather.kind() == Weather.Kind.OVERCAST) {
      double billow = Noise.layers(x * 0.8, y * 0.8, 5);
      return sky.times(0.72 + 0.56 * billow);
    }
    if (weather.cirrus() <= 0) {
      return sky;
    }
    double bend = Noise.layers(x * 0.35, y * 0.35, 2) * 2.2;
    double streak = Noise.layers(x * 0.55 + bend, y * 1.5 - bend * 0.7, 5);
    double tuft = Noise.layers(x * 2.1 - bend, y * 2.1 + bend, 4);
    double edge = 0.78 - 0.42 * weather.cirrus();
    double density = smoothstep(edge, edge + 0.22, 0.72 * streak + 0.28 * tuft);
    density *= smoothstep(0.01, 0.12, direction.z()) * 0.85;
    double cos = direction.dot(sun);
    Vec3 lit = beam().times(0.045 + 0.22 * forward(cos, 0.55)).plus(skyMean.times(0.75));
    return sky.mix(lit, density);
  }

  /** Henyey and Greenstein's phase function (1941), per steradian. */
  static double forward(double cos, double g) {
    double base = 1 + g * g - 2 * g * cos;
    return (1 - g * g) / (4 * Math.PI * base * Math.sqrt(base));
  }

  static double smoothstep(double low, double high, double value) {
    double t = Math.max(0, Math.min(1, (value - low) / (high - low)));
    return t * t * (3 - 2 * t);
  }

  /**
   * What the air itself adds and takes along a line of sight.
   *
   * @return how much of the far light comes through, in [0, 1]
   */
  double clearness(Vec3 from, Vec3 direction, double distance) {
    double haze = 3.912 / (1000 * weather.visibilityKm()) * column(from, direction, distance, 1500);
    double mist = weather.mist() <= 0 ? 0 : weather.mist() * column(from, direction, distance, 5.0);
    return Math.exp(-haze - mist);
  }

  private static double column(Vec3 from, Vec3 direction, double distance, double heightM) {
    double start = Math.exp(-Math.max(0, from.z()) / heightM);
    double climb = direction.z() * distance / heightM;
    return Math.abs(climb) < 1e-5
        ? start * distance
        : start * distance * (1 - Math.exp(-climb)) / climb;
  }

  /** The light of endless haze in a direction. */
  Vec3 hazeLight(Vec3 direction) {
    double z = Math.max(0.03, direction.z());
    Vec3 lifted = new Vec3(direction.x(), direction.y(), z).unit();
    Vec3 glow = beam().times(0.35 * forward(direction.dot(sun), 0.72));
    Vec3 base = smooth(lifted).times(0.85);
    return weather.mist() > 0
        ? base.mix(glow.plus(skyMean.times(0.7)), 0.5)
        : base.plus(glow.times(0.12));
  }
}
