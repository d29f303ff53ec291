-- SPDX-License-Identifier: MIT
-- What stands in the way of an order, the gravest first: one row for each remark, with who confirmed it; and its cautions.
CREATE VIEW remarks AS
SELECT s.order_number, r.key AS place, r.value AS remark, fer_remark_severity(r.value) AS severity, fer_remark_sentence(r.value) AS sentence,
    CASE WHEN fer_remark_severity(r.value) = 'CONFIRM' THEN coalesce(c.state, 'open') END AS state, c.name, c.day
FROM set_up_sheet AS s CROSS JOIN json_each(s.remarks) AS r
LEFT JOIN confirmation_states AS c ON c.order_number = s.order_number AND c.remark = r.value AND c.state <> 'not needed';

CREATE VIEW cautions AS
SELECT order_number, c.value AS caution, fer_caution_text(c.value) AS sentence
FROM set_up_sheet CROSS JOIN json_each(cautions) AS c;
