package org.lightledger.store;

import java.nio.file.Path;
import org.lightledger.geo.GeoPoint;
import org.lightledger.map.FeatureKind;
import org.lightledger.map.MapBox;
import org.lightledger.map.MapFeature;
import org.lightledger.map.MapObstruction;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;

/** Maps to store. */
public final class MapSamples {
  /** The side of a house, degrees. */
  public static final double SIDE_DEG = 0.0001;

  private static final GeometryFactory FACTORY = new GeometryFactory();
  private static final GeoPoint MILL = new GeoPoint(41.95, -6.61);

  private MapSamples() {}

  /** A square house, its south-western corner at a place. */
  public static Obstruction house(String id, GeoPoint corner, double heightM) {
    return new Obstruction(
        id,
        ObstructionKind.BUILDING,
        FACTORY.toGeometry(
            new Envelope(
                corner.longitudeDeg(),
                corner.longitudeDeg() + SIDE_DEG,
                corner.latitudeDeg(),
                corner.latitudeDeg() + SIDE_DEG)),
        heightM,
        0.0,
        HeightSource.GIVEN,
        null);
  }

  /** A map of two houses, a street, a pond and a village. */
  public static StoredMap add(LedgerSession session, long number) {
    return session
        .maps()
        .add(
            Path.of("village.osm"),
            Samples.sha256(number),
            "ODbL",
            new MapBox(-6.62, 41.94, -6.60, 41.96),
            Samples.NOW,
            sink -> {
              sink.obstruction(new MapObstruction(house("way/1", MILL, 9), "Mill"));
              sink.obstruction(
                  new MapObstruction(house("way/2", new GeoPoint(41.951, -6.61), 6), null));
              sink.feature(
                  new MapFeature(
                      "way/3",
                      FeatureKind.MINOR_ROAD,
                      "Calle Mayor",
                      0,
                      FACTORY.createLineString(
                          new Coordinate[] {
                            new Coordinate(-6.615, 41.9495), new Coordinate(-6.605, 41.9495)
                          })));
              sink.feature(
                  new MapFeature(
                      "way/4",
                      FeatureKind.WATER,
                      null,
                      0,
                      FACTORY.toGeometry(new Envelope(-6.615, -6.614, 41.952, 41.953))));
              sink.feature(
                  new MapFeature(
                      "node/5",
                      FeatureKind.VILLAGE,
                      "Aldea",
                      0,
                      FACTORY.createPoint(new Coordinate(-6.608, 41.953))));
              return 4;
            });
  }
}
