package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Instant;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.lightledger.field.FieldEntry;
import org.lightledger.geo.Bearing;
import org.lightledger.session.OwnDrive;
import org.lightledger.share.ShareSubject;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Trait;

class SchemaTest extends LedgerTestBase {

  /** Changes of a sound row, each followed by the rule it breaks. */
  private static final String[][] BROKEN = {
    {"UPDATE stock SET id = 2", "stock has one row"},
    {"UPDATE spots SET geom = 'text'", "a spot's geom must be a GeoPackage geometry"},
    {"UPDATE spots SET geom = x'00'", "a spot's geom must be a GeoPackage geometry"},
    {"UPDATE spots SET name = ' '", "a spot's name must be text and not blank"},
    {"UPDATE spots SET name = x'41'", "a spot's name must be text and not blank"},
    {"UPDATE spots SET area = ''", "a spot's area must be text and not blank"},
    {"UPDATE spots SET zone = ''", "a spot's zone must be the name of a time zone"},
    {"UPDATE spots SET open = 2", "a spot's open must be 0 or 1"},
    {"UPDATE spots SET open = 'yes'", "a spot's open must be 0 or 1"},
    {"UPDATE spots SET notes = x'41'", "a spot's notes must be text"},
    {"UPDATE spots SET cautions = x'41'", "a spot's cautions must be text"},
    {"UPDATE facings SET bearing_deg = 360", "bearing_deg must be a number in [0, 360)"},
    {"UPDATE facings SET bearing_deg = -0.001", "bearing_deg must be a number in [0, 360)"},
    {"UPDATE facings SET bearing_deg = 'north'", "bearing_deg must be a number in [0, 360)"},
    {"UPDATE facings SET bearing_deg = 9e999", "bearing_deg must be a number in [0, 360)"},
    {"UPDATE facings SET spread_deg = 180.001", "spread_deg must be a number in [0, 180]"},
    {"UPDATE facings SET spread_deg = 'wide'", "spread_deg must be a number in [0, 180]"},
    {"UPDATE facings SET origin = 'GUESS'", "a facing's origin must be SHOTS or OWNER"},
    {"UPDATE facings SET shots = -1", "a facing's shots must be a count of 0 or more"},
    {"UPDATE facings SET shots = 1.5", "a facing's shots must be a count of 0 or more"},
    {"UPDATE shots SET geom = 'text'", "a shot's geom must be a GeoPackage geometry"},
    {"UPDATE shots SET sha256 = upper(sha256)", "sha256 must be 64 digits of 0-9 a-f"},
    {"UPDATE shots SET sha256 = 'abc'", "sha256 must be 64 digits of 0-9 a-f"},
    {
      "UPDATE shots SET captured_ms = NULL",
      "a shot's time must be KNOWN, AMBIGUOUS or UNKNOWN with what belongs to it"
    },
    {
      "UPDATE shots SET captured_ms = 'noon'",
      "a shot's time must be KNOWN, AMBIGUOUS or UNKNOWN with what belongs to it"
    },
    {
      "UPDATE shots SET time_source = 'GUESS'",
      "a shot's time must be KNOWN, AMBIGUOUS or UNKNOWN with what belongs to it"
    },
    {
      "UPDATE shots SET time_source = NULL",
      "a shot's time must be KNOWN, AMBIGUOUS or UNKNOWN with what belongs to it"
    },
    {
      "UPDATE shots SET time_state = 'AMBIGUOUS'",
      "a shot's time must be KNOWN, AMBIGUOUS or UNKNOWN with what belongs to it"
    },
    {
      "UPDATE shots SET time_state = 'UNKNOWN'",
      "a shot's time must be KNOWN, AMBIGUOUS or UNKNOWN with what belongs to it"
    },
    {
      "UPDATE shots SET time_state = 'MAYBE'",
      "a shot's time must be KNOWN, AMBIGUOUS or UNKNOWN with what belongs to it"
    },
    {"UPDATE shots SET captured_rest_ns = 1000000", "captured_rest_ns must be in [0, 999999]"},
    {"UPDATE shots SET captured_offset_s = 64801", "captured_offset_s must be in [-64800, 64800]"},
    {
      "UPDATE shots SET position_source = NULL",
      "position_source must be a known source, and NULL without a geom"
    },
    {
      "UPDATE shots SET position_source = 'GUESS'",
      "position_source must be a known source, and NULL without a geom"
    },
    {
      "UPDATE shots SET position_altitude_m = 'high'",
      "position_altitude_m must be a finite number of metres"
    },
    {
      "UPDATE shots SET clock_correction_ms = 3600000000000",
      "clock_correction_ms must be less than a million hours"
    },
    {
      "UPDATE shots SET clock_correction_ms = 'late'",
      "clock_correction_ms must be less than a million hours"
    },
    {
      "UPDATE shots SET position_error_m = 0",
      "position_error_m must be a positive number of metres"
    },
    {
      "UPDATE shots SET position_error_m = 'some'",
      "position_error_m must be a positive number of metres"
    },
    {
      "UPDATE shots SET position_error_m = 9e999",
      "position_error_m must be a positive number of metres"
    },
    {"UPDATE shots SET facing_deg = 360", "facing_deg must be a number in [0, 360)"},
    {"UPDATE shots SET facing_deg = 'north'", "facing_deg must be a number in [0, 360)"},
    {
      "UPDATE shots SET facing_source = NULL",
      "facing_source must be a known source, and NULL without facing_deg"
    },
    {
      "UPDATE shots SET facing_deg = NULL",
      "facing_source must be a known source, and NULL without facing_deg"
    },
    {
      "UPDATE shots SET sun_azimuth_deg = 360",
      "the sun needs azimuth [0, 360), both altitudes [-90, 90], a place and a known time"
    },
    {
      "UPDATE shots SET sun_azimuth_deg = NULL",
      "the sun needs azimuth [0, 360), both altitudes [-90, 90], a place and a known time"
    },
    {
      "UPDATE shots SET sun_apparent_altitude_deg = 90.001",
      "the sun needs azimuth [0, 360), both altitudes [-90, 90], a place and a known time"
    },
    {
      "UPDATE shots SET sun_geometric_altitude_deg = 'low'",
      "the sun needs azimuth [0, 360), both altitudes [-90, 90], a place and a known time"
    },
    {"UPDATE shots SET ev100 = 9e999", "ev100 must be a finite number"},
    {"UPDATE shots SET ev100 = 'bright'", "ev100 must be a finite number"},
    {"UPDATE shots SET needs_attention = 2", "needs_attention must be 0 or 1"},
    {"UPDATE shots SET problems = 'none'", "problems must be a list in JSON"},
    {"UPDATE shots SET file_format = x'41'", "file_format must be text"},
    {"UPDATE shots SET file_offset_s = -64801", "file_offset_s must be in [-64800, 64800]"},
    {
      "UPDATE shots SET file_latitude_deg = 95",
      "the file's place must be latitude [-90, 90] and longitude [-180, 180]"
    },
    {
      "UPDATE shots SET file_longitude_deg = NULL",
      "the file's place must be latitude [-90, 90] and longitude [-180, 180]"
    },
    {
      "UPDATE shots SET file_altitude_m = 9e999",
      "file_altitude_m must be a finite number of metres"
    },
    {
      "UPDATE shots SET file_position_error_m = 0",
      "file_position_error_m must be a positive number of metres"
    },
    {
      "UPDATE shots SET file_direction_deg = 360",
      "file_direction_deg must be a number in [0, 360) with its north"
    },
    {
      "UPDATE shots SET file_direction_north = NULL",
      "file_direction_deg must be a number in [0, 360) with its north"
    },
    {
      "UPDATE shots SET file_exposure_time_s = 0",
      "file_exposure_time_s must be a positive number of seconds"
    },
    {"UPDATE shots SET file_f_number = -1", "file_f_number must be a positive number"},
    {"UPDATE shots SET file_iso_speed = 'auto'", "file_iso_speed must be a positive number"},
    {
      "UPDATE shots SET file_focal_length_35mm_mm = 0",
      "file_focal_length_35mm_mm must be a positive number of millimetres"
    },
    {"UPDATE shots SET file_orientation = 9", "file_orientation must be in 1..8"},
    {"UPDATE shots SET file_width_px = 0", "file_width_px must be a positive whole number"},
    {"UPDATE shots SET file_height_px = 1.5", "file_height_px must be a positive whole number"},
    {"UPDATE shots SET file_problems = ''", "file_problems must be a list in JSON"},
    {"UPDATE files SET path = ''", "path must be text and not empty"},
    {"UPDATE files SET size_bytes = -1", "size_bytes must be 0 or more"},
    {"UPDATE files SET modified_ms = 'today'", "modified_ms must be whole milliseconds"},
    {"UPDATE files SET sha256 = 'x'", "sha256 must be 64 digits of 0-9 a-f"},
    {
      "UPDATE files SET status = 'LOST'",
      "a file's status must be READ, FORMAT_NOT_READ or UNREADABLE"
    },
    {"UPDATE files SET problems = '{}'", "problems must be a list in JSON"},
    {"UPDATE shortlists SET title = ''", "a shortlist's title must be text and not blank"},
    {"UPDATE shortlists SET message = x'41'", "a shortlist's message must be text"},
    {"UPDATE shortlist_entries SET place = -1", "place must be a whole number of 0 or more"},
    {
      "UPDATE shortlist_entries SET light = 'RIM'",
      "an entry's moment must have both ends, a light and a facing in [0, 360), or nothing"
    },
    {
      "UPDATE shortlist_entries SET (light_from, light_until, light, facing_deg)"
          + " = ('2026-06-20T20:05+02:00', '2026-06-20T20:06+02:00', 'BRIGHT', 0)",
      "an entry's moment must have both ends, a light and a facing in [0, 360), or nothing"
    },
    {"UPDATE shortlist_entries SET words = x'41'", "an entry's words must be text"},
    {
      "UPDATE shares SET token = 'short'",
      "a share's token must be text of 22 characters or more of A-Z a-z 0-9 - _"
    },
    {"UPDATE shares SET token_sha256 = 'x'", "token_sha256 must be 64 digits of 0-9 a-f"},
    {"UPDATE shares SET exact_positions = 2", "exact_positions must be 0 or 1"},
    {"UPDATE shares SET shortlist_id = NULL", "a share must show a shortlist or a session"},
    {"UPDATE shares SET session_id = 1", "a share must show a shortlist or a session"},
    {
      "UPDATE shares SET secret = 'x'",
      "a share's secret and key_id must be 64 and 16 digits of 0-9 a-f"
    },
    {"UPDATE shares SET shows_plan = 2", "what a share shows must be 0 or 1"},
    {
      "UPDATE shares SET reply_words = printf('%4001s', '')",
      "a share's words must be text of at most 4000 characters"
    },
    {"UPDATE shares SET seen_count = -1", "a share's counts must be whole numbers of 0 or more"},
    {
      "UPDATE share_picks SET words = printf('%2001s', '')",
      "a pick must be a favourite or not, with words of at most 2000 characters"
    },
    {
      "UPDATE outfit_pictures SET jpeg = x'89504e'",
      "an outfit picture must be a JPEG with the time it was sent"
    },
    {"UPDATE shares SET expires_ms = 'never'", "a share's times must be whole milliseconds"},
    {
      "UPDATE shares SET reply_saved_ms = 'noon'",
      "a share must know when the file that came back last was saved"
    },
    {"UPDATE settings SET name = ''", "a setting's name must be text and not blank"},
    {"UPDATE settings SET value = x'41'", "a setting's value must be text"},
    {
      "INSERT INTO corrections (made_ms, words) VALUES ('noon', 'moved')",
      "a correction's made_ms must be whole milliseconds"
    },
    {
      "INSERT INTO corrections (made_ms, words) VALUES (0, ' ')",
      "a correction's words must be text and not blank"
    },
    {"UPDATE spots SET position_by_owner = 2", "a spot's position_by_owner must be 0 or 1"},
    {"UPDATE shots SET spot_source = 'GUESS'", "spot_source must be PLACE, OWNER or OWNER_FAR"},
    {
      "UPDATE shots SET dropped_spot_id = 2",
      "a shot belongs to a spot or to a dropped spot, not to both"
    },
    {"UPDATE anchors SET spot_id = NULL", "an anchor belongs to a spot or to a dropped spot"},
    {
      "UPDATE anchors SET latitude_deg = 91",
      "an anchor's place must be latitude [-90, 90] and longitude [-180, 180]"
    },
    {
      "UPDATE dropped_spots SET longitude_deg = -181",
      "a dropped spot's place must be latitude [-90, 90] and longitude [-180, 180]"
    },
    {
      "UPDATE dropped_spots SET open = 2",
      "a dropped spot's position_by_owner and open must be 0 or 1"
    },
    {"UPDATE shots SET sun_on_subject = 'MAYBE'", "sun_on_subject must be YES, NO or DAPPLED"},
    {
      "UPDATE elevation_files SET path = ' '", "an elevation file's path must be text and not blank"
    },
    {
      "UPDATE elevation_files SET added_ms = 'noon'",
      "an elevation file's added_ms must be whole milliseconds"
    },
    {
      "UPDATE measured_points SET azimuth_deg = 360",
      "a measured point needs azimuth [0, 360) and altitude [-90, 90]"
    },
    {"UPDATE skylines SET angles = 'high'", "a skyline's angles must be bytes"},
    {"UPDATE skylines SET remarks = 'none'", "a skyline's remarks must be a list in JSON"},
    {"UPDATE skylines SET made_ms = 'noon'", "a skyline's made_ms must be whole milliseconds"},
    {"UPDATE skylines SET due = 2", "a skyline's due must be 0 or 1"},
    {"UPDATE spot_traits SET trait = 'NICE'", "a spot's trait must be a known one"},
    {"UPDATE spot_hazards SET hazard = 'BEARS'", "a spot's hazard must be a known one"},
    {"UPDATE dropped_spots SET hazards = '{}'", "a dropped spot's hazards must be a list"},
    {"UPDATE dropped_spots SET traits = '7'", "a dropped spot's traits must be a list"},
    {
      "UPDATE dropped_spots SET hours = '[\"08:00\"]'",
      "a dropped spot's hours must be a list of two or nothing"
    },
    {
      "UPDATE dropped_spots SET measured_points = 'none'",
      "a dropped spot's measured points must be a list"
    },
    {
      "UPDATE dropped_drives SET minutes = 721",
      "a dropped drive must be 0 to 720 minutes between two spots"
    },
    {
      "UPDATE dropped_drives SET to_spot_id = from_spot_id",
      "a dropped drive must be 0 to 720 minutes between two spots"
    },
    {"UPDATE share_picks SET spot_id = NULL", "a pick is of a spot or of a dropped spot"},
    {
      "UPDATE session_items SET changed_ms = 'late'",
      "a thing to pack must know when it was changed"
    },
    {
      "UPDATE field_entries SET outcome = 'LOST'",
      "a field entry must have a name of its own, a known kind and outcome, times and words"
    },
    {
      "UPDATE field_entries SET uuid = '7'",
      "a field entry must have a name of its own, a known kind and outcome, times and words"
    },
    {"UPDATE questions SET name = ' '", "a question's name must be text and not blank"},
    {"UPDATE questions SET query = x'41'", "a question's query must be text"},
    {"UPDATE skyline_sources SET id = 2", "skyline_sources has one row"},
    {"UPDATE dropped_spots SET name = ' '", "a dropped spot's name must be text and not blank"},
    {"UPDATE dropped_spots SET notes = x'41'", "a dropped spot's words must be text"},
    {
      "UPDATE dropped_spots SET facings = 'none'", "a dropped spot's facings must be a list in JSON"
    },
    {"UPDATE spot_sums SET weight = -1", "a spot's running sums must be whole numbers"},
    {"UPDATE maps SET path = ''", "a map's file_name and path must be text and not empty"},
    {"UPDATE maps SET sha256 = 'x'", "sha256 must be 64 digits of 0-9 a-f"},
    {"UPDATE maps SET added_ms = 'noon'", "a map's added_ms must be whole milliseconds"},
    {"UPDATE maps SET licence = ' '", "a map's licence must be text and not blank"},
    {
      "UPDATE maps SET west_deg = 99",
      "a map's bounds must be -180 <= west <= east <= 180 and -90 <= south <= north <= 90"
    },
    {"UPDATE maps SET feature_count = -1", "a map's counts must be 0 or more"},
    {
      "UPDATE obstructions SET geom = 'text'", "an obstruction's geom must be a GeoPackage geometry"
    },
    {
      "UPDATE obstructions SET kind = 'HEDGE'",
      "an obstruction's kind must be BUILDING, TREE, TREE_ROW or WOOD"
    },
    {
      "UPDATE obstructions SET height_m = 0",
      "an obstruction's heights must be 0 <= min_height_m < height_m <= 1000"
    },
    {
      "UPDATE obstructions SET height_source = 'GUESS'",
      "height_source must be GIVEN, LEVELS or ASSUMED"
    },
    {"UPDATE obstructions SET ground_m = 9e999", "ground_m must be a finite number of metres"},
    {"UPDATE obstructions SET name = ''", "an obstruction's name must be text and not blank"},
    {
      "UPDATE obstructions SET origin = 'OWNER' WHERE map_id IS NOT NULL",
      "an obstruction's origin must be MAP with a map_id, or OWNER without"
    },
    {
      "UPDATE obstructions SET source_id = ' '",
      "an obstruction's source_id must be text and not blank"
    },
    {"UPDATE map_features SET geom = x'00'", "a map feature's geom must be a GeoPackage geometry"},
    {"UPDATE map_features SET kind = 'VOLCANO'", "a map feature's kind must be a known one"},
    {"UPDATE map_features SET name = ' '", "a map feature's name must be text and not blank"},
    {"UPDATE map_features SET level = 2", "a map feature's level must be -1, 0 or 1"},
    {
      "UPDATE map_features SET source_id = ''",
      "a map feature's source_id must be text and not blank"
    },
    {"UPDATE map_stock SET id = 2", "map_stock has one row"},
    {"UPDATE clients SET name = ' '", "a client's names must be text and not blank"},
    {"UPDATE clients SET called_name = x'41'", "a client's names must be text and not blank"},
    {"UPDATE clients SET guardian_name = NULL", "a minor must have a guardian who can be reached"},
    {
      "UPDATE clients SET (guardian_email, guardian_phone) = (NULL, NULL)",
      "a minor must have a guardian who can be reached"
    },
    {"UPDATE clients SET minor = 2", "a minor must have a guardian who can be reached"},
    {"UPDATE clients SET home_address = x'41'", "a client's address and notes must be text"},
    {"UPDATE clients SET notes = x'41'", "a client's address and notes must be text"},
    {"UPDATE packages SET name = ' '", "a package must have a name, outfits, stops and a length"},
    {
      "UPDATE packages SET outfit_limit = 0",
      "a package must have a name, outfits, stops and a length"
    },
    {
      "UPDATE packages SET least_stops = 6",
      "a package must have a name, outfits, stops and a length"
    },
    {
      "UPDATE packages SET most_stops = 9",
      "a package must have a name, outfits, stops and a length"
    },
    {
      "UPDATE packages SET length_min = 19",
      "a package must have a name, outfits, stops and a length"
    },
    {"UPDATE sessions SET uid = ''", "a session's uid must be text and not blank"},
    {"UPDATE sessions SET revision = -1", "a session's revision must be a count of 0 or more"},
    {"UPDATE sessions SET date = '30.06.2026'", "a session's date must be written as 2026-06-30"},
    {"UPDATE sessions SET zone = ''", "a session's zone must be the name of a time zone"},
    {
      "UPDATE sessions SET anchor = 'sunset'",
      "a session's anchor must be ends-sunset, ends- or starts-"
    },
    {
      "UPDATE sessions SET anchor = 'ends-noon'",
      "a session's anchor must be ends-sunset, ends- or starts-"
    },
    {
      "UPDATE sessions SET package_name = ''",
      "a session must have a package's name, outfits, stops and length"
    },
    {
      "UPDATE sessions SET most_stops = 1",
      "a session must have a package's name, outfits, stops and length"
    },
    {
      "UPDATE sessions SET length_min = 721",
      "a session must have a package's name, outfits, stops and length"
    },
    {"UPDATE sessions SET state = 'LOST'", "a session's state must be a known one"},
    {"UPDATE sessions SET notes = x'41'", "a session's words must be text"},
    {
      "UPDATE session_candidates SET place = -1",
      "a candidate's place must be a whole number of 0 or more"
    },
    {
      "UPDATE session_candidates SET (choice, arrival) = ('MAYBE', NULL)",
      "a candidate's choice must be FREE, LOCKED or EXCLUDED"
    },
    {
      "UPDATE session_candidates SET wanted = '{}'",
      "a candidate's wanted light must be a list in JSON"
    },
    {"UPDATE session_candidates SET stay_min = 4", "a candidate's stay must be 5 to 480 minutes"},
    {
      "UPDATE session_candidates SET choice = 'FREE'",
      "a candidate's arrival must be a time, and of a locked stop"
    },
    {
      "UPDATE session_candidates SET arrival = 'noon'",
      "a candidate's arrival must be a time, and of a locked stop"
    },
    {"UPDATE plans SET end_ms = call_ms", "a plan must have times in order, a sky and an order"},
    {"UPDATE plans SET sky = 'FOG'", "a plan must have times in order, a sky and an order"},
    {"UPDATE plans SET by_hand = 2", "a plan must have times in order, a sky and an order"},
    {
      "UPDATE plans SET meeting_latitude_deg = 91",
      "a plan's meeting must be text, with latitude [-90, 90] and longitude [-180,"
          + " 180] or none"
    },
    {
      "UPDATE plans SET meeting_longitude_deg = NULL",
      "a plan's meeting must be text, with latitude [-90, 90] and longitude [-180,"
          + " 180] or none"
    },
    {
      "UPDATE plan_stops SET leave_ms = shoot_ms",
      "a stop's times must be whole milliseconds in order"
    },
    {
      "UPDATE plan_stops SET arrive_ms = 'noon'",
      "a stop's times must be whole milliseconds in order"
    },
    {"UPDATE plan_stops SET outfit = 0", "a stop's place and outfit must be whole numbers"},
    {
      "UPDATE plan_stops SET shoot_until_ms = leave_ms + 1",
      "a stop's times must be whole milliseconds in order"
    },
    {
      "UPDATE plan_changes SET until_ms = from_ms",
      "a change must take time and lead to outfit 2 or more"
    },
    {"UPDATE plan_changes SET outfit = 1", "a change must take time and lead to outfit 2 or more"},
    {
      "UPDATE plan_stops SET (drive_min, drive_source) = (5, 'GUESS')",
      "a stop's drive must have minutes and a source, or nothing"
    },
    {
      "UPDATE plan_stops SET (drive_min, drive_source) = (5, NULL)",
      "a stop's drive must have minutes and a source, or nothing"
    },
    {
      "UPDATE plan_changes SET until_ms = from_ms",
      "a change must take time and lead to outfit 2 or more"
    },
    {"UPDATE plan_stops SET facing_deg = 360", "a stop's facing must be a number in [0, 360)"},
    {"UPDATE drives SET minutes = -1", "a drive must be 0 to 720 minutes between two spots"},
    {
      "UPDATE drives SET to_spot_id = from_spot_id",
      "a drive must be 0 to 720 minutes between two spots"
    },
    {"UPDATE spot_hours SET closes = opens", "a spot's hours must be two times, opening first"},
    {"UPDATE spot_hours SET opens = '8'", "a spot's hours must be two times, opening first"},
    {
      "UPDATE client_questions SET words = ' '",
      "a client question must have a place, words and a kind"
    },
    {
      "UPDATE client_questions SET kind = 'NUMBER'",
      "a client question must have a place, words and a kind"
    },
    {
      "UPDATE answers SET places = ''",
      "an answer must have the question, words, a list of places, a time and who wrote" + " it"
    },
    {
      "UPDATE answers SET by_client = 2",
      "an answer must have the question, words, a list of places, a time and who wrote" + " it"
    },
    {
      "INSERT INTO templates (kind, subject, body) VALUES ('JOKE', 'a', 'b')",
      "a template must have a known kind, a subject and a text"
    },
    {
      "INSERT INTO sent_messages (session_id, kind, way, recipient, subject, body,"
          + " at_ms) VALUES (1, 'PLAN', 'PIGEON', '', 'a', 'b', 0)",
      "a sent message must have a known kind and way, texts and a time"
    },
    {
      "INSERT INTO calendar_entries (session_id, uid, title, from_ms, to_ms, revision)"
          + " VALUES (1, 'u', 't', 5, 5, 0)",
      "a calendar entry must have a name, a title, a start, a later end and a revision"
    },
    {"UPDATE gear SET words = ' '", "a thing to pack must have a place and words"},
    {
      "UPDATE session_items SET done_ms = 'noon'",
      "a session's thing to pack must have a place and words"
    },
    {
      "UPDATE session_items SET place = -1", "a session's thing to pack must have a place and words"
    },
  };

