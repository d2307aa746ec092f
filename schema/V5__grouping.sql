-- Grouping of shots into spots: where a spot stands, what the owner fixed by hand, what it was
-- before a spot was deleted.

ALTER TABLE spots ADD COLUMN position_by_owner BOOLEAN NOT NULL DEFAULT 0
  CONSTRAINT "a spot's position_by_owner must be 0 or 1"
    CHECK (typeof(position_by_owner) = 'integer' AND position_by_owner IN (0, 1));

-- A deleted spot is remembered, so that no import makes it again and the owner can bring it back.
CREATE TABLE dropped_spots (
  id INTEGER PRIMARY KEY NOT NULL,
  latitude_deg DOUBLE NOT NULL,
  longitude_deg DOUBLE NOT NULL,
  position_by_owner BOOLEAN NOT NULL,
  name TEXT NOT NULL,
  area TEXT,
  zone TEXT,
  open BOOLEAN NOT NULL,
  notes TEXT NOT NULL,
  cautions TEXT NOT NULL,
  facings TEXT NOT NULL,
  CONSTRAINT "a dropped spot's place must be latitude [-90, 90] and longitude [-180, 180]"
    CHECK (typeof(latitude_deg) = 'real' AND latitude_deg BETWEEN -90 AND 90
      AND typeof(longitude_deg) = 'real' AND longitude_deg BETWEEN -180 AND 180),
  CONSTRAINT "a dropped spot's position_by_owner and open must be 0 or 1"
    CHECK (typeof(position_by_owner) = 'integer' AND position_by_owner IN (0, 1)
      AND typeof(open) = 'integer' AND open IN (0, 1)),
  CONSTRAINT "a dropped spot's name must be text and not blank"
    CHECK (typeof(name) = 'text' AND trim(name) <> ''),
  CONSTRAINT "a dropped spot's words must be text"
    CHECK (typeof(notes) = 'text' AND typeof(cautions) = 'text'),
  CONSTRAINT "a dropped spot's facings must be a list in JSON"
    CHECK (typeof(facings) = 'text' AND substr(facings, 1, 1) = '[')
);

-- PLACE: an import chose the spot by the shot's place. OWNER: the owner chose it. OWNER_FAR: the
-- owner chose a spot that lies out of the reach of the shot's place, so the place is doubtful.
ALTER TABLE shots ADD COLUMN spot_source TEXT NOT NULL DEFAULT 'PLACE'
  CONSTRAINT "spot_source must be PLACE, OWNER or OWNER_FAR"
    CHECK (spot_source = 'PLACE' OR spot_source = 'OWNER' OR spot_source = 'OWNER_FAR');

ALTER TABLE shots ADD COLUMN dropped_spot_id INTEGER REFERENCES dropped_spots (id)
  ON DELETE SET NULL
  CONSTRAINT "a shot belongs to a spot or to a dropped spot, not to both"
    CHECK (dropped_spot_id IS NULL OR spot_id IS NULL);

CREATE INDEX shots_of_dropped_spot ON shots (dropped_spot_id) WHERE dropped_spot_id IS NOT NULL;
CREATE INDEX shots_of_spot_by_error ON shots (spot_id, position_error_m);

-- A place whose new shots go to its spot. A spot that has any is measured from them alone.
CREATE TABLE anchors (
  id INTEGER PRIMARY KEY NOT NULL,
  spot_id INTEGER REFERENCES spots (id) ON DELETE CASCADE,
  dropped_spot_id INTEGER REFERENCES dropped_spots (id) ON DELETE CASCADE,
  latitude_deg DOUBLE NOT NULL,
  longitude_deg DOUBLE NOT NULL,
  CONSTRAINT "an anchor belongs to a spot or to a dropped spot"
    CHECK ((spot_id IS NULL) <> (dropped_spot_id IS NULL)),
  CONSTRAINT "an anchor's place must be latitude [-90, 90] and longitude [-180, 180]"
    CHECK (typeof(latitude_deg) = 'real' AND latitude_deg BETWEEN -90 AND 90
      AND typeof(longitude_deg) = 'real' AND longitude_deg BETWEEN -180 AND 180)
);
CREATE INDEX anchors_by_place ON anchors (latitude_deg, longitude_deg);
CREATE INDEX anchors_of_spot ON anchors (spot_id) WHERE spot_id IS NOT NULL;
CREATE INDEX anchors_of_dropped_spot ON anchors (dropped_spot_id)
  WHERE dropped_spot_id IS NOT NULL;

INSERT INTO gpkg_contents (table_name, data_type, identifier, description) VALUES
  ('anchors', 'attributes', 'Anchors', 'Places whose new shots go to a spot, by the owner''s hand'),
  ('dropped_spots', 'attributes', 'Dropped spots', 'Spots that the owner deleted');

