package org.lightledger.shot.exif;

import com.drew.lang.BufferBoundsException;
import com.drew.lang.RandomAccessReader;
import java.io.IOException;

/** Lets the library's TIFF reader reach into a file that is not in memory. */
final class TiffBytes extends RandomAccessReader {
  private final ImageBytes bytes;

  TiffBytes(ImageBytes bytes) {
    this.bytes = bytes;
  }

  @Override
  public int toUnshiftedOffset(int localOffset) {
    return localOffset;
  }

  @Override
  public byte getByte(int index) throws IOException {
    return (byte) bytes.uint8(index);
  }

  @Override
  public byte[] getBytes(int index, int count) throws IOException {
    return bytes.copy(index, count);
  }

  @Override
  protected void validateIndex(int index, int bytesRequested) throws IOException {
    if (!isValidIndex(index, bytesRequested)) {
      throw new BufferBoundsException(index, bytesRequested, getLength());
    }
  }

  @Override
  protected boolean isValidIndex(int index, int bytesRequested) {
    return bytes.has(index, bytesRequested);
  }

  @Override
  public long getLength() {
    return bytes.length();
  }
}
