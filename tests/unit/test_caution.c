/* SPDX-License-Identifier: MIT */
#include "check.h"

static void every_caution_has_a_name_and_a_text(void **state)
{
    (void)state;
    assert_int_equal(FER_CAUTION_COUNT, 6);
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_caution_has_a_name_and_a_text),
        cmocka_unit_test(an_unknown_number_is_said_to_be_unknown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
