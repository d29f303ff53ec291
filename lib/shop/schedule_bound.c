/* SPDX-License-Identifier: MIT */
/* What no order of a day's jobs can better.
 * Method: dies that cover all kinds, by prices of kinds; settings, reels and bins counted; spanning trees with prices of nodes.
 * Formulas: docs/schedule.md. */
#include <ferrule/schedule.h>

#include "crimp/die_private.h"
#include "shop/schedule_private.h"

/* ---- covers ----------------------------------------------------------------------------------------------------- */

enum { most_adapters = 6 };

/* A question of a cover: dies in order of size, the adapters that may go in, and what is left of the dies' prices. */
typedef struct {
    const fer_day *day;
    uint32_t until; /* kinds with a batch due until then */
    size_t adapters;
    uint32_t adapter[most_adapters];         /* those that are not mounted */
    int is_free;                             /* there are more of them: they count as free */
    unsigned allowed;                        /* a bit for each */
    size_t place[FER_SCHEDULE_DIES_MAXIMUM]; /* of each die by size and end */
    uint32_t order[FER_SCHEDULE_DIES_MAXIMUM];
    int left[FER_SCHEDULE_DIES_MAXIMUM];
} cover;

static int is_asked(const cover *c, size_t kind)
{
    const size_t first = fer_first_batch(c->day, kind); /* the earliest of the kind */
    return c->until == FER_NONE || fer_due_of(c->day, first) <= c->until;
}

static void sort_dies(cover *c)
{
    const fer_die *const dies = c->day->dies;
    for (size_t i = 0; i < c->day->die_count; i++) {
        size_t place = i;
        for (; place > 0; place--) {
            const fer_die *const before = &dies[c->order[place - 1]];
            if (before->size.mm < dies[i].size.mm ||
                (before->size.mm == dies[i].size.mm && fer_die_end(before) <= fer_die_end(&dies[i]))) {
                break;
            }
            c->order[place] = c->order[place - 1];
        }
        c->order[place] = (uint32_t)i;
    }
    for (size_t i = 0; i < c->day->die_count; i++) {
        c->place[c->order[i]] = i;
    }
}

static void list_adapters(cover *c)
{
    const uint32_t mounted = fer_mode_at(c->day, c->day->mode_count)[0].pair[0];
    for (size_t mode = 0; mode < c->day->mode_count; mode++) {
        const uint32_t adapter = fer_mode_at(c->day, mode)[0].pair[0];
        int is_listed = adapter == mounted;
        for (size_t i = 0; i < c->adapters; i++) {
            is_listed |= c->adapter[i] == adapter;
        }
        if (!is_listed && c->adapters == most_adapters) {
            c->is_free = 1;
            c->adapters = 0;
            return;
        }
        if (!is_listed) {
            c->adapter[c->adapters++] = adapter;
        }
    }
}

/* Whether a mode's adapter is mounted or may go in. */
static int is_allowed(const cover *c, size_t mode)
{
    for (size_t i = 0; i < c->adapters; i++) {
        if (c->adapter[i] == fer_mode_at(c->day, mode)[0].pair[0]) {
            return (int)(c->allowed >> i & 1u);
        }
    }
    return 1;
}

/* First and last place of the dies that do a kind; 0: none of those allowed does. */
static int find_places(const cover *c, size_t kind, size_t *first, size_t *last)
{
    int is_there = 0;
    for (size_t i = 0; i < fer_modes_of(c->day, kind); i++) {
        const size_t mode = fer_first_mode(c->day, kind) + i,
                     place = c->place[fer_mode_at(c->day, mode)[0].pair[1]];
        if (is_allowed(c, mode)) {
            *first = is_there && *first < place ? *first : place;
            *last = is_there && *last > place ? *last : place;
            is_there = 1;
        }
    }
    return is_there;
}

/* What is left of the price of a kind's cheapest die is the kind's, and is taken off all of its dies. */
static int take_price(cover *c, size_t kind)
{
    int price = INT32_MAX;
    for (int is_second = 0; is_second < 2; is_second++) {
        for (size_t i = 0; i < fer_modes_of(c->day, kind); i++) {
            const size_t mode = fer_first_mode(c->day, kind) + i;
            int *const left = &c->left[fer_mode_at(c->day, mode)[0].pair[1]];
            if (is_allowed(c, mode)) {
                *left -= is_second ? price : 0;
                price = !is_second && *left < price ? *left : price;
            }
        }
    }
    return price;
}

