-- The map of a region: extracts that were added, what they hold, and obstructions drawn by hand.

CREATE TABLE maps (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  file_name TEXT NOT NULL,
  path TEXT NOT NULL,
  sha256 TEXT NOT NULL UNIQUE,
  added_ms INTEGER NOT NULL,
  -- As the file names it; NULL when it names none.
  licence TEXT,
  west_deg DOUBLE NOT NULL,
  south_deg DOUBLE NOT NULL,
  east_deg DOUBLE NOT NULL,
  north_deg DOUBLE NOT NULL,
  obstruction_count INTEGER NOT NULL,
  feature_count INTEGER NOT NULL,
  problem_count INTEGER NOT NULL,
  CONSTRAINT "a map's file_name and path must be text and not empty"
    CHECK (typeof(file_name) = 'text' AND file_name <> '' AND typeof(path) = 'text' AND path <> ''),
  CONSTRAINT "sha256 must be 64 digits of 0-9 a-f"
    CHECK (typeof(sha256) = 'text' AND length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  CONSTRAINT "a map's added_ms must be whole milliseconds" CHECK (typeof(added_ms) = 'integer'),
  CONSTRAINT "a map's licence must be text and not blank"
    CHECK (licence IS NULL OR (typeof(licence) = 'text' AND trim(licence) <> '')),
  CONSTRAINT "a map's bounds must be -180 <= west <= east <= 180 and -90 <= south <= north <= 90"
    CHECK (typeof(west_deg) = 'real' AND typeof(south_deg) = 'real' AND typeof(east_deg) = 'real'
      AND typeof(north_deg) = 'real' AND -180 <= west_deg AND west_deg <= east_deg
      AND east_deg <= 180 AND -90 <= south_deg AND south_deg <= north_deg AND north_deg <= 90),
  CONSTRAINT "a map's counts must be 0 or more"
    CHECK (typeof(obstruction_count) = 'integer' AND obstruction_count >= 0
      AND typeof(feature_count) = 'integer' AND feature_count >= 0
      AND typeof(problem_count) = 'integer' AND problem_count >= 0)
);

-- What stands in the sun's way: upright sides and a flat top.
CREATE TABLE obstructions (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  geom MULTIPOLYGON NOT NULL,
  kind TEXT NOT NULL,
  height_m DOUBLE NOT NULL,
  min_height_m DOUBLE NOT NULL,
  height_source TEXT NOT NULL,
  -- The ground it stands on, in the elevation model's heights; NULL when not known.
  ground_m DOUBLE,
  name TEXT,
  origin TEXT NOT NULL,
  map_id INTEGER REFERENCES maps (id) ON DELETE CASCADE,
  source_id TEXT NOT NULL,
  CONSTRAINT "an obstruction's geom must be a GeoPackage geometry"
    CHECK (typeof(geom) = 'blob' AND substr(geom, 1, 2) = x'4750'),
  CONSTRAINT "an obstruction's kind must be BUILDING, TREE, TREE_ROW or WOOD"
    CHECK (kind IN ('BUILDING', 'TREE', 'TREE_ROW', 'WOOD')),
  CONSTRAINT "an obstruction's heights must be 0 <= min_height_m < height_m <= 1000"
    CHECK (typeof(height_m) = 'real' AND typeof(min_height_m) = 'real'
      AND 0 <= min_height_m AND min_height_m < height_m AND height_m <= 1000),
  CONSTRAINT "height_source must be GIVEN, LEVELS or ASSUMED"
    CHECK (height_source IN ('GIVEN', 'LEVELS', 'ASSUMED')),
  CONSTRAINT "ground_m must be a finite number of metres"
    CHECK (ground_m IS NULL OR (typeof(ground_m) = 'real' AND abs(ground_m) < 1e300)),
  CONSTRAINT "an obstruction's name must be text and not blank"
    CHECK (name IS NULL OR (typeof(name) = 'text' AND trim(name) <> '')),
  CONSTRAINT "an obstruction's origin must be MAP with a map_id, or OWNER without"
    CHECK (origin IN ('MAP', 'OWNER') AND (origin = 'MAP') = (map_id IS NOT NULL)),
  CONSTRAINT "an obstruction's source_id must be text and not blank"
    CHECK (typeof(source_id) = 'text' AND trim(source_id) <> '')
);
CREATE INDEX obstructions_of_map ON obstructions (map_id);
CREATE INDEX obstructions_by_kind ON obstructions (kind);

-- What is drawn besides: ways, water, green, names. Its level is -1 below the ground, 1 on a bridge.
CREATE TABLE map_features (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  geom GEOMETRY NOT NULL,
  kind TEXT NOT NULL,
  name TEXT,
  level INTEGER NOT NULL,
  map_id INTEGER NOT NULL REFERENCES maps (id) ON DELETE CASCADE,
  source_id TEXT NOT NULL,
  CONSTRAINT "a map feature's geom must be a GeoPackage geometry"
    CHECK (typeof(geom) = 'blob' AND substr(geom, 1, 2) = x'4750'),
  CONSTRAINT "a map feature's kind must be a known one"
    CHECK (kind IN (
      'SEA', 'PARK', 'GRASS', 'MEADOW', 'BEACH', 'WATER', 'PARKING', 'SQUARE',
      'PIER_AREA', 'BUILDING_OUTLINE', 'STREAM', 'RIVER', 'PIER', 'PATH', 'STEPS',
      'TRACK', 'WALKING_STREET', 'SERVICE_ROAD', 'MINOR_ROAD', 'MIDDLE_ROAD',
      'MAJOR_ROAD', 'MOTORWAY', 'OTHER_WAY', 'TRAM', 'RAIL', 'STATION', 'PARKING_POINT',
      'TOILETS', 'CITY', 'TOWN', 'VILLAGE', 'SUBURB', 'LOCALITY')),
  CONSTRAINT "a map feature's name must be text and not blank"
    CHECK (name IS NULL OR (typeof(name) = 'text' AND trim(name) <> '')),
  CONSTRAINT "a map feature's level must be -1, 0 or 1"
    CHECK (typeof(level) = 'integer' AND level BETWEEN -1 AND 1),
  CONSTRAINT "a map feature's source_id must be text and not blank"
    CHECK (typeof(source_id) = 'text' AND trim(source_id) <> '')
);
CREATE INDEX map_features_of_map ON map_features (map_id);
CREATE INDEX map_features_by_kind ON map_features (kind);

-- Counts what changes the picture of the map: an extract added or removed, an obstruction of the
-- owner's.
CREATE TABLE map_stock (
  id INTEGER PRIMARY KEY NOT NULL,
  version INTEGER NOT NULL,
  CONSTRAINT "map_stock has one row" CHECK (id = 1)
);
INSERT INTO map_stock (id, version) VALUES (1, 0);

INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id) VALUES
  ('obstructions', 'features', 'Obstructions', 'Buildings and trees with their heights', 4326),
  ('map_features', 'features', 'Map features', 'What the base map is drawn from', 4326),
  ('maps', 'attributes', 'Maps', 'The extracts that the map was made from', NULL);