  @Test
  void everyRuleRefusesWhatBreaksItAndSaysWhatWasExpected() {
    fill();
    Set<String> shown = new LinkedHashSet<>();
    for (String[] broken : BROKEN) {
      assertThatThrownBy(() -> sql(broken[0]))
          .as(broken[0])
          .isInstanceOfSatisfying(
              LedgerException.class,
              problem -> assertThat(problem.reason()).isEqualTo(LedgerException.Reason.RULE_BROKEN))
          .hasMessage("the ledger refuses the row: " + broken[1] + "; nothing was changed");
      shown.add(broken[1]);
    }
    assertThat(shown).as("every rule is shown to refuse something").isEqualTo(rules());
    assertThat(LedgerCheck.run(folder)).isEmpty();
  }

  @Test
  void whatIsNotANumberIsRefused() throws SQLException {
    fill();
    try (Connection connection = LedgerFile.in(folder).connectForWriting();
        PreparedStatement update =
            connection.prepareStatement("UPDATE facings SET bearing_deg = ?")) {
      update.setDouble(1, Double.NaN);
      assertThatThrownBy(update::executeUpdate)
          .isInstanceOfSatisfying(
              SQLException.class,
              problem ->
                  assertThat(LedgerException.of(problem))
                      .hasMessage(
                          "expected a value, found none in facings.bearing_deg;"
                              + " nothing was changed"));
    }
  }

