/* SPDX-License-Identifier: MIT */
/* All faults of an order, a press and a rack at once.
 * Method: the rules that fer_plan_setup() stops at, with a visitor that notes each broken one by its field.
 * Formulas: none; the rules stand in setup.c, joint.c, press.c, die.c, forming.c and uncertainties.c. */
#include "base/faults.h"

#include "crimp/die_private.h"
#include "crimp/press_private.h"
#include "crimp/setup_private.h"

/* ---- fields -------------------------------------------------------------------------------------------- */

typedef enum { IN_ORDER, IN_PRESS, IN_DIE } argument;

#define IN_order   IN_ORDER
#define IN_press   IN_PRESS
#define IN_die     IN_DIE
#define PATH_order ""
#define PATH_press "press."
#define PATH_die   "dies[]."

/* All paths as one text, without pointers, as in base/words.h. */
#define PATH_MEMBER(name, number, argument, member) char path_of_##name[sizeof(PATH_##argument #member)];
#define PATH_TEXT(name, number, argument, member)   PATH_##argument #member,
typedef struct {
    FER_FIELD_LIST(PATH_MEMBER)
} field_paths;

static const field_paths paths = {FER_FIELD_LIST(PATH_TEXT)};

/* Where a field's path stands in the text, and its bytes in the struct; at its own number. */
typedef struct {
    uint16_t path, member;
    argument in;
} field_place;

#define PLACE(name, number, argument, member)                                                                \
    {offsetof(field_paths, path_of_##name), offsetof(fer_##argument, member), IN_##argument},
static const field_place places[] = {FER_FIELD_LIST(PLACE)};
enum { field_count = sizeof places / sizeof *places };

const char *fer_field_path(fer_field field)
{
    return (unsigned)field < field_count ? (const char *)&paths + places[field].path : "";
}

static size_t field_at(argument in, size_t member)
{
    size_t field = 0;
    while (field < field_count && /* GCOVR_EXCL_BR_LINE: every member that has a rule is in the list */
           (places[field].in != in || places[field].member != member)) {
        field++;
    }
    return field;
}

/* ---- collecting ------------------------------------------------------------------------------------------ */

typedef struct {
    fer_fault_visitor visitor; /* comes first: it is all that visit() is given */
    fer_fault *faults;
    size_t capacity, found, die;
    argument in;
    unsigned char at_fault[field_count + 1];
} collector;

/* Of a field the first fault, and none that follows from another. */
static void visit(fer_fault_visitor *visitor, fer_status status, size_t member, size_t second, size_t third)
{
    collector *c = (collector *)visitor;
    const size_t field = field_at(c->in, member);
    if (c->at_fault[field] || c->at_fault[field_at(c->in, second)] || c->at_fault[field_at(c->in, third)]) {
        return;
    }
    c->at_fault[field] = 1;
    if (c->found < c->capacity) {
        c->faults[c->found].status = status;
        c->faults[c->found].field = (fer_field)field;
        c->faults[c->found].die = c->die;
    }
    c->found++;
}

/* The field that keeps a sound order from a target. */
static size_t target_member(fer_status status)
{
    switch ((int)status) {
    case FER_MODEL_BASIS_UNKNOWN:
        return offsetof(fer_order, model.basis);
    case FER_MODEL_FLOW_UNKNOWN:
        return offsetof(fer_order, model.flow);
    case FER_HOSE_REINFORCEMENT_MISSING:
        return offsetof(fer_order, joint.hose.reinforcement);
    case FER_FERRULE_OUTSIDE_MISSING:
        return offsetof(fer_order, joint.ferrule.outside);
    default:
        return offsetof(fer_order, aim);
    }
}

static void collect_from_target(const fer_order *order, collector *c)
{
    fer_length target;
    const fer_status status = fer_order_target(order, &target);
    const size_t member = target_member(status);
    if (status != FER_OK) {
        visit(&c->visitor, status, member, member, member);
    }
}

/* What the checks return is FER_OK wherever a visitor takes the faults. */
static void collect_all(const fer_order *order, const fer_press *press, const fer_die *dies, size_t count,
                        collector *c)
{
    fer_visit_order_rules(order, &c->visitor);
    const int is_sound = c->found == 0;
    c->in = IN_PRESS;
    (void)fer_check_press_rules(press, &c->visitor);
    c->in = IN_ORDER;
    if (is_sound) {
        collect_from_target(order, c);
    }
    c->in = IN_DIE;
    for (c->die = 0; c->die < count; c->die++) {
        FER_EMPTY(c->at_fault);
        (void)fer_check_die_rules(&dies[c->die], &c->visitor);
    }
}

void fer_find_first_fault(const fer_order *order, const fer_press *press, const fer_die *dies, size_t count,
                          fer_fault *fault)
{
    collector c = {{visit, 0}, fault, 1, 0, 0, IN_ORDER, {0}};
    collect_all(order, press, dies, count, &c);
}

fer_status fer_check_order(const fer_order *order, const fer_press *press, const fer_die *dies, size_t count,
                           fer_fault *faults, size_t capacity, size_t *found)
{
    FER_REQUIRE(found, FER_ARGUMENT_MISSING);
    *found = 0;
    FER_REQUIRE(order && press && (dies || count == 0), FER_ARGUMENT_MISSING);
    FER_REQUIRE(faults || capacity == 0, FER_ARGUMENT_MISSING);
    collector c = {{visit, 0}, faults, capacity, 0, 0, IN_ORDER, {0}};
    collect_all(order, press, dies, count, &c);
    FER_REQUIRE(c.found <= capacity, FER_ARGUMENT_CAPACITY_TOO_SMALL);
    *found = c.found;
    return FER_OK;
}
