/* SPDX-License-Identifier: MIT */
/* The rules are those of docs/release.md. Sources: common practice, no source; the checks of an assembly: ISO/TS 17165-2,
 * ISO 4413, SAE J1273, DGUV Regel 113-020, from memory. */
#include "check.h"

#include <ctype.h>

#define END(point)      (UINT64_C(1) << FER_END_POINT_##point)
#define ASSEMBLY(point) (UINT64_C(1) << FER_ASSEMBLY_POINT_##point)
#define NEED(need)      (UINT64_C(1) << FER_NEED_##need)
#define CAUTION(name)   (UINT64_C(1) << FER_CAUTION_##name)
#define COUNT_OF(array) (sizeof(array) / sizeof *(array))

#define N FER_OUTCOME_NOT_DONE
#define P FER_OUTCOME_PASSED
#define F FER_OUTCOME_FAILED
#define U FER_OUTCOME_UNDECIDED

static fer_end_checks good_end(void)
{
    fer_end_checks end = {0};
    end.diameter.outcome = FER_OUTCOME_PASSED;
    end.looks = FER_END_LOOK_GOOD;
    end.insertion = FER_OUTCOME_PASSED;
    end.bore = FER_OUTCOME_PASSED;
    return end;
}

/* Two elbows, everything checked, everything passed. */
static fer_assembly_checks good_assembly(void)
{
    fer_assembly_checks checks = {0};
    checks.first = good_end();
    checks.second = good_end();
    checks.parts = checks.length = checks.orientation = FER_OUTCOME_PASSED;
    checks.cleanliness = checks.marking = FER_OUTCOME_PASSED;
    checks.hose_age = 7;
    checks.proof.pressure = checks.proof.leak = checks.proof.movement = FER_OUTCOME_PASSED;
    return checks;
}

static const fer_release_needs usual = {{0}, 0};

static fer_release release_of(fer_assembly_checks checks, fer_release_needs needs)
{
    fer_release release;
    memset(&release, 0x55, sizeof release);
    CHECK_OK(fer_release_assembly(&checks, needs, &release));
    return release;
}

/* ---- the truth table ------------------------------------------------------------------------------------ */

/* One way in which one check can come out, and all that follows from it alone. Of the members that stand for a check only
 * that of `need` counts. */
typedef struct {
    const char *what;
    uint64_t need;         /* the check that it belongs to */
    int end;               /* 1: of an end */
    fer_disposition alone; /* with everything else passed */
    uint64_t end_points, assembly_points;
    fer_diameter_check diameter;
    fer_end_look looks;
    fer_outcome insertion, bore, parts, length, orientation, cleanliness, marking;
    int age;
    fer_proof_test proof;
    int is_not_done;
} outcome_case;

#define HOLD     FER_DISPOSITION_HOLD
#define RELEASED FER_DISPOSITION_RELEASED
#define SCRAP    FER_DISPOSITION_SCRAP
#define LOWER    FER_MISSED_LIMIT_LOWER
#define UPPER    FER_MISSED_LIMIT_UPPER

#define CASE(words, check, ...) {.what = words, .need = NEED(check), __VA_ARGS__},

