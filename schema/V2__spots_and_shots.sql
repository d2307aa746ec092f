-- Spots, their facings, the scouting shots, and the files the shots came from.
--
-- Every interval is a named CHECK, so that a refused row says what was expected. The type is asked
-- for as well, because SQLite would keep text in a column of numbers; tables declared STRICT would
-- do the same but make the file unreadable for programs with SQLite before 3.37. SQLite keeps NaN
-- as NULL: where NULL is possible the program refuses NaN before it gets here. Words are compared
-- one by one: of a list of three or more SQLite makes a table, anew for every row that is written.

-- Counts every change of spots, facings and shots, whoever made it.
CREATE TABLE stock (
  id INTEGER PRIMARY KEY NOT NULL,
  version INTEGER NOT NULL,
  CONSTRAINT "stock has one row" CHECK (id = 1)
);
INSERT INTO stock (id, version) VALUES (1, 0);

CREATE TABLE spots (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  geom POINT NOT NULL,
  name TEXT NOT NULL,
  area TEXT,
  zone TEXT,
  open BOOLEAN NOT NULL DEFAULT 0,
  notes TEXT NOT NULL DEFAULT '',
  cautions TEXT NOT NULL DEFAULT '',
  CONSTRAINT "a spot's geom must be a GeoPackage geometry"
    CHECK (typeof(geom) = 'blob' AND substr(geom, 1, 2) = x'4750'),
  CONSTRAINT "a spot's name must be text and not blank"
    CHECK (typeof(name) = 'text' AND trim(name) <> ''),
  CONSTRAINT "a spot's area must be text and not blank"
    CHECK (area IS NULL OR (typeof(area) = 'text' AND trim(area) <> '')),
  CONSTRAINT "a spot's zone must be the name of a time zone"
    CHECK (zone IS NULL OR (typeof(zone) = 'text' AND zone <> '')),
  CONSTRAINT "a spot's open must be 0 or 1" CHECK (typeof(open) = 'integer' AND open IN (0, 1)),
  CONSTRAINT "a spot's notes must be text" CHECK (typeof(notes) = 'text'),
  CONSTRAINT "a spot's cautions must be text" CHECK (typeof(cautions) = 'text')
);

CREATE TABLE facings (
  id INTEGER PRIMARY KEY NOT NULL,
  spot_id INTEGER NOT NULL REFERENCES spots (id) ON DELETE CASCADE,
  bearing_deg DOUBLE NOT NULL,
  spread_deg DOUBLE NOT NULL,
  origin TEXT NOT NULL,
  shots INTEGER NOT NULL,
  CONSTRAINT "bearing_deg must be a number in [0, 360)"
    CHECK (typeof(bearing_deg) = 'real' AND bearing_deg >= 0 AND bearing_deg < 360),
  CONSTRAINT "spread_deg must be a number in [0, 180]"
    CHECK (typeof(spread_deg) = 'real' AND spread_deg >= 0 AND spread_deg <= 180),
  CONSTRAINT "a facing's origin must be SHOTS or OWNER" CHECK (origin IN ('SHOTS', 'OWNER')),
  CONSTRAINT "a facing's shots must be a count of 0 or more"
    CHECK (typeof(shots) = 'integer' AND shots >= 0)
);

-- Holds the whole row in the order in which a spot's facings are read.
CREATE INDEX facings_of_spot ON facings (spot_id, origin, id, bearing_deg, spread_deg, shots);

