package org.lightledger.scenario.render;

import java.time.LocalDate;

/**
 * How the land looks at a time of the year.
 *
 * @param leafShare share of leaves on trees that shed them, in [0, 1]
 * @param leaf colour of broad leaves
 * @param poplar colour of poplar leaves
 * @param grass colour of grass
 * @param dryShare share of dry blades among the grass, in [0, 1]
 * @param wheat how the wheat stands
 * @param wheatColour colour of the wheat
 * @param flowers flowers per patch of meadow
 * @param blossom whether the fruit trees are in blossom
 */
public record Season(
    double leafShare,
    Vec3 leaf,
    Vec3 poplar,
    Vec3 grass,
    double dryShare,
    Wheat wheat,
    Vec3 wheatColour,
    int flowers,
    boolean blossom) {
  /** How wheat stands. */
  public enum Wheat {
    SHOOTS,
    TALL,
    STUBBLE
  }

  private static final Vec3 GREEN = new Vec3(0.075, 0.135, 0.032);
  private static final Vec3 STRAW = new Vec3(0.42, 0.30, 0.11);

  private static final Season WINTER =
      new Season(
          0.0,
          GREEN,
          GREEN,
          new Vec3(0.12, 0.14, 0.055),
          0.55,
          Wheat.SHOOTS,
          new Vec3(0.085, 0.16, 0.04),
          0,
          false);
  private static final Season EARLY_SPRING =
      new Season(
          0.35,
          new Vec3(0.13, 0.19, 0.04),
          new Vec3(0.15, 0.18, 0.045),
          new Vec3(0.10, 0.165, 0.04),
          0.25,
          Wheat.SHOOTS,
          new Vec3(0.08, 0.17, 0.035),
          3,
          true);
  private static final Season SPRING =
      new Season(
          0.9,
          new Vec3(0.085, 0.16, 0.035),
          new Vec3(0.095, 0.165, 0.04),
          new Vec3(0.085, 0.16, 0.035),
          0.10,
          Wheat.TALL,
          new Vec3(0.12, 0.19, 0.055),
          14,
          false);
  private static final Season SUMMER =
      new Season(
          1.0,
          GREEN,
          new Vec3(0.08, 0.135, 0.04),
          new Vec3(0.15, 0.155, 0.05),
          0.6,
          Wheat.TALL,
          STRAW,
          4,
          false);
  private static final Season EARLY_AUTUMN =
      new Season(
          0.9,
          new Vec3(0.12, 0.13, 0.028),
          new Vec3(0.16, 0.15, 0.03),
          new Vec3(0.13, 0.14, 0.05),
          0.6,
          Wheat.STUBBLE,
          STRAW,
          0,
          false);
  private static final Season LATE_AUTUMN =
      new Season(
          0.6,
          new Vec3(0.34, 0.17, 0.03),
          new Vec3(0.46, 0.29, 0.035),
          new Vec3(0.115, 0.145, 0.045),
          0.4,
          Wheat.SHOOTS,
          new Vec3(0.10, 0.16, 0.045),
          0,
          false);

  /** The land's look on a date, north of the tropics. */
  public static Season on(LocalDate date) {
    int day = date.getMonthValue() * 100 + date.getDayOfMonth();
    if (day < 315 || day >= 1205) {
      return WINTER;
    }
    if (day < 420) {
      return EARLY_SPRING;
    }
    if (day < 612) {
      return SPRING;
    }
    if (day < 825) {
      return SUMMER;
    }
    return day < 1015 ? EARLY_AUTUMN : LATE_AUTUMN;
  }
}