static const outcome_case cases[] = {
    /* clang-format off */
    CASE("diameter not done", DIAMETER, .end = 1, .alone = HOLD, .end_points = END(DIAMETER_NOT_DONE), .diameter = {.outcome = N}, .is_not_done = 1)
    CASE("diameter undecided", DIAMETER, .end = 1, .alone = HOLD, .end_points = END(DIAMETER_UNDECIDED), .diameter = {.outcome = U})
    CASE("diameter undecided, read again", DIAMETER, .end = 1, .alone = HOLD, .end_points = END(DIAMETER_UNDECIDED), .diameter = {U, FER_MISSED_LIMIT_NOT_STATED, 0, 1})
    CASE("diameter undecided by sample", DIAMETER, .end = 1, .alone = HOLD, .end_points = END(DIAMETER_UNDECIDED), .diameter = {U, FER_MISSED_LIMIT_NOT_STATED, 1, 0})
    CASE("diameter below", DIAMETER, .end = 1, .alone = HOLD, .end_points = END(DIAMETER_READ_AGAIN), .diameter = {F, LOWER, 0, 0})
    CASE("diameter above", DIAMETER, .end = 1, .alone = HOLD, .end_points = END(DIAMETER_READ_AGAIN), .diameter = {F, UPPER, 0, 0})
    CASE("diameter outside", DIAMETER, .end = 1, .alone = HOLD, .end_points = END(DIAMETER_READ_AGAIN), .diameter = {F, FER_MISSED_LIMIT_NOT_STATED, 0, 0})
    CASE("diameter below, read again", DIAMETER, .end = 1, .alone = SCRAP, .end_points = END(DIAMETER_BELOW), .diameter = {F, LOWER, 0, 1})
    CASE("diameter above, read again", DIAMETER, .end = 1, .alone = SCRAP, .end_points = END(DIAMETER_ABOVE), .diameter = {F, UPPER, 0, 1})
    CASE("diameter outside, read again", DIAMETER, .end = 1, .alone = SCRAP, .end_points = END(DIAMETER_OUTSIDE), .diameter = {F, FER_MISSED_LIMIT_NOT_STATED, 0, 1})
    CASE("sample failed", DIAMETER, .end = 1, .alone = HOLD, .end_points = END(DIAMETER_SAMPLE_FAILED), .diameter = {F, UPPER, 1, 0})
    CASE("sample failed, read again", DIAMETER, .end = 1, .alone = HOLD, .end_points = END(DIAMETER_SAMPLE_FAILED), .diameter = {F, LOWER, 1, 1})
    CASE("diameter by sample", DIAMETER, .end = 1, .alone = RELEASED, .end_points = END(DIAMETER_BY_SAMPLE), .diameter = {P, FER_MISSED_LIMIT_NOT_STATED, 1, 0})
    CASE("diameter passed, read again", DIAMETER, .end = 1, .alone = RELEASED, .diameter = {P, FER_MISSED_LIMIT_NOT_STATED, 0, 1})
    CASE("looks not done", LOOKS, .end = 1, .alone = HOLD, .end_points = END(LOOKS_NOT_DONE), .looks = FER_END_LOOK_NOT_DONE, .is_not_done = 1)
    CASE("looks undecided", LOOKS, .end = 1, .alone = HOLD, .end_points = END(LOOKS_UNDECIDED), .looks = FER_END_LOOK_UNDECIDED)
    CASE("too tight", LOOKS, .end = 1, .alone = SCRAP, .end_points = END(LOOKS_TOO_TIGHT), .looks = FER_END_LOOK_TOO_TIGHT)
    CASE("too loose", LOOKS, .end = 1, .alone = SCRAP, .end_points = END(LOOKS_TOO_LOOSE), .looks = FER_END_LOOK_TOO_LOOSE)
    CASE("damaged", LOOKS, .end = 1, .alone = SCRAP, .end_points = END(LOOKS_DAMAGED), .looks = FER_END_LOOK_DAMAGED)
    CASE("insertion not done", INSERTION, .end = 1, .alone = HOLD, .end_points = END(INSERTION_NOT_DONE), .insertion = N, .is_not_done = 1)
    CASE("insertion undecided", INSERTION, .end = 1, .alone = HOLD, .end_points = END(INSERTION_UNDECIDED), .insertion = U)
    CASE("insertion short", INSERTION, .end = 1, .alone = SCRAP, .end_points = END(INSERTION_SHORT), .insertion = F)
    CASE("bore not done", BORE, .end = 1, .alone = HOLD, .end_points = END(BORE_NOT_DONE), .bore = N, .is_not_done = 1)
    CASE("bore undecided", BORE, .end = 1, .alone = HOLD, .end_points = END(BORE_UNDECIDED), .bore = U)
    CASE("bore failed", BORE, .end = 1, .alone = SCRAP, .end_points = END(BORE_TOO_SMALL), .bore = F)
    CASE("parts not done", PARTS, .alone = HOLD, .assembly_points = ASSEMBLY(PARTS_NOT_DONE), .parts = N, .is_not_done = 1)
    CASE("parts undecided", PARTS, .alone = HOLD, .assembly_points = ASSEMBLY(PARTS_UNDECIDED), .parts = U)
    CASE("parts wrong", PARTS, .alone = SCRAP, .assembly_points = ASSEMBLY(PARTS_WRONG), .parts = F)
    CASE("date not read", HOSE_DATE, .alone = HOLD, .assembly_points = ASSEMBLY(HOSE_DATE_NOT_READ), .age = 0, .is_not_done = 1)
    CASE("hose at the usual limit", HOSE_DATE, .alone = RELEASED, .age = 48)
    CASE("hose above the usual limit", HOSE_DATE, .alone = HOLD, .assembly_points = ASSEMBLY(HOSE_TOO_OLD), .age = 49)
    CASE("hose at the greatest age", HOSE_DATE, .alone = HOLD, .assembly_points = ASSEMBLY(HOSE_TOO_OLD), .age = 1200)
    CASE("hose of this month", HOSE_DATE, .alone = RELEASED, .age = 1)
    CASE("length not done", LENGTH, .alone = HOLD, .assembly_points = ASSEMBLY(LENGTH_NOT_DONE), .length = N, .is_not_done = 1)
    CASE("length undecided", LENGTH, .alone = HOLD, .assembly_points = ASSEMBLY(LENGTH_UNDECIDED), .length = U)
    CASE("length wrong", LENGTH, .alone = HOLD, .assembly_points = ASSEMBLY(LENGTH_WRONG), .length = F)
    CASE("orientation not done", ORIENTATION, .alone = HOLD, .assembly_points = ASSEMBLY(ORIENTATION_NOT_DONE), .orientation = N, .is_not_done = 1)
    CASE("orientation undecided", ORIENTATION, .alone = HOLD, .assembly_points = ASSEMBLY(ORIENTATION_UNDECIDED), .orientation = U)
    CASE("orientation wrong", ORIENTATION, .alone = HOLD, .assembly_points = ASSEMBLY(ORIENTATION_WRONG), .orientation = F)
    CASE("cleanliness not done", CLEANLINESS, .alone = HOLD, .assembly_points = ASSEMBLY(CLEANLINESS_NOT_DONE), .cleanliness = N, .is_not_done = 1)
    CASE("cleanliness undecided", CLEANLINESS, .alone = HOLD, .assembly_points = ASSEMBLY(CLEANLINESS_UNDECIDED), .cleanliness = U)
    CASE("dirty", CLEANLINESS, .alone = HOLD, .assembly_points = ASSEMBLY(CLEANLINESS_FAILED), .cleanliness = F)
    CASE("marking not done", MARKING, .alone = HOLD, .assembly_points = ASSEMBLY(MARKING_NOT_DONE), .marking = N, .is_not_done = 1)
    CASE("marking undecided", MARKING, .alone = HOLD, .assembly_points = ASSEMBLY(MARKING_UNDECIDED), .marking = U)
    CASE("marking wrong", MARKING, .alone = HOLD, .assembly_points = ASSEMBLY(MARKING_WRONG), .marking = F)
    CASE("proof not done", PROOF, .alone = HOLD, .assembly_points = ASSEMBLY(PROOF_NOT_DONE), .proof = {N, N, N, 0}, .is_not_done = 1)
    CASE("rig leaked, nothing else", PROOF, .alone = HOLD, .assembly_points = ASSEMBLY(PROOF_NO_RESULT), .proof = {N, N, N, 1})
    CASE("rig leaked, all else passed", PROOF, .alone = HOLD, .assembly_points = ASSEMBLY(PROOF_NO_RESULT), .proof = {P, P, P, 1})
    CASE("pressure not kept", PROOF, .alone = HOLD, .assembly_points = ASSEMBLY(PROOF_NO_RESULT), .proof = {F, P, P, 0})
    CASE("pressure not known", PROOF, .alone = HOLD, .assembly_points = ASSEMBLY(PROOF_NO_RESULT), .proof = {N, P, P, 0})
    CASE("pressure undecided", PROOF, .alone = HOLD, .assembly_points = ASSEMBLY(PROOF_NO_RESULT), .proof = {U, P, P, 0})
    CASE("leak not looked for", PROOF, .alone = HOLD, .assembly_points = ASSEMBLY(PROOF_NO_RESULT), .proof = {P, N, P, 0})
    CASE("leak undecided", PROOF, .alone = HOLD, .assembly_points = ASSEMBLY(PROOF_NO_RESULT), .proof = {P, U, P, 0})
    CASE("movement not looked for", PROOF, .alone = HOLD, .assembly_points = ASSEMBLY(PROOF_NO_RESULT), .proof = {P, P, N, 0})
    CASE("movement undecided", PROOF, .alone = HOLD, .assembly_points = ASSEMBLY(PROOF_NO_RESULT), .proof = {P, P, U, 0})
    CASE("only the pressure", PROOF, .alone = HOLD, .assembly_points = ASSEMBLY(PROOF_NO_RESULT), .proof = {P, N, N, 0})
    CASE("leak", PROOF, .alone = SCRAP, .assembly_points = ASSEMBLY(PROOF_LEAK), .proof = {P, F, P, 0})
    CASE("movement", PROOF, .alone = SCRAP, .assembly_points = ASSEMBLY(PROOF_MOVEMENT), .proof = {P, P, F, 0})
    CASE("leak and movement", PROOF, .alone = SCRAP, .assembly_points = ASSEMBLY(PROOF_LEAK) | ASSEMBLY(PROOF_MOVEMENT), .proof = {P, F, F, 0})
    CASE("leak before the pressure was reached", PROOF, .alone = SCRAP, .assembly_points = ASSEMBLY(PROOF_LEAK), .proof = {F, F, N, 0})
    CASE("movement, and the rig leaked", PROOF, .alone = SCRAP, .assembly_points = ASSEMBLY(PROOF_MOVEMENT), .proof = {N, N, F, 1})
    CASE("all passed", PARTS, .alone = RELEASED, .parts = P)
    /* clang-format on */
};

