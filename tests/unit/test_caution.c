/* SPDX-License-Identifier: MIT */
#include "check.h"

static void every_caution_has_a_name_and_a_text(void **state)
{
    (void)state;
    assert_int_equal(FER_CAUTION_COUNT, 16);
    for (int i = 0; i < FER_CAUTION_COUNT; i++) {
        const char *text = fer_caution_text((fer_caution)i);
        assert_true(strlen(fer_caution_name((fer_caution)i)) > 3);
        assert_true(strlen(text) > 30 && text[strlen(text) - 1] == '.');
    }
    assert_string_equal(fer_caution_name(FER_CAUTION_OIL_UNDER_PRESSURE), "OIL_UNDER_PRESSURE");
    assert_non_null(strstr(fer_caution_text(FER_CAUTION_OIL_UNDER_PRESSURE), "never feel for a leak"));
}

static void an_unknown_number_is_said_to_be_unknown(void **state)
{
    (void)state;
    assert_string_equal(fer_caution_name(FER_CAUTION_COUNT), "UNKNOWN");
    assert_string_equal(fer_caution_name((fer_caution)999), "UNKNOWN");
    assert_string_equal(fer_caution_text((fer_caution)999), "");
    assert_string_equal(fer_caution_text(FER_CAUTION_COUNT), "");
    assert_string_equal(fer_caution_name((fer_caution)-1), "UNKNOWN");
}

#define CAUTION(name) (UINT64_C(1) << FER_CAUTION_##name)

static uint64_t at(fer_stage stage)
{
    return fer_stage_cautions(stage).bits;
}

/* Each caution stands after the call after which it matters (common practice, no source; ISO/TS 17165-2, ISO 4413, SAE
 * J1273, DGUV Regel 113-020: from memory). */
static void each_caution_stands_where_it_matters(void **state)
{
    (void)state;
    assert_int_equal(at(FER_STAGE_PLANNING), CAUTION(MANUFACTURERS_DATA_FIRST) |
                                                 CAUTION(APPROVED_PARTS_ONLY) | CAUTION(CLOSING_DIES) |
                                                 CAUTION(APPROVED_TOOLS) | CAUTION(INSERTION_FIRST) |
                                                 CAUTION(LONG_PARTS_TURN) | CAUTION(OTHERS_AWAY) |
                                                 CAUTION(NEVER_CRIMP_TWICE) | CAUTION(LAW_AND_LICENCE));
    assert_int_equal(at(FER_STAGE_TRIAL), CAUTION(NEW_PIECE_EACH_TRIAL) | CAUTION(NEVER_CRIMP_TWICE) |
                                              CAUTION(CLOSING_DIES) | CAUTION(OTHERS_AWAY) |
                                              CAUTION(LAW_AND_LICENCE));
    assert_int_equal(at(FER_STAGE_PRESSURE), CAUTION(OIL_UNDER_PRESSURE) | CAUTION(INJECTED_FLUID) |
                                                 CAUTION(HOSE_WHIPS) | CAUTION(PROOF_TEST) |
                                                 CAUTION(LAW_AND_LICENCE));
    assert_int_equal(at(FER_STAGE_HOLD), CAUTION(KEEP_APART) | CAUTION(NEVER_CRIMP_TWICE));
    assert_int_equal(at(FER_STAGE_FAILURE), CAUTION(SCRAP_NOT_REPAIR) | CAUTION(NEVER_CRIMP_TWICE));
}

/* No caution is in the list and given by no call; a stage that nobody knows gets them all. */
static void no_caution_is_forgotten(void **state)
{
    (void)state;
    const uint64_t all = (UINT64_C(1) << FER_CAUTION_COUNT) - 1;
    uint64_t given = 0;
    for (int i = 0; i < FER_STAGE_COUNT; i++) {
        given |= at((fer_stage)i);
    }
    assert_int_equal(given, all);
    assert_int_equal(at(FER_STAGE_COUNT), all);
    assert_int_equal(at((fer_stage)-1), all);
    assert_int_equal(at((fer_stage)999), all);
}

static const char *text_of(fer_caution caution, const char *words)
{
    return strstr(fer_caution_text(caution), words);
}

/* What must not be lost when a text is worded anew. */
static void cautions_say_what_matters(void **state)
{
    (void)state;
    assert_non_null(text_of(FER_CAUTION_INJECTED_FLUID, "hospital at once, however small"));
    assert_non_null(text_of(FER_CAUTION_HOSE_WHIPS, "restrain it"));
    assert_non_null(text_of(FER_CAUTION_OIL_UNDER_PRESSURE, "Release the pressure before you touch"));
    assert_non_null(text_of(FER_CAUTION_PROOF_TEST, "with liquid, the air bled out, behind a guard"));
    assert_non_null(text_of(FER_CAUTION_NEVER_CRIMP_TWICE, "a second time"));
    assert_non_null(text_of(FER_CAUTION_NEVER_CRIMP_TWICE, "nor used hose"));
    assert_non_null(text_of(FER_CAUTION_CLOSING_DIES, "hold nothing in them"));
    assert_non_null(text_of(FER_CAUTION_CLOSING_DIES, "isolate the press before you reach in"));
    assert_non_null(text_of(FER_CAUTION_APPROVED_TOOLS, "manufacturer of the coupling approves"));
    assert_non_null(text_of(FER_CAUTION_OTHERS_AWAY, "pedal"));
    for (int i = 0; i < FER_CAUTION_COUNT; i++) { /* one of them only asks to cut something up */
        assert_int_equal(text_of((fer_caution)i, "Cut up") != NULL, i == FER_CAUTION_SCRAP_NOT_REPAIR);
    }
}

static void stages_have_words(void **state)
{
    (void)state;
    const char *const names[] = {"PLANNING", "TRIAL", "PRESSURE", "HOLD", "FAILURE"};
    for (int i = 0; i < FER_STAGE_COUNT; i++) {
        assert_string_equal(fer_stage_name((fer_stage)i), names[i]);
        assert_true(strlen(fer_stage_sentence((fer_stage)i)) > 20);
    }
    assert_string_equal(fer_stage_name(FER_STAGE_COUNT), "UNKNOWN");
    assert_string_equal(fer_stage_name((fer_stage)-1), "UNKNOWN");
    assert_string_equal(fer_stage_sentence(FER_STAGE_COUNT), "");
    assert_string_equal(fer_stage_sentence((fer_stage)99), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_caution_has_a_name_and_a_text),
        cmocka_unit_test(an_unknown_number_is_said_to_be_unknown),
        cmocka_unit_test(each_caution_stands_where_it_matters),
        cmocka_unit_test(no_caution_is_forgotten),
        cmocka_unit_test(cautions_say_what_matters),
        cmocka_unit_test(stages_have_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
