package org.lightledger.shot;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** When a shot was taken, and how that is known. There is no silent guess. */
public sealed interface CaptureTime {

  /** How an instant became known. */
  enum Source {
    /** The file says the offset from UTC. */
    OFFSET_TAG,
    /** The file's GPS time, held against its local time. */
    GPS_TIME,
    /** The local time in the zone of the place. */
    PLACE_ZONE,
    /** The owner's word. */
    OWNER
  }

  /**
   * A known instant.
   *
   * @param instant when, UTC
   * @param offset the offset at which the camera's owner would read the clock
   * @param source how it is known
   */
  record Known(Instant instant, ZoneOffset offset, Source source) implements CaptureTime {
    /**
     * The instant with its offset.
     *
     * @return the local reading
     */
    public OffsetDateTime local() {
      return instant.atOffset(offset);
    }
  }

  /**
   * A local time that fits more than one instant.
   *
   * @param local the camera's reading
   * @param candidates the instants that fit, earliest first
   * @param reason one sentence for the owner
   */
  record Ambiguous(LocalDateTime local, List<OffsetDateTime> candidates, String reason)
      implements CaptureTime {
    /** Keeps an own copy of the list. */
    public Ambiguous {
      candidates = List.copyOf(candidates);
    }
  }

  /**
   * No instant can be told.
   *
   * @param local the camera's reading, or null when the file has none
   * @param reason one sentence for the owner
   */
  record Unknown(@Nullable LocalDateTime local, String reason) implements CaptureTime {}
}
