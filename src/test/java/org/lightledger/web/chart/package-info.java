/** Tests of the drawings. */
@NullMarked
package org.lightledger.web.chart;

import org.jspecify.annotations.NullMarked;