/* Lays what is not good of a case over the checks; of an end on the first or the second. */
static void lay_over(const outcome_case *c, int second, fer_assembly_checks *checks)
{
    fer_end_checks *end = second ? &checks->second : &checks->first;
    if (c->need & NEED(DIAMETER)) {
        end->diameter = c->diameter;
    } else if (c->need & NEED(LOOKS)) {
        end->looks = c->looks;
    } else if (c->need & NEED(INSERTION)) {
        end->insertion = c->insertion;
    } else if (c->need & NEED(BORE)) {
        end->bore = c->bore;
    } else if (c->need & NEED(PARTS)) {
        checks->parts = c->parts;
    } else if (c->need & NEED(HOSE_DATE)) {
        checks->hose_age = c->age;
    } else if (c->need & NEED(LENGTH)) {
        checks->length = c->length;
    } else if (c->need & NEED(ORIENTATION)) {
        checks->orientation = c->orientation;
    } else if (c->need & NEED(CLEANLINESS)) {
        checks->cleanliness = c->cleanliness;
    } else if (c->need & NEED(MARKING)) {
        checks->marking = c->marking;
    } else {
        checks->proof = c->proof;
    }
}

/* SCRAP outweighs HOLD, HOLD outweighs RELEASED. */
static fer_disposition graver(fer_disposition a, fer_disposition b)
{
    static const int gravity[] = {[HOLD] = 1, [RELEASED] = 0, [SCRAP] = 2};
    return gravity[a] >= gravity[b] ? a : b;
}

/* The severity column, stated here once more by what it does: STOP makes scrap. */
static const uint64_t scrap_of_ends = END(INSERTION_SHORT) | END(DIAMETER_BELOW) | END(DIAMETER_ABOVE) |
                                      END(DIAMETER_OUTSIDE) | END(LOOKS_TOO_TIGHT) | END(LOOKS_TOO_LOOSE) |
                                      END(LOOKS_DAMAGED) | END(BORE_TOO_SMALL);
static const uint64_t scrap_of_rest = ASSEMBLY(PARTS_WRONG) | ASSEMBLY(PROOF_LEAK) | ASSEMBLY(PROOF_MOVEMENT);

static void expect(const char *what, const fer_release *release, fer_disposition decision, uint64_t first,
                   uint64_t second, uint64_t assembly)
{
    const int scrap = decision == FER_DISPOSITION_SCRAP;
    const uint64_t ends = scrap ? scrap_of_ends | END(DIAMETER_BY_SAMPLE) : UINT64_MAX;
    const uint64_t rest = scrap ? scrap_of_rest | ASSEMBLY(LESS_THAN_USUAL) : UINT64_MAX;
    if (release->decision != decision || release->first.bits != (first & ends) ||
        release->second.bits != (second & ends) || release->assembly.bits != (assembly & rest)) {
        fail_msg("%s: %s, points %x %x %x", what, fer_disposition_name(release->decision),
                 (unsigned)release->first.bits, (unsigned)release->second.bits,
                 (unsigned)release->assembly.bits);
    }
}

static void each_check_alone(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        for (int second = 0; second < 2; second++) {
            fer_assembly_checks checks = good_assembly();
            lay_over(&cases[i], second, &checks);
            const fer_release release = release_of(checks, usual);
            expect(cases[i].what, &release, cases[i].alone, second ? 0 : cases[i].end_points,
                   second ? cases[i].end_points : 0, cases[i].assembly_points);
            assert_int_equal(release.left_out.bits, 0);
        }
    }
}

