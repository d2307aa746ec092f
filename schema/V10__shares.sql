-- A share shows a shortlist or a session, and keeps what its client sends back.

CREATE TABLE new_shares (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  shortlist_id INTEGER REFERENCES shortlists (id) ON DELETE CASCADE,
  session_id INTEGER REFERENCES sessions (id) ON DELETE CASCADE,
  client_id INTEGER REFERENCES clients (id) ON DELETE CASCADE,
  token TEXT NOT NULL,
  token_sha256 TEXT NOT NULL UNIQUE,
  secret TEXT NOT NULL,
  key_id TEXT NOT NULL UNIQUE,
  as_file BOOLEAN NOT NULL,
  message TEXT NOT NULL DEFAULT '',
  exact_positions BOOLEAN NOT NULL,
  shows_plan BOOLEAN NOT NULL,
  shows_questions BOOLEAN NOT NULL,
  created_ms INTEGER NOT NULL,
  expires_ms INTEGER,
  revoked_ms INTEGER,
  first_seen_ms INTEGER,
  seen_ms INTEGER,
  seen_count INTEGER NOT NULL DEFAULT 0,
  reply_words TEXT NOT NULL DEFAULT '',
  replied_ms INTEGER,
  read_ms INTEGER,
  limit_day TEXT NOT NULL DEFAULT '',
  day_changes INTEGER NOT NULL DEFAULT 0,
  day_pictures INTEGER NOT NULL DEFAULT 0,
  CONSTRAINT "a share must show a shortlist or a session"
    CHECK ((shortlist_id IS NULL) <> (session_id IS NULL)),
  CONSTRAINT "a share's token must be text of 22 characters or more of A-Z a-z 0-9 - _"
    CHECK (typeof(token) = 'text' AND length(token) >= 22 AND token NOT GLOB '*[^-A-Za-z0-9_]*'),
  CONSTRAINT "token_sha256 must be 64 digits of 0-9 a-f"
    CHECK (typeof(token_sha256) = 'text' AND length(token_sha256) = 64
      AND token_sha256 NOT GLOB '*[^0-9a-f]*'),
  CONSTRAINT "a share's secret and key_id must be 64 and 16 digits of 0-9 a-f"
    CHECK (typeof(secret) = 'text' AND length(secret) = 64 AND secret NOT GLOB '*[^0-9a-f]*'
      AND typeof(key_id) = 'text' AND length(key_id) = 16 AND key_id NOT GLOB '*[^0-9a-f]*'),
  CONSTRAINT "exact_positions must be 0 or 1"
    CHECK (typeof(exact_positions) = 'integer' AND exact_positions IN (0, 1)),
  CONSTRAINT "what a share shows must be 0 or 1"
    CHECK (typeof(as_file) = 'integer' AND as_file IN (0, 1)
      AND typeof(shows_plan) = 'integer' AND shows_plan IN (0, 1)
      AND typeof(shows_questions) = 'integer' AND shows_questions IN (0, 1)),
  CONSTRAINT "a share's words must be text of at most 4000 characters"
    CHECK (typeof(message) = 'text' AND length(message) <= 4000
      AND typeof(reply_words) = 'text' AND length(reply_words) <= 4000),
  CONSTRAINT "a share's times must be whole milliseconds"
    CHECK (typeof(created_ms) = 'integer' AND typeof(expires_ms) IN ('integer', 'null')
      AND typeof(revoked_ms) IN ('integer', 'null') AND typeof(seen_ms) IN ('integer', 'null')
      AND typeof(first_seen_ms) IN ('integer', 'null')
      AND typeof(replied_ms) IN ('integer', 'null') AND typeof(read_ms) IN ('integer', 'null')),
  CONSTRAINT "a share's counts must be whole numbers of 0 or more"
    CHECK (typeof(seen_count) = 'integer' AND seen_count >= 0
      AND typeof(day_changes) = 'integer' AND day_changes >= 0
      AND typeof(day_pictures) = 'integer' AND day_pictures >= 0
      AND typeof(limit_day) = 'text')
);

-- Earlier shares get a secret of their own; how often they were opened was not counted.
INSERT INTO new_shares (id, shortlist_id, token, token_sha256, secret, key_id, as_file,
    exact_positions, shows_plan, shows_questions, created_ms, expires_ms, revoked_ms,
    first_seen_ms, seen_ms, seen_count)
  SELECT id, shortlist_id, token, token_sha256, lower(hex(randomblob(32))),
    lower(hex(randomblob(8))), 0, exact_positions, 0, 0, created_ms, expires_ms, revoked_ms,
    seen_ms, seen_ms, seen_ms IS NOT NULL
  FROM shares;
DROP TABLE shares;
ALTER TABLE new_shares RENAME TO shares;
CREATE INDEX shares_of_shortlist ON shares (shortlist_id, created_ms);
CREATE INDEX shares_of_session ON shares (session_id, created_ms);
CREATE INDEX shares_of_client ON shares (client_id);

-- What a client says of a place. Answers to the owner's questions are in their own table.
CREATE TABLE share_picks (
  id INTEGER PRIMARY KEY NOT NULL,
  share_id INTEGER NOT NULL REFERENCES shares (id) ON DELETE CASCADE,
  spot_id INTEGER NOT NULL REFERENCES spots (id) ON DELETE CASCADE,
  favourite BOOLEAN NOT NULL,
  words TEXT NOT NULL,
  UNIQUE (share_id, spot_id),
  CONSTRAINT "a pick must be a favourite or not, with words of at most 2000 characters"
    CHECK (typeof(favourite) = 'integer' AND favourite IN (0, 1)
      AND typeof(words) = 'text' AND length(words) <= 2000)
);
CREATE INDEX picks_of_spot ON share_picks (spot_id);

-- Pictures of outfits, encoded anew: they go with the share, the backup and the erasure.
CREATE TABLE outfit_pictures (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  share_id INTEGER NOT NULL REFERENCES shares (id) ON DELETE CASCADE,
  sent_ms INTEGER NOT NULL,
  jpeg BLOB NOT NULL,
  CONSTRAINT "an outfit picture must be a JPEG with the time it was sent"
    CHECK (typeof(sent_ms) = 'integer' AND typeof(jpeg) = 'blob'
      AND hex(substr(jpeg, 1, 3)) = 'FFD8FF')
);
CREATE INDEX outfits_of_share ON outfit_pictures (share_id);

UPDATE gpkg_contents SET description = 'What clients see, and what they sent back'
  WHERE table_name = 'shares';
INSERT INTO gpkg_contents (table_name, data_type, identifier, description) VALUES
  ('share_picks', 'attributes', 'Picks', 'What clients say of places'),
  ('outfit_pictures', 'attributes', 'Outfit pictures', 'Pictures that clients sent');
