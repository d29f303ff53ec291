-- SPDX-License-Identifier: MIT
-- The set-up sheet, remarks, verdicts and releases as text, the same in both databases.

SELECT 'Order ' || order_number || ', ' || machine || ', ' || pieces || ' pieces of ' || joint || ': ' || replace(readiness, '_', ' ')
    || ': ' || readiness_sentence
    || CASE WHEN status <> 'OK' THEN '; ' || fer_status_sentence(status) ELSE
        CASE WHEN die IS NOT NULL THEN '; adapter ' || CASE adapter WHEN 0 THEN 'none' ELSE 'set ' || adapter END || ', die ' || die || ', dial '
            || fer_mm_text(dial_setting_mm, dial_decimals) || CASE WHEN springback_taken_off THEN ', springback taken off' ELSE '' END || ', accept '
            || coalesce(fer_mm_text(zone_lower_mm, 4) || ' to ' || fer_mm_text(zone_upper_mm, 4) || ' by ' || gauge, 'nothing yet')
        WHEN die_buy_lower_mm IS NOT NULL THEN '; a die of ' || fer_mm_text(die_buy_lower_mm, 2) || ' to '
            || fer_mm_text(die_buy_upper_mm, 2) || ' would do'
        ELSE '' END
        || '; target ' || fer_mm_text(target_mm, 2) || ' (' || lower(source) || '), compression '
        || coalesce(fer_percent_text(fer_percent_of_fraction(compression_fraction), 1) || ' (' || lower(compression_source) || ')', 'not known')
    END
FROM set_up_sheet ORDER BY order_number;

SELECT 'Order ' || order_number || ', ' || replace(severity, '_', ' ')
    || CASE state WHEN 'taken' THEN ', confirmed by ' || name || ', ' || day WHEN 'void' THEN ', not confirmed, void: ' || name || ', ' || day
        WHEN 'open' THEN ', not confirmed' ELSE '' END || ': ' || sentence
FROM remarks ORDER BY order_number, place;

SELECT 'Piece ' || piece || ' of order ' || order_number || ', ' || gauge || ': '
    || CASE WHEN decision IS NULL THEN 'not judged: ' || why_not ELSE fer_mm_text(mean_mm, 3) || ', '
        || CASE WHEN deviation_mm < 0 THEN fer_mm_text(-deviation_mm, 3) || ' below' ELSE fer_mm_text(deviation_mm, 3) || ' above' END
        || ' the target, diameter: ' || lower(decision) || ', conforming with ' || conforming_text END
FROM verdicts ORDER BY order_number, piece;

SELECT 'First piece of order ' || order_number || ': ' || CASE WHEN rest_allowed THEN 'accepted, the rest may be crimped'
    ELSE 'not accepted, crimp nothing more' END
FROM first_pieces ORDER BY order_number;

SELECT 'First piece of order ' || order_number || ': ' || sentence FROM first_piece_points ORDER BY order_number, place;

SELECT 'Assembly ' || assembly || ' of order ' || order_number || ': ' || fer_disposition_sentence(result ->> 'decision')
FROM releases ORDER BY order_number, assembly;

SELECT 'Assembly ' || assembly || ' of order ' || order_number || ': ' || sentence
FROM open_points ORDER BY order_number, assembly, part, place;

SELECT 'Caution: ' || sentence FROM cautions GROUP BY sentence ORDER BY min(order_number), sentence;