/* Every pair of outcomes, on the same end and on different ones: the graver decides, and the points add up. */
static void checks_in_pairs(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        for (size_t j = 0; j < COUNT_OF(cases); j++) {
            const outcome_case *a = &cases[i], *b = &cases[j];
            for (int second = 0; second < 2; second++) {
                if (a->need == b->need && !(a->end && second)) {
                    continue; /* the same check twice */
                }
                fer_assembly_checks checks = good_assembly();
                lay_over(a, 0, &checks);
                lay_over(b, second, &checks);
                const fer_release release = release_of(checks, usual);
                expect(b->what, &release, graver(a->alone, b->alone),
                       a->end_points | (second ? 0 : b->end_points), second ? b->end_points : 0,
                       a->assembly_points | b->assembly_points);
            }
        }
    }
}

/* ---- what is needed ------------------------------------------------------------------------------------- */

static const uint64_t all_needs = (1u << FER_NEED_COUNT) - 1;

/* What is not needed may be left out, and that is said; what was found counts all the same. */
static void what_is_not_needed(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        fer_assembly_checks checks = good_assembly();
        const outcome_case *c = &cases[i];
        const fer_release_needs needs = {{all_needs & ~c->need}, 0};
        lay_over(c, 1, &checks);
        const fer_release release = release_of(checks, needs);
        if (c->is_not_done) {
            expect(c->what, &release, FER_DISPOSITION_RELEASED, 0, 0, ASSEMBLY(LESS_THAN_USUAL));
            assert_int_equal(release.left_out.bits, c->need);
        } else {
            expect(c->what, &release, c->alone, 0, c->end_points, c->assembly_points);
            assert_int_equal(release.left_out.bits, 0);
        }
    }
}

static void orientation_is_needed_with_two_elbows(void **state)
{
    (void)state;
    const fer_release_needs asked = {{all_needs}, 0}, less = {{all_needs & ~NEED(ORIENTATION)}, 0};
    fer_assembly_checks checks = good_assembly();
    checks.orientation = FER_OUTCOME_NOT_DONE;
    assert_int_equal(release_of(checks, usual).decision, FER_DISPOSITION_HOLD);
    fer_release release = release_of(checks, less);
    expect("left out", &release, FER_DISPOSITION_RELEASED, 0, 0, ASSEMBLY(LESS_THAN_USUAL));
    checks.straight = 1;
    release = release_of(checks, usual);
    expect("one straight coupling", &release, FER_DISPOSITION_RELEASED, 0, 0, 0);
    release = release_of(checks, less);
    expect("one straight coupling, not asked", &release, FER_DISPOSITION_RELEASED, 0, 0, 0);
    release = release_of(checks, asked); /* who asks for it gets it */
    expect("asked", &release, FER_DISPOSITION_HOLD, 0, 0, ASSEMBLY(ORIENTATION_NOT_DONE));
    checks.orientation = FER_OUTCOME_FAILED;
    release = release_of(checks, usual);
    expect("found wrong", &release, FER_DISPOSITION_HOLD, 0, 0, ASSEMBLY(ORIENTATION_WRONG));
}

/* A check of both ends was left out where it was left out on one of them. */
static void left_out_on_one_end(void **state)
{
    (void)state;
    const fer_release_needs one = {{NEED(MARKING)}, 0};
    for (int second = 0; second < 2; second++) {
        fer_assembly_checks checks = good_assembly();
        fer_end_checks *end = second ? &checks.second : &checks.first;
        memset(end, 0, sizeof *end);
        const fer_release release = release_of(checks, one);
        assert_int_equal(release.decision, FER_DISPOSITION_RELEASED);
        assert_int_equal(release.assembly.bits, ASSEMBLY(LESS_THAN_USUAL));
        assert_int_equal(release.left_out.bits, NEED(DIAMETER) | NEED(INSERTION) | NEED(LOOKS) | NEED(BORE));
    }
    const fer_release everything =
        release_of(good_assembly(), one); /* fewer asked for, and nothing left out */
    assert_int_equal(everything.assembly.bits, 0);
    assert_int_equal(everything.left_out.bits, 0);
}

static void age_of_the_hose(void **state)
{
    (void)state;
    fer_release_needs needs = {{0}, 24};
    fer_assembly_checks checks = good_assembly();
    checks.hose_age = 24;
    assert_int_equal(release_of(checks, needs).decision, FER_DISPOSITION_RELEASED);
    checks.hose_age = 25;
    fer_release release = release_of(checks, needs);
    expect("older than the limit", &release, FER_DISPOSITION_HOLD, 0, 0, ASSEMBLY(HOSE_TOO_OLD));
    needs.hose_age_limit = 120;
    checks.hose_age = 120;
    assert_int_equal(release_of(checks, needs).decision, FER_DISPOSITION_RELEASED);
    checks.hose_age = 121;
    assert_int_equal(release_of(checks, needs).decision, FER_DISPOSITION_HOLD);
}

/* ---- dangers -------------------------------------------------------------------------------------------- */

static void nothing_is_never_released(void **state)
{
    (void)state;
    const fer_assembly_checks nothing = {0};
    const fer_release release = release_of(nothing, usual);
    const uint64_t end =
        END(INSERTION_NOT_DONE) | END(DIAMETER_NOT_DONE) | END(LOOKS_NOT_DONE) | END(BORE_NOT_DONE);
    assert_int_equal(FER_DISPOSITION_HOLD, 0);
    assert_int_equal(FER_OUTCOME_NOT_DONE, 0);
    assert_int_equal(FER_END_LOOK_NOT_DONE, 0);
    expect("nothing", &release, FER_DISPOSITION_HOLD, end, end,
           ASSEMBLY(PARTS_NOT_DONE) | ASSEMBLY(HOSE_DATE_NOT_READ) | ASSEMBLY(LENGTH_NOT_DONE) |
               ASSEMBLY(ORIENTATION_NOT_DONE) | ASSEMBLY(CLEANLINESS_NOT_DONE) | ASSEMBLY(MARKING_NOT_DONE) |
               ASSEMBLY(PROOF_NOT_DONE));
    for (uint64_t need = 0; need < FER_NEED_COUNT; need++) { /* whatever the one thing is that is asked for */
        const fer_release_needs one = {{1u << need}, 0};
        assert_int_equal(release_of(nothing, one).decision, FER_DISPOSITION_HOLD);
    }
}

