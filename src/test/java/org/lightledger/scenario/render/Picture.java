package org.lightledger.scenario.render;

/**
 * A finished picture and what is true of it.
 *
 * @param width pixels
 * @param height pixels
 * @param rgb 0xRRGGBB, row by row from the upper left
 * @param exposure what the camera was set to
 * @param camera the camera that took it
 * @param sunInFrame whether the sun's disc lies in the picture with nothing before it
 * @param sunOnSubject share of the sun's disc that the stand-in sees, in [0, 1]
 * @param figure share of each pixel covered by the stand-in
 */
public record Picture(
    int width,
    int height,
    int[] rgb,
    Exposure exposure,
    Camera camera,
    boolean sunInFrame,
    double sunOnSubject,
    float[] figure) {}
