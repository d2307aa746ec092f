package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;

class SearchBoxTest {

  @Property(tries = 20_000, edgeCases = EdgeCasesMode.NONE)
  void everyPlaceWithinTheDistanceIsInABox(
      @ForAll("places") GeoPoint centre,
      @ForAll @DoubleRange(max = 359.99) double bearingDeg,
      @ForAll("distances") double radiusM,
      @ForAll @DoubleRange(max = 1) double share) {
    GeoPoint place = Geodesy.destination(centre, new Bearing(bearingDeg), radiusM * share);
    List<SearchBox> boxes = SearchBox.around(centre, radiusM);
    assertThat(boxes).anyMatch(box -> holds(box, place));
    assertThat(boxes)
        .allMatch(box -> box.westDeg() <= box.eastDeg() && box.southDeg() <= box.northDeg())
        .allMatch(box -> box.westDeg() >= -180 && box.eastDeg() <= 180)
        .allMatch(box -> box.southDeg() >= -90 && box.northDeg() <= 90);
  }

  @Property
  void aBoxIsNotMuchLargerThanItMustBe(
      @ForAll @DoubleRange(min = -80, max = 80) double latitude,
      @ForAll @DoubleRange(min = 1, max = 50_000) double radiusM) {
    GeoPoint centre = new GeoPoint(latitude, 10);
    SearchBox box = SearchBox.around(centre, radiusM).get(0);
    double northM = Geodesy.distanceM(centre, new GeoPoint(box.northDeg(), 10));
    double eastM = Geodesy.distanceM(centre, new GeoPoint(latitude, box.eastDeg()));
    assertThat(northM).isBetween(radiusM, radiusM * 1.02);
    assertThat(eastM).isBetween(radiusM, radiusM * 1.10);
  }

  @Example
  void aDistanceThatIsNoneIsRefused() {
    for (double radiusM : new double[] {-1, Double.NaN}) {
      assertThatThrownBy(() -> SearchBox.around(new GeoPoint(0, 0), radiusM))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageContaining("expected a distance of 0 m or more, found " + radiusM);
    }
  }

  @Provide
  Arbitrary<GeoPoint> places() {
    Arbitrary<Double> latitudes =
        Arbitraries.oneOf(
            Arbitraries.doubles().between(-90, 90), Arbitraries.of(-90.0, -89.999, 89.999, 90.0));
    Arbitrary<Double> longitudes =
        Arbitraries.oneOf(
            Arbitraries.doubles().between(-180, 180),
            Arbitraries.of(-180.0, -179.999, 179.999, 180.0));
    return Combinators.combine(latitudes, longitudes).as(GeoPoint::new);
  }

  @Provide
  Arbitrary<Double> distances() {
    return Arbitraries.oneOf(
        Arbitraries.doubles().between(0, 100),
        Arbitraries.doubles().between(0, 100_000),
        Arbitraries.doubles().between(0, 20_100_000));
  }

  private static boolean holds(SearchBox box, GeoPoint place) {
    return box.westDeg() <= place.longitudeDeg()
        && place.longitudeDeg() <= box.eastDeg()
        && box.southDeg() <= place.latitudeDeg()
        && place.latitudeDeg() <= box.northDeg();
  }
}
