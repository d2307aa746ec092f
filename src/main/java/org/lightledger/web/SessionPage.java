package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One session.
 *
 * @param id the ledger's number
 * @param title who and when
 * @param client the client's page
 * @param clientName the client's full name
 * @param facts when, where and what was booked
 * @param state how far it is
 * @param brief what it is to be
 * @param candidates the spots that it may stop at
 * @param plan the kept plan, or null for none
 * @param sentBefore that the client was sent another plan, "" when not
 * @param cancelled whom to tell that it is cancelled, "" when that is not so or is past
 * @param scouting how its stops are rehearsed, or null when none is to come
 * @param answers what the client answered
 * @param packing what is packed
 * @param after the shots of a session that has been, or null
 * @param due what is due for it
 * @param deletion what goes when it is deleted
 * @param problems what was wrong with a form
 * @param saved whether something has just been kept
 * @param became what that did to the plan and to what was agreed, "" for nothing
 * @param past that the day just kept is over, "" when it is not
 */
public record SessionPage(
    long id,
    String title,
    String client,
    String clientName,
    List<Fact> facts,
    State state,
    Brief brief,
    CandidatesView candidates,
    @Nullable PlanPart plan,
    String sentBefore,
    String cancelled,
    @Nullable ScoutingLink scouting,
    List<Answered> answers,
    PackPart packing,
    @Nullable AfterPart after,
    List<TodayPage.Task> due,
    Deletion deletion,
    List<FieldProblem> problems,
    boolean saved,
    String became,
    String past) {

  /**
   * A line of the head.
   *
   * @param label what it tells
   * @param words what it is
   */
  public record Fact(String label, String words) {}

  /**
   * How far a session is, and where it can go from there.
   *
   * @param label the state
   * @param code its name
   * @param next states to choose
   * @param goal the small goal, "" for none
   * @param outcome how it went, as kept or typed
   */
  public record State(
      String label, String code, List<AskPage.Choice> next, String goal, String outcome) {}

  /**
   * What a session is to be, as kept or typed.
   *
   * @param wishes what the client wishes
   * @param pictures poses and pictures wanted
   * @param talkingPoints what to talk about
   * @param goal the small goal of the studio
   * @param notes the owner's own words
   */
  public record Brief(
      String wishes, String pictures, String talkingPoints, String goal, String notes) {}

  /**
   * What goes when a session is deleted.
   *
   * @param held what hangs on it
   * @param open whether the owner was about to
   */
  public record Deletion(List<String> held, boolean open) {}

  /**
   * A question with its answer.
   *
   * @param id the question's number
   * @param words the question
   * @param answer the answer, as kept or typed
   * @param shown the fingerprint of the answer that is kept
   * @param kept the answer that is kept, where it became another while this one was typed; else
   *     null
   * @param places kinds of place to choose from; none for a question that asks for words
   * @param by who wrote it and when, "" for nobody
   */
  public record Answered(
      long id,
      String words,
      String answer,
      String shown,
      @Nullable String kept,
      List<TickBox> places,
      String by) {}
}
