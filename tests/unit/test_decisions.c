/* SPDX-License-Identifier: MIT */
/* The tables of tests/agree/vectors/decisions, orders, inspections and batches, through the C functions; their folder is on the command
 * line. Expected values come from the scripts beside the tables, which do not call the library. */
#include "check.h"

#include <ctype.h>
#include <stdio.h>

enum {
    line_capacity = 8192,
    most_dies = 8,
    most_readings = 16,
    most_confirmations = 4,
    most_pieces = 64,
    most_words = 4096
};

typedef struct {
    fer_order order;
    fer_press press;
    fer_die dies[most_dies];
    fer_confirmation confirmations[most_confirmations];
    fer_reading readings[most_readings];
    fer_gauge gauge;
    fer_marks marks;
    fer_guard guard;
    fer_process process;
    fer_sample_piece pieces[most_pieces];
    fer_batch_question question;
    size_t die_count, confirmation_count, reading_count, piece_count;
} given;

typedef enum {
    a_length,
    a_ratio,
    a_pressure,
    a_force,
    an_angle,
    a_number,
    a_whole,
    a_count,
    a_word
} cell_kind;

typedef struct {
    const char *path;
    size_t offset;
    cell_kind kind;
} place;

#define PLACE(path, kind)                                                                                    \
    {                                                                                                        \
#path, offsetof(given, path), kind                                                                   \
    }
#define ITEM(type, path, kind)                                                                               \
    {                                                                                                        \
#path, offsetof(type, path), kind                                                                    \
    }

static const place places[] = {
    PLACE(order.joint.hose.inside, a_length),
    PLACE(order.joint.hose.outside, a_length),
    PLACE(order.joint.hose.reinforcement, a_length),
    PLACE(order.joint.stem.outside, a_length),
    PLACE(order.joint.stem.bore, a_length),
    PLACE(order.joint.ferrule.wall, a_length),
    PLACE(order.joint.ferrule.outside, a_length),
    PLACE(order.joint.ferrule.length, a_length),
    PLACE(order.published, a_length),
    PLACE(order.tolerance, a_length),
    PLACE(order.range.lower, a_ratio),
    PLACE(order.range.upper, a_ratio),
    PLACE(order.aim, a_ratio),
    PLACE(order.model.basis, a_word),
    PLACE(order.model.flow, a_word),
    PLACE(order.widest, a_length),
    PLACE(order.uncertainties.hose_inside.amount, a_length),
    PLACE(order.uncertainties.hose_outside.amount, a_length),
    PLACE(order.uncertainties.stem_outside.amount, a_length),
    PLACE(order.uncertainties.ferrule_wall.amount, a_length),
    PLACE(order.uncertainties.diameter.amount, a_length),
    PLACE(order.adapter_mounted, a_whole),
    PLACE(order.ferrule_metal.elastic_modulus, a_pressure),
    PLACE(order.ferrule_metal.poisson, a_ratio),
    PLACE(order.ferrule_metal.yield_strength, a_pressure),
    PLACE(order.stem_metal.elastic_modulus, a_pressure),
    PLACE(order.stem_metal.poisson, a_ratio),
    PLACE(order.stem_metal.yield_strength, a_pressure),
    PLACE(order.load.restraint, a_ratio),
    PLACE(order.load.hose_pressure, a_pressure),
    PLACE(order.minimum_bore, a_length),
    PLACE(order.applies_to, a_word),
    PLACE(order.gauge.standard_uncertainty, a_length),
    PLACE(order.gauge.correction, a_length),
    PLACE(order.gauge.resolution, a_length),
    PLACE(order.guard.factor, a_number),
    PLACE(order.guard.without, a_whole),
    PLACE(order.guard.side, a_word),
    PLACE(order.approval, a_word),
    PLACE(order.insertion, a_length),
    PLACE(order.lobe_maximum, a_length),
    PLACE(press.graduation, a_length),
    PLACE(press.correction, a_length),
    PLACE(press.correction_measured, a_whole),
    PLACE(press.dial_maximum, a_length),
    PLACE(press.opening, a_length),
    PLACE(press.capacity, a_force),
    PLACE(press.segments, a_whole),
    PLACE(gauge.standard_uncertainty, a_length),
    PLACE(gauge.correction, a_length),
    PLACE(gauge.resolution, a_length),
    PLACE(marks.gap_known, a_whole),
    PLACE(guard.factor, a_number),
    PLACE(guard.without, a_whole),
    PLACE(guard.side, a_word),
    PLACE(guard.degrees_of_freedom, a_number),
    PLACE(process.mean, a_length),
    PLACE(process.standard_deviation, a_length),
    PLACE(question.wanted.limits.lower, a_length),
    PLACE(question.wanted.limits.upper, a_length),
    PLACE(question.wanted.target, a_length),
    PLACE(question.measuring.repeatability, a_length),
    PLACE(question.measuring.common, a_length),
    PLACE(question.measuring.resolution, a_length),
    PLACE(question.guard.without, a_whole),
    PLACE(question.lot, a_count),
    PLACE(question.allowed, a_ratio),
    PLACE(question.confidence, a_ratio),
    PLACE(question.index, a_number),
    PLACE(question.burst_aim.working, a_pressure),
};

