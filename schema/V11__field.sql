-- What is dangerous or forbidden at spots, and what came in from the field.

CREATE TABLE spot_hazards (
  id INTEGER PRIMARY KEY NOT NULL,
  spot_id INTEGER NOT NULL REFERENCES spots (id) ON DELETE CASCADE,
  hazard TEXT NOT NULL,
  UNIQUE (spot_id, hazard),
  CONSTRAINT "a spot's hazard must be a known one"
    CHECK (hazard IN ('RAILWAY', 'ROAD', 'WATER', 'DROP', 'PRIVATE_LAND', 'PERMIT'))
);

-- A deleted spot keeps its hazards, as it keeps its cautions.
ALTER TABLE dropped_spots ADD COLUMN hazards TEXT NOT NULL DEFAULT '[]'
  CONSTRAINT "a dropped spot's hazards must be a list"
    CHECK (json_valid(hazards) AND json_type(hazards) = 'array');

-- Without it, of two ticks nobody could tell which was the later one.
ALTER TABLE session_items ADD COLUMN changed_ms INTEGER
  CONSTRAINT "a thing to pack must know when it was changed"
    CHECK (typeof(changed_ms) IN ('integer', 'null'));

-- A phone names each entry itself, so that one that is sent again is known.
CREATE TABLE field_entries (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  uuid TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  made_ms INTEGER NOT NULL,
  received_ms INTEGER NOT NULL,
  outcome TEXT NOT NULL,
  said TEXT NOT NULL,
  told TEXT NOT NULL,
  shot_id INTEGER REFERENCES shots (id) ON DELETE SET NULL,
  CONSTRAINT "a field entry must have a name of its own, a known kind and outcome, times and words"
    CHECK (typeof(uuid) = 'text' AND length(uuid) = 36 AND kind IN ('SHOT', 'TICK')
      AND outcome IN ('ADDED', 'KNOWN', 'TAKEN', 'SUPERSEDED', 'GONE')
      AND typeof(made_ms) = 'integer' AND typeof(received_ms) = 'integer'
      AND typeof(said) = 'text' AND typeof(told) = 'text')
);
CREATE INDEX field_entries_of_shot ON field_entries (shot_id);

INSERT INTO gpkg_contents (table_name, data_type, identifier, description) VALUES
  ('spot_hazards', 'attributes', 'Hazards of spots', 'What to mind at spots'),
  ('field_entries', 'attributes', 'Field entries', 'What came in from the field, each once');
