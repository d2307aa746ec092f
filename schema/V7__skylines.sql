-- What stands around each spot: the sources of skylines, and the skylines made from them.

-- The elevation files stay where the owner keeps them; they are only pointed at.
CREATE TABLE elevation_files (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  path TEXT NOT NULL UNIQUE,
  added_ms INTEGER NOT NULL,
  CONSTRAINT "an elevation file's path must be text and not blank"
    CHECK (typeof(path) = 'text' AND trim(path) <> ''),
  CONSTRAINT "an elevation file's added_ms must be whole milliseconds"
    CHECK (typeof(added_ms) = 'integer')
);

-- Readings of a clinometer and a compass, taken by the owner at the spot.
CREATE TABLE measured_points (
  id INTEGER PRIMARY KEY NOT NULL,
  spot_id INTEGER NOT NULL REFERENCES spots (id) ON DELETE CASCADE,
  azimuth_deg DOUBLE NOT NULL,
  altitude_deg DOUBLE NOT NULL,
  UNIQUE (spot_id, azimuth_deg),
  CONSTRAINT "a measured point needs azimuth [0, 360) and altitude [-90, 90]"
    CHECK (typeof(azimuth_deg) = 'real' AND azimuth_deg >= 0 AND azimuth_deg < 360
      AND typeof(altitude_deg) = 'real' AND altitude_deg BETWEEN -90 AND 90)
);

-- The owner's word on what a shot shows.
ALTER TABLE shots ADD COLUMN sun_on_subject TEXT
  CONSTRAINT "sun_on_subject must be YES, NO or DAPPLED"
    CHECK (sun_on_subject IN ('YES', 'NO', 'DAPPLED'));

CREATE INDEX shots_of_spot_with_sun_on_subject ON shots (spot_id)
  WHERE sun_on_subject IS NOT NULL;

-- The skyline of a spot as it was made at a place. Without angles nothing is known around it. A row
-- that is due has a source that changed since; a spot without a row has never been looked at.
CREATE TABLE skylines (
  spot_id INTEGER PRIMARY KEY NOT NULL REFERENCES spots (id) ON DELETE CASCADE,
  angles BLOB,
  remarks TEXT NOT NULL,
  made_ms INTEGER NOT NULL,
  due BOOLEAN NOT NULL DEFAULT 0,
  CONSTRAINT "a skyline's angles must be bytes" CHECK (typeof(angles) IN ('blob', 'null')),
  CONSTRAINT "a skyline's remarks must be a list in JSON"
    CHECK (typeof(remarks) = 'text' AND substr(remarks, 1, 1) = '['),
  CONSTRAINT "a skyline's made_ms must be whole milliseconds" CHECK (typeof(made_ms) = 'integer'),
  CONSTRAINT "a skyline's due must be 0 or 1" CHECK (typeof(due) = 'integer' AND due IN (0, 1))
);
CREATE INDEX skylines_known ON skylines (spot_id) WHERE angles IS NOT NULL;
CREATE INDEX skylines_due ON skylines (spot_id) WHERE due = 1;

INSERT INTO gpkg_contents (table_name, data_type, identifier, description) VALUES
  ('elevation_files', 'attributes', 'Elevation files', 'Where the owner keeps elevation'),
  ('measured_points', 'attributes', 'Measured points', 'Skylines measured by hand at spots'),
  ('skylines', 'attributes', 'Skylines', 'What stands around each spot, from all sources');

-- Grows with every change of a source, so that a skyline made meanwhile is not taken for current.
CREATE TABLE skyline_sources (
  id INTEGER PRIMARY KEY NOT NULL,
  version INTEGER NOT NULL,
  CONSTRAINT "skyline_sources has one row" CHECK (id = 1)
);
INSERT INTO skyline_sources (id, version) VALUES (1, 0);

CREATE TRIGGER spots_skyline_moved AFTER UPDATE OF geom ON spots
  WHEN NEW.geom <> OLD.geom
BEGIN
  UPDATE skylines SET due = 1 WHERE spot_id = NEW.id AND due = 0;
END;

CREATE TRIGGER elevation_files_skyline_insert AFTER INSERT ON elevation_files
BEGIN
  UPDATE skyline_sources SET version = version + 1;
  UPDATE skylines SET due = 1 WHERE due = 0;
END;

CREATE TRIGGER elevation_files_skyline_delete AFTER DELETE ON elevation_files
BEGIN
  UPDATE skyline_sources SET version = version + 1;
  UPDATE skylines SET due = 1 WHERE due = 0;
END;

CREATE TRIGGER measured_points_skyline_insert AFTER INSERT ON measured_points
BEGIN
  UPDATE skyline_sources SET version = version + 1;
  UPDATE skylines SET due = 1 WHERE spot_id = NEW.spot_id AND due = 0;
END;

CREATE TRIGGER measured_points_skyline_delete AFTER DELETE ON measured_points
BEGIN
  UPDATE skyline_sources SET version = version + 1;
  UPDATE skylines SET due = 1 WHERE spot_id = OLD.spot_id AND due = 0;
END;

CREATE TRIGGER shots_skyline_word
  AFTER UPDATE OF sun_on_subject, spot_id, sun_azimuth_deg, sun_apparent_altitude_deg ON shots
  WHEN OLD.sun_on_subject NOT NULL OR NEW.sun_on_subject NOT NULL
BEGIN
  UPDATE skyline_sources SET version = version + 1;
  UPDATE skylines SET due = 1 WHERE spot_id IN (OLD.spot_id, NEW.spot_id) AND due = 0;
END;

CREATE TRIGGER shots_skyline_delete AFTER DELETE ON shots
  WHEN OLD.sun_on_subject NOT NULL
BEGIN
  UPDATE skyline_sources SET version = version + 1;
  UPDATE skylines SET due = 1 WHERE spot_id = OLD.spot_id AND due = 0;
END;

-- An answer about light rests on the skylines as well.
CREATE TRIGGER skylines_stock_insert AFTER INSERT ON skylines
BEGIN
  UPDATE stock SET version = version + 1;
END;

CREATE TRIGGER skylines_stock_update AFTER UPDATE OF angles ON skylines
BEGIN
  UPDATE stock SET version = version + 1;
END;

CREATE TRIGGER skylines_stock_delete AFTER DELETE ON skylines
BEGIN
  UPDATE stock SET version = version + 1;
END;
