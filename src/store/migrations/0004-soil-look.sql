-- What somebody found in the ground at a tree, and when.
ALTER TABLE tree ADD COLUMN probe_pct DOUBLE PRECISION;
ALTER TABLE tree ADD COLUMN probe_cm DOUBLE PRECISION;
ALTER TABLE tree ADD COLUMN soil_feel TEXT;
ALTER TABLE tree ADD COLUMN soil_on TEXT;