static const place die_places[] = {ITEM(fer_die, size, a_length), ITEM(fer_die, reach, a_length),
                                   ITEM(fer_die, adapter, a_whole), ITEM(fer_die, length, a_length)};
static const place piece_places[] = {ITEM(fer_sample_piece, diameter, a_length),
                                     ITEM(fer_sample_piece, group, a_whole)};
static const place reading_places[] = {
    ITEM(fer_reading, diameter, a_length), ITEM(fer_reading, section, a_whole),
    ITEM(fer_reading, angle, an_angle), ITEM(fer_reading, angle_known, a_whole)};
static const place confirmation_places[] = {
    ITEM(fer_confirmation, remark, a_word), ITEM(fer_confirmation, target, a_length),
    ITEM(fer_confirmation, tolerance, a_length), ITEM(fer_confirmation, die, a_length),
    ITEM(fer_confirmation, compression, a_ratio)};

/* ---- words ------------------------------------------------------------------------------------------------- */

/* A name as the tables write it. */
static void write_plain(const char *name, char *plain)
{
    while (*name) {
        *plain++ = *name == '_' ? ' ' : (char)tolower((unsigned char)*name);
        name++;
    }
    *plain = '\0';
}

static const struct {
    const char *member, *word;
    int number;
} other_words[] = {
    {"basis", "area", FER_BASIS_AREA},
    {"basis", "soft wall", FER_BASIS_SOFT_WALL},
    {"flow", "ends fixed", FER_FLOW_ENDS_FIXED},
    {"side", "lower", FER_SIDE_LOWER},
    {"side", "upper", FER_SIDE_UPPER},
    {"applies_to", "every reading", FER_APPLIES_TO_EVERY_READING},
    {"applies_to", "section means", FER_APPLIES_TO_SECTION_MEANS},
    {"applies_to", "mean", FER_APPLIES_TO_MEAN},
    {"approval", "approved", FER_APPROVAL_APPROVED},
    {"approval", "not approved", FER_APPROVAL_NOT_APPROVED},
    {"approval", "not stated", FER_APPROVAL_NOT_STATED},
};

static int number_of_word(const char *path, const char *word)
{
    char plain[most_words];
    const char *dot = strrchr(path, '.'), *member = dot ? dot + 1 : path;
    for (size_t i = 0; i < sizeof other_words / sizeof *other_words; i++) {
        if (strcmp(member, other_words[i].member) == 0 && strcmp(word, other_words[i].word) == 0) {
            return other_words[i].number;
        }
    }
    for (int i = 0; strcmp(member, "remark") == 0 && i < FER_REMARK_COUNT; i++) {
        write_plain(fer_remark_name((fer_remark)i), plain);
        if (strcmp(word, plain) == 0) {
            return i;
        }
    }
    fail_msg("%s: a word that is not known here: %s", path, word);
    return 0;
}

typedef const char *name_of(int number);

static const char *name_of_remark(int number)
{
    return fer_remark_name((fer_remark)number);
}

static const char *name_of_finding(int number)
{
    return fer_finding_name((fer_finding)number);
}

static const char *name_of_batch_finding(int number)
{
    return fer_batch_finding_name((fer_batch_finding)number);
}

/* The words of a set, in the order of their numbers. */
static void write_set(uint64_t bits, name_of *name, char *words)
{
    *words = '\0';
    for (int i = 0; i < 64; i++) {
        if (bits >> i & 1u) {
            strcat(words, *words ? ", " : "");
            write_plain(name(i), words + strlen(words));
        }
    }
}

/* ---- cells ------------------------------------------------------------------------------------------------- */

