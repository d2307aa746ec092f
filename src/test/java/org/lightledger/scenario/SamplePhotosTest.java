package org.lightledger.scenario;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.drew.imaging.ImageMetadataReader;
import com.drew.imaging.ImageProcessingException;
import com.drew.lang.Rational;
import com.drew.metadata.Directory;
import com.drew.metadata.Metadata;
import com.drew.metadata.exif.ExifIFD0Directory;
import com.drew.metadata.exif.ExifSubIFDDirectory;
import com.drew.metadata.exif.GpsDirectory;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import javax.imageio.IIOException;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.lightledger.geo.Angles;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.scenario.render.Outfit;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.suncalc.SuncalcEphemeris;

/** The sample photos, their Exif, their pixels and the truth file agree with each other. */
class SamplePhotosTest {
  private static final Path FOLDER = Path.of("sample-photos");
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("yyyy:MM:dd HH:mm:ss", Locale.ROOT);
  private static final Map<String, ShotPlan> PLANS = new HashMap<>();

  @BeforeAll
  static void plans() {
    ShotList.plans().forEach(plan -> PLANS.put(plan.file(), plan));
  }

  static List<TruthLine> truth() throws IOException {
    return TruthLine.parseAll(Files.readAllLines(FOLDER.resolve("truth.csv")));
  }

  static Stream<TruthLine> sunsInFrame() throws IOException {
    return truth().stream().filter(TruthLine::sunInFrame);
  }

  /** Shots where direct sun comes from the side, so that one half of the stand-in is darker. */
  static Stream<TruthLine> sideLit() throws IOException {
    return truth().stream()
        .filter(
            line -> {
              double turn = Math.abs(Angles.turnDeg(line.facingDeg(), line.sunAzimuthDeg()));
              return line.sunOnSubject()
                  && turn > 60
                  && turn < 135
                  && PLANS.containsKey(line.file());
            });
  }

  @Test
  void thereAreEnoughAndTheyAreSmall() throws IOException {
    List<TruthLine> truth = truth();
    assertThat(truth).hasSizeGreaterThanOrEqualTo(48);
    assertThat(truth.stream().map(TruthLine::spot).distinct().count()).isGreaterThanOrEqualTo(14);
    long sum = 0;
    for (Path file : files()) {
      long size = Files.size(file);
      assertThat(size).as(file.toString()).isLessThanOrEqualTo(120_000);
      sum += size;
    }
    assertThat(sum).isLessThanOrEqualTo(5_000_000);
  }

  private static List<Path> files() throws IOException {
    try (Stream<Path> walk = Files.walk(FOLDER)) {
      List<Path> files = new ArrayList<>();
      walk.filter(Files::isRegularFile)
          .filter(file -> !file.startsWith(FOLDER.resolve("region")))
          .forEach(files::add);
      return files;
    }
  }

  @ParameterizedTest
  @MethodSource("truth")
  void exifSaysWhatIsTrue(TruthLine line) throws IOException, ImageProcessingException {
    Metadata metadata = ImageMetadataReader.readMetadata(FOLDER.resolve(line.file()).toFile());
    Directory exif = metadata.getFirstDirectoryOfType(ExifSubIFDDirectory.class);
    assertThat(exif).isNotNull();
    double n = rational(exif, ExifSubIFDDirectory.TAG_FNUMBER);
    double t = rational(exif, ExifSubIFDDirectory.TAG_EXPOSURE_TIME);
    double iso = Double.parseDouble(exif.getString(ExifSubIFDDirectory.TAG_ISO_EQUIVALENT));
    double ev100 = (Math.log(n * n / t) - Math.log(iso / 100)) / Math.log(2);
    assertThat(ev100).isCloseTo(line.ev100(), within(0.001));
    LocalDateTime clock =
        LocalDateTime.parse(exif.getString(ExifSubIFDDirectory.TAG_DATETIME_ORIGINAL), STAMP);
    String offset = exif.getString(ExifSubIFDDirectory.TAG_TIME_ZONE_ORIGINAL);
    Instant instant = Instant.parse(line.utc());
    boolean slow = line.wrong().contains("local-time-");
    LocalDateTime trueClock = LocalDateTime.ofInstant(instant, ShotPlan.ZONE);
    assertThat(clock).isEqualTo(slow ? trueClock.minusHours(12) : trueClock);
    if (slow || line.wrong().contains("no-offset")) {
      assertThat(offset).isNull();
    } else {
      assertThat(clock.toInstant(ZoneOffset.of(offset))).isEqualTo(instant);
    }
    Directory gps = metadata.getFirstDirectoryOfType(GpsDirectory.class);
    if (line.wrong().contains("no-position")) {
      assertThat(gps).isNull();
      return;
    }
    assertThat(gps).isNotNull();
    position(line, gps);
    direction(line, gps);
  }

