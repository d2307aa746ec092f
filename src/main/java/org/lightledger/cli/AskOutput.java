package org.lightledger.cli;

import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.LongFunction;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.ask.Answers;
import org.lightledger.ask.ExpectedLight;
import org.lightledger.ask.OtherWindows;
import org.lightledger.ask.Question;
import org.lightledger.ask.QuestionText;
import org.lightledger.ask.Shape;
import org.lightledger.ask.Sky;
import org.lightledger.ask.WhyNone;
import org.lightledger.light.CameraSetting;
import org.lightledger.session.drive.Drive;
import org.lightledger.skyline.Clearance;
import org.lightledger.spot.Trait;

/** Writes answers for machines and for people. */
final class AskOutput {
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final LongFunction<Optional<Drive>> drives;

  /** Output that tells the drive to each spot, where one was asked for. */
  AskOutput(LongFunction<Optional<Drive>> drives) {
    this.drives = drives;
  }

  /** Output of a question that asks for no drive. */
  static AskOutput withoutDrives() {
    return new AskOutput(id -> Optional.empty());
  }

  Map<String, @Nullable Object> json(Answers answers) {
    Sky sky = answers.question().terms().sky();
    return Json.fields()
        .put("question", question(answers.question()))
        .put("considered", answers.considered())
        .put("matched", answers.matched())
        .put("answers", answers.matches().stream().map(answer -> answer(answer, sky)).toList())
        .put(
            "withoutFacing",
            answers.suggestions().stream().map(answer -> answer(answer, sky)).toList())
        .put(
            "notKnown",
            answers.notKnown().stream()
                .map(
                    unknown ->
                        Json.fields()
                            .put("spotId", unknown.spot().id())
                            .put("name", unknown.spot().name())
                            .put("reason", unknown.reason())
                            .map())
                .toList())
        .map();
  }

  private static Map<String, @Nullable Object> question(Question question) {
    Question.Near near = question.near();
    Shape shape = question.terms().shape();
    return Json.fields()
        .put("light", QuestionText.lights(question.lights()))
        .put("on", QuestionText.days(question.firstDay(), question.lastDay()))
        .put("at", QuestionText.time(question.time()))
        .put("withinM", near == null ? null : near.radiusM())
        .put("of", near == null ? null : near.centre().toText())
        .put("sky", code(question.terms().sky()))
        .put("sun", code(question.terms().sun()))
        .put(
            "weekdays", question.terms().weekdays().stream().sorted().map(AskOutput::code).toList())
        .put("atLeastMinutes", question.terms().atLeast().toMinutes())
        .put("with", question.terms().traits().stream().sorted().map(Trait::code).toList())
        .put("inside", shape == null ? null : shape.toText())
        .map();
  }

  private Map<String, @Nullable Object> answer(Answer answer, Sky sky) {
    Drive drive = drives.apply(answer.spot().id()).orElse(null);
    ExpectedLight expected = ExpectedLight.of(answer, sky);
    Answer.NearestShot nearest = answer.nearestShot();
    return Json.fields()
        .put("spotId", answer.spot().id())
        .put("name", answer.spot().name())
        .put("lat", Json.coordinate(answer.spot().position().latitudeDeg()))
        .put("lon", Json.coordinate(answer.spot().position().longitudeDeg()))
        .put("light", answer.light().code())
        .put("at", Json.time(answer.at()))
        .put("facingDeg", Json.angle(answer.facing().trueDeg()))
        .put("facingBasis", answer.facingBasis().name().toLowerCase(Locale.ROOT))
        .put("sunAzimuthDeg", Json.angle(answer.sun().azimuth().trueDeg()))
        .put("sunAltitudeDeg", Json.angle(answer.sun().apparentAltitudeDeg()))
        .put("relativeBearingDeg", Json.angle(answer.relativeBearingDeg()))
        .put("marginDeg", Json.angle(answer.marginDeg()))
        .put("directSun", answer.directSun())
        .put("skylineDeg", Json.angle(answer.skylineDeg()))
        .put("clearance", clearance(answer.clearance()))
        .put("directUntil", Json.time(answer.directUntil()))
        .put(
            "window",
            Json.fields()
                .put("from", Json.time(answer.window().from()))
                .put("to", Json.time(answer.window().to()))
                .map())
        .put("otherWindows", answer.others().stream().map(AskOutput::other).toList())
        .put("days", answer.days())
        .put("driveMinutes", drive == null ? null : drive.minutes())
        .put("driveSource", drive == null ? null : code(drive.source()))
        .put("tier", answer.tier().label())
        .put(
            "nearestShot",
            nearest == null
                ? null
                : Json.fields()
                    .put("shotId", nearest.shotId())
                    .put("sunGapDeg", Json.angle(nearest.sunGapDeg()))
                    .map())
        .put("expectedEv100", Json.rounded(expected.ev100(), 1))
        .put("expectedSetting", setting(expected.setting()))
        .put("expectedContrastStops", Json.rounded(expected.contrastStops(), 1))
        .put("expectedBasis", expected.basis())
        .put("reason", answer.reason())
        .map();
  }

