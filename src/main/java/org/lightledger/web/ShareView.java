package org.lightledger.web;

import gg.jte.Content;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the client's page shows.
 *
 * @param css the style sheet, part of the page
 * @param script the script of a page that needs no server, "" for none
 * @param policy the content policy of a page that needs no server, "" where a header says it
 * @param title the owner's title
 * @param message the owner's words, "" for none
 * @param count how many places there are, in words, "" for none
 * @param meeting where all meet, or null
 * @param spots the places
 * @param questions what the owner asks
 * @param words what the client said of all of it
 * @param answering how the client answers
 * @param outfits the pictures that the client sent, or null where none can be sent
 * @param notice what was just done, "" for nothing
 * @param gone what the client wrote into fields that the page no longer has
 * @param cancelled whether it is a session that will not be
 */
public record ShareView(
    String css,
    String script,
    String policy,
    String title,
    String message,
    String count,
    @Nullable Meeting meeting,
    List<Spot> spots,
    List<Question> questions,
    Text words,
    Answering answering,
    @Nullable Outfits outfits,
    String notice,
    List<String> gone,
    boolean cancelled) {

  /**
   * The style sheet as an element. It is the project's own file, so it is written as it stands.
   *
   * @return a style element
   */
  public Content style() {
    return style(css);
  }

  /**
   * A style sheet as an element.
   *
   * @param css the project's own style sheet
   * @return a style element
   */
  public static Content style(String css) {
    return output -> output.writeContent("<style>" + css + "</style>");
  }

  /**
   * The script as an element. It is the project's own file, so it is written as it stands.
   *
   * @return a script element
   */
  public Content code() {
    return output -> output.writeContent("<script>" + script + "</script>");
  }

  /**
   * How the client answers.
   *
   * @param way by a form, by a file, not at all, or as the owner sees it
   * @param action where the form goes
   * @param keyId which share a file names
   * @param secret what a file is signed with
   * @param mailTo the studio's address for a prepared e-mail, "" for none
   */
  public record Answering(Way way, String action, String keyId, String secret, String mailTo) {
    /** How a client answers. */
    public enum Way {
      /** By a form that goes to the server. */
      FORM,
      /** By a file or an e-mail that the page makes. */
      FILE,
      /** Not any more, or not through this page. */
      CLOSED,
      /** As a look of the owner's; nothing can be sent. */
      LOOK
    }

    /**
     * Whether fields are shown.
     *
     * @return false where nothing can be answered
     */
    public boolean shown() {
      return way != Way.CLOSED;
    }

    /**
     * Whether fields can be filled in.
     *
     * @return false for a look of the owner's
     */
    public boolean disabled() {
      return way == Way.LOOK;
    }

    /**
     * Whether it goes to the server.
     *
     * @return true for a link's page
     */
    public boolean form() {
      return way == Way.FORM;
    }

    /**
     * Whether the page makes a file.
     *
     * @return true for a page that needs no server
     */
    public boolean file() {
      return way == Way.FILE;
    }
  }

  /**
   * Where all meet.
   *
   * @param hour when, as 19:05
   * @param words how to find it
   * @param place where it is
   * @param end when the session ends
   */
  public record Meeting(String hour, String words, Place place, String end) {}

  /**
   * A place.
   *
   * @param number its place in the list
   * @param key what it is called in forms
   * @param asks whether the client is asked about it here: once for a place that stands twice
   * @param name its name
   * @param words the owner's words
   * @param hour when
   * @param outfit which outfit, "" for none
   * @param light the light in plain words
   * @param cautions what to mind
   * @param picture the address of its picture, or null
   * @param place where it lies, or null
   * @param favourite whether the client marked it
   * @param comment what the client said of it
   */
  public record Spot(
      String number,
      String key,
      boolean asks,
      String name,
      String words,
      String hour,
      String outfit,
      String light,
      String cautions,
      @Nullable String picture,
      @Nullable Place place,
      boolean favourite,
      Text comment) {}

  /**
   * Words that the client can change.
   *
   * @param words what the field holds
   * @param shown the fingerprint of what is kept
   * @param kept what is kept, where that became something else while the client typed; else null
   */
  public record Text(String words, String shown, @Nullable String kept) {}

  /** Where a place lies: in words, and as an address that a phone opens in its map. */
  public record Place(String words, String href) {}

  /**
   * A question.
   *
   * @param key what it is called in forms
   * @param words the question
   * @param places kinds of place to choose from; none for a question that asks for words
   * @param answer the client's words
   */
  public record Question(String key, String words, List<TickBox> places, Text answer) {}

  /**
   * The pictures of outfits.
   *
   * @param action where a picture goes
   * @param sent those that were sent
   * @param room how many more there may be, 0 or more
   */
  public record Outfits(String action, List<Outfit> sent, int room) {}

  /**
   * A picture of an outfit.
   *
   * @param number its place
   * @param picture its address
   * @param remove where its removal goes
   */
  public record Outfit(String number, String picture, String remove) {}
}
