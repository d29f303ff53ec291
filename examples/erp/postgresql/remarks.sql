-- SPDX-License-Identifier: MIT
-- What stands in the way of an order, the gravest first: one row for each remark, with who confirmed it; and its cautions.
CREATE VIEW remarks AS
SELECT s.order_number, r.place AS place, r.remark AS remark, fer_remark_severity(r.remark) AS severity, fer_remark_sentence(r.remark) AS sentence,
    CASE WHEN fer_remark_severity(r.remark) = 'CONFIRM' THEN coalesce(c.state, 'open') END AS state, c.name, c.day
FROM set_up_sheet AS s CROSS JOIN json_array_elements_text(s.remarks) WITH ORDINALITY AS r(remark, place)
LEFT JOIN confirmation_states AS c ON c.order_number = s.order_number AND c.remark = r.remark AND c.state <> 'not needed';

CREATE VIEW cautions AS
SELECT order_number, c.caution AS caution, fer_caution_text(c.caution) AS sentence
FROM set_up_sheet CROSS JOIN json_array_elements_text(cautions) AS c(caution);
