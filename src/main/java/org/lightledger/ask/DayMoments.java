package org.lightledger.ask;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.lightledger.sun.SubsolarPoint;

/** The moments of one local day that a question asks about, with the sun for each. */
record DayMoments(LocalDate day, List<Moment> moments) {

  /** One moment. */
  record Moment(Instant instant, SubsolarPoint subsolar) {}
}
