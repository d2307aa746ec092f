-- Clients, sessions, their plans, and what goes out.

CREATE TABLE clients (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  name TEXT NOT NULL,
  called_name TEXT NOT NULL,
  minor BOOLEAN NOT NULL,
  email TEXT,
  phone TEXT,
  guardian_name TEXT,
  guardian_email TEXT,
  guardian_phone TEXT,
  home_address TEXT NOT NULL DEFAULT '',
  notes TEXT NOT NULL DEFAULT '',
  CONSTRAINT "a client's names must be text and not blank"
    CHECK (typeof(name) = 'text' AND trim(name) <> ''
      AND typeof(called_name) = 'text' AND trim(called_name) <> ''),
  CONSTRAINT "a minor must have a guardian who can be reached"
    CHECK (typeof(minor) = 'integer' AND minor IN (0, 1)
      AND (minor = 0 OR (guardian_name IS NOT NULL
        AND coalesce(guardian_email, guardian_phone) IS NOT NULL))),
  CONSTRAINT "a client's address and notes must be text"
    CHECK (typeof(home_address) = 'text' AND typeof(notes) = 'text')
);

CREATE TABLE packages (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  name TEXT NOT NULL UNIQUE,
  outfit_limit INTEGER NOT NULL,
  least_stops INTEGER NOT NULL,
  most_stops INTEGER NOT NULL,
  length_min INTEGER NOT NULL,
  CONSTRAINT "a package must have a name, outfits, stops and a length"
    CHECK (typeof(name) = 'text' AND trim(name) <> ''
      AND typeof(outfit_limit) = 'integer' AND outfit_limit BETWEEN 1 AND 12
      AND typeof(least_stops) = 'integer' AND least_stops BETWEEN 1 AND most_stops
      AND typeof(most_stops) = 'integer' AND most_stops BETWEEN 1 AND 8
      AND typeof(length_min) = 'integer' AND length_min BETWEEN 20 AND 720)
);
INSERT INTO packages (name, outfit_limit, least_stops, most_stops, length_min) VALUES
  ('Outdoor portraits', 4, 2, 5, 150);

-- The terms are copied when a session is booked: a package that changes later does not touch it.
CREATE TABLE sessions (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  uid TEXT NOT NULL UNIQUE,
  revision INTEGER NOT NULL DEFAULT 0,
  client_id INTEGER NOT NULL REFERENCES clients (id) ON DELETE RESTRICT,
  date TEXT NOT NULL,
  zone TEXT NOT NULL,
  anchor TEXT NOT NULL,
  package_name TEXT NOT NULL,
  outfit_limit INTEGER NOT NULL,
  least_stops INTEGER NOT NULL,
  most_stops INTEGER NOT NULL,
  length_min INTEGER NOT NULL,
  state TEXT NOT NULL DEFAULT 'BOOKED',
  wishes TEXT NOT NULL DEFAULT '',
  pictures TEXT NOT NULL DEFAULT '',
  talking_points TEXT NOT NULL DEFAULT '',
  goal TEXT NOT NULL DEFAULT '',
  outcome TEXT NOT NULL DEFAULT '',
  notes TEXT NOT NULL DEFAULT '',
  CONSTRAINT "a session's uid must be text and not blank"
    CHECK (typeof(uid) = 'text' AND trim(uid) <> ''),
  CONSTRAINT "a session's revision must be a count of 0 or more"
    CHECK (typeof(revision) = 'integer' AND revision >= 0),
  CONSTRAINT "a session's date must be written as 2026-06-30"
    CHECK (typeof(date) = 'text' AND date GLOB '[0-9][0-9][0-9][0-9]-[0-1][0-9]-[0-3][0-9]'),
  CONSTRAINT "a session's zone must be the name of a time zone"
    CHECK (typeof(zone) = 'text' AND trim(zone) <> ''),
  CONSTRAINT "a session's anchor must be ends-sunset, ends- or starts-"
    CHECK (typeof(anchor) = 'text' AND (anchor GLOB 'ends-sunset[-+]*'
      OR anchor GLOB 'ends-[0-2][0-9]:*' OR anchor GLOB 'starts-[0-2][0-9]:*')),
  CONSTRAINT "a session must have a package's name, outfits, stops and length"
    CHECK (typeof(package_name) = 'text' AND trim(package_name) <> ''
      AND typeof(outfit_limit) = 'integer' AND outfit_limit BETWEEN 1 AND 12
      AND typeof(least_stops) = 'integer' AND least_stops BETWEEN 1 AND most_stops
      AND typeof(most_stops) = 'integer' AND most_stops BETWEEN 1 AND 8
      AND typeof(length_min) = 'integer' AND length_min BETWEEN 20 AND 720),
  CONSTRAINT "a session's state must be a known one"
    CHECK (state IN ('BOOKED', 'PLANNED', 'AGREED', 'DONE', 'CANCELLED')),
  CONSTRAINT "a session's words must be text"
    CHECK (typeof(wishes) = 'text' AND typeof(pictures) = 'text'
      AND typeof(talking_points) = 'text' AND typeof(goal) = 'text'
      AND typeof(outcome) = 'text' AND typeof(notes) = 'text')
);
CREATE INDEX sessions_by_date ON sessions (date);
CREATE INDEX sessions_of_client ON sessions (client_id, date);