/* Too large a diameter tempts to crimp again: the sentence says no on hold and on scrap. */
static void an_oversize_crimp_is_not_crimped_again(void **state)
{
    (void)state;
    fer_assembly_checks checks = good_assembly();
    checks.second.diameter.outcome = FER_OUTCOME_FAILED;
    checks.second.diameter.limit = FER_MISSED_LIMIT_UPPER;
    fer_release release = release_of(checks, usual);
    expect("first reading", &release, FER_DISPOSITION_HOLD, 0, END(DIAMETER_READ_AGAIN), 0);
    assert_true(release.cautions.bits & CAUTION(NEVER_CRIMP_TWICE));
    checks.second.diameter.read_again = 1;
    release = release_of(checks, usual);
    expect("read again", &release, FER_DISPOSITION_SCRAP, 0, END(DIAMETER_ABOVE), 0);
    assert_true(release.cautions.bits & CAUTION(NEVER_CRIMP_TWICE));
    assert_non_null(strstr(fer_end_point_sentence(FER_END_POINT_DIAMETER_ABOVE), "never crimp it again"));
    assert_non_null(strstr(fer_end_point_sentence(FER_END_POINT_DIAMETER_OUTSIDE), "never crimp it again"));
    assert_non_null(
        strstr(fer_end_point_sentence(FER_END_POINT_LOOKS_TOO_LOOSE), "never crimp this one again"));
    assert_non_null(
        strstr(fer_end_point_sentence(FER_END_POINT_DIAMETER_READ_AGAIN), "do not crimp it again"));
    assert_non_null(strstr(fer_end_point_sentence(FER_END_POINT_DIAMETER_READ_AGAIN), "setting ring"));
}

/* A diameter that passed beside a look that is too loose: neither released, nor a first piece, and its cause is asked. */
static void too_loose_with_a_good_diameter(void **state)
{
    (void)state;
    fer_assembly_checks checks = good_assembly();
    fer_first_piece piece;
    checks.first.looks = FER_END_LOOK_TOO_LOOSE;
    assert_int_equal(release_of(checks, usual).decision, FER_DISPOSITION_SCRAP);
    CHECK_OK(fer_check_first_piece(&(fer_first_piece_checks){.piece = checks.first}, &piece));
    assert_int_equal(piece.rest_allowed, 0);
    assert_int_equal(piece.points.bits, END(LOOKS_TOO_LOOSE));
    assert_non_null(strstr(fer_end_point_sentence(FER_END_POINT_LOOKS_TOO_LOOSE), "crimp no other piece"));
    assert_non_null(strstr(fer_end_point_sentence(FER_END_POINT_LOOKS_TOO_TIGHT), "crimp no other piece"));
}

/* "Cut up" is for scrap: no sentence and no caution that goes with a hold says it. */
static void cut_up_is_not_said_on_hold(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        fer_assembly_checks checks = good_assembly();
        lay_over(&cases[i], 0, &checks);
        const fer_release release = release_of(checks, usual);
        int said = strstr(fer_disposition_sentence(release.decision), "cut it up") != NULL;
        for (int bit = 0; bit < 32; bit++) {
            said |=
                (release.first.bits >> bit & 1u) && strstr(fer_end_point_sentence((fer_end_point)bit), "cut");
            said |= (release.assembly.bits >> bit & 1u) &&
                    strstr(fer_assembly_point_sentence((fer_assembly_point)bit), "cut");
            said |= (release.cautions.bits >> bit & 1u) &&
                    (strstr(fer_caution_text((fer_caution)bit), "Cut up") != NULL);
        }
        assert_int_equal(said, release.decision == FER_DISPOSITION_SCRAP);
    }
}

static void cautions_by_decision(void **state)
{
    (void)state;
    const uint64_t pressure = CAUTION(OIL_UNDER_PRESSURE) | CAUTION(INJECTED_FLUID) | CAUTION(HOSE_WHIPS) |
                              CAUTION(PROOF_TEST) | CAUTION(LAW_AND_LICENCE);
    fer_assembly_checks checks = good_assembly();
    assert_int_equal(release_of(checks, usual).cautions.bits, pressure);
    checks.marking = FER_OUTCOME_NOT_DONE;
    assert_int_equal(release_of(checks, usual).cautions.bits,
                     pressure | CAUTION(KEEP_APART) | CAUTION(NEVER_CRIMP_TWICE));
    checks.proof.leak = FER_OUTCOME_FAILED;
    assert_int_equal(release_of(checks, usual).cautions.bits,
                     pressure | CAUTION(SCRAP_NOT_REPAIR) | CAUTION(NEVER_CRIMP_TWICE));
}

/* ---- first piece ---------------------------------------------------------------------------------------- */

static fer_first_piece first_piece_of(fer_end_checks end, uint64_t since)
{
    fer_first_piece piece;
    const fer_first_piece_checks checks = {end, {since}};
    memset(&piece, 0x55, sizeof piece);
    CHECK_OK(fer_check_first_piece(&checks, &piece));
    assert_int_equal(piece.due_after.bits, (1u << FER_CHANGE_COUNT) - 1);
    assert_int_equal(piece.changed.bits, since);
    return piece;
}

