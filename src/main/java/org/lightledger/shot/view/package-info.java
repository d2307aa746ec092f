/**
 * The geometry of a picture: which way a pixel looks, and which way the camera looked when the sun
 * or a shadow is at a pixel.
 */
@NullMarked
package org.lightledger.shot.view;

import org.jspecify.annotations.NullMarked;