  private static void position(TruthLine line, Directory gps) {
    double latitude = degrees(gps, GpsDirectory.TAG_LATITUDE, GpsDirectory.TAG_LATITUDE_REF, "S");
    double longitude =
        degrees(gps, GpsDirectory.TAG_LONGITUDE, GpsDirectory.TAG_LONGITUDE_REF, "W");
    if (line.wrong().contains("zero-position")) {
      assertThat(latitude).isZero();
      assertThat(longitude).isZero();
      return;
    }
    double off = Geodesy.distanceM(new GeoPoint(latitude, longitude), line.camera());
    assertThat(off).isLessThanOrEqualTo(rational(gps, GpsDirectory.TAG_H_POSITIONING_ERROR) + 0.1);
  }

  private static void direction(TruthLine line, Directory gps) {
    String reference = gps.getString(GpsDirectory.TAG_IMG_DIRECTION_REF);
    if (line.wrong().contains("no-direction")) {
      assertThat(reference).isNull();
      return;
    }
    boolean magnetic = line.wrong().contains("magnetic-direction");
    assertThat(reference).isEqualTo(magnetic ? "M" : "T");
    double written = rational(gps, GpsDirectory.TAG_IMG_DIRECTION);
    double turned = written + (magnetic ? ShotExif.DECLINATION_DEG : 0);
    assertThat(turned).isCloseTo(line.facingDeg(), within(0.011));
  }

  private static double rational(Directory directory, int tag) {
    Object value = directory.getObject(tag);
    assertThat(value).isInstanceOf(Rational.class);
    return value instanceof Rational rational ? rational.doubleValue() : Double.NaN;
  }

  private static double degrees(Directory gps, int tag, int referenceTag, String negative) {
    Rational[] parts = gps.getRationalArray(tag);
    assertThat(parts).hasSize(3);
    double angle =
        parts[0].doubleValue() + parts[1].doubleValue() / 60 + parts[2].doubleValue() / 3600;
    return negative.equals(gps.getString(referenceTag)) ? -angle : angle;
  }

  @ParameterizedTest
  @MethodSource("truth")
  void theSunStandsWhereTheEphemerisSays(TruthLine line) {
    SunDirection sun = new SuncalcEphemeris().direction(Instant.parse(line.utc()), line.camera());
    assertThat(sun.azimuth().trueDeg()).isCloseTo(line.sunAzimuthDeg(), within(2e-4));
    assertThat(sun.apparentAltitudeDeg()).isCloseTo(line.sunApparentAltitudeDeg(), within(2e-4));
  }

  @ParameterizedTest
  @MethodSource("sunsInFrame")
  void theBrightestPlaceInThePictureIsTheSun(TruthLine line)
      throws IOException, ImageProcessingException {
    BufferedImage shown = shown(line);
    double[] expected = projected(line, shown);
    double[] found = brightest(shown, horizonRow(line, shown));
    double pixelDeg = Math.toDegrees(36.0 / PLANS.get(line.file()).focalMm() / 960);
    double offDeg = Math.hypot(found[0] - expected[0], found[1] - expected[1]) * pixelDeg;
    // One degree: the burnt-out glow about the disc is some two degrees wide and may be cut by
    // leaves or the picture's edge.
    assertThat(offDeg).as(line.file()).isLessThan(1.0);
  }

  /**
   * The sun's place by plain spherical trigonometry, from the picture's bearing and focal length.
   */
  private static double[] projected(TruthLine line, BufferedImage shown) {
    ShotPlan plan = PLANS.get(line.file());
    double turn = Math.toRadians(line.sunAzimuthDeg() - line.facingDeg());
    double altitude = Math.toRadians(line.sunApparentAltitudeDeg());
    double pitch = Math.toRadians(plan.pitchDeg());
    double ahead = Math.cos(altitude) * Math.cos(turn);
    double depth = ahead * Math.cos(pitch) + Math.sin(altitude) * Math.sin(pitch);
    double up = Math.sin(altitude) * Math.cos(pitch) - ahead * Math.sin(pitch);
    double right = Math.cos(altitude) * Math.sin(turn);
    double focalPixels = plan.focalMm() / 36 * 960;
    return new double[] {
      shown.getWidth() / 2.0 + focalPixels * right / depth,
      shown.getHeight() / 2.0 - focalPixels * up / depth
    };
  }

  /** The row of the level horizon: below it the sun's glitter on water can burn out as well. */
  private static int horizonRow(TruthLine line, BufferedImage shown) {
    ShotPlan plan = PLANS.get(line.file());
    double belowMiddle = plan.focalMm() / 36 * 960 * Math.tan(Math.toRadians(plan.pitchDeg()));
    return (int) Math.round(shown.getHeight() / 2.0 + belowMiddle);
  }

