package org.lightledger.scenario.render;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.lightledger.scenario.Brezaluz;
import org.lightledger.scenario.Point;
import org.lightledger.sun.SunDirection;

/** Takes pictures in the town. Keeps one season's scenery at a time, so ask in order of season. */
public final class Studio {
  private static final int LONG_SIDE = 960;
  private static final int SHORT_SIDE = 640;
  private static final double EYE_M = 1.52;

  /** Everything that one picture needs to know. */
  public record Setup(
      Point camera,
      Point subject,
      double facingDeg,
      double pitchDeg,
      double focalMm,
      double fNumber,
      double crop,
      boolean upright,
      double figureTurnDeg,
      double bias,
      Weather weather,
      Outfit outfit,
      LocalDate date,
      SunDirection sun,
      long seed) {}

  private final Brezaluz town;
  private final GroundMap map;
  private final List<Placement> lasting;
  private final Map<Season, Scenery> sceneries = new HashMap<>();
  private final Map<String, Shape> figures = new HashMap<>();
  private final int shrink;

  /**
   * A studio.
   *
   * @param town the model
   * @param shrink 1 for full size, or by how much pictures are made smaller for trials
   */
  public Studio(Brezaluz town, int shrink) {
    this.town = town;
    this.shrink = shrink;
    map = new GroundMap(town.river(), town.streets(), town.fields());
    lasting = Scenery.lasting(town);
  }

  /** Takes one picture. */
  public Picture take(Setup setup) {
    Season season = Season.on(setup.date());
    sceneries.keySet().removeIf(other -> !other.equals(season));
    Scenery scenery = sceneries.computeIfAbsent(season, s -> new Scenery(town, s, map, lasting));
    Sky sky =
        new Sky(
            setup.sun().azimuth().trueDeg(), setup.sun().apparentAltitudeDeg(), setup.weather());
    double half = Math.toDegrees(Math.atan(18 / setup.focalMm())) + 9;
    Scene empty = scenery.before(setup.camera(), setup.facingDeg(), half, List.of());
    Scene scene = scenery.before(setup.camera(), setup.facingDeg(), half, List.of(figure(setup)));
    Tracer tracer = new Tracer(scene, sky, season, map, setup.outfit());
    Camera trial = camera(setup, 6 * shrink);
    Film trialFilm = tracer.draw(trial, 4, setup.seed());
    float[] trialLight = trialFilm.radiance(Smoother.smooth(trialFilm));
    double share = tracer.sunShare(trial.place(), 400, setup.seed());
    Glare.add(trialLight, trial, sky, share, setup.fNumber());
    Exposure exposure =
        Exposure.near(Meter.ev100(trialFilm, trialLight, setup.bias()), setup.fNumber());

    Camera camera = camera(setup, shrink);
    Film film = tracer.draw(camera, rays(setup), setup.seed());
    float[] light = film.radiance(Smoother.smooth(film));
    Glare.add(light, camera, sky, share, setup.fNumber());
    ToneCurve tone = new ToneCurve(exposure.ev100(), sky.white(), 0.30);
    int[] rgb = new int[film.width * film.height];
    for (int i = 0; i < rgb.length; i++) {
      rgb[i] = tone.pixel(light[3 * i], light[3 * i + 1], light[3 * i + 2]);
    }
    boolean sunSeen = camera.sees(sky.sun()) && share > 0.95;
    return new Picture(
        film.width,
        film.height,
        rgb,
        exposure,
        camera,
        sunSeen,
        onSubject(empty, sky, season, setup),
        film.figure);
  }

  private static int rays(Setup setup) {
    double blurMm = setup.focalMm() * setup.focalMm() / setup.fNumber() / setup.crop() / 6000;
    return blurMm > 0.1 ? 5 : 4;
  }

  private Camera camera(Setup setup, int smaller) {
    Point at = setup.camera();
    double away = at.to(setup.subject());
    int width = (setup.upright() ? SHORT_SIDE : LONG_SIDE) / smaller;
    int height = (setup.upright() ? LONG_SIDE : SHORT_SIDE) / smaller;
    return new Camera(
        new Vec3(at.east(), at.north(), town.floorUp(at) + EYE_M),
        setup.facingDeg(),
        setup.pitchDeg(),
        setup.focalMm(),
        setup.fNumber() * setup.crop(),
        away,
        width,
        height);
  }

  private Placement figure(Setup setup) {
    double sway = setup.seed() % 2 == 0 ? 0.9 : -0.9;
    Shape shape =
        figures.computeIfAbsent(
            setup.outfit().cut() + "/" + sway,
            key -> FigureShape.shape(setup.outfit().cut(), sway));
    Point at = setup.subject();
    double towardsCamera = at.bearingTo(setup.camera()) + setup.figureTurnDeg();
    return new Placement(
        shape,
        new Vec3(at.east(), at.north(), town.floorUp(at)),
        Math.toRadians(180 - towardsCamera),
        1,
        0.5);
  }

  private double onSubject(Scene empty, Sky sky, Season season, Setup setup) {
    Tracer tracer = new Tracer(empty, sky, season, map, setup.outfit());
    Point at = setup.subject();
    double sum = 0;
    double[] heights = {0.9, 1.25, 1.55};
    for (double height : heights) {
      Vec3 from = new Vec3(at.east(), at.north(), town.floorUp(at) + height);
      sum += tracer.sunShare(from, 200, setup.seed());
    }
    return sum / heights.length;
  }
}
