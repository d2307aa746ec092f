/**
 * What a photographer would fetch about the invented town's region: elevation files and a map
 * extract, written from the same model as the sample photos. Nothing in them is real.
 */
@NullMarked
package org.lightledger.scenario.region;

import org.jspecify.annotations.NullMarked;
