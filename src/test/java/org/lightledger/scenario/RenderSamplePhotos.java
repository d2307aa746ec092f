package org.lightledger.scenario;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.lightledger.geo.GeoPoint;
import org.lightledger.scenario.render.Dice;
import org.lightledger.scenario.render.JpegFile;
import org.lightledger.scenario.render.Picture;
import org.lightledger.scenario.render.Season;
import org.lightledger.scenario.render.Studio;
import org.lightledger.scenario.render.Vec3;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.sun.suncalc.SuncalcEphemeris;

/**
 * Renders the demo's scouting photos, with what is true of them. Always the same files.
 *
 * <p>Arguments: the folder (default {@code sample-photos}), then, for trials, by how much to make
 * the pictures smaller and a part of the file names to make.
 */
public final class RenderSamplePhotos {
  private static final int MOST_BYTES = 75_000;
  private static final String COPY_OF = "Poplar Avenue";

  private final SunEphemeris sun = new SuncalcEphemeris();
  private final Brezaluz town = Brezaluz.model();
  private final List<TruthLine> truth = new ArrayList<>();
  private final Path folder;
  private final Studio studio;

  private RenderSamplePhotos(Path folder, int shrink) {
    this.folder = folder;
    studio = new Studio(town, shrink);
  }

  /** Renders all. */
  public static void main(String[] args) throws IOException {
    Path folder = Path.of(args.length > 0 ? args[0] : "sample-photos");
    int shrink = args.length > 1 ? Integer.parseInt(args[1]) : 1;
    String part = args.length > 2 ? args[2] : "";
    long start = System.nanoTime();
    RenderSamplePhotos renderer = new RenderSamplePhotos(folder, shrink);
    renderer.photos(part);
    if (part.isEmpty()) {
      renderer.trouble();
    }
    renderer.lists();
    System.out.printf(
        Locale.ROOT,
        "%d files in %.0f s%n",
        renderer.truth.size(),
        (System.nanoTime() - start) / 1e9);
  }

  private void photos(String part) throws IOException {
    List<ShotPlan> plans =
        ShotList.plans().stream()
            .filter(plan -> (plan.file() + " " + plan.spot()).contains(part))
            .sorted(Comparator.comparing(plan -> seasonOrder(plan)))
            .collect(Collectors.toList());
    for (ShotPlan plan : plans) {
      take(plan);
    }
  }

  private static String seasonOrder(ShotPlan plan) {
    return Season.on(plan.local().toLocalDate()) + plan.file();
  }

  private void take(ShotPlan plan) throws IOException {
    Dice dice = new Dice(plan.file().hashCode());
    Spot spot = town.spot(plan.spot());
    Point subject = spot.at().along(dice.between(0, 360), dice.between(0, 0.6));
    if (plan.spot().equals("Cloth Hall Arcade")) {
      subject = spot.at();
    }
    Point camera = subject.along(plan.facingDeg() + plan.offsetDeg(), -plan.distanceM());
    GeoPoint place = LocalFrame.toGeo(camera);
    SunDirection direction = sun.direction(plan.moment().toInstant(), place);
    Picture picture =
        studio.take(
            new Studio.Setup(
                camera,
                subject,
                plan.facingDeg(),
                plan.pitchDeg(),
                plan.focalMm(),
                plan.fNumber(),
                plan.body().crop(),
                plan.upright(),
                plan.turnDeg(),
                plan.bias(),
                plan.weather(),
                plan.outfit(),
                plan.local().toLocalDate(),
                direction,
                plan.file().hashCode()));
    boolean quarterTurn = plan.upright() && plan.body() == Body.MAIN;
    double errorM = dice.between(2.5, 4.8);
    Point seen = camera.along(dice.between(0, 360), Math.min(3.5, errorM * dice.unit()));
    byte[] bytes =
        ShotExif.write(
            JpegFile.encode(picture, quarterTurn, MOST_BYTES),
            plan,
            picture.exposure(),
            LocalFrame.toGeo(seen),
            town.terrain().elevationM(camera) + 1.5 + dice.between(-3, 3),
            errorM,
            quarterTurn,
            (int) dice.between(0, 100));
    write(plan.file(), bytes);
    double[] at =
        picture
            .camera()
            .project(Vec3.towards(direction.azimuth().trueDeg(), direction.apparentAltitudeDeg()));
    TruthLine line =
        new TruthLine(
            plan.file(),
            plan.spot(),
            plan.moment().toInstant().toString(),
            place,
            LocalFrame.toGeo(subject),
            plan.facingDeg(),
            direction.azimuth().trueDeg(),
            direction.apparentAltitudeDeg(),
            picture.exposure().ev100(),
            picture.sunOnSubject() >= 0.5,
            picture.sunInFrame(),
            at.length == 0 ? -1 : at[0],
            at.length == 0 ? -1 : at[1],
            plan.faults().stream().sorted().map(Fault::word).collect(Collectors.joining(" ")));
    truth.add(line);
    System.out.println(line.toCsv() + " " + bytes.length);
  }

