-- SPDX-License-Identifier: MIT
-- Set-ups and verdicts, for SQLite and PostgreSQL alike.

-- An order that cannot be planned says why here, and is a row of NULL in set_ups: one bad order does not end a query over all.
CREATE VIEW order_states AS
SELECT o.*, r.dies, p.graduation_mm, p.correction_mm, p.dial_maximum_mm, p.opening_mm, p.capacity_newton, p.segments,
    fer_plan_setup_status(o.document, r.dies, p.graduation_mm, p.correction_mm, p.dial_maximum_mm, p.opening_mm, p.capacity_newton,
                          p.segments) AS status
FROM order_documents AS o JOIN presses AS p ON p.press = o.press CROSS JOIN rack AS r;

CREATE VIEW set_ups AS
SELECT o.order_number, o.machine, o.joint, o.press AS on_press, o.pieces, o.status, s.*
FROM order_states AS o
CROSS JOIN fer_plan_setup_row(CASE WHEN o.status = 'OK' THEN o.document END, o.dies, o.graduation_mm, o.correction_mm,
                              o.dial_maximum_mm, o.opening_mm, o.capacity_newton, o.segments) AS s;

CREATE VIEW set_up_sheet AS
SELECT s.order_number, s.machine, s.pieces, s.joint, s.status, s.source, s.target_mm, s.limits_lower_mm, s.limits_upper_mm,
    s.plain_fraction, d.die, s.die_offset_mm, s.dial_setting_mm, s.dial_expected_mm, s.die_buy_lower_mm, s.die_buy_upper_mm,
    s.remarks, s.cautions
FROM set_ups AS s LEFT JOIN dies AS d ON s.die_found AND d.size_mm = s.die_die_size_mm;

-- The readings of a piece together, with what is known of the gauge. Readings that were not noted with an angle count as such.
CREATE VIEW measured AS
SELECT order_number, piece, gauge,
    fer_summarise_readings_over(diameter_mm, section, coalesce(angle_rad, 0), angle_rad IS NOT NULL, standard_uncertainty_mm,
                                correction_mm, resolution_mm, 0, false, 0, 0) AS summary
FROM crimps JOIN gauges USING (gauge)
GROUP BY order_number, piece, gauge;

-- Within the limits of the set-up, with the usual guard band for what the measurement does not know.
CREATE VIEW verdicts AS
SELECT order_number, piece, gauge, mean_mm, uncertainty_mm, mean_mm - target_mm AS deviation_mm, limits_lower_mm, limits_upper_mm,
    fer_judge_decision(mean_mm, uncertainty_mm, limits_lower_mm, limits_upper_mm) AS decision,
    fer_judge_conforming_fraction(mean_mm, uncertainty_mm, limits_lower_mm, limits_upper_mm) AS conforming_fraction
FROM (SELECT m.order_number, m.piece, m.gauge, fer_mm(m.summary ->> 'mean') AS mean_mm,
          fer_mm(m.summary ->> 'standard_uncertainty') AS uncertainty_mm, s.target_mm, s.limits_lower_mm, s.limits_upper_mm
      FROM measured AS m JOIN set_ups AS s ON s.order_number = m.order_number) AS judged;
