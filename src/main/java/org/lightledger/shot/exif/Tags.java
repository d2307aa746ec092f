package org.lightledger.shot.exif;

import java.util.Set;

/**
 * The tags that are read, by number: TIFF 6.0, Exif (CIPA DC-008) tables 4 to 15, DNG specification
 * 1.6 for DNGVersion.
 */
final class Tags {
  static final int IMAGE_WIDTH = 0x0100;
  static final int IMAGE_LENGTH = 0x0101;
  static final int COMPRESSION = 0x0103;
  static final int PHOTOMETRIC_INTERPRETATION = 0x0106;
  static final int MAKE = 0x010F;
  static final int MODEL = 0x0110;
  static final int ORIENTATION = 0x0112;
  static final int DATE_TIME = 0x0132;
  static final int SUB_IFDS = 0x014A;
  static final int XMP = 0x02BC;
  static final int EXIF_IFD = 0x8769;
  static final int GPS_IFD = 0x8825;
  static final int DNG_VERSION = 0xC612;

  static final int EXPOSURE_TIME = 0x829A;
  static final int F_NUMBER = 0x829D;
  static final int PHOTOGRAPHIC_SENSITIVITY = 0x8827;
  static final int STANDARD_OUTPUT_SENSITIVITY = 0x8831;
  static final int RECOMMENDED_EXPOSURE_INDEX = 0x8832;
  static final int ISO_SPEED = 0x8833;
  static final int DATE_TIME_ORIGINAL = 0x9003;
  static final int DATE_TIME_DIGITIZED = 0x9004;
  static final int OFFSET_TIME = 0x9010;
  static final int OFFSET_TIME_ORIGINAL = 0x9011;
  static final int OFFSET_TIME_DIGITIZED = 0x9012;
  static final int SHUTTER_SPEED_VALUE = 0x9201;
  static final int APERTURE_VALUE = 0x9202;
  static final int SUB_SEC_TIME_ORIGINAL = 0x9291;
  static final int SUB_SEC_TIME_DIGITIZED = 0x9292;
  static final int PIXEL_X_DIMENSION = 0xA002;
  static final int PIXEL_Y_DIMENSION = 0xA003;
  static final int FOCAL_LENGTH_IN_35MM_FILM = 0xA405;

  static final int GPS_LATITUDE_REF = 0x0001;
  static final int GPS_LATITUDE = 0x0002;
  static final int GPS_LONGITUDE_REF = 0x0003;
  static final int GPS_LONGITUDE = 0x0004;
  static final int GPS_ALTITUDE_REF = 0x0005;
  static final int GPS_ALTITUDE = 0x0006;
  static final int GPS_TIME_STAMP = 0x0007;
  static final int GPS_STATUS = 0x0009;
  static final int GPS_IMG_DIRECTION_REF = 0x0010;
  static final int GPS_IMG_DIRECTION = 0x0011;
  static final int GPS_MAP_DATUM = 0x0012;
  static final int GPS_DATE_STAMP = 0x001D;
  static final int GPS_H_POSITIONING_ERROR = 0x001F;

  static final Set<Integer> IN_IFD0 =
      Set.of(
          IMAGE_WIDTH,
          IMAGE_LENGTH,
          COMPRESSION,
          PHOTOMETRIC_INTERPRETATION,
          MAKE,
          MODEL,
          ORIENTATION,
          DATE_TIME,
          SUB_IFDS,
          XMP,
          EXIF_IFD,
          GPS_IFD,
          DNG_VERSION);
  static final Set<Integer> IN_SUB_IFD =
      Set.of(IMAGE_WIDTH, IMAGE_LENGTH, COMPRESSION, PHOTOMETRIC_INTERPRETATION);
  static final Set<Integer> IN_EXIF =
      Set.of(
          EXPOSURE_TIME,
          F_NUMBER,
          PHOTOGRAPHIC_SENSITIVITY,
          STANDARD_OUTPUT_SENSITIVITY,
          RECOMMENDED_EXPOSURE_INDEX,
          ISO_SPEED,
          DATE_TIME_ORIGINAL,
          DATE_TIME_DIGITIZED,
          OFFSET_TIME,
          OFFSET_TIME_ORIGINAL,
          OFFSET_TIME_DIGITIZED,
          SHUTTER_SPEED_VALUE,
          APERTURE_VALUE,
          SUB_SEC_TIME_ORIGINAL,
          SUB_SEC_TIME_DIGITIZED,
          PIXEL_X_DIMENSION,
          PIXEL_Y_DIMENSION,
          FOCAL_LENGTH_IN_35MM_FILM,
          GPS_IFD);
  static final Set<Integer> IN_GPS =
      Set.of(
          GPS_LATITUDE_REF,
          GPS_LATITUDE,
          GPS_LONGITUDE_REF,
          GPS_LONGITUDE,
          GPS_ALTITUDE_REF,
          GPS_ALTITUDE,
          GPS_TIME_STAMP,
          GPS_STATUS,
          GPS_IMG_DIRECTION_REF,
          GPS_IMG_DIRECTION,
          GPS_MAP_DATUM,
          GPS_DATE_STAMP,
          GPS_H_POSITIONING_ERROR);

  private Tags() {}
}
