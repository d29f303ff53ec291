/* SPDX-License-Identifier: MIT */
/* Rules of quantities: how a form is read, and what sums and multiples there are. */
#include "say.h"

#include <stdlib.h>
#include <string.h>

void bind_refuse_unit(bind_writer *out, const bind_kind *kind, const char *unit)
{
    bind_write(out, "%s: '", kind->name);
    bind_say_text(out, unit, strlen(unit));
    bind_write(out, "' is not one of its units: ");
    bind_say_units(out, kind);
}

/* "2f" or "1/64": what stands behind the point of a form. NULL: something else. */
static const char *read_decimals(const char *form, int *decimals)
{
    char *end;
    const int is_fraction = strncmp(form, "1/", 2) == 0;
    const char *digits = form + (is_fraction ? 2 : 0);
    const long number = strtol(digits, &end, 10);
    if (end == digits || number < 0 || number > 1000 || (!is_fraction && *end != 'f'))
        return NULL;
    *decimals = is_fraction ? FER_FRACTION((int)number) : (int)number;
    return is_fraction ? end : end + 1;
}

int bind_read_form(bind_writer *out, const bind_kind *kind, const char *form, int *decimals, int *unit)
{
    if (*form == '.') {
        form = read_decimals(form + 1, decimals);
        if (!form) {
            bind_write(out, "%s: decimals are written .2f, before the unit, fractions .1/64: \".2f in\"",
                       kind->name);
            return 0;
        }
    }
    while (*form == ' ')
        form++;
    if (!*form)
        return 1;
    *unit = bind_find_unit(kind, form);
    if (*unit < 0)
        bind_refuse_unit(out, kind, form);
    return *unit >= 0;
}

/* A bit for each kind that may be a scale with a zero of its own, since sums are made often. */
#define SCALE_BIT(kind, field, unit, numerator, denominator, zero, symbols)                                  \
    | (uint64_t)((zero) != 0.0) << (BIND_fer_##kind & 63)
static const uint64_t scales = 0 FER_UNIT_LIST(SCALE_BIT);

int bind_is_amount(const bind_kind *kind)
{
    if (kind && !(scales >> ((kind - bind_kinds) & 63) & 1))
        return 1;
    for (const bind_unit *unit = bind_units; unit < bind_units + FER_UNIT_COUNT; unit++)
        if (unit->kind == kind && unit->has_zero)
            return 0;
    return kind != NULL;
}

int bind_combine(const bind_kind *a, double left, char operation, const bind_kind *b, double right,
                 const bind_kind **kind, double *base)
{
    const bind_kind *ratio = &bind_kinds[BIND_fer_ratio];
    if ((a && !bind_is_amount(a)) || (b && b != a && !bind_is_amount(b)) || (!a && !b))
        return 0;
    *kind = a;
    switch (operation) {
    case '+':
        *base = left + right;
        return a == b;
    case '-':
        *base = left - right;
        return a == b;
    case '*':
        /* The amount is what is not the factor; of ratio times length the length. */
        *kind = (!a || a == ratio) && b ? b : a;
        *base = left * right;
        return !a || !b || a == ratio || b == ratio;
    case '/':
        *base = left / right;
        if (a == b)
            *kind = ratio;
        return a && (!b || b == ratio || a == b);
    default:
        return 0;
    }
}
