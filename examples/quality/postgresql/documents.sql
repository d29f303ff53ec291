-- SPDX-License-Identifier: MIT
-- What fer_judge_batch takes, in PostgreSQL's own JSON functions: crimps as lists in the order they were made, and what is asked of them.

-- Crimps that are judged together: those of the whole batch, where press is NULL, and those of each press.
CREATE VIEW lots AS
SELECT CAST(NULL AS text) AS press, 0 AS first_piece, count(*) AS measured, json_agg(json_build_object('diameter_mm', diameter_mm, 'group', press_number) ORDER BY piece) AS pieces
FROM numbered_crimps
UNION ALL
SELECT press, min(piece), count(*), json_agg(json_build_object('diameter_mm', diameter_mm, 'group', die_number) ORDER BY piece)
FROM numbered_crimps GROUP BY press;

-- Where every crimp was measured, every one of a press was, too; otherwise as many may be left as of the whole batch.
CREATE VIEW questions AS
SELECT l.press, l.first_piece, l.measured, l.pieces, json_build_object(
    'wanted', json_build_object('limits', json_build_object('lower_mm', a.lower_mm, 'upper_mm', a.upper_mm), 'target_mm', a.target_mm),
    'measuring', s.result -> 'measuring', 'allowed_fraction', a.outside_fraction, 'confidence_fraction', a.confidence_fraction,
    'lot', CASE WHEN a.crimps = (SELECT count(*) FROM crimp_rows) THEN l.measured ELSE a.crimps END, 'index', a.index_asked,
    'charting', json_build_object('beyond', 3.5, 'allowance', 0.5, 'decision', 5),
    'burst_aim', json_build_object('working_mpa', a.working_mpa, 'multiple', a.burst_multiple, 'share_fraction', 0.95,
                             'confidence_fraction', a.confidence_fraction)) AS question
FROM lots AS l CROSS JOIN asked AS a CROSS JOIN studies AS s;
