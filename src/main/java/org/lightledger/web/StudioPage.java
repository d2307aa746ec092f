package org.lightledger.web;

import java.util.List;

/**
 * The studio's settings.
 *
 * @param leads days before a session
 * @param packages what clients can book; the last one is to be filled in
 * @param gear what is packed for every session
 * @param questions what every client is asked; the last one is to be filled in
 * @param newGear a thing as it was typed in vain
 * @param problems what was wrong
 * @param saved whether something has just been kept
 */
public record StudioPage(
    List<Lead> leads,
    List<Package> packages,
    List<Gear> gear,
    List<Question> questions,
    String newGear,
    List<FieldProblem> problems,
    boolean saved) {

  /**
   * Days before a session.
   *
   * @param field its name in the form
   * @param label what is due
   * @param days as kept or typed
   */
  public record Lead(String field, String label, String days) {}

  /**
   * A package, as kept or typed.
   *
   * @param id its number, 0 for a new one
   * @param name its name
   * @param outfits the most outfits
   * @param least the fewest stops
   * @param most the most stops
   * @param minutes its length
   */
  public record Package(
      long id, String name, String outfits, String least, String most, String minutes) {
    /**
     * Where its form goes.
     *
     * @return an address
     */
    public String action() {
      return id == 0 ? "/studio/packages" : "/studio/packages/" + id;
    }
  }

  /**
   * A thing that is packed for every session.
   *
   * @param id its number
   * @param words what it is
   */
  public record Gear(long id, String words) {}

  /**
   * A question to clients, as kept or typed.
   *
   * @param id its number, 0 for a new one
   * @param words the question
   * @param places whether it is answered by kinds of place
   * @param first whether it is the first
   * @param last whether it is the last
   */
  public record Question(long id, String words, boolean places, boolean first, boolean last) {
    /**
     * Where its form goes.
     *
     * @return an address
     */
    public String action() {
      return id == 0 ? "/studio/questions" : "/studio/questions/" + id;
    }
  }
}
