-- Days and hours that suit a client, overtime, preparation; proposals of the plan, and their moves.
ALTER TABLE site ADD COLUMN work_days TEXT;
ALTER TABLE site ADD COLUMN work_from TEXT;
ALTER TABLE site ADD COLUMN work_until TEXT;
ALTER TABLE client ADD COLUMN promise_weight DOUBLE PRECISION;
ALTER TABLE crew ADD COLUMN overtime_h DOUBLE PRECISION;
ALTER TABLE job ADD COLUMN not_before TEXT;
ALTER TABLE job ADD COLUMN not_after TEXT;
ALTER TABLE job ADD COLUMN prepared_on TEXT;
CREATE TABLE proposal (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  made_at TEXT NOT NULL,
  forecast_at TEXT,
  state TEXT NOT NULL,
  worth_h DOUBLE PRECISION,
  bound_h DOUBLE PRECISION,
  note TEXT,
  own TEXT
);
CREATE TABLE move (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  proposal TEXT NOT NULL REFERENCES proposal (id) DEFERRABLE INITIALLY DEFERRED,
  job TEXT REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  tree TEXT NOT NULL REFERENCES tree (id) DEFERRABLE INITIALLY DEFERRED,
  state TEXT NOT NULL,
  job_version BIGINT,
  from_day TEXT,
  from_crew TEXT REFERENCES crew (id) DEFERRABLE INITIALLY DEFERRED,
  from_start TEXT,
  to_day TEXT,
  to_crew TEXT REFERENCES crew (id) DEFERRABLE INITIALLY DEFERRED,
  to_start TEXT,
  decide_by TEXT,
  may_wait TEXT,
  needs TEXT,
  day_jobs TEXT,
  why TEXT,
  own TEXT
);
CREATE INDEX proposal_state ON proposal (state);
CREATE INDEX move_proposal ON move (proposal);
CREATE INDEX move_job ON move (job);
CREATE INDEX move_tree ON move (tree);
CREATE INDEX move_from_crew ON move (from_crew);
CREATE INDEX move_to_crew ON move (to_crew);
