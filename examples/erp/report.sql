-- SPDX-License-Identifier: MIT
-- The set-up sheet and the verdicts as text, the same in both databases.

SELECT 'Order ' || order_number || ', ' || machine || ', ' || pieces || ' pieces of ' || joint || ': '
    || CASE
        WHEN status <> 'OK' THEN fer_status_sentence(status)
        WHEN die IS NULL THEN 'target ' || fer_mm_text(target_mm, 2) || ', and no die for it: ' || fer_mm_text(die_buy_lower_mm, 2)
            || ' to ' || fer_mm_text(die_buy_upper_mm, 2) || ' would do'
        ELSE 'target ' || fer_mm_text(target_mm, 2) || ' (' || lower(source) || '), accept '
            || coalesce(fer_mm_text(limits_lower_mm, 2) || ' to ' || fer_mm_text(limits_upper_mm, 2), 'not known')
            || ', die ' || die || ', dial ' || coalesce(fer_mm_text(dial_setting_mm, 2), 'cannot be set') || ', compression '
            || coalesce(fer_percent_text(fer_percent_of_fraction(plain_fraction), 1), 'not known')
    END
FROM set_up_sheet ORDER BY order_number;

SELECT 'Piece ' || piece || ' of order ' || order_number || ', ' || gauge || ': ' || fer_mm_text(mean_mm, 3) || ', '
    || CASE WHEN deviation_mm < 0 THEN fer_mm_text(-deviation_mm, 3) || ' below' ELSE fer_mm_text(deviation_mm, 3) || ' above' END
    || ' the target: ' || coalesce(lower(decision), 'no limits') || coalesce(', conforming with '
    || fer_percent_text(fer_percent_of_fraction(conforming_fraction), 1), '')
FROM verdicts ORDER BY order_number, piece;

SELECT 'Order ' || order_number || ': ' || sentence FROM remarks ORDER BY order_number, place;

SELECT 'Caution: ' || sentence FROM cautions GROUP BY sentence ORDER BY min(order_number), sentence;
