package org.lightledger.studio;

/** What became of a kept plan, and of what was agreed, when something about a session changed. */
public enum PlanChange {
  /** Nothing: the plan holds, or there was none and nothing was agreed. */
  NONE("", ""),
  /** The client agreed to something else than what is there now. */
  AGREE_AGAIN(
      "agree",
      "What was agreed with the client has changed, so the session no longer counts as agreed:"
          + " plan it if it has no plan, then agree it again."),
  /** The plan could not hold. */
  GONE(
      "gone",
      "The plan was for other hours, so it is no longer kept; the spots stay with their locks and"
          + " times of arrival. Plan the session again, then agree the plan with the client. Until"
          + " then no plan goes out.");

  private final String code;
  private final String words;

  PlanChange(String code, String words) {
    this.code = code;
    this.words = words;
  }

  /**
   * The word in addresses.
   *
   * @return for example "gone", "" for nothing
   */
  public String code() {
    return code;
  }

  /**
   * What it means for the owner.
   *
   * @return sentences, "" for nothing
   */
  public String words() {
    return words;
  }
}