CREATE TABLE shots (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  geom POINT,
  sha256 TEXT NOT NULL UNIQUE,
  spot_id INTEGER REFERENCES spots (id) ON DELETE SET NULL,
  -- When: captured_at is for people; the program reads milliseconds since 1970-01-01T00:00Z, the
  -- nanoseconds beyond them, and the offset from UTC.
  time_state TEXT NOT NULL,
  captured_ms INTEGER,
  captured_rest_ns INTEGER,
  captured_offset_s INTEGER,
  captured_at TEXT,
  time_source TEXT,
  time_local TEXT,
  time_candidates TEXT,
  time_reason TEXT,
  -- What the owner added to the camera clock's reading before the time was concluded.
  clock_correction_ms INTEGER NOT NULL,
  -- Where and which way.
  position_source TEXT,
  position_error_m DOUBLE,
  position_altitude_m DOUBLE,
  facing_deg DOUBLE,
  facing_source TEXT,
  -- Where the sun stood, and how bright it was.
  sun_azimuth_deg DOUBLE,
  sun_geometric_altitude_deg DOUBLE,
  sun_apparent_altitude_deg DOUBLE,
  ev100 DOUBLE,
  needs_attention BOOLEAN NOT NULL,
  problems TEXT NOT NULL,
  -- What the file says, whatever was concluded from it.
  file_format TEXT NOT NULL,
  file_local_time TEXT,
  file_offset_s INTEGER,
  file_gps_instant TEXT,
  file_gps_time_of_day TEXT,
  file_latitude_deg DOUBLE,
  file_longitude_deg DOUBLE,
  file_altitude_m DOUBLE,
  file_position_error_m DOUBLE,
  file_direction_deg DOUBLE,
  file_direction_north TEXT,
  file_exposure_time_s DOUBLE,
  file_f_number DOUBLE,
  file_iso_speed DOUBLE,
  file_focal_length_35mm_mm DOUBLE,
  file_orientation INTEGER NOT NULL,
  file_width_px INTEGER,
  file_height_px INTEGER,
  file_camera TEXT,
  file_problems TEXT NOT NULL,

  CONSTRAINT "a shot's geom must be a GeoPackage geometry"
    CHECK (geom IS NULL OR (typeof(geom) = 'blob' AND substr(geom, 1, 2) = x'4750')),
  CONSTRAINT "sha256 must be 64 digits of 0-9 a-f"
    CHECK (typeof(sha256) = 'text' AND length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  CONSTRAINT "a shot's time must be KNOWN, AMBIGUOUS or UNKNOWN with what belongs to it"
    CHECK (CASE time_state
      WHEN 'KNOWN' THEN
        typeof(captured_ms) = 'integer' AND typeof(captured_rest_ns) = 'integer'
        AND typeof(captured_offset_s) = 'integer' AND typeof(captured_at) = 'text'
        AND (time_source = 'OFFSET_TAG' OR time_source = 'GPS_TIME'
          OR time_source = 'PLACE_ZONE' OR time_source = 'OWNER')
        AND time_source IS NOT NULL
        AND time_local IS NULL AND time_candidates IS NULL AND time_reason IS NULL
      WHEN 'AMBIGUOUS' THEN
        captured_ms IS NULL AND captured_rest_ns IS NULL AND captured_offset_s IS NULL
        AND captured_at IS NULL AND time_source IS NULL
        AND typeof(time_local) = 'text' AND typeof(time_candidates) = 'text'
        AND typeof(time_reason) = 'text'
      WHEN 'UNKNOWN' THEN
        captured_ms IS NULL AND captured_rest_ns IS NULL AND captured_offset_s IS NULL
        AND captured_at IS NULL AND time_source IS NULL
        AND time_candidates IS NULL AND typeof(time_reason) = 'text'
      ELSE 0
    END),
  CONSTRAINT "captured_rest_ns must be in [0, 999999]"
    CHECK (captured_rest_ns IS NULL OR captured_rest_ns BETWEEN 0 AND 999999),
  CONSTRAINT "captured_offset_s must be in [-64800, 64800]"
    CHECK (captured_offset_s IS NULL OR captured_offset_s BETWEEN -64800 AND 64800),
  CONSTRAINT "clock_correction_ms must be less than a million hours"
    CHECK (typeof(clock_correction_ms) = 'integer'
      AND clock_correction_ms BETWEEN -3599999999999 AND 3599999999999),
  CONSTRAINT "position_source must be a known source, and NULL without a geom"
    CHECK (CASE WHEN geom IS NULL
      THEN position_source IS NULL AND position_error_m IS NULL AND position_altitude_m IS NULL
      ELSE position_source IS NOT NULL
        AND (position_source = 'GPS' OR position_source = 'TRACK'
          OR position_source = 'NEARBY_SHOT' OR position_source = 'OWNER') END),
  CONSTRAINT "position_altitude_m must be a finite number of metres"
    CHECK (position_altitude_m IS NULL
      OR (typeof(position_altitude_m) = 'real' AND abs(position_altitude_m) < 1e300)),
  CONSTRAINT "position_error_m must be a positive number of metres"
    CHECK (position_error_m IS NULL
      OR (typeof(position_error_m) = 'real' AND position_error_m > 0 AND position_error_m < 1e300)),
  CONSTRAINT "facing_deg must be a number in [0, 360)"
    CHECK (facing_deg IS NULL
      OR (typeof(facing_deg) = 'real' AND facing_deg >= 0 AND facing_deg < 360)),
  CONSTRAINT "facing_source must be a known source, and NULL without facing_deg"
    CHECK (CASE WHEN facing_deg IS NULL THEN facing_source IS NULL
      ELSE facing_source IS NOT NULL
        AND (facing_source = 'TRUE_DIRECTION_TAG' OR facing_source = 'MAGNETIC_DIRECTION_TAG'
          OR facing_source = 'SUN_IN_PICTURE' OR facing_source = 'SHADOW_IN_PICTURE'
          OR facing_source = 'OWNER') END),
  CONSTRAINT "the sun needs azimuth [0, 360), both altitudes [-90, 90], a place and a known time"
    CHECK ((sun_azimuth_deg IS NULL AND sun_geometric_altitude_deg IS NULL
        AND sun_apparent_altitude_deg IS NULL)
      OR (geom IS NOT NULL AND time_state = 'KNOWN'
        AND typeof(sun_azimuth_deg) = 'real' AND sun_azimuth_deg >= 0 AND sun_azimuth_deg < 360
        AND typeof(sun_geometric_altitude_deg) = 'real'
        AND sun_geometric_altitude_deg BETWEEN -90 AND 90
        AND typeof(sun_apparent_altitude_deg) = 'real'
        AND sun_apparent_altitude_deg BETWEEN -90 AND 90)),
  CONSTRAINT "ev100 must be a finite number"
    CHECK (ev100 IS NULL OR (typeof(ev100) = 'real' AND abs(ev100) < 1e300)),
  CONSTRAINT "needs_attention must be 0 or 1"
    CHECK (typeof(needs_attention) = 'integer' AND needs_attention IN (0, 1)),
  CONSTRAINT "problems must be a list in JSON"
    CHECK (typeof(problems) = 'text' AND substr(problems, 1, 1) = '['),
  CONSTRAINT "file_format must be text" CHECK (typeof(file_format) = 'text'),
  CONSTRAINT "file_offset_s must be in [-64800, 64800]"
    CHECK (file_offset_s IS NULL
      OR (typeof(file_offset_s) = 'integer' AND file_offset_s BETWEEN -64800 AND 64800)),
  CONSTRAINT "the file's place must be latitude [-90, 90] and longitude [-180, 180]"
    CHECK ((file_latitude_deg IS NULL AND file_longitude_deg IS NULL)
      OR (typeof(file_latitude_deg) = 'real' AND file_latitude_deg BETWEEN -90 AND 90
        AND typeof(file_longitude_deg) = 'real' AND file_longitude_deg BETWEEN -180 AND 180)),
  CONSTRAINT "file_altitude_m must be a finite number of metres"
    CHECK (file_altitude_m IS NULL
      OR (typeof(file_altitude_m) = 'real' AND abs(file_altitude_m) < 1e300)),
  CONSTRAINT "file_position_error_m must be a positive number of metres"
    CHECK (file_position_error_m IS NULL
      OR (typeof(file_position_error_m) = 'real'
        AND file_position_error_m > 0 AND file_position_error_m < 1e300)),
  CONSTRAINT "file_direction_deg must be a number in [0, 360) with its north"
    CHECK (CASE WHEN file_direction_deg IS NULL THEN file_direction_north IS NULL
      ELSE typeof(file_direction_deg) = 'real'
        AND file_direction_deg >= 0 AND file_direction_deg < 360
        AND file_direction_north IS NOT NULL
        AND (file_direction_north = 'TRUE' OR file_direction_north = 'MAGNETIC'
          OR file_direction_north = 'NOT_STATED') END),
  CONSTRAINT "file_exposure_time_s must be a positive number of seconds"
    CHECK (file_exposure_time_s IS NULL
      OR (typeof(file_exposure_time_s) = 'real'
        AND file_exposure_time_s > 0 AND file_exposure_time_s < 1e300)),
  CONSTRAINT "file_f_number must be a positive number"
    CHECK (file_f_number IS NULL
      OR (typeof(file_f_number) = 'real' AND file_f_number > 0 AND file_f_number < 1e300)),
  CONSTRAINT "file_iso_speed must be a positive number"
    CHECK (file_iso_speed IS NULL
      OR (typeof(file_iso_speed) = 'real' AND file_iso_speed > 0 AND file_iso_speed < 1e300)),
  CONSTRAINT "file_focal_length_35mm_mm must be a positive number of millimetres"
    CHECK (file_focal_length_35mm_mm IS NULL
      OR (typeof(file_focal_length_35mm_mm) = 'real'
        AND file_focal_length_35mm_mm > 0 AND file_focal_length_35mm_mm < 1e300)),
  CONSTRAINT "file_orientation must be in 1..8"
    CHECK (typeof(file_orientation) = 'integer' AND file_orientation BETWEEN 1 AND 8),
  CONSTRAINT "file_width_px must be a positive whole number"
    CHECK (file_width_px IS NULL OR (typeof(file_width_px) = 'integer' AND file_width_px > 0)),
  CONSTRAINT "file_height_px must be a positive whole number"
    CHECK (file_height_px IS NULL OR (typeof(file_height_px) = 'integer' AND file_height_px > 0)),
  CONSTRAINT "file_problems must be a list in JSON"
    CHECK (typeof(file_problems) = 'text' AND substr(file_problems, 1, 1) = '[')
);

-- Holds everything that an observation is made of, in the order in which a spot's are read.
CREATE INDEX shots_of_spot ON shots (
  spot_id, captured_ms, captured_rest_ns, captured_offset_s, sun_azimuth_deg,
  sun_geometric_altitude_deg, sun_apparent_altitude_deg, facing_deg, ev100);
CREATE INDEX shots_captured ON shots (captured_ms) WHERE captured_ms IS NOT NULL;
CREATE INDEX shots_needing_attention ON shots (id) WHERE needs_attention = 1;

-- One row for each file met, whether or not a shot came of it. Several files may hold one shot.
CREATE TABLE files (
  id INTEGER PRIMARY KEY NOT NULL,
  path TEXT NOT NULL UNIQUE,
  size_bytes INTEGER NOT NULL,
  modified_ms INTEGER NOT NULL,
  sha256 TEXT,
  status TEXT NOT NULL,
  shot_id INTEGER REFERENCES shots (id) ON DELETE SET NULL,
  problems TEXT NOT NULL,
  CONSTRAINT "path must be text and not empty" CHECK (typeof(path) = 'text' AND path <> ''),
  CONSTRAINT "size_bytes must be 0 or more"
    CHECK (typeof(size_bytes) = 'integer' AND size_bytes >= 0),
  CONSTRAINT "modified_ms must be whole milliseconds" CHECK (typeof(modified_ms) = 'integer'),
  CONSTRAINT "sha256 must be 64 digits of 0-9 a-f"
    CHECK (sha256 IS NULL OR (typeof(sha256) = 'text' AND length(sha256) = 64
      AND sha256 NOT GLOB '*[^0-9a-f]*')),
  CONSTRAINT "a file's status must be READ, FORMAT_NOT_READ or UNREADABLE"
    CHECK (status = 'READ' OR status = 'FORMAT_NOT_READ' OR status = 'UNREADABLE'),
  CONSTRAINT "problems must be a list in JSON"
    CHECK (typeof(problems) = 'text' AND substr(problems, 1, 1) = '[')
);
CREATE INDEX files_of_shot ON files (shot_id) WHERE shot_id IS NOT NULL;
CREATE INDEX files_with_content ON files (sha256) WHERE sha256 IS NOT NULL;

INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id) VALUES
  ('spots', 'features', 'Spots', 'Places where a subject can stand', 4326),
  ('shots', 'features', 'Scouting shots', 'Imported photographs: where, when, which way', 4326),
  ('facings', 'attributes', 'Facings', 'True bearings with a good background, by spot', NULL),
  ('files', 'attributes', 'Files', 'The files met by imports, read or not', NULL);