  /** What no CHECK can know is wrong, by whom it was put there, and where it is read. */
  @Test
  void whatAnotherProgramPutThereIsNamedNotGuessed() {
    fill();
    assertForeign(
        "UPDATE spots SET zone = 'Europe/Atlantis'",
        "spot 1",
        "Europe/Atlantis",
        session -> session.spots().all());
    assertForeign(
        "UPDATE shots SET file_local_time = 'noon'",
        "shot 1",
        "noon",
        session -> session.shots().find(1));
    assertForeign(
        "UPDATE shots SET (file_local_time, problems) = (NULL, '[{\"kind\":\"ODD\"}]')",
        "shot 1",
        "ODD",
        session -> session.shots().find(1));
    assertForeign(
        "UPDATE files SET problems = '[7]'",
        "the row of a file",
        "[7]",
        session -> session.files().all());
    assertForeign(
        "UPDATE shortlist_entries SET (light_from, light_until, light, facing_deg)"
            + " = ('noon', 'later', 'RIM', 0)",
        "shortlist entry 1",
        "noon",
        session -> session.shortlists().find(1));
    assertForeign(
        "UPDATE clients SET email = 'nobody'",
        "client 1",
        "nobody",
        session -> session.clients().all());
    assertForeign(
        "UPDATE sessions SET zone = 'Europe/Atlantis'",
        "session 1",
        "Europe/Atlantis",
        session -> session.sessions().find(1));
    assertForeign(
        "UPDATE session_candidates SET wanted = '[\"BRIGHT\"]'",
        "session candidate 1",
        "BRIGHT",
        session -> session.candidates().of(1));
    assertForeign(
        "UPDATE plans SET end_ms = call_ms + 1",
        "plan 1",
        "expected an end",
        session -> session.plans().find(1));
    assertForeign(
        "UPDATE spot_hours SET closes = '29:00'",
        "the hours of spot 1",
        "29:00",
        session -> session.drives().hours(1));
    assertForeign(
        "UPDATE answers SET places = '[\"MOON\"]'",
        "answer 1",
        "MOON",
        session -> session.questionnaire().answers(1));
  }

