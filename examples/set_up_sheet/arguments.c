/* SPDX-License-Identifier: MIT */
#include "arguments.h"

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Where reading stands. */
typedef struct reader {
    char **words;
    int count;
    int next;
    size_t list_start; /* first die of the list that was read last */
    arguments *into;
} reader;

/* A word that begins a part of the command line, and the function that reads what follows it. */
typedef struct part {
    const char *word;
    int (*read)(reader *);
} part;

static const part *find_part(const char *word);

/* ---- trouble ------------------------------------------------------------------------------------------ */

static int complain(const char *name, const char *text, const char *rule)
{
    fprintf(stderr, "set_up_sheet: %s: \"%s\": %s\n", name, text, rule);
    return 0;
}

/* The name of a status begins with the quantity at fault: HOSE_OUTSIDE_... belongs to "hose outside". */
static size_t matching_length(const char *name, const char *status_name)
{
    const size_t length = strlen(name);
    for (size_t i = 0; i < length; i++) {
        const char wanted = name[i] == ' ' ? '_' : (char)toupper((unsigned char)name[i]);
        if (status_name[i] != wanted) {
            return 0;
        }
    }
    return length;
}

void report_status(const arguments *from, fer_status status)
{
    const argument *fault = NULL;
    size_t longest = 0;
    for (size_t i = 0; i < from->given_count; i++) {
        const size_t length = matching_length(from->givens[i].name, fer_status_name(status));
        if (length > 0 && length >= longest) { /* of two with one name the one that was read last */
            longest = length;
            fault = &from->givens[i];
        }
    }
    if (fault) {
        complain(fault->name, fault->text, fer_status_sentence(status));
    } else {
        fprintf(stderr, "set_up_sheet: %s\n", fer_status_sentence(status));
    }
}

/* ---- single values ------------------------------------------------------------------------------------ */

static int is_value_next(const reader *from)
{
    return from->next < from->count && !find_part(from->words[from->next]);
}

static const char *take_text(reader *from, const char *name)
{
    if (!is_value_next(from)) {
        const char *found = from->next < from->count ? from->words[from->next] : "";
        complain(name, found, "a value is missing here");
        return NULL;
    }
    arguments *into = from->into;
    const char *text = from->words[from->next++];
    if (into->given_count < GIVEN_MAXIMUM) {
        into->givens[into->given_count++] = (argument){name, text};
    }
    return text;
}

static int take_length(reader *from, const char *name, fer_length *length)
{
    const char *text = take_text(from, name);
    if (!text) {
        return 0;
    }
    size_t stop;
    const fer_status status = fer_parse_length(text, strlen(text), length, &stop);
    return status == FER_OK || complain(name, text, fer_status_sentence(status));
}

/* Values at the end of a part may be left out, or written as "-" where a later one is given. */
static int take_length_if_given(reader *from, const char *name, fer_length *length)
{
    if (!is_value_next(from)) {
        return 1;
    }
    if (strcmp(from->words[from->next], "-") == 0) {
        from->next++;
        return 1;
    }
    return take_length(from, name, length);
}

static int take_ratio(reader *from, const char *name, fer_ratio *ratio)
{
    const char *text = take_text(from, name);
    if (!text) {
        return 0;
    }
    size_t stop;
    const fer_status status = fer_parse_ratio(text, strlen(text), ratio, &stop);
    return status == FER_OK || complain(name, text, fer_status_sentence(status));
}

static int take_pressure(reader *from, const char *name, fer_pressure *pressure)
{
    const char *text = take_text(from, name);
    if (!text) {
        return 0;
    }
    size_t stop;
    const fer_status status = fer_parse_pressure(text, strlen(text), pressure, &stop);
    return status == FER_OK || complain(name, text, fer_status_sentence(status));
}

static int take_force(reader *from, const char *name, fer_force *force)
{
    const char *text = take_text(from, name);
    if (!text) {
        return 0;
    }
    size_t stop;
    const fer_status status = fer_parse_force(text, strlen(text), force, &stop);
    return status == FER_OK || complain(name, text, fer_status_sentence(status));
}

static int take_whole_number(reader *from, const char *name, int *number)
{
    const char *text = take_text(from, name);
    if (!text) {
        return 0;
    }
    char *end = NULL;
    const long value = strtol(text, &end, 10);
    if (end == text || *end != '\0' || value < 0 || value > 1000) {
        return complain(name, text, "a whole number from 0 to 1000 is wanted");
    }
    *number = (int)value;
    return 1;
}

