package org.lightledger.share;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.LongFunction;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.session.Answer;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.outgoing.Dossier;
import org.lightledger.session.outgoing.SessionRedaction;
import org.lightledger.session.outgoing.SharedSession;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.spot.Cautions;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;

/**
 * Turns a shortlist or a session into what its client may see. It copies what is allowed, field by
 * field, so that a field added to a spot or a client later stays private until somebody lists it
 * here.
 */
public final class Redaction {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEEE d MMMM yyyy", Locale.ENGLISH);
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private Redaction() {}

  /**
   * What of a planned stop is not in the session itself.
   *
   * @param light the light there from the first picture to the last, in order; none when the facing
   *     is not known
   * @param pictureShotId the shot to show, or null for none
   */
  public record StopLook(List<LightFrom> light, @Nullable Long pictureShotId) {
    /** Keeps an own copy. */
    public StopLook {
      light = List.copyOf(light);
    }
  }

  /**
   * A light and when it begins.
   *
   * @param light the light
   * @param from on the clocks of the session
   */
  public record LightFrom(LightClass light, OffsetDateTime from) {}

  /**
   * The client's view of a shortlist.
   *
   * @param shortlist the owner's shortlist
   * @param spots finds a spot by its number; an entry whose spot is gone is left out
   * @param hazards what is dangerous or forbidden at a spot
   * @param keys the share's keys
   * @param terms what the owner lets the client see
   * @param returned what came back so far
   * @return the view
   */
  public static SharedPage shortlist(
      Shortlist shortlist,
      LongFunction<Optional<Spot>> spots,
      LongFunction<Set<Hazard>> hazards,
      ShareKeys keys,
      ShareTerms terms,
      Returned returned) {
    List<SharedPage.SharedSpot> shared = new ArrayList<>();
    for (Shortlist.Entry entry : shortlist.entries()) {
      spots
          .apply(entry.spotId())
          .ifPresent(
              spot ->
                  shared.add(entry(entry, spot, hazards.apply(spot.id()), keys, terms, returned)));
    }
    return new SharedPage(
        shortlist.title(),
        shortlist.message(),
        "",
        null,
        shared,
        List.of(),
        returned.words(),
        true,
        false);
  }

  private static SharedPage.SharedSpot entry(
      Shortlist.Entry entry,
      Spot spot,
      Set<Hazard> hazards,
      ShareKeys keys,
      ShareTerms terms,
      Returned returned) {
    Shortlist.Moment moment = entry.moment();
    Returned.Pick pick = returned.pick(spot.id());
    return new SharedPage.SharedSpot(
        keys.spot(spot.id()),
        spot.name(),
        entry.words(),
        moment == null ? null : hours(moment.from(), moment.to()),
        List.of(),
        moment == null ? null : plainWords(moment.light()),
        Cautions.forClient(hazards, spot.cautions()),
        entry.coverShotId(),
        positionIfAllowed(spot, terms),
        pick != null && pick.favourite(),
        pick == null ? "" : pick.words());
  }

  /**
   * The client's view of a session.
   *
   * @param dossier what the ledger holds of it
   * @param look the light and the picture of a stop
   * @param keys the share's keys
   * @param terms what the owner lets the client see
   * @param returned what came back so far
   * @return the view
   */
  public static SharedPage session(
      Dossier dossier,
      Function<KeptPlan.Stop, StopLook> look,
      ShareKeys keys,
      ShareTerms terms,
      Returned returned) {
    SharedSession shared = SessionRedaction.view(dossier);
    if (dossier.session().state() == Session.State.CANCELLED) {
      return cancelled(shared);
    }
    KeptPlan plan = terms.plan() ? dossier.plan() : null;
    List<SharedPage.SharedSpot> stops = new ArrayList<>();
    if (plan != null) {
      for (int i = 0; i < plan.stops().size(); i++) {
        KeptPlan.Stop stop = plan.stops().get(i);
        stops.add(
            stop(
                shared.stops().get(i),
                stop,
                positionIfAllowed(dossier.spots().get(stop.spotId()), terms),
                look.apply(stop),
                keys,
                returned));
      }
    }
    return new SharedPage(
        title(shared),
        terms.message(),
        day(shared.date()),
        plan == null ? null : meeting(shared),
        stops,
        terms.questions() ? questions(dossier, keys) : List.of(),
        returned.words(),
        dossier.session().state().isOpen(),
        false);
  }

