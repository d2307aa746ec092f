package org.lightledger.store;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.ByteOrderValues;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKBReader;
import org.locationtech.jts.io.WKBWriter;

/**
 * Geometries as GeoPackage keeps them (OGC 12-128r17, clause 2.1.3): "GP", version 0, flags,
 * reference system 4326, an optional envelope, then well-known binary with x = longitude and y =
 * latitude. Points are written without an envelope, everything else with one.
 */
public final class GeoPackageGeometry {
  private static final int SRS_WGS84 = 4326;
  private static final int HEADER_BYTES = 8;
  private static final int LITTLE_ENDIAN = 1;
  private static final int EMPTY = 1 << 4;
  private static final int ENVELOPE_XY = 1 << 1;
  private static final int ENVELOPE_XY_BYTES = 4 * Double.BYTES;
  private static final int WKB_POINT = 1;
  private static final int POINT_BYTES = HEADER_BYTES + 1 + Integer.BYTES + 2 * Double.BYTES;

  private static final VarHandle LITTLE_INT = view(int[].class, ByteOrder.LITTLE_ENDIAN);
  private static final VarHandle BIG_INT = view(int[].class, ByteOrder.BIG_ENDIAN);
  private static final VarHandle LITTLE_DOUBLE = view(double[].class, ByteOrder.LITTLE_ENDIAN);
  private static final VarHandle BIG_DOUBLE = view(double[].class, ByteOrder.BIG_ENDIAN);

  private GeoPackageGeometry() {}

  /**
   * Writes a point.
   *
   * @param point the place
   * @return the blob, 29 bytes
   */
  public static byte[] write(GeoPoint point) {
    ByteBuffer out = ByteBuffer.allocate(POINT_BYTES).order(ByteOrder.LITTLE_ENDIAN);
    header(out, 0);
    out.put((byte) LITTLE_ENDIAN).putInt(WKB_POINT);
    out.putDouble(point.longitudeDeg()).putDouble(point.latitudeDeg());
    return out.array();
  }

  /**
   * Writes any geometry in two dimensions.
   *
   * @param geometry x is the longitude, y the latitude, degrees
   * @return the blob
   */
  public static byte[] write(Geometry geometry) {
    byte[] wkb = new WKBWriter(2, ByteOrderValues.LITTLE_ENDIAN).write(geometry);
    boolean empty = geometry.isEmpty();
    int headerBytes = HEADER_BYTES + (empty ? 0 : ENVELOPE_XY_BYTES);
    ByteBuffer out = ByteBuffer.allocate(headerBytes + wkb.length).order(ByteOrder.LITTLE_ENDIAN);
    header(out, empty ? EMPTY : ENVELOPE_XY);
    if (!empty) {
      Envelope envelope = geometry.getEnvelopeInternal();
      out.putDouble(envelope.getMinX()).putDouble(envelope.getMaxX());
      out.putDouble(envelope.getMinY()).putDouble(envelope.getMaxY());
    }
    return out.put(wkb).array();
  }

  /**
   * Reads a point.
   *
   * @param blob the blob
   * @return the place
   * @throws IllegalArgumentException when the blob is no point on the earth
   */
  public static GeoPoint readPoint(byte[] blob) {
    int start = wkbStart(blob);
    if (!isPoint(blob, start)) {
      throw new IllegalArgumentException(
          "expected a GeoPackage point, found " + blob.length + " bytes of something else");
    }
    return new GeoPoint(ordinate(blob, start, 1), ordinate(blob, start, 0));
  }

