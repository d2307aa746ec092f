package org.lightledger.skyline.buildings;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.Ground;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.index.strtree.STRtree;

/**
 * Buildings and trees of a region, ready to be looked at from any place. Immutable; safe for use by
 * several threads.
 */
public final class Obstructions {
  private final STRtree index = new STRtree();
  private final @Nullable Ground ground;
  private final double highestM;

  private Obstructions(List<Obstruction> obstructions, @Nullable Ground ground) {
    this.ground = ground;
    for (Obstruction obstruction : obstructions) {
      index.insert(obstruction.outline().getEnvelopeInternal(), Outline.of(obstruction, ground));
    }
    index.build();
    highestM = obstructions.stream().mapToDouble(Obstruction::heightM).max().orElse(0.0);
  }

  /**
   * Prepares obstructions.
   *
   * @param obstructions all of them
   * @param ground how high the ground is, under them and under places to look from; without it, and
   *     where it does not know, ground is taken to be level
   * @return them, indexed
   */
  public static Obstructions of(List<Obstruction> obstructions, @Nullable Ground ground) {
    return new Obstructions(obstructions, ground);
  }

  /**
   * How many there are.
   *
   * @return the number
   */
  public int size() {
    return index.size();
  }

  /**
   * Looks around.
   *
   * @param place where one stands
   * @param options how to look
   * @return what stands above the ground there
   */
  public BuildingHorizon around(GeoPoint place, BuildingOptions options) {
    LocalPlane plane = new LocalPlane(place);
    OptionalDouble here = ground == null ? OptionalDouble.empty() : ground.groundM(place);
    EdgeProjection projection = new EdgeProjection(plane, options);
    List<Obstruction> inside = new ArrayList<>();
    for (Outline outline : near(place, plane, options.rangeM())) {
      double risesM =
          here.isPresent() && !Double.isNaN(outline.groundM())
              ? outline.groundM() - here.getAsDouble()
              : 0.0;
      if (!projection.add(outline, risesM)) {
        inside.add(outline.obstruction());
      }
    }
    inside.sort(Comparator.comparing(Obstruction::id));
    return projection.horizon(inside);
  }

  /** The highest top above its ground, metres; 0 when there are none. */
  double highestM() {
    return highestM;
  }

  private List<Outline> near(GeoPoint place, LocalPlane plane, double rangeM) {
    double highDeg = plane.latitudeDeg(rangeM);
    double wideDeg = plane.longitudeDeg(rangeM);
    return near(
        new Envelope(
            place.longitudeDeg() - wideDeg,
            place.longitudeDeg() + wideDeg,
            place.latitudeDeg() - highDeg,
            place.latitudeDeg() + highDeg));
  }

  /** What may touch a box of longitudes and latitudes, on whichever side of the date line. */
  List<Outline> near(Envelope box) {
    List<Outline> near = new ArrayList<>();
    for (double turnDeg : new double[] {-360.0, 0.0, 360.0}) {
      Envelope turned = new Envelope(box);
      turned.translate(turnDeg, 0.0);
      index.query(turned, item -> near.add((Outline) item));
    }
    return near;
  }
}
