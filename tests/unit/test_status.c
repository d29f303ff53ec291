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
        cmocka_unit_test(an_unknown_number_is_said_to_be_unknown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
