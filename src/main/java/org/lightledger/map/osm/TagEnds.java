package org.lightledger.map.osm;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** Passes XML on as long as elements end: one that never does would fill the memory. */
final class TagEnds extends FilterInputStream {
  /** OpenStreetMap's values have at most 255 signs; own choice, with much room. */
  static final int LONGEST_BYTES = 1 << 20;

  private int sinceEnd;

  TagEnds(InputStream in) {
    super(in);
  }

  @Override
  public int read() throws IOException {
    int b = super.read();
    if (b >= 0) {
      count((byte) b);
    }
    return b;
  }

  @Override
  public int read(byte[] bytes, int from, int length) throws IOException {
    int read = super.read(bytes, from, length);
    for (int i = from; i < from + read; i++) {
      count(bytes[i]);
    }
    return read;
  }

  private void count(byte b) throws OsmFileException {
    sinceEnd = b == '>' ? 0 : sinceEnd + 1;
    if (sinceEnd > LONGEST_BYTES) {
      throw new OsmFileException(
          "expected elements of less than 1 MB, found a longer one; this is no usual extract");
    }
  }
}
