package org.lightledger.shot.zone;

import com.github.luben.zstd.ZstdInputStream;
import com.google.protobuf.CodedInputStream;
import com.google.protobuf.WireFormat;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.lang.ref.SoftReference;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import net.iakovlev.timeshape.TimeZoneEngine;
import net.iakovlev.timeshape.proto.Geojson;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;

/**
 * Reads the zone map that timeshape carries (timezone-boundary-builder's "with oceans" release,
 * OpenStreetMap data under the ODbL).
 *
 * <p>timeshape's own engine builds an object per corner: measured on two cores, 2 to 2.7 s and up
 * to 1 GB of memory to load, and half a millisecond per question. The same eight million corners as
 * plain float arrays take a fraction of that, so the map is decoded here, straight from its
 * protocol buffers, with the field numbers of timeshape's own schema.
 */
final class ZoneShapeData {
  private static final String RESOURCE = "/data.tar.zstd";

  /** The map never changes and takes some sixty megabytes: all who ask share one. */
  private static SoftReference<List<ZoneShape>> kept = new SoftReference<>(null);

  private ZoneShapeData() {}

  /** The shapes; they are loaded when nobody holds them. */
  static synchronized List<ZoneShape> shared() {
    List<ZoneShape> shapes = kept.get();
    if (shapes == null) {
      shapes = load();
      kept = new SoftReference<>(shapes);
    }
    return shapes;
  }

  /** Loads the shapes anew. */
  static List<ZoneShape> load() {
    try (InputStream resource = TimeZoneEngine.class.getResourceAsStream(RESOURCE)) {
      if (resource == null) {
        throw new IllegalStateException("the program lacks its zone map " + RESOURCE);
      }
      List<ZoneShape> shapes = new ArrayList<>();
      TarArchiveInputStream tar =
          new TarArchiveInputStream(new BufferedInputStream(new ZstdInputStream(resource)));
      for (TarArchiveEntry entry = tar.getNextEntry(); entry != null; entry = tar.getNextEntry()) {
        byte[] feature = tar.readNBytes(Math.toIntExact(entry.getSize()));
        shapes.add(feature(CodedInputStream.newInstance(feature)));
      }
      return List.copyOf(shapes);
    } catch (IOException e) {
      throw new UncheckedIOException("the program's zone map can not be read", e);
    }
  }

  private static ZoneShape feature(CodedInputStream in) throws IOException {
    String name = "";
    List<ZoneShape.Ring> rings = new ArrayList<>();
    for (int tag = in.readTag(); tag != 0; tag = in.readTag()) {
      switch (WireFormat.getTagFieldNumber(tag)) {
        case Geojson.Feature.GEOMETRY_FIELD_NUMBER -> nested(in, () -> geometry(in, rings));
        case Geojson.Feature.PROPERTIES_FIELD_NUMBER -> {
          Geojson.Property property = Geojson.Property.parseFrom(in.readByteArray());
          if (property.getKey().equals("tzid")) {
            name = property.getValueString();
          }
        }
        default -> in.skipField(tag);
      }
    }
    if (name.isEmpty() || rings.isEmpty()) {
      throw new IOException("the zone map has an entry without a name or an area");
    }
    return new ZoneShape(name, rings);
  }

  private static void geometry(CodedInputStream in, List<ZoneShape.Ring> rings) throws IOException {
    for (int tag = in.readTag(); tag != 0; tag = in.readTag()) {
      switch (WireFormat.getTagFieldNumber(tag)) {
        case Geojson.Geometry.POLYGON_FIELD_NUMBER -> nested(in, () -> polygon(in, rings));
        case Geojson.Geometry.MULTIPOLYGON_FIELD_NUMBER ->
            nested(in, () -> multiPolygon(in, rings));
        default -> in.skipField(tag);
      }
    }
  }

  private static void multiPolygon(CodedInputStream in, List<ZoneShape.Ring> rings)
      throws IOException {
    for (int tag = in.readTag(); tag != 0; tag = in.readTag()) {
      nested(in, () -> polygon(in, rings));
    }
  }

  private static void polygon(CodedInputStream in, List<ZoneShape.Ring> rings) throws IOException {
    for (int tag = in.readTag(); tag != 0; tag = in.readTag()) {
      nested(in, () -> rings.add(ring(in)));
    }
  }

  private static ZoneShape.Ring ring(CodedInputStream in) throws IOException {
    float[] longitudes = new float[256];
    float[] latitudes = new float[256];
    int count = 0;
    for (int tag = in.readTag(); tag != 0; tag = in.readTag()) {
      if (count == longitudes.length) {
        longitudes = Arrays.copyOf(longitudes, count * 2);
        latitudes = Arrays.copyOf(latitudes, count * 2);
      }
      int outer = in.pushLimit(in.readRawVarint32());
      for (int field = in.readTag(); field != 0; field = in.readTag()) {
        switch (WireFormat.getTagFieldNumber(field)) {
          case Geojson.Position.LON_FIELD_NUMBER -> longitudes[count] = in.readFloat();
          case Geojson.Position.LAT_FIELD_NUMBER -> latitudes[count] = in.readFloat();
          default -> in.skipField(field);
        }
      }
      in.popLimit(outer);
      count++;
    }
    return new ZoneShape.Ring(Arrays.copyOf(longitudes, count), Arrays.copyOf(latitudes, count));
  }

  private interface Part {
    void read() throws IOException;
  }

  private static void nested(CodedInputStream in, Part part) throws IOException {
    int outer = in.pushLimit(in.readRawVarint32());
    part.read();
    in.popLimit(outer);
  }
}
