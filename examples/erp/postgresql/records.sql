-- SPDX-License-Identifier: MIT
-- Records of jobs, a line for each as ferrule.record writes it; nobody changes one, and each names the hash of the one before it. The hash is
-- computed here from the bytes of the line, whatever comes with it.
CREATE TABLE records (
    number integer GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    line   text NOT NULL CHECK (line::jsonb ->> 'form' = 'ferrule-record-1'),
    digest text NOT NULL UNIQUE,
    before text NOT NULL UNIQUE
);

CREATE FUNCTION chain_record() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF tg_op <> 'INSERT' THEN
        RAISE EXCEPTION 'records: nobody changes or removes one';
    END IF;
    LOCK TABLE ONLY records IN SHARE ROW EXCLUSIVE MODE; -- one after another, or two would name the same record before
    new.before := new.line::jsonb ->> 'before';
    new.digest := encode(sha256(convert_to(new.line, 'UTF8')), 'hex');
    IF new.before IS DISTINCT FROM coalesce((SELECT r.digest FROM records AS r ORDER BY r.number DESC LIMIT 1), repeat('0', 64)) THEN
        RAISE EXCEPTION 'records: this one does not name the hash of the last record as the one before';
    END IF;
    RETURN new;
END $$;

CREATE TRIGGER records_in_a_chain BEFORE INSERT OR UPDATE OR DELETE ON records FOR EACH ROW EXECUTE FUNCTION chain_record();

CREATE VIEW record_facts AS
SELECT number, line::jsonb ->> 'job' AS job, digest, f.key AS fact, f.value AS says
FROM records CROSS JOIN LATERAL jsonb_each_text(line::jsonb -> 'facts') AS f;

CREATE VIEW record_calls AS
SELECT number, line::jsonb ->> 'job' AS job, c.ordinality - 1 AS place, c.value ->> 'function' AS function,
    c.value ->> 'status' AS status, c.value -> 'result' AS result
FROM records CROSS JOIN LATERAL jsonb_array_elements(line::jsonb -> 'calls') WITH ORDINALITY AS c;
