/* SPDX-License-Identifier: MIT */
/* Which dies to own: the best racks for every price.
 * Method: longest paths over the dies in order of size, with pairs of price and value that no other betters.
 * Formulas: include/ferrule/rack.h; docs/rack.md. */
#include <ferrule/rack.h>

#include "crimp/die_private.h"
#include "crimp/lobe_private.h"
#include "shop/rack_private.h"

/* ---- a question, checked and in order ---------------------------------------------------------------------- */

static fer_status check_demand(const fer_demand *demand)
{
    FER_TRY(fer_check_length(demand->target, FER_TARGET_MISSING, FER_TARGET_OUT_OF_RANGE));
    FER_REQUIRE(demand->weight >= 0.0 && demand->weight <= 1e9, FER_DEMAND_WEIGHT_OUT_OF_RANGE);
    FER_REQUIRE(demand->margin.mm >= 0.0 && demand->margin.mm <= FER_LENGTH_MAXIMUM_MM,
                FER_DEMAND_MARGIN_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_length_or_none(demand->ferrule_length), FER_FERRULE_LENGTH_OUT_OF_RANGE);
    FER_REQUIRE(fer_is_length_or_none(demand->lobe_maximum), FER_DEMAND_LOBE_OUT_OF_RANGE);
    return FER_OK;
}

