package org.lightledger.scenario.render;

import java.util.stream.IntStream;

/**
 * Follows light from the camera backwards: the sun by shadow rays over its disc, the sky and one
 * bounce from the surroundings by a random ray, water and glass by their mirror image, the air by
 * what it takes and adds.
 */
final class Tracer {
  private static final int MIRRORS = 2;

  /** Rays per pixel on the stand-in, which is what one looks at first. */
  private static final int FIGURE_RAYS = 12;

  /** How far light from lit surroundings is followed, metres. */
  private static final double BOUNCE_REACH_M = 45;

  /** The sun is taken this many times wider than it is, for a softer shadow. */
  private static final double SOFT_SUN_RAD = Math.toRadians(0.45);

  private final Scene scene;
  private final Sky sky;
  private final Season season;
  private final GroundMap map;
  private final Outfit outfit;
  private final Vec3 sunRight;
  private final Vec3 sunUp;

  Tracer(Scene scene, Sky sky, Season season, GroundMap map, Outfit outfit) {
    this.scene = scene;
    this.sky = sky;
    this.season = season;
    this.map = map;
    this.outfit = outfit;
    sunRight = sky.sun().sideways();
    sunUp = sky.sun().cross(sunRight);
  }

  /** Draws a picture with a number of rays per pixel. */
  Film draw(Camera camera, int rays, long seed) {
    Film film = new Film(camera.width(), camera.height());
    IntStream.range(0, film.height)
        .parallel()
        .forEach(
            y -> {
              Walker walker = new Walker();
              for (int x = 0; x < film.width; x++) {
                walker.pixel(film, camera, x, y, rays, seed);
              }
            });
    return film;
  }

  /**
   * How much of the sun's disc can be seen from a place.
   *
   * @return share in [0, 1]; 0 when the sun stands below the horizon
   */
  double sunShare(Vec3 from, int rays, long seed) {
    if (sky.beam().luminance() <= 0) {
      return 0;
    }
    Scene.Eye eye = scene.eye();
    Dice dice = new Dice(seed);
    int free = 0;
    for (int i = 0; i < rays; i++) {
      if (!eye.blocked(from, towardsSun(dice, Math.toRadians(0.2666)))) {
        free++;
      }
    }
    return free / (double) rays;
  }

  private Vec3 towardsSun(Dice dice, double radiusRad) {
    double radius = radiusRad * Math.sqrt(dice.unit());
    double angle = 2 * Math.PI * dice.unit();
    return sky.sun()
        .plus(sunRight.times(radius * Math.cos(angle)))
        .plus(sunUp.times(radius * Math.sin(angle)))
        .unit();
  }

  /** One thread's working memory. */
  private final class Walker {
    private final Scene.Eye eye = scene.eye();
    private final Paint paint = new Paint(season, map, outfit);
    private final Dice dice = new Dice(0);
    private final Hit hit = new Hit();
    private final Hit far = new Hit();
    private final Look look = new Look();
    private final Look farLook = new Look();
    private Vec3 direct = Vec3.ZERO;
    private Vec3 colour = Vec3.ZERO;
    private Vec3 falling = Vec3.ZERO;

