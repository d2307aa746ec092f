package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.drew.imaging.tiff.TiffHandler;
import com.drew.lang.RandomAccessReader;
import com.drew.lang.Rational;
import com.drew.metadata.StringValue;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The wanted tags of one TIFF directory, as written. Everything else, maker notes and thumbnails
 * above all, is passed over without being copied.
 */
final class TagDirectory implements TiffHandler {
  /** Longest text kept, characters; the longest field that is shown is a camera's name. */
  private static final int TEXT_LIMIT = 200;

  /** More numbers than any wanted tag has; TIFF allows a tag as large as the file. */
  private static final int NUMBER_LIMIT = 64;

  /** Larger tags are passed over; an XMP packet has some kilobytes. Own choice, bytes. */
  private static final int BYTE_LIMIT = 4 * 1024 * 1024;

  private final Set<Integer> wanted;
  private final Map<Integer, Object> values = new HashMap<>();
  private boolean errors;
  private boolean damaged;

  TagDirectory(Set<Integer> wanted) {
    this.wanted = wanted;
  }

  /** Whether a wanted tag or the directory itself could not be read. */
  boolean damaged() {
    return damaged;
  }

  /** Whether anything in the directory could not be read, wanted or not. */
  boolean hadErrors() {
    return errors;
  }

  boolean wants(int tag) {
    return wanted.contains(tag);
  }

  void markDamaged() {
    damaged = true;
  }

  boolean isEmpty() {
    return values.isEmpty();
  }

  boolean has(int tag) {
    return values.containsKey(tag);
  }

  /** The text of a tag without padding and control characters; null when absent or blank. */
  @Nullable String text(int tag) {
    Object value = values.get(tag);
    String text = null;
    if (value instanceof String string) {
      text = string;
    } else if (value instanceof byte[] bytes && bytes.length <= TEXT_LIMIT) {
      text = new String(bytes, UTF_8);
    }
    if (text == null) {
      return null;
    }
    StringBuilder clean = new StringBuilder(text.length());
    for (int i = 0; i < text.length() && clean.length() < TEXT_LIMIT; i++) {
      char c = text.charAt(i);
      if (c == '\0') {
        break;
      }
      clean.append(Character.isISOControl(c) ? ' ' : c);
    }
    String stripped = clean.toString().strip();
    return stripped.isEmpty() ? null : stripped;
  }

  /** The rationals of a tag; whole numbers count as n/1. Empty when absent or of another type. */
  List<Ratio> ratios(int tag) {
    Object value = values.get(tag);
    if (value instanceof Rational[] rationals) {
      return Stream.of(rationals)
          .map(rational -> new Ratio(rational.getNumerator(), rational.getDenominator()))
          .toList();
    }
    if (value instanceof long[] integers) {
      return Arrays.stream(integers).mapToObj(integer -> new Ratio(integer, 1)).toList();
    }
    return List.of();
  }

  /** The first rational of a tag, or null. */
  @Nullable Ratio ratio(int tag) {
    List<Ratio> ratios = ratios(tag);
    return ratios.isEmpty() ? null : ratios.get(0);
  }

  /** The first whole number of a tag, or null. */
  @Nullable Long integer(int tag) {
    Object value = values.get(tag);
    if (value instanceof long[] integers && integers.length > 0) {
      return integers[0];
    }
    return value instanceof byte[] bytes && bytes.length == 1 ? Long.valueOf(bytes[0]) : null;
  }

  /** All whole numbers of a tag. */
  long[] integers(int tag) {
    return values.get(tag) instanceof long[] integers ? integers : new long[0];
  }

  /** The bytes of a tag, or null. */
  byte @Nullable [] bytes(int tag) {
    return values.get(tag) instanceof byte[] bytes ? bytes : null;
  }

  private void put(int tag, Object value) {
    values.putIfAbsent(tag, value);
  }

  private static long[] firstOf(long[] array) {
    return array.length <= NUMBER_LIMIT ? array : Arrays.copyOf(array, NUMBER_LIMIT);
  }