static double quantity(const char *text, cell_kind kind)
{
    fer_length length = {0};
    fer_ratio ratio = {0};
    fer_pressure pressure = {0};
    fer_force force = {0};
    fer_angle angle = {0};
    const size_t size = strlen(text);
    size_t stop;
    switch (kind) {
    case a_length:
        CHECK_OK(fer_parse_length(text, size, &length, &stop));
        return length.mm;
    case a_ratio:
        CHECK_OK(fer_parse_ratio(text, size, &ratio, &stop));
        return ratio.fraction;
    case a_pressure:
        CHECK_OK(fer_parse_pressure(text, size, &pressure, &stop));
        return pressure.mpa;
    case a_force:
        CHECK_OK(fer_parse_force(text, size, &force, &stop));
        return force.newton;
    case an_angle:
        CHECK_OK(fer_parse_angle(text, size, &angle, &stop));
        return angle.rad;
    default:
        return atof(text);
    }
}

static void store(void *base, const place *table, size_t count, const char *path, const char *text)
{
    for (size_t i = 0; i < count; i++) {
        char *at = (char *)base + table[i].offset;
        if (strcmp(table[i].path, path) != 0) {
            continue;
        }
        if (table[i].kind == a_whole || table[i].kind == a_word) {
            const int number = table[i].kind == a_word     ? number_of_word(path, text)
                               : strcmp(text, "true") == 0 ? 1
                                                           : atoi(text);
            memcpy(at, &number, sizeof number);
        } else if (table[i].kind == a_count) {
            const size_t number = (size_t)atoi(text);
            memcpy(at, &number, sizeof number);
        } else {
            const double number = quantity(text, table[i].kind);
            memcpy(at, &number, sizeof number);
        }
        return;
    }
    fail_msg("a name that is not known here: %s", path);
}

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* `dies.N.size` and its like; the count becomes N + 1. 0: not an item of this list. */
static int store_item(const char *list, char *path, const char *text, void *items, size_t size, size_t *count,
                      const place *table, size_t table_count)
{
    const size_t length = strlen(list);
    if (strncmp(path, list, length) != 0 || path[length] != '.') {
        return 0;
    }
    const size_t index = (size_t)atoi(path + length + 1);
    *count = index + 1 > *count ? index + 1 : *count;
    store((char *)items + index * size, table, table_count, strchr(path + length + 1, '.') + 1, text);
    return 1;
}

static void store_named(given *in, char *path, const char *text)
{
    if (!store_item("dies", path, text, in->dies, sizeof *in->dies, &in->die_count, die_places,
                    COUNT(die_places)) &&
        !store_item("readings", path, text, in->readings, sizeof *in->readings, &in->reading_count,
                    reading_places, COUNT(reading_places)) &&
        !store_item("pieces", path, text, in->pieces, sizeof *in->pieces, &in->piece_count, piece_places,
                    COUNT(piece_places)) &&
        !store_item("confirmations", path, text, in->confirmations, sizeof *in->confirmations,
                    &in->confirmation_count, confirmation_places, COUNT(confirmation_places))) {
        store(in, places, COUNT(places), path, text);
    }
}

static void read_arguments(char *cell, given *in)
{
    for (char *item = *cell ? cell : NULL; item;) {
        char *next = strstr(item, "; ");
        if (next) {
            *next = '\0';
            next += 2;
        }
        char *equals = strchr(item, '=');
        assert_non_null(equals);
        *equals = '\0';
        store_named(in, item, equals + 1);
        item = next;
    }
}

/* Splits a line of CSV in place; a quoted cell may hold commas. */
static void split_cells(char *line, char **cells, int count)
{
    line[strcspn(line, "\r\n")] = '\0';
    for (int i = 0; i < count; i++) {
        assert_non_null(line);
        const int quoted = *line == '"';
        cells[i] = line + quoted;
        char *end = quoted ? strchr(line + 1, '"') : strchr(line, ',');
        if (end) {
            *end = '\0';
        }
        line = end ? end + 1 + quoted : NULL;
    }
}

/* ---- rows -------------------------------------------------------------------------------------------------- */

static void check_words(const char *what, const char *found, const char *expected, const char *source)
{
    if (strcmp(found, expected) != 0) {
        fail_msg("%s: %s is \"%s\", not \"%s\"", source, what, found, expected);
    }
}

static fer_setup plan(const given *in)
{
    fer_setup setup;
    CHECK_OK(fer_plan_setup(&in->order, &in->press, in->dies, in->die_count, &setup));
    return setup;
}

