package org.lightledger.studio;

import java.time.Instant;
import java.util.List;
import java.util.stream.Collectors;
import org.lightledger.session.Client;
import org.lightledger.session.Session;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;
import org.lightledger.store.LedgerSession;

/** What a session that will not be leaves to the owner. */
public final class Cancellation {
  private Cancellation() {}

  /**
   * Whom to tell, and what the client's pages say by themselves.
   *
   * @param ledger the ledger
   * @param booked a session
   * @param now the present
   * @return some sentences, "" for a session that is not cancelled
   */
  public static String toDo(LedgerSession ledger, Session booked, Instant now) {
    if (booked.state() != Session.State.CANCELLED) {
      return "";
    }
    Client client = ledger.clients().find(booked.clientId()).orElseThrow();
    List<Share> open =
        ledger.shares().of(ShareSubject.session(booked.id())).stream()
            .filter(share -> share.stateAt(now) == Share.State.OPEN)
            .toList();
    return "Tell "
        + client.addressee()
        + " in your own words: no message goes out for a session that is cancelled."
        + told(open, false, ", a link that is open, says so now.")
        + told(open, true, ", a file, can not be changed any more and still invites.");
  }

  private static String told(List<Share> open, boolean asFile, String what) {
    return open.stream()
        .filter(share -> share.terms().asFile() == asFile)
        .map(share -> " The page of share " + share.id() + what)
        .collect(Collectors.joining());
  }
}
