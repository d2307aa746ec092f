package org.lightledger.session.outgoing;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;

/**
 * The call sheet of the studio for one session, in words, so that every form of it shows the same.
 * It is the owner's: it leaves the ledger in no message.
 *
 * @param title who and when, and first that it is cancelled when it is
 * @param head times, meeting place and sunset, each with its name
 * @param stops in order
 * @param brief wishes, talking points, pictures wanted, the small goal and answers, each with its
 *     name; only what is noted
 * @param packing what is packed
 * @param meeting where all meet
 */
public record Sheet(
    String title,
    List<Line> head,
    List<Stop> stops,
    List<Line> brief,
    List<Packed> packing,
    GeoPoint meeting) {

  /** Keeps own copies. */
  public Sheet {
    head = List.copyOf(head);
    stops = List.copyOf(stops);
    brief = List.copyOf(brief);
    packing = List.copyOf(packing);
  }

  /**
   * Something with its name.
   *
   * @param name for example "Sunset"
   * @param words for example "18:04"
   */
  public record Line(String name, String words) {}

  /**
   * A thing to pack.
   *
   * @param words what it is
   * @param done whether it is packed
   */
  public record Packed(String words, boolean done) {}

  /**
   * A stop.
   *
   * @param number its place in the order, 1 or more
   * @param name the spot's name
   * @param place where it is
   * @param times arrival, first picture and departure
   * @param outfit which outfit is worn
   * @param drive the drive to it with who says so, "" for none
   * @param light the class of the light half way; null when no facing is set
   * @param turnDeg signed turn from the facing to the sun half way, degrees in (-180, 180]; 0 when
   *     no facing is set
   * @param lines sun, facing, light, exposure, cautions, fallback, each with its name; only what
   *     there is
   */
  public record Stop(
      int number,
      String name,
      GeoPoint place,
      String times,
      String outfit,
      String drive,
      @Nullable LightClass light,
      double turnDeg,
      List<Line> lines) {

    /** Keeps an own copy. */
    public Stop {
      lines = List.copyOf(lines);
    }
  }
}