/* `status NAME`, `empty`, or `A to B`. */
static void check_zone(const fer_found_zone *zone, char *expected, const char *source)
{
    char *to = strstr(expected, " to ");
    if (strncmp(expected, "status ", 7) == 0) {
        check_words("status of the zone", fer_status_name(zone->status), expected + 7, source);
        return;
    }
    CHECK_OK(zone->status);
    assert_int_equal(zone->value.empty, to == NULL);
    if (to) {
        *to = '\0';
        CHECK_NEAR(zone->value.accept.lower.mm, quantity(expected, a_length), 1e-6);
        CHECK_NEAR(zone->value.accept.upper.mm, quantity(to + 4, a_length), 1e-6);
    }
}

static void check_order(char *line)
{
    enum { arguments, confirmations, readiness, remarks, confirmed, zone, source, columns };
    char *cells[columns], words[most_words];
    given in;
    memset(&in, 0, sizeof in);
    split_cells(line, cells, columns);
    read_arguments(cells[arguments], &in);
    read_arguments(cells[confirmations], &in);
    fer_setup setup = plan(&in);
    CHECK_OK(fer_confirm_setup(&setup, in.confirmations, in.confirmation_count, &setup));
    write_plain(fer_readiness_name(setup.readiness), words);
    check_words("readiness", words, cells[readiness], cells[source]);
    write_set(setup.remarks.bits, name_of_remark, words);
    check_words("remarks", words, cells[remarks], cells[source]);
    write_set(setup.confirmed.bits, name_of_remark, words);
    check_words("confirmed", words, cells[confirmed], cells[source]);
    check_zone(&setup.zone, cells[zone], cells[source]);
}

static const char *const decisions[] = {"undecided", "accept", "reject"};

static void check_inspection(char *line)
{
    enum { order, arguments, decision, findings, worst, source, columns };
    char *cells[columns], words[most_words];
    given in;
    fer_inspection inspection;
    memset(&in, 0, sizeof in);
    split_cells(line, cells, columns);
    read_arguments(cells[order], &in);
    read_arguments(cells[arguments], &in);
    const fer_setup setup = plan(&in);
    CHECK_OK(fer_inspect_crimp(&setup, in.readings, in.reading_count, &in.gauge, in.marks, in.guard,
                               in.process, &inspection));
    check_words("decision", decisions[inspection.decision], cells[decision], cells[source]);
    write_set(inspection.findings.bits, name_of_finding, words);
    check_words("findings", words, cells[findings], cells[source]);
    CHECK_NEAR(inspection.worst.mm, quantity(cells[worst], a_length), 1e-6);
}

static void check_batch(char *line)
{
    enum { arguments, decision, findings, more_pieces, source, columns };
    char *cells[columns], words[most_words];
    given in;
    fer_batch_answer answer;
    memset(&in, 0, sizeof in);
    split_cells(line, cells, columns);
    read_arguments(cells[arguments], &in);
    assert_true(in.piece_count <= most_pieces);
    CHECK_OK(fer_judge_batch(in.pieces, in.piece_count, &in.question, &answer));
    check_words("decision", decisions[answer.decision], cells[decision], cells[source]);
    write_set(answer.findings.bits, name_of_batch_finding, words);
    check_words("findings", words, cells[findings], cells[source]);
    assert_int_equal(answer.more_pieces, atoi(cells[more_pieces]));
}

/* ---- tables ------------------------------------------------------------------------------------------------ */

static const char *folder;

static void check_table(const char *name, void (*check)(char *line), int least)
{
    char line[line_capacity];
    int lines = 0;
    snprintf(line, sizeof line, "%s/%s", folder, name);
    FILE *file = fopen(line, "r");
    assert_non_null(file);
    assert_non_null(fgets(line, sizeof line, file)); /* header */
    while (fgets(line, sizeof line, file)) {
        lines++;
        check(line);
    }
    fclose(file);
    assert_true(lines >= least);
}

static void orders_may_be_crimped_or_not(void **state)
{
    (void)state;
    check_table("orders.csv", check_order, 60);
}

static void diameters_are_accepted_or_not(void **state)
{
    (void)state;
    check_table("inspections.csv", check_inspection, 60);
}

static void batches_are_accepted_or_not(void **state)
{
    (void)state;
    check_table("batches.csv", check_batch, 50);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(orders_may_be_crimped_or_not),
                                       cmocka_unit_test(diameters_are_accepted_or_not),
                                       cmocka_unit_test(batches_are_accepted_or_not)};
    folder = argc > 1 ? argv[1] : ".";
    return cmocka_run_group_tests(tests, NULL, NULL);
}