    void pixel(Film film, Camera camera, int x, int y, int rays, long seed) {
      int i = y * film.width + x;
      dice.reset(seed * 1_000_003L + i);
      Vec3 sumDirect = Vec3.ZERO;
      Vec3 sumColour = Vec3.ZERO;
      Vec3 sumFalling = Vec3.ZERO;
      Vec3 sumNormal = Vec3.ZERO;
      double sumDepth = 0;
      int surfaces = 0;
      int gathered = 0;
      int foliage = 0;
      int figure = 0;
      double turnX = dice.unit();
      double turnY = dice.unit();
      double turnLens = dice.unit();
      int used = 0;
      double least = Double.POSITIVE_INFINITY;
      double most = 0;
      int wanted = rays;
      for (int s = 0; s < wanted && !settled(used, surfaces, foliage, least, most); s++) {
        used++;
        double px = x + wrap(turnX + s * 0.7548776662466927);
        double py = y + wrap(turnY + s * 0.5698402909980532);
        Vec3 through = camera.direction(px, py);
        Vec3 from =
            camera.lens(wrap((s + dice.unit()) / rays), wrap(turnLens + s * 0.618033988749895));
        Vec3 direction = camera.bent(from, through);
        boolean met = follow(from, direction, s, gathered == 0);
        sumDirect = sumDirect.plus(direct);
        double shown = direct.plus(colour.times(sky.mean())).luminance();
        least = Math.min(least, shown);
        most = Math.max(most, shown);
        if (met) {
          surfaces++;
          sumColour = sumColour.plus(colour);
          if (gathers(s, gathered == 0)) {
            sumFalling = sumFalling.plus(falling);
            gathered++;
          }
          sumNormal = sumNormal.plus(look.normal);
          sumDepth += hit.distance;
          if (hit.surface.isFigure()) {
            wanted = FIGURE_RAYS;
            most = Double.POSITIVE_INFINITY;
          }
          foliage += hit.surface.isFoliage() ? 1 : 0;
          figure += hit.surface.isFigure() ? 1 : 0;
        }
      }
      put(film.direct, i, sumDirect.times(1.0 / used));
      put(film.colour, i, sumColour.times(1.0 / used));
      film.figure[i] = figure / (float) used;
      if (surfaces > 0) {
        put(film.falling, i, sumFalling.times(1.0 / Math.max(1, gathered)));
        double length = sumNormal.length();
        put(film.normal, i, length < 1e-9 ? Vec3.UP : sumNormal.times(1 / length));
        film.depth[i] = (float) (sumDepth / surfaces);
        film.foliage[i] = foliage / (float) surfaces;
      }
    }

    /** Whether the rays so far agree so well that more would change nothing one can see. */
    private static boolean settled(int used, int surfaces, int foliage, double least, double most) {
      boolean plain = surfaces == 0 ? used >= 2 : used >= 3 && surfaces == used && foliage == 0;
      return plain && most - least < 0.06 * most;
    }

    /** Whether the ray of a number also looks for the sky's light where it ended. */
    private boolean gathers(int number, boolean first) {
      return first || hit.surface.isFigure() || (!hit.surface.isFoliage() && number % 2 == 0);
    }

    private static double wrap(double value) {
      return value - Math.floor(value);
    }

    private static void put(float[] target, int pixel, Vec3 value) {
      target[3 * pixel] = (float) value.x();
      target[3 * pixel + 1] = (float) value.y();
      target[3 * pixel + 2] = (float) value.z();
    }

    /** Follows one ray; false when it ends in the sky. */
    private boolean follow(Vec3 start, Vec3 startDirection, int number, boolean first) {
      direct = Vec3.ZERO;
      colour = Vec3.ZERO;
      falling = Vec3.ZERO;
      Vec3 from = start;
      Vec3 direction = startDirection;
      double weight = 1;
      for (int mirror = 0; ; mirror++) {
        if (!eye.look(from, direction, hit)) {
          direct = direct.plus(sky.seen(direction).times(weight));
          return false;
        }
        double clear = sky.clearness(from, direction, hit.distance);
        direct = direct.plus(sky.hazeLight(direction).times(weight * (1 - clear)));
        weight *= clear;
        paint.describe(hit, direction, look);
        if (look.mirror <= 0 || mirror >= MIRRORS) {
          shade(direction, weight, number, first);
          return true;
        }
        double cos = Math.max(0, -direction.dot(look.normal));
        double share = look.mirror + (1 - look.mirror) * Math.pow(1 - cos, 5);
        Vec3 body = look.albedo.times(sky.mean()).times(weight * (1 - share));
        direct = direct.plus(body);
        weight *= share;
        Vec3 reflected = direction.plus(look.normal.times(2 * cos)).unit();
        if (reflected.z() < 0.002 && hit.surface == Surface.WATER) {
          reflected = new Vec3(reflected.x(), reflected.y(), 0.002).unit();
        }
        from = hit.place.plus(hit.flat.times(hit.flat.dot(direction) > 0 ? -1e-3 : 1e-3));
        glitter(from, reflected, weight);
        direction = reflected;
      }
    }

    /** The sun's mirror image, spread as by ripples finer than those drawn. */
    private void glitter(Vec3 from, Vec3 reflected, double weight) {
      double spread = Math.toRadians(2.2);
      double off = Math.acos(Math.min(1, reflected.dot(sky.sun())));
      if (off > 3 * spread || sky.beam().luminance() <= 0) {
        return;
      }
      double shape = Math.exp(-off * off / (spread * spread)) / (Math.PI * spread * spread);
      if (!eye.blocked(from, sky.sun())) {
        direct = direct.plus(sky.beam().times(weight * Math.min(shape, 60)));
      }
    }