  private static BufferedImage shown(TruthLine line) throws IOException, ImageProcessingException {
    Path file = FOLDER.resolve(line.file());
    BufferedImage stored = ImageIO.read(file.toFile());
    Directory main =
        ImageMetadataReader.readMetadata(file.toFile())
            .getFirstDirectoryOfType(ExifIFD0Directory.class);
    assertThat(main).isNotNull();
    if (!"6".equals(main.getString(ExifIFD0Directory.TAG_ORIENTATION))) {
      return stored;
    }
    BufferedImage turned =
        new BufferedImage(
            /* width= */ stored.getHeight(),
            /* height= */ stored.getWidth(),
            BufferedImage.TYPE_INT_RGB);
    for (int y = 0; y < stored.getHeight(); y++) {
      for (int x = 0; x < stored.getWidth(); x++) {
        turned.setRGB(stored.getHeight() - 1 - y, x, stored.getRGB(x, y));
      }
    }
    return turned;
  }

  /**
   * The middle of the brightest region above a row after a blur that is about the sun's glow wide.
   */
  private static double[] brightest(BufferedImage image, int aboveRow) {
    int w = image.getWidth();
    int h = image.getHeight();
    double[] sums = new double[(w + 1) * (h + 1)];
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        sums[(y + 1) * (w + 1) + x + 1] =
            value(image.getRGB(x, y))
                + sums[y * (w + 1) + x + 1]
                + sums[(y + 1) * (w + 1) + x]
                - sums[y * (w + 1) + x];
      }
    }
    int r = 9;
    double best = 0;
    double[][] blurred = new double[h][w];
    for (int y = r; y < Math.min(h - r, aboveRow); y++) {
      for (int x = r; x < w - r; x++) {
        double sum =
            sums[(y + r + 1) * (w + 1) + x + r + 1]
                - sums[(y - r) * (w + 1) + x + r + 1]
                - sums[(y + r + 1) * (w + 1) + x - r]
                + sums[(y - r) * (w + 1) + x - r];
        blurred[y][x] = sum / (4 * r * r + 4 * r + 1);
        best = Math.max(best, blurred[y][x]);
      }
    }
    double weight = 0;
    double sumX = 0;
    double sumY = 0;
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        if (blurred[y][x] >= best - 0.4) {
          weight++;
          sumX += x + 0.5;
          sumY += y + 0.5;
        }
      }
    }
    return new double[] {sumX / weight, sumY / weight};
  }

  private static double value(int rgb) {
    return 0.2126 * (rgb >> 16 & 0xFF) + 0.7152 * (rgb >> 8 & 0xFF) + 0.0722 * (rgb & 0xFF);
  }

  @ParameterizedTest
  @MethodSource("sideLit")
  void theStandInIsBrighterTowardsTheSun(TruthLine line)
      throws IOException, ImageProcessingException {
    ShotPlan plan = PLANS.get(line.file());
    BufferedImage shown = shown(line);
    double focalPixels = plan.focalMm() / 36 * 960;
    double x = shown.getWidth() / 2.0 + focalPixels * Math.tan(Math.toRadians(plan.offsetDeg()));
    double heightM = plan.outfit().cut() == Outfit.Cut.COAT ? 0.85 : 0.75;
    double down = Math.toDegrees(Math.atan2(1.52 - heightM, plan.distanceM())) + plan.pitchDeg();
    double y = shown.getHeight() / 2.0 + focalPixels * Math.tan(Math.toRadians(down));
    double offPixels = focalPixels * 0.10 / plan.distanceM();
    double left = mean(shown, x - offPixels, y, offPixels * 0.5);
    double right = mean(shown, x + offPixels, y, offPixels * 0.5);
    if (Angles.turnDeg(line.facingDeg(), line.sunAzimuthDeg()) < 0) {
      assertThat(left).as(line.file()).isGreaterThan(right);
    } else {
      assertThat(right).as(line.file()).isGreaterThan(left);
    }
  }

  private static double mean(BufferedImage image, double x, double y, double radius) {
    double sum = 0;
    int n = 0;
    for (int v = (int) (y - 2 * radius); v <= y + 2 * radius; v++) {
      for (int u = (int) (x - radius); u <= x + radius; u++) {
        sum += value(image.getRGB(u, v));
        n++;
      }
    }
    return sum / n;
  }

  @Test
  void troubleIsThereAndSaysSo() throws IOException {
    List<TruthLine> truth = truth();
    for (Fault fault : Fault.values()) {
      if (fault != Fault.NOT_A_PICTURE) {
        assertThat(truth).as(fault.word()).anyMatch(line -> line.wrong().contains(fault.word()));
      }
    }
    TruthLine copy =
        truth.stream()
            .filter(line -> line.wrong().equals(Fault.EXACT_COPY.word()))
            .findFirst()
            .orElseThrow();
    TruthLine original =
        truth.stream()
            .filter(line -> line.utc().equals(copy.utc()) && !line.equals(copy))
            .findFirst()
            .orElseThrow();
    assertThat(FOLDER.resolve(copy.file())).hasSameBinaryContentAs(FOLDER.resolve(original.file()));
    assertThatThrownBy(
            () ->
                ImageIO.read(FOLDER.resolve("sent-by-mail/IMG that is not a picture.jpg").toFile()))
        .isInstanceOf(IIOException.class);
  }
}
