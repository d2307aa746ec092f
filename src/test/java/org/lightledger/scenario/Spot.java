package org.lightledger.scenario;

import java.util.List;

/**
 * A place where a portrait subject can stand.
 *
 * @param name what the studio calls it
 * @param area the area it belongs to
 * @param at where the subject stands
 * @param facingsDeg true bearings the camera looks along, degrees in [0, 360)
 * @param note what it is good for
 * @param caution what to mind, or empty
 */
public record Spot(
    String name, String area, Point at, List<Double> facingsDeg, String note, String caution) {}
