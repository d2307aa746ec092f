package org.lightledger.shot.exif;

import java.io.EOFException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Where the values of a TIFF structure lie (TIFF 6.0, section 2): a bounded walk over its chain of
 * directories and their children, for finding pictures, not for reading tags.
 */
final class TiffWalk {
  /** Main picture, thumbnails, previews, sensor data, in no file more than a dozen. Own choice. */
  private static final int MOST_DIRECTORIES = 32;

  /** A directory of a camera has up to some two hundred. Own choice. */
  private static final int MOST_ENTRIES = 1000;

  private static final int ENTRY_BYTES = 12;

  /** Bytes of a value by its type 1 to 13 (TIFF 6.0; 13 from its first supplement). */
  private static final int[] TYPE_BYTES = {0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4};

  private TiffWalk() {}

  /**
   * A tag.
   *
   * @param type how its values are written
   * @param count how many values
   * @param valueAt where they lie
   */
  record Entry(int type, long count, long valueAt) {
    long bytes() {
      return count * (type >= 0 && type < TYPE_BYTES.length ? TYPE_BYTES[type] : 0);
    }
  }

  /**
   * A directory: the first entry of each tag, and how its numbers are written.
   *
   * @param bytes the structure
   * @param little whether the least significant byte comes first
   * @param entries by tag
   */
  record Directory(ImageBytes bytes, boolean little, Map<Integer, Entry> entries) {
    /** The whole numbers of a tag, at most so many; none when it is absent or of another type. */
    long[] numbers(int tag, int atMost) throws EOFException {
      Entry entry = entries.get(tag);
      boolean isShort = entry != null && entry.type() == 3;
      boolean isLong = entry != null && (entry.type() == 4 || entry.type() == 13);
      if (entry == null || !(isShort || isLong)) {
        return new long[0];
      }
      long[] numbers = new long[(int) Math.min(entry.count(), atMost)];
      for (int i = 0; i < numbers.length; i++) {
        numbers[i] =
            isShort
                ? uint16(bytes, little, entry.valueAt() + 2L * i)
                : uint32(bytes, little, entry.valueAt() + 4L * i);
      }
      return numbers;
    }

    /** The first whole number of a tag, or -1. */
    long number(int tag) throws EOFException {
      long[] numbers = numbers(tag, 1);
      return numbers.length == 0 ? -1 : numbers[0];
    }
  }

  /** Every directory that can be reached; what can not be read is left out. */
  static List<Directory> directories(ImageBytes bytes) throws EOFException {
    List<Directory> directories = new ArrayList<>();
    boolean little = bytes.uint8(0) == 'I';
    Set<Long> seen = new HashSet<>();
    Deque<Long> waiting = new ArrayDeque<>();
    waiting.add(uint32(bytes, little, 4));
    while (!waiting.isEmpty() && directories.size() < MOST_DIRECTORIES) {
      long at = waiting.remove();
      if (at == 0 || !seen.add(at) || !bytes.has(at, 2)) {
        continue;
      }
      try {
        int count = uint16(bytes, little, at);
        Directory directory = directory(bytes, little, at, Math.min(count, MOST_ENTRIES));
        directories.add(directory);
        for (long child : directory.numbers(Tags.SUB_IFDS, MOST_DIRECTORIES)) {
          waiting.add(child);
        }
        waiting.add(uint32(bytes, little, at + 2 + (long) ENTRY_BYTES * count));
      } catch (EOFException e) {
        // A directory that runs out of the file leads nowhere; the others are still waiting.
        continue;
      }
    }
    return directories;
  }

  private static Directory directory(ImageBytes bytes, boolean little, long at, int count)
      throws EOFException {
    Map<Integer, Entry> entries = new HashMap<>();
    for (int i = 0; i < count; i++) {
      long from = at + 2 + (long) ENTRY_BYTES * i;
      int type = uint16(bytes, little, from + 2);
      Entry inline = new Entry(type, uint32(bytes, little, from + 4), from + 8);
      long valueAt = inline.bytes() <= 4 ? from + 8 : uint32(bytes, little, from + 8);
      entries.putIfAbsent(uint16(bytes, little, from), new Entry(type, inline.count(), valueAt));
    }
    return new Directory(bytes, little, entries);
  }

  private static int uint16(ImageBytes bytes, boolean little, long at) throws EOFException {
    int value = bytes.uint16(at);
    return little ? value >> 8 | (value & 0xFF) << 8 : value;
  }

  private static long uint32(ImageBytes bytes, boolean little, long at) throws EOFException {
    return little ? bytes.uint32LittleEndian(at) : bytes.uint32(at);
  }
}
