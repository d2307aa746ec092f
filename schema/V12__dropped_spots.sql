-- What a deleted spot takes along, so that it comes back with all that was said of it.

-- Lists in JSON: traits; the time of opening and that of closing, or nothing; measured points, each
-- its azimuth and its altitude in degrees with a space between.
ALTER TABLE dropped_spots ADD COLUMN traits TEXT NOT NULL DEFAULT '[]'
  CONSTRAINT "a dropped spot's traits must be a list"
    CHECK (json_valid(traits) AND json_type(traits) = 'array');
ALTER TABLE dropped_spots ADD COLUMN hours TEXT NOT NULL DEFAULT '[]'
  CONSTRAINT "a dropped spot's hours must be a list of two or nothing"
    CHECK (json_valid(hours) AND json_type(hours) = 'array'
      AND json_array_length(hours) IN (0, 2));
ALTER TABLE dropped_spots ADD COLUMN measured_points TEXT NOT NULL DEFAULT '[]'
  CONSTRAINT "a dropped spot's measured points must be a list"
    CHECK (json_valid(measured_points) AND json_type(measured_points) = 'array');

-- The drives of which one end or both were deleted; they come back when both ends are there.
CREATE TABLE dropped_drives (
  id INTEGER PRIMARY KEY NOT NULL,
  from_spot_id INTEGER NOT NULL,
  to_spot_id INTEGER NOT NULL,
  minutes INTEGER NOT NULL,
  UNIQUE (from_spot_id, to_spot_id),
  CONSTRAINT "a dropped drive must be 0 to 720 minutes between two spots"
    CHECK (typeof(minutes) = 'integer' AND minutes BETWEEN 0 AND 720
      AND from_spot_id <> to_spot_id)
);
CREATE INDEX dropped_drives_to_spot ON dropped_drives (to_spot_id);

-- What a client said of a deleted spot stays with the share, and so goes with it and its client.
CREATE TABLE new_share_picks (
  id INTEGER PRIMARY KEY NOT NULL,
  share_id INTEGER NOT NULL REFERENCES shares (id) ON DELETE CASCADE,
  spot_id INTEGER REFERENCES spots (id) ON DELETE CASCADE,
  dropped_spot_id INTEGER REFERENCES dropped_spots (id) ON DELETE CASCADE,
  favourite BOOLEAN NOT NULL,
  words TEXT NOT NULL,
  UNIQUE (share_id, spot_id),
  CONSTRAINT "a pick is of a spot or of a dropped spot"
    CHECK ((spot_id IS NULL) <> (dropped_spot_id IS NULL)),
  CONSTRAINT "a pick must be a favourite or not, with words of at most 2000 characters"
    CHECK (typeof(favourite) = 'integer' AND favourite IN (0, 1)
      AND typeof(words) = 'text' AND length(words) <= 2000)
);
INSERT INTO new_share_picks (id, share_id, spot_id, favourite, words)
  SELECT id, share_id, spot_id, favourite, words FROM share_picks;
DROP TABLE share_picks;
ALTER TABLE new_share_picks RENAME TO share_picks;
CREATE INDEX picks_of_spot ON share_picks (spot_id);
CREATE INDEX picks_of_dropped_spot ON share_picks (dropped_spot_id)
  WHERE dropped_spot_id IS NOT NULL;

INSERT INTO gpkg_contents (table_name, data_type, identifier, description) VALUES
  ('dropped_drives', 'attributes', 'Dropped drives', 'Drives from or to spots that were deleted');
