package org.lightledger.scenario.region;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.stream.Stream;
import org.apache.sis.referencing.CRS;
import org.apache.sis.referencing.CommonCRS;
import org.lightledger.geo.GeoPoint;
import org.lightledger.scenario.Brezaluz;
import org.lightledger.scenario.LocalFrame;
import org.opengis.referencing.operation.MathTransform;
import org.opengis.referencing.operation.TransformException;
import org.opengis.util.FactoryException;

/**
 * Writes what one would fetch about the invented town's region: elevation files and a map extract.
 * Always the same files.
 *
 * <p>Argument: the folder, default {@code sample-photos/region}.
 */
public final class WriteSampleRegion {
  /** Three arc seconds over all land that a ray from the town can see, and beyond. */
  static final String WIDE = "brezaluz-land-90m.tif";

  /** One arc second over the hills around. */
  static final String NEAR = "brezaluz-hills-30m.tif";

  /** Five metres over the town, in UTM as a survey would give it. */
  static final String TOWN = "brezaluz-town-5m.tif";

  /** The map extract. */
  static final String EXTRACT = "brezaluz-town.osm.gz";

  private static final int WGS_84 = 4326;
  private static final int UTM_29_NORTH = 32629;

  private WriteSampleRegion() {}

  /** Writes all. */
  public static void main(String[] args) throws IOException {
    Path folder = Path.of(args.length > 0 ? args[0] : "sample-photos/region");
    write(folder);
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.sorted().toList()) {
        System.out.printf(Locale.ROOT, "%s %d%n", file.getFileName(), Files.size(file));
      }
    }
  }

  /** Writes all files into a folder. */
  public static void write(Path folder) throws IOException {
    Files.createDirectories(folder);
    Brezaluz town = Brezaluz.model();
    RegionLand land = new RegionLand(town.terrain());
    ElevationTiff.write(
        folder.resolve(WIDE),
        arcSeconds(3, 0.47, 0.63),
        ElevationTiff.Sample.WHOLE_METRES,
        (x, y) -> land.elevationM(new GeoPoint(y, x)));
    ElevationTiff.write(
        folder.resolve(NEAR),
        arcSeconds(1, 0.1, 0.135),
        ElevationTiff.Sample.WHOLE_METRES,
        (x, y) -> land.elevationM(new GeoPoint(y, x)));
    townTile(folder.resolve(TOWN), land);
    new TownMap(town).draw().write(folder.resolve(EXTRACT));
  }

  /** A grid around the town whose posts fall on whole arc seconds. */
  private static ElevationTiff.Grid arcSeconds(int step, double halfHighDeg, double halfWideDeg) {
    int perDegree = 3600 / step;
    int rows = (int) Math.round(2 * halfHighDeg * perDegree) + 1;
    int cols = (int) Math.round(2 * halfWideDeg * perDegree) + 1;
    long north = Math.round((LocalFrame.origin().latitudeDeg() + halfHighDeg) * perDegree);
    long west = Math.round((LocalFrame.origin().longitudeDeg() - halfWideDeg) * perDegree);
    return new ElevationTiff.Grid(
        WGS_84, west / (double) perDegree, north / (double) perDegree, 1.0 / perDegree, cols, rows);
  }

  private static void townTile(Path file, RegionLand land) throws IOException {
    try {
      MathTransform toUtm =
          CRS.findOperation(
                  CommonCRS.WGS84.geographic(),
                  CommonCRS.WGS84.universal(
                      LocalFrame.origin().latitudeDeg(), LocalFrame.origin().longitudeDeg()),
                  null)
              .getMathTransform();
      MathTransform toPlace = toUtm.inverse();
      double[] middle = {LocalFrame.origin().latitudeDeg(), LocalFrame.origin().longitudeDeg()};
      toUtm.transform(middle, 0, middle, 0, 1);
      double west = Math.floor(middle[0] / 100) * 100 - 1000;
      double north = Math.floor(middle[1] / 100) * 100 + 1000;
      ElevationTiff.write(
          file,
          new ElevationTiff.Grid(UTM_29_NORTH, west, north, 5, 361, 341),
          ElevationTiff.Sample.SIXTEENTHS,
          (x, y) -> land.elevationM(place(toPlace, x, y)));
    } catch (FactoryException | TransformException e) {
      throw new IllegalStateException("the town can not be placed in UTM", e);
    }
  }

  private static GeoPoint place(MathTransform toPlace, double x, double y) {
    double[] place = {x, y};
    try {
      toPlace.transform(place, 0, place, 0, 1);
    } catch (TransformException e) {
      throw new IllegalStateException("a post can not be placed on the earth", e);
    }
    return new GeoPoint(place[0], place[1]);
  }
}
