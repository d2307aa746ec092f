package org.lightledger.scenario.render;

import java.time.LocalDate;
import java.util.List;
import org.lightledger.scenario.Brezaluz;
import org.lightledger.scenario.Point;
import org.lightledger.skyline.LineOfSight;
import org.lightledger.sun.SunDirection;

/**
 * Asks the model in which the photos are taken whether the sun reaches a subject, without taking a
 * photo and whatever the weather. One season's land, houses, walls, hedges and trees; grass and
 * reeds are left out but for those that the subject stands in.
 */
public final class SunRays {
  private static final int RAYS = 200;
  private static final Weather CLEAR = new Weather(Weather.Kind.CLEAR, 0, 38, 0, 1);

  private final Brezaluz town;
  private final Season season;
  private final GroundMap map;
  private final Scenery scenery;

  /** The model as it stands on a date. */
  public SunRays(Brezaluz town, LocalDate date) {
    this.town = town;
    season = Season.on(date);
    map = new GroundMap(town.river(), town.streets(), town.fields());
    scenery = new Scenery(town, season, map, Scenery.lasting(town));
  }

  /** The model around one subject. */
  public final class Subject {
    private final Point at;
    private final Scene scene;

    private Subject(Point at) {
      this.at = at;
      scene = scenery.before(at, 0, 0, List.of());
    }

    /** How much of the sun's disc the subject's eyes see, in [0, 1]. */
    public double share(SunDirection sun) {
      Sky sky = new Sky(sun.azimuth().trueDeg(), sun.apparentAltitudeDeg(), CLEAR);
      double eyeUp = town.floorUp(at) + LineOfSight.EYE_HEIGHT_M;
      return new Tracer(scene, sky, season, map, Outfit.CREAM)
          .sunShare(new Vec3(at.east(), at.north(), eyeUp), RAYS, 1);
    }
  }

  /** Stands a subject somewhere. */
  public Subject subject(Point at) {
    return new Subject(at);
  }
}
