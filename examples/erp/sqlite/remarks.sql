-- SPDX-License-Identifier: MIT
-- What to check on an order, and which cautions go with it: one row per remark.
CREATE VIEW remarks AS
SELECT order_number, r.key AS place, r.value AS remark, fer_remark_sentence(r.value) AS sentence
FROM set_up_sheet CROSS JOIN json_each(remarks) AS r;

CREATE VIEW cautions AS
SELECT order_number, c.value AS caution, fer_caution_text(c.value) AS sentence
FROM set_up_sheet CROSS JOIN json_each(cautions) AS c;
