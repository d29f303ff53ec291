/* SPDX-License-Identifier: MIT */
/* Processor time of calls of module `hose`: name and microseconds a line. bench_hose.py compiles and runs it. With a name: that call alone,
 * a thousand times, for an instruction counter. All figures are invented. */
#include <ferrule/ferrule.h>

#include <stdio.h>
#include <string.h>
#include <time.h>

static const fer_ferrule ferrule = {{2.4}, {25.6}, {28.0}};
static const fer_material certificate = {{206000.0}, {0.3}, {300.0}, {700.0}};
static const fer_closing on_hose = {{219200.0}, {23.55}, {28.0}, {29.41}},
                         bare = {{171000.0}, {23.55}, {28.0}, {29.62}};
static const fer_closing_uncertainties known = {{0.01}, {0.08}, {0.11}, {0.03}, {0.02}, {0.02}};
static const fer_stem stem = {{12.95}, {9.0}};
static double sum; /* of results, so that no call is left out */

static void closed(void)
{
    const fer_forming_load load = {{0.3}, {30.0}};
    fer_forming forming;
    (void)fer_form_ferrule(&ferrule, fer_mm(23.5), &certificate, load, &forming);
    sum += forming.pressure.mpa;
}

static void find(fer_closing other)
{
    fer_hose_squeeze squeeze;
    (void)fer_find_hose_pressure(&ferrule, &on_hose, &certificate, other, known, &squeeze);
    sum += squeeze.pressure.mpa;
}

static void by_certificate(void)
{
    const fer_closing none = {{0.0}, {0.0}, {0.0}, {0.0}};
    find(none);
}

static void by_twin(void)
{
    find(bare);
}

static void effective_yield_strength(void)
{
    fer_pressure found;
    (void)fer_find_effective_yield_strength(&ferrule, &bare, &certificate, &found);
    sum += found.mpa;
}

static void restraint(void)
{
    fer_ratio found;
    (void)fer_find_restraint(&ferrule, &on_hose, &certificate, fer_mpa(30.0), &found);
    sum += found.fraction;
}

static void from_bore(void)
{
    const fer_forming_load load = {{1.0}, {0.0}};
    fer_pressure found;
    (void)fer_hose_pressure_from_bore(&stem, fer_mm(0.01), &certificate, load, &found);
    sum += found.mpa;
}

static const struct {
    const char *name;
    void (*call)(void);
} calls[] = {{"form_ferrule", closed},
             {"find_hose_pressure", by_certificate},
             {"find_hose_pressure_twin", by_twin},
             {"find_effective_yield_strength", effective_yield_strength},
             {"find_restraint", restraint},
             {"hose_pressure_from_bore", from_bore}};

/* Best of rounds in which all take their turn. */
static void time_all(void)
{
    enum { count = sizeof calls / sizeof *calls, rounds = 15, times = 300 };
    double best[count];
    for (int round = 0; round < rounds; round++) {
        for (int i = 0; i < count; i++) {
            const clock_t start = clock();
            for (int k = 0; k < times; k++) {
                calls[i].call();
            }
            const double microseconds = 1e6 * (double)(clock() - start) / CLOCKS_PER_SEC / times;
            best[i] = round == 0 || microseconds < best[i] ? microseconds : best[i];
        }
    }
    for (int i = 0; i < count; i++) {
        printf("%s %.3f\n", calls[i].name, best[i]);
    }
}

int main(int argument_count, char **arguments)
{
    for (size_t i = 0; argument_count > 1 && i < sizeof calls / sizeof *calls; i++) {
        for (int k = 0; k < 1000 && strcmp(arguments[1], calls[i].name) == 0; k++) {
            calls[i].call();
        }
    }
    if (argument_count == 1) {
        time_all();
    }
    return sum == 0.0;
}