-- What each shot adds to the position of its spot. All are whole numbers, so that sums do not
-- depend on the order and taking a shot away undoes adding it: places in units of 1e-8 degrees
-- (about a millimetre), weights in units of 1e-6 per square metre.
--
-- The weight is 1 / error². Own choices: 10 m where no error is stated, twice what a phone reaches
-- under open sky (4.9 m, gps.gov/systems/gps/performance/accuracy); no error below 3 m, because
-- what phones state is not that good; a shot at a spot out of its reach counts as one that is a
-- kilometre off; a GPS error above 20 m is wide, four times that of open sky.
CREATE VIEW shot_places AS
  SELECT id, spot_id,
    CAST(round(ST_MinY(geom) * 1e8) AS INTEGER) AS north,
    CAST(round(ST_MinX(geom) * 1e8) AS INTEGER) AS east,
    CASE WHEN spot_source = 'OWNER_FAR' THEN 1
      ELSE max(1, CAST(round(1e6 / (max(3.0, ifnull(position_error_m, 10.0))
        * max(3.0, ifnull(position_error_m, 10.0)))) AS INTEGER)) END AS weight,
    position_source = 'GPS' AND position_error_m IS NOT NULL AS stated,
    position_source = 'GPS' AND ifnull(position_error_m, 0) > 20 AS wide
  FROM shots WHERE spot_id IS NOT NULL AND geom IS NOT NULL;

-- The running sums of each spot, relative to the place of its first shot.
CREATE TABLE spot_sums (
  spot_id INTEGER PRIMARY KEY NOT NULL REFERENCES spots (id) ON DELETE CASCADE,
  origin_north INTEGER NOT NULL,
  origin_east INTEGER NOT NULL,
  weight INTEGER NOT NULL DEFAULT 0,
  north INTEGER NOT NULL DEFAULT 0,
  east INTEGER NOT NULL DEFAULT 0,
  stated INTEGER NOT NULL DEFAULT 0,
  wide INTEGER NOT NULL DEFAULT 0,
  CONSTRAINT "a spot's running sums must be whole numbers"
    CHECK (typeof(origin_north) = 'integer' AND typeof(origin_east) = 'integer'
      AND typeof(north) = 'integer' AND typeof(east) = 'integer'
      AND typeof(weight) = 'integer' AND weight >= 0
      AND typeof(stated) = 'integer' AND typeof(wide) = 'integer' AND wide BETWEEN 0 AND stated)
);

CREATE TRIGGER shots_sums_insert AFTER INSERT ON shots
  WHEN NEW.spot_id NOT NULL AND NEW.geom NOT NULL
BEGIN
  INSERT INTO spot_sums (spot_id, origin_north, origin_east, weight, stated, wide)
    SELECT spot_id, north, east, weight, stated, wide FROM shot_places WHERE id = NEW.id
    ON CONFLICT (spot_id) DO UPDATE SET
      weight = weight + excluded.weight,
      north = north + excluded.weight * (excluded.origin_north - origin_north),
      east = east + excluded.weight
        * ((excluded.origin_east - origin_east + 54000000000) % 36000000000 - 18000000000),
      stated = stated + excluded.stated,
      wide = wide + excluded.wide;
END;

CREATE TRIGGER shots_sums_update_before
  BEFORE UPDATE OF geom, spot_id, position_error_m, position_source, spot_source ON shots
  WHEN OLD.spot_id NOT NULL AND OLD.geom NOT NULL
BEGIN
  UPDATE spot_sums SET (weight, north, east, stated, wide) =
    (SELECT spot_sums.weight - p.weight,
      spot_sums.north - p.weight * (p.north - origin_north),
      spot_sums.east - p.weight * ((p.east - origin_east + 54000000000) % 36000000000 - 18000000000),
      spot_sums.stated - p.stated, spot_sums.wide - p.wide
    FROM shot_places p WHERE p.id = OLD.id)
  WHERE spot_id = OLD.spot_id;
END;

CREATE TRIGGER shots_sums_update_after
  AFTER UPDATE OF geom, spot_id, position_error_m, position_source, spot_source ON shots
  WHEN NEW.spot_id NOT NULL AND NEW.geom NOT NULL
BEGIN
  INSERT INTO spot_sums (spot_id, origin_north, origin_east, weight, stated, wide)
    SELECT spot_id, north, east, weight, stated, wide FROM shot_places WHERE id = NEW.id
    ON CONFLICT (spot_id) DO UPDATE SET
      weight = weight + excluded.weight,
      north = north + excluded.weight * (excluded.origin_north - origin_north),
      east = east + excluded.weight
        * ((excluded.origin_east - origin_east + 54000000000) % 36000000000 - 18000000000),
      stated = stated + excluded.stated,
      wide = wide + excluded.wide;
END;

CREATE TRIGGER shots_sums_delete BEFORE DELETE ON shots
  WHEN OLD.spot_id NOT NULL AND OLD.geom NOT NULL
BEGIN
  UPDATE spot_sums SET (weight, north, east, stated, wide) =
    (SELECT spot_sums.weight - p.weight,
      spot_sums.north - p.weight * (p.north - origin_north),
      spot_sums.east - p.weight * ((p.east - origin_east + 54000000000) % 36000000000 - 18000000000),
      spot_sums.stated - p.stated, spot_sums.wide - p.wide
    FROM shot_places p WHERE p.id = OLD.id)
  WHERE spot_id = OLD.spot_id;
END;

-- The shots that are there already. The first of a spot is its origin.
INSERT INTO spot_sums (spot_id, origin_north, origin_east)
  SELECT spot_id, north, east FROM shot_places
    WHERE id IN (SELECT min(id) FROM shots WHERE spot_id IS NOT NULL AND geom IS NOT NULL
      GROUP BY spot_id);
UPDATE spot_sums SET (weight, north, east, stated, wide) =
  (SELECT sum(p.weight),
    sum(p.weight * (p.north - origin_north)),
    sum(p.weight * ((p.east - origin_east + 54000000000) % 36000000000 - 18000000000)),
    sum(p.stated), sum(p.wide)
  FROM shot_places p WHERE p.spot_id = spot_sums.spot_id);
