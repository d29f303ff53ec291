/* SPDX-License-Identifier: MIT */
#include "check.h"

static const fer_status all[] = {
#define STATUS(name, number, about, sentence) FER_##name,
    FER_STATUS_LIST(STATUS)
#undef STATUS
};
enum { count = sizeof all / sizeof *all };

static void names_and_sentences_are_there_and_differ(void **state)
{
    (void)state;
    for (size_t i = 0; i < count; i++) {
        assert_true(strlen(fer_status_name(all[i])) > 1);
        assert_true(strlen(fer_status_sentence(all[i])) > 7);
        for (size_t j = 0; j < i; j++) {
            assert_true(all[i] != all[j]);
            assert_string_not_equal(fer_status_name(all[i]), fer_status_name(all[j]));
        }
    }
}

static void success_is_zero(void **state)
{
    (void)state;
    assert_int_equal(FER_OK, 0);
    assert_string_equal(fer_status_name(FER_OK), "OK");
    assert_string_equal(fer_status_sentence(FER_OK), "no error");
}

static void a_status_says_quantity_and_rule(void **state)
{
    (void)state;
    assert_string_equal(fer_status_name(FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE), "HOSE_OUTSIDE_NOT_ABOVE_INSIDE");
    assert_string_equal(fer_status_sentence(FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE),
                        "hose outside diameter is not above its inside diameter");
}

/* ---- the figures in a sentence are those of its check ----------------------------------------------------------- */

static fer_status check_graduation(double x)
{
    const fer_press press = {{x}, {0}, {0}, {0}, {0}, 0, 0};
    return fer_check_press(&press);
}

static fer_status check_correction(double x)
{
    const fer_press press = {{0}, {x}, {0}, {0}, {0}, 0, 0};
    return fer_check_press(&press);
}

static fer_status check_dial_maximum(double x)
{
    fer_press press = {0};
    press.dial_maximum.mm = x;
    return fer_check_press(&press);
}

static fer_status check_opening(double x)
{
    fer_press press = {0};
    press.opening.mm = x;
    return fer_check_press(&press);
}

static fer_status check_segments(double x)
{
    fer_press press = {0};
    press.segments = (int)x;
    return fer_check_press(&press);
}

static fer_status summarise(fer_gauge gauge, double diameter, int section)
{
    const fer_reading reading = {{diameter}, section, {0}, 0};
    const fer_marks marks = {0};
    fer_reading_summary summary;
    return fer_summarise_readings(&reading, 1, &gauge, marks, &summary);
}

static fer_status check_gauge_correction(double x)
{
    const fer_gauge gauge = {{0}, {x}, {0}};
    return summarise(gauge, 200.0, 0);
}

static fer_status check_gauge_resolution(double x)
{
    const fer_gauge gauge = {{0}, {0}, {x}};
    return summarise(gauge, 200.0, 0);
}

static fer_status check_section(double x)
{
    const fer_gauge gauge = {0};
    return summarise(gauge, 200.0, (int)x);
}

static fer_status check_guard(double x)
{
    const fer_guard guard = {x, 0, FER_SIDE_BOTH, 0.0};
    const fer_length_range limits = {{23.0}, {24.0}};
    fer_acceptance_zone zone;
    return fer_find_acceptance_zone(limits, fer_mm(0.01), guard, &zone);
}

static fer_status check_gain(double x)
{
    const fer_dial_scale scale = {0};
    fer_adjusting adjusting = {0};
    fer_outlook outlook;
    adjusting.crimp_deviation = adjusting.setting_deviation = fer_mm(0.1);
    adjusting.gain.fraction = x;
    return fer_expected_deviation(&scale, 1, adjusting, &outlook);
}

/* The next figure of a sentence, such as -100 or 1,000,000; where it ends, NULL behind the last. */
static const char *next_figure(const char *at, double *figure)
{
    while (*at && !(*at >= '0' && *at <= '9')) {
        at++;
    }
    if (!*at) {
        return NULL;
    }
    char digits[32] = {0};
    size_t length = 0;
    if (at[-1] == '-') {
        digits[length++] = '-';
    }
    for (; (*at >= '0' && *at <= '9') || *at == '.' || (*at == ',' && at[1] >= '0' && at[1] <= '9'); at++) {
        if (*at != ',') {
            digits[length++] = *at;
        }
    }
    *figure = strtod(digits, NULL);
    return at;
}

/* Every figure that a sentence names may be given; below and above its last two, nothing may. */
static void figures_of_a_sentence_are_those_of_its_check(void **state)
{
    (void)state;
    const struct {
        fer_status status;
        fer_status (*check)(double x);
        int whole;
    } rows[] = {
        {FER_PRESS_GRADUATION_OUT_OF_RANGE, check_graduation, 0},
        {FER_PRESS_CORRECTION_OUT_OF_RANGE, check_correction, 0},
        {FER_PRESS_DIAL_RANGE_OUT_OF_RANGE, check_dial_maximum, 0},
        {FER_PRESS_OPENING_OUT_OF_RANGE, check_opening, 0},
        {FER_PRESS_SEGMENTS_OUT_OF_RANGE, check_segments, 1},
        {FER_GAUGE_CORRECTION_OUT_OF_RANGE, check_gauge_correction, 0},
        {FER_GAUGE_RESOLUTION_OUT_OF_RANGE, check_gauge_resolution, 0},
        {FER_READING_SECTION_OUT_OF_RANGE, check_section, 1},
        {FER_GUARD_OUT_OF_RANGE, check_guard, 0},
        {FER_ADJUSTING_GAIN_OUT_OF_RANGE, check_gain, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double figure = NAN, last[2] = {NAN, NAN};
        for (const char *at = fer_status_sentence(rows[i].status); (at = next_figure(at, &figure)) != NULL;) {
            CHECK_OK(rows[i].check(figure));
            last[0] = last[1];
            last[1] = figure;
        }
        assert_true(last[0] < last[1]);
        CHECK_STATUS(rows[i].check(rows[i].whole ? last[0] - 1.0 : nextafter(last[0], -INFINITY)),
                     rows[i].status);
        CHECK_STATUS(rows[i].check(rows[i].whole ? last[1] + 1.0 : nextafter(last[1], INFINITY)),
                     rows[i].status);
    }
}

static void an_unknown_number_is_said_to_be_unknown(void **state)
{
    (void)state;
    assert_string_equal(fer_status_name((fer_status)9999), "UNKNOWN");
    assert_string_equal(fer_status_sentence((fer_status)9999), "this number is not a status of this library");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_and_sentences_are_there_and_differ),
        cmocka_unit_test(success_is_zero),
        cmocka_unit_test(a_status_says_quantity_and_rule),
        cmocka_unit_test(figures_of_a_sentence_are_those_of_its_check),
        cmocka_unit_test(an_unknown_number_is_said_to_be_unknown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
