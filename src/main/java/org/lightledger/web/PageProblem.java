package org.lightledger.web;

import java.util.List;

/** Something that keeps a page from being shown, in words for the person in front of it. */
final class PageProblem extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final int status;
  private final String title;
  private final String toDo;
  private final transient List<FieldProblem> fields;

  PageProblem(int status, String title, String message, String toDo, List<FieldProblem> fields) {
    super(message, null, false, false);
    this.status = status;
    this.title = title;
    this.toDo = toDo;
    this.fields = List.copyOf(fields);
  }

  static PageProblem notFound(String message) {
    return new PageProblem(
        404,
        "Not in this ledger",
        message,
        "Go back, or start from the lists of spots and shortlists.",
        List.of());
  }

  static PageProblem badFields(List<FieldProblem> fields) {
    return new PageProblem(
        422,
        "Some fields need another look",
        "Nothing was changed.",
        "Correct the fields named here and send the form again.",
        fields);
  }

  int status() {
    return status;
  }

  String title() {
    return title;
  }

  String toDo() {
    return toDo;
  }

  List<FieldProblem> fields() {
    return fields;
  }
}
