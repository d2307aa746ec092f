-- What the owner corrected, and how each shot and spot was before, so that a correction can be
-- undone exactly. Corrections are undone newest first, so a row before is always the row after once
-- the later corrections are gone. Plain tables: they are the program's memory, no layer for others.

CREATE TABLE corrections (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  made_ms INTEGER NOT NULL,
  words TEXT NOT NULL,
  CONSTRAINT "a correction's made_ms must be whole milliseconds" CHECK (typeof(made_ms) = 'integer'),
  CONSTRAINT "a correction's words must be text and not blank"
    CHECK (typeof(words) = 'text' AND trim(words) <> '')
);

-- Every column of shots that a correction can change, as it was; geom is place_before, because a
-- table with a geometry of that name would be taken for a layer. The columns are checked in shots.
CREATE TABLE corrected_shots (
  id INTEGER PRIMARY KEY NOT NULL,
  correction_id INTEGER NOT NULL REFERENCES corrections (id) ON DELETE CASCADE,
  shot_id INTEGER NOT NULL REFERENCES shots (id) ON DELETE CASCADE,
  -- Where it belonged, and why; where it belonged after the correction, so that what the owner
  -- grouped since is not undone with it.
  spot_id INTEGER,
  dropped_spot_id INTEGER,
  spot_source TEXT,
  home_after INTEGER,
  time_state TEXT,
  captured_ms INTEGER,
  captured_rest_ns INTEGER,
  captured_offset_s INTEGER,
  captured_at TEXT,
  time_source TEXT,
  time_local TEXT,
  time_candidates TEXT,
  time_reason TEXT,
  clock_correction_ms INTEGER,
  place_before BLOB,
  position_source TEXT,
  position_error_m DOUBLE,
  position_altitude_m DOUBLE,
  facing_deg DOUBLE,
  facing_source TEXT,
  sun_azimuth_deg DOUBLE,
  sun_geometric_altitude_deg DOUBLE,
  sun_apparent_altitude_deg DOUBLE,
  needs_attention BOOLEAN,
  problems TEXT,
  -- What the files said, as one text: an import may bring a file of the same shot that says more.
  file_said TEXT,
  UNIQUE (correction_id, shot_id)
);
CREATE INDEX corrections_of_shot ON corrected_shots (shot_id);

-- Every spot that a correction touched. Without place_before the correction made the spot; without
-- place_after it removed it. A spot that is elsewhere than place_after, or has another count of
-- shots than shots_after, has been changed since.
CREATE TABLE corrected_spots (
  id INTEGER PRIMARY KEY NOT NULL,
  correction_id INTEGER NOT NULL REFERENCES corrections (id) ON DELETE CASCADE,
  spot_id INTEGER NOT NULL,
  place_before BLOB,
  place_after BLOB,
  shots_after INTEGER,
  name TEXT,
  area TEXT,
  zone TEXT,
  open BOOLEAN,
  notes TEXT,
  cautions TEXT,
  UNIQUE (correction_id, spot_id)
);

CREATE INDEX shots_without_facing ON shots (id)
  WHERE facing_deg IS NULL AND needs_attention = 0 AND spot_id IS NOT NULL;
