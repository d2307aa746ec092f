-- What is proposed to clients, what they may see of it, and the owner's settings.

CREATE TABLE shortlists (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  title TEXT NOT NULL,
  message TEXT NOT NULL DEFAULT '',
  CONSTRAINT "a shortlist's title must be text and not blank"
    CHECK (typeof(title) = 'text' AND trim(title) <> ''),
  CONSTRAINT "a shortlist's message must be text" CHECK (typeof(message) = 'text')
);

-- A spot on a shortlist can not be deleted: a client may be looking at it.
CREATE TABLE shortlist_entries (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  shortlist_id INTEGER NOT NULL REFERENCES shortlists (id) ON DELETE CASCADE,
  place INTEGER NOT NULL,
  spot_id INTEGER NOT NULL REFERENCES spots (id) ON DELETE RESTRICT,
  light_from TEXT,
  light_until TEXT,
  light TEXT,
  facing_deg DOUBLE,
  cover_shot_id INTEGER REFERENCES shots (id) ON DELETE SET NULL,
  words TEXT NOT NULL DEFAULT '',
  CONSTRAINT "place must be a whole number of 0 or more"
    CHECK (typeof(place) = 'integer' AND place >= 0),
  CONSTRAINT "an entry's moment must have both ends, a light and a facing in [0, 360), or nothing"
    CHECK ((light_from IS NULL AND light_until IS NULL AND light IS NULL AND facing_deg IS NULL)
      OR (typeof(light_from) = 'text' AND typeof(light_until) = 'text'
        AND typeof(facing_deg) = 'real' AND facing_deg >= 0 AND facing_deg < 360
        AND light IS NOT NULL
        AND light IN ('BACKLIT', 'RIM', 'SIDE', 'THREE_QUARTER_FRONT', 'FRONT', 'OVERHEAD',
          'OPEN_SHADE', 'TWILIGHT', 'DARK'))),
  CONSTRAINT "an entry's words must be text" CHECK (typeof(words) = 'text')
);
CREATE INDEX entries_of_shortlist ON shortlist_entries (shortlist_id, place);
CREATE INDEX entries_of_spot ON shortlist_entries (spot_id);

-- The token is kept readable, because the owner wants to copy the link again; it is looked up by
-- its SHA-256, so that the time a look-up takes tells nothing about a token.
CREATE TABLE shares (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  shortlist_id INTEGER NOT NULL REFERENCES shortlists (id) ON DELETE CASCADE,
  token TEXT NOT NULL,
  token_sha256 TEXT NOT NULL UNIQUE,
  exact_positions BOOLEAN NOT NULL,
  created_ms INTEGER NOT NULL,
  expires_ms INTEGER,
  revoked_ms INTEGER,
  seen_ms INTEGER,
  CONSTRAINT "a share's token must be text of 22 characters or more of A-Z a-z 0-9 - _"
    CHECK (typeof(token) = 'text' AND length(token) >= 22 AND token NOT GLOB '*[^-A-Za-z0-9_]*'),
  CONSTRAINT "token_sha256 must be 64 digits of 0-9 a-f"
    CHECK (typeof(token_sha256) = 'text' AND length(token_sha256) = 64
      AND token_sha256 NOT GLOB '*[^0-9a-f]*'),
  CONSTRAINT "exact_positions must be 0 or 1"
    CHECK (typeof(exact_positions) = 'integer' AND exact_positions IN (0, 1)),
  CONSTRAINT "a share's times must be whole milliseconds"
    CHECK (typeof(created_ms) = 'integer' AND typeof(expires_ms) IN ('integer', 'null')
      AND typeof(revoked_ms) IN ('integer', 'null') AND typeof(seen_ms) IN ('integer', 'null'))
);
CREATE INDEX shares_of_shortlist ON shares (shortlist_id, created_ms);

CREATE TABLE settings (
  id INTEGER PRIMARY KEY NOT NULL,
  name TEXT NOT NULL UNIQUE,
  value TEXT NOT NULL,
  CONSTRAINT "a setting's name must be text and not blank"
    CHECK (typeof(name) = 'text' AND trim(name) <> ''),
  CONSTRAINT "a setting's value must be text" CHECK (typeof(value) = 'text')
);

INSERT INTO gpkg_contents (table_name, data_type, identifier, description) VALUES
  ('shortlists', 'attributes', 'Shortlists', 'Spots proposed to clients'),
  ('shortlist_entries', 'attributes', 'Shortlist entries', 'The proposed spots, in order'),
  ('shares', 'attributes', 'Shares', 'Links by which clients see a shortlist'),
  ('settings', 'attributes', 'Settings', 'The owner''s settings');
