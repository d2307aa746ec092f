package org.lightledger.session;

/** What goes out to a client. */
public enum MessageKind {
  /** The owner's questions, weeks before. */
  QUESTIONS("questions", 21),
  /** The plan, once it is agreed. */
  PLAN("plan", 7),
  /** The reminder, days before. */
  REMINDER("reminder", 3);

  private final String label;
  private final int usualDaysBefore;

  MessageKind(String label, int usualDaysBefore) {
    this.label = label;
    this.usualDaysBefore = usualDaysBefore;
  }

  /**
   * The word on screens.
   *
   * @return for example "reminder"
   */
  public String label() {
    return label;
  }

  /**
   * How long before a session it is due, unless the owner says otherwise: common practice, no
   * source.
   *
   * @return days
   */
  public int usualDaysBefore() {
    return usualDaysBefore;
  }
}