/* The kinds that are asked in the order of their largest die, then of the smallest, in day->trial; 0: one has no die. */
static int sort_kinds(const cover *c, size_t *count)
{
    fer_work *const sorted = c->day->trial;
    *count = 0;
    for (size_t kind = 0; kind < c->day->kind_count; kind++) {
        size_t first = 0, last = 0, place = *count;
        if (!is_asked(c, kind)) {
            continue;
        }
        if (!find_places(c, kind, &first, &last)) {
            return 0;
        }
        const uint32_t key = (uint32_t)(last * FER_SCHEDULE_DIES_MAXIMUM + first);
        for (; place > 0 && sorted[place - 1].pair[1] > key; place--) {
            sorted[place] = sorted[place - 1];
        }
        sorted[place].pair[0] = (uint32_t)kind;
        sorted[place].pair[1] = key;
        ++*count;
    }
    return 1;
}

/* Sum of the prices of all kinds that are asked, which stay in their marks; negative: one has no die. */
static double price_kinds(cover *c)
{
    const fer_day *const day = c->day;
    const uint32_t mounted = fer_mode_at(day, day->mode_count)[0].pair[1];
    double sum = 0.0;
    size_t count;
    for (size_t die = 0; die < day->die_count; die++) {
        c->left[die] = die == mounted ? 0 : day->times.die_seconds;
    }
    if (!sort_kinds(c, &count)) {
        return -1.0;
    }
    for (size_t i = 0; i < count; i++) {
        const size_t kind = day->trial[i].pair[0];
        const int price = take_price(c, kind);
        day->marks[kind].bits = (uint64_t)price;
        sum += price;
    }
    return sum;
}

static int has_die(const uint64_t *chosen, uint32_t die)
{
    return (int)(chosen[die / 64] >> die % 64 & 1u);
}

/* Whether a kind's dies hold one, and whether they hold one that is chosen. */
static int is_done_by(const cover *c, size_t kind, uint32_t die)
{
    for (size_t i = 0; i < fer_modes_of(c->day, kind); i++) {
        const size_t mode = fer_first_mode(c->day, kind) + i;
        if (fer_mode_at(c->day, mode)[0].pair[1] == die) {
            return 1;
        }
    }
    return 0;
}

static int is_done(const cover *c, size_t kind, const uint64_t *chosen)
{
    for (size_t i = 0; i < fer_modes_of(c->day, kind); i++) {
        const size_t mode = fer_first_mode(c->day, kind) + i;
        if (is_allowed(c, mode) && has_die(chosen, fer_mode_at(c->day, mode)[0].pair[1])) {
            return 1;
        }
    }
    return 0;
}

/* Whether no kind with a price has this die and one that is chosen. */
static int is_wanted(const cover *c, uint32_t die, const uint64_t *chosen)
{
    for (size_t kind = 0; kind < c->day->kind_count; kind++) {
        if (c->day->marks[kind].bits > 0 && is_done_by(c, kind, die) && is_done(c, kind, chosen)) {
            return 0;
        }
    }
    return 1;
}

/* The dies of which nothing is left, from the largest on, where they are wanted; then the nearest die of each kind that still has none. In
 * order these are as dear as all prices. */
static void choose_cover(const cover *c, uint64_t *chosen)
{
    memset(chosen, 0, FER_SCHEDULE_DIES_MAXIMUM / 64 * sizeof *chosen);
    for (size_t place = c->day->die_count; place > 0; place--) {
        const uint32_t die = c->order[place - 1];
        if (c->left[die] == 0 && is_wanted(c, die, chosen)) {
            chosen[die / 64] |= UINT64_C(1) << die % 64;
        }
    }
    for (size_t kind = 0; kind < c->day->kind_count; kind++) {
        size_t mode = fer_first_mode(c->day, kind);
        while (!is_allowed(c, mode)) {
            mode++;
        }
        if (!is_done(c, kind, chosen)) {
            const uint32_t die = fer_mode_at(c->day, mode)[0].pair[1];
            chosen[die / 64] |= UINT64_C(1) << die % 64;
        }
    }
}

double fer_find_cover(const fer_day *day, uint32_t until, uint64_t *chosen)
{
    cover c = {.day = day, .until = until};
    double least = INFINITY;
    unsigned best = 0;
    sort_dies(&c);
    list_adapters(&c);
    for (c.allowed = 0; c.allowed < 1u << c.adapters; c.allowed++) {
        double time = price_kinds(&c);
        const int is_there = time >= 0.0;
        for (size_t i = 0; i < c.adapters; i++) {
            time += c.allowed >> i & 1u ? day->times.adapter_seconds : 0;
        }
        if (is_there && time < least) {
            least = time;
            best = c.allowed;
        }
    }
    if (chosen) {
        c.allowed = best;
        (void)price_kinds(&c);
        choose_cover(&c, chosen);
    }
    return least;
}

/* ---- counting ---------------------------------------------------------------------------------------------------- */

