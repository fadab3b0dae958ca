"""The sentences of SQL that work is kept with. Values are always bound by name."""

SCHEMA = """
CREATE TABLE IF NOT EXISTS work (
  id TEXT PRIMARY KEY, owner TEXT NOT NULL, kind TEXT NOT NULL, state TEXT NOT NULL, version INTEGER NOT NULL,
  arrived_s REAL NOT NULL, alive_s REAL NOT NULL, ended_s REAL, expires_s REAL,
  progress TEXT, status INTEGER, content BLOB
)
"""

#: How much is kept, in pieces and in bytes, and when the next of it goes.
SPACE = """
SELECT count(*), total(length(content)), min(expires_s) FROM work WHERE state NOT IN ('cancelled', 'expired')
"""

ADD = """
INSERT INTO work (id, owner, kind, state, version, arrived_s, alive_s)
VALUES (:id, :owner, :kind, 'queued', 0, :now, :now)
"""

BEGIN = "UPDATE work SET state = 'running', version = version + 1 WHERE id = :id AND state = 'queued'"

TELL = """
UPDATE work SET alive_s = :now, version = version + (:progress IS NOT NULL), progress = coalesce(:progress, progress)
WHERE id = :id AND state IN ('queued', 'running')
"""

END = """
UPDATE work SET state = :state, version = version + 1, ended_s = :now, expires_s = :now + :kept, status = :status,
  content = :content
WHERE id = :id AND state IN ('queued', 'running')
"""

CANCEL = """
UPDATE work SET state = 'cancelled', version = version + 1, ended_s = coalesce(ended_s, :now),
  expires_s = :now + :kept, progress = NULL, content = NULL
WHERE id = :id
"""

DROP = "DELETE FROM work WHERE id = :id"

FIND = """
SELECT id, kind, state, version, arrived_s, alive_s, ended_s, expires_s, progress, status, content
FROM work WHERE id = :id AND owner = :owner
"""

#: What is due, in this order: work of the dead has failed, ids that were known to be gone are forgotten, answers that
#: were kept long enough go, and so do more ids than are remembered.
DUE = (
    """
    UPDATE work SET state = 'failed', version = version + 1, ended_s = :now, expires_s = :now + :kept, status = :status,
      content = :content
    WHERE state IN ('queued', 'running') AND alive_s < :now - :lapsed
    """,
    "DELETE FROM work WHERE state IN ('cancelled', 'expired') AND expires_s <= :now",
    """
    UPDATE work SET state = 'expired', progress = NULL, content = NULL, expires_s = :now + :kept
    WHERE expires_s <= :now
    """,
    """
    DELETE FROM work WHERE id IN (
      SELECT id FROM work WHERE state IN ('cancelled', 'expired') ORDER BY expires_s DESC LIMIT -1 OFFSET :remembered
    )
    """,
)
