package org.lightledger.map.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.map.FeatureKind;
import org.lightledger.map.MapBox;
import org.lightledger.map.MapContent;
import org.lightledger.map.MapFeature;
import org.lightledger.map.MapObstruction;
import org.lightledger.map.MapView;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;

/** What is drawn where, in a window whose middle is 48° N, 16° E. */
class MapPictureTest {
  private static final GeometryFactory FACTORY = new GeometryFactory();
  private static final MapBox REGION = new MapBox(15.99, 47.99, 16.01, 48.01);
  private static final MapView VIEW =
      MapView.of(new MapBox(15.998, 47.998, 16.002, 48.002), 400, 400, 17);

  private final List<MapFeature> features = new ArrayList<>();
  private final List<MapObstruction> obstructions = new ArrayList<>();

  private MapContent content(MapBox... regions) {
    return new MapContent(List.of(regions), features, obstructions);
  }

  private static Geometry square(double latitudeDeg, double longitudeDeg, double sideDeg) {
    return FACTORY.toGeometry(
        new Envelope(
            longitudeDeg - sideDeg / 2,
            longitudeDeg + sideDeg / 2,
            latitudeDeg - sideDeg / 2,
            latitudeDeg + sideDeg / 2));
  }

  private static Geometry line(double... longitudeThenLatitudeDeg) {
    Coordinate[] places = new Coordinate[longitudeThenLatitudeDeg.length / 2];
    for (int i = 0; i < places.length; i++) {
      places[i] =
          new Coordinate(longitudeThenLatitudeDeg[2 * i], longitudeThenLatitudeDeg[2 * i + 1]);
    }
    return FACTORY.createLineString(places);
  }

  private void feature(FeatureKind kind, String name, int level, Geometry geometry) {
    features.add(new MapFeature("way/" + features.size(), kind, name, level, geometry));
  }

  private void house(Geometry outline) {
    obstructions.add(
        new MapObstruction(
            new Obstruction(
                "way/1", ObstructionKind.BUILDING, outline, 9, 0, HeightSource.GIVEN, null),
            null));
  }

  /** The colour at a place. */
  private static int at(BufferedImage picture, double latitudeDeg, double longitudeDeg, int scale) {
    return picture.getRGB(
        (int) (VIEW.xPx(longitudeDeg) * scale), (int) (VIEW.yPx(latitudeDeg) * scale));
  }

  @ParameterizedTest
  @EnumSource(MapLook.class)
  void waterHousesAndRoadsHaveTheirColoursAtEveryScale(MapLook look) {
    feature(FeatureKind.WATER, null, 0, square(48.001, 16.0, 0.001));
    feature(FeatureKind.MAJOR_ROAD, null, 0, line(15.99, 47.999, 16.01, 47.999));
    house(square(48.0, 16.001, 0.0005));
    for (int scale : new int[] {1, 2, 3}) {
      BufferedImage picture = MapPicture.draw(VIEW, content(REGION), look, scale);
      assertThat(picture.getWidth()).isEqualTo(400 * scale);
      assertThat(at(picture, 48.001, 16.0, scale)).isEqualTo(look.water.getRGB());
      assertThat(at(picture, 47.999, 16.0, scale)).isEqualTo(look.road.getRGB());
      assertThat(at(picture, 48.0, 16.001, scale)).isEqualTo(look.building.getRGB());
      assertThat(at(picture, 48.0, 15.999, scale)).isEqualTo(look.land.getRGB());
    }
  }

  @Test
  void aPondInAParkInAWoodIsSeen() {
    feature(FeatureKind.PARK, null, 0, square(48.0, 16.0, 0.003));
    feature(FeatureKind.WATER, null, 0, square(48.0, 16.0, 0.001));
    feature(FeatureKind.GRASS, null, 0, square(48.0, 15.999, 0.0005));
    BufferedImage picture = MapPicture.draw(VIEW, content(REGION), MapLook.LIGHT, 1);

    assertThat(at(picture, 48.0, 16.0, 1)).isEqualTo(MapLook.LIGHT.water.getRGB());
    assertThat(at(picture, 48.0, 15.999, 1)).isEqualTo(MapLook.LIGHT.grass.getRGB());
    assertThat(at(picture, 48.001, 16.001, 1)).isEqualTo(MapLook.LIGHT.park.getRGB());
  }