  private static String title(SharedSession shared) {
    return shared.client() + ", " + day(shared.date());
  }

  /** Whose session it was and when; the owner's message invites, so it is not told either. */
  private static SharedPage cancelled(SharedSession shared) {
    return new SharedPage(
        title(shared), "", day(shared.date()), null, List.of(), List.of(), "", false, true);
  }

  private static SharedPage.@Nullable Meeting meeting(SharedSession shared) {
    SharedSession.Meeting meeting = shared.meeting();
    OffsetDateTime end = shared.end();
    return meeting == null
        ? null
        : new SharedPage.Meeting(
            HOUR.format(meeting.at()),
            meeting.words(),
            meeting.place(),
            end == null ? "" : HOUR.format(end));
  }

  private static SharedPage.SharedSpot stop(
      SharedSession.Stop told,
      KeptPlan.Stop stop,
      @Nullable GeoPoint position,
      StopLook look,
      ShareKeys keys,
      Returned returned) {
    Returned.Pick pick = returned.pick(stop.spotId());
    return new SharedPage.SharedSpot(
        keys.spot(stop.spotId()),
        told.name(),
        "",
        HOUR.format(told.arrive()) + " to " + HOUR.format(told.leave()),
        told.outfits(),
        plainWords(look.light()),
        told.cautions(),
        look.pictureShotId(),
        position,
        pick != null && pick.favourite(),
        pick == null ? "" : pick.words());
  }

  private static List<SharedPage.SharedQuestion> questions(Dossier dossier, ShareKeys keys) {
    List<SharedPage.SharedQuestion> shared = new ArrayList<>();
    for (ClientQuestion question : dossier.questions()) {
      Optional<Answer> own =
          dossier.answers().stream()
              .filter(answer -> answer.byClient() && answer.questionId() == question.id())
              .findFirst();
      shared.add(
          new SharedPage.SharedQuestion(
              keys.question(question.id()),
              question.words(),
              question.kind() == ClientQuestion.Kind.PLACES,
              own.map(Answer::words).orElse(""),
              own.map(Answer::places).orElse(Set.of())));
    }
    return shared;
  }

  private static @Nullable GeoPoint positionIfAllowed(@Nullable Spot spot, ShareTerms terms) {
    return spot != null && terms.exactPositions() ? spot.position() : null;
  }

  private static String hours(OffsetDateTime from, OffsetDateTime to) {
    return DAY.format(from) + ", from " + HOUR.format(from) + " to " + HOUR.format(to);
  }

  private static String day(LocalDate date) {
    return DAY.format(date);
  }

  /** The light of a stay; what comes later is told with its hour. */
  static @Nullable String plainWords(List<LightFrom> lights) {
    StringBuilder words = new StringBuilder();
    for (LightFrom light : lights) {
      words
          .append(words.length() == 0 ? "" : " From about " + HOUR.format(light.from()) + " on: ")
          .append(plainWords(light.light()));
    }
    return words.length() == 0 ? null : words.toString();
  }

  /**
   * A light class in words for somebody who does not photograph.
   *
   * @param light the class
   * @return one sentence
   */
  static String plainWords(LightClass light) {
    return switch (light) {
      case BACKLIT -> "The sun is behind you: soft light on the face, a bright edge on the hair.";
      case RIM -> "The sun comes from behind and to one side: one edge of you is lit brightly.";
      case SIDE -> "The sun comes from one side: a light side and a shaded side.";
      case THREE_QUARTER_FRONT ->
          "The sun comes from the front and to one side: clear, bright light.";
      case FRONT -> "The sun is behind the camera: bright and even.";
      case OVERHEAD -> "The sun is high.";
      case OPEN_SHADE -> "Open shade: soft, even light without direct sun.";
      case TWILIGHT -> "The sun is below the horizon: soft light from the evening or morning sky.";
      case DARK -> "After dark.";
    };
  }
}
