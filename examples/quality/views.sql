-- SPDX-License-Identifier: MIT
-- From the tables as they are written to a decision for each press, for SQLite and PostgreSQL alike but for the one document that
-- sqlite/question.sql and postgresql/question.sql make. A cell that cannot be read is an error that names its value; no row comes then.

CREATE VIEW asked AS
SELECT order_name, parts, CAST(crimps AS integer) AS crimps, fer_mm(lower_limit) AS lower_mm, fer_mm(upper_limit) AS upper_mm,
    CASE WHEN target = '-' THEN 0 ELSE fer_mm(target) END AS target_mm,
    CASE WHEN outside = '-' THEN 0 ELSE fer_fraction(outside) END AS outside_fraction,
    CASE WHEN confidence = '-' THEN 0 ELSE fer_fraction(confidence) END AS confidence_fraction,
    CASE WHEN index_asked = '-' THEN 0 ELSE CAST(index_asked AS double precision) END AS index_asked,
    CASE WHEN working_pressure = '-' THEN 0 ELSE fer_mpa(working_pressure) END AS working_mpa,
    CASE WHEN burst_multiple = '-' THEN 0 ELSE CAST(burst_multiple AS double precision) END AS burst_multiple
FROM batch_rows;

CREATE VIEW gauge_checks AS
SELECT fer_calibrate_gauge_over(fer_mm(r.block), fer_mm(r.reading), a.confidence_fraction, fer_mm(g.block_uncertainty),
                                fer_mm(g.resolution), fer_fraction(g.expansion), a.target_mm) AS result
FROM block_rows AS r CROSS JOIN gauge_rows AS g CROSS JOIN asked AS a;

-- People by number: what counts is who is who.
CREATE VIEW people AS
SELECT person, CAST(row_number() OVER (ORDER BY person) AS integer) AS person_number FROM study_rows GROUP BY person;

CREATE VIEW studies AS
SELECT fer_study_gauge_over(CAST(r.part AS integer), p.person_number, fer_mm(r.diameter), a.upper_mm - a.lower_mm, a.confidence_fraction,
                            0, false, fer_mm(c.result -> 'gauge' ->> 'standard_uncertainty'), fer_mm(g.resolution)) AS result
FROM study_rows AS r JOIN people AS p ON p.person = r.person CROSS JOIN gauge_rows AS g CROSS JOIN asked AS a
CROSS JOIN gauge_checks AS c;

-- Crimps with the gauge's correction, in the order they were made.
CREATE VIEW crimps AS
SELECT CAST(r.piece AS integer) AS piece, r.made, r.press, r.die, r.person,
    fer_mm(r.diameter) + fer_mm(c.result -> 'gauge' ->> 'correction') AS diameter_mm
FROM crimp_rows AS r CROSS JOIN gauge_checks AS c;

-- Groups by number, in the order in which they come: of the whole batch the presses, of one press its dies.
CREATE VIEW numbered_crimps AS
SELECT c.piece, c.press, c.diameter_mm, p.press_number, d.die_number
FROM crimps AS c
JOIN (SELECT press, CAST(row_number() OVER (ORDER BY min(CAST(piece AS integer))) - 1 AS integer) AS press_number
      FROM crimp_rows GROUP BY press) AS p ON p.press = c.press
JOIN (SELECT press, die, CAST(row_number() OVER (PARTITION BY press ORDER BY min(CAST(piece AS integer))) - 1 AS integer) AS die_number
      FROM crimp_rows GROUP BY press, die) AS d ON d.press = c.press AND d.die = c.die;