CREATE TABLE session_candidates (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  session_id INTEGER NOT NULL REFERENCES sessions (id) ON DELETE CASCADE,
  place INTEGER NOT NULL,
  spot_id INTEGER NOT NULL REFERENCES spots (id) ON DELETE RESTRICT,
  choice TEXT NOT NULL,
  wanted TEXT NOT NULL DEFAULT '[]',
  stay_min INTEGER,
  arrival TEXT,
  UNIQUE (session_id, spot_id),
  CONSTRAINT "a candidate's place must be a whole number of 0 or more"
    CHECK (typeof(place) = 'integer' AND place >= 0),
  CONSTRAINT "a candidate's choice must be FREE, LOCKED or EXCLUDED"
    CHECK (choice IN ('FREE', 'LOCKED', 'EXCLUDED')),
  CONSTRAINT "a candidate's wanted light must be a list in JSON"
    CHECK (typeof(wanted) = 'text' AND json_valid(wanted) AND json_type(wanted) = 'array'),
  CONSTRAINT "a candidate's stay must be 5 to 480 minutes"
    CHECK (stay_min IS NULL OR (typeof(stay_min) = 'integer' AND stay_min BETWEEN 5 AND 480)),
  CONSTRAINT "a candidate's arrival must be a time, and of a locked stop"
    CHECK (arrival IS NULL
      OR (choice = 'LOCKED' AND typeof(arrival) = 'text' AND arrival GLOB '[0-2][0-9]:[0-5][0-9]*'))
);
CREATE INDEX candidates_of_spot ON session_candidates (spot_id);

CREATE TABLE plans (
  id INTEGER PRIMARY KEY NOT NULL,
  session_id INTEGER NOT NULL UNIQUE REFERENCES sessions (id) ON DELETE CASCADE,
  made_ms INTEGER NOT NULL,
  sky TEXT NOT NULL,
  by_hand BOOLEAN NOT NULL,
  call_ms INTEGER NOT NULL,
  end_ms INTEGER NOT NULL,
  meeting_words TEXT NOT NULL DEFAULT '',
  meeting_latitude_deg DOUBLE,
  meeting_longitude_deg DOUBLE,
  CONSTRAINT "a plan must have times in order, a sky and an order"
    CHECK (typeof(made_ms) = 'integer' AND typeof(call_ms) = 'integer'
      AND typeof(end_ms) = 'integer' AND call_ms < end_ms
      AND sky IN ('CLEAR', 'OVERCAST') AND typeof(by_hand) = 'integer' AND by_hand IN (0, 1)),
  CONSTRAINT "a plan's meeting must be text, with latitude [-90, 90] and longitude [-180, 180] or none"
    CHECK (typeof(meeting_words) = 'text'
      AND ((meeting_latitude_deg IS NULL AND meeting_longitude_deg IS NULL)
        OR (typeof(meeting_latitude_deg) = 'real' AND meeting_latitude_deg BETWEEN -90 AND 90
          AND typeof(meeting_longitude_deg) = 'real'
          AND meeting_longitude_deg BETWEEN -180 AND 180)))
);