  @Test
  void aBridgeLiesOverAHouseAndATunnelUnderIt() {
    house(square(48.0, 16.0, 0.001));
    feature(FeatureKind.MINOR_ROAD, null, -1, line(15.99, 48.0, 16.01, 48.0));
    BufferedImage under = MapPicture.draw(VIEW, content(REGION), MapLook.LIGHT, 1);
    feature(FeatureKind.MINOR_ROAD, null, 1, line(15.99, 48.0, 16.01, 48.0));
    BufferedImage over = MapPicture.draw(VIEW, content(REGION), MapLook.LIGHT, 1);

    assertThat(at(under, 48.0, 16.0, 1)).isEqualTo(MapLook.LIGHT.building.getRGB());
    assertThat(at(over, 48.0, 16.0, 1)).isEqualTo(MapLook.LIGHT.road.getRGB());
  }

  @Test
  void outsideOfTheRegionNothingIsDrawn() {
    feature(FeatureKind.MAJOR_ROAD, "Long Road", 0, line(15.9, 48.0, 16.1, 48.0));
    MapBox west = new MapBox(15.99, 47.99, 16.0, 48.01);
    BufferedImage picture = MapPicture.draw(VIEW, content(west), MapLook.LIGHT, 1);

    for (int x = 0; x < 400; x++) {
      for (int y = 0; y < 400; y++) {
        int alpha = picture.getRGB(x, y) >>> 24;
        if (x < VIEW.xPx(16.0) - 1) {
          assertThat(alpha).isEqualTo(255);
        } else if (x > VIEW.xPx(16.0) + 1) {
          assertThat(alpha).isZero();
        }
      }
    }
  }

  @Test
  void namesAreWrittenWhollyInside() {
    BufferedImage silent = withName(null);
    BufferedImage spoken = withName("Calle Mayor");
    int changed = 0;
    for (int x = 0; x < 400; x++) {
      for (int y = 0; y < 400; y++) {
        if (silent.getRGB(x, y) != spoken.getRGB(x, y)) {
          assertThat(x).isBetween(1, 398);
          assertThat(y).isBetween(1, 398);
          changed++;
        }
      }
    }
    assertThat(changed).isGreaterThan(200);
  }

  private BufferedImage withName(String name) {
    features.clear();
    feature(FeatureKind.MINOR_ROAD, name, 0, line(15.99, 48.0, 16.01, 48.0));
    return MapPicture.draw(VIEW, content(REGION), MapLook.LIGHT, 1);
  }

  @Test
  void aNameThatIsLongerThanItsStreetIsNotWritten() {
    features.clear();
    feature(FeatureKind.MINOR_ROAD, null, 0, line(15.9999, 48.0, 16.0001, 48.0));
    int[] silent = pixels(MapPicture.draw(VIEW, content(REGION), MapLook.LIGHT, 1));
    features.clear();
    feature(
        FeatureKind.MINOR_ROAD,
        "Calle del Arquitecto Ventura Rodríguez",
        0,
        line(15.9999, 48.0, 16.0001, 48.0));

    assertThat(pixels(MapPicture.draw(VIEW, content(REGION), MapLook.LIGHT, 1))).isEqualTo(silent);
  }

  @Test
  void theSameContentGivesTheSamePictureWhateverTheLocale() {
    feature(FeatureKind.TOWN, "İstanbul", 0, FACTORY.createPoint(new Coordinate(16.0, 48.001)));
    feature(FeatureKind.PATH, null, 0, line(15.99, 47.99, 16.01, 48.01));
    feature(FeatureKind.RAIL, null, 0, line(15.99, 48.01, 16.01, 47.99));
    int[] first = pixels(MapPicture.draw(VIEW, content(REGION), MapLook.DARK, 1));
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag("tr-TR"));
      assertThat(pixels(MapPicture.draw(VIEW, content(REGION), MapLook.DARK, 1))).isEqualTo(first);
    } finally {
      Locale.setDefault(before);
    }
  }

  private static int[] pixels(BufferedImage picture) {
    return picture.getRGB(
        0, 0, picture.getWidth(), picture.getHeight(), null, 0, picture.getWidth());
  }
}