enum { dial_seen = 1, reel_seen = 2, bin_seen = 4 };

/* Whether a number is new, that is, neither mounted nor marked; it is marked then. */
static int is_new(const fer_day *day, uint32_t number, uint32_t mounted, unsigned mark)
{
    if (number == mounted || (day->marks[number].bits & mark)) {
        return 0;
    }
    day->marks[number].bits |= mark;
    return 1;
}

/* Whether a kind needs the dial once more than those before it: it shares no setting with what is mounted or with them. */
static int needs_dial(const fer_day *day, size_t kind)
{
    const uint32_t mounted = fer_mode_at(day, day->mode_count)[1].pair[0];
    const size_t first = fer_first_mode(day, kind), end = first + fer_modes_of(day, kind);
    for (size_t mode = first; mode < end; mode++) {
        const uint32_t dial = fer_mode_at(day, mode)[1].pair[0];
        if (dial == mounted || (day->marks[dial].bits & dial_seen)) {
            return 0;
        }
    }
    for (size_t mode = first; mode < end; mode++) {
        day->marks[fer_mode_at(day, mode)[1].pair[0]].bits |= dial_seen;
    }
    return 1;
}

/* Changes that are needed in any order by the kinds with a batch due until then: dies and adapters, settings, reels, bins. */
static double count_changes(const fer_day *day, uint32_t until, double *cover_time)
{
    const cover c = {.day = day, .until = until};
    const fer_work *const mounted = fer_mode_at(day, day->mode_count);
    *cover_time = fer_find_cover(day, until, NULL);
    double time = *cover_time;
    memset(day->marks, 0, day->mode_count * sizeof *day->marks);
    for (size_t kind = 0; kind < day->kind_count; kind++) {
        const fer_work *const mode = fer_mode_at(day, fer_first_mode(day, kind));
        if (is_asked(&c, kind)) {
            time += needs_dial(day, kind) ? day->times.dial_seconds : 0;
            time += is_new(day, mode[1].pair[1], mounted[1].pair[1], reel_seen) ? day->times.reel_seconds : 0;
            time += is_new(day, mode[2].pair[0], mounted[2].pair[0], bin_seen) ? day->times.bin_seconds : 0;
        }
    }
    return time;
}

double fer_bound_lateness(const fer_day *day)
{
    double most = 0.0, cover_time;
    for (size_t batch = 0; batch < day->batch_count; batch++) {
        const uint32_t due = fer_due_of(day, batch);
        double work = 0.0;
        int is_seen = due == FER_NONE;
        for (size_t other = 0; other < day->batch_count && !is_seen; other++) {
            is_seen = other < batch && fer_due_of(day, other) == due;
            work += fer_due_of(day, other) <= due ? fer_work_of(day, other) : 0;
        }
        if (!is_seen) {
            most = fmax(most, work + count_changes(day, due, &cover_time) - due);
        }
    }
    return most;
}

/* ---- trees ------------------------------------------------------------------------------------------------------- */

/* Kinds and what is mounted, which is the last node, with the shortest change between each two of them. A path from what is mounted through
 * all kinds to an end that costs nothing is a tree in which each kind has two links. */
typedef struct {
    size_t nodes;
    fer_work *links; /* shortest change, two in a word */
    fer_work *prices, *nearest, *degrees;
} tree;

static double link_of(const tree *t, size_t a, size_t b)
{
    const size_t place = a * t->nodes + b;
    const fer_work *const two = &t->links[place / 2];
    return two->pair[place % 2];
}

static uint32_t least_change(const fer_day *day, size_t a, size_t b)
{
    const size_t first = b < day->kind_count ? fer_first_mode(day, b) : day->mode_count,
                 count = b < day->kind_count ? fer_modes_of(day, b) : 1;
    uint32_t least = FER_NONE;
    for (size_t i = 0; i < fer_modes_of(day, a); i++) {
        for (size_t j = 0; j < count; j++) {
            const uint32_t here = fer_change_between(day, fer_first_mode(day, a) + i, first + j);
            least = here < least ? here : least;
        }
    }
    return least;
}

/* 0: the memory does not do. */
static int begin_tree(const fer_day *day, tree *t)
{
    t->nodes = day->kind_count + 1;
    const size_t words = (t->nodes * t->nodes + 1) / 2;
    if (words + 3 * t->nodes > day->words) {
        return 0;
    }
    t->links = day->left;
    t->prices = t->links + words;
    t->nearest = t->prices + t->nodes;
    t->degrees = t->nearest + t->nodes;
    for (size_t a = 0; a < day->kind_count; a++) {
        for (size_t b = 0; b < t->nodes; b++) {
            const size_t there = a * t->nodes + b, back = b * t->nodes + a;
            t->links[there / 2].pair[there % 2] = t->links[back / 2].pair[back % 2] = least_change(day, a, b);
        }
    }
    memset(t->prices, 0, t->nodes * sizeof *t->prices);
    return 1;
}