static void a_first_piece_lets_the_rest_be_crimped(void **state)
{
    (void)state;
    const uint64_t trial = fer_stage_cautions(FER_STAGE_TRIAL).bits;
    fer_end_checks end = good_end();
    assert_int_equal(first_piece_of(end, 0).rest_allowed, 1);
    assert_int_equal(first_piece_of(end, 0).cautions.bits, trial);
    end.insertion = FER_OUTCOME_NOT_DONE; /* looked at before crimping; not one of the three */
    assert_int_equal(first_piece_of(end, 0).rest_allowed, 1);
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        const outcome_case *c = &cases[i];
        if (!c->end || (c->is_not_done && (c->need & NEED(INSERTION))) ||
            (c->end_points & END(DIAMETER_BY_SAMPLE))) {
            continue;
        }
        fer_assembly_checks checks = good_assembly();
        lay_over(c, 0, &checks);
        const fer_first_piece piece = first_piece_of(checks.first, 0);
        assert_int_equal(piece.points.bits, c->end_points);
        assert_int_equal(piece.rest_allowed, c->alone == FER_DISPOSITION_RELEASED);
        assert_int_equal((piece.cautions.bits & CAUTION(SCRAP_NOT_REPAIR)) != 0,
                         c->alone == FER_DISPOSITION_SCRAP);
        assert_int_equal((piece.cautions.bits & CAUTION(KEEP_APART)) != 0, c->alone == FER_DISPOSITION_HOLD);
        assert_int_equal(piece.cautions.bits & trial, trial);
    }
}

static void a_sample_is_no_first_piece(void **state)
{
    (void)state;
    fer_end_checks end = good_end();
    end.diameter.by_sample = 1;
    const fer_first_piece piece = first_piece_of(end, 0);
    assert_int_equal(piece.rest_allowed, 0);
    assert_int_equal(piece.points.bits, END(DIAMETER_NOT_DONE));
    const fer_end_checks nothing = {0};
    assert_int_equal(first_piece_of(nothing, 0).points.bits,
                     END(DIAMETER_NOT_DONE) | END(LOOKS_NOT_DONE) | END(BORE_NOT_DONE));
}

static void any_change_makes_a_first_piece_due_again(void **state)
{
    (void)state;
    const char *const names[] = {"DIE", "DIAL", "ADAPTER", "HOSE_BATCH", "COUPLING_BATCH", "GAUGE", "PRESS"};
    assert_int_equal(FER_CHANGE_COUNT, COUNT_OF(names));
    for (int i = 0; i < FER_CHANGE_COUNT; i++) {
        const fer_first_piece piece = first_piece_of(good_end(), 1u << i);
        assert_int_equal(piece.rest_allowed, 0);
        assert_int_equal(piece.points.bits, 0);
        assert_true(piece.cautions.bits & CAUTION(KEEP_APART));
        assert_string_equal(fer_change_name((fer_change)i), names[i]);
        assert_true(strlen(fer_change_sentence((fer_change)i)) > 15);
    }
}

/* ---- from an inspection --------------------------------------------------------------------------------- */

static fer_diameter_check entered(fer_decision decision, double below, double above)
{
    fer_inspection inspection;
    fer_diameter_check check;
    memset(&inspection, 0, sizeof inspection);
    memset(&check, 0x55, sizeof check);
    inspection.decision = decision;
    inspection.verdict.below.fraction = below;
    inspection.verdict.above.fraction = above;
    CHECK_OK(fer_enter_inspection(&inspection, &check));
    assert_int_equal(check.by_sample, 0);
    assert_int_equal(check.read_again, 0);
    return check;
}

static void an_inspection_is_entered(void **state)
{
    (void)state;
    assert_int_equal(entered(FER_DECISION_ACCEPT, 0.01, 0.02).outcome, FER_OUTCOME_PASSED);
    assert_int_equal(entered(FER_DECISION_ACCEPT, 0.01, 0.02).limit, FER_MISSED_LIMIT_NOT_STATED);
    assert_int_equal(entered(FER_DECISION_UNDECIDED, 0.3, 0.0).outcome, FER_OUTCOME_UNDECIDED);
    assert_int_equal(entered(FER_DECISION_UNDECIDED, 0.3, 0.0).limit, FER_MISSED_LIMIT_NOT_STATED);
    assert_int_equal(entered(FER_DECISION_REJECT, 0.99, 0.0).outcome, FER_OUTCOME_FAILED);
    assert_int_equal(entered(FER_DECISION_REJECT, 0.99, 0.0).limit, FER_MISSED_LIMIT_LOWER);
    assert_int_equal(entered(FER_DECISION_REJECT, 0.0, 0.99).limit, FER_MISSED_LIMIT_UPPER);
    assert_int_equal(entered(FER_DECISION_REJECT, 0.5, 0.5).limit, FER_MISSED_LIMIT_NOT_STATED);
    assert_int_equal(entered(FER_DECISION_REJECT, NAN, NAN).limit, FER_MISSED_LIMIT_NOT_STATED);
}

/* Readings of 24.1 mm against 23.5 mm and 0.2 mm: above the upper limit. 22.9 mm: below the lower. */
static void a_real_inspection(void **state)
{
    (void)state;
    fer_setup setup;
    fer_order order = {0};
    const fer_press press = {0};
    const fer_die die = {.size = {19.0}};
    const fer_gauge gauge = {.standard_uncertainty = {0.01}};
    const double read[] = {24.1, 22.9, 23.5};
    const int limits[] = {FER_MISSED_LIMIT_UPPER, FER_MISSED_LIMIT_LOWER, FER_MISSED_LIMIT_NOT_STATED};
    order.joint = worked_joint();
    order.published = fer_mm(23.5);
    order.tolerance = fer_mm(0.2);
    CHECK_OK(fer_plan_setup(&order, &press, &die, 1, &setup));
    for (size_t i = 0; i < 3; i++) {
        const fer_reading reading = {.diameter = {read[i]}}, readings[] = {reading, reading};
        fer_inspection inspection;
        fer_diameter_check check;
        CHECK_OK(fer_inspect_crimp(&setup, readings, 2, &gauge, (fer_marks){0}, (fer_guard){0},
                                   (fer_process){0}, &inspection));
        CHECK_OK(fer_enter_inspection(&inspection, &check));
        assert_int_equal(check.outcome, i == 2 ? FER_OUTCOME_PASSED : FER_OUTCOME_FAILED);
        assert_int_equal(check.limit, limits[i]);
    }
}

