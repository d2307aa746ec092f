package org.lightledger.shot.exif;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.lightledger.shot.exif.ExifBuilder.Directory.EXIF;

import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Objects;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import org.lightledger.geo.GeoPoint;

/** What is written is what is read, over the whole range. */
class ParsingProperties {
  private static final DateTimeFormatter EXIF_TIME =
      DateTimeFormatter.ofPattern("uuuu:MM:dd HH:mm:ss", Locale.ROOT);

  /** Seconds are written to 1/10000, so that half of one is the greatest error. */
  private static final double HALF_STEP_DEG = 0.5 / 10_000 / 3600;

  @Property
  void aPositionComesBack(
      @ForAll @DoubleRange(min = -90, max = 90) double latitude,
      @ForAll @DoubleRange(min = -180, max = 180) double longitude,
      @ForAll boolean littleEndian)
      throws UnreadableImageException {
    ExifBuilder builder = littleEndian ? ExifBuilder.littleEndian() : ExifBuilder.bigEndian();
    builder.position(
        latitude < 0 ? "S" : "N",
        sexagesimal(latitude),
        longitude < 0 ? "W" : "E",
        sexagesimal(longitude));
    GeoPoint read = Objects.requireNonNull(EvidenceReader.read(builder.jpeg()).position());
    assertThat(read.latitudeDeg()).isCloseTo(latitude, within(HALF_STEP_DEG + 1e-12));
    assertThat(read.longitudeDeg()).isCloseTo(longitude, within(HALF_STEP_DEG + 1e-12));
  }

  private static long[] sexagesimal(double degrees) {
    long steps = Math.round(Math.abs(degrees) * 3600 * 10_000);
    return new long[] {steps / 36_000_000, 1, steps / 600_000 % 60, 1, steps % 600_000, 10_000};
  }

  @Property
  void aTimeComesBack(
      @ForAll @LongRange(min = -4_544_208_000L, max = 253_402_300_799L) long epochSecond,
      @ForAll @IntRange(max = 999) int millis)
      throws UnreadableImageException {
    LocalDateTime time =
        LocalDateTime.ofEpochSecond(epochSecond, millis * 1_000_000, ZoneOffset.UTC);
    byte[] jpeg =
        ExifBuilder.bigEndian()
            .ascii(EXIF, Tags.DATE_TIME_ORIGINAL, EXIF_TIME.format(time))
            .ascii(EXIF, Tags.SUB_SEC_TIME_ORIGINAL, String.format(Locale.ROOT, "%03d", millis))
            .jpeg();
    assertThat(EvidenceReader.read(jpeg).localTime()).isEqualTo(time);
  }

  @Property
  void everyOffsetOfAnyClockComesBackAndNoOther(
      @ForAll boolean west,
      @ForAll @IntRange(max = 99) int hours,
      @ForAll @IntRange(max = 99) int minutes) {
    String text = String.format(Locale.ROOT, "%s%02d:%02d", west ? "-" : "+", hours, minutes);
    int size = hours * 60 + minutes;
    boolean real = minutes < 60 && size <= (west ? 12 : 14) * 60;
    ZoneOffset read = CameraClock.parseOffset(text);
    assertThat(read == null ? null : read.getTotalSeconds() / 60)
        .isEqualTo(real ? (west ? -size : size) : null);
  }

  @Property
  void aRatioIsItsQuotientOrNothing(
      @ForAll @LongRange(min = 0, max = 0xFFFFFFFFL) long numerator,
      @ForAll @LongRange(min = 0, max = 0xFFFFFFFFL) long denominator) {
    Double value = new Ratio(numerator, denominator).value();
    if (denominator == 0) {
      assertThat(value).isNull();
    } else {
      assertThat(value).isEqualTo((double) numerator / denominator).isFinite();
    }
  }
}
