-- The book, first form. Written so that SQLite and PostgreSQL read the same text.
-- Days are YYYY-MM-DD, instants YYYY-MM-DDTHH:MMZ: text that sorts by time. `own` holds the owner's own fields as JSON.
CREATE TABLE rule (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  needs TEXT NOT NULL,
  lead_hours DOUBLE PRECISION,
  wait_days BIGINT,
  valid_days BIGINT,
  category TEXT,
  law TEXT,
  note TEXT,
  own TEXT
);
CREATE TABLE own_field (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  of_kind TEXT NOT NULL,
  name TEXT NOT NULL,
  type TEXT NOT NULL,
  choices TEXT,
  required TEXT,
  personal TEXT,
  label TEXT,
  own TEXT
);
CREATE TABLE depot (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  name TEXT NOT NULL,
  lat DOUBLE PRECISION,
  lon DOUBLE PRECISION,
  address TEXT,
  note TEXT,
  own TEXT
);
CREATE TABLE crew (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  name TEXT NOT NULL,
  depot TEXT REFERENCES depot (id) DEFERRABLE INITIALLY DEFERRED,
  phone TEXT,
  works_from TEXT,
  works_until TEXT,
  work_days TEXT,
  note TEXT,
  own TEXT
);
CREATE TABLE member (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  crew TEXT REFERENCES crew (id) DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL,
  phone TEXT,
  email TEXT,
  skills TEXT,
  note TEXT,
  own TEXT
);
CREATE TABLE licence (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  member TEXT NOT NULL REFERENCES member (id) DEFERRABLE INITIALLY DEFERRED,
  number TEXT NOT NULL,
  category TEXT NOT NULL,
  issuer TEXT,
  expires_on TEXT NOT NULL,
  own TEXT
);
CREATE TABLE day_off (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  crew TEXT REFERENCES crew (id) DEFERRABLE INITIALLY DEFERRED,
  member TEXT REFERENCES member (id) DEFERRABLE INITIALLY DEFERRED,
  first_day TEXT NOT NULL,
  last_day TEXT NOT NULL,
  reason TEXT,
  own TEXT
);
CREATE TABLE rig (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  name TEXT NOT NULL,
  crew TEXT REFERENCES crew (id) DEFERRABLE INITIALLY DEFERRED,
  lines BIGINT,
  pressure_kpa DOUBLE PRECISION,
  out_from TEXT,
  out_until TEXT,
  note TEXT,
  own TEXT
);
CREATE TABLE water_tank (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  name TEXT NOT NULL,
  crew TEXT REFERENCES crew (id) DEFERRABLE INITIALLY DEFERRED,
  volume_l DOUBLE PRECISION NOT NULL,
  note TEXT,
  own TEXT
);
CREATE TABLE client (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  name TEXT NOT NULL,
  contact TEXT,
  phone TEXT,
  email TEXT,
  address TEXT,
  consent TEXT,
  consent_on TEXT,
  consent_until TEXT,
  may_text TEXT,
  note TEXT,
  own TEXT
);
CREATE TABLE site (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  client TEXT REFERENCES client (id) DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL,
  lat DOUBLE PRECISION NOT NULL,
  lon DOUBLE PRECISION NOT NULL,
  elevation_m DOUBLE PRECISION NOT NULL,
  zone TEXT NOT NULL,
  soil TEXT NOT NULL,
  address TEXT,
  water TEXT,
  gate TEXT,
  dog TEXT,
  parking TEXT,
  ticket TEXT,
  ticket_called_on TEXT,
  ticket_from TEXT,
  ticket_until TEXT,
  notice_at TEXT,
  posted_at TEXT,
  disease_near_on TEXT,
  note TEXT,
  own TEXT
);
CREATE TABLE tree (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  site TEXT NOT NULL REFERENCES site (id) DEFERRABLE INITIALLY DEFERRED,
  name TEXT,
  species TEXT NOT NULL,
  lat DOUBLE PRECISION,
  lon DOUBLE PRECISION,
  crown_m DOUBLE PRECISION,
  crown_now_pct DOUBLE PRECISION,
  condition TEXT,
  full_leaf_on TEXT,
  leave_by TEXT,
  rew_now DOUBLE PRECISION,
  dose_l DOUBLE PRECISION,
  ports BIGINT,
  hole_diameter_mm DOUBLE PRECISION,
  pressure_kpa DOUBLE PRECISION,
  flare_cm DOUBLE PRECISION,
  bad_sectors TEXT,
  ridges TEXT,
  tag TEXT,
  keeps_seasons BIGINT,
  urgent TEXT,
  gone_on TEXT,
  note TEXT,
  own TEXT
);
CREATE TABLE diameter (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  tree TEXT NOT NULL REFERENCES tree (id) DEFERRABLE INITIALLY DEFERRED,
  measured_on TEXT NOT NULL,
  dbh_cm DOUBLE PRECISION NOT NULL,
  height_cm DOUBLE PRECISION,
  forks BIGINT,
  measured_by TEXT,
  own TEXT
);
CREATE TABLE job (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  tree TEXT NOT NULL REFERENCES tree (id) DEFERRABLE INITIALLY DEFERRED,
  crew TEXT REFERENCES crew (id) DEFERRABLE INITIALLY DEFERRED,
  day TEXT,
  start TEXT,
  state TEXT NOT NULL,
  locked TEXT,
  value DOUBLE PRECISION,
  opened_at TEXT,
  shut_by TEXT,
  note TEXT,
  own TEXT
);
CREATE TABLE reading (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  job TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL,
  taken_l DOUBLE PRECISION NOT NULL,
  taken_by TEXT,
  own TEXT
);
CREATE TABLE message (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  job TEXT REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  crew TEXT REFERENCES crew (id) DEFERRABLE INITIALLY DEFERRED,
  client TEXT REFERENCES client (id) DEFERRABLE INITIALLY DEFERRED,
  state TEXT NOT NULL,
  sent_at TEXT,
  body TEXT NOT NULL,
  own TEXT
);
CREATE TABLE treatment (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  tree TEXT NOT NULL REFERENCES tree (id) DEFERRABLE INITIALLY DEFERRED,
  job TEXT REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  outcome TEXT NOT NULL,
  reason TEXT,
  day TEXT NOT NULL,
  started_at TEXT,
  ended_at TEXT,
  mix_l DOUBLE PRECISION,
  leak_l DOUBLE PRECISION,
  flush_l DOUBLE PRECISION,
  flare_cm DOUBLE PRECISION,
  for_client TEXT REFERENCES client (id) DEFERRABLE INITIALLY DEFERRED,
  for_name TEXT,
  for_address TEXT,
  location TEXT,
  area TEXT,
  treated TEXT,
  target TEXT,
  applicator TEXT,
  licence_number TEXT,
  helper TEXT,
  weather TEXT,
  note TEXT,
  own TEXT
);
CREATE TABLE mix (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  treatment TEXT NOT NULL REFERENCES treatment (id) DEFERRABLE INITIALLY DEFERRED,
  tank BIGINT NOT NULL,
  volume_l DOUBLE PRECISION,
  product TEXT NOT NULL,
  registration TEXT,
  amount TEXT,
  own TEXT
);
CREATE TABLE port (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  treatment TEXT NOT NULL REFERENCES treatment (id) DEFERRABLE INITIALLY DEFERRED,
  clockwise_cm DOUBLE PRECISION NOT NULL,
  height_cm DOUBLE PRECISION,
  depth_mm DOUBLE PRECISION,
  diameter_mm DOUBLE PRECISION,
  leaked TEXT,
  own TEXT
);
CREATE INDEX crew_depot ON crew (depot);
CREATE INDEX member_crew ON member (crew);
CREATE INDEX licence_member ON licence (member);
CREATE INDEX day_off_crew ON day_off (crew);
CREATE INDEX day_off_member ON day_off (member);
CREATE INDEX rig_crew ON rig (crew);
CREATE INDEX water_tank_crew ON water_tank (crew);
CREATE INDEX site_client ON site (client);
CREATE INDEX tree_site ON tree (site);
CREATE INDEX diameter_tree ON diameter (tree);
CREATE INDEX job_tree ON job (tree);
CREATE INDEX job_crew ON job (crew);
CREATE INDEX reading_job ON reading (job);
CREATE INDEX message_job ON message (job);
CREATE INDEX message_crew ON message (crew);
CREATE INDEX message_client ON message (client);
CREATE INDEX treatment_tree ON treatment (tree);
CREATE INDEX treatment_job ON treatment (job);
CREATE INDEX treatment_for_client ON treatment (for_client);
CREATE INDEX mix_treatment ON mix (treatment);
CREATE INDEX port_treatment ON port (treatment);
CREATE INDEX treatment_lasting ON treatment (outcome, removed, tree, day);
CREATE INDEX tree_with_own_term ON tree (keeps_seasons);
CREATE INDEX tree_urgent ON tree (urgent);
CREATE INDEX tree_standing ON tree (removed, gone_on);
CREATE INDEX site_near_disease ON site (disease_near_on);
CREATE INDEX job_on_day ON job (day);
CREATE INDEX treatment_on_day ON treatment (day);
-- Every change that was kept, in order, without gaps: the present tables follow from it.
CREATE TABLE history (
  number BIGINT PRIMARY KEY,
  batch BIGINT NOT NULL,
  at TEXT NOT NULL,
  who TEXT NOT NULL,
  why TEXT NOT NULL,
  kind TEXT NOT NULL,
  record TEXT NOT NULL,
  version BIGINT NOT NULL,
  what TEXT NOT NULL,
  changes TEXT NOT NULL
);
CREATE INDEX history_of_record ON history (kind, record, number);
-- The next number of each kind of id, of history and of batches; taking one is what makes writers wait for each other.
CREATE TABLE counter (
  name TEXT PRIMARY KEY,
  next BIGINT NOT NULL
);
INSERT INTO counter (name, next) VALUES ('batch', 1), ('history', 1);
