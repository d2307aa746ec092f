package org.lightledger.session.outgoing;

import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Client;
import org.lightledger.session.Session;
import org.lightledger.spot.Cautions;

/** Fills templates. */
public final class Composer {
  /** What stands where a value is neither needed nor there. */
  public static final String NOT_DECIDED = "not decided yet";

  private final SharedSession session;
  private final Studio studio;
  private final ClientLinks links;

  private Composer(SharedSession session, Studio studio, ClientLinks links) {
    this.session = session;
    this.studio = studio;
    this.links = links;
  }

  /**
   * Composes a message.
   *
   * @param template the wording
   * @param dossier what the ledger holds of the session
   * @param studio who writes
   * @param links what the client can open
   * @return the message, with what is missing
   */
  public static Letter compose(
      Template template, Dossier dossier, Studio studio, ClientLinks links) {
    Composer composer = new Composer(SessionRedaction.view(dossier), studio, links);
    String subject = Plainly.line(template.subject(composer::said));
    String body = Plainly.text(template.body(composer::said));
    return new Letter(
        template.kind(),
        composer.session.to(),
        dossier.client().writesTo().email(),
        subject,
        body,
        dossier.session().state() == Session.State.CANCELLED
            ? List.of(composer.cancelled())
            : composer.missing(template, dossier.client(), subject + "\n" + body));
  }

  /** Every message invites, so none goes out for a session that will not be. */
  private String cancelled() {
    return "the session is cancelled: tell "
        + session.to()
        + " so in your own words, or set the session back to what it was";
  }

  private List<String> missing(Template template, Client client, String letter) {
    List<String> missing = new ArrayList<>();
    for (Field field : template.fields()) {
      if (field.needed() && value(field) == null) {
        missing.add("{{" + field.label() + "}} has no value: " + remedy(field));
      }
    }
    missing.addAll(told(client, letter));
    return missing;
  }

  private String said(Field field, boolean atStart) {
    String value = value(field);
    if (value == null) {
      return atStart ? capital(NOT_DECIDED) : NOT_DECIDED;
    }
    boolean opens = field == Field.WHOSE_SESSION || field == Field.WHOM;
    return atStart && opens ? capital(value) : value;
  }

  private @Nullable String value(Field field) {
    SharedSession.Meeting meeting = session.meeting();
    OffsetDateTime end = session.end();
    return switch (field) {
      case TO -> session.to();
      case CLIENT -> session.client();
      case WHOSE_SESSION -> session.toGuardian() ? session.client() + "'s session" : "your session";
      case WHOM -> session.toGuardian() ? session.client() : "you";
      case PACKAGE -> session.packageName();
      case DATE -> Plainly.day(session.date());
      case MEETING_TIME -> meeting == null ? null : Plainly.hour(meeting.at());
      case MEETING_PLACE -> meeting == null ? null : filled(meeting.words());
      case MEETING_POINT ->
          meeting == null
              ? null
              : Plainly.coordinates(meeting.place())
                  + " (on a phone: "
                  + Plainly.geoUri(meeting.place())
                  + ")";
      case TIME_ZONE ->
          session.zone() == null ? null : Plainly.zone(clock(session.zone(), meeting));
      case END_TIME -> end == null ? null : Plainly.hour(end);
      case STOPS -> filled(stops());
      case OUTFIT_LIMIT -> session.outfits() + (session.outfits() == 1 ? " outfit" : " outfits");
      case BRING -> filled(studio.bring());
      case SAFETY -> Cautions.FOR_EVERYBODY;
      case QUESTIONS -> filled(numbered(session.questions()));
      case HOW_TO_ANSWER ->
          links.questions() == null
              ? "Just reply to this message."
              : "Please answer on this page, which is yours alone: " + links.questions();
      case HOW_TO_SEE_IT ->
          links.plan() == null
              ? "Would you like to see pictures of the places? Tell us, and we send you some."
              : "With pictures of the places, on a page that is yours alone: " + links.plan();
      case COMMON_QUESTIONS -> studio.commonQuestions();
      case STUDIO -> filled(studio.name());
      case STUDIO_PHONE -> studio.contact().phone();
    };
  }

  /** The meeting on the place's clock, else noon of the day. */
  private ZonedDateTime clock(ZoneId zone, SharedSession.@Nullable Meeting meeting) {
    return meeting == null
        ? session.date().atTime(LocalTime.NOON).atZone(zone)
        : meeting.at().atZoneSameInstant(zone);
  }

  private String stops() {
    List<SharedSession.Stop> stops = session.stops();
    return IntStream.range(0, stops.size())
        .mapToObj(i -> stop(i + 1, stops.get(i)))
        .collect(Collectors.joining("\n"));
  }

  private static String stop(int number, SharedSession.Stop stop) {
    StringBuilder words = new StringBuilder();
    words.append(
        String.format(
            Locale.ROOT,
            "%d. %s to %s: %s, %s",
            number,
            Plainly.hour(stop.arrive()),
            Plainly.hour(stop.leave()),
            stop.name(),
            Plainly.outfits(stop.outfits())));
    if (stop.driveMinutes() != null) {
      words.append(" (about ").append(stop.driveMinutes()).append(" minutes by car)");
    }
    if (!stop.cautions().isEmpty()) {
      words.append("\n   Mind: ").append(stop.cautions().replace("\n", "\n   "));
    }
    return words.toString();
  }

  private static String numbered(List<String> lines) {
    return IntStream.range(0, lines.size())
        .mapToObj(i -> (i + 1) + ". " + lines.get(i))
        .collect(Collectors.joining("\n"));
  }

  /** What must never leave the ledger, should the owner's own words hold it. */
  private static List<String> told(Client client, String letter) {
    List<String> told = new ArrayList<>();
    String name = Plainly.line(client.name());
    String words = Plainly.line(letter).toLowerCase(Locale.ROOT);
    if (client.minor() && name.contains(" ") && words.contains(name.toLowerCase(Locale.ROOT))) {
      told.add(
          "the message holds the full name of a minor, "
              + name
              + ": write "
              + SessionRedaction.firstName(client)
              + " in the template, the meeting place or the names of spots");
    }
    String home = Plainly.line(client.homeAddress());
    if (!home.isEmpty() && words.contains(home.toLowerCase(Locale.ROOT))) {
      told.add(
          "the message holds the client's home address: take it out of the template, the meeting"
              + " place or the cautions of spots");
    }
    return told;
  }

  private static String remedy(Field field) {
    return switch (field) {
      case MEETING_TIME, MEETING_POINT, STOPS, END_TIME -> "plan the session first";
      case MEETING_PLACE -> "plan the session, and say in the plan where all meet";
      case TIME_ZONE ->
          "the clocks of its place are not known yet; add the spots that the session may stop at,"
              + " or save its day again";
      case QUESTIONS -> "write the questions that you ask clients";
      case COMMON_QUESTIONS, STUDIO, STUDIO_PHONE, BRING ->
          "enter it under the settings of messages, or take the field out of the template";
      case TO,
          CLIENT,
          WHOSE_SESSION,
          WHOM,
          PACKAGE,
          DATE,
          OUTFIT_LIMIT,
          SAFETY,
          HOW_TO_ANSWER,
          HOW_TO_SEE_IT ->
          "take the field out of the template";
    };
  }

  private static @Nullable String filled(String text) {
    return text.isBlank() ? null : text;
  }

  private static String capital(String text) {
    int first = text.codePointAt(0);
    return new StringBuilder()
        .appendCodePoint(Character.toUpperCase(first))
        .append(text, Character.charCount(first), text.length())
        .toString();
  }
}
