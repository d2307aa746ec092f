package org.lightledger.web;

import java.util.List;

/**
 * What went wrong, in words for the person in front of the page.
 *
 * @param status the HTTP status
 * @param title a short name
 * @param message what happened
 * @param toDo what helps
 * @param fields the fields that were bad
 */
public record ErrorPage(
    int status, String title, String message, String toDo, List<FieldProblem> fields) {

  /** Keeps an own copy of the list. */
  public ErrorPage {
    fields = List.copyOf(fields);
  }

  static ErrorPage of(PageProblem problem) {
    String message = problem.getMessage();
    return new ErrorPage(
        problem.status(),
        problem.title(),
        message == null ? "" : message,
        problem.toDo(),
        problem.fields());
  }

  static ErrorPage of(int status) {
    return switch (status) {
      case 404 ->
          new ErrorPage(
              404,
              "There is no such page",
              "The address leads nowhere in this ledger.",
              "Check the address, or start from the question.",
              List.of());
      case 413 ->
          new ErrorPage(
              413,
              "Too much at once",
              "The files sent are larger than one upload may be.",
              "Send fewer files at once, or import the folder by its path.",
              List.of());
      case 500 ->
          new ErrorPage(
              500,
              "That went wrong here",
              "The ledger itself is unharmed; the log of the program says more.",
              "Try again. If it happens again, run the check command on the ledger.",
              List.of());
      default ->
          new ErrorPage(
              status,
              "The request was not understood",
              "The program could not make sense of what was sent.",
              "Go back and send it again from the page.",
              List.of());
    };
  }
}
