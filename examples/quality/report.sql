-- SPDX-License-Identifier: MIT
-- The decisions as text, the same in both databases.

SELECT 'Order ' || order_name || ', ' || measured || ' of ' || crimps || ' crimps measured: diameters: '
    || CASE decision WHEN 'ACCEPT' THEN 'accept' WHEN 'REJECT' THEN 'reject' ELSE 'find out first' END
FROM batch_decision;

SELECT press || ', ' || measured || ' measured: diameters: ' || diameters || coalesce('; ' || why, '')
    || CASE WHEN correction_mm <> 0 THEN '; correct the dial by ' || CASE WHEN correction_mm > 0 THEN '+' ELSE '' END || fer_mm_text(correction_mm, 3) ELSE '' END
    || CASE WHEN more_pieces > 0 THEN '; measure ' || more_pieces || ' more' ELSE '' END
FROM press_decisions ORDER BY first_piece;

SELECT 'Bursts: ' || CASE decision WHEN 'ACCEPT' THEN 'accept' WHEN 'REJECT' THEN 'reject' ELSE 'find out first' END
    || CASE WHEN more > 0 THEN '; burst ' || more || ' more' ELSE '' END
FROM burst_decision;

SELECT 'Diameters only: an assembly is released by itself, never by a sample of diameters.';
