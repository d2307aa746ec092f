package org.lightledger.web;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.Candidate;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.studio.PlanWish;

/** Reads what the owner wishes of a plan from the fields of the planner's page. */
record PlanFields(PlanWish wish, List<Long> order) {
  private static final int MOST_WORDS = 300;
  private static final int LONGEST_CHANGE_MIN = 60;

  /**
   * Reads the fields; on a fresh page all meet where they did, and the rest is as usual.
   *
   * @return the wish; problems are noted in the fields, and then it is not to be used
   */
  static PlanFields read(
      Fields fields, Session booked, List<Candidate> candidates, KeptPlan.Meeting kept) {
    int most = PlanWish.mostOutfits(booked);
    PlanWish usual = PlanWish.usual(booked, candidates);
    Integer outfits = fields.whole("outfits", "Outfits", 1, most, "outfits");
    Integer change = fields.whole("change", "A change takes", 1, LONGEST_CHANGE_MIN, "minutes");
    GeoPoint place = fields.place("place", "Where it is");
    String meeting = fields.text("meeting", "Meeting spot", MOST_WORDS);
    boolean asked = !fields.raw("sky").isEmpty();
    return new PlanFields(
        new PlanWish(
            "overcast".equals(fields.raw("sky")) ? Sky.OVERCAST : Sky.CLEAR,
            outfits == null ? usual.outfits() : outfits,
            change == null ? usual.changeMinutes() : change,
            asked ? fields.ticked("tent") : usual.tent(),
            asked ? new KeptPlan.Meeting(meeting, place) : kept),
        order(fields, candidates));
  }

  private static List<Long> order(Fields fields, List<Candidate> candidates) {
    String text = fields.raw("order");
    if (text.isEmpty()) {
      return List.of();
    }
    List<Long> known = candidates.stream().map(Candidate::spotId).toList();
    List<Long> order = new ArrayList<>();
    for (String part : text.split(",", -1)) {
      Long spotId = number(part.strip());
      if (spotId == null || !known.contains(spotId) || order.contains(spotId)) {
        fields.problem(
            "order",
            "Your order",
            "expected different candidates by their numbers, such as "
                + known.stream().limit(3).map(String::valueOf).collect(Collectors.joining(","))
                + "; found "
                + Fields.quoted(text));
        return List.of();
      }
      order.add(spotId);
    }
    return order;
  }

  private static @Nullable Long number(String text) {
    try {
      return Long.valueOf(text);
    } catch (NumberFormatException e) {
      return null;
    }
  }

  /** The address of the page with another order, or another sky. */
  String href(long sessionId, List<Long> otherOrder, Sky sky) {
    GeoPoint place = wish.meeting().place();
    StringBuilder query = new StringBuilder("/sessions/" + sessionId + "/plan?sky=");
    query
        .append(sky == Sky.OVERCAST ? "overcast" : "clear")
        .append("&outfits=")
        .append(wish.outfits())
        .append("&change=")
        .append(wish.changeMinutes())
        .append(wish.tent() ? "&tent=1" : "")
        .append("&meeting=")
        .append(encoded(wish.meeting().words()))
        .append("&place=")
        .append(place == null ? "" : encoded(place.toText()));
    if (!otherOrder.isEmpty()) {
      query
          .append("&order=")
          .append(otherOrder.stream().map(String::valueOf).collect(Collectors.joining(",")));
    }
    return query.toString();
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }

  PlanPage.Form form(Session booked) {
    GeoPoint place = wish.meeting().place();
    return new PlanPage.Form(
        Arrays.stream(Sky.values())
            .map(
                sky ->
                    new AskPage.Choice(
                        sky == Sky.OVERCAST ? "overcast" : "clear",
                        sky == Sky.OVERCAST ? "overcast" : "clear",
                        sky == wish.sky()))
            .toList(),
        String.valueOf(wish.outfits()),
        PlanWish.mostOutfits(booked),
        String.valueOf(wish.changeMinutes()),
        wish.tent(),
        wish.meeting().words(),
        place == null ? "" : place.toText(),
        order.stream().map(String::valueOf).collect(Collectors.joining(",")));
  }
}
