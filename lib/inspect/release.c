/* SPDX-License-Identifier: MIT */
/* Whether the rest may be crimped, and an assembly handed over.
 * Method: each check gives an open point or none, and the severities of the points decide.
 * Formulas: none; the rules are in docs/release.md. */
#include <ferrule/release.h>

#include "base/value_private.h"
#include "base/words.h"

/* ---- severities --------------------------------------------------------------------------------------- */

/* Points of each severity, from the column that also stands beside the words. */
static const fer_severities end_severities = FER_SEVERITIES_OF(FER_END_POINT_LIST);
static const fer_severities assembly_severities = FER_SEVERITIES_OF(FER_ASSEMBLY_POINT_LIST);

static uint64_t having(const fer_severities *severities, fer_severity severity)
{
    return (uint64_t)severities->of[severity];
}

/* ---- arguments ---------------------------------------------------------------------------------------- */

static int is_outcome(fer_outcome outcome)
{
    return (unsigned)outcome <= FER_OUTCOME_UNDECIDED;
}

static fer_status check_end(const fer_end_checks *end)
{
    const fer_diameter_check *diameter = &end->diameter;
    FER_REQUIRE(is_outcome(diameter->outcome) && is_outcome(end->insertion) && is_outcome(end->bore),
                FER_OUTCOME_UNKNOWN);
    FER_REQUIRE((unsigned)end->looks <= FER_END_LOOK_UNDECIDED, FER_LOOK_UNKNOWN);
    FER_REQUIRE((unsigned)diameter->limit <= FER_MISSED_LIMIT_UPPER, FER_LIMIT_SIDE_UNKNOWN);
    FER_REQUIRE(diameter->limit == FER_MISSED_LIMIT_NOT_STATED || diameter->outcome == FER_OUTCOME_FAILED,
                FER_LIMIT_WITHOUT_FAILURE);
    return FER_OK;
}

static int is_age(int months)
{
    return months >= 0 && months <= FER_HOSE_AGE_MAXIMUM;
}

static fer_status check_assembly(const fer_assembly_checks *checks)
{
    const fer_outcome outcomes[] = {checks->parts,       checks->length,        checks->orientation,
                                    checks->cleanliness, checks->marking,       checks->proof.pressure,
                                    checks->proof.leak,  checks->proof.movement};
    for (size_t i = 0; i < sizeof outcomes / sizeof *outcomes; i++) {
        FER_REQUIRE(is_outcome(outcomes[i]), FER_OUTCOME_UNKNOWN);
    }
    FER_REQUIRE(is_age(checks->hose_age), FER_HOSE_AGE_OUT_OF_RANGE);
    FER_TRY(check_end(&checks->first));
    return check_end(&checks->second);
}

/* ---- points of an end --------------------------------------------------------------------------------- */

/* Numbers of the points that a check gives where it was not done, is undecided, or failed. */
typedef struct {
    uint8_t not_done, undecided, failed;
} point_numbers;

static void look_at(fer_outcome outcome, int needed, point_numbers numbers, uint64_t *points)
{
    if (outcome == FER_OUTCOME_FAILED) {
        fer_set_add(points, numbers.failed);
    } else if (outcome == FER_OUTCOME_UNDECIDED) {
        fer_set_add(points, numbers.undecided);
    } else if (outcome == FER_OUTCOME_NOT_DONE && needed) {
        fer_set_add(points, numbers.not_done);
    }
}

static uint8_t failed_diameter(const fer_diameter_check *diameter)
{
    static const uint8_t by_limit[] = {FER_END_POINT_DIAMETER_OUTSIDE, FER_END_POINT_DIAMETER_BELOW,
                                       FER_END_POINT_DIAMETER_ABOVE};
    if (diameter->by_sample) {
        return FER_END_POINT_DIAMETER_SAMPLE_FAILED;
    }
    if (!diameter->read_again) {
        return FER_END_POINT_DIAMETER_READ_AGAIN;
    }
    return by_limit[diameter->limit];
}

static void look_at_diameter(const fer_diameter_check *diameter, int needed, uint64_t *points)
{
    const point_numbers numbers = {FER_END_POINT_DIAMETER_NOT_DONE, FER_END_POINT_DIAMETER_UNDECIDED,
                                   failed_diameter(diameter)};
    look_at(diameter->outcome, needed, numbers, points);
    if (diameter->outcome == FER_OUTCOME_PASSED && diameter->by_sample) {
        fer_set_add(points, FER_END_POINT_DIAMETER_BY_SAMPLE);
    }
}

