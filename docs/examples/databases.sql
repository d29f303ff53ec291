-- SPDX-License-Identifier: MIT
-- Text with units in, text with units out; numbers in, numbers out, with the unit in the name.
SELECT fer_crimp_diameter('12.7 mm', '19.9 mm', '12.95 mm', '2.4 mm', '25 %'),
       fer_crimp_diameter_mm(12.7, 19.9, 12.95, 2.4, 0.25);

-- The window of 15 to 25 %, and whether 23.6 mm, known to 0.03 mm, is inside it.
SELECT fer_mm_text(fer_crimp_window_lower_mm(12.7, 19.9, 12.95, 2.4, 0.15, 0.25), 2),
       fer_judge_decision(23.6, 0.03, 23.15, 23.87);

-- A rack of dies as a table: which is the one for 23.51 mm, and what is left of it?
CREATE TABLE rack (size text);
INSERT INTO rack VALUES ('16 mm'), ('22 mm'), ('7/8 in'), ('25 mm');
SELECT fer_choose_die_over(fer_mm(size), 23.51) ->> 'index',
       fer_mm_text(fer_mm(fer_choose_die_over(fer_mm(size), 23.51) ->> 'offset'), 3)
FROM rack;

-- What cannot be is an error; here its name, for a query that has to go on.
SELECT fer_crimp_diameter_status(19.9, 12.7, 12.95, 2.4, 0.20),
       fer_status_sentence('HOSE_OUTSIDE_NOT_ABOVE_INSIDE');
DROP TABLE rack;