static fer_status check_demands(const fer_rack_task *task)
{
    FER_REQUIRE(task->demands || task->demand_count == 0, FER_ARGUMENT_MISSING);
    FER_REQUIRE(task->demand_count > 0, FER_ARGUMENT_COUNT_ZERO);
    FER_REQUIRE(task->demand_count <= FER_RACK_DEMANDS_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    for (size_t i = 0; i < task->demand_count; i++) {
        FER_TRY(check_demand(&task->demands[i]));
    }
    return FER_OK;
}

static fer_status check_offers(const fer_rack_task *task)
{
    size_t priced = 0;
    FER_REQUIRE(task->offers || task->offer_count == 0, FER_ARGUMENT_MISSING);
    for (size_t i = 0; i < task->offer_count; i++) {
        FER_TRY(fer_check_die(&task->offers[i].die));
        FER_REQUIRE(task->offers[i].price >= 0.0 && task->offers[i].price <= 1e9,
                    FER_OFFER_PRICE_OUT_OF_RANGE);
        priced += task->offers[i].price > 0.0;
    }
    FER_REQUIRE(priced == 0 || priced == task->offer_count, FER_OFFER_PRICE_MISSING);
    return FER_OK;
}

double fer_price_of(const fer_rack_task *task, size_t offer)
{
    return task->offers[offer].price > 0.0 ? task->offers[offer].price : 1.0;
}

double fer_price_at(const fer_rack_task *task, size_t place)
{
    return fer_is_offer_at(task, place) ? fer_price_of(task, fer_number_at(task, place) - task->count) : 0.0;
}

fer_status fer_take_work(fer_rack_task *task, size_t words, fer_work **taken)
{
    FER_REQUIRE(words <= task->words, FER_ARGUMENT_WORK_TOO_SMALL);
    *taken = task->left;
    task->left += words;
    task->words -= words;
    return FER_OK;
}

/* Whether a die comes before another by size, then by the end of its reach, then as the caller has them. */
static int is_before(const fer_die *a, const fer_die *b)
{
    if (a->size.mm != b->size.mm) {
        return a->size.mm < b->size.mm;
    }
    return fer_die_end(a) < fer_die_end(b);
}

static void put_in_order(const fer_rack_task *task)
{
    for (size_t number = 0; number < task->all; number++) {
        size_t place = number;
        task->order[place].pair[0] = (uint32_t)number;
        for (; place > 0 && is_before(fer_die_at(task, place), fer_die_at(task, place - 1)); place--) {
            task->order[place].pair[0] = task->order[place - 1].pair[0];
            task->order[place - 1].pair[0] = (uint32_t)number;
        }
    }
}

static int does(const fer_rack_task *task, const fer_die *die, const fer_demand *demand)
{
    const fer_length widest = {demand->target.mm + demand->margin.mm};
    if (!(die->size.mm <= demand->target.mm - demand->margin.mm && widest.mm <= fer_die_end(die) &&
          fer_is_die_long_enough(die, demand->ferrule_length))) {
        return 0;
    }
    return demand->lobe_maximum.mm == 0.0 ||
           fer_lobe_height_checked(widest, die->size, task->segments).mm <= demand->lobe_maximum.mm;
}

static void fill_table(const fer_rack_task *task)
{
    for (size_t place = 0; place < task->all; place++) {
        fer_work *row = &task->does[place * task->row];
        memset(row, 0, task->row * sizeof *row);
        for (size_t i = 0; i < task->demand_count; i++) {
            if (does(task, fer_die_at(task, place), &task->demands[i])) {
                row[i / 64].bits |= UINT64_C(1) << i % 64;
            }
        }
    }
}

fer_status fer_begin_rack(fer_rack_task *task, fer_work *work, size_t words)
{
    FER_REQUIRE(task->count <= FER_RACK_DIES_MAXIMUM &&
                    task->offer_count <= FER_RACK_DIES_MAXIMUM - task->count,
                FER_ARGUMENT_COUNT_TOO_LARGE);
    FER_TRY(fer_check_dies(task->dies, task->count));
    FER_TRY(check_demands(task));
    FER_TRY(check_offers(task));
    FER_REQUIRE(fer_is_segments(task->segments), FER_SEGMENTS_OUT_OF_RANGE);
    FER_REQUIRE(work || words == 0, FER_ARGUMENT_MISSING);
    FER_REQUIRE(words > 0, FER_ARGUMENT_WORK_TOO_SMALL);
    task->all = task->count + task->offer_count;
    task->row = (task->demand_count + 63) / 64;
    task->left = work;
    task->words = words;
    FER_TRY(fer_take_work(task, task->all, &task->order));
    FER_TRY(fer_take_work(task, task->all * task->row, &task->does));
    put_in_order(task);
    fill_table(task);
    return FER_OK;
}

/* ---- labels ------------------------------------------------------------------------------------------------- */

/* A label is a rack whose last die by size is known: what it costs, what it is worth, the label before its last die. It takes three
 * words. A front is a row of labels of rising price and value. */
enum { label_words = 3, no_place = 0xFFFF, no_label = 0x7FFFFFFF };

typedef struct {
    double price, value;
    uint32_t before; /* label without the last die; no_label where there is none */
    uint32_t place;  /* of the last die */
    uint32_t bought;
} label;

typedef struct {
    fer_work *at;
    size_t count;
    double best[FER_RACK_RANK_MAXIMUM]; /* the highest values in it, falling */
} front;

typedef struct {
    fer_rack_task task;
    const fer_adapter_offer *adapters;
    size_t adapter_count;
    double price_maximum; /* infinite where there is no limit */
    double total;         /* weight of all demands */
    double price_step,
        value_step;   /* below these, prices and values count as equal: they are sums that were rounded */
    size_t rank;      /* so many of the best racks are kept for each price */
    double steps;     /* labels that may still be looked at */
    double searched;  /* places of dies that were searched, in all sets of adapters */
    double ceiling;   /* value that no rack exceeds */
    int leave_nested; /* reach alone counts: of a die within another's reach and that one only one is needed */
    int in_order;
    fer_work *gains; /* by place and place: what a die adds behind another; on the diagonal behind none */
    fer_work *first_label; /* by place: number of the first label, and how many there are */
    fer_work *labels;
    fer_work *racks; /* the racks found, from the end of the working memory backwards */
    size_t rack_count;
} search;

/* A rack that was found takes its price, its value by the programme and as it is (with ranks), its number of dies bought with the set of
 * adapters, and a bit for each place. */
enum { set_words = FER_RACK_DIES_MAXIMUM / 64, rack_words = 4 + set_words };

static label read_label(const fer_work *labels, size_t number)
{
    const fer_work *at = &labels[number * label_words];
    const label one = {at[0].number, at[1].number, at[2].pair[0], at[2].pair[1] >> 16,
                       at[2].pair[1] & 0xFFFFu};
    return one;
}

static void write_label(fer_work *labels, size_t number, const label *one)
{
    fer_work *at = &labels[number * label_words];
    at[0].number = one->price;
    at[1].number = one->value;
    at[2].pair[0] = one->before;
    at[2].pair[1] = one->place << 16 | one->bought;
}

/* Whether a label comes first: the cheaper, of equal prices the better, of equally good ones that with fewer dies. */
static int comes_first(const search *s, const label *a, const label *b)
{
    if (fabs(a->price - b->price) > s->price_step) {
        return a->price < b->price;
    }
    if (fabs(a->value - b->value) > s->value_step) {
        return a->value > b->value;
    }
    return a->bought <= b->bought;
}

static front begin_front(fer_work *at)
{
    front empty = {at, 0, {0.0}};
    for (size_t i = 0; i < FER_RACK_RANK_MAXIMUM; i++) {
        empty.best[i] = -INFINITY;
    }
    return empty;
}

/* Puts a label at the end of a front unless `rank` of those before it, which are cheaper, are as good. */
static fer_status append(const search *s, front *to, size_t capacity, const label *one)
{
    size_t place = s->rank - 1;
    if (one->value <= to->best[place] + s->value_step) {
        return FER_OK;
    }
    FER_REQUIRE(to->count < capacity, FER_ARGUMENT_WORK_TOO_SMALL);
    write_label(to->at, to->count++, one);
    for (; place > 0 && to->best[place - 1] < one->value; place--) {
        to->best[place] = to->best[place - 1];
    }
    to->best[place] = one->value;
    return FER_OK;
}

/* The labels of a front, and those of a die with the die behind them that is at the place, in one front. */
typedef struct {
    double price, gain;
    uint32_t place, bought;
    size_t first, count; /* labels of the die before */
} extension;

static int next_extended(const search *s, const extension *by, size_t done, label *one)
{
    if (done == by->count) {
        return 0;
    }
    *one = read_label(s->labels, by->first + done);
    one->price += by->price;
    one->value += by->gain;
    if (by->place != no_place) {
        one->place = by->place;
        one->before = (uint32_t)(by->first + done);
        one->bought += by->bought;
    }
    return one->price <= s->price_maximum;
}

static fer_status merge(search *s, const front *from, const extension *by, front *to, size_t capacity)
{
    size_t i = 0, j = 0;
    label a, b;
    *to = begin_front(to->at);
    int more = next_extended(s, by, j, &b);
    while (i < from->count || more) {
        if (i < from->count) {
            a = read_label(from->at, i);
        }
        const int take_a = i < from->count && (!more || comes_first(s, &a, &b));
        FER_TRY(append(s, to, capacity, take_a ? &a : &b));
        s->steps -= 1.0;
        if (take_a) {
            i++;
        } else {
            more = next_extended(s, by, ++j, &b);
        }
    }
    return FER_OK;
}

/* ---- gains ---------------------------------------------------------------------------------------------------- */

/* What a demand is worth, by weight, with the die at a place. */
static double worth_of(const fer_rack_task *task, size_t place, size_t demand)
{
    return fer_weight_of(task, demand) *
           fmax(0.0, 1.0 - task->offset_cost * fer_offset_at(task, place, demand));
}

/* What a demand is worth with all dies, owned and on offer. */
static double most_worth_of(const fer_rack_task *task, size_t demand)
{
    double most = 0.0;
    for (size_t place = 0; place < task->all; place++) {
        if (fer_does(task, place, demand)) {
            most = fmax(most, worth_of(task, place, demand));
        }
    }
    return most;
}

/* What die `place` adds behind die `before`; before == place: behind none. */
static double gain_of(const fer_rack_task *task, size_t before, size_t place)
{
    double gain = 0.0;
    for (size_t word = 0; word < task->row; word++) {
        size_t i = word * 64;
        for (uint64_t bits = task->does[place * task->row + word].bits; bits; bits >>= 1, i++) {
            if (bits & 1u) {
                const int is_held = before != place && fer_does(task, before, i);
                gain += worth_of(task, place, i) - (is_held ? worth_of(task, before, i) : 0.0);
            }
        }
    }
    return gain;
}

/* Of a die within the reach of another only one is needed, where reach alone counts. */
static int is_nested(const search *s, size_t before, size_t place)
{
    return s->leave_nested &&
           fer_die_end(fer_die_at(&s->task, place)) <= fer_die_end(fer_die_at(&s->task, before));
}

/* Whether for each demand the dies that do it are neighbours by size. */
static int is_in_order(const fer_rack_task *task)
{
    for (size_t i = 0; i < task->demand_count; i++) {
        size_t begun = 0;
        for (size_t place = 0; place < task->all; place++) {
            begun += fer_does(task, place, i) && !(place > 0 && fer_does(task, place - 1, i));
        }
        if (begun > 1) {
            return 0;
        }
    }
    return 1;
}

static int is_reach_alone(const search *s)
{
    for (size_t i = 0; i < s->task.demand_count; i++) {
        if (s->task.demands[i].ferrule_length.mm > 0.0 || s->task.demands[i].lobe_maximum.mm > 0.0) {
            return 0;
        }
    }
    return s->task.offset_cost == 0.0;
}

/* ---- the programme ------------------------------------------------------------------------------------------ */

static fer_status check_adapters(const search *s)
{
    FER_REQUIRE(s->adapters || s->adapter_count == 0, FER_ARGUMENT_MISSING);
    FER_REQUIRE(s->adapter_count <= FER_RACK_ADAPTERS_MAXIMUM, FER_ARGUMENT_COUNT_TOO_LARGE);
    for (size_t i = 0; i < s->adapter_count; i++) {
        FER_REQUIRE(s->adapters[i].adapter >= 1, FER_DIE_ADAPTER_OUT_OF_RANGE);
        FER_REQUIRE(s->adapters[i].price >= 0.0 && s->adapters[i].price <= 1e9,
                    FER_ADAPTER_PRICE_OUT_OF_RANGE);
    }
    return FER_OK;
}

/* Whether a die can go into the press with the adapters of a set bought. */
static int is_usable(const search *s, size_t place, unsigned bought)
{
    int is_on_offer = 0;
    for (size_t i = 0; i < s->adapter_count; i++) {
        if (s->adapters[i].adapter == fer_die_at(&s->task, place)->adapter) {
            if (bought >> i & 1u) {
                return 1;
            }
            is_on_offer = 1;
        }
    }
    return !is_on_offer;
}

/* Two fronts in what is left of the memory behind the labels, which are made from each other by turns. */
typedef struct {
    front now, other;
    size_t capacity; /* of each, in labels */
} two_fronts;

static two_fronts begin_fronts(const search *s, size_t labels)
{
    const size_t used = labels * label_words, kept = s->rack_count * rack_words;
    const size_t whole = (size_t)(s->racks - s->labels) - kept;
    const size_t capacity = used < whole ? (whole - used) / label_words / 2 : 0;
    const two_fronts fronts = {begin_front(s->labels + used),
                               begin_front(s->labels + used + capacity * label_words), capacity};
    return fronts;
}

static fer_status merge_into(search *s, two_fronts *fronts, const extension *by)
{
    FER_TRY(merge(s, &fronts->now, by, &fronts->other, fronts->capacity));
    const two_fronts swapped = {fronts->other, fronts->now, fronts->capacity};
    *fronts = swapped;
    return FER_OK;
}

/* Whether a die that is owned lies between two places. With ranks, where no adapters are on offer, none is left out: a way
 * without it is the same rack once more. */
static int is_owned_between(const search *s, size_t first, size_t end)
{
    for (size_t place = first; s->rank > 1 && place < end; place++) {
        if (!fer_is_offer_at(&s->task, place)) {
            return 1;
        }
    }
    return 0;
}

static int may_follow(const search *s, size_t before, size_t place, unsigned adapters)
{
    return is_usable(s, before, adapters) && !is_nested(s, before, place) &&
           !is_owned_between(s, before + 1, place);
}

/* The labels whose last die is at a place. */
static fer_status extend_to(search *s, size_t place, unsigned adapters, double paid, size_t *labels)
{
    two_fronts fronts = begin_fronts(s, *labels);
    const double price = fer_price_at(&s->task, place);
    const uint32_t bought = (uint32_t)fer_is_offer_at(&s->task, place);
    const label alone = {paid + price, s->gains[place * s->task.all + place].number, no_label,
                         (uint32_t)place, bought};
    if (alone.price <= s->price_maximum && !is_owned_between(s, 0, place)) {
        FER_TRY(append(s, &fronts.now, fronts.capacity, &alone));
    }
    for (size_t before = 0; before < place && s->steps > 0.0; before++) {
        if (may_follow(s, before, place, adapters)) {
            const extension by = {price,
                                  s->gains[before * s->task.all + place].number,
                                  (uint32_t)place,
                                  bought,
                                  s->first_label[before].pair[0],
                                  s->first_label[before].pair[1]};
            FER_TRY(merge_into(s, &fronts, &by));
        }
    }
    s->first_label[place].pair[0] = (uint32_t)*labels;
    s->first_label[place].pair[1] = (uint32_t)fronts.now.count;
    memmove(s->labels + *labels * label_words, fronts.now.at,
            fronts.now.count * label_words * sizeof *s->labels);
    *labels += fronts.now.count;
    return FER_OK;
}

/* Keeps the rack of a label, behind the labels that are still needed. */
static fer_status keep_rack(search *s, const label *one, unsigned adapters, size_t labels)
{
    const size_t free_words = (size_t)(s->racks - s->labels) - labels * label_words;
    FER_REQUIRE(free_words >= (s->rack_count + 1) * rack_words, FER_ARGUMENT_WORK_TOO_SMALL);
    fer_work *const at = s->racks - (s->rack_count + 1) * rack_words;
    memset(at, 0, rack_words * sizeof *at);
    at[0].number = one->price;
    at[1].number = one->value;
    at[3].pair[0] = one->bought;
    at[3].pair[1] = adapters;
    for (label step = *one; step.place != no_place; step = read_label(s->labels, step.before)) {
        at[4 + step.place / 64].bits |= UINT64_C(1) << step.place % 64;
        if (step.before == no_label) {
            break;
        }
    }
    s->rack_count++;
    return FER_OK;
}

/* The racks of a set of adapters: labels of each die in turn, then those of all dies in one front. */
static fer_status extend_all(search *s, unsigned adapters, double paid, size_t *labels)
{
    for (size_t place = 0; place < s->task.all; place++) {
        s->first_label[place].bits = 0;
    }
    for (size_t place = 0; place < s->task.all && s->steps > 0.0; place++) {
        if (is_usable(s, place, adapters)) {
            FER_TRY(extend_to(s, place, adapters, paid, labels));
        }
        s->searched += s->steps > 0.0;
    }
    return FER_OK;
}

static fer_status try_adapters(search *s, unsigned adapters)
{
    const size_t all = s->task.all;
    double paid = 0.0;
    size_t labels = 0;
    for (size_t i = 0; i < s->adapter_count; i++) {
        paid += adapters >> i & 1u ? s->adapters[i].price : 0.0;
    }
    FER_TRY(extend_all(s, adapters, paid, &labels));
    two_fronts fronts = begin_fronts(s, labels);
    const label none = {paid, 0.0, no_label, no_place, 0};
    if (paid <= s->price_maximum && !is_owned_between(s, 0, all)) {
        FER_TRY(append(s, &fronts.now, fronts.capacity, &none));
    }
    for (size_t place = 0; place < all; place++) {
        const extension as_it_is = {
            0.0, 0.0, no_place, 0, s->first_label[place].pair[0], s->first_label[place].pair[1]};
        if (!is_owned_between(s, place + 1, all)) {
            FER_TRY(merge_into(s, &fronts, &as_it_is));
        }
    }
    fer_work *const kept = s->labels + labels * label_words;
    const size_t count = fronts.now.count;
    memmove(kept, fronts.now.at, count * label_words * sizeof *kept);
    for (size_t i = 0; i < count; i++) {
        const label one = read_label(kept, i);
        FER_TRY(keep_rack(s, &one, adapters, labels + count));
    }
    return FER_OK;
}

static fer_status prepare(search *s, const fer_rack_aim *aim, fer_work *work, size_t words)
{
    const size_t *const all = &s->task.all;
    s->task.segments = aim->segments == 0 ? 8 : aim->segments;
    s->task.offset_cost = aim->offset_cost.per_mm;
    FER_TRY(fer_begin_rack(&s->task, work, words));
    FER_TRY(check_adapters(s));
    FER_REQUIRE(aim->price_maximum >= 0.0 && aim->price_maximum <= 1e15, FER_RACK_PRICE_OUT_OF_RANGE);
    FER_REQUIRE(aim->offset_cost.per_mm >= 0.0 && aim->offset_cost.per_mm <= 1000.0,
                FER_RACK_OFFSET_COST_OUT_OF_RANGE);
    FER_REQUIRE(aim->rank >= 0 && aim->rank <= FER_RACK_RANK_MAXIMUM &&
                    (aim->rank <= 1 || s->adapter_count == 0),
                FER_RACK_RANK_OUT_OF_RANGE);
    FER_REQUIRE(aim->steps == 0.0 || (aim->steps >= 1.0 && aim->steps <= 1e15), FER_RACK_STEPS_OUT_OF_RANGE);
    s->rank = aim->rank > 1 ? (size_t)aim->rank : 1;
    s->steps = aim->steps > 0.0 ? aim->steps : INFINITY;
    FER_TRY(fer_take_work(&s->task, *all * *all, &s->gains));
    FER_TRY(fer_take_work(&s->task, *all, &s->first_label));
    s->labels = s->task.left;
    s->racks = s->task.left + s->task.words;
    s->leave_nested = s->rank == 1 && is_reach_alone(s);
    s->in_order = is_in_order(&s->task);
    for (size_t place = 0; place < *all; place++) {
        for (size_t before = 0; before <= place; before++) {
            s->gains[before * *all + place].number = gain_of(&s->task, before, place);
        }
    }
    double prices = 0.0;
    for (size_t i = 0; i < s->task.demand_count; i++) {
        s->total += fer_weight_of(&s->task, i);
        s->ceiling += most_worth_of(&s->task, i);
    }
    for (size_t i = 0; i < s->task.offer_count; i++) {
        prices += fer_price_of(&s->task, i);
    }
    for (size_t i = 0; i < s->adapter_count; i++) {
        prices += s->adapters[i].price;
    }
    s->price_step = 1e-12 * prices;
    s->value_step = 1e-12 * s->total;
    s->price_maximum = aim->price_maximum > 0.0 ? aim->price_maximum + s->price_step : INFINITY;
    return FER_OK;
}

static fer_status search_racks(search *s, const fer_rack_aim *aim, fer_work *work, size_t words)
{
    FER_TRY(prepare(s, aim, work, words));
    const double whole = (double)s->task.all * (double)(1u << s->adapter_count);
    for (unsigned adapters = 0; adapters < 1u << s->adapter_count && s->steps > 0.0; adapters++) {
        FER_TRY(try_adapters(s, adapters));
    }
    s->searched = s->steps > 0.0 ? 1.0 : s->searched / whole;
    return FER_OK;
}

/* ---- racks as they are -------------------------------------------------------------------------------------- */

/* What a rack kept costs and is worth, to compare it. */
static label label_of(const fer_work *rack)
{
    const label one = {rack[0].number, rack[1].number, no_label, no_place, rack[3].pair[0]};
    return one;
}

static const fer_work *rack_at(const search *s, size_t number)
{
    return s->racks - (number + 1) * rack_words;
}

/* Whether a rack has the die at a place: one that is owned always, once its adapter is there. */
static int has(const search *s, const fer_work *rack, size_t place)
{
    if (rack[4 + place / 64].bits >> place % 64 & 1u) {
        return 1;
    }
    return !fer_is_offer_at(&s->task, place) && is_usable(s, place, rack[3].pair[1]);
}

/* Of the dies of a rack that do a demand the nearest; the number of all where none does. */
static size_t nearest_of(const search *s, const fer_work *rack, size_t demand)
{
    for (size_t place = s->task.all; place > 0; place--) {
        if (has(s, rack, place - 1) && fer_does(&s->task, place - 1, demand)) {
            return place - 1;
        }
    }
    return s->task.all;
}

static int is_done_by_any(const fer_rack_task *task, size_t demand)
{
    for (size_t place = 0; place < task->all; place++) {
        if (fer_does(task, place, demand)) {
            return 1;
        }
    }
    return 0;
}

/* What is known of a demand's lobe and offset goes into the rack's. */
static void add_demand(const search *s, size_t place, size_t demand, fer_rack *rack)
{
    const fer_length target = s->task.demands[demand].target;
    const double offset = fer_offset_at(&s->task, place, demand), weight = fer_weight_of(&s->task, demand);
    const double lobe =
        fer_lobe_height_checked(target, fer_die_at(&s->task, place)->size, s->task.segments).mm;
    rack->reached.fraction += weight;
    rack->value.fraction += worth_of(&s->task, place, demand);
    rack->offset_mean.mm += weight * offset;
    rack->offset_maximum.mm = fmax(rack->offset_maximum.mm, offset);
    rack->lobe_maximum.mm = fmax(rack->lobe_maximum.mm, lobe);
}

static int is_optimal(const fer_rack *rack)
{
    return rack->value.fraction >= rack->bound.fraction - 1e-9;
}

static void describe_rack(const search *s, const fer_work *kept, fer_rack *rack)
{
    FER_EMPTY(*rack);
    rack->price = kept[0].number;
    rack->bought = kept[3].pair[0];
    rack->in_order = s->in_order;
    for (size_t i = 0; i < s->task.demand_count; i++) {
        const size_t place = nearest_of(s, kept, i);
        if (place < s->task.all) {
            add_demand(s, place, i, rack);
        } else {
            rack->left_out += !is_done_by_any(&s->task, i);
        }
    }
    if (rack->reached.fraction > 0.0) {
        rack->offset_mean.mm /= rack->reached.fraction;
    } else {
        FER_LEAVE_OUT_FROM(fer_rack, *rack, offset_mean, lobe_maximum);
    }
    rack->bound.fraction =
        fmax(s->searched < 1.0 ? s->ceiling : kept[1].number, rack->value.fraction) / s->total;
    rack->searched.fraction = s->searched;
    rack->reached.fraction /= s->total;
    rack->value.fraction /= s->total;
    rack->optimal = is_optimal(rack);
}

/* The cheapest of the racks kept that are worth more than a value, of equally cheap ones the best; NULL where there is none. */
static const fer_work *cheapest_above(const search *s, double value)
{
    const fer_work *best = NULL;
    for (size_t i = 0; i < s->rack_count; i++) {
        const fer_work *const rack = rack_at(s, i);
        if (!(rack[1].number > value + s->value_step)) {
            continue;
        }
        const label a = best ? label_of(best) : label_of(rack), b = label_of(rack);
        if (!best || !comes_first(s, &a, &b)) {
            best = rack;
        }
    }
    return best;
}

/* A way through the curve: the rack kept that is next, described. */
typedef struct {
    const search *s;
    const fer_work *kept;
    double value; /* of the programme; racks that are worth more come next */
    double shown; /* value of the last rack that was taken, as it is */
} walk;

static int next_point(walk *w, fer_rack *rack)
{
    while ((w->kept = cheapest_above(w->s, w->value))) {
        w->value = w->kept[1].number;
        describe_rack(w->s, w->kept, rack);
        if (rack->value.fraction > w->shown + 1e-12) {
            w->shown = rack->value.fraction;
            return 1;
        }
    }
    return 0;
}

static fer_status list_points(const search *s, fer_rack *points, size_t capacity, size_t *found)
{
    size_t count = 0;
    fer_rack rack;
    for (walk w = {s, NULL, -INFINITY, -INFINITY}; next_point(&w, &rack); count++) {
        FER_REQUIRE(count < capacity, FER_ARGUMENT_CAPACITY_TOO_SMALL);
        points[count] = rack;
    }
    *found = count;
    return FER_OK;
}

fer_status fer_find_rack_curve(const fer_die *dies, size_t count, const fer_demand *demands,
                               size_t demand_count, const fer_offer *offers, size_t offer_count,
                               const fer_adapter_offer *adapters, size_t adapter_count, fer_rack_aim aim,
                               fer_work *work, size_t words, fer_rack *points, size_t capacity, size_t *found)
{
    search s = {
        .task = {dies, count, demands, demand_count, offers, offer_count, 0.0, 0, 0, 0, NULL, NULL, NULL, 0},
        .adapters = adapters,
        .adapter_count = adapter_count};
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    *found = 0;
    FER_REQUIRE(points || capacity == 0, FER_ARGUMENT_MISSING);
    FER_REQUIRE(aim.rank == 0 || aim.rank == 1, FER_RACK_RANK_OUT_OF_RANGE);
    FER_TRY(search_racks(&s, &aim, work, words));
    return list_points(&s, points, capacity, found);
}

static fer_status list_purchases(const search *s, const fer_work *kept, size_t *purchases, size_t capacity,
                                 size_t *found)
{
    size_t count = 0;
    for (size_t place = 0; place < s->task.all; place++) {
        if (fer_is_offer_at(&s->task, place) && has(s, kept, place)) {
            FER_REQUIRE(count < capacity, FER_ARGUMENT_CAPACITY_TOO_SMALL);
            purchases[count++] = fer_number_at(&s->task, place) - s->task.count;
        }
    }
    *found = count;
    return FER_OK;
}

/* Whether a rack is better: worth more by the value in a word of it, of equal worth cheaper, of equal price with fewer dies. */
static int is_better(const search *s, size_t word, const fer_work *a, const fer_work *b)
{
    if (fabs(a[word].number - b[word].number) > s->value_step) {
        return a[word].number > b[word].number;
    }
    return fabs(a[0].number - b[0].number) > s->price_step ? a[0].number < b[0].number
                                                           : a[3].pair[0] < b[3].pair[0];
}

/* Of the racks that were kept, of which there are enough, the one of a rank: so many minus one are better, or equal and found before. */
static const fer_work *of_rank(const search *s, size_t word)
{
    size_t i = 0;
    for (size_t better = s->rank; better != s->rank - 1; i++) {
        better = 0;
        for (size_t j = 0; j < s->rack_count; j++) {
            better += is_better(s, word, rack_at(s, j), rack_at(s, i)) ||
                      (j < i && !is_better(s, word, rack_at(s, i), rack_at(s, j)));
        }
    }
    return rack_at(s, i - 1);
}

/* With ranks: the rack that is next behind so many better ones, by its value as it is. */
static fer_status choose_by_rank(search *s, size_t *purchases, size_t capacity, size_t *found, fer_rack *rack)
{
    FER_REQUIRE(s->rack_count >= s->rank, FER_RACK_RANK_ABOVE_ALL);
    for (size_t i = 0; i < s->rack_count; i++) {
        describe_rack(s, rack_at(s, i), rack);
        s->racks[-(ptrdiff_t)((i + 1) * rack_words) + 2].number = rack->value.fraction * s->total;
    }
    const fer_work *const kept = of_rank(s, 2);
    const double bound = of_rank(s, 1)[1].number;
    describe_rack(s, kept, rack);
    if (s->searched == 1.0) {
        rack->bound.fraction = fmax(bound / s->total, rack->value.fraction);
        rack->optimal = is_optimal(rack);
    }
    return list_purchases(s, kept, purchases, capacity, found);
}

static fer_status choose(const search *s, size_t *purchases, size_t capacity, size_t *found, fer_rack *rack)
{
    const fer_work *kept = rack_at(s, 0); /* the search keeps one at least, and every way has a point */
    fer_rack next;
    for (walk w = {s, NULL, -INFINITY, -INFINITY}; next_point(&w, &next);) {
        kept = w.kept;
        *rack = next;
    }
    return list_purchases(s, kept, purchases, capacity, found);
}

fer_status fer_choose_rack(const fer_die *dies, size_t count, const fer_demand *demands, size_t demand_count,
                           const fer_offer *offers, size_t offer_count, const fer_adapter_offer *adapters,
                           size_t adapter_count, fer_rack_aim aim, fer_work *work, size_t words,
                           size_t *purchases, size_t capacity, size_t *found, fer_rack *rack)
{
    search s = {
        .task = {dies, count, demands, demand_count, offers, offer_count, 0.0, 0, 0, 0, NULL, NULL, NULL, 0},
        .adapters = adapters,
        .adapter_count = adapter_count};
    if (found) {
        *found = 0;
    }
    if (rack) {
        FER_EMPTY(*rack);
    }
    FER_REQUIRE(found && rack, FER_ARGUMENT_MISSING);
    FER_REQUIRE(purchases || capacity == 0, FER_ARGUMENT_MISSING);
    FER_TRY(search_racks(&s, &aim, work, words));
    const fer_status status = s.rank > 1 ? choose_by_rank(&s, purchases, capacity, found, rack)
                                         : choose(&s, purchases, capacity, found, rack);
    if (status != FER_OK) {
        FER_EMPTY(*rack);
    }
    return status;
}