    private void shade(Vec3 direction, double weight, int number, boolean first) {
      Vec3 outside = look.normal;
      boolean seenFromBack = hit.flat.dot(direction) > 0;
      Vec3 flat = seenFromBack ? hit.flat.times(-1) : hit.flat;
      double reach = 2e-3 + 1e-5 * hit.distance;
      Vec3 above = hit.place.plus(flat.times(reach));
      Vec3 below = hit.place.minus(flat.times(reach));
      Vec3 towards = towardsSun(dice, SOFT_SUN_RAD);
      double cos = outside.dot(towards);
      boolean front = flat.dot(towards) > 0;
      if (sky.beam().luminance() > 0 && (front ? cos > 0 : !look.through.isZero())) {
        if (!eye.blocked(front ? above : below, towards)) {
          Vec3 answer = (front ? look.albedo : look.through).times(Math.abs(cos) / Math.PI);
          direct = direct.plus(answer.times(sky.beam()).times(weight));
        }
      }
      if (look.sheen > 0 && sky.beam().luminance() > 0) {
        fuzz(direction, towards, outside, weight);
      }
      colour = look.albedo.plus(look.through).times(weight);
      if (gathers(number, first)) {
        ambient(above, below, outside);
      }
    }

    /**
     * The gleam of loose fibres about hair and cloth. They stand off the surface, so that at its
     * outline they still catch a sun that stands somewhat behind.
     */
    private void fuzz(Vec3 direction, Vec3 towards, Vec3 outside, double weight) {
      double grazing = 1 - Math.min(1, Math.abs(direction.dot(outside)));
      double reach = Sky.smoothstep(-0.35, 0.25, outside.dot(towards));
      double against = Math.max(0, direction.dot(towards));
      double strength =
          look.sheen * Math.pow(grazing, 4) * reach * (0.10 + 1.5 * against * against);
      if (strength < 1e-3 || eye.blocked(hit.place.plus(outside.times(0.025)), towards)) {
        return;
      }
      Vec3 tint = look.albedo.mix(Vec3.grey(0.6), 0.35);
      direct = direct.plus(tint.times(sky.beam()).times(strength * weight / Math.PI));
    }

    private void ambient(Vec3 above, Vec3 below, Vec3 outside) {
      double frontShare = look.through.isZero() ? 1 : 0.5;
      boolean front = dice.unit() < frontShare;
      Vec3 n = front ? outside : outside.times(-1);
      Vec3 way = cosine(n);
      falling = arriving(front ? above : below, way);
    }

    private Vec3 cosine(Vec3 n) {
      double z = 2 * dice.unit() - 1;
      double angle = 2 * Math.PI * dice.unit();
      double level = Math.sqrt(1 - z * z);
      Vec3 ball = new Vec3(level * Math.cos(angle), level * Math.sin(angle), z);
      Vec3 sum = n.plus(ball);
      double length = sum.length();
      return length < 1e-6 ? n : sum.times(1 / length);
    }

    /** The mean light of ground farther off than bounces are followed. */
    private Vec3 distantGround() {
      Vec3 light = sky.mean().plus(sky.beam().times(Math.max(0, sky.sun().z()) / Math.PI));
      return season.grass().times(light);
    }

    /** What comes along a direction from the sky or from the lit surroundings. */
    private Vec3 arriving(Vec3 from, Vec3 way) {
      if (!eye.look(from, way, BOUNCE_REACH_M, far)) {
        return way.z() > 0.03 ? sky.smooth(way) : distantGround();
      }
      paint.describe(far, way, farLook);
      Vec3 n = farLook.normal;
      Vec3 light = sky.mean().times(0.35 + 0.35 * n.z());
      double cos = n.dot(sky.sun());
      if (sky.beam().luminance() > 0 && far.surface.isFoliage()) {
        light = light.plus(sky.beam().times(0.25 * Math.abs(cos) / Math.PI));
      } else if (cos > 0 && sky.beam().luminance() > 0) {
        Vec3 off = far.place.plus(n.times(3e-3));
        if (!eye.blocked(off, sky.sun())) {
          light = light.plus(sky.beam().times(cos / Math.PI));
        }
      }
      return farLook.albedo.plus(farLook.through.times(0.5)).times(light);
    }
  }
}