INSERT INTO gpkg_geometry_columns
  (table_name, column_name, geometry_type_name, srs_id, z, m) VALUES
  ('spots', 'geom', 'POINT', 4326, 0, 0),
  ('shots', 'geom', 'POINT', 4326, 0, 0);

INSERT INTO gpkg_extensions (table_name, column_name, extension_name, definition, scope) VALUES
  ('spots', 'geom', 'gpkg_rtree_index',
   'http://www.geopackage.org/spec130/#extension_rtree', 'write-only'),
  ('shots', 'geom', 'gpkg_rtree_index',
   'http://www.geopackage.org/spec130/#extension_rtree', 'write-only');

-- The spatial indexes: table and triggers word for word as the extension's text has them.
CREATE VIRTUAL TABLE "rtree_spots_geom" USING rtree(id, minx, maxx, miny, maxy);

CREATE TRIGGER rtree_spots_geom_insert AFTER INSERT ON spots
  WHEN (new.geom NOT NULL AND NOT ST_IsEmpty(NEW.geom))
BEGIN
  INSERT OR REPLACE INTO rtree_spots_geom VALUES (
    NEW.id,
    ST_MinX(NEW.geom), ST_MaxX(NEW.geom),
    ST_MinY(NEW.geom), ST_MaxY(NEW.geom)
  );