  /**
   * Reads any geometry.
   *
   * @param blob the blob
   * @return the geometry, x is the longitude, y the latitude, degrees
   * @throws IllegalArgumentException when the blob is no GeoPackage geometry
   */
  public static Geometry read(byte[] blob) {
    int start = wkbStart(blob);
    if (start < 0) {
      throw new IllegalArgumentException(
          "expected a GeoPackage geometry, found " + blob.length + " bytes of something else");
    }
    try {
      Geometry geometry = new WKBReader().read(Arrays.copyOfRange(blob, start, blob.length));
      geometry.setSRID(SRS_WGS84);
      return geometry;
    } catch (ParseException e) {
      throw new IllegalArgumentException(
          "expected well-known binary after the GeoPackage header, found damage", e);
    }
  }

  /** Whether the geometry is empty, or null when the blob is no GeoPackage geometry. */
  static @Nullable Boolean isEmpty(byte[] blob) {
    int start = wkbStart(blob);
    if (start < 0) {
      return null;
    }
    return (blob[3] & EMPTY) != 0
        || (isPoint(blob, start) && Double.isNaN(ordinate(blob, start, 0)));
  }

  /** One side of the envelope, or null when there is none. */
  static @Nullable Double bound(byte[] blob, Bound bound) {
    int start = wkbStart(blob);
    if (start < 0) {
      return null;
    }
    double value;
    if (start > HEADER_BYTES) {
      value =
          doubleAt(blob, HEADER_BYTES + Double.BYTES * bound.ordinal(), blob[3] & LITTLE_ENDIAN);
    } else if (isPoint(blob, start)) {
      value = ordinate(blob, start, bound.axis);
    } else {
      value = bound.of(read(blob).getEnvelopeInternal());
    }
    return Double.isNaN(value) ? null : value;
  }

  /** The sides of an envelope, in the order of the GeoPackage header. */
  enum Bound {
    MIN_X(0),
    MAX_X(0),
    MIN_Y(1),
    MAX_Y(1);

    private final int axis;

    Bound(int axis) {
      this.axis = axis;
    }

    private double of(Envelope envelope) {
      if (envelope.isNull()) {
        return Double.NaN;
      }
      return switch (this) {
        case MIN_X -> envelope.getMinX();
        case MAX_X -> envelope.getMaxX();
        case MIN_Y -> envelope.getMinY();
        case MAX_Y -> envelope.getMaxY();
      };
    }
  }

  private static VarHandle view(Class<?> array, ByteOrder order) {
    return MethodHandles.byteArrayViewVarHandle(array, order);
  }

  private static void header(ByteBuffer out, int flags) {
    out.put((byte) 'G').put((byte) 'P').put((byte) 0).put((byte) (LITTLE_ENDIAN | flags));
    out.putInt(SRS_WGS84);
  }

  /** Where the well-known binary starts, or -1 when the blob is no GeoPackage geometry. */
  private static int wkbStart(byte[] blob) {
    if (blob.length < HEADER_BYTES || blob[0] != 'G' || blob[1] != 'P') {
      return -1;
    }
    int start =
        switch ((blob[3] >> 1) & 7) {
          case 0 -> HEADER_BYTES;
          case 1 -> HEADER_BYTES + ENVELOPE_XY_BYTES;
          case 2, 3 -> HEADER_BYTES + 6 * Double.BYTES;
          case 4 -> HEADER_BYTES + 8 * Double.BYTES;
          default -> Integer.MAX_VALUE;
        };
    return start < blob.length ? start : -1;
  }

  private static boolean isPoint(byte[] blob, int start) {
    return start >= 0
        && blob.length == start + POINT_BYTES - HEADER_BYTES
        && intAt(blob, start + 1, blob[start]) == WKB_POINT;
  }

  private static double ordinate(byte[] blob, int start, int axis) {
    return doubleAt(blob, start + 1 + Integer.BYTES + axis * Double.BYTES, blob[start]);
  }

  private static int intAt(byte[] blob, int index, int order) {
    return (int) (order == 0 ? BIG_INT : LITTLE_INT).get(blob, index);
  }

  private static double doubleAt(byte[] blob, int index, int order) {
    return (double) (order == 0 ? BIG_DOUBLE : LITTLE_DOUBLE).get(blob, index);
  }
}