  private void assertForeign(String change, String row, String found, LedgerWork<?> work) {
    sql(change);
    assertThatThrownBy(() -> ledger.read(work))
        .isInstanceOfSatisfying(
            LedgerException.class,
            problem -> assertThat(problem.reason()).isEqualTo(LedgerException.Reason.NOT_A_LEDGER))
        .hasMessageContaining(row + " holds something that Lightledger did not write: ")
        .hasMessageContaining(found);
  }

  @Test
  void theNewestMigrationIsTheVersionThatOpeningExpects() throws IOException {
    try (Stream<Path> migrations = Files.list(Path.of("schema"))) {
      assertThat(
              migrations
                  .map(path -> path.getFileName().toString())
                  .filter(name -> name.matches("V\\d+__.*\\.sql"))
                  .mapToInt(name -> Integer.parseInt(name.substring(1, name.indexOf("__"))))
                  .max())
          .hasValue(LedgerFile.SCHEMA_VERSION);
    }
  }

  /** A spot is needless without them, and a new table must not be forgotten. */
  @Test
  void everyColumnThatLeadsToASpotHangsOnItUnlessTheLedgerWorksItOut() {
    List<String> leading =
        ledger.read(
            session ->
                session
                    .call(
                        "SELECT m.name || '.' || f.\"from\" FROM sqlite_master m,"
                            + " pragma_foreign_key_list(m.name) f"
                            + " WHERE m.type = 'table' AND f.\"table\" = 'spots'")
                    .list(Row::text));
    Set<String> expected = new TreeSet<>(SpotBelongings.COLUMNS);
    expected.removeIf(column -> column.startsWith("dropped_drives."));
    expected.addAll(
        Set.of("shots.spot_id", "facings.spot_id", "spot_sums.spot_id", "skylines.spot_id"));
    assertThat(leading).containsExactlyInAnyOrderElementsOf(expected);
  }

