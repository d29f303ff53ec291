/* SPDX-License-Identifier: MIT */
/* Run lengths of run rules.
 * Method: a Markov chain over histories cut to what can still complete a rule, carried on until it falls evenly; the rest is geometric.
 * Formulas: Champ and Woodall, Technometrics 29 (1987) 393-399 (from memory); batch/numeric/rule_chain.h. */
#include "batch/numeric/rule_chain.h"

#include <math.h>
#include <stdint.h>

#include "base/numeric/special.h"
#include "base/numeric/strict.h"

enum { states_maximum = 512, zones = 6, signal = 0xFFFF };

/* A history: for each side the last two numbers beyond 2 and the last four beyond 1, the newest the lowest bit; the run on one side. */
typedef struct {
    uint8_t twos[2], fours[2];
    int8_t run;
} history;

typedef struct {
    history of[states_maximum];
    uint16_t next[states_maximum][zones];
    int count;
} chain;

/* So many of the newest bits are set. */
static int set_among(unsigned bits, int newest)
{
    int set = 0;
    for (int i = 0; i < newest; i++) {
        set += (int)(bits >> i & 1u);
    }
    return set;
}

/* Bits that can no longer be among the so many that the rule wants, if all to come count, are dropped, the oldest first. */
static uint8_t cut(unsigned bits, int points, int window)
{
    unsigned kept = (1u << (window - 1)) - 1u;
    for (int to_come = 1; set_among(bits & kept, window) + to_come < points; to_come++) {
        kept >>= 1;
    }
    return (uint8_t)(bits & kept);
}

/* One number more: 1 where the rule signals. */
static int take(uint8_t *bits, unsigned hit, int points, int window)
{
    const unsigned all = (unsigned)*bits << 1 | hit;
    *bits = cut(all, points, window);
    return hit && set_among(all, window) >= points;
}

/* The history after a number in a zone: 0 to 2 above the centre, 3 to 5 below; 1 where a rule signals. */
static int step(const fer_run_rules *rules, history *h, int zone)
{
    const int side = zone / 3, place = zone % 3, way = side == 0 ? 1 : -1;
    int signals = 0;
    for (int s = 0; s < 2; s++) {
        if (rules->two_of_three) {
            signals |= take(&h->twos[s], s == side && place == 2, 2, 3);
        }
        if (rules->four_of_five) {
            signals |= take(&h->fours[s], s == side && place >= 1, 4, 5);
        }
    }
    if (rules->same_side > 0) {
        h->run = (int8_t)(h->run * way > 0 ? h->run + way : way);
        signals |= h->run * way >= rules->same_side;
    }
    return signals;
}

static int is_same(const history *a, const history *b)
{
    return a->twos[0] == b->twos[0] && a->twos[1] == b->twos[1] && a->fours[0] == b->fours[0] &&
           a->fours[1] == b->fours[1] && a->run == b->run;
}

/* Number of a history, a new one where it was not met before; states_maximum: there is no place for it. */
static int number_of(chain *c, const history *h)
{
    int i = 0;
    while (i < c->count && !is_same(&c->of[i], h)) {
        i++;
    }
    if (i == c->count && i < states_maximum) {
        c->of[c->count++] = *h;
    }
    return i;
}

static int fill(const fer_run_rules *rules, chain *c)
{
    const history none = {{0, 0}, {0, 0}, 0};
    c->count = 0;
    (void)number_of(c, &none);
    for (int i = 0; i < c->count; i++) {
        for (int zone = 0; zone < zones; zone++) {
            history h = c->of[i];
            const int signals = step(rules, &h, zone), number = signals ? signal : number_of(c, &h);
            if (number == states_maximum) {
                return 0;
            }
            c->next[i][zone] = (uint16_t)number;
        }
    }
    return 1;
}

/* Probability of each zone, by tails; zones beyond the limit are empty. */
static void find_shares(double beyond, double shift, double share[zones])
{
    const double edges[4] = {0.0, fmin(1.0, beyond), fmin(2.0, beyond), beyond};
    for (int i = 0; i < 3; i++) {
        share[i] = fer_normal_cdf(shift - edges[i]) - fer_normal_cdf(shift - edges[i + 1]);
        share[3 + i] = fer_normal_cdf(-shift - edges[i]) - fer_normal_cdf(-shift - edges[i + 1]);
    }
}

/* One step of all runs without a signal; share of them that signals. */
static double carry_on(const chain *c, const double share[zones], const double *before, double *after)
{
    double lost = 0.0;
    for (int i = 0; i < c->count; i++) {
        after[i] = 0.0;
    }
    for (int i = 0; i < c->count; i++) {
        for (int zone = 0; zone < zones; zone++) {
            const double part = before[i] * share[zone];
            if (c->next[i][zone] == signal) {
                lost += part;
            } else {
                after[c->next[i][zone]] += part;
            }
        }
    }
    return lost;
}

/* A rule that has not begun to count yet leaves the rate of signals even: the first steps say nothing. */
static double follow(const chain *c, const double share[zones], double outside, int first)
{
    double first_runs[states_maximum], second_runs[states_maximum], *before = first_runs,
                                                                    *after = second_runs;
    double length = 0.0, left = 1.0, rate = 0.0, last_rate = -1.0;
    for (int i = 0; i < c->count; i++) {
        before[i] = i == 0;
    }
    for (int i = 0; left > 1e-200 && (i < first || fabs(rate - last_rate) > 1e-14 * rate); i++) {
        const double lost = left * outside + carry_on(c, share, before, after);
        double *const moving = before;
        last_rate = rate;
        rate = lost / left;
        length += left;
        before = after;
        after = moving;
        left = 0.0;
        for (int k = 0; k < c->count; k++) {
            left += before[k];
        }
    }
    return length + left / rate;
}

double fer_rules_run_length(const fer_run_rules *rules, double shift)
{
    chain c;
    double share[zones];
    if (!fill(rules, &c)) {
        return NAN;
    }
    find_shares(rules->beyond, shift, share);
    return follow(&c, share, fer_normal_cdf(shift - rules->beyond) + fer_normal_cdf(-shift - rules->beyond),
                  3 * rules->same_side + 20);
}
