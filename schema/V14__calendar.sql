-- What of a session the owner's calendar was given, so that what it shows can be taken back from it.
CREATE TABLE calendar_entries (
  id INTEGER PRIMARY KEY NOT NULL,
  session_id INTEGER NOT NULL REFERENCES sessions (id) ON DELETE CASCADE,
  uid TEXT NOT NULL UNIQUE,
  title TEXT NOT NULL,
  from_ms INTEGER NOT NULL,
  to_ms INTEGER NOT NULL,
  revision INTEGER NOT NULL,
  CONSTRAINT "a calendar entry must have a name, a title, a start, a later end and a revision"
    CHECK (typeof(uid) = 'text' AND uid <> '' AND typeof(title) = 'text'
      AND typeof(from_ms) = 'integer' AND typeof(to_ms) = 'integer' AND from_ms < to_ms
      AND typeof(revision) = 'integer' AND revision >= 0)
);
CREATE INDEX calendar_entries_of_session ON calendar_entries (session_id);

INSERT INTO gpkg_contents (table_name, data_type, identifier, description) VALUES
  ('calendar_entries', 'attributes', 'Calendar entries', 'What the owner''s calendar was given');
