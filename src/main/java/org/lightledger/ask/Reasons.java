package org.lightledger.ask;

import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.light.LightRules;
import org.lightledger.skyline.Clearance;
import org.lightledger.sun.SunDirection;

/** Says in one sentence why an answer is what it is. */
final class Reasons {
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private Reasons() {}

  static String of(
      Candidate candidate,
      OffsetDateTime at,
      @Nullable OffsetDateTime directUntil,
      Sky sky,
      Answer.Tier tier,
      Answer.@Nullable NearestShot nearest) {
    if (sky == Sky.OVERCAST) {
      return where(at, candidate.sun())
          + "under an overcast sky the light is "
          + (candidate.light().light() == LightClass.OPEN_SHADE
              ? "even and without direct sun, whichever way one looks."
              : candidate.light().light().label() + ".");
    }
    return where(at, candidate.sun())
        + which(candidate.light().light(), candidate.sun(), candidate.facing(), candidate.basis())
        + skyline(candidate.light(), directUntil)
        + evidence(candidate.light(), tier, nearest);
  }

  private static String where(OffsetDateTime at, SunDirection sun) {
    double altitudeDeg = sun.apparentAltitudeDeg();
    return String.format(
        Locale.ROOT,
        "At %s the sun stands in the %s (%.0f°), %.1f° %s the horizon; ",
        HOUR.format(at),
        sun.azimuth().compassPoint(),
        sun.azimuth().trueDeg(),
        Math.abs(altitudeDeg),
        altitudeDeg < 0 ? "below" : "above");
  }

  private static String which(
      LightClass light, SunDirection sun, Bearing facing, Answer.FacingBasis basis) {
    String look =
        switch (basis) {
          case KNOWN -> "looking";
          case OPEN -> "any direction works here, and looking";
          case SUGGESTED -> "no facing is known here; looking";
        };
    double turnDeg = facing.turnToDeg(sun.azimuth());
    String side =
        Math.abs(turnDeg) < 0.5
            ? "straight ahead"
            : String.format(
                Locale.ROOT,
                "%.0f° to the %s of the line of view",
                Math.abs(turnDeg),
                turnDeg < 0 ? "left" : "right");
    return String.format(
        Locale.ROOT,
        "%s %s (%.0f°) it is %s: %s (%s).",
        look,
        facing.compassPoint(),
        facing.trueDeg(),
        side,
        light.label(),
        rule(light));
  }

  private static String rule(LightClass light) {
    return switch (light) {
      case BACKLIT -> upTo(0, LightRules.BACKLIT_UP_TO_DEG);
      case RIM -> upTo(LightRules.BACKLIT_UP_TO_DEG, LightRules.RIM_UP_TO_DEG);
      case SIDE -> upTo(LightRules.RIM_UP_TO_DEG, LightRules.SIDE_UP_TO_DEG);
      case THREE_QUARTER_FRONT ->
          upTo(LightRules.SIDE_UP_TO_DEG, LightRules.THREE_QUARTER_FRONT_UP_TO_DEG);
      case FRONT -> upTo(LightRules.THREE_QUARTER_FRONT_UP_TO_DEG, 180);
      case OVERHEAD ->
          String.format(Locale.ROOT, "higher than %.0f°", LightRules.OVERHEAD_ABOVE_DEG);
      case OPEN_SHADE -> "behind the skyline";
      case TWILIGHT ->
          String.format(
              Locale.ROOT,
              "below the horizon, down to %.0f°",
              Math.abs(LightRules.TWILIGHT_DOWN_TO_DEG));
      case DARK ->
          String.format(Locale.ROOT, "lower than %.0f°", Math.abs(LightRules.TWILIGHT_DOWN_TO_DEG));
    };
  }

  private static String upTo(double fromDeg, double toDeg) {
    return String.format(Locale.ROOT, "%.0f° to %.0f°", fromDeg, toDeg);
  }

  private static String skyline(SpotLight light, @Nullable OffsetDateTime directUntil) {
    Clearance clearance = light.clearance();
    if (clearance == null) {
      return "";
    }
    boolean doubtful = !clearance.certain() && light.directSun() != null;
    return " The sun "
        + clearance.toText()
        + (doubtful ? ", which is too close to tell" : "")
        + (directUntil == null
            ? ""
            : (doubtful ? "; as modelled, direct sun until " : "; direct sun until ")
                + HOUR.format(directUntil))
        + ".";
  }

  private static String evidence(
      SpotLight light, Answer.Tier tier, Answer.@Nullable NearestShot nearest) {
    String gap = nearest == null ? "" : String.format(Locale.ROOT, "%.0f°", nearest.sunGapDeg());
    if (tier == Answer.Tier.SCOUTED) {
      return " Seen: a shot looks this way with the sun " + gap + " from there.";
    }
    String shot =
        nearest == null
            ? " No shot was taken here"
            : " The nearest shot had the sun " + gap + " from there";
    boolean near = nearest != null && nearest.sunGapDeg() <= Answer.LIKE_LIGHT_GAP_DEG;
    String other = near ? ", but looks another way or was taken in another light" : "";
    boolean known = light.directSun() != null;
    return shot + other + (known ? "." : ", and what may hide the sun is not known.");
  }
}