  @Test
  void whatIsAskedOftenIsFoundByAnIndex() {
    for (String query :
        List.of(
            "SELECT id FROM shots WHERE sha256 = ?",
            "SELECT id FROM shots WHERE spot_id = ? ORDER BY captured_ms",
            "SELECT id FROM shots WHERE captured_ms >= ? AND captured_ms < ?",
            "SELECT id FROM shots WHERE needs_attention = 1 ORDER BY id",
            "SELECT bearing_deg, shots FROM facings f WHERE spot_id = ? ORDER BY origin, id",
            "SELECT path FROM files WHERE path = ?",
            "SELECT path FROM files WHERE shot_id = ?",
            "SELECT path FROM files WHERE status = ? ORDER BY path",
            "SELECT id FROM shortlist_entries WHERE shortlist_id = ? ORDER BY place",
            "SELECT id FROM shortlist_entries WHERE spot_id = ?",
            "SELECT id FROM shares WHERE token_sha256 = ?",
            "SELECT id FROM shares WHERE key_id = ?",
            "SELECT id FROM shares WHERE session_id = ? ORDER BY created_ms DESC, id DESC",
            "SELECT id FROM shares WHERE client_id = ?",
            "SELECT id FROM share_picks WHERE share_id = ? ORDER BY spot_id",
            "SELECT id FROM share_picks WHERE spot_id = ?",
            "SELECT id FROM share_picks WHERE dropped_spot_id = ?",
            "SELECT id FROM outfit_pictures WHERE share_id = ? ORDER BY id",
            "SELECT value FROM settings WHERE name = ?",
            "SELECT id FROM shots INDEXED BY shots_without_facing"
                + " WHERE facing_deg IS NULL AND needs_attention = 0"
                + " AND spot_id IS NOT NULL ORDER BY id DESC",
            "SELECT id FROM corrected_shots WHERE shot_id = ?",
            "SELECT id FROM corrected_spots WHERE correction_id = ?",
            "SELECT id FROM anchors WHERE spot_id = ?",
            "SELECT id FROM anchors WHERE dropped_spot_id = ?",
            "SELECT id FROM anchors WHERE latitude_deg >= ? AND latitude_deg <= ?",
            "SELECT id FROM shots WHERE dropped_spot_id = ?",
            "SELECT id FROM shots WHERE spot_id = ? AND sun_on_subject NOT NULL",
            "SELECT spot_id FROM skylines WHERE due = 1",
            "SELECT spot_id FROM skylines WHERE angles IS NOT NULL",
            "SELECT 1 FROM shots WHERE spot_id = ? AND position_error_m <= ?",
            "SELECT id FROM obstructions WHERE map_id = ?",
            "SELECT id FROM obstructions WHERE kind = 'WOOD'",
            "SELECT id FROM map_features WHERE map_id = ?",
            "SELECT id FROM map_features WHERE kind = ?",
            "SELECT id FROM maps WHERE sha256 = ?",
            "SELECT id FROM sessions ORDER BY date, id",
            "SELECT id FROM sessions WHERE client_id = ? ORDER BY date, id",
            "SELECT id FROM session_candidates WHERE spot_id = ?",
            "SELECT id FROM plan_stops WHERE spot_id = ?",
            "SELECT id FROM plan_stops WHERE fallback_spot_id = ?",
            "SELECT id FROM plan_changes WHERE stop_id = ? ORDER BY from_ms",
            "SELECT id FROM drives WHERE to_spot_id = ?",
            "SELECT id FROM dropped_drives WHERE to_spot_id = ?",
            "SELECT id FROM sent_messages WHERE session_id = ? ORDER BY at_ms",
            "SELECT id FROM session_items WHERE session_id = ? ORDER BY place, id",
            "SELECT id FROM field_entries WHERE uuid = ?",
            "SELECT id FROM field_entries WHERE shot_id = ?",
            "SELECT hazard FROM spot_hazards WHERE spot_id = ?")) {
      List<String> plan =
          ledger.read(
              session ->
                  session
                      .call("EXPLAIN QUERY PLAN " + query)
                      .list(
                          row -> {
                            row.integer();
                            row.integer();
                            row.integer();
                            return row.text();
                          }));
      assertThat(plan).as(query).hasSize(1);
      assertThat(plan.get(0)).as(query).contains(" INDEX ").doesNotContain("TEMP B-TREE");
    }
  }