static void look_at_looks(fer_end_look looks, int needed, uint64_t *points)
{
    static const uint8_t numbers[] = {/* in the order of fer_end_look; good looks have none */
                                      FER_END_POINT_LOOKS_NOT_DONE,  0,
                                      FER_END_POINT_LOOKS_TOO_TIGHT, FER_END_POINT_LOOKS_TOO_LOOSE,
                                      FER_END_POINT_LOOKS_DAMAGED,   FER_END_POINT_LOOKS_UNDECIDED};
    if (looks == FER_END_LOOK_NOT_DONE ? needed : looks != FER_END_LOOK_GOOD) {
        fer_set_add(points, numbers[looks]);
    }
}

static fer_end_points find_end_points(const fer_end_checks *end, uint64_t needed)
{
    const point_numbers insertion = {FER_END_POINT_INSERTION_NOT_DONE, FER_END_POINT_INSERTION_UNDECIDED,
                                     FER_END_POINT_INSERTION_SHORT};
    const point_numbers bore = {FER_END_POINT_BORE_NOT_DONE, FER_END_POINT_BORE_UNDECIDED,
                                FER_END_POINT_BORE_TOO_SMALL};
    fer_end_points points = {0};
    look_at(end->insertion, fer_set_has(needed, FER_NEED_INSERTION), insertion, &points.bits);
    look_at_diameter(&end->diameter, fer_set_has(needed, FER_NEED_DIAMETER), &points.bits);
    look_at_looks(end->looks, fer_set_has(needed, FER_NEED_LOOKS), &points.bits);
    look_at(end->bore, fer_set_has(needed, FER_NEED_BORE), bore, &points.bits);
    return points;
}

/* ---- points of the rest ------------------------------------------------------------------------------- */

/* All of a proof test as one outcome. What failed stays failed, also where the rig leaked or the pressure fell: a test
 * that was only half looked at is undecided. */
static fer_outcome proof_outcome(const fer_proof_test *proof)
{
    const fer_outcome parts[] = {proof->pressure, proof->leak, proof->movement};
    int passed = 0, untouched = !proof->rig_leak;
    if (proof->leak == FER_OUTCOME_FAILED || proof->movement == FER_OUTCOME_FAILED) {
        return FER_OUTCOME_FAILED;
    }
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        passed += parts[i] == FER_OUTCOME_PASSED;
        untouched &= parts[i] == FER_OUTCOME_NOT_DONE;
    }
    if (untouched) {
        return FER_OUTCOME_NOT_DONE;
    }
    return passed == 3 && !proof->rig_leak ? FER_OUTCOME_PASSED : FER_OUTCOME_UNDECIDED;
}

static void look_at_proof(const fer_proof_test *proof, int needed, uint64_t *points)
{
    const point_numbers numbers = {FER_ASSEMBLY_POINT_PROOF_NOT_DONE, FER_ASSEMBLY_POINT_PROOF_NO_RESULT,
                                   FER_ASSEMBLY_POINT_PROOF_LEAK};
    const fer_outcome outcome = proof_outcome(proof);
    if (outcome != FER_OUTCOME_FAILED) {
        look_at(outcome, needed, numbers, points);
        return;
    }
    if (proof->leak == FER_OUTCOME_FAILED) {
        fer_set_add(points, FER_ASSEMBLY_POINT_PROOF_LEAK);
    }
    if (proof->movement == FER_OUTCOME_FAILED) {
        fer_set_add(points, FER_ASSEMBLY_POINT_PROOF_MOVEMENT);
    }
}

/* The date on the hose, as a check. */
static fer_outcome date_outcome(int age, int limit)
{
    if (age == 0) {
        return FER_OUTCOME_NOT_DONE;
    }
    return age <= (limit ? limit : FER_HOSE_AGE_USUAL) ? FER_OUTCOME_PASSED : FER_OUTCOME_FAILED;
}

enum { rest_count = 6 };

/* The checks of the whole assembly that have one outcome each. */
typedef struct {
    fer_need need;
    fer_outcome outcome;
    point_numbers numbers;
} rest_check;

#define NUMBERS(what, failed)                                                                                \
    {                                                                                                        \
        FER_ASSEMBLY_POINT_##what##_NOT_DONE, FER_ASSEMBLY_POINT_##what##_UNDECIDED,                         \
            FER_ASSEMBLY_POINT_##failed                                                                      \
    }

