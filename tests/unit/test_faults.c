/* SPDX-License-Identifier: MIT */
#include "check.h"

enum { most = 200 };

typedef struct {
    fer_order order;
    fer_press press;
    fer_die dies[4];
} inputs;

/* Invented, with everything given that may be. */
static inputs all_given(void)
{
    inputs all = {0};
    fer_order *order = &all.order;
    const fer_material steel = {{206000.0}, {0.3}, {300.0}, {500.0}};
    const fer_uncertainty known = {{0.02}, FER_DISTRIBUTION_NORMAL, 9.0};
    order->joint = worked_joint();
    order->joint.hose.reinforcement = fer_mm(1.2);
    order->joint.stem.bore = fer_mm(9.0);
    order->joint.ferrule.length = fer_mm(28.0);
    order->tolerance = fer_mm(0.15);
    order->ferrule_metal = order->stem_metal = steel;
    order->uncertainties.hose_inside = order->uncertainties.diameter = known;
    all.press.graduation = fer_mm(0.1);
    for (int i = 0; i < 4; i++) {
        all.dies[i].size = fer_mm(16.0 + 3.0 * i);
    }
    return all;
}

static size_t check(const inputs *all, fer_fault faults[most])
{
    size_t found = 77;
    CHECK_OK(fer_check_order(&all->order, &all->press, all->dies, 4, faults, most, &found));
    return found;
}

/* What the set-up refuses is the first fault, and it refuses nothing else. */
static void check_with_plan(const inputs *all, const fer_fault faults[most], size_t found)
{
    fer_setup setup;
    const fer_status status = fer_plan_setup(&all->order, &all->press, all->dies, 4, &setup);
    if (status != (found ? faults[0].status : FER_OK)) {
        fail_msg("the set-up says %s, and the first of %zu faults is %s", fer_status_name(status), found,
                 found ? fer_status_name(faults[0].status) : "none");
    }
}

/* ---- one fault ------------------------------------------------------------------------------------------- */

#define NUMBER(member, value, status, path)                                                                  \
    {                                                                                                        \
        offsetof(inputs, member), 0, value, 0, FER_##status, path, 0                                         \
    }
#define WHOLE(member, value, status, path)                                                                   \
    {                                                                                                        \
        offsetof(inputs, member), 1, 0.0, value, FER_##status, path, 0                                       \
    }
#define OF_DIE(place, member, value, status, path)                                                           \
    {                                                                                                        \
        offsetof(inputs, dies) + (place) * sizeof(fer_die) + offsetof(fer_die, member), 0, value, 0,         \
            FER_##status, path, place                                                                        \
    }
