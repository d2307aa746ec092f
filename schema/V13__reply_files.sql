-- Without it, an older file of a client's would undo a newer one that came first.
ALTER TABLE shares ADD COLUMN reply_saved_ms INTEGER
  CONSTRAINT "a share must know when the file that came back last was saved"
    CHECK (typeof(reply_saved_ms) IN ('integer', 'null'));
