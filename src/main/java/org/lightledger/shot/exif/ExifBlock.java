package org.lightledger.shot.exif;

import com.drew.imaging.tiff.TiffReader;
import com.drew.lang.ByteArrayReader;
import java.io.IOException;
import java.util.HashSet;
import java.util.Set;

/**
 * The three directories of an Exif block. Each is read on its own, so that damage in one leaves the
 * others.
 */
record ExifBlock(TagDirectory ifd0, TagDirectory exif, TagDirectory gps, boolean sensorData) {
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
        false);
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
    ExifBlock block = empty();
    ByteArrayReader reader = new ByteArrayReader(tiff);
    Set<Integer> seen = new HashSet<>();
    boolean sensorData = false;
    try {
      int order = reader.getUInt16(0);
      if (order != 0x4D4D && order != 0x4949) {
        block.ifd0.markDamaged();
        return block;
      }
      reader.setMotorolaByteOrder(order == 0x4D4D);
      readDirectory(block.ifd0, reader, seen, reader.getUInt32(4));
    } catch (IOException e) {
      block.ifd0.markDamaged();
      return block;
    }
    sensorData = isSensorData(block.ifd0);
    for (long offset : block.ifd0.integers(Tags.SUB_IFDS)) {
      TagDirectory sub = new TagDirectory(Tags.IN_SUB_IFD);
      readDirectory(sub, reader, seen, offset);
      sensorData |= isSensorData(sub);
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
    return new ExifBlock(block.ifd0, block.exif, block.gps, sensorData);
  }

  private static boolean isSensorData(TagDirectory directory) {
    Long photometric = directory.integer(Tags.PHOTOMETRIC_INTERPRETATION);
    Long compression = directory.integer(Tags.COMPRESSION);
    return (photometric != null && SENSOR_PHOTOMETRIC.contains(photometric))
        || (compression != null && SENSOR_COMPRESSION.contains(compression));
  }

  private static void readDirectory(
      TagDirectory directory, ByteArrayReader reader, Set<Integer> seen, long offset) {
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
  private static boolean lacksWantedTag(TagDirectory directory, ByteArrayReader reader, int offset)
      throws IOException {
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