INSERT INTO gpkg_geometry_columns
  (table_name, column_name, geometry_type_name, srs_id, z, m) VALUES
  ('obstructions', 'geom', 'MULTIPOLYGON', 4326, 0, 0),
  ('map_features', 'geom', 'GEOMETRY', 4326, 0, 0);

INSERT INTO gpkg_extensions (table_name, column_name, extension_name, definition, scope) VALUES
  ('obstructions', 'geom', 'gpkg_rtree_index',
   'http://www.geopackage.org/spec130/#extension_rtree', 'write-only'),
  ('map_features', 'geom', 'gpkg_rtree_index',
   'http://www.geopackage.org/spec130/#extension_rtree', 'write-only');

-- The spatial indexes: table and triggers word for word as the extension's text has them.
CREATE VIRTUAL TABLE "rtree_obstructions_geom" USING rtree(id, minx, maxx, miny, maxy);

CREATE TRIGGER rtree_obstructions_geom_insert AFTER INSERT ON obstructions
  WHEN (new.geom NOT NULL AND NOT ST_IsEmpty(NEW.geom))
BEGIN
  INSERT OR REPLACE INTO rtree_obstructions_geom VALUES (
    NEW.id,
    ST_MinX(NEW.geom), ST_MaxX(NEW.geom),
    ST_MinY(NEW.geom), ST_MaxY(NEW.geom)
  );
END;

CREATE TRIGGER rtree_obstructions_geom_update1 AFTER UPDATE OF geom ON obstructions
  WHEN OLD.id = NEW.id AND
       (NEW.geom NOTNULL AND NOT ST_IsEmpty(NEW.geom))
BEGIN
  INSERT OR REPLACE INTO rtree_obstructions_geom VALUES (
    NEW.id,
    ST_MinX(NEW.geom), ST_MaxX(NEW.geom),
    ST_MinY(NEW.geom), ST_MaxY(NEW.geom)
  );
END;

CREATE TRIGGER rtree_obstructions_geom_update2 AFTER UPDATE OF geom ON obstructions
  WHEN OLD.id = NEW.id AND
       (NEW.geom ISNULL OR ST_IsEmpty(NEW.geom))
BEGIN
  DELETE FROM rtree_obstructions_geom WHERE id = OLD.id;
END;

CREATE TRIGGER rtree_obstructions_geom_update3 AFTER UPDATE ON obstructions
  WHEN OLD.id != NEW.id AND
       (NEW.geom NOTNULL AND NOT ST_IsEmpty(NEW.geom))
