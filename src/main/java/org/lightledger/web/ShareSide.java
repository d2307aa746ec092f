package org.lightledger.web;

import java.util.List;

/**
 * The owner's side of what is shared of a shortlist or a session.
 *
 * @param base the address of the shortlist or the session
 * @param session whether it is a session
 * @param planned whether a session has a plan that can be shown
 * @param reached whether others than the people at this computer can open a link
 * @param clients for whom a shortlist can be shared; none for a session
 * @param shares its shares, newest first
 */
public record ShareSide(
    String base,
    boolean session,
    boolean planned,
    boolean reached,
    List<AskPage.Choice> clients,
    List<Given> shares) {

  /**
   * A share.
   *
   * @param id the number of the share
   * @param title what is shared, for lists over all shares
   * @param href the owner's page on which it stands
   * @param address what to send, "" for a file
   * @param open whether it works
   * @param state where it stands, in words
   * @param shows what the client sees, in words
   * @param seen how often and when it was opened, in words; "" for a file
   * @param back what came back
   */
  public record Given(
      long id,
      String title,
      String href,
      String address,
      boolean open,
      String state,
      String shows,
      String seen,
      Back back) {}

  /**
   * What came back.
   *
   * @param when when last, in words, "" for nothing yet
   * @param news whether the owner has not read it
   * @param picks what is said of spots
   * @param words what is said of all of it
   * @param answers the answers to the owner's questions
   * @param outfits addresses of pictures
   */
  public record Back(
      String when,
      boolean news,
      List<Pick> picks,
      String words,
      List<Told> answers,
      List<Picture> outfits) {}

  /**
   * What is said of a spot.
   *
   * @param spot the spot's page
   * @param name its name
   * @param favourite whether the client likes it best
   * @param words the client's words
   */
  public record Pick(String spot, String name, boolean favourite, String words) {}

  /**
   * An answer.
   *
   * @param question the question as it was put
   * @param places kinds of place, in words
   * @param words the client's words
   */
  public record Told(String question, String places, String words) {}

  /**
   * A picture of an outfit.
   *
   * @param address where it is
   * @param label when it was sent
   * @param remove where its removal goes
   */
  public record Picture(String address, String label, String remove) {}

  /**
   * The page of a session's shares.
   *
   * @param title who and when
   * @param side what is shared
   * @param problems what was wrong with a form
   */
  public record OfSession(String title, ShareSide side, List<FieldProblem> problems) {}

  /**
   * The page of all that came back.
   *
   * @param shares those through which something came back, what came last first
   * @param problems what was wrong with a file
   * @param taken what was just taken in, "" for nothing
   */
  public record Replies(List<Given> shares, List<FieldProblem> problems, String taken) {}
}
