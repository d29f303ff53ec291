-- SPDX-License-Identifier: MIT
-- Set-ups and verdicts, for SQLite and PostgreSQL alike.

-- An order that cannot be planned says why here, and is a row of NULL in set_ups: one bad order does not end a query over all.
CREATE VIEW order_states AS
SELECT o.*, r.dies, c.confirmations, p.graduation_mm, coalesce(p.correction_mm, 0) AS correction_mm, p.dial_maximum_mm, p.opening_mm,
    p.capacity_newton, p.segments, p.correction_mm IS NOT NULL AS correction_measured,
    CASE WHEN p.graduation_mm = 0 THEN 3 -- as many decimals as the dial shows, at most four
        WHEN abs(p.graduation_mm - round(p.graduation_mm)) < 1e-9 THEN 0
        WHEN abs(p.graduation_mm * 10 - round(p.graduation_mm * 10)) < 1e-8 THEN 1
        WHEN abs(p.graduation_mm * 100 - round(p.graduation_mm * 100)) < 1e-7 THEN 2
        WHEN abs(p.graduation_mm * 1000 - round(p.graduation_mm * 1000)) < 1e-6 THEN 3 ELSE 4 END AS dial_decimals,
    fer_plan_setup_status(o.document, r.dies, p.graduation_mm, coalesce(p.correction_mm, 0), p.dial_maximum_mm, p.opening_mm,
                          p.capacity_newton, p.segments, p.correction_mm IS NOT NULL) AS status
FROM order_documents AS o JOIN presses AS p ON p.press = o.press JOIN confirmation_lists AS c ON c.order_number = o.order_number
CROSS JOIN rack AS r;

-- As planned, with all digits, and with what was confirmed. Confirmations that cannot be are kept out by the table.
CREATE VIEW planned AS
SELECT order_number, machine, joint, press, pieces, gauge, status, confirmations, dial_decimals,
    CASE WHEN status = 'OK' THEN fer_plan_setup(document, dies, fer_mm_text(graduation_mm), fer_mm_text(correction_mm),
        fer_mm_text(dial_maximum_mm), fer_mm_text(opening_mm), fer_newton_text(capacity_newton), segments, correction_measured) END AS setup
FROM order_states;

CREATE VIEW confirmed_setups AS
SELECT order_number, setup AS planned, fer_confirm_setup(setup, confirmations) AS setup FROM planned;

CREATE VIEW set_ups AS
SELECT p.order_number, p.machine, p.joint, p.press AS on_press, p.pieces, p.gauge, p.status, p.dial_decimals, s.*
FROM planned AS p CROSS JOIN fer_confirm_setup_row(p.setup, p.confirmations) AS s;

-- What is not ready, or cannot be planned, has neither die nor dial nor anything to accept here; it is flagged and never left out.
-- Where no correction of the press was measured and the springback is known, the dial is the one with the springback taken off.
CREATE VIEW set_up_sheet AS
SELECT s.order_number, s.machine, s.pieces, s.joint, s.gauge, s.status, coalesce(s.readiness, 'NOT_READY') AS readiness,
    fer_readiness_sentence(coalesce(s.readiness, 'NOT_READY')) AS readiness_sentence, s.source, s.target_mm, s.limits_lower_mm,
    s.limits_upper_mm, s.plain_fraction, s.compression_fraction, s.compression_standard_uncertainty_fraction, s.compression_source,
    d.die, CASE WHEN d.die IS NOT NULL THEN s.die_die_adapter END AS adapter, CASE WHEN d.die IS NOT NULL THEN s.die_offset_mm END AS die_offset_mm,
    CASE WHEN d.die IS NOT NULL THEN coalesce(s.springback_dial_setting_mm, s.dial_setting_mm) END AS dial_setting_mm,
    CASE WHEN d.die IS NOT NULL THEN coalesce(s.springback_dial_expected_mm, s.dial_expected_mm) END AS dial_expected_mm,
    d.die IS NOT NULL AND s.springback_dial_setting_mm IS NOT NULL AS springback_taken_off, s.dial_decimals,
    CASE WHEN d.die IS NOT NULL AND NOT s.zone_empty AND CAST(s.remarks AS text) NOT LIKE '%GAUGE_TAKEN_AS_EXACT%'
        THEN s.zone_accept_lower_mm END AS zone_lower_mm,
    CASE WHEN d.die IS NOT NULL AND NOT s.zone_empty AND CAST(s.remarks AS text) NOT LIKE '%GAUGE_TAKEN_AS_EXACT%'
        THEN s.zone_accept_upper_mm END AS zone_upper_mm,
    CASE WHEN NOT s.die_found THEN s.die_buy_lower_mm END AS die_buy_lower_mm,
    CASE WHEN NOT s.die_found THEN s.die_buy_upper_mm END AS die_buy_upper_mm,
    s.insertion_mm, s.skive_outside_mm, s.skive_inside_mm, s.remarks, s.confirmed, s.cautions
FROM set_ups AS s LEFT JOIN dies AS d ON s.readiness <> 'NOT_READY' AND s.die_found AND d.size_mm = s.die_die_size_mm;

