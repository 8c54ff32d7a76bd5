-- The outbox: messages on their way; how crews and clients like to be written to. Rows that were there keep their state: nothing is queued.
ALTER TABLE crew ADD COLUMN email TEXT;
ALTER TABLE crew ADD COLUMN road TEXT;
ALTER TABLE crew ADD COLUMN texts_agreed_on TEXT;
ALTER TABLE crew ADD COLUMN quiet_from TEXT;
ALTER TABLE crew ADD COLUMN quiet_until TEXT;
ALTER TABLE client ADD COLUMN texts_agreed_on TEXT;
ALTER TABLE client ADD COLUMN road TEXT;
ALTER TABLE client ADD COLUMN quiet_from TEXT;
ALTER TABLE client ADD COLUMN quiet_until TEXT;
ALTER TABLE message ADD COLUMN day TEXT;
ALTER TABLE message ADD COLUMN purpose TEXT;
ALTER TABLE message ADD COLUMN number BIGINT;
ALTER TABLE message ADD COLUMN road TEXT;
ALTER TABLE message ADD COLUMN send_to TEXT;
ALTER TABLE message ADD COLUMN subject TEXT;
ALTER TABLE message ADD COLUMN order_json TEXT;
ALTER TABLE message ADD COLUMN attachments TEXT;
ALTER TABLE message ADD COLUMN jobs TEXT;
ALTER TABLE message ADD COLUMN zone TEXT;
ALTER TABLE message ADD COLUMN made_at TEXT;
ALTER TABLE message ADD COLUMN not_after TEXT;
ALTER TABLE message ADD COLUMN next_try_at TEXT;
ALTER TABLE message ADD COLUMN tries BIGINT;
ALTER TABLE message ADD COLUMN reason TEXT;
ALTER TABLE message ADD COLUMN code BIGINT;
ALTER TABLE message ADD COLUMN maybe_over TEXT;
ALTER TABLE message ADD COLUMN claimed_by TEXT;
ALTER TABLE message ADD COLUMN claimed_at TEXT;
ALTER TABLE message ADD COLUMN resent BIGINT;
CREATE INDEX message_state ON message (state);
CREATE INDEX message_day ON message (day);
CREATE TABLE wording (
  id TEXT PRIMARY KEY,
  version BIGINT NOT NULL,
  removed BIGINT NOT NULL,
  message TEXT NOT NULL,
  layout TEXT NOT NULL,
  own TEXT
);
