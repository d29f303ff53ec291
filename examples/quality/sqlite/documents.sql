-- SPDX-License-Identifier: MIT
-- What fer_judge_batch takes, in SQLite's own JSON functions: crimps as lists in the order they were made, and what is asked of them.
-- (SQLite's JSON functions keep 15 digits of a number; fer_mm_text(x) keeps all.)

-- Crimps that are judged together: those of the whole batch, where press is NULL, and those of each press.
CREATE VIEW lots AS
SELECT CAST(NULL AS text) AS press, 0 AS first_piece, count(*) AS measured, json_group_array(json_object('diameter', fer_mm_text(diameter_mm), 'group', press_number)) AS pieces
FROM (SELECT * FROM numbered_crimps ORDER BY piece) AS c
UNION ALL
SELECT press, min(piece), count(*), json_group_array(json_object('diameter', fer_mm_text(diameter_mm), 'group', die_number))
FROM (SELECT * FROM numbered_crimps ORDER BY piece) AS c GROUP BY press;

-- Where every crimp was measured, every one of a press was, too; otherwise as many may be left as of the whole batch.
CREATE VIEW questions AS
SELECT l.press, l.first_piece, l.measured, l.pieces, json_object(
    'wanted', json_object('limits', json_object('lower', fer_mm_text(a.lower_mm), 'upper', fer_mm_text(a.upper_mm)), 'target', fer_mm_text(a.target_mm)),
    'measuring', json(s.result -> 'measuring'), 'allowed_fraction', a.outside_fraction, 'confidence_fraction', a.confidence_fraction,
    'lot', CASE WHEN a.crimps = (SELECT count(*) FROM crimp_rows) THEN l.measured ELSE a.crimps END, 'index', a.index_asked,
    'charting', json_object('beyond', 3.5, 'allowance', 0.5, 'decision', 5),
    'burst_aim', json_object('working_mpa', a.working_mpa, 'multiple', a.burst_multiple, 'share_fraction', 0.95,
                             'confidence_fraction', a.confidence_fraction)) AS question
FROM lots AS l CROSS JOIN asked AS a CROSS JOIN studies AS s;
