package org.lightledger.scenario;

/** The invented cameras that the scouting shots come from. */
enum Body {
  /** The studio's camera: knows its place, direction and offset from UTC. */
  MAIN("Norvane", "LN2", "LN2_", 1.0),

  /** A telephone: a small sensor with the same picture angle as its equivalent focal length. */
  PHONE("Ploma", "P6", "P6_", 5.6),

  /** An old second camera without a receiver for satellites. */
  OLD("Ottecar", "35S", "OT35_", 1.0);

  private final String make;
  private final String model;
  private final String prefix;
  private final double crop;

  Body(String make, String model, String prefix, double crop) {
    this.make = make;
    this.model = model;
    this.prefix = prefix;
    this.crop = crop;
  }

  String make() {
    return make;
  }

  String model() {
    return model;
  }

  String prefix() {
    return prefix;
  }

  /** Equivalent focal length over true focal length. */
  double crop() {
    return crop;
  }
}