CREATE TABLE plan_stops (
  id INTEGER PRIMARY KEY NOT NULL,
  plan_id INTEGER NOT NULL REFERENCES plans (id) ON DELETE CASCADE,
  place INTEGER NOT NULL,
  spot_id INTEGER NOT NULL REFERENCES spots (id) ON DELETE RESTRICT,
  arrive_ms INTEGER NOT NULL,
  shoot_ms INTEGER NOT NULL,
  shoot_until_ms INTEGER NOT NULL,
  leave_ms INTEGER NOT NULL,
  outfit INTEGER NOT NULL,
  drive_min INTEGER,
  drive_source TEXT,
  facing_deg DOUBLE,
  fallback_spot_id INTEGER REFERENCES spots (id) ON DELETE SET NULL,
  UNIQUE (plan_id, place),
  CONSTRAINT "a stop's times must be whole milliseconds in order"
    CHECK (typeof(arrive_ms) = 'integer' AND typeof(shoot_ms) = 'integer'
      AND typeof(shoot_until_ms) = 'integer' AND typeof(leave_ms) = 'integer'
      AND arrive_ms <= shoot_ms AND shoot_ms < shoot_until_ms AND shoot_until_ms <= leave_ms),
  CONSTRAINT "a stop's place and outfit must be whole numbers"
    CHECK (typeof(place) = 'integer' AND place >= 0
      AND typeof(outfit) = 'integer' AND outfit >= 1),
  CONSTRAINT "a stop's drive must have minutes and a source, or nothing"
    CHECK ((drive_min IS NULL AND drive_source IS NULL)
      OR (typeof(drive_min) = 'integer' AND drive_min >= 0 AND drive_source IS NOT NULL
        AND drive_source IN ('OWNER', 'ROUTED', 'ESTIMATED'))),
  CONSTRAINT "a stop's facing must be a number in [0, 360)"
    CHECK (facing_deg IS NULL
      OR (typeof(facing_deg) = 'real' AND facing_deg >= 0 AND facing_deg < 360))
);
CREATE INDEX stops_at_spot ON plan_stops (spot_id);
CREATE INDEX stops_with_fallback ON plan_stops (fallback_spot_id);

-- The changes of outfit at a stop.
CREATE TABLE plan_changes (
  id INTEGER PRIMARY KEY NOT NULL,
  stop_id INTEGER NOT NULL REFERENCES plan_stops (id) ON DELETE CASCADE,
  from_ms INTEGER NOT NULL,
  until_ms INTEGER NOT NULL,
  outfit INTEGER NOT NULL,
  CONSTRAINT "a change must take time and lead to outfit 2 or more"
    CHECK (typeof(from_ms) = 'integer' AND typeof(until_ms) = 'integer' AND from_ms < until_ms
      AND typeof(outfit) = 'integer' AND outfit >= 2)
);
CREATE INDEX changes_at_stop ON plan_changes (stop_id, from_ms);

-- The owner's own minutes from a spot to another; they hold both ways unless both are told.
CREATE TABLE drives (
  id INTEGER PRIMARY KEY NOT NULL,
  from_spot_id INTEGER NOT NULL REFERENCES spots (id) ON DELETE CASCADE,
  to_spot_id INTEGER NOT NULL REFERENCES spots (id) ON DELETE CASCADE,
  minutes INTEGER NOT NULL,
  UNIQUE (from_spot_id, to_spot_id),
  CONSTRAINT "a drive must be 0 to 720 minutes between two spots"
    CHECK (typeof(minutes) = 'integer' AND minutes BETWEEN 0 AND 720
      AND from_spot_id <> to_spot_id)
);
CREATE INDEX drives_to_spot ON drives (to_spot_id);

-- When a place lets people in, on the place's clock, every day alike.
CREATE TABLE spot_hours (
  id INTEGER PRIMARY KEY NOT NULL,
  spot_id INTEGER NOT NULL UNIQUE REFERENCES spots (id) ON DELETE CASCADE,
  opens TEXT NOT NULL,
  closes TEXT NOT NULL,
  CONSTRAINT "a spot's hours must be two times, opening first"
    CHECK (typeof(opens) = 'text' AND opens GLOB '[0-2][0-9]:[0-5][0-9]'
      AND typeof(closes) = 'text' AND closes GLOB '[0-2][0-9]:[0-5][0-9]' AND opens < closes)
);

CREATE TABLE client_questions (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  place INTEGER NOT NULL,
  words TEXT NOT NULL,
  kind TEXT NOT NULL,
  CONSTRAINT "a client question must have a place, words and a kind"
    CHECK (typeof(place) = 'integer' AND place >= 0 AND typeof(words) = 'text'
      AND trim(words) <> '' AND kind IN ('WORDS', 'PLACES'))
);
INSERT INTO client_questions (place, words, kind) VALUES
  (0, 'Which kinds of place do you like?', 'PLACES'),
  (1, 'Which pictures do you hope for?', 'WORDS'),
  (2, 'Will you bring anything: a pet, an instrument, something you love?', 'WORDS'),
  (3, 'Does anything about being photographed make you uneasy?', 'WORDS'),
  (4, 'What do you like to do and talk about?', 'WORDS');