/* ---- parts -------------------------------------------------------------------------------------------- */

static int read_hose(reader *from)
{
    fer_hose *hose = &from->into->order.joint.hose;
    return take_length(from, "hose inside", &hose->inside) &&
           take_length(from, "hose outside", &hose->outside);
}

static int read_stem(reader *from)
{
    fer_stem *stem = &from->into->order.joint.stem;
    return take_length(from, "stem outside", &stem->outside) &&
           take_length_if_given(from, "stem bore", &stem->bore);
}

static int read_ferrule(reader *from)
{
    fer_ferrule *ferrule = &from->into->order.joint.ferrule;
    return take_length(from, "ferrule wall", &ferrule->wall) &&
           take_length_if_given(from, "ferrule outside", &ferrule->outside) &&
           take_length_if_given(from, "ferrule length", &ferrule->length);
}

static int read_published(reader *from)
{
    fer_order *order = &from->into->order;
    return take_length(from, "published diameter", &order->published) &&
           take_length_if_given(from, "tolerance", &order->tolerance);
}

static int read_tolerance(reader *from)
{
    return take_length(from, "tolerance", &from->into->order.tolerance);
}

static int read_widest(reader *from)
{
    return take_length(from, "widest diameter", &from->into->order.widest);
}

static int read_range(reader *from)
{
    fer_ratio_range *range = &from->into->order.range;
    return take_ratio(from, "compression range", &range->lower) &&
           take_ratio(from, "compression range", &range->upper);
}

static int read_aim(reader *from)
{
    return take_ratio(from, "compression aim", &from->into->order.aim);
}

static int read_known(reader *from)
{
    fer_uncertainties *uncertainties = &from->into->order.uncertainties;
    return take_length(from, "uncertainty hose inside", &uncertainties->hose_inside.amount) &&
           take_length(from, "uncertainty hose outside", &uncertainties->hose_outside.amount) &&
           take_length(from, "uncertainty stem outside", &uncertainties->stem_outside.amount) &&
           take_length(from, "uncertainty ferrule wall", &uncertainties->ferrule_wall.amount) &&
           take_length(from, "uncertainty ferrule outside", &uncertainties->ferrule_outside.amount) &&
           take_length(from, "uncertainty crimp diameter", &uncertainties->diameter.amount);
}

static int read_mounted(reader *from)
{
    return take_whole_number(from, "adapter mounted", &from->into->order.adapter_mounted);
}

/* One that is written was measured, also where it is 0. */
static int take_correction(reader *from, fer_press *press)
{
    press->correction_measured = is_value_next(from) && strcmp(from->words[from->next], "-") != 0;
    return take_length_if_given(from, "press correction", &press->correction);
}

static int read_dial(reader *from)
{
    fer_press *press = &from->into->press;
    return take_length(from, "press graduation", &press->graduation) && take_correction(from, press) &&
           take_length_if_given(from, "press dial range", &press->dial_maximum);
}

static int read_segments(reader *from)
{
    return take_whole_number(from, "press segments", &from->into->press.segments);
}

static int read_opening(reader *from)
{
    return take_length(from, "press opening", &from->into->press.opening);
}

static int read_capacity(reader *from)
{
    return take_force(from, "press capacity", &from->into->press.capacity);
}

/* ---- metal -------------------------------------------------------------------------------------------- */

/* Checked at once, since a status does not say which of the two metals it means. */
static int read_metal(reader *from, fer_material *metal)
{
    if (!take_pressure(from, "material modulus", &metal->elastic_modulus) ||
        !take_ratio(from, "material poisson", &metal->poisson) ||
        !take_pressure(from, "material yield strength", &metal->yield_strength) ||
        (is_value_next(from) && !take_pressure(from, "material hardening", &metal->hardening))) {
        return 0;
    }
    const fer_status status = fer_check_material(metal);
    if (status != FER_OK) {
        report_status(from->into, status);
    }
    return status == FER_OK;
}

static int read_ferrule_metal(reader *from)
{
    return read_metal(from, &from->into->order.ferrule_metal);
}

static int read_stem_metal(reader *from)
{
    return read_metal(from, &from->into->order.stem_metal);
}

static int read_restraint(reader *from)
{
    return take_ratio(from, "restraint", &from->into->order.load.restraint);
}

static int read_squeeze(reader *from)
{
    return take_pressure(from, "hose pressure", &from->into->order.load.hose_pressure);
}

static int read_go_gauge(reader *from)
{
    return take_length(from, "bore limit", &from->into->order.minimum_bore);
}

