-- SPDX-License-Identifier: MIT
-- The tables of this folder as they are written, every cell as text; views.sql reads them. For SQLite and PostgreSQL alike.

CREATE TABLE batch_rows (order_name text, parts text, crimps text, target text, lower_limit text, upper_limit text, outside text,
    confidence text, index_asked text, working_pressure text, burst_multiple text);
CREATE TABLE gauge_rows (gauge text, resolution text, block_uncertainty text, expansion text);
CREATE TABLE crimp_rows (piece text, made text, press text, die text, person text, diameter text);
CREATE TABLE study_rows (part text, person text, diameter text);
CREATE TABLE block_rows (block text, reading text);
CREATE TABLE burst_rows (piece text, pressure text, burst text);
