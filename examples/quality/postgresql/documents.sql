-- SPDX-License-Identifier: MIT
-- What fer_judge_batch takes, in PostgreSQL's own JSON functions: the question, and the crimps as lists in the order they were made.

CREATE VIEW question AS
SELECT json_build_object('wanted', json_build_object('limits', json_build_object('lower_mm', a.lower_mm, 'upper_mm', a.upper_mm),
                                                     'target_mm', a.target_mm),
    'measuring', s.result -> 'measuring', 'lot', a.crimps, 'allowed_fraction', a.outside_fraction,
    'confidence_fraction', a.confidence_fraction, 'index', a.index_asked) AS document
FROM asked AS a CROSS JOIN studies AS s;

CREATE VIEW piece_documents AS
SELECT piece, press, json_build_object('diameter_mm', diameter_mm, 'group', press_number, 'kind', kind) AS document FROM numbered_crimps;

CREATE VIEW press_pieces AS
SELECT press, min(piece) AS first_piece, count(*) AS measured, json_agg(document ORDER BY piece) AS pieces FROM piece_documents GROUP BY press;

CREATE VIEW batch_pieces AS
SELECT count(*) AS measured, json_agg(document ORDER BY piece) AS pieces FROM piece_documents;