static void list_rest(const fer_assembly_checks *checks, int age_limit, rest_check rest[rest_count])
{
    const fer_outcome date = date_outcome(checks->hose_age, age_limit);
    const rest_check all[rest_count] = {
        {FER_NEED_PARTS, checks->parts, NUMBERS(PARTS, PARTS_WRONG)},
        /* a date is read or not, so it is never undecided */
        {FER_NEED_HOSE_DATE,
         date,
         {FER_ASSEMBLY_POINT_HOSE_DATE_NOT_READ, FER_ASSEMBLY_POINT_HOSE_DATE_NOT_READ,
          FER_ASSEMBLY_POINT_HOSE_TOO_OLD}},
        {FER_NEED_LENGTH, checks->length, NUMBERS(LENGTH, LENGTH_WRONG)},
        {FER_NEED_ORIENTATION, checks->orientation, NUMBERS(ORIENTATION, ORIENTATION_WRONG)},
        {FER_NEED_CLEANLINESS, checks->cleanliness, NUMBERS(CLEANLINESS, CLEANLINESS_FAILED)},
        {FER_NEED_MARKING, checks->marking, NUMBERS(MARKING, MARKING_WRONG)},
    };
    memcpy(rest, all, sizeof all);
}

/* Checks that were not done; of those of an end, on one end at least. */
static uint64_t find_missing(const fer_assembly_checks *checks, const rest_check rest[rest_count])
{
    const fer_end_checks *ends[] = {&checks->first, &checks->second};
    uint64_t missing = 0;
    for (size_t i = 0; i < 2; i++) {
        missing |= (uint64_t)(ends[i]->diameter.outcome == FER_OUTCOME_NOT_DONE) << FER_NEED_DIAMETER |
                   (uint64_t)(ends[i]->insertion == FER_OUTCOME_NOT_DONE) << FER_NEED_INSERTION |
                   (uint64_t)(ends[i]->looks == FER_END_LOOK_NOT_DONE) << FER_NEED_LOOKS |
                   (uint64_t)(ends[i]->bore == FER_OUTCOME_NOT_DONE) << FER_NEED_BORE;
    }
    for (size_t i = 0; i < rest_count; i++) {
        missing |= (uint64_t)(rest[i].outcome == FER_OUTCOME_NOT_DONE) << rest[i].need;
    }
    return missing | (uint64_t)(proof_outcome(&checks->proof) == FER_OUTCOME_NOT_DONE) << FER_NEED_PROOF;
}

/* ---- the calls ---------------------------------------------------------------------------------------- */

static uint64_t usual_needs(const fer_assembly_checks *checks)
{
    const uint64_t all = (UINT64_C(1) << FER_NEED_COUNT) - 1;
    return checks->straight ? all & ~(UINT64_C(1) << FER_NEED_ORIENTATION) : all;
}

static void find_points(const fer_assembly_checks *checks, fer_release_needs needs, fer_release *release)
{
    const uint64_t usual = usual_needs(checks), needed = needs.needed.bits ? needs.needed.bits : usual;
    uint64_t *points = &release->assembly.bits;
    rest_check rest[rest_count];
    list_rest(checks, needs.hose_age_limit, rest);
    release->first = find_end_points(&checks->first, needed);
    release->second = find_end_points(&checks->second, needed);
    for (size_t i = 0; i < rest_count; i++) {
        look_at(rest[i].outcome, fer_set_has(needed, (int)rest[i].need), rest[i].numbers, points);
    }
    look_at_proof(&checks->proof, fer_set_has(needed, FER_NEED_PROOF), points);
    release->left_out.bits = usual & ~needed & find_missing(checks, rest);
    if (release->left_out.bits) {
        fer_set_add(points, FER_ASSEMBLY_POINT_LESS_THAN_USUAL);
    }
}

/* Of scrap, what would have to be done is no longer asked for. */
static void keep_grave_points(fer_release *release)
{
    release->first.bits &=
        having(&end_severities, FER_SEVERITY_STOP) | having(&end_severities, FER_SEVERITY_KNOW);
    release->second.bits &=
        having(&end_severities, FER_SEVERITY_STOP) | having(&end_severities, FER_SEVERITY_KNOW);
    release->assembly.bits &=
        having(&assembly_severities, FER_SEVERITY_STOP) | having(&assembly_severities, FER_SEVERITY_KNOW);
}

