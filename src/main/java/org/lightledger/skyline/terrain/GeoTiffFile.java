package org.lightledger.skyline.terrain;

import java.awt.Rectangle;
import java.awt.image.Raster;
import java.io.IOException;
import java.nio.file.Path;
import org.apache.sis.coverage.SampleDimension;
import org.apache.sis.coverage.grid.GridCoverage;
import org.apache.sis.coverage.grid.GridExtent;
import org.apache.sis.coverage.grid.GridGeometry;
import org.apache.sis.coverage.grid.IncompleteGridGeometryException;
import org.apache.sis.coverage.grid.PixelInCell;
import org.apache.sis.referencing.CRS;
import org.apache.sis.referencing.CommonCRS;
import org.apache.sis.referencing.operation.transform.MathTransforms;
import org.apache.sis.storage.Aggregate;
import org.apache.sis.storage.DataStore;
import org.apache.sis.storage.DataStoreException;
import org.apache.sis.storage.GridCoverageResource;
import org.apache.sis.storage.Resource;
import org.apache.sis.storage.StorageConnector;
import org.apache.sis.storage.geotiff.GeoTiffStoreProvider;
import org.opengis.referencing.crs.CoordinateReferenceSystem;
import org.opengis.referencing.operation.MathTransform;
import org.opengis.referencing.operation.TransformException;
import org.opengis.util.FactoryException;

/**
 * The first image of a GeoTIFF as posts at the centres of its pixels, read by Apache SIS. Whole or
 * broken numbers, plain or compressed, in a geographic or projected system.
 *
 * @param file where
 * @param cols columns of posts
 * @param rows rows of posts
 * @param system the reference system
 * @param gridToSystem from column and row to coordinates
 * @param placeToGrid from WGS 84 latitude and longitude to column and row
 */
record GeoTiffFile(
    Path file,
    int cols,
    int rows,
    CoordinateReferenceSystem system,
    MathTransform gridToSystem,
    MathTransform placeToGrid) {

  /** No land or sea floor is lower or higher, metres; what is beyond is a mark of void. */
  private static final float LOWEST_M = -12_000f;

  private static final float HIGHEST_M = 9_000f;

  /** Reads where the posts are, not their heights. */
  static GeoTiffFile open(Path file) throws IOException {
    try (DataStore store = store(file)) {
      GridGeometry grid = image(file, store).getGridGeometry();
      GridExtent extent = grid.getExtent();
      CoordinateReferenceSystem system = grid.getCoordinateReferenceSystem();
      MathTransform gridToSystem = grid.getGridToCRS(PixelInCell.CELL_CENTER);
      MathTransform placeToSystem =
          CRS.findOperation(CommonCRS.WGS84.geographic(), system, null).getMathTransform();
      if (extent.getDimension() != 2 || gridToSystem.getTargetDimensions() != 2) {
        throw new ElevationFileException(
            file.getFileName() + ": expected an image with two axes, found " + extent);
      }
      return new GeoTiffFile(
          file,
          Math.toIntExact(extent.getSize(0)),
          Math.toIntExact(extent.getSize(1)),
          system,
          gridToSystem,
          MathTransforms.concatenate(placeToSystem, gridToSystem.inverse()));
    } catch (IncompleteGridGeometryException e) {
      throw new ElevationFileException(
          file.getFileName()
              + ": its reference system is missing or not known here; convert it to longitude and"
              + " latitude on WGS 84 (EPSG:4326) or to UTM, for example with gdalwarp -t_srs"
              + " EPSG:4326",
          e);
    } catch (DataStoreException | FactoryException | TransformException e) {
      throw unreadable(file, e);
    }
  }

  /** Copies a rectangle of heights; the rectangle lies within the image. */
  void read(int col, int row, int width, int height, float[] into, int at, int stride)
      throws IOException {
    try (DataStore store = store(file)) {
      GridCoverageResource image = image(file, store);
      GridExtent wanted =
          new GridExtent(
              null, new long[] {col, row}, new long[] {col + width - 1L, row + height - 1L}, true);
      GridGeometry part = image.getGridGeometry().derive().subgrid(wanted).build();
      GridCoverage coverage = image.read(part, 0).forConvertedValues(true);
      SampleDimension heights = coverage.getSampleDimensions().get(0);
      float mark =
          image
              .getSampleDimensions()
              .get(0)
              .getBackground()
              .map(Number::floatValue)
              .orElse(heights.getBackground().map(Number::floatValue).orElse(Posts.VOID));
      Raster raster = coverage.render(wanted).getData(new Rectangle(0, 0, width, height));
      float[] line = new float[width];
      for (int y = 0; y < height; y++) {
        raster.getSamples(0, y, width, 1, 0, line);
        for (int x = 0; x < width; x++) {
          boolean known = line[x] != mark && line[x] > LOWEST_M && line[x] < HIGHEST_M;
          into[at + y * stride + x] = known ? line[x] : Posts.VOID;
        }
      }
    } catch (DataStoreException e) {
      throw unreadable(file, e);
    }
  }

  private static DataStore store(Path file) throws DataStoreException {
    return new GeoTiffStoreProvider().open(new StorageConnector(file));
  }

  private static GridCoverageResource image(Path file, DataStore store)
      throws DataStoreException, ElevationFileException {
    if (store instanceof Aggregate images) {
      for (Resource resource : images.components()) {
        if (resource instanceof GridCoverageResource image) {
          return image;
        }
      }
    }
    throw new ElevationFileException(file.getFileName() + ": expected a GeoTIFF with an image");
  }

  private static ElevationFileException unreadable(Path file, Exception cause) {
    return new ElevationFileException(
        file.getFileName()
            + ": can not be read as a GeoTIFF ("
            + cause.getMessage()
            + "); save it without a floating-point predictor and in a common system, for example"
            + " with gdal_translate -co COMPRESS=DEFLATE -co PREDICTOR=1",
        cause);
  }
}