/* Limits of every reading: seven of 23.66 mm and one of 23.1 mm have a mean nearer to the upper limit, and miss the lower. */
static void the_worst_reading_says_which_limit(void **state)
{
    (void)state;
    fer_setup setup = {.target = {23.5}, .segments = 8, .applies_to = FER_APPLIES_TO_EVERY_READING};
    const fer_gauge gauge = {.standard_uncertainty = {0.01}};
    fer_reading readings[8] = {{.diameter = {23.1}}};
    fer_inspection inspection;
    fer_diameter_check check;
    setup.limits.value = (fer_length_range){{23.3}, {23.7}};
    for (size_t i = 1; i < 8; i++) {
        readings[i].diameter = fer_mm(23.66);
    }
    CHECK_OK(fer_inspect_crimp(&setup, readings, 8, &gauge, (fer_marks){0}, (fer_guard){0}, (fer_process){0},
                               &inspection));
    assert_true(inspection.verdict.above.fraction > inspection.verdict.below.fraction);
    CHECK_OK(fer_enter_inspection(&inspection, &check));
    assert_int_equal(check.outcome, FER_OUTCOME_FAILED);
    assert_int_equal(check.limit, FER_MISSED_LIMIT_LOWER);
}

/* ---- bad arguments -------------------------------------------------------------------------------------- */

static void refused(fer_assembly_checks checks, fer_release_needs needs, fer_status status)
{
    const fer_release empty = {0};
    fer_release release;
    memset(&release, 0x55, sizeof release);
    CHECK_STATUS(fer_release_assembly(&checks, needs, &release), status);
    assert_memory_equal(&release, &empty, sizeof release);
    assert_int_equal(release.decision, FER_DISPOSITION_HOLD);
}

#define REFUSED(member, value, status)                                                                       \
    do {                                                                                                     \
        fer_assembly_checks checks = good_assembly();                                                        \
        checks.member = value;                                                                               \
        refused(checks, usual, status);                                                                      \
    } while (0)

