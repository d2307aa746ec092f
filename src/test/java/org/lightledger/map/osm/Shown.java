package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.List;
import org.lightledger.map.FeatureKind;
import org.lightledger.map.MapFeature;
import org.lightledger.map.MapObstruction;
import org.lightledger.map.MapSink;
import org.lightledger.skyline.buildings.ObstructionKind;

/** Keeps what an extract shows. */
final class Shown implements MapSink {
  final List<MapObstruction> obstructions = new ArrayList<>();
  final List<MapFeature> features = new ArrayList<>();

  static Shown of(OsmExtract extract) {
    Shown shown = new Shown();
    extract.show(shown);
    return shown;
  }

  @Override
  public void obstruction(MapObstruction obstruction) {
    obstructions.add(obstruction);
  }

  @Override
  public void feature(MapFeature feature) {
    features.add(feature);
  }

  long count(ObstructionKind kind) {
    return obstructions.stream().filter(found -> found.obstruction().kind() == kind).count();
  }

  long count(FeatureKind kind) {
    return features.stream().filter(found -> found.kind() == kind).count();
  }

  MapObstruction obstruction(String sourceId) {
    return obstructions.stream()
        .filter(found -> found.obstruction().id().equals(sourceId))
        .findFirst()
        .orElseThrow(() -> new AssertionError("expected " + sourceId + ", found " + obstructions));
  }

  MapFeature feature(String sourceId) {
    return features.stream()
        .filter(found -> found.sourceId().equals(sourceId))
        .findFirst()
        .orElseThrow(() -> new AssertionError("expected " + sourceId + ", found " + features));
  }
}
