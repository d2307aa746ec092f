package org.lightledger.scenario;

/**
 * A straight wall pierced by equal arches: a bridge or an arcade.
 *
 * @param name its name
 * @param from one end of its middle line
 * @param to the other end
 * @param thicknessM from face to face, metres
 * @param arches how many arches
 * @param pierM width of the piers between the arches, metres
 * @param footUp where the piers stand, metres above the river's water
 * @param springM from the feet to where the arches spring, metres
 * @param riseM from where the arches spring to their crowns, metres
 * @param topUp its top in the middle, metres above the river's water
 * @param humpM how much lower its ends are, 0 for a level top
 * @param parapetM height of the parapets on top, 0 for none
 */
public record Arches(
    String name,
    Point from,
    Point to,
    double thicknessM,
    int arches,
    double pierM,
    double footUp,
    double springM,
    double riseM,
    double topUp,
    double humpM,
    double parapetM) {}
