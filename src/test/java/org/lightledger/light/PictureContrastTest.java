package org.lightledger.light;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class PictureContrastTest {

  /** Half of a picture in each of two greys. */
  private static PictureContrast ofGreys(int dark, int light) {
    int[] pixels = new int[1000];
    Arrays.fill(pixels, 0, 500, dark * 0x010101);
    Arrays.fill(pixels, 500, 1000, light * 0x010101);
    return PictureContrast.of(pixels);
  }

  /**
   * The grey patches of the common 24-patch test chart: optical densities 0.05 (white) to 1.50
   * (black), and their 8-bit sRGB values as widely published, both from memory. A density is a
   * power of ten, a stop one of two. The published values are means of measured charts, whose
   * patches stray from their densities by some hundredths: a fifth of a stop, 0.06 of density, is
   * allowed.
   */
  @Test
  void theGreysOfATestChartAreAsFarApartAsTheirDensities() {
    double[] densities = {0.05, 0.23, 0.44, 0.70, 1.05, 1.50};
    int[] codes = {243, 200, 160, 122, 85, 52};
    for (int light = 0; light < codes.length; light++) {
      for (int dark = light + 1; dark < codes.length; dark++) {
        double stops = (densities[dark] - densities[light]) / Math.log10(2);
        assertThat(ofGreys(codes[dark], codes[light]).stops())
            .as("densities %s and %s", densities[light], densities[dark])
            .isCloseTo(stops, within(0.2));
      }
    }
  }

  /** IEC 61966-2-1: code 188 is half of the light of code 255 (0.5029), code 137 a quarter. */
  @Test
  void halfOfTheLightIsAStop() {
    assertThat(ofGreys(188, 255).stops()).isCloseTo(1.0, within(0.02));
    assertThat(ofGreys(137, 255).stops()).isCloseTo(2.0, within(0.02));
    assertThat(ofGreys(90, 90).stops()).isZero();
  }

  /** Of colours it is the luminance that counts: BT.709 gives green 0.7152 and red 0.2126. */
  @Test
  void coloursCountByTheirLuminance() {
    int[] pixels = new int[1000];
    Arrays.fill(pixels, 0, 500, 0xff0000);
    Arrays.fill(pixels, 500, 1000, 0x00ff00);
    assertThat(PictureContrast.of(pixels).stops())
        .isCloseTo(Math.log(0.7152 / 0.2126) / Math.log(2), within(0.005));
  }

  @Test
  void aTwentiethAtEachEndIsLeftOut() {
    int[] pixels = new int[1000];
    Arrays.fill(pixels, 0x808080);
    Arrays.fill(pixels, 0, 49, 0x000000);
    Arrays.fill(pixels, 951, 1000, 0xffffff);
    PictureContrast contrast = PictureContrast.of(pixels);
    assertThat(contrast.stops()).isZero();
    assertThat(contrast.blackShare()).isEqualTo(0.049);
    assertThat(contrast.whiteShare()).isEqualTo(0.049);
    assertThat(contrast.isClipped()).isFalse();
  }

  @Test
  void whatIsClippedIsALowerBoundAndSaysSo() {
    int[] pixels = new int[1000];
    Arrays.fill(pixels, 0x404040);
    Arrays.fill(pixels, 900, 1000, 0xffffff);
    PictureContrast contrast = PictureContrast.of(pixels);
    assertThat(contrast.isClipped()).isTrue();
    assertThat(contrast.words()).isEqualTo("at least 4.3 stops, 10 % clipped to white");
  }

  @Test
  void aPictureWithoutPixelsIsRefused() {
    assertThatThrownBy(() -> PictureContrast.of(new int[0]))
        .hasMessage("expected a picture with pixels, found none");
  }
}
