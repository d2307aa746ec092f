package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.HexFormat;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.store.GeoPackageGeometry.Bound;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.io.ByteOrderValues;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKBWriter;
import org.locationtech.jts.io.WKTReader;

class GeoPackageGeometryTest {

  /** GDAL 3.6 writes these bytes for POINT (1 2). */
  private static final String POINT_1_2 =
      "47500001e61000000101000000000000000000f03f0000000000000040";

  @Test
  void aPointIsWrittenByteForByteAsOtherProgramsWriteIt() {
    assertThat(HexFormat.of().formatHex(GeoPackageGeometry.write(new GeoPoint(2, 1))))
        .isEqualTo(POINT_1_2);
  }

  @Property
  void everyPointComesBack(
      @ForAll @DoubleRange(min = -90, max = 90) double latitude,
      @ForAll @DoubleRange(min = -180, max = 180) double longitude) {
    GeoPoint point = new GeoPoint(latitude, longitude);
    byte[] blob = GeoPackageGeometry.write(point);
    assertThat(GeoPackageGeometry.readPoint(blob)).isEqualTo(point);
    Geometry geometry = GeoPackageGeometry.read(blob);
    assertThat(geometry.getCoordinate().x).isEqualTo(longitude);
    assertThat(geometry.getCoordinate().y).isEqualTo(latitude);
    assertThat(GeoPackageGeometry.isEmpty(blob)).isFalse();
    assertThat(GeoPackageGeometry.bound(blob, Bound.MIN_X)).isEqualTo(longitude);
    assertThat(GeoPackageGeometry.bound(blob, Bound.MAX_X)).isEqualTo(longitude);
    assertThat(GeoPackageGeometry.bound(blob, Bound.MIN_Y)).isEqualTo(latitude);
    assertThat(GeoPackageGeometry.bound(blob, Bound.MAX_Y)).isEqualTo(latitude);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "LINESTRING (-6.5 41, -6.25 42.5)",
        "POLYGON ((0 0, 4 0, 4 3, 0 0), (1 0.25, 2 0.25, 2 0.5, 1 0.25))",
        "MULTIPOLYGON (((0 0, 1 0, 1 1, 0 0)), ((5 5, 6 5, 6 7, 5 5)))"
      })
  void everyOtherGeometryComesBackWithItsEnvelope(String text) throws ParseException {
    Geometry geometry = new WKTReader().read(text);
    byte[] blob = GeoPackageGeometry.write(geometry);
    assertThat(GeoPackageGeometry.read(blob).equalsExact(geometry)).isTrue();
    assertThat(GeoPackageGeometry.isEmpty(blob)).isFalse();
    assertEnvelope(blob, geometry);
  }

  @Test
  void anEnvelopeIsFoundInTheHeaderOrWorkedOut() throws ParseException {
    Geometry geometry = new WKTReader().read("LINESTRING (-6.5 41, -6.25 42.5)");
    byte[] little = new WKBWriter(2, ByteOrderValues.LITTLE_ENDIAN).write(geometry);
    byte[] big = new WKBWriter(2, ByteOrderValues.BIG_ENDIAN).write(geometry);
    double[] xyz = {-6.5, -6.25, 41, 42.5, 1, 2};
    double[] xyzm = {-6.5, -6.25, 41, 42.5, 1, 2, 3, 4};
    assertEnvelope(blob(1, ByteOrder.LITTLE_ENDIAN, new double[0], little), geometry);
    assertEnvelope(blob(0, ByteOrder.BIG_ENDIAN, new double[0], big), geometry);
    assertEnvelope(blob(1 | 2 << 1, ByteOrder.LITTLE_ENDIAN, xyz, little), geometry);
    assertEnvelope(blob(3 << 1, ByteOrder.BIG_ENDIAN, xyz, big), geometry);
    assertEnvelope(blob(4 << 1, ByteOrder.BIG_ENDIAN, xyzm, little), geometry);
  }

  @Test
  void aPointOfEitherByteOrderIsRead() {
    byte[] wkb =
        new WKBWriter(2, ByteOrderValues.BIG_ENDIAN)
            .write(new GeometryFactory().createPoint(new Coordinate(1, 2)));
    byte[] blob = blob(0, ByteOrder.BIG_ENDIAN, new double[0], wkb);
    assertThat(GeoPackageGeometry.readPoint(blob)).isEqualTo(new GeoPoint(2, 1));
    assertThat(GeoPackageGeometry.bound(blob, Bound.MAX_Y)).isEqualTo(2.0);
  }

  @ParameterizedTest
  @ValueSource(strings = {"POINT EMPTY", "LINESTRING EMPTY", "POLYGON EMPTY"})
  void anEmptyGeometryIsEmptyAndHasNoEnvelope(String text) throws ParseException {
    byte[] blob = GeoPackageGeometry.write(new WKTReader().read(text));
    assertThat(GeoPackageGeometry.isEmpty(blob)).isTrue();
    assertThat(GeoPackageGeometry.read(blob).isEmpty()).isTrue();
    for (Bound bound : Bound.values()) {
      assertThat(GeoPackageGeometry.bound(blob, bound)).isNull();
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "47", "00000001e6100000", "4750000be61000000101000000", "47500001e6"})
  void whatIsNoGeometryIsSaidToBeNone(String hex) {
    byte[] blob = HexFormat.of().parseHex(hex);
    assertThat(GeoPackageGeometry.isEmpty(blob)).isNull();
    assertThat(GeoPackageGeometry.bound(blob, Bound.MIN_X)).isNull();
    assertThatThrownBy(() -> GeoPackageGeometry.readPoint(blob))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("expected a GeoPackage point");
    assertThatThrownBy(() -> GeoPackageGeometry.read(blob))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("expected a GeoPackage geometry");
  }

  @ParameterizedTest
  @EnumSource(Bound.class)
  void damagedBinaryIsRefused(Bound bound) {
    byte[] blob = HexFormat.of().parseHex("47500001e6100000" + "01020000000a000000");
    assertThatThrownBy(() -> GeoPackageGeometry.bound(blob, bound))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("found damage");
  }

  private static void assertEnvelope(byte[] blob, Geometry geometry) {
    var envelope = geometry.getEnvelopeInternal();
    assertThat(GeoPackageGeometry.bound(blob, Bound.MIN_X)).isEqualTo(envelope.getMinX());
    assertThat(GeoPackageGeometry.bound(blob, Bound.MAX_X)).isEqualTo(envelope.getMaxX());
    assertThat(GeoPackageGeometry.bound(blob, Bound.MIN_Y)).isEqualTo(envelope.getMinY());
    assertThat(GeoPackageGeometry.bound(blob, Bound.MAX_Y)).isEqualTo(envelope.getMaxY());
  }

  private static byte[] blob(int flags, ByteOrder order, double[] envelope, byte[] wkb) {
    ByteBuffer out =
        ByteBuffer.allocate(8 + envelope.length * Double.BYTES + wkb.length).order(order);
    out.put((byte) 'G').put((byte) 'P').put((byte) 0).put((byte) flags).putInt(4326);
    for (double value : envelope) {
      out.putDouble(value);
    }
    return out.put(wkb).array();
  }
}