CREATE TABLE answers (
  id INTEGER PRIMARY KEY NOT NULL,
  session_id INTEGER NOT NULL REFERENCES sessions (id) ON DELETE CASCADE,
  question_id INTEGER NOT NULL,
  asked TEXT NOT NULL,
  words TEXT NOT NULL,
  places TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  by_client BOOLEAN NOT NULL,
  UNIQUE (session_id, question_id),
  CONSTRAINT "an answer must have the question, words, a list of places, a time and who wrote it"
    CHECK (typeof(asked) = 'text' AND typeof(words) = 'text' AND length(words) <= 4000
      AND typeof(places) = 'text' AND json_valid(places) AND json_type(places) = 'array'
      AND typeof(at_ms) = 'integer' AND typeof(by_client) = 'integer' AND by_client IN (0, 1))
);

CREATE TABLE templates (
  id INTEGER PRIMARY KEY NOT NULL,
  kind TEXT NOT NULL UNIQUE,
  subject TEXT NOT NULL,
  body TEXT NOT NULL,
  CONSTRAINT "a template must have a known kind, a subject and a text"
    CHECK (kind IN ('QUESTIONS', 'PLAN', 'REMINDER') AND typeof(subject) = 'text'
      AND trim(subject) <> '' AND typeof(body) = 'text' AND trim(body) <> '')
);

CREATE TABLE sent_messages (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  session_id INTEGER NOT NULL REFERENCES sessions (id) ON DELETE CASCADE,
  kind TEXT NOT NULL,
  way TEXT NOT NULL,
  recipient TEXT NOT NULL,
  subject TEXT NOT NULL,
  body TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  CONSTRAINT "a sent message must have a known kind and way, texts and a time"
    CHECK (kind IN ('QUESTIONS', 'PLAN', 'REMINDER') AND way IN ('COPIED', 'DRAFT', 'MAIL')
      AND typeof(recipient) = 'text' AND typeof(subject) = 'text' AND typeof(body) = 'text'
      AND typeof(at_ms) = 'integer')
);
CREATE INDEX messages_of_session ON sent_messages (session_id, at_ms);

-- What the studio packs for every session, and what it packed for each.
CREATE TABLE gear (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  place INTEGER NOT NULL,
  words TEXT NOT NULL,
  CONSTRAINT "a thing to pack must have a place and words"
    CHECK (typeof(place) = 'integer' AND place >= 0 AND typeof(words) = 'text'
      AND trim(words) <> '')
);
INSERT INTO gear (place, words) VALUES
  (0, 'Batteries charged, and spares'),
  (1, 'Cards in the cameras, empty, and spares'),
  (2, 'Lenses and sensor clean'),
  (3, 'Reflector'),
  (4, 'Changing tent'),
  (5, 'Water, blanket, pins, wipes'),
  (6, 'Props and gifts');

CREATE TABLE session_items (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  session_id INTEGER NOT NULL REFERENCES sessions (id) ON DELETE CASCADE,
  place INTEGER NOT NULL,
  words TEXT NOT NULL,
  done_ms INTEGER,
  CONSTRAINT "a session's thing to pack must have a place and words"
    CHECK (typeof(place) = 'integer' AND place >= 0 AND typeof(words) = 'text'
      AND trim(words) <> '' AND typeof(done_ms) IN ('integer', 'null'))
);
CREATE INDEX items_of_session ON session_items (session_id, place);

INSERT INTO gpkg_contents (table_name, data_type, identifier, description) VALUES
  ('clients', 'attributes', 'Clients', 'Who is photographed'),
  ('packages', 'attributes', 'Packages', 'What a client can book'),
  ('sessions', 'attributes', 'Sessions', 'Days with a client'),
  ('session_candidates', 'attributes', 'Session candidates', 'Spots a session may stop at'),
  ('plans', 'attributes', 'Plans', 'The kept plan of a session'),
  ('plan_stops', 'attributes', 'Stops', 'The stops of a plan, in order'),
  ('plan_changes', 'attributes', 'Changes of outfit', 'Where and when clothes are changed'),
  ('drives', 'attributes', 'Drives', 'The owner''s minutes between spots'),
  ('spot_hours', 'attributes', 'Hours of spots', 'When a place lets people in'),
  ('client_questions', 'attributes', 'Client questions', 'What the owner asks every client'),
  ('answers', 'attributes', 'Answers', 'What clients answered'),
  ('templates', 'attributes', 'Templates', 'The owner''s wording of messages'),
  ('sent_messages', 'attributes', 'Sent messages', 'What went out'),
  ('gear', 'attributes', 'Gear', 'What the studio packs for every session'),
  ('session_items', 'attributes', 'Things to pack', 'What is packed for a session');
