/**
 * What an image file says about itself, tag by tag, or a named problem. The only user of
 * metadata-extractor and of XMP.
 */
@NullMarked
package org.lightledger.shot.exif;

import org.jspecify.annotations.NullMarked;