  private static Map<String, @Nullable Object> other(Answer.Other other) {
    return Json.fields()
        .put("light", other.light().code())
        .put("from", Json.time(other.window().from()))
        .put("to", Json.time(other.window().to()))
        .map();
  }

  private static @Nullable Map<String, @Nullable Object> setting(@Nullable CameraSetting setting) {
    return setting == null
        ? null
        : Json.fields()
            .put("isoSpeed", setting.isoSpeed())
            .put("fNumber", setting.fNumber())
            .put("shutter", setting.shutter())
            .map();
  }

  private static String code(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static @Nullable Map<String, @Nullable Object> clearance(@Nullable Clearance clearance) {
    return clearance == null
        ? null
        : Json.fields()
            .put("marginDeg", Json.angle(clearance.marginDeg()))
            .put("uncertaintyDeg", Json.angle(clearance.uncertaintyDeg()))
            .put("source", code(clearance.source()))
            .put("lowerBoundOnly", clearance.lowerBoundOnly())
            .map();
  }

  String text(Answers answers) {
    StringBuilder text = new StringBuilder();
    Question question = answers.question();
    text.append(
        String.format(
            Locale.ROOT,
            "%s on %s at %s%s: %d of %d spots%n",
            QuestionText.lights(question.lights()),
            QuestionText.days(question.firstDay(), question.lastDay()),
            QuestionText.time(question.time()),
            question.terms().sky() == Sky.OVERCAST ? " under an overcast sky" : "",
            answers.matches().stream().map(answer -> answer.spot().id()).distinct().count(),
            answers.considered()));
    append(text, answers.matches(), question.terms().sky());
    if (answers.matches().isEmpty() && answers.considered() > 0) {
      WhyNone.of(answers).forEach(words -> text.append("  ").append(words).append('\n'));
    }
    if (answers.matched() > answers.matches().size()) {
      text.append(
          String.format(
              Locale.ROOT,
              "… and %d more; ask with a larger --limit to see them%n",
              answers.matched() - answers.matches().size()));
    }
    if (!answers.suggestions().isEmpty()) {
      text.append(
          String.format(Locale.ROOT, "%nNo facing is known yet, so these are no matches:%n"));
      append(text, answers.suggestions(), question.terms().sky());
    }
    for (Answers.NotKnown unknown : answers.notKnown()) {
      text.append(
          String.format(
              Locale.ROOT, "%nNot known: %s. %s%n", unknown.spot().name(), unknown.reason()));
    }
    return text.toString();
  }

  private void append(StringBuilder text, List<Answer> answers, Sky sky) {
    for (Answer answer : answers) {
      ExpectedLight expected = ExpectedLight.of(answer, sky);
      String also = OtherWindows.text(answer.others(), answer.light());
      text.append(
          String.format(
              Locale.ROOT,
              "%n%s (spot %d): %s on %s from %s to %s%s, look %s (%.0f°) [%s%s]%n  %s%n  Expected: %s; %s. %s%n",
              answer.spot().name(),
              answer.spot().id(),
              answer.light().label(),
              answer.at().toLocalDate(),
              HOUR.format(answer.window().from()),
              HOUR.format(answer.window().to()),
              also.isEmpty() ? "" : " (" + also + ")",
              answer.facing().compassPoint(),
              answer.facing().trueDeg(),
              answer.tier().label(),
              answer.days() > 1 ? "; on " + answer.days() + " days" : "",
              answer.reason(),
              expected.words(),
              expected.contrastWords(),
              expected.basis()));
      drives
          .apply(answer.spot().id())
          .ifPresent(
              drive ->
                  text.append(
                      String.format(
                          Locale.ROOT,
                          "  Drive: %d min, %s.%n",
                          drive.minutes(),
                          drive.source().label())));
    }
  }
}