END;

CREATE TRIGGER rtree_spots_geom_update1 AFTER UPDATE OF geom ON spots
  WHEN OLD.id = NEW.id AND
       (NEW.geom NOTNULL AND NOT ST_IsEmpty(NEW.geom))
BEGIN
  INSERT OR REPLACE INTO rtree_spots_geom VALUES (
    NEW.id,
    ST_MinX(NEW.geom), ST_MaxX(NEW.geom),
    ST_MinY(NEW.geom), ST_MaxY(NEW.geom)
  );
END;

CREATE TRIGGER rtree_spots_geom_update2 AFTER UPDATE OF geom ON spots
  WHEN OLD.id = NEW.id AND
       (NEW.geom ISNULL OR ST_IsEmpty(NEW.geom))
BEGIN
  DELETE FROM rtree_spots_geom WHERE id = OLD.id;
END;

CREATE TRIGGER rtree_spots_geom_update3 AFTER UPDATE ON spots
  WHEN OLD.id != NEW.id AND
       (NEW.geom NOTNULL AND NOT ST_IsEmpty(NEW.geom))
BEGIN
  DELETE FROM rtree_spots_geom WHERE id = OLD.id;
  INSERT OR REPLACE INTO rtree_spots_geom VALUES (
    NEW.id,
    ST_MinX(NEW.geom), ST_MaxX(NEW.geom),
    ST_MinY(NEW.geom), ST_MaxY(NEW.geom)
  );