/* A link with the prices of its ends; what is mounted has none. */
static double priced_link(const tree *t, size_t kind, size_t to)
{
    return link_of(t, kind, to) + t->prices[kind].number + (to + 1 < t->nodes ? t->prices[to].number : 0.0);
}

/* The kind outside the tree with the shortest link into it, which is taken in; length of the link. */
static double take_in_nearest(tree *t)
{
    double shortest = INFINITY;
    size_t next = 0;
    for (size_t i = 0; i + 1 < t->nodes; i++) {
        const size_t to = t->nearest[i].pair[0];
        if (to != FER_NONE && priced_link(t, i, to) < shortest) {
            shortest = priced_link(t, i, to);
            next = i;
        }
    }
    t->degrees[next].pair[0]++;
    t->degrees[t->nearest[next].pair[0]].pair[0]++;
    t->nearest[next].pair[0] = FER_NONE;
    for (size_t i = 0; i + 1 < t->nodes; i++) {
        const size_t now = t->nearest[i].pair[0];
        if (now != FER_NONE && priced_link(t, i, next) < priced_link(t, i, now)) {
            t->nearest[i].pair[0] = (uint32_t)next;
        }
    }
    return shortest;
}

/* The shortest tree with the prices of its nodes, grown from what is mounted; its length minus all prices is a bound. Of a kind outside it
 * `nearest` is the nearest in it, of one inside FER_NONE. */
static double grow_tree(tree *t)
{
    const size_t last = t->nodes - 1;
    double length = 0.0, cheapest = INFINITY;
    size_t end = 0;
    for (size_t i = 0; i < last; i++) {
        t->nearest[i].pair[0] = (uint32_t)last;
        t->degrees[i].pair[0] = 0;
        length -= 2.0 * t->prices[i].number;
        if (t->prices[i].number < cheapest) {
            cheapest = t->prices[i].number;
            end = i;
        }
    }
    for (size_t added = 0; added < last; added++) {
        length += take_in_nearest(t);
    }
    t->degrees[end].pair[0]++;
    return length + cheapest;
}

enum { rounds = 300, patience = 12 };

/* The greatest bound by trees whose nodes' prices rise with links too many and fall with links too few. */
static double bound_by_trees(fer_day *day, double upper)
{
    tree t = {0};
    double best = 0.0, factor = 2.0;
    if (!begin_tree(day, &t)) {
        return 0.0;
    }
    int since = 0;
    for (int round = 0; round < rounds && day->steps > 0.0; round++) {
        const double bound = grow_tree(&t);
        double off = 0.0;
        for (size_t i = 0; i + 1 < t.nodes; i++) {
            const double degree = t.degrees[i].pair[0];
            off += (degree - 2.0) * (degree - 2.0);
        }
        since = bound > best ? 0 : since + 1;
        best = fmax(best, bound);
        if (off == 0.0 || best >= upper) {
            break;
        }
        if (since == patience) {
            factor /= 2.0;
            since = 0;
        }
        const double step = factor * fmax(upper - bound, 1.0) / off;
        for (size_t i = 0; i + 1 < t.nodes; i++) {
            t.prices[i].number += step * ((double)t.degrees[i].pair[0] - 2.0);
        }
        day->steps -= (double)t.nodes * (double)t.nodes;
    }
    return best;
}

/* ---- together ---------------------------------------------------------------------------------------------------- */

static int common_divisor(int a, int b)
{
    while (b != 0) {
        const int rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

/* Every time is a multiple of the changes' common divisor; a thousandth of a second is for the rounding of sums. */
static double round_up(const fer_change_times *times, double bound)
{
    int unit = common_divisor(times->adapter_seconds, times->die_seconds);
    unit = common_divisor(unit, times->dial_seconds);
    unit = common_divisor(unit, times->reel_seconds);
    unit = common_divisor(unit, times->bin_seconds);
    return unit > 0 ? unit * ceil((bound - 1e-3) / unit) : 0.0;
}

double fer_bound_changes(fer_day *day, double upper)
{
    double cover_time, bound;
    bound = count_changes(day, FER_NONE, &cover_time);
    if (bound < upper) {
        const fer_change_times times = day->times;
        bound = fmax(bound, bound_by_trees(day, upper));
        day->times.adapter_seconds = day->times.die_seconds = 0;
        bound = fmax(bound, cover_time + bound_by_trees(day, upper - cover_time));
        day->times = times;
    }
    return round_up(&day->times, bound);
}