  private void write(String file, byte[] bytes) throws IOException {
    Path path = folder.resolve(file);
    Files.createDirectories(path.toAbsolutePath().getParent());
    Files.write(path, bytes);
  }

  /** The files that are no shots of their own: a copy, and one that is not a picture. */
  private void trouble() throws IOException {
    TruthLine original =
        truth.stream().filter(line -> line.spot().equals(COPY_OF)).findFirst().orElseThrow();
    byte[] bytes = Files.readAllBytes(folder.resolve(original.file()));
    String copy = "sent-by-mail/avenue (1).jpg";
    write(copy, bytes);
    truth.add(
        new TruthLine(
            copy,
            original.spot(),
            original.utc(),
            original.camera(),
            original.subject(),
            original.facingDeg(),
            original.sunAzimuthDeg(),
            original.sunApparentAltitudeDeg(),
            original.ev100(),
            original.sunOnSubject(),
            original.sunInFrame(),
            original.sunX(),
            original.sunY(),
            Fault.EXACT_COPY.word()));
    Dice dice = new Dice(404);
    byte[] garbled = new byte[4096];
    for (int i = 0; i < garbled.length; i++) {
      garbled[i] = (byte) dice.between(0, 256);
    }
    System.arraycopy(bytes, 0, garbled, 0, 24);
    write("sent-by-mail/IMG that is not a picture.jpg", garbled);
  }

  private void lists() throws IOException {
    List<String> lines = new ArrayList<>(List.of(TruthLine.HEADER));
    truth.stream()
        .sorted(Comparator.comparing(TruthLine::file))
        .map(TruthLine::toCsv)
        .forEach(lines::add);
    Files.write(folder.resolve("truth.csv"), lines);
    List<String> spots =
        new ArrayList<>(List.of("name,area,lat,lon,facings_true_deg,note,caution"));
    for (Spot spot : town.spots()) {
      GeoPoint at = LocalFrame.toGeo(spot.at());
      String facings =
          spot.facingsDeg().stream()
              .map(facing -> String.format(Locale.ROOT, "%.0f", facing))
              .collect(Collectors.joining(" "));
      spots.add(
          Stream.of(
                  spot.name(),
                  spot.area(),
                  String.format(Locale.ROOT, "%.6f", at.latitudeDeg()),
                  String.format(Locale.ROOT, "%.6f", at.longitudeDeg()),
                  facings,
                  spot.note(),
                  spot.caution())
              .map(RenderSamplePhotos::quoted)
              .collect(Collectors.joining(",")));
    }
    Files.write(folder.resolve("spots.csv"), spots);
  }

  private static String quoted(String text) {
    return text.contains(",") ? '"' + text + '"' : text;
  }
}