END;

CREATE TRIGGER rtree_spots_geom_update4 AFTER UPDATE ON spots
  WHEN OLD.id != NEW.id AND
       (NEW.geom ISNULL OR ST_IsEmpty(NEW.geom))
BEGIN
  DELETE FROM rtree_spots_geom WHERE id IN (OLD.id, NEW.id);
END;

CREATE TRIGGER rtree_spots_geom_delete AFTER DELETE ON spots
  WHEN old.geom NOT NULL
BEGIN
  DELETE FROM rtree_spots_geom WHERE id = OLD.id;
END;

CREATE VIRTUAL TABLE "rtree_shots_geom" USING rtree(id, minx, maxx, miny, maxy);

CREATE TRIGGER rtree_shots_geom_insert AFTER INSERT ON shots
  WHEN (new.geom NOT NULL AND NOT ST_IsEmpty(NEW.geom))
BEGIN
  INSERT OR REPLACE INTO rtree_shots_geom VALUES (
    NEW.id,
    ST_MinX(NEW.geom), ST_MaxX(NEW.geom),
    ST_MinY(NEW.geom), ST_MaxY(NEW.geom)
  );
END;

CREATE TRIGGER rtree_shots_geom_update1 AFTER UPDATE OF geom ON shots
  WHEN OLD.id = NEW.id AND
       (NEW.geom NOTNULL AND NOT ST_IsEmpty(NEW.geom))