/* ---- what decides whether it may be crimped ----------------------------------------------------------- */

/* Place of a word in a list that ends with NULL, below 0 where it is none of them. */
static int take_word(reader *from, const char *name, const char *const *list, const char *rule)
{
    const char *text = take_text(from, name);
    if (!text) {
        return -1;
    }
    for (int i = 0; list[i]; i++) {
        if (strcmp(text, list[i]) == 0) {
            return i;
        }
    }
    complain(name, text, rule);
    return -1;
}

static int read_approval(reader *from)
{
    static const char *const states[] = {"approved", "not-approved", NULL};
    const int found = take_word(from, "approval", states, "write approved or not-approved");
    from->into->order.approval = found == 0 ? FER_APPROVAL_APPROVED : FER_APPROVAL_NOT_APPROVED;
    return found >= 0;
}

static int read_applies_to(reader *from)
{
    static const char *const rules[] = {"every-reading", "section-means", "mean", NULL};
    const int found = take_word(from, "applies to", rules, "write every-reading, section-means or mean");
    from->into->order.applies_to = (fer_applies_to)(found + 1);
    return found >= 0;
}

static int read_gauge(reader *from)
{
    fer_gauge *gauge = &from->into->order.gauge;
    return take_length(from, "gauge uncertainty", &gauge->standard_uncertainty) &&
           take_length_if_given(from, "gauge resolution", &gauge->resolution) &&
           take_length_if_given(from, "gauge correction", &gauge->correction);
}

static int read_insertion(reader *from)
{
    return take_length(from, "insertion", &from->into->order.insertion);
}

static int read_skive(reader *from)
{
    fer_order *order = &from->into->order;
    return take_length_if_given(from, "skive", &order->skive_outside) &&
           take_length_if_given(from, "skive", &order->skive_inside);
}

static int read_lobe(reader *from)
{
    return take_length(from, "lobe limit", &from->into->order.lobe_maximum);
}

static int take_remark(reader *from, fer_remark *remark)
{
    const char *text = take_text(from, "remark");
    for (int i = 0; text && i < FER_REMARK_COUNT; i++) {
        if (strcmp(text, fer_remark_name((fer_remark)i)) == 0 && strcmp(text, "UNKNOWN") != 0) {
            *remark = (fer_remark)i;
            return 1;
        }
    }
    return text ? complain("remark", text, "not the name of a remark, such as TARGET_COMPUTED") : 0;
}

/* A figure that was not there is written as "-", and has to be written. */
static int is_dash_next(reader *from)
{
    if (is_value_next(from) && strcmp(from->words[from->next], "-") == 0) {
        from->next++;
        return 1;
    }
    return 0;
}

static int take_looked_at(reader *from, const char *name, fer_length *length)
{
    return is_dash_next(from) || take_length(from, name, length);
}

/* Nothing is taken without the name of who answers for it, nor without the figures that were looked at. */
static int read_confirmed(reader *from)
{
    arguments *into = from->into;
    if (into->confirmation_count == CONFIRMATIONS_MAXIMUM) {
        return complain("word", "confirmed", "more than 20 confirmations");
    }
    fer_confirmation *one = &into->confirmations[into->confirmation_count];
    if (!take_remark(from, &one->remark)) {
        return 0;
    }
    const char *name = take_text(from, "name");
    if (!name || strspn(name, " -") == strlen(name)) {
        return name ? complain("name", name, "nobody is named who answers for it") : 0;
    }
    into->names[into->confirmation_count++] = name;
    return take_looked_at(from, "target looked at", &one->target) &&
           take_looked_at(from, "tolerance looked at", &one->tolerance) &&
           take_looked_at(from, "die looked at", &one->die) &&
           (is_dash_next(from) || take_ratio(from, "compression looked at", &one->compression));
}

/* ---- dies --------------------------------------------------------------------------------------------- */

/* "16,19,22,25mm": the unit at the end of the list counts for every size that has none of its own. */
static int add_die(arguments *into, const char *size, size_t length, const char *unit, const char *list)
{
    char text[100];
    const int has_unit = memchr("0123456789.", size[length - 1], 11) == NULL;
    const int written =
        snprintf(text, sizeof text, "%.*s%s", (int)(length < 90 ? length : 90), size, has_unit ? "" : unit);
    if (into->die_count == DIES_MAXIMUM) {
        return complain("dies", list, "more than 100 dies");
    }
    if (written < 0 || (size_t)written >= sizeof text) {
        return complain("die size", list, "the text is too long");
    }
    size_t stop;
    fer_die die = {{0.0}, {0.0}, 0, {0.0}};
    const fer_status status = fer_parse_length(text, (size_t)written, &die.size, &stop);
    if (status != FER_OK) {
        return complain("die size", text, fer_status_sentence(status));
    }
    into->dies[into->die_count++] = die;
    return 1;
}

