package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.US_ASCII;

import com.adobe.internal.xmp.XMPConst;
import com.adobe.internal.xmp.XMPException;
import com.adobe.internal.xmp.XMPMeta;
import com.adobe.internal.xmp.XMPMetaFactory;
import com.adobe.internal.xmp.options.ParseOptions;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.Problem;

/**
 * The position of an XMP packet, which editing programs write when they place a picture (XMP
 * specification part 2, Exif schema). It is read only when the Exif block has none: parsing XML
 * costs more than all the rest.
 */
final class XmpPlace {
  private static final byte[] MARK = "GPSLatitude".getBytes(US_ASCII);

  /** "DDD,MM,SSk" or "DDD,MM.mmk" (XMP specification part 2, GPSCoordinate). */
  private static final Pattern COORDINATE =
      Pattern.compile("(\\d{1,3}),(\\d{1,2}(?:\\.\\d+)?)(?:,(\\d{1,2}(?:\\.\\d+)?))?([NSEW])");

  private XmpPlace() {}

  /** The position, or null when the packet has none or a refused one. */
  static @Nullable GeoPoint read(byte[] packet, Findings findings) {
    if (!mentionsPosition(packet)) {
      return null;
    }
    try {
      return read(parse(packet), findings);
    } catch (XMPException e) {
      findings.damaged("The XMP packet can not be read; its position is not used.");
      return null;
    }
  }

  /** Parses a packet; a document type, which could name other files, is not accepted. */
  static XMPMeta parse(byte[] packet) throws XMPException {
    return XMPMetaFactory.parseFromBuffer(packet, new ParseOptions().setDisallowDoctype(true));
  }

  /** The position of a parsed packet, or null when it has none or a refused one. */
  static @Nullable GeoPoint read(XMPMeta meta, Findings findings) throws XMPException {
    String latitudeText = meta.getPropertyString(XMPConst.NS_EXIF, "GPSLatitude");
    String longitudeText = meta.getPropertyString(XMPConst.NS_EXIF, "GPSLongitude");
    String datum = meta.getPropertyString(XMPConst.NS_EXIF, "GPSMapDatum");
    if (latitudeText == null && longitudeText == null) {
      return null;
    }
    Double latitude = degrees(latitudeText, "NS", 90);
    Double longitude = degrees(longitudeText, "EW", 180);
    if (latitude == null || longitude == null) {
      refuse(
          findings,
          "it reads \"%s\", \"%s\"; expected such as 48,53.3235N and 21,2.595E",
          CameraClock.shortened(String.valueOf(latitudeText)),
          CameraClock.shortened(String.valueOf(longitudeText)));
      return null;
    }
    if (datum != null && !datum.isBlank() && !GpsPlace.isLikeWgs84(datum)) {
      refuse(
          findings, "it is written in the datum \"%s\", not WGS 84", CameraClock.shortened(datum));
      return null;
    }
    return new GeoPoint(latitude, longitude);
  }

  private static void refuse(Findings findings, String format, Object... values) {
    findings.add(
        Problem.Kind.POSITION_REFUSED,
        "The position of the XMP packet is not used: " + format + ".",
        values);
  }

  static @Nullable Double degrees(@Nullable String text, String letters, double limitDeg) {
    Matcher matcher = COORDINATE.matcher(text == null ? "" : text.strip());
    if (!matcher.matches() || letters.indexOf(matcher.group(4)) < 0) {
      return null;
    }
    double minutes = Double.parseDouble(matcher.group(2));
    double seconds = matcher.group(3) == null ? 0 : Double.parseDouble(matcher.group(3));
    double size = Double.parseDouble(matcher.group(1)) + minutes / 60 + seconds / 3600;
    if (minutes >= 60 || seconds > 60 || size > limitDeg) {
      return null;
    }
    return letters.indexOf(matcher.group(4)) == 0 ? size : 0.0 - size;
  }

  private static boolean mentionsPosition(byte[] packet) {
    for (int at = 0; at + MARK.length <= packet.length; at++) {
      int i = 0;
      while (i < MARK.length && packet[at + i] == MARK[i]) {
        i++;
      }
      if (i == MARK.length) {
        return true;
      }
    }
    return false;
  }
}