  private void fill() {
    ledger.change(
        session -> {
          Facing facing = new Facing(new Bearing(10), 20, Facing.Origin.OWNER, 0);
          long spot = session.spots().insert(Samples.spot("Chapel", CHAPEL, facing));
          long shot =
              session
                  .shots()
                  .insert(
                      Samples.shot(CHAPEL, Instant.EPOCH),
                      "abcdef0123456789".repeat(4),
                      Samples.sun(95, 12),
                      spot);
          session
              .files()
              .record(
                  new StoredFile(
                      Path.of("a.jpg"),
                      1,
                      Instant.EPOCH,
                      Samples.sha256(1),
                      FileStatus.READ,
                      shot,
                      List.of()));
          long list = session.shortlists().create("Ana and Luis", "");
          session.shortlists().add(list, new Shortlist.Entry(spot, null, null, ""));
          SessionSamples.share(session, ShareSubject.shortlist(list));
          session.settings().set("name", "value");
          session.anchors().add(spot, CHAPEL);
          session.traits().set(spot, Set.of(Trait.PARKING));
          session.hazards().set(spot, Set.of(Hazard.WATER));
          session
              .field()
              .keep(
                  new FieldEntry(
                      new UUID(1, 2),
                      FieldEntry.Kind.SHOT,
                      Instant.EPOCH,
                      Instant.EPOCH,
                      FieldEntry.Outcome.ADDED,
                      "direct sun",
                      "In the ledger.",
                      shot));
          session.questions().keep("Next month", "light=backlit");
          session.elevation().add(Path.of("hills.tif"), Instant.EPOCH);
          session
              .skylines()
              .measure(
                  spot,
                  List.of(new MeasuredSkyline.Point(10, 5), new MeasuredSkyline.Point(190, 5)));
          session
              .skylines()
              .put(
                  new SkylineStore.Due(spot, CHAPEL), Skyline.notKnown(), List.of(), Instant.EPOCH);
          long dropped = session.spots().insert(Samples.spot("Well", CHAPEL));
          session.drives().put(new OwnDrive(spot, dropped, 12));
          session.droppedSpots().drop(session.spots().find(dropped).orElseThrow());
          MapSamples.add(session, 1);
          session.obstructions().addByOwner(MapSamples.house("Barn", CHAPEL, 8));
          SessionSamples.fill(
              session, spot, session.spots().insert(Samples.spot("Bridge", CHAPEL)));
        });
  }

  /** The names of the rules in the ledger's own tables. */
  private Set<String> rules() {
    Set<String> rules = new LinkedHashSet<>();
    Pattern rule = Pattern.compile("CONSTRAINT \"([^\"]+)\"\\s+CHECK");
    List<String> tables =
        ledger.read(
            session ->
                session.call("SELECT sql FROM sqlite_master WHERE type = 'table'").list(Row::text));
    for (String table : tables) {
      Matcher matcher = rule.matcher(table);
      while (matcher.find()) {
        rules.add(matcher.group(1));
      }
    }
    return rules;
  }
}