static int add_dies(arguments *into, const char *list)
{
    const char *unit = list + strlen(list);
    while (unit > list && !isdigit((unsigned char)unit[-1]) && unit[-1] != ',') {
        unit--;
    }
    for (const char *size = list;;) {
        const size_t length = strcspn(size, ",");
        if (length == 0) {
            return complain("dies", list, "a size is missing between commas");
        }
        if (!add_die(into, size, length, unit, list)) {
            return 0;
        }
        if (size[length] == '\0') {
            return 1;
        }
        size += length + 1;
    }
}

static int read_dies(reader *from)
{
    from->list_start = from->into->die_count;
    do {
        const char *list = take_text(from, "die size");
        if (!list || !add_dies(from->into, list)) {
            return 0;
        }
    } while (is_value_next(from));
    return 1;
}

/* What is said behind a list of dies counts for the dies of that list. */
static int read_reach(reader *from)
{
    fer_length reach;
    if (!take_length(from, "die reach", &reach)) {
        return 0;
    }
    for (size_t i = from->list_start; i < from->into->die_count; i++) {
        from->into->dies[i].reach = reach;
    }
    return 1;
}

static int read_die_length(reader *from)
{
    fer_length length;
    if (!take_length(from, "die length", &length)) {
        return 0;
    }
    for (size_t i = from->list_start; i < from->into->die_count; i++) {
        from->into->dies[i].length = length;
    }
    return 1;
}

static int read_adapter(reader *from)
{
    int adapter;
    if (!take_whole_number(from, "die adapter", &adapter)) {
        return 0;
    }
    for (size_t i = from->list_start; i < from->into->die_count; i++) {
        from->into->dies[i].adapter = adapter;
    }
    return 1;
}

/* ---- the whole command line ----------------------------------------------------------------------------- */

static const part parts[] = {
    {"hose", read_hose},
    {"stem", read_stem},
    {"ferrule", read_ferrule},
    {"dies", read_dies},
    {"reach", read_reach},
    {"adapter", read_adapter},
    {"long", read_die_length},
    {"published", read_published},
    {"tolerance", read_tolerance},
    {"range", read_range},
    {"aim", read_aim},
    {"widest", read_widest},
    {"known", read_known},
    {"mounted", read_mounted},
    {"dial", read_dial},
    {"opening", read_opening},
    {"segments", read_segments},
    {"capacity", read_capacity},
    {"ferrule-metal", read_ferrule_metal},
    {"stem-metal", read_stem_metal},
    {"restraint", read_restraint},
    {"squeeze", read_squeeze},
    {"go-gauge", read_go_gauge},
    {"gauge", read_gauge},
    {"approval", read_approval},
    {"applies-to", read_applies_to},
    {"insertion", read_insertion},
    {"skive", read_skive},
    {"lobe", read_lobe},
    {"confirmed", read_confirmed},
};

static const part *find_part(const char *word)
{
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        if (strcmp(word, parts[i].word) == 0) {
            return &parts[i];
        }
    }
    return NULL;
}

/* What is said of the dies of a list. */
static int is_of_dies(const part *found)
{
    return found->read == read_reach || found->read == read_adapter || found->read == read_die_length;
}

/* Of two hoses nobody knows which is meant; of dies there may be several lists, each with what is said of it. */
static int may_come_again(const part *found)
{
    return found->read == read_dies || found->read == read_confirmed || is_of_dies(found);
}

int read_arguments(int count, char **words, arguments *result)
{
    reader from = {words, count, 0, 0, result};
    int read[sizeof parts / sizeof *parts] = {0};
    memset(result, 0, sizeof *result);
    while (from.next < count) {
        const part *found = find_part(words[from.next]);
        if (!found) {
            return complain("word", words[from.next], "not a word that is understood here; try --help");
        }
        if (read[found - parts]++ && !may_come_again(found)) {
            return complain("word", found->word,
                            "stands twice; only lists of dies and confirmations may come again");
        }
        if (is_of_dies(found) && result->die_count == 0) {
            return complain("word", found->word, "belongs behind the dies that it is said of");
        }
        from.next++;
        if (!found->read(&from)) {
            return 0;
        }
    }
    return 1;
}
