/**
 * Glyphs and charts as SVG: pure functions, so that page, share file and print show one picture.
 */
@NullMarked
package org.lightledger.web.chart;

import org.jspecify.annotations.NullMarked;
