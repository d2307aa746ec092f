/** Track logs: GPX files that tell where the photographer was, for cameras without GPS. */
@NullMarked
package org.lightledger.shot.track;

import org.jspecify.annotations.NullMarked;
