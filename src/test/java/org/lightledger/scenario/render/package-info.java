/**
 * A small physically motivated ray tracer that draws the scenario's scouting photos.
 *
 * <p>Lengths are metres in the scenario's local frame (x east, y north, z up). Colours are linear
 * sRGB; radiances are luminances in cd/m2 per channel, so that the photometric value of a colour is
 * 0.2126 R + 0.7152 G + 0.0722 B.
 */
@NullMarked
package org.lightledger.scenario.render;

import org.jspecify.annotations.NullMarked;
