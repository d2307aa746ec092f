-- What spots are and have, and the questions that the owner keeps.

CREATE TABLE spot_traits (
  id INTEGER PRIMARY KEY NOT NULL,
  spot_id INTEGER NOT NULL REFERENCES spots (id) ON DELETE CASCADE,
  trait TEXT NOT NULL,
  UNIQUE (spot_id, trait),
  CONSTRAINT "a spot's trait must be a known one"
    CHECK (trait IN ('WOODS', 'TOWN', 'WATER', 'OPEN_FIELD', 'INDOORS', 'COVERED', 'PARKING',
      'LEVEL_ACCESS', 'PLACE_TO_CHANGE', 'NO_PERMIT'))
);
CREATE INDEX spots_by_trait ON spot_traits (trait, spot_id);

CREATE TABLE questions (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  name TEXT NOT NULL UNIQUE,
  query TEXT NOT NULL,
  CONSTRAINT "a question's name must be text and not blank"
    CHECK (typeof(name) = 'text' AND trim(name) <> ''),
  CONSTRAINT "a question's query must be text" CHECK (typeof(query) = 'text')
);

INSERT INTO gpkg_contents (table_name, data_type, identifier, description) VALUES
  ('spot_traits', 'attributes', 'Traits of spots', 'What spots are and have'),
  ('questions', 'attributes', 'Questions', 'Questions that the owner keeps');