static void decide(fer_release *release)
{
    const uint64_t ends = release->first.bits | release->second.bits, rest = release->assembly.bits;
    const uint64_t pressure = fer_stage_cautions(FER_STAGE_PRESSURE).bits;
    if ((ends & having(&end_severities, FER_SEVERITY_STOP)) ||
        (rest & having(&assembly_severities, FER_SEVERITY_STOP))) {
        release->decision = FER_DISPOSITION_SCRAP;
        release->cautions.bits = pressure | fer_stage_cautions(FER_STAGE_FAILURE).bits;
        keep_grave_points(release);
    } else if ((ends & ~having(&end_severities, FER_SEVERITY_KNOW)) ||
               (rest & ~having(&assembly_severities, FER_SEVERITY_KNOW))) {
        release->decision = FER_DISPOSITION_HOLD;
        release->cautions.bits = pressure | fer_stage_cautions(FER_STAGE_HOLD).bits;
    } else {
        release->decision = FER_DISPOSITION_RELEASED;
        release->cautions.bits = pressure;
    }
}

fer_status fer_release_assembly(const fer_assembly_checks *checks, fer_release_needs needs,
                                fer_release *release)
{
    FER_REQUIRE(release, FER_ARGUMENT_MISSING);
    FER_EMPTY(*release);
    FER_REQUIRE(checks, FER_ARGUMENT_MISSING);
    FER_REQUIRE(needs.needed.bits >> FER_NEED_COUNT == 0, FER_NEED_UNKNOWN);
    FER_REQUIRE(is_age(needs.hose_age_limit), FER_HOSE_AGE_LIMIT_OUT_OF_RANGE);
    FER_TRY(check_assembly(checks));
    find_points(checks, needs, release);
    decide(release);
    return FER_OK;
}

static const uint64_t first_piece_needs =
    UINT64_C(1) << FER_NEED_DIAMETER | UINT64_C(1) << FER_NEED_LOOKS | UINT64_C(1) << FER_NEED_BORE;

fer_status fer_check_first_piece(const fer_first_piece_checks *checks, fer_first_piece *first_piece)
{
    FER_REQUIRE(first_piece, FER_ARGUMENT_MISSING);
    FER_EMPTY(*first_piece);
    FER_REQUIRE(checks, FER_ARGUMENT_MISSING);
    FER_REQUIRE(checks->changed.bits >> FER_CHANGE_COUNT == 0, FER_CHANGE_UNKNOWN);
    FER_TRY(check_end(&checks->piece));
    fer_end_checks own = checks->piece;
    if (own.diameter.by_sample && own.diameter.outcome == FER_OUTCOME_PASSED) {
        own.diameter.outcome = FER_OUTCOME_NOT_DONE; /* it says nothing of this piece */
    }
    first_piece->points = find_end_points(&own, first_piece_needs);
    first_piece->rest_allowed = first_piece->points.bits == 0 && checks->changed.bits == 0;
    first_piece->changed = checks->changed;
    first_piece->due_after.bits = (UINT64_C(1) << FER_CHANGE_COUNT) - 1;
    first_piece->cautions = fer_stage_cautions(FER_STAGE_TRIAL);
    if (first_piece->points.bits & having(&end_severities, FER_SEVERITY_STOP)) {
        first_piece->cautions.bits |= fer_stage_cautions(FER_STAGE_FAILURE).bits;
    } else if (!first_piece->rest_allowed) {
        first_piece->cautions.bits |= fer_stage_cautions(FER_STAGE_HOLD).bits;
    }
    return FER_OK;
}

/* NaN on both sides leaves it open which limit was missed. */
static fer_missed_limit likelier_side(const fer_verdict *verdict)
{
    if (verdict->below.fraction > verdict->above.fraction) {
        return FER_MISSED_LIMIT_LOWER;
    }
    return verdict->above.fraction > verdict->below.fraction ? FER_MISSED_LIMIT_UPPER
                                                             : FER_MISSED_LIMIT_NOT_STATED;
}

/* The reading that is farthest beyond a limit says which; the mean only where none is. */
static fer_missed_limit missed_limit(const fer_inspection *inspection)
{
    if (inspection->worst.mm < inspection->limits.lower.mm) {
        return FER_MISSED_LIMIT_LOWER;
    }
    return inspection->worst.mm > inspection->limits.upper.mm ? FER_MISSED_LIMIT_UPPER
                                                              : likelier_side(&inspection->verdict);
}

fer_status fer_enter_inspection(const fer_inspection *inspection, fer_diameter_check *check)
{
    FER_REQUIRE(check, FER_ARGUMENT_MISSING);
    FER_EMPTY(*check);
    FER_REQUIRE(inspection, FER_ARGUMENT_MISSING);
    FER_REQUIRE((unsigned)inspection->decision <= FER_DECISION_REJECT, FER_DECISION_UNKNOWN);
    if (inspection->decision == FER_DECISION_ACCEPT) {
        check->outcome = FER_OUTCOME_PASSED;
    } else if (inspection->decision == FER_DECISION_REJECT) {
        check->outcome = FER_OUTCOME_FAILED;
        check->limit = missed_limit(inspection);
    } else {
        check->outcome = FER_OUTCOME_UNDECIDED;
    }
    return FER_OK;
}