static void bad_words_are_refused(void **state)
{
    (void)state;
    const int wrong[] = {4, -1};
    for (size_t i = 0; i < 2; i++) {
        const fer_outcome outcome = (fer_outcome)wrong[i];
        REFUSED(first.diameter.outcome, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(second.diameter.outcome, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(first.insertion, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(second.insertion, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(first.bore, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(parts, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(length, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(orientation, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(cleanliness, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(marking, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(proof.pressure, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(proof.leak, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(proof.movement, outcome, FER_OUTCOME_UNKNOWN);
        REFUSED(first.looks, (fer_end_look)(wrong[i] < 0 ? -1 : 6), FER_LOOK_UNKNOWN);
        REFUSED(first.diameter.limit, (fer_missed_limit)(wrong[i] < 0 ? -1 : 3), FER_LIMIT_SIDE_UNKNOWN);
    }
    REFUSED(second.diameter.limit, FER_MISSED_LIMIT_UPPER, FER_LIMIT_WITHOUT_FAILURE);
    REFUSED(hose_age, -1, FER_HOSE_AGE_OUT_OF_RANGE);
    REFUSED(hose_age, 1201, FER_HOSE_AGE_OUT_OF_RANGE);
    refused(good_assembly(), (fer_release_needs){{0}, -1}, FER_HOSE_AGE_LIMIT_OUT_OF_RANGE);
    refused(good_assembly(), (fer_release_needs){{0}, 1201}, FER_HOSE_AGE_LIMIT_OUT_OF_RANGE);
    refused(good_assembly(), (fer_release_needs){{1u << FER_NEED_COUNT}, 0}, FER_NEED_UNKNOWN);
}

static void bad_pieces_and_inspections_are_refused(void **state)
{
    (void)state;
    const fer_first_piece nothing = {0};
    const fer_diameter_check not_done = {0};
    fer_first_piece_checks checks = {good_end(), {1u << FER_CHANGE_COUNT}};
    fer_first_piece piece;
    fer_diameter_check check;
    fer_inspection inspection;
    memset(&piece, 0x55, sizeof piece);
    CHECK_STATUS(fer_check_first_piece(&checks, &piece), FER_CHANGE_UNKNOWN);
    assert_memory_equal(&piece, &nothing, sizeof piece);
    checks.changed.bits = 0;
    checks.piece.bore = (fer_outcome)4;
    memset(&piece, 0x55, sizeof piece);
    CHECK_STATUS(fer_check_first_piece(&checks, &piece), FER_OUTCOME_UNKNOWN);
    assert_memory_equal(&piece, &nothing, sizeof piece);
    CHECK_STATUS(fer_check_first_piece(NULL, &piece), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_check_first_piece(&checks, NULL), FER_ARGUMENT_MISSING);
    memset(&inspection, 0, sizeof inspection);
    inspection.decision = (fer_decision)3;
    memset(&check, 0x55, sizeof check);
    CHECK_STATUS(fer_enter_inspection(&inspection, &check), FER_DECISION_UNKNOWN);
    assert_memory_equal(&check, &not_done, sizeof check);
    CHECK_STATUS(fer_enter_inspection(NULL, &check), FER_ARGUMENT_MISSING);
    CHECK_STATUS(fer_enter_inspection(&inspection, NULL), FER_ARGUMENT_MISSING);
    fer_release release;
    const fer_assembly_checks assembly = good_assembly();
    CHECK_STATUS(fer_release_assembly(NULL, usual, &release), FER_ARGUMENT_MISSING);
    assert_int_equal(release.decision, FER_DISPOSITION_HOLD);
    CHECK_STATUS(fer_release_assembly(&assembly, usual, NULL), FER_ARGUMENT_MISSING);
}

/* ---- words ---------------------------------------------------------------------------------------------- */

/* The verdict on a diameter is called that: each sentence begins with the check that it is about. */
static void words_of_end_points(void **state)
{
    (void)state;
    int points = 0;
    for (int i = 0; i < FER_END_POINT_COUNT; i++) {
        const fer_end_point point = (fer_end_point)i;
        const char *sentence = fer_end_point_sentence(point), *name = fer_end_point_name(point);
        if (sentence[0] == '\0') {
            assert_string_equal(name, "UNKNOWN");
            assert_int_equal(fer_end_point_severity(point), FER_SEVERITY_STOP);
            continue;
        }
        points++;
        assert_true(strlen(sentence) > 30 && sentence[strlen(sentence) - 1] != '.');
        assert_int_equal(tolower(name[0]), sentence[0]);
        assert_true(strcspn(sentence, ":") == strcspn(name, "_"));
        assert_int_equal(fer_end_point_severity(point) == FER_SEVERITY_STOP, (scrap_of_ends >> i & 1u) != 0);
        assert_int_equal(fer_end_point_severity(point) == FER_SEVERITY_DO_FIRST, i >= 12 && i < 28);
    }
    assert_int_equal(points, 19);
    assert_int_equal(fer_end_point_severity(FER_END_POINT_DIAMETER_BY_SAMPLE), FER_SEVERITY_KNOW);
    assert_int_equal(fer_end_point_severity(FER_END_POINT_BORE_NOT_DONE), FER_SEVERITY_DO_FIRST);
    assert_string_equal(fer_end_point_name((fer_end_point)-1), "UNKNOWN");
    assert_string_equal(fer_end_point_sentence((fer_end_point)99), "");
    assert_int_equal(fer_end_point_severity((fer_end_point)99), FER_SEVERITY_STOP);
}

static void words_of_assembly_points(void **state)
{
    (void)state;
    int points = 0;
    for (int i = 0; i < FER_ASSEMBLY_POINT_COUNT; i++) {
        const fer_assembly_point point = (fer_assembly_point)i;
        const char *sentence = fer_assembly_point_sentence(point);
        if (sentence[0] == '\0') {
            assert_string_equal(fer_assembly_point_name(point), "UNKNOWN");
            continue;
        }
        points++;
        assert_true(strlen(sentence) > 20 && sentence[strlen(sentence) - 1] != '.');
        assert_true(islower((unsigned char)sentence[0]));
        assert_int_equal(fer_assembly_point_severity(point) == FER_SEVERITY_STOP,
                         (scrap_of_rest >> i & 1u) != 0);
        assert_int_equal(fer_assembly_point_severity(point) == FER_SEVERITY_CONFIRM, i >= 8 && i <= 10);
        assert_int_equal(fer_assembly_point_severity(point) == FER_SEVERITY_KNOW,
                         point == FER_ASSEMBLY_POINT_LESS_THAN_USUAL);
    }
    assert_int_equal(points, 22);
    assert_string_equal(fer_assembly_point_name(FER_ASSEMBLY_POINT_PROOF_LEAK), "PROOF_LEAK");
    assert_string_equal(fer_assembly_point_sentence((fer_assembly_point)-1), "");
    assert_int_equal(fer_assembly_point_severity((fer_assembly_point)99), FER_SEVERITY_STOP);
}

static void words_of_dispositions_and_changes(void **state)
{
    (void)state;
    const char *const names[] = {"HOLD", "RELEASED", "SCRAP"};
    for (int i = 0; i < FER_DISPOSITION_COUNT; i++) {
        assert_string_equal(fer_disposition_name((fer_disposition)i), names[i]);
        assert_true(strlen(fer_disposition_sentence((fer_disposition)i)) > 20);
    }
    assert_non_null(strstr(fer_disposition_sentence(FER_DISPOSITION_RELEASED), "released"));
    assert_non_null(strstr(fer_disposition_sentence((fer_disposition)3), "on hold"));
    assert_non_null(strstr(fer_disposition_sentence((fer_disposition)-1), "on hold"));
    assert_string_equal(fer_disposition_name((fer_disposition)3), "UNKNOWN");
    assert_string_equal(fer_change_name(FER_CHANGE_COUNT), "UNKNOWN");
    assert_string_equal(fer_change_sentence((fer_change)-1), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_check_alone),
        cmocka_unit_test(checks_in_pairs),
        cmocka_unit_test(what_is_not_needed),
        cmocka_unit_test(orientation_is_needed_with_two_elbows),
        cmocka_unit_test(left_out_on_one_end),
        cmocka_unit_test(age_of_the_hose),
        cmocka_unit_test(nothing_is_never_released),
        cmocka_unit_test(an_oversize_crimp_is_not_crimped_again),
        cmocka_unit_test(too_loose_with_a_good_diameter),
        cmocka_unit_test(cut_up_is_not_said_on_hold),
        cmocka_unit_test(cautions_by_decision),
        cmocka_unit_test(a_first_piece_lets_the_rest_be_crimped),
        cmocka_unit_test(a_sample_is_no_first_piece),
        cmocka_unit_test(any_change_makes_a_first_piece_due_again),
        cmocka_unit_test(an_inspection_is_entered),
        cmocka_unit_test(a_real_inspection),
        cmocka_unit_test(the_worst_reading_says_which_limit),
        cmocka_unit_test(bad_words_are_refused),
        cmocka_unit_test(bad_pieces_and_inspections_are_refused),
        cmocka_unit_test(words_of_end_points),
        cmocka_unit_test(words_of_assembly_points),
        cmocka_unit_test(words_of_dispositions_and_changes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