#define UNCERTAINTY(member)                                                                                  \
    NUMBER(order.uncertainties.member.amount, -0.1, UNCERTAINTY_AMOUNT_OUT_OF_RANGE,                         \
           "uncertainties." #member ".amount"),                                                              \
        WHOLE(order.uncertainties.member.distribution, 9, UNCERTAINTY_DISTRIBUTION_UNKNOWN,                  \
              "uncertainties." #member ".distribution"),                                                     \
        NUMBER(order.uncertainties.member.degrees_of_freedom, 0.5, UNCERTAINTY_DEGREES_OUT_OF_RANGE,         \
               "uncertainties." #member ".degrees_of_freedom")
#define METAL(metal)                                                                                         \
    NUMBER(order.metal.elastic_modulus, 0.0, MATERIAL_MODULUS_MISSING, #metal ".elastic_modulus"),           \
        NUMBER(order.metal.elastic_modulus, 999.0, MATERIAL_MODULUS_OUT_OF_RANGE,                            \
               #metal ".elastic_modulus"),                                                                   \
        NUMBER(order.metal.poisson, 0.5, MATERIAL_POISSON_OUT_OF_RANGE, #metal ".poisson"),                  \
        NUMBER(order.metal.yield_strength, 0.0, MATERIAL_YIELD_STRENGTH_MISSING, #metal ".yield_strength"),  \
        NUMBER(order.metal.yield_strength, INFINITY, MATERIAL_YIELD_STRENGTH_OUT_OF_RANGE,                   \
               #metal ".yield_strength"),                                                                    \
        NUMBER(order.metal.yield_strength, 1031.0, MATERIAL_YIELD_STRENGTH_OUT_OF_RANGE,                     \
               #metal ".yield_strength"),                                                                    \
        NUMBER(order.metal.hardening, -1.0, MATERIAL_HARDENING_OUT_OF_RANGE, #metal ".hardening"),           \
        NUMBER(order.metal.hardening, 1501.0, MATERIAL_HARDENING_OUT_OF_RANGE, #metal ".hardening")

/* A member, what is written into it, and the one fault that it makes: rules stated in the headers. */
static const struct {
    size_t at;
    int is_whole;
    double number;
    int whole;
    fer_status status;
    const char *path;
    size_t die;
} single[] = {
    NUMBER(order.joint.hose.inside, 0.0, HOSE_INSIDE_MISSING, "joint.hose.inside"),
    NUMBER(order.joint.hose.inside, NAN, HOSE_INSIDE_OUT_OF_RANGE, "joint.hose.inside"),
    NUMBER(order.joint.hose.outside, 0.0, HOSE_OUTSIDE_MISSING, "joint.hose.outside"),
    NUMBER(order.joint.hose.outside, 1e9, HOSE_OUTSIDE_OUT_OF_RANGE, "joint.hose.outside"),
    NUMBER(order.joint.hose.reinforcement, -1.0, HOSE_REINFORCEMENT_OUT_OF_RANGE, "joint.hose.reinforcement"),
    NUMBER(order.joint.hose.reinforcement, 3.7, HOSE_REINFORCEMENT_OUT_OF_RANGE, "joint.hose.reinforcement"),
    NUMBER(order.joint.stem.outside, 0.0, STEM_OUTSIDE_MISSING, "joint.stem.outside"),
    NUMBER(order.joint.stem.outside, -5.0, STEM_OUTSIDE_OUT_OF_RANGE, "joint.stem.outside"),
    NUMBER(order.joint.stem.bore, 0.0001, STEM_BORE_OUT_OF_RANGE, "joint.stem.bore"),
    NUMBER(order.joint.stem.bore, 13.0, STEM_BORE_OUT_OF_RANGE, "joint.stem.bore"),
    NUMBER(order.joint.ferrule.wall, 0.0, FERRULE_WALL_MISSING, "joint.ferrule.wall"),
    NUMBER(order.joint.ferrule.wall, NAN, FERRULE_WALL_OUT_OF_RANGE, "joint.ferrule.wall"),
    NUMBER(order.joint.ferrule.outside, -1.0, FERRULE_OUTSIDE_OUT_OF_RANGE, "joint.ferrule.outside"),
    NUMBER(order.joint.ferrule.outside, 17.0, FERRULE_BORE_NOT_ABOVE_STEM, "joint.ferrule.outside"),
    NUMBER(order.joint.ferrule.length, -1.0, FERRULE_LENGTH_OUT_OF_RANGE, "joint.ferrule.length"),
    NUMBER(order.published, NAN, PUBLISHED_DIAMETER_OUT_OF_RANGE, "published"),
    NUMBER(order.tolerance, -0.1, TOLERANCE_OUT_OF_RANGE, "tolerance"),
    NUMBER(order.range.upper, NAN, COMPRESSION_NOT_A_NUMBER, "range"),
    NUMBER(order.range.lower, 0.5, COMPRESSION_RANGE_WRONG_ORDER, "range"),
    NUMBER(order.aim, INFINITY, COMPRESSION_NOT_A_NUMBER, "aim"),
    NUMBER(order.aim, 0.26, COMPRESSION_AIM_OUTSIDE_RANGE, "aim"),
    WHOLE(order.model.basis, 9, MODEL_BASIS_UNKNOWN, "model.basis"),
    WHOLE(order.model.flow, 9, MODEL_FLOW_UNKNOWN, "model.flow"),
    NUMBER(order.widest, -1.0, WIDEST_DIAMETER_OUT_OF_RANGE, "widest"),
    WHOLE(order.adapter_mounted, -1, DIE_ADAPTER_OUT_OF_RANGE, "adapter_mounted"),
    UNCERTAINTY(hose_inside),
    UNCERTAINTY(hose_outside),
    UNCERTAINTY(stem_outside),
    UNCERTAINTY(ferrule_wall),
    UNCERTAINTY(ferrule_outside),
    UNCERTAINTY(diameter),
    NUMBER(order.uncertainties.correlations.hose_inside_diameter, 1.5, UNCERTAINTY_CORRELATION_OUT_OF_RANGE,
           "uncertainties.correlations"),
    METAL(ferrule_metal),
    METAL(stem_metal),
    NUMBER(order.load.restraint, 1.5, RESTRAINT_OUT_OF_RANGE, "load.restraint"),
    NUMBER(order.load.hose_pressure, -1.0, HOSE_PRESSURE_OUT_OF_RANGE, "load.hose_pressure"),
    NUMBER(order.minimum_bore, -1.0, BORE_LIMIT_OUT_OF_RANGE, "minimum_bore"),
    WHOLE(order.applies_to, 9, APPLIES_TO_UNKNOWN, "applies_to"),
    NUMBER(order.gauge.standard_uncertainty, -1.0, GAUGE_UNCERTAINTY_OUT_OF_RANGE,
           "gauge.standard_uncertainty"),
    NUMBER(order.gauge.correction, 101.0, GAUGE_CORRECTION_OUT_OF_RANGE, "gauge.correction"),
    NUMBER(order.gauge.resolution, NAN, GAUGE_RESOLUTION_OUT_OF_RANGE, "gauge.resolution"),
    NUMBER(order.guard.factor, 11.0, GUARD_OUT_OF_RANGE, "guard.factor"),
    NUMBER(order.guard.degrees_of_freedom, 0.5, GUARD_DEGREES_OUT_OF_RANGE, "guard.degrees_of_freedom"),
    WHOLE(order.guard.side, 3, GUARD_SIDE_UNKNOWN, "guard.side"),
    WHOLE(order.approval, 3, APPROVAL_UNKNOWN, "approval"),
    NUMBER(order.insertion, -1.0, INSERTION_OUT_OF_RANGE, "insertion"),
    NUMBER(order.skive_outside, 1e7, SKIVE_OUT_OF_RANGE, "skive_outside"),
    NUMBER(order.skive_inside, -1.0, SKIVE_OUT_OF_RANGE, "skive_inside"),
    NUMBER(order.lobe_maximum, NAN, LOBE_LIMIT_OUT_OF_RANGE, "lobe_maximum"),
    NUMBER(press.graduation, 11.0, PRESS_GRADUATION_OUT_OF_RANGE, "press.graduation"),
    NUMBER(press.correction, 101.0, PRESS_CORRECTION_OUT_OF_RANGE, "press.correction"),
    NUMBER(press.dial_maximum, -1.0, PRESS_DIAL_RANGE_OUT_OF_RANGE, "press.dial_maximum"),
    NUMBER(press.opening, -1.0, PRESS_OPENING_OUT_OF_RANGE, "press.opening"),
    NUMBER(press.capacity, INFINITY, PRESS_CAPACITY_OUT_OF_RANGE, "press.capacity"),
    WHOLE(press.segments, 2, PRESS_SEGMENTS_OUT_OF_RANGE, "press.segments"),
    OF_DIE(3, size, 0.0, DIE_SIZE_MISSING, "dies[].size"),
    OF_DIE(0, size, -1.0, DIE_SIZE_OUT_OF_RANGE, "dies[].size"),
    OF_DIE(2, reach, -1.0, DIE_REACH_OUT_OF_RANGE, "dies[].reach"),
    OF_DIE(1, length, -1.0, DIE_LENGTH_OUT_OF_RANGE, "dies[].length"),
    WHOLE(dies[0].adapter, -1, DIE_ADAPTER_OUT_OF_RANGE, "dies[].adapter"),
};
enum { single_count = sizeof single / sizeof *single };

static void put(inputs *all, int i)
{
    char *at = (char *)all + single[i].at;
    if (single[i].is_whole) {
        memcpy(at, &single[i].whole, sizeof single[i].whole);
    } else {
        memcpy(at, &single[i].number, sizeof single[i].number);
    }
}

static inputs with_range(void)
{
    inputs all = all_given();
    all.order.range.lower = fer_percent(15);
    all.order.range.upper = fer_percent(25);
    return all;
}

static int is_at(const fer_fault *fault, int i)
{
    return fault->status == single[i].status && strcmp(fer_field_path(fault->field), single[i].path) == 0 &&
           fault->die == single[i].die;
}

static void each_fault_is_found_alone_at_its_field(void **state)
{
    (void)state;
    for (int i = 0; i < single_count; i++) {
        fer_fault faults[most];
        inputs all = with_range();
        put(&all, i);
        const size_t found = check(&all, faults);
        if (found != 1 || !is_at(&faults[0], i)) {
            fail_msg("%s at %s: %zu found, the first is %s at %s", fer_status_name(single[i].status),
                     single[i].path, found, found ? fer_status_name(faults[0].status) : "none",
                     found ? fer_field_path(faults[0].field) : "");
        }
        check_with_plan(&all, faults, found);
    }
}

/* An order's field and one of press or dies; two of the press and the dies at different fields. */
static int are_apart(int i, int k)
{
    const size_t press = offsetof(inputs, press);
    return single[k].at >= press && single[i].at != single[k].at;
}

/* No fault hides another: of any two at fields that no rule compares, both are found. */
static void of_two_faults_both_are_found(void **state)
{
    (void)state;
    for (int i = 0; i < single_count; i++) {
        for (int k = i + 1; k < single_count; k++) {
            fer_fault faults[most];
            inputs all = with_range();
            put(&all, i);
            put(&all, k);
            const size_t found = check(&all, faults);
            check_with_plan(&all, faults, found);
            int first = 0, second = 0;
            for (size_t n = 0; n < found; n++) {
                first |= is_at(&faults[n], i);
                second |= is_at(&faults[n], k);
            }
            if (are_apart(i, k)) {
                assert_true(first && second && found == 2);
            }
        }
    }
}

/* ---- many faults ------------------------------------------------------------------------------------------- */

static void nothing_given_is_what_every_order_needs(void **state)
{
    (void)state;
    const fer_status expected[] = {
        FER_HOSE_INSIDE_MISSING, FER_HOSE_OUTSIDE_MISSING, FER_STEM_OUTSIDE_MISSING, FER_FERRULE_WALL_MISSING,
        FER_DIE_SIZE_MISSING,    FER_DIE_SIZE_MISSING,     FER_DIE_SIZE_MISSING,     FER_DIE_SIZE_MISSING};
    const inputs nothing = {0};
    fer_fault faults[most];
    assert_int_equal(check(&nothing, faults), 8);
    for (int i = 0; i < 8; i++) {
        assert_int_equal(faults[i].status, expected[i]);
        assert_int_equal(faults[i].die, i < 4 ? 0 : i - 4);
    }
    check_with_plan(&nothing, faults, 8);
}

static void what_follows_from_another_fault_is_left_out(void **state)
{
    (void)state;
    inputs all = all_given();
    fer_fault faults[most];
    all.order.joint.hose.inside = fer_mm(21.0); /* no wall, and so no place for its reinforcement */
    assert_int_equal(check(&all, faults), 1);
    assert_int_equal(faults[0].status, FER_HOSE_OUTSIDE_NOT_ABOVE_INSIDE);
    all = all_given();
    all.order.joint.stem.outside = fer_mm(20.0);
    all.order.joint.stem.bore = fer_mm(-1.0);
    assert_int_equal(check(&all, faults), 2); /* and not that the ferrule is too small for such a stem */
    assert_int_equal(faults[0].status, FER_STEM_OUTSIDE_NOT_BELOW_HOSE_OUTSIDE);
    assert_int_equal(faults[1].status, FER_STEM_BORE_OUT_OF_RANGE);
    all = all_given();
    all.order.uncertainties.correlations.hose_inside_diameter.fraction = 0.9;
    all.order.uncertainties.correlations.hose_outside_diameter.fraction = 0.9;
    all.order.uncertainties.correlations.hose_inside_hose_outside.fraction = -0.9;
    assert_int_equal(check(&all, faults), 1);
    assert_int_equal(faults[0].status, FER_UNCERTAINTY_CORRELATION_IMPOSSIBLE);
    check_with_plan(&all, faults, 1);
}

static void an_order_without_a_target_has_a_fault(void **state)
{
    (void)state;
    inputs all = all_given();
    fer_fault faults[most];
    all.order.range.lower = fer_percent(0.5);
    all.order.range.upper = fer_percent(25);
    all.order.aim = fer_percent(1.0); /* the worked joint touches at 1.24 % */
    assert_int_equal(check(&all, faults), 1);
    assert_int_equal(faults[0].status, FER_COMPRESSION_WITHOUT_TOUCH);
    assert_string_equal(fer_field_path(faults[0].field), "aim");
    check_with_plan(&all, faults, 1);
    all.press.segments = 2; /* a fault of the press comes first, and does not hide it */
    assert_int_equal(check(&all, faults), 2);
    assert_int_equal(faults[0].status, FER_PRESS_SEGMENTS_OUT_OF_RANGE);
    assert_int_equal(faults[1].status, FER_COMPRESSION_WITHOUT_TOUCH);
    check_with_plan(&all, faults, 2);
    all = with_range();
    all.order.model.basis = FER_BASIS_SOFT_WALL;
    all.order.joint.hose.reinforcement = fer_mm(0.0);
    assert_int_equal(check(&all, faults), 1);
    assert_string_equal(fer_field_path(faults[0].field), "joint.hose.reinforcement");
    check_with_plan(&all, faults, 1);
    all = all_given();
    all.order.model.flow = FER_FLOW_ENDS_FREE; /* which has no usual range */
    assert_int_equal(check(&all, faults), 1);
    assert_int_equal(faults[0].status, FER_COMPRESSION_RANGE_MISSING);
    assert_string_equal(fer_field_path(faults[0].field), "range");
    check_with_plan(&all, faults, 1);
    all = with_range();
    all.order.model.flow = FER_FLOW_ENDS_FREE;
    all.order.joint.ferrule.outside = fer_mm(0.0);
    assert_int_equal(check(&all, faults), 1);
    assert_string_equal(fer_field_path(faults[0].field), "joint.ferrule.outside");
    check_with_plan(&all, faults, 1);
}

/* ---- the call ------------------------------------------------------------------------------------------- */

static void a_sound_order_has_no_fault(void **state)
{
    (void)state;
    const inputs all = all_given();
    fer_fault faults[most];
    assert_int_equal(check(&all, faults), 0);
    check_with_plan(&all, faults, 0);
    size_t found = 7;
    CHECK_OK(fer_check_order(&all.order, &all.press, NULL, 0, NULL, 0, &found));
    assert_int_equal(found, 0);
}

static void too_many_faults_for_the_array(void **state)
{
    (void)state;
    const inputs nothing = {0};
    fer_fault faults[9];
    size_t found = 7;
    memset(faults, 0x55, sizeof faults);
    const fer_fault before = faults[7];
    CHECK_STATUS(fer_check_order(&nothing.order, &nothing.press, nothing.dies, 4, faults, 7, &found),
                 FER_ARGUMENT_CAPACITY_TOO_SMALL);
    assert_int_equal(found, 0);
    assert_memory_equal(&faults[7], &before, sizeof before);
    CHECK_OK(fer_check_order(&nothing.order, &nothing.press, nothing.dies, 4, faults, 8, &found));
    assert_int_equal(found, 8);
}

static void null_pointers_have_their_status(void **state)
{
    (void)state;
    const inputs all = all_given();
    fer_fault faults[1];
    size_t found = 7;
    CHECK_STATUS(fer_check_order(NULL, &all.press, all.dies, 4, faults, 1, &found), FER_ARGUMENT_MISSING);
    assert_int_equal(found, 0);
    CHECK_STATUS(fer_check_order(&all.order, NULL, all.dies, 4, faults, 1, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_check_order(&all.order, &all.press, NULL, 4, faults, 1, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_check_order(&all.order, &all.press, all.dies, 4, NULL, 1, &found), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_check_order(&all.order, &all.press, all.dies, 4, faults, 1, NULL), FER_ARGUMENT_MISSING);
}

#define FIELD_ROW(name, number, argument, member) {number, #argument, #member},
static const struct {
    int number;
    const char *argument, *member;
} fields[] = {FER_FIELD_LIST(FIELD_ROW)};

static void every_field_has_a_path(void **state)
{
    (void)state;
    assert_int_equal(sizeof fields / sizeof *fields, FER_FIELD_COUNT);
    for (int i = 0; i < FER_FIELD_COUNT; i++) {
        const char *path = fer_field_path((fer_field)i),
                   *end = path + strlen(path) - strlen(fields[i].member);
        const char *before = fields[i].argument[0] == 'o'   ? ""
                             : fields[i].argument[0] == 'p' ? "press."
                                                            : "dies[].";
        assert_int_equal(fields[i].number, i);
        assert_string_equal(end, fields[i].member);
        assert_int_equal(end - path, strlen(before));
        assert_memory_equal(path, before, strlen(before));
    }
    assert_string_equal(fer_field_path((fer_field)-1), "");
    assert_string_equal(fer_field_path(FER_FIELD_COUNT), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_fault_is_found_alone_at_its_field),
        cmocka_unit_test(of_two_faults_both_are_found),
        cmocka_unit_test(nothing_given_is_what_every_order_needs),
        cmocka_unit_test(what_follows_from_another_fault_is_left_out),
        cmocka_unit_test(an_order_without_a_target_has_a_fault),
        cmocka_unit_test(a_sound_order_has_no_fault),
        cmocka_unit_test(too_many_faults_for_the_array),
        cmocka_unit_test(null_pointers_have_their_status),
        cmocka_unit_test(every_field_has_a_path),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
