package org.lightledger.shot.exif;

import com.drew.imaging.tiff.TiffReader;
import com.drew.lang.ByteArrayReader;
import com.drew.lang.RandomAccessReader;
import java.io.IOException;
import java.util.HashSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The three directories of an Exif block. Each is read on its own, so that damage in one leaves the
 * others.
 *
 * @param ifd0 the main directory
 * @param exif the Exif directory
 * @param gps the GPS directory
 * @param sensor the directory that describes a camera's sensor data, or null when there is none
 */
record ExifBlock(
    TagDirectory ifd0, TagDirectory exif, TagDirectory gps, @Nullable TagDirectory sensor) {
  /** TIFF 6.0 PhotometricInterpretation of TIFF/EP (ISO 12234-2) and DNG raw data. */
  private static final Set<Long> SENSOR_PHOTOMETRIC = Set.of(32803L, 34892L);

  /**
   * Compressions that only camera raw files use: Sony 32767, Nikon 34713, Kodak 65000, Pentax 65535
   * (libtiff's tiff.h and dcraw's list of compressions; from memory).
   */
  private static final Set<Long> SENSOR_COMPRESSION = Set.of(32767L, 34713L, 65000L, 65535L);

  /** A file without any Exif. */
  static ExifBlock empty() {
    return new ExifBlock(
        new TagDirectory(Tags.IN_IFD0),
        new TagDirectory(Tags.IN_EXIF),
        new TagDirectory(Tags.IN_GPS),
        null);
  }

  boolean damaged() {
    return ifd0.damaged() || exif.damaged() || gps.damaged();
  }

  /**
   * Reads a TIFF structure.
   *
   * @param tiff from the byte order mark on
   */
  static ExifBlock read(byte[] tiff) {
    return read(new ByteArrayReader(tiff));
  }

  /**
   * Reads a TIFF structure.
   *
   * @param reader gives the bytes from the byte order mark on
   */
  static ExifBlock read(RandomAccessReader reader) {
    ExifBlock block = empty();
    Set<Integer> seen = new HashSet<>();
    if (!readFirst(block.ifd0, reader, seen)) {
      return block;
    }
    TagDirectory sensor = isSensorData(block.ifd0) ? block.ifd0 : null;
    for (long offset : block.ifd0.integers(Tags.SUB_IFDS)) {
      TagDirectory sub = new TagDirectory(Tags.IN_SUB_IFD);
      readDirectory(sub, reader, seen, offset);
      if (sensor == null && isSensorData(sub)) {
        sensor = sub;
      }
    }
    Long exifOffset = block.ifd0.integer(Tags.EXIF_IFD);
    if (exifOffset != null) {
      readDirectory(block.exif, reader, seen, exifOffset);
    }
    Long gpsOffset = block.ifd0.integer(Tags.GPS_IFD);
    if (gpsOffset == null) {
      gpsOffset = block.exif.integer(Tags.GPS_IFD);
    }
    if (gpsOffset != null) {
      readDirectory(block.gps, reader, seen, gpsOffset);
    }
    return new ExifBlock(block.ifd0, block.exif, block.gps, sensor);
  }

  /** Reads three TIFF structures, each with one of the directories as its first. */
  static ExifBlock ofParts(byte @Nullable [] ifd0, byte @Nullable [] exif, byte @Nullable [] gps) {
    ExifBlock block = empty();
    readPart(block.ifd0, ifd0);
    readPart(block.exif, exif);
    readPart(block.gps, gps);
    return block;
  }

  private static void readPart(TagDirectory directory, byte @Nullable [] tiff) {
    if (tiff != null) {
      readFirst(directory, new ByteArrayReader(tiff), new HashSet<>());
    }
  }

  private static boolean readFirst(
      TagDirectory directory, RandomAccessReader reader, Set<Integer> seen) {
    try {
      int order = reader.getUInt16(0);
      if (order != 0x4D4D && order != 0x4949) {
        directory.markDamaged();
        return false;
      }
      reader.setMotorolaByteOrder(order == 0x4D4D);
      readDirectory(directory, reader, seen, reader.getUInt32(4));
      return true;
    } catch (IOException e) {
      directory.markDamaged();
      return false;
    }
  }

  private static boolean isSensorData(TagDirectory directory) {
    Long photometric = directory.integer(Tags.PHOTOMETRIC_INTERPRETATION);
    Long compression = directory.integer(Tags.COMPRESSION);
    return (photometric != null && SENSOR_PHOTOMETRIC.contains(photometric))
        || (compression != null && SENSOR_COMPRESSION.contains(compression));
  }

  private static void readDirectory(
      TagDirectory directory, RandomAccessReader reader, Set<Integer> seen, long offset) {
    if (offset < 0 || offset > Integer.MAX_VALUE) {
      directory.markDamaged();
      return;
    }
    try {
      TiffReader.processIfd(directory, reader, seen, (int) offset, 0);
      if (directory.hadErrors() && lacksWantedTag(directory, reader, (int) offset)) {
        directory.markDamaged();
      }
    } catch (IOException e) {
      directory.markDamaged();
    }
  }

  /**
   * Whether a wanted tag stands in the directory's list but could not be read; errors in maker
   * notes and other tags that are not read do not matter.
   */
  private static boolean lacksWantedTag(
      TagDirectory directory, RandomAccessReader reader, int offset) throws IOException {
    int count = reader.getUInt16(offset);
    for (int i = 0; i < count; i++) {
      int tag = reader.getUInt16(offset + 2 + 12 * i);
      if (directory.wants(tag) && !directory.has(tag)) {
        return true;
      }
    }
    return false;
  }
}
