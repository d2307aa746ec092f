package org.lightledger.skyline.buildings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class HeightTagsTest {
  /** Tags, then top and lower side in metres and where the height comes from. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          height=12.5                                          | 12.5    | 0    | GIVEN
          height=12 m                                          | 12      | 0    | GIVEN
          height=12m                                           | 12      | 0    | GIVEN
          height=40'                                           | 12.192  | 0    | GIVEN
          height=40 ft                                         | 12.192  | 0    | GIVEN
          height=12'6"                                         | 3.81    | 0    | GIVEN
          height=12' 6''                                       | 3.81    | 0    | GIVEN
          height=12 ft 6 in                                    | 3.81    | 0    | GIVEN
          height=20,building:levels=3                          | 20      | 0    | GIVEN
          building:levels=4                                    | 12      | 0    | LEVELS
          building:levels=4,roof:levels=1                      | 15      | 0    | LEVELS
          building:levels=4,roof:height=2.5,roof:levels=1      | 14.5    | 0    | LEVELS
          building:levels=4,roof:height=0,roof:levels=1        | 12      | 0    | LEVELS
          building:levels=2.5                                  | 7.5     | 0    | LEVELS
          building:levels=6,building:min_level=2               | 18      | 6    | LEVELS
          height=30,min_height=10,building:min_level=1         | 30      | 10   | GIVEN
          height=30,min_height=0                               | 30      | 0    | GIVEN
          name=Mill                                            | 6       | 0    | ASSUMED
          min_height=58.6                                      | 64.6    | 58.6 | ASSUMED
          """)
  void areReadAsTheyAreMeant(String tags, double heightM, double minHeightM, HeightSource source) {
    HeightTags heights = HeightTags.of(ObstructionKind.BUILDING, tags(tags));

    assertThat(heights.heightM()).isCloseTo(heightM, within(1e-9));
    assertThat(heights.minHeightM()).isCloseTo(minHeightM, within(1e-9));
    assertThat(heights.source()).isEqualTo(source);
    assertThat(heights.problems()).isEmpty();
  }

  /** Tags that can not be used, the height that is taken, and words of the problem. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          height=tall                     | 6  | ASSUMED | expected height as metres such as 12.5, found "tall"
          height=tall,building:levels=3   | 9  | LEVELS  | expected height as metres such as 12.5, found "tall"
          height=10;12                    | 6  | ASSUMED | found "10;12"
          height=-4                       | 6  | ASSUMED | expected height in (0, 1000] metres, found "-4"
          height=0                        | 6  | ASSUMED | expected height in (0, 1000] metres, found "0"
          height=NaN                      | 6  | ASSUMED | found "NaN"
          height=1e9                      | 6  | ASSUMED | found "1e9"
          height=5400                     | 6  | ASSUMED | found "5400"
          height=5,min_height=8           | 14 | ASSUMED | expected a height above min_height, found 5.0 m and 8.0 m
          building:levels=many            | 6  | ASSUMED | expected building:levels as a count of storeys such as 4, found "many"
          building:levels=999             | 6  | ASSUMED | found "999"
          building:levels=0               | 6  | ASSUMED | expected storeys or a roof, found 0.0 m of both
          height=9,min_height=low         | 9  | GIVEN   | expected min_height as metres such as 12.5, found "low"
          """)
  void thatCanNotBeUsedAreToldAndCountAsAbsent(
      String tags, double heightM, HeightSource source, String problem) {
    HeightTags heights = HeightTags.of(ObstructionKind.BUILDING, tags(tags));

    assertThat(heights.heightM()).isEqualTo(heightM);
    assertThat(heights.source()).isEqualTo(source);
    assertThat(heights.problems()).singleElement().asString().contains(problem);
  }

  @Test
  void storeysAreNoHeightOfTrees() {
    HeightTags heights = HeightTags.of(ObstructionKind.WOOD, Map.of("building:levels", "9"));

    assertThat(heights.heightM()).isEqualTo(ObstructionKind.WOOD.assumedHeightM());
    assertThat(heights.source()).isEqualTo(HeightSource.ASSUMED);
  }

  private static Map<String, String> tags(String text) {
    Map<String, String> tags = new HashMap<>();
    for (String tag : text.split(",")) {
      int equals = tag.indexOf('=');
      tags.put(tag.substring(0, equals), tag.substring(equals + 1));
    }
    return tags;
  }
}
