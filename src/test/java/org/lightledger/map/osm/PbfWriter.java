package org.lightledger.map.osm;

import com.google.protobuf.ByteString;
import com.google.protobuf.MessageLite;
import crosby.binary.Fileformat;
import crosby.binary.Osmformat;
import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.lightledger.map.MapBox;

/**
 * Writes any extract as PBF with blocks that are not packed, so that damage reaches their inside.
 */
final class PbfWriter {
  private static final double GRANULES_PER_DEGREE = 1e7;

  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
  private final DataOutputStream out = new DataOutputStream(bytes);
  private final Osmformat.HeaderBlock.Builder header =
      Osmformat.HeaderBlock.newBuilder().addRequiredFeatures("OsmSchema-V0.6");
  private final List<String> texts = new ArrayList<>(List.of(""));
  private final Osmformat.PrimitiveGroup.Builder nodes = Osmformat.PrimitiveGroup.newBuilder();
  private final Osmformat.PrimitiveGroup.Builder ways = Osmformat.PrimitiveGroup.newBuilder();
  private final Osmformat.PrimitiveGroup.Builder relations = Osmformat.PrimitiveGroup.newBuilder();
  private long lastId;
  private long lastLatitude;
  private long lastLongitude;

  private PbfWriter() {}

  static byte[] of(Path extract) throws IOException {
    PbfWriter writer = new PbfWriter();
    for (OsmVisitor.Part part : OsmVisitor.Part.values()) {
      new OsmFile(extract).read(writer.new Copy(part));
    }
    writer.block("OSMHeader", writer.header.addRequiredFeatures("DenseNodes").build());
    Osmformat.StringTable.Builder table = Osmformat.StringTable.newBuilder();
    writer.texts.forEach(text -> table.addS(ByteString.copyFromUtf8(text)));
    writer.block(
        "OSMData",
        Osmformat.PrimitiveBlock.newBuilder()
            .setStringtable(table)
            .addPrimitivegroup(writer.nodes)
            .addPrimitivegroup(writer.ways)
            .addPrimitivegroup(writer.relations)
            .build());
    return writer.bytes.toByteArray();
  }

  static byte[] requiring(String feature) throws IOException {
    PbfWriter writer = new PbfWriter();
    writer.block("OSMHeader", writer.header.addRequiredFeatures(feature).build());
    return writer.bytes.toByteArray();
  }

  static byte[] claiming(int unpackedBytes) throws IOException {
    PbfWriter writer = new PbfWriter();
    writer.blob(
        "OSMHeader",
        Fileformat.Blob.newBuilder()
            .setRawSize(unpackedBytes)
            .setZlibData(ByteString.copyFrom(new byte[9]))
            .build());
    return writer.bytes.toByteArray();
  }

  private void block(String type, MessageLite content) throws IOException {
    blob(type, Fileformat.Blob.newBuilder().setRaw(content.toByteString()).build());
  }

  private void blob(String type, Fileformat.Blob blob) throws IOException {
    Fileformat.BlobHeader head =
        Fileformat.BlobHeader.newBuilder()
            .setType(type)
            .setDatasize(blob.getSerializedSize())
            .build();
    out.writeInt(head.getSerializedSize());
    out.write(head.toByteArray());
    out.write(blob.toByteArray());
  }

  private int text(String text) {
    int index = texts.indexOf(text);
    if (index < 0) {
      texts.add(text);
      index = texts.size() - 1;
    }
    return index;
  }

  private final class Copy implements OsmVisitor {
    private final Part part;

    private Copy(Part part) {
      this.part = part;
    }

    @Override
    public Part part() {
      return part;
    }

    @Override
    public void bounds(MapBox box) {
      header.setBbox(
          Osmformat.HeaderBBox.newBuilder()
              .setLeft(Math.round(box.westDeg() * 1e9))
              .setRight(Math.round(box.eastDeg() * 1e9))
              .setTop(Math.round(box.northDeg() * 1e9))
              .setBottom(Math.round(box.southDeg() * 1e9)));
    }

    @Override
    public void node(long id, double latitudeDeg, double longitudeDeg, Map<String, String> tags) {
      long latitude = Math.round(latitudeDeg * GRANULES_PER_DEGREE);
      long longitude = Math.round(longitudeDeg * GRANULES_PER_DEGREE);
      Osmformat.DenseNodes.Builder dense = nodes.getDenseBuilder();
      dense.addId(id - lastId).addLat(latitude - lastLatitude).addLon(longitude - lastLongitude);
      tags.forEach((key, value) -> dense.addKeysVals(text(key)).addKeysVals(text(value)));
      dense.addKeysVals(0);
      lastId = id;
      lastLatitude = latitude;
      lastLongitude = longitude;
    }

    @Override
    public void way(long id, long[] nodeIds, Map<String, String> tags) {
      Osmformat.Way.Builder way = Osmformat.Way.newBuilder().setId(id);
      long last = 0;
      for (long node : nodeIds) {
        way.addRefs(node - last);
        last = node;
      }
      tags.forEach((key, value) -> way.addKeys(text(key)).addVals(text(value)));
      ways.addWays(way);
    }

    @Override
    public void relation(long id, List<Member> members, Map<String, String> tags) {
      Osmformat.Relation.Builder relation = Osmformat.Relation.newBuilder().setId(id);
      long last = 0;
      for (Member member : members) {
        relation
            .addMemids(member.wayId() - last)
            .addTypes(Osmformat.Relation.MemberType.WAY)
            .addRolesSid(text(member.role()));
        last = member.wayId();
      }
      tags.forEach((key, value) -> relation.addKeys(text(key)).addVals(text(value)));
      relations.addRelations(relation);
    }
  }
}
