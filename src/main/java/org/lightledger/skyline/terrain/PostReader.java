package org.lightledger.skyline.terrain;

import java.io.IOException;

/** Reads the posts of one chunk from its files. */
@FunctionalInterface
interface PostReader {
  Posts read() throws IOException;
}
