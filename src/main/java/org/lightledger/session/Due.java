package org.lightledger.session;

import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Something that is due for a session.
 *
 * @param task what
 * @param session for which session
 * @param on since which day it is due, on the session's calendar
 * @param overdueDays how long it has been due, days, 0 or more
 * @param count how many things it is about, 1 or more
 */
public record Due(Task task, Session session, LocalDate on, int overdueDays, int count) {

  /** What can be due, in the order in which it comes up before a session. */
  public enum Task {
    /** The owner's questions are to go out. */
    SEND_QUESTIONS("send the questions"),
    /** The client has not answered all of them. */
    ASK_FOR_ANSWERS("answers are missing"),
    /** No spot is a candidate yet. */
    CHOOSE_CANDIDATES("choose the spots"),
    /** There are spots and no plan. */
    MAKE_PLAN("make the plan"),
    /** The plan is to be agreed with the client. */
    AGREE_PLAN("agree the plan"),
    /** Spots have not been seen in the session's light. */
    REHEARSE("rehearse"),
    /** The reminder is to go out. */
    SEND_REMINDER("send the reminder"),
    /** Things are to be packed. */
    PACK("pack"),
    /** It is today. */
    PHOTOGRAPH("photograph"),
    /** It has been, and nobody has said how it went. */
    SAY_HOW_IT_WENT("say how it went");

    private final String label;

    Task(String label) {
      this.label = label;
    }

    /**
     * The words on screens.
     *
     * @return for example "send the questions"
     */
    public String label() {
      return label;
    }
  }

  /**
   * How far a session is with everything.
   *
   * @param session the session
   * @param sent what went out to the client
   * @param answers how many questions were answered, 0 or more
   * @param missingAnswers how many were not, 0 or more
   * @param candidates how many spots it may stop at, 0 or more
   * @param planned whether a plan is kept
   * @param unseenSpots how many of its spots have not been seen in the light it will have, 0 or
   *     more
   * @param toPack how many things are not packed, 0 or more
   * @param over when it is over; null for the end of its date
   */
  public record Progress(
      Session session,
      Set<MessageKind> sent,
      int answers,
      int missingAnswers,
      int candidates,
      boolean planned,
      int unseenSpots,
      int toPack,
      @Nullable Instant over) {
    /** Keeps an own copy. */
    public Progress {
      sent = Set.copyOf(sent);
    }

    private Instant end() {
      return over == null
          ? session.date().plusDays(1).atStartOfDay(session.zone()).toInstant()
          : over;
    }
  }

  /**
   * What is due now. Each session's days are those of its own zone, and its own day lasts until it
   * is over, also after midnight.
   *
   * @param now the present
   * @param sessions how far each session is
   * @param leads the owner's days
   * @return by the session's date, then in the order in which things come up
   */
  public static List<Due> of(Instant now, List<Progress> sessions, LeadDays leads) {
    List<Due> due = new ArrayList<>();
    for (Progress progress : sessions) {
      if (progress.session().state().isOpen()) {
        LocalDate today = LocalDate.ofInstant(now, progress.session().zone());
        if (now.isBefore(progress.end())) {
          LocalDate date = progress.session().date();
          new Finder(progress, today.isAfter(date) ? date : today, due).find(leads);
        } else {
          new Finder(progress, today, due).findAfter();
        }
      }
    }
    due.sort(
        Comparator.comparing((Due one) -> one.session().date())
            .thenComparing(one -> one.session().id())
            .thenComparing(Due::task));
    return due;
  }

  /** Finds what is due for one session. */
  private record Finder(Progress progress, LocalDate today, List<Due> due) {
    void findAfter() {
      add(Task.SAY_HOW_IT_WENT, LocalDate.ofInstant(progress.end(), progress.session().zone()), 1);
    }

    void find(LeadDays leads) {
      LocalDate date = progress.session().date();
      LocalDate questions = date.minusDays(leads.days(MessageKind.QUESTIONS));
      LocalDate plan = date.minusDays(leads.days(MessageKind.PLAN));
      boolean asked = progress.sent().contains(MessageKind.QUESTIONS) || progress.answers() > 0;
      if (!asked && progress.missingAnswers() > 0) {
        add(Task.SEND_QUESTIONS, questions, 1);
      } else {
        add(Task.ASK_FOR_ANSWERS, between(questions, plan), progress.missingAnswers());
      }
      plan(plan);
      add(Task.REHEARSE, date.minusDays(leads.rehearsal()), progress.unseenSpots());
      if (!progress.sent().contains(MessageKind.REMINDER)) {
        add(Task.SEND_REMINDER, date.minusDays(leads.days(MessageKind.REMINDER)), 1);
      }
      add(Task.PACK, date.minusDays(1), progress.toPack());
      add(Task.PHOTOGRAPH, date, 1);
    }

    private void plan(LocalDate day) {
      if (!progress.planned()) {
        add(progress.candidates() == 0 ? Task.CHOOSE_CANDIDATES : Task.MAKE_PLAN, day, 1);
      } else if (progress.session().state() != Session.State.AGREED) {
        add(Task.AGREE_PLAN, day, 1);
      }
    }

    /** Answers are waited for half of the time that is left for the plan: own choice. */
    private static LocalDate between(LocalDate questions, LocalDate plan) {
      long days = Math.max(0, ChronoUnit.DAYS.between(questions, plan));
      return questions.plusDays((days + 1) / 2);
    }

    private void add(Task task, LocalDate on, int count) {
      if (count > 0 && !today.isBefore(on)) {
        int overdueDays = (int) ChronoUnit.DAYS.between(on, today);
        due.add(new Due(task, progress.session(), on, overdueDays, count));
      }
    }
  }
}
