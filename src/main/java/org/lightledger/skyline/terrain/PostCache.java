package org.lightledger.skyline.terrain;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Keeps the posts of the chunks last used, up to a number of bytes; the newest is always kept. Safe
 * for use by several threads; a chunk is read by one thread while the others wait.
 */
final class PostCache {
  private final long mostBytes;
  private final Map<Chunk, Posts> kept = new LinkedHashMap<>(16, 0.75f, true);
  private long bytes;
  private int reads;

  PostCache(long mostBytes) {
    this.mostBytes = mostBytes;
  }

  synchronized Posts posts(Chunk chunk, PostReader reader) {
    Posts posts = kept.get(chunk);
    if (posts == null) {
      try {
        posts = reader.read();
      } catch (IOException e) {
        throw new UncheckedIOException(e.getMessage(), e);
      }
      reads++;
      kept.put(chunk, posts);
      bytes += posts.bytes();
      Iterator<Posts> oldest = kept.values().iterator();
      while (bytes > mostBytes && kept.size() > 1) {
        bytes -= oldest.next().bytes();
        oldest.remove();
      }
    }
    return posts;
  }

  /** Bytes of posts held now. */
  synchronized long bytes() {
    return bytes;
  }

  /** How often posts were read from files. */
  synchronized int reads() {
    return reads;
  }
}