BEGIN
  INSERT OR REPLACE INTO rtree_shots_geom VALUES (
    NEW.id,
    ST_MinX(NEW.geom), ST_MaxX(NEW.geom),
    ST_MinY(NEW.geom), ST_MaxY(NEW.geom)
  );
END;

CREATE TRIGGER rtree_shots_geom_update2 AFTER UPDATE OF geom ON shots
  WHEN OLD.id = NEW.id AND
       (NEW.geom ISNULL OR ST_IsEmpty(NEW.geom))
BEGIN
  DELETE FROM rtree_shots_geom WHERE id = OLD.id;
END;

CREATE TRIGGER rtree_shots_geom_update3 AFTER UPDATE ON shots
  WHEN OLD.id != NEW.id AND
       (NEW.geom NOTNULL AND NOT ST_IsEmpty(NEW.geom))
BEGIN
  DELETE FROM rtree_shots_geom WHERE id = OLD.id;
  INSERT OR REPLACE INTO rtree_shots_geom VALUES (
    NEW.id,
    ST_MinX(NEW.geom), ST_MaxX(NEW.geom),
    ST_MinY(NEW.geom), ST_MaxY(NEW.geom)
  );
END;

CREATE TRIGGER rtree_shots_geom_update4 AFTER UPDATE ON shots
  WHEN OLD.id != NEW.id AND
       (NEW.geom ISNULL OR ST_IsEmpty(NEW.geom))
BEGIN
  DELETE FROM rtree_shots_geom WHERE id IN (OLD.id, NEW.id);
END;

CREATE TRIGGER rtree_shots_geom_delete AFTER DELETE ON shots
  WHEN old.geom NOT NULL
BEGIN
  DELETE FROM rtree_shots_geom WHERE id = OLD.id;
END;

CREATE TRIGGER spots_stock_insert AFTER INSERT ON spots
BEGIN
  UPDATE stock SET version = version + 1;
END;

CREATE TRIGGER spots_stock_update AFTER UPDATE ON spots
BEGIN
  UPDATE stock SET version = version + 1;
END;

CREATE TRIGGER spots_stock_delete AFTER DELETE ON spots
BEGIN
  UPDATE stock SET version = version + 1;
END;

CREATE TRIGGER facings_stock_insert AFTER INSERT ON facings
BEGIN
  UPDATE stock SET version = version + 1;
END;

CREATE TRIGGER facings_stock_update AFTER UPDATE ON facings
BEGIN
  UPDATE stock SET version = version + 1;
END;

CREATE TRIGGER facings_stock_delete AFTER DELETE ON facings
BEGIN
  UPDATE stock SET version = version + 1;
END;

CREATE TRIGGER shots_stock_insert AFTER INSERT ON shots
BEGIN
  UPDATE stock SET version = version + 1;
END;

CREATE TRIGGER shots_stock_update AFTER UPDATE ON shots
BEGIN
  UPDATE stock SET version = version + 1;
END;

CREATE TRIGGER shots_stock_delete AFTER DELETE ON shots
BEGIN
  UPDATE stock SET version = version + 1;
END;
