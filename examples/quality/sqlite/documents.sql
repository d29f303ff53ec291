-- SPDX-License-Identifier: MIT
-- What fer_judge_batch takes, in SQLite's own JSON functions: the question, and the crimps as lists in the order they were made.
-- (SQLite's JSON functions keep 15 digits of a number; fer_mm_text(x) keeps all.)

CREATE VIEW question AS
SELECT json_object('wanted', json_object('limits', json_object('lower', fer_mm_text(a.lower_mm), 'upper', fer_mm_text(a.upper_mm)),
                                         'target', fer_mm_text(a.target_mm)),
    'measuring', json(s.result -> 'measuring'), 'lot', a.crimps, 'allowed_fraction', a.outside_fraction,
    'confidence_fraction', a.confidence_fraction, 'index', a.index_asked) AS document
FROM asked AS a CROSS JOIN studies AS s;

CREATE VIEW piece_documents AS
SELECT piece, press, json_object('diameter', fer_mm_text(diameter_mm), 'group', press_number, 'kind', kind) AS document FROM numbered_crimps ORDER BY piece;

CREATE VIEW press_pieces AS
SELECT press, min(piece) AS first_piece, count(*) AS measured, json_group_array(json(document)) AS pieces FROM piece_documents GROUP BY press;

CREATE VIEW batch_pieces AS
SELECT count(*) AS measured, json_group_array(json(document)) AS pieces FROM piece_documents;