/* ---- words -------------------------------------------------------------------------------------------- */

typedef struct {
    FER_END_POINT_LIST(FER_WORDS_MEMBERS_OF_FOUR)
} end_words;
typedef struct {
    FER_ASSEMBLY_POINT_LIST(FER_WORDS_MEMBERS_OF_FOUR)
} assembly_words;
typedef struct {
    FER_DISPOSITION_LIST(FER_WORDS_MEMBERS)
} disposition_words;
typedef struct {
    FER_CHANGE_LIST(FER_WORDS_MEMBERS)
} change_words;

static const end_words words_of_ends = {FER_END_POINT_LIST(FER_WORDS_TEXT_OF_FOUR)};
static const assembly_words words_of_assemblies = {FER_ASSEMBLY_POINT_LIST(FER_WORDS_TEXT_OF_FOUR)};
static const disposition_words words_of_dispositions = {FER_DISPOSITION_LIST(FER_WORDS_TEXT)};
static const change_words words_of_changes = {FER_CHANGE_LIST(FER_WORDS_TEXT)};

#define END_PLACE(name, number, severity, sentence)      FER_WORDS_PLACE(end_words, name, number)
#define ASSEMBLY_PLACE(name, number, severity, sentence) FER_WORDS_PLACE(assembly_words, name, number)
#define DISPOSITION_PLACE(name, number, sentence)        FER_WORDS_PLACE(disposition_words, name, number)
#define CHANGE_PLACE(name, number, sentence)             FER_WORDS_PLACE(change_words, name, number)
static const fer_word_place end_points[] = {FER_END_POINT_LIST(END_PLACE)};
static const fer_word_place assembly_points[] = {FER_ASSEMBLY_POINT_LIST(ASSEMBLY_PLACE)};
static const fer_word_place dispositions[] = {FER_DISPOSITION_LIST(DISPOSITION_PLACE)};
static const fer_word_place changes[] = {FER_CHANGE_LIST(CHANGE_PLACE)};

#define COUNT_OF(places) (sizeof(places) / sizeof *(places))

const char *fer_end_point_name(fer_end_point point)
{
    const char *name =
        fer_name_among((const char *)&words_of_ends, end_points, COUNT_OF(end_points), (int)point);
    return name ? name : "UNKNOWN";
}

const char *fer_end_point_sentence(fer_end_point point)
{
    const char *sentence =
        fer_sentence_among((const char *)&words_of_ends, end_points, COUNT_OF(end_points), (int)point);
    return sentence ? sentence : "";
}

fer_severity fer_end_point_severity(fer_end_point point)
{
    return fer_severity_among(&end_severities, (int)point);
}

const char *fer_assembly_point_name(fer_assembly_point point)
{
    const char *name = fer_name_among((const char *)&words_of_assemblies, assembly_points,
                                      COUNT_OF(assembly_points), (int)point);
    return name ? name : "UNKNOWN";
}

const char *fer_assembly_point_sentence(fer_assembly_point point)
{
    const char *sentence = fer_sentence_among((const char *)&words_of_assemblies, assembly_points,
                                              COUNT_OF(assembly_points), (int)point);
    return sentence ? sentence : "";
}

fer_severity fer_assembly_point_severity(fer_assembly_point point)
{
    return fer_severity_among(&assembly_severities, (int)point);
}

const char *fer_disposition_name(fer_disposition disposition)
{
    const char *name = fer_name_among((const char *)&words_of_dispositions, dispositions,
                                      COUNT_OF(dispositions), (int)disposition);
    return name ? name : "UNKNOWN";
}

const char *fer_disposition_sentence(fer_disposition disposition)
{
    const char *sentence = fer_sentence_among((const char *)&words_of_dispositions, dispositions,
                                              COUNT_OF(dispositions), (int)disposition);
    return sentence ? sentence : fer_disposition_sentence(FER_DISPOSITION_HOLD);
}

const char *fer_change_name(fer_change change)
{
    const char *name =
        fer_name_among((const char *)&words_of_changes, changes, COUNT_OF(changes), (int)change);
    return name ? name : "UNKNOWN";
}

const char *fer_change_sentence(fer_change change)
{
    const char *sentence =
        fer_sentence_among((const char *)&words_of_changes, changes, COUNT_OF(changes), (int)change);
    return sentence ? sentence : "";
}
