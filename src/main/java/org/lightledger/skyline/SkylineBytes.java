package org.lightledger.skyline;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/**
 * A skyline as bytes, big endian: one byte for the version, then for each step the altitude and the
 * uncertainty (IEEE 754 single precision), the source and the flags (a byte each).
 */
final class SkylineBytes {
  private static final byte VERSION = 1;
  private static final int PER_STEP = 2 * Float.BYTES + 2;
  private static final int LENGTH = 1 + Skyline.STEPS * PER_STEP;

  private SkylineBytes() {}

  static byte[] write(float[] altitudeDeg, float[] uncertaintyDeg, byte[] sources, byte[] flags) {
    ByteBuffer bytes = ByteBuffer.allocate(LENGTH).order(ByteOrder.BIG_ENDIAN);
    bytes.put(VERSION);
    for (int step = 0; step < Skyline.STEPS; step++) {
      bytes
          .putFloat(altitudeDeg[step])
          .putFloat(uncertaintyDeg[step])
          .put(sources[step])
          .put(flags[step]);
    }
    return bytes.array();
  }

  static Skyline read(byte[] stored) {
    if (stored.length != LENGTH || stored[0] != VERSION) {
      throw new IllegalArgumentException(
          "expected a skyline of version %d in %d bytes, found %s; recompute the skyline"
              .formatted(
                  VERSION,
                  LENGTH,
                  stored.length == 0
                      ? "no bytes"
                      : "version " + stored[0] + " in " + stored.length + " bytes"));
    }
    ByteBuffer bytes = ByteBuffer.wrap(stored).order(ByteOrder.BIG_ENDIAN);
    bytes.get();
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.setStored(step, bytes.getFloat(), bytes.getFloat(), bytes.get(), bytes.get());
    }
    return builder.build();
  }
}
