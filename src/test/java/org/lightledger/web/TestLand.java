package org.lightledger.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * An elevation tile of the country around {@link TestSite}'s places: a plain at 800 m, a wavy ridge
 * two and a half kilometres to the west, a lone hill in the south-east. The tile ends five
 * kilometres to the north, so the skyline there is only a lower bound.
 */
final class TestLand {
  private static final int POSTS = 1201;
  private static final int RIDGE_COLUMN = 430;

  private TestLand() {}

  static Path write(Path folder) {
    ByteBuffer posts = ByteBuffer.allocate(POSTS * POSTS * 2);
    for (int row = 0; row < POSTS; row++) {
      for (int column = 0; column < POSTS; column++) {
        posts.putShort((short) Math.round(heightM(row, column)));
      }
    }
    try {
      Path tile = Files.createDirectories(folder).resolve("N41W007.hgt");
      return Files.write(tile, posts.array());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static double heightM(int row, int column) {
    double ridge =
        (190 + 60 * Math.sin(row / 9.0)) * Math.exp(-Math.pow((column - RIDGE_COLUMN) / 9.0, 2));
    double hill =
        220 * Math.exp(-(Math.pow((column - 510) / 9.0, 2) + Math.pow((row - 85) / 9.0, 2)));
    return 800 + ridge + hill;
  }
}