  @Override
  public boolean customProcessTag(
      int tagOffset,
      Set<Integer> processedIfdOffsets,
      int tiffHeaderOffset,
      RandomAccessReader reader,
      int tagId,
      int byteCount) {
    if (!wanted.contains(tagId) || values.containsKey(tagId)) {
      return true;
    }
    if (byteCount < 0 || byteCount > BYTE_LIMIT) {
      errors = true;
      return true;
    }
    return false;
  }

  @Override
  public void setTiffMarker(int marker) {}

  @Override
  public boolean tryEnterSubIfd(int tagId) {
    return false;
  }

  @Override
  public boolean hasFollowerIfd() {
    return false;
  }

  @Override
  public void endingIFD() {}

  @Override
  public @Nullable Long tryCustomProcessFormat(int tagId, int formatCode, long componentCount) {
    return null;
  }

  @Override
  public void warn(String message) {
    errors = true;
  }

  @Override
  public void error(String message) {
    errors = true;
  }

  @Override
  public void setByteArray(int tagId, byte[] bytes) {
    put(tagId, bytes);
  }

  @Override
  public void setString(int tagId, StringValue string) {
    put(tagId, string.toString(UTF_8));
  }

  @Override
  public void setRational(int tagId, Rational rational) {
    put(tagId, new Rational[] {rational});
  }

  @Override
  public void setRationalArray(int tagId, Rational[] array) {
    put(tagId, array.length <= NUMBER_LIMIT ? array : Arrays.copyOf(array, NUMBER_LIMIT));
  }

  @Override
  public void setFloat(int tagId, float float32) {
    damaged = true;
  }

  @Override
  public void setFloatArray(int tagId, float[] array) {
    damaged = true;
  }

  @Override
  public void setDouble(int tagId, double double64) {
    damaged = true;
  }

  @Override
  public void setDoubleArray(int tagId, double[] array) {
    damaged = true;
  }

  @Override
  public void setInt8s(int tagId, byte int8s) {
    put(tagId, new long[] {int8s});
  }

  @Override
  public void setInt8sArray(int tagId, byte[] array) {
    put(tagId, array);
  }

  @Override
  public void setInt8u(int tagId, short int8u) {
    put(tagId, new long[] {int8u});
  }

  @Override
  public void setInt8uArray(int tagId, short[] array) {
    byte[] bytes = new byte[array.length];
    for (int i = 0; i < array.length; i++) {
      bytes[i] = (byte) array[i];
    }
    put(tagId, bytes);
  }

  @Override
  public void setInt16s(int tagId, int int16s) {
    put(tagId, new long[] {int16s});
  }

  @Override
  public void setInt16sArray(int tagId, short[] array) {
    long[] wide = new long[Math.min(array.length, NUMBER_LIMIT)];
    Arrays.setAll(wide, i -> array[i]);
    put(tagId, wide);
  }

  @Override
  public void setInt16u(int tagId, int int16u) {
    put(tagId, new long[] {int16u});
  }

  @Override
  public void setInt16uArray(int tagId, int[] array) {
    put(tagId, firstOf(Arrays.stream(array).asLongStream().toArray()));
  }

  @Override
  public void setInt32s(int tagId, int int32s) {
    put(tagId, new long[] {int32s});
  }

  @Override
  public void setInt32sArray(int tagId, int[] array) {
    put(tagId, firstOf(Arrays.stream(array).asLongStream().toArray()));
  }

  @Override
  public void setInt32u(int tagId, long int32u) {
    put(tagId, new long[] {int32u});
  }

  @Override
  public void setInt32uArray(int tagId, long[] array) {
    put(tagId, firstOf(array));
  }

  @Override
  public void setInt64s(int tagId, long int64s) {
    put(tagId, new long[] {int64s});
  }

  @Override
  public void setInt64sArray(int tagId, long[] array) {
    put(tagId, firstOf(array));
  }

  @Override
  public void setInt64u(int tagId, long int64u) {
    put(tagId, new long[] {int64u});
  }

  @Override
  public void setInt64uArray(int tagId, long[] array) {
    put(tagId, firstOf(array));
  }
}
