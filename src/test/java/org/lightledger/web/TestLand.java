package org.lightledger.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/**
 * Elevation tiles of the country around {@link TestSite}'s places: a plain at 800 m, a wavy ridge
 * two and a half kilometres to the west, a lone hill in the south-east. The tiles end five
 * kilometres to the north, so the skyline there is only a lower bound.
 */
final class TestLand {
  private static final int POSTS = 1201;
  private static final int RIDGE_COLUMN = 430;
  private static final short PLAIN_M = 800;

  private TestLand() {}

  /** Writes the tile of the places and its neighbours to the west and south; returns the folder. */
  static Path write(Path folder) {
    tile(folder);
    ByteBuffer plain = ByteBuffer.allocate(POSTS * POSTS * 2);
    while (plain.hasRemaining()) {
      plain.putShort(PLAIN_M);
    }
    for (String name : List.of("N41W008", "N40W008", "N40W007")) {
      write(folder.resolve(name + ".hgt"), plain);
    }
    return folder;
  }

  /** Writes the tile of the places alone; returns the file. */
  static Path tile(Path folder) {
    ByteBuffer posts = ByteBuffer.allocate(POSTS * POSTS * 2);
    for (int row = 0; row < POSTS; row++) {
      for (int column = 0; column < POSTS; column++) {
        posts.putShort((short) Math.round(heightM(row, column)));
      }
    }
    return write(folder.resolve("N41W007.hgt"), posts);
  }

  private static Path write(Path file, ByteBuffer posts) {
    try {
      Files.createDirectories(file.toAbsolutePath().getParent());
      return Files.write(file, posts.array());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static double heightM(int row, int column) {
    double ridge =
        (190 + 60 * Math.sin(row / 9.0)) * Math.exp(-Math.pow((column - RIDGE_COLUMN) / 9.0, 2));
    double hill =
        220 * Math.exp(-(Math.pow((column - 510) / 9.0, 2) + Math.pow((row - 85) / 9.0, 2)));
    return PLAIN_M + ridge + hill;
  }
}
