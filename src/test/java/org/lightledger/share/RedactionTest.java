package org.lightledger.share;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.LongFunction;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;

class RedactionTest {
  private static final Spot MEADOW =
      new Spot(
          7,
          "Heron meadow",
          "Lower bank",
          new GeoPoint(41.93, -6.42),
          ZoneId.of("Europe/Madrid"),
          false,
          List.of(),
          "PRIVATE: the farmer's number",
          "Soft bank: stay two metres from the water.");

  private static final Shortlist LIST =
      new Shortlist(
          1,
          "Your autumn portraits",
          "Tell me which you like.",
          List.of(
              new Shortlist.Entry(
                  7,
                  new Shortlist.Moment(
                      OffsetDateTime.parse("2026-12-12T16:42:10+01:00"),
                      OffsetDateTime.parse("2026-12-12T17:50:59+01:00"),
                      LightClass.BACKLIT,
                      new Bearing(240)),
                  3L,
                  "Tall grass, wide view.")));

  private static SharedPage view(LongFunction<Optional<Spot>> spots, boolean exactPositions) {
    return Redaction.shortlist(
        LIST,
        spots,
        id -> EnumSet.of(Hazard.WATER),
        new ShareTokens().keys(),
        ShareTerms.ofShortlist(exactPositions, null),
        Returned.NOTHING);
  }

  @Test
  void theClientSeesNameHourLightAndCautionsAndNothingElse() {
    SharedPage view = view(id -> Optional.of(MEADOW), false);

    SharedPage.SharedSpot spot = view.spots().get(0);
    assertThat(spot.name()).isEqualTo("Heron meadow");
    assertThat(spot.hour()).isEqualTo("Saturday 12 December 2026, from 16:42 to 17:50");
    assertThat(spot.light()).startsWith("The sun is behind you");
    assertThat(spot.cautions())
        .startsWith(Hazard.WATER.clientWords())
        .contains("Soft bank")
        .endsWith(Hazard.RULES_FIRST);
    assertThat(spot.position()).isNull();
    assertThat(view.toString()).doesNotContain("PRIVATE", "Lower bank", "41.93");
  }

  @Test
  void anExactPositionShowsOnlyWhenAllowed() {
    assertThat(view(id -> Optional.of(MEADOW), true).spots().get(0).position())
        .isEqualTo(MEADOW.position());
  }

  @Test
  void aSpotThatIsGoneIsLeftOut() {
    assertThat(view(id -> Optional.empty(), true).spots()).isEmpty();
  }

  @ParameterizedTest
  @EnumSource
  void everyLightHasPlainWords(LightClass light) {
    assertThat(Redaction.plainWords(light)).endsWith(".").doesNotContain("°", "azimuth");
  }

  @Test
  void aLightThatComesLaterIsToldWithItsHour() {
    OffsetDateTime from = OffsetDateTime.parse("2026-12-15T16:40:00+01:00");

    assertThat(
            Redaction.plainWords(
                List.of(
                    new Redaction.LightFrom(LightClass.BACKLIT, from),
                    new Redaction.LightFrom(LightClass.OPEN_SHADE, from.plusMinutes(33)))))
        .isEqualTo(
            "The sun is behind you: soft light on the face, a bright edge on the hair. From about"
                + " 17:13 on: Open shade: soft, even light without direct sun.");
    assertThat(Redaction.plainWords(List.of())).isNull();
  }

  @Test
  void tokensAreLongAndNeverTheSame() {
    ShareTokens tokens = new ShareTokens();
    Set<String> seen = new HashSet<>();
    for (int i = 0; i < 1000; i++) {
      String token = tokens.next();
      assertThat(ShareTokens.hasForm(token)).isTrue();
      assertThat(seen.add(token)).isTrue();
    }
    assertThat(ShareTokens.hasForm("../" + tokens.next())).isFalse();
  }

  @Test
  void aLinkEndsWhenItsTimeIsOverOrTheOwnerTakesItBack() {
    Instant made = Instant.parse("2026-11-01T10:00:00Z");
    Share share = share(made, made.plusSeconds(60), null);

    assertThat(share.stateAt(made.plusSeconds(59))).isEqualTo(Share.State.OPEN);
    assertThat(share.stateAt(made.plusSeconds(60))).isEqualTo(Share.State.EXPIRED);
    Share revoked = share(made, null, made.plusSeconds(5));
    assertThat(revoked.stateAt(made.plusSeconds(5))).isEqualTo(Share.State.REVOKED);
  }

  private static Share share(Instant made, @Nullable Instant expires, @Nullable Instant revoked) {
    return new Share(
        1,
        ShareSubject.shortlist(1),
        ShareTerms.ofShortlist(false, expires),
        "t",
        new ShareTokens().keys(),
        made,
        revoked,
        Share.Seen.NEVER,
        null,
        null);
  }
}
