package org.lightledger.shot.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javax.imageio.ImageIO;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.exif.EvidenceReader;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunDirection;
import org.lightledger.testing.Reference;

/**
 * The rendered sample photos whose sun is in the picture: the disc is found by its brightness and
 * tapped, and the facing is held against the one they were rendered with.
 */
class SunInSamplePhotosTest {
  private static final Path PHOTOS = Path.of("sample-photos");

  /** What must be shown of a tapped sun. */
  private static final double SHOWN_DEG = 0.5;

  static List<Map<String, String>> photosWithTheSun() {
    return Reference.read(PHOTOS.resolve("truth.csv")).stream()
        .filter(row -> row.get("sun_in_frame").equals("yes"))
        .toList();
  }

  /**
   * How exactly the middle of the blown-out disc is found: half of the disc's radius of 0.27
   * degrees, at the some 18 pixels to a degree of these pictures; pixels.
   */
  private static final double WITHIN_DISC_PX = 0.5 * 0.27 * 18;

  @ParameterizedTest
  @MethodSource("photosWithTheSun")
  void theTappedSunGivesTheFacing(Map<String, String> truth) throws Exception {
    Path file = PHOTOS.resolve(truth.get("file"));
    Evidence evidence = EvidenceReader.read(Files.readAllBytes(file));
    PinholeCamera camera = PinholeCamera.of(evidence).orElseThrow();
    SunDirection sun =
        new SpaEphemeris()
            .direction(
                Instant.parse(truth.get("utc")),
                new GeoPoint(
                    Double.parseDouble(truth.get("lat")), Double.parseDouble(truth.get("lon"))));

    Sighting sighting =
        FacingFromPicture.bySun(
            camera,
            brightest(file, camera, evidence.orientation()),
            sun,
            TapErrors.handHeld(WITHIN_DISC_PX));

    assertThat(sighting).isInstanceOf(Sighting.Found.class);
    Sighting.Found found = (Sighting.Found) sighting;
    double offDeg =
        Math.abs(
            found
                .facing()
                .turnToDeg(new Bearing(Double.parseDouble(truth.get("facing_true_deg")))));
    assertThat(offDeg).isLessThan(SHOWN_DEG);
    assertThat(offDeg).isLessThan(found.errorDeg());
  }

  /**
   * The middle of the brightest blob: what hangs together with the brightest three by three pixels
   * and is within a hundredth as bright: the disc with the glow around it, which is even to all
   * sides.
   */
  private static Pixel brightest(Path file, PinholeCamera camera, int orientation)
      throws IOException {
    Light light = new Light(ImageIO.read(file.toFile()), orientation);
    int best = 0;
    int seed = 0;
    for (int y = 1; y < light.height() - 1; y++) {
      for (int x = 1; x < light.width() - 1; x++) {
        int sum = 0;
        for (int i = 0; i < 9; i++) {
          sum += light.at(x + i % 3 - 1, y + i / 3 - 1);
        }
        if (sum > best) {
          best = sum;
          seed = y * light.width() + x;
        }
      }
    }
    Set<Integer> blob = new HashSet<>();
    Deque<Integer> open = new ArrayDeque<>(List.of(seed));
    while (!open.isEmpty()) {
      int at = open.pop();
      int x = at % light.width();
      int y = at / light.width();
      if (light.at(x, y) * 9 >= best * 0.99 && blob.add(at)) {
        if (x > 0) {
          open.push(at - 1);
        }
        if (x < light.width() - 1) {
          open.push(at + 1);
        }
        if (y > 0) {
          open.push(at - light.width());
        }
        if (y < light.height() - 1) {
          open.push(at + light.width());
        }
      }
    }
    double x = blob.stream().mapToInt(at -> at % light.width()).average().orElseThrow() + 0.5;
    double y = blob.stream().mapToInt(at -> at / light.width()).average().orElseThrow() + 0.5;
    return new Pixel(x * camera.widthPx() / light.width(), y * camera.heightPx() / light.height());
  }

  /** The brightness of a picture as it is looked at. */
  private record Light(BufferedImage image, int orientation) {
    int width() {
      return orientation >= 5 ? image.getHeight() : image.getWidth();
    }

    int height() {
      return orientation >= 5 ? image.getWidth() : image.getHeight();
    }

    int at(int x, int y) {
      int rgb =
          switch (orientation) {
            case 3 -> image.getRGB(image.getWidth() - 1 - x, image.getHeight() - 1 - y);
            case 6 -> image.getRGB(y, image.getHeight() - 1 - x);
            case 8 -> image.getRGB(image.getWidth() - 1 - y, x);
            default -> image.getRGB(x, y);
          };
      return (rgb >> 16 & 255) + (rgb >> 8 & 255) + (rgb & 255);
    }
  }
}
