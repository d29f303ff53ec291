-- SPDX-License-Identifier: MIT
-- The decisions: those of the library, with the figures that they stand on. A press that cannot be judged says why and stops no other.

CREATE VIEW answers AS
SELECT press, first_piece, measured, fer_judge_batch_status(pieces, question) AS status,
    CASE WHEN fer_judge_batch_status(pieces, question) = 'OK' THEN fer_judge_batch(pieces, question) END AS answer
FROM questions;

-- One row for each press.
CREATE VIEW press_decisions AS
SELECT press, first_piece, measured, status, coalesce(answer ->> 'decision', 'UNDECIDED') AS decision,
    CASE answer ->> 'decision' WHEN 'ACCEPT' THEN 'accept' WHEN 'REJECT' THEN 'reject' ELSE 'find out first' END AS diameters,
    fer_mm(answer ->> 'mean') AS mean_mm, fer_mm(answer ->> 'deviation') AS deviation_mm,
    CAST(answer ->> 'index_lower' AS double precision) AS index_lower, fer_fraction(answer ->> 'outside_upper') AS outside_upper_fraction,
    CAST(answer ->> 'more_pieces' AS integer) AS more_pieces,
    CASE WHEN CAST(answer -> 'findings' AS text) LIKE '%OFF_TARGET%' THEN fer_mm(answer ->> 'correction') ELSE 0 END AS correction_mm,
    answer -> 'findings' ->> 0 AS finding,
    CASE WHEN status <> 'OK' THEN fer_status_sentence(status) WHEN answer ->> 'decision' <> 'ACCEPT' THEN fer_batch_finding_sentence(answer -> 'findings' ->> 0) END AS why
FROM answers WHERE press IS NOT NULL;

CREATE VIEW batch_decision AS
SELECT a.order_name, a.crimps, l.measured, l.status, coalesce(l.answer ->> 'decision', 'UNDECIDED') AS decision
FROM answers AS l CROSS JOIN asked AS a WHERE l.press IS NULL;

-- The bursts, by the most cautious shape; 95 % of the assemblies have to hold.
CREATE VIEW burst_decision AS
SELECT result ->> 'decision' AS decision, fer_mpa(result ->> 'limit') AS limit_mpa, fer_mpa(result ->> 'bound') AS bound_mpa,
    CAST(result ->> 'more' AS integer) AS more
FROM (SELECT fer_judge_bursts_over(fer_mpa(r.pressure), a.working_mpa, 'WEIBULL', r.burst = '-', a.burst_multiple, 0.95, a.confidence_fraction)
          AS result
      FROM burst_rows AS r CROSS JOIN asked AS a) AS judged;
