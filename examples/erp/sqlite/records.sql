-- SPDX-License-Identifier: MIT
-- Records of jobs, a line for each as ferrule.record writes it; nobody changes one, and each names the hash of the one before it. SQLite has no
-- SHA-256: the hash comes with the line (ferrule.record.digest), and `python -m ferrule replay` checks both.
CREATE TABLE records (
    number integer PRIMARY KEY,
    line   text NOT NULL CHECK (json_extract(line, '$.form') = 'ferrule-record-1'),
    digest text NOT NULL UNIQUE CHECK (length(digest) = 64),
    before text NOT NULL GENERATED ALWAYS AS (json_extract(line, '$.before')) STORED UNIQUE
);

CREATE TRIGGER records_in_a_chain BEFORE INSERT ON records
WHEN json_extract(new.line, '$.before') IS NOT coalesce((SELECT digest FROM records ORDER BY number DESC LIMIT 1), printf('%064d', 0))
BEGIN
    SELECT raise(ABORT, 'records: this one does not name the hash of the last record as the one before');
END;

CREATE TRIGGER records_stay BEFORE UPDATE ON records
BEGIN
    SELECT raise(ABORT, 'records: nobody changes one');
END;

CREATE TRIGGER records_are_kept BEFORE DELETE ON records
BEGIN
    SELECT raise(ABORT, 'records: nobody removes one');
END;

CREATE VIEW record_facts AS
SELECT number, json_extract(line, '$.job') AS job, digest, f.key AS fact, f.value AS says
FROM records CROSS JOIN json_each(line, '$.facts') AS f;

CREATE VIEW record_calls AS
SELECT number, json_extract(line, '$.job') AS job, c.key AS place, json_extract(c.value, '$.function') AS function,
    json_extract(c.value, '$.status') AS status, json_extract(c.value, '$.result') AS result
FROM records CROSS JOIN json_each(line, '$.calls') AS c;
