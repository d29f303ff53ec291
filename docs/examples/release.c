/* SPDX-License-Identifier: MIT */
/* From a first piece to an assembly that may be handed over. What was found is invented. */
#include <ferrule/ferrule.h>

#include <stdio.h>

static void say_end(const char *end, fer_end_points points)
{
    for (int i = 0; i < FER_END_POINT_COUNT; i++) {
        if (points.bits >> i & 1u) {
            printf("  %s, %s\n", end, fer_end_point_sentence((fer_end_point)i));
        }
    }
}

static int say_release(const char *when, const fer_assembly_checks *checks)
{
    fer_release release;
    if (fer_release_assembly(checks, (fer_release_needs){0}, &release) != FER_OK) {
        return 1;
    }
    printf("%s: %s\n", when, fer_disposition_sentence(release.decision));
    say_end("first end", release.first);
    say_end("second end", release.second);
    for (int i = 0; i < FER_ASSEMBLY_POINT_COUNT; i++) {
        if (release.assembly.bits >> i & 1u) {
            printf("  %s\n", fer_assembly_point_sentence((fer_assembly_point)i));
        }
    }
    return 0;
}

int main(void)
{
    const fer_end_checks good = {.diameter = {.outcome = FER_OUTCOME_PASSED},
                                 .looks = FER_END_LOOK_GOOD,
                                 .insertion = FER_OUTCOME_PASSED,
                                 .bore = FER_OUTCOME_PASSED};
    fer_assembly_checks checks = {.first = good, .second = good, .straight = 1, .hose_age = 9};
    fer_first_piece piece;
    checks.parts = checks.length = checks.cleanliness = checks.marking = FER_OUTCOME_PASSED;
    if (fer_check_first_piece(&(fer_first_piece_checks){.piece = good}, &piece) != FER_OK) {
        return 1;
    }
    printf("first piece: %s\n", piece.rest_allowed ? "the rest may be crimped" : "crimp nothing more");
    int failed = say_release("before the proof test", &checks);
    checks.proof.pressure = checks.proof.leak = checks.proof.movement = FER_OUTCOME_PASSED;
    failed += say_release("after it", &checks);
    checks.second.looks = FER_END_LOOK_TOO_LOOSE; /* the diameter is good all the same */
    failed += say_release("looked at again", &checks);
    return failed != 0;
}