-- A confirmation alone: taken, void since today's figures are others, or not needed.
CREATE VIEW confirmation_states AS
SELECT c.order_number, c.remark, c.name, c.day,
    CASE WHEN s.setup IS NULL THEN 'not needed'
        WHEN fer_confirm_setup(s.setup, c.alone) ->> 'confirmed' = '["' || c.remark || '"]' THEN 'taken'
        WHEN fer_confirm_setup(s.setup, c.alone) ->> 'remarks' LIKE '%CONFIRMATION_STALE%' THEN 'void'
        ELSE 'not needed' END AS state
FROM confirmation_documents AS c JOIN planned AS s ON s.order_number = c.order_number;

-- The readings of a piece together with its set-up: only of what is ready and has limits.
CREATE VIEW inspected AS
SELECT c.order_number, c.piece, c.gauge,
    fer_inspect_crimp_over(c.diameter_mm, s.setup, c.section, coalesce(c.angle_rad, 0), c.angle_rad IS NOT NULL,
                           g.standard_uncertainty_mm, g.correction_mm, g.resolution_mm, 0, false, 0, 0, 0, false, 'BOTH', 0, 0, 0)
        AS inspection
FROM crimps AS c JOIN gauges AS g ON g.gauge = c.gauge JOIN confirmed_setups AS s ON s.order_number = c.order_number
JOIN set_up_sheet AS t ON t.order_number = c.order_number
WHERE t.readiness = 'READY' AND t.limits_lower_mm IS NOT NULL
GROUP BY c.order_number, c.piece, c.gauge;

-- Every piece that was measured; without a verdict it says why. The verdict is that on the diameter, and on nothing else. What is
-- nearly sure or nearly impossible is not written as if it were known exactly.
CREATE VIEW verdicts AS
SELECT c.order_number, c.piece, c.gauge, fer_mm(i.inspection -> 'summary' ->> 'mean') AS mean_mm,
    fer_mm(i.inspection -> 'summary' ->> 'standard_uncertainty') AS uncertainty_mm, fer_mm(i.inspection ->> 'deviation') AS deviation_mm,
    i.inspection ->> 'decision' AS decision, fer_fraction(i.inspection -> 'verdict' ->> 'conforming') AS conforming_fraction,
    CASE WHEN fer_fraction(i.inspection -> 'verdict' ->> 'conforming') > 0.999 THEN '> 99.9 %'
        WHEN fer_fraction(i.inspection -> 'verdict' ->> 'conforming') < 0.001 THEN '< 0.1 %'
        ELSE fer_percent_text(fer_percent_of_fraction(fer_fraction(i.inspection -> 'verdict' ->> 'conforming')), 1) END AS conforming_text,
    CASE WHEN t.readiness <> 'READY' THEN 'the order is ' || replace(t.readiness, '_', ' ')
        WHEN t.limits_lower_mm IS NULL THEN fer_status_sentence('TOLERANCE_MISSING') END AS why_not, i.inspection
FROM (SELECT DISTINCT order_number, piece, gauge FROM crimps) AS c
JOIN set_up_sheet AS t ON t.order_number = c.order_number
LEFT JOIN inspected AS i ON i.order_number = c.order_number AND i.piece = c.piece AND i.gauge = c.gauge;

-- Each end with the verdict on its diameter and what else was checked. A piece that was read with two gauges has no verdict.
CREATE VIEW end_checks AS
SELECT v.order_number, v.piece, coalesce(min(fer_enter_inspection(v.inspection) ->> 'outcome'), 'NOT_DONE') AS outcome,
    coalesce(min(fer_enter_inspection(v.inspection) ->> 'limit'), 'NOT_STATED') AS missed,
    coalesce(min(e.looks), 'NOT_DONE') AS looks, coalesce(min(e.insertion), 'NOT_DONE') AS insertion,
    coalesce(min(e.bore), 'NOT_DONE') AS bore,
    coalesce(min(fer_enter_inspection(v.inspection) ->> 'outcome') = 'FAILED' AND min(CASE WHEN e.read_again THEN 1 ELSE 0 END) = 1, false)
        AS read_again
FROM verdicts AS v LEFT JOIN ends AS e ON e.order_number = v.order_number AND e.piece = v.piece
GROUP BY v.order_number, v.piece HAVING count(*) = 1;

-- May the rest be crimped? Diameter, looks and bore of the first piece decide; of what is not ready no piece does.
CREATE VIEW first_pieces AS
SELECT order_number, piece, CAST(result ->> 'rest_allowed' AS text) IN ('true', '1') AS rest_allowed, result
FROM (SELECT e.order_number, e.piece,
          fer_check_first_piece(e.outcome, e.missed, false, e.read_again, e.looks, e.insertion, e.bore, '[]') AS result
      FROM end_checks AS e JOIN set_up_sheet AS t ON t.order_number = e.order_number
      WHERE t.readiness = 'READY' AND e.piece = (SELECT min(c.piece) FROM crimps AS c WHERE c.order_number = e.order_number)) AS checked;
