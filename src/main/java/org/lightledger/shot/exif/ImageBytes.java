package org.lightledger.shot.exif;

import java.io.EOFException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * A file's bytes, reached at random. An array, or a channel of which only a few pages are held at a
 * time, so that a raw file of 100 MB costs no more memory than a small one. An offset outside the
 * file is an {@link EOFException}, for no length written in a file is to be trusted; a fault of the
 * disk is an {@link UncheckedIOException}. For one thread.
 */
public abstract class ImageBytes {
  /** Own choice: a directory with its values seldom spans more; bytes. */
  private static final int PAGE_BYTES = 64 * 1024;

  /** Own choice: directories, values, and the preview, each in another part of the file. */
  private static final int PAGES = 8;

  private ImageBytes() {}

  /**
   * Bytes in memory.
   *
   * @param content the whole file; not copied
   * @return them
   */
  public static ImageBytes of(byte[] content) {
    return new InMemory(content, content.length);
  }

  /**
   * Bytes at the start of a buffer.
   *
   * @param buffer not copied; must not change while these bytes are in use
   * @param length how many of its bytes are the file
   * @return them
   */
  public static ImageBytes of(byte[] buffer, int length) {
    if (length < 0 || length > buffer.length) {
      throw new IllegalArgumentException(
          "expected a length in [0, " + buffer.length + "] bytes, found " + length);
    }
    return new InMemory(buffer, length);
  }

  /**
   * The bytes of an open file.
   *
   * @param channel readable; stays the caller's to close
   * @return its bytes, at most the length that it has now
   * @throws IOException when the length can not be found out
   */
  public static ImageBytes of(FileChannel channel) throws IOException {
    return new OnDisk(channel, channel.size());
  }

  /**
   * How many there are.
   *
   * @return bytes, 0 or more
   */
  public abstract long length();

  /** The byte at an offset, in 0..255. */
  abstract int uint8(long at) throws EOFException;

  /** Copies bytes whose existence has been checked. */
  abstract byte[] copyChecked(long from, int length);

  /**
   * Copies a range.
   *
   * @param from first byte
   * @param length how many, at most as many as fit into an array
   * @return the bytes
   * @throws EOFException when a part of the range lies outside the file
   */
  public final byte[] copy(long from, long length) throws EOFException {
    if (!has(from, length) || length > Integer.MAX_VALUE - 8) {
      throw outside(from, length);
    }
    return copyChecked(from, (int) length);
  }

  /** The first bytes, fewer when the file is shorter. */
  final byte[] head(int atMost) {
    return copyChecked(0, (int) Math.min(atMost, length()));
  }

  final boolean has(long from, long length) {
    return from >= 0 && length >= 0 && from <= length() && length <= length() - from;
  }

  /** A range of these bytes, cut at their end, with offsets of its own. */
  final ImageBytes part(long from, long length) throws EOFException {
    if (!has(from, 0) || length < 0) {
      throw outside(from, length);
    }
    return new Part(this, from, Math.min(length, length() - from));
  }

  final int uint16(long at) throws EOFException {
    return uint8(at) << 8 | uint8(at + 1);
  }

  final long uint32(long at) throws EOFException {
    return (long) uint16(at) << 16 | uint16(at + 2);
  }

  /** A number of 0 to 8 bytes, most significant first; negative when it does not fit. */
  final long uint(long at, int bytes) throws EOFException {
    long value = 0;
    for (int i = 0; i < bytes; i++) {
      value = value << 8 | uint8(at + i);
    }
    return value;
  }

  final long uint32LittleEndian(long at) throws EOFException {
    return Integer.toUnsignedLong(Integer.reverseBytes((int) uint32(at)));
  }

  final boolean startsWith(long at, byte[] expected) throws EOFException {
    if (!has(at, expected.length)) {
      return false;
    }
    for (int i = 0; i < expected.length; i++) {
      if (uint8(at + i) != (expected[i] & 0xFF)) {
        return false;
      }
    }
    return true;
  }

  final EOFException outside(long from, long length) {
    return new EOFException(
        "bytes " + from + " and " + length + " more, of a file of " + length() + " bytes");
  }

  private static final class InMemory extends ImageBytes {
    private final byte[] content;
    private final int length;

    InMemory(byte[] content, int length) {
      this.content = content;
      this.length = length;
    }

    @Override
    public long length() {
      return length;
    }

    @Override
    int uint8(long at) throws EOFException {
      if (at < 0 || at >= length) {
        throw outside(at, 1);
      }
      return content[(int) at] & 0xFF;
    }

    @Override
    byte[] copyChecked(long from, int count) {
      return Arrays.copyOfRange(content, (int) from, (int) from + count);
    }
  }

  private static final class Part extends ImageBytes {
    private final ImageBytes whole;
    private final long from;
    private final long length;

    Part(ImageBytes whole, long from, long length) {
      this.whole = whole;
      this.from = from;
      this.length = length;
    }

    @Override
    public long length() {
      return length;
    }

    @Override
    int uint8(long at) throws EOFException {
      if (at < 0 || at >= length) {
        throw outside(at, 1);
      }
      return whole.uint8(from + at);
    }

    @Override
    byte[] copyChecked(long start, int count) {
      return whole.copyChecked(from + start, count);
    }
  }

  private static final class OnDisk extends ImageBytes {
    private final FileChannel channel;
    private final long length;
    private final Map<Long, byte[]> pages =
        new LinkedHashMap<>(PAGES * 2, 0.75f, true) {
          private static final long serialVersionUID = 1L;

          @Override
          protected boolean removeEldestEntry(Map.Entry<Long, byte[]> eldest) {
            return size() > PAGES;
          }
        };
    private long latest = -1;
    private byte[] latestPage = new byte[0];

    OnDisk(FileChannel channel, long length) {
      this.channel = channel;
      this.length = length;
    }

    @Override
    public long length() {
      return length;
    }

    @Override
    int uint8(long at) throws EOFException {
      if (at < 0 || at >= length) {
        throw outside(at, 1);
      }
      long number = at / PAGE_BYTES;
      if (number != latest) {
        latestPage = pages.computeIfAbsent(number, this::page);
        latest = number;
      }
      return latestPage[(int) (at % PAGE_BYTES)] & 0xFF;
    }

    private byte[] page(long number) {
      long from = number * PAGE_BYTES;
      return copyChecked(from, (int) Math.min(PAGE_BYTES, length - from));
    }

    @Override
    byte[] copyChecked(long from, int count) {
      ByteBuffer buffer = ByteBuffer.allocate(count);
      try {
        while (buffer.hasRemaining()) {
          if (channel.read(buffer, from + buffer.position()) < 0) {
            throw new EOFException("the file became shorter while it was read");
          }
        }
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
      return buffer.array();
    }
  }
}