BEGIN
  DELETE FROM rtree_obstructions_geom WHERE id = OLD.id;
  INSERT OR REPLACE INTO rtree_obstructions_geom VALUES (
    NEW.id,
    ST_MinX(NEW.geom), ST_MaxX(NEW.geom),
    ST_MinY(NEW.geom), ST_MaxY(NEW.geom)
  );
END;

CREATE TRIGGER rtree_obstructions_geom_update4 AFTER UPDATE ON obstructions
  WHEN OLD.id != NEW.id AND
       (NEW.geom ISNULL OR ST_IsEmpty(NEW.geom))
BEGIN
  DELETE FROM rtree_obstructions_geom WHERE id IN (OLD.id, NEW.id);
END;

CREATE TRIGGER rtree_obstructions_geom_delete AFTER DELETE ON obstructions
  WHEN old.geom NOT NULL
BEGIN
  DELETE FROM rtree_obstructions_geom WHERE id = OLD.id;
END;

CREATE VIRTUAL TABLE "rtree_map_features_geom" USING rtree(id, minx, maxx, miny, maxy);

CREATE TRIGGER rtree_map_features_geom_insert AFTER INSERT ON map_features
  WHEN (new.geom NOT NULL AND NOT ST_IsEmpty(NEW.geom))
BEGIN
  INSERT OR REPLACE INTO rtree_map_features_geom VALUES (
    NEW.id,
    ST_MinX(NEW.geom), ST_MaxX(NEW.geom),
    ST_MinY(NEW.geom), ST_MaxY(NEW.geom)
  );
END;

CREATE TRIGGER rtree_map_features_geom_update1 AFTER UPDATE OF geom ON map_features
  WHEN OLD.id = NEW.id AND
       (NEW.geom NOTNULL AND NOT ST_IsEmpty(NEW.geom))
BEGIN
  INSERT OR REPLACE INTO rtree_map_features_geom VALUES (
    NEW.id,
    ST_MinX(NEW.geom), ST_MaxX(NEW.geom),
    ST_MinY(NEW.geom), ST_MaxY(NEW.geom)
  );
END;

CREATE TRIGGER rtree_map_features_geom_update2 AFTER UPDATE OF geom ON map_features
  WHEN OLD.id = NEW.id AND
       (NEW.geom ISNULL OR ST_IsEmpty(NEW.geom))
BEGIN
  DELETE FROM rtree_map_features_geom WHERE id = OLD.id;
END;

CREATE TRIGGER rtree_map_features_geom_update3 AFTER UPDATE ON map_features
  WHEN OLD.id != NEW.id AND
       (NEW.geom NOTNULL AND NOT ST_IsEmpty(NEW.geom))
BEGIN
  DELETE FROM rtree_map_features_geom WHERE id = OLD.id;
  INSERT OR REPLACE INTO rtree_map_features_geom VALUES (
    NEW.id,
    ST_MinX(NEW.geom), ST_MaxX(NEW.geom),
    ST_MinY(NEW.geom), ST_MaxY(NEW.geom)
  );
END;

CREATE TRIGGER rtree_map_features_geom_update4 AFTER UPDATE ON map_features
  WHEN OLD.id != NEW.id AND
       (NEW.geom ISNULL OR ST_IsEmpty(NEW.geom))
BEGIN
  DELETE FROM rtree_map_features_geom WHERE id IN (OLD.id, NEW.id);
END;

CREATE TRIGGER rtree_map_features_geom_delete AFTER DELETE ON map_features
  WHEN old.geom NOT NULL
BEGIN
  DELETE FROM rtree_map_features_geom WHERE id = OLD.id;
END;

CREATE TRIGGER maps_stock_insert AFTER INSERT ON maps
BEGIN
  UPDATE map_stock SET version = version + 1;
END;

CREATE TRIGGER maps_stock_update AFTER UPDATE ON maps
BEGIN
  UPDATE map_stock SET version = version + 1;
END;

CREATE TRIGGER maps_stock_delete AFTER DELETE ON maps
BEGIN
  UPDATE map_stock SET version = version + 1;
END;

CREATE TRIGGER obstructions_stock_insert AFTER INSERT ON obstructions
  WHEN NEW.origin = 'OWNER'
BEGIN
  UPDATE map_stock SET version = version + 1;
END;

CREATE TRIGGER obstructions_stock_update AFTER UPDATE ON obstructions
  WHEN NEW.origin = 'OWNER'
BEGIN
  UPDATE map_stock SET version = version + 1;
END;

CREATE TRIGGER obstructions_stock_delete AFTER DELETE ON obstructions
  WHEN OLD.origin = 'OWNER'
BEGIN
  UPDATE map_stock SET version = version + 1;
END;
