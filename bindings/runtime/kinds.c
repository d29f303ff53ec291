/* SPDX-License-Identifier: MIT */
#include "kinds.h"

#include <math.h>
#include <string.h>

#define UNIT_FUNCTIONS(kind, field, unit, numerator, denominator, zero, symbols)                             \
    static double make_##unit(double number)                                                                 \
    {                                                                                                        \
        return fer_##unit(number).field;                                                                     \
    }                                                                                                        \
    static double read_##unit(double base)                                                                   \
    {                                                                                                        \
        const fer_##kind quantity = {base};                                                                  \
        return fer_to_##unit(quantity);                                                                      \
    }
FER_UNIT_LIST(UNIT_FUNCTIONS)

#define UNIT_ROW(kind, field, unit, numerator, denominator, zero, symbols)                                   \
    [FER_UNIT_##unit] = {#unit,       symbols,     sizeof(symbols), &bind_kinds[BIND_fer_##kind],            \
                         make_##unit, read_##unit, (zero) != 0.0},
const bind_unit bind_units[FER_UNIT_COUNT] = {FER_UNIT_LIST(UNIT_ROW)};

#define TEXT_FUNCTIONS(kind, field, words)                                                                   \
    static fer_status parse_##kind(const char *text, size_t length, double *base, size_t *stop)              \
    {                                                                                                        \
        fer_##kind quantity;                                                                                 \
        const fer_status status = fer_parse_##kind(text, length, &quantity, stop);                           \
        *base = quantity.field;                                                                              \
        return status;                                                                                       \
    }                                                                                                        \
    static fer_status parse_comma_##kind(const char *text, size_t length, double *base, size_t *stop)        \
    {                                                                                                        \
        fer_##kind quantity;                                                                                 \
        const fer_status status = fer_parse_comma_##kind(text, length, &quantity, stop);                     \
        *base = quantity.field;                                                                              \
        return status;                                                                                       \
    }                                                                                                        \
    static fer_status format_##kind(double base, fer_unit unit, int decimals, char *text, size_t capacity,   \
                                    size_t *length)                                                          \
    {                                                                                                        \
        const fer_##kind quantity = {base};                                                                  \
        return fer_format_##kind(quantity, unit, decimals, text, capacity, length);                          \
    }
FER_KIND_LIST(TEXT_FUNCTIONS)

#define TEXT_ROW(kind, field, words)                                                                         \
    [BIND_fer_##kind] = {parse_##kind, parse_comma_##kind, format_##kind, FER_UNIT_##field},
const bind_text bind_texts[BIND_COUNT] = {FER_KIND_LIST(TEXT_ROW)};

#define STATUS_ROW(name, number, about, sentence) {#name, sentence, FER_##name},
const bind_status bind_statuses[] = {FER_STATUS_LIST(STATUS_ROW)};
const size_t bind_status_count = sizeof bind_statuses / sizeof bind_statuses[0];

/* ---- what follows from the tables ------------------------------------------------------------------------- */

fer_unit bind_shown_unit(const bind_kind *kind)
{
    /* "20 %" is what people write and read, "0.2 fraction" is not. */
    const fer_unit unit = bind_texts[kind - bind_kinds].base;
    return unit == FER_UNIT_fraction ? FER_UNIT_percent : unit;
}

static int is_unit(const bind_unit *unit, const char *text)
{
    const size_t length = strlen(text);
    const char *end = unit->symbols + unit->symbols_size;
    for (const char *symbol = unit->symbols; symbol < end; symbol += strcspn(symbol, " ") + 1)
        if (length && strcspn(symbol, " ") == length && memcmp(symbol, text, length) == 0)
            return 1;
    return strcmp(unit->name, text) == 0;
}

int bind_find_unit(const bind_kind *kind, const char *text)
{
    for (int unit = 0; unit < FER_UNIT_COUNT; unit++)
        if (bind_units[unit].kind == kind && is_unit(&bind_units[unit], text))
            return unit;
    return -1;
}

static char upper(char letter)
{
    return letter >= 'a' && letter <= 'z' ? (char)(letter - 'a' + 'A') : letter;
}

/* Case does not count, and a blank or hyphen stands for the underscore. */
static int is_word(const char *name, const char *text, size_t length)
{
    size_t i = 0;
    for (; i < length && name[i]; i++)
        if (upper(name[i]) != upper(text[i]) && !(name[i] == '_' && (text[i] == ' ' || text[i] == '-')))
            return 0;
    return i == length && !name[i];
}

const bind_word *bind_find_word(const bind_kind *kind, const char *text, size_t length)
{
    for (const bind_word *word = kind->words; word->name; word++)
        if (is_word(word->name, text, length))
            return word;
    return NULL;
}

void bind_store_integer(const bind_kind *kind, uint64_t number, void *to)
{
    switch (kind->size) {
    case 1:
        *(uint8_t *)to = (uint8_t)number;
        break;
    case 2:
        *(uint16_t *)to = (uint16_t)number;
        break;
    case 4:
        *(uint32_t *)to = (uint32_t)number;
        break;
    default:
        *(uint64_t *)to = number;
    }
}

int bind_is_shorthand(const bind_kind *kind)
{
    const bind_member *first = kind->members;
    if (kind->form != BIND_STRUCT)
        return 0;
    for (const bind_member *m = first + 1; m->name; m++)
        if (!m->optional || (first->optional && m->kind == first->kind))
            return 0;
    return 1;
}

int bind_is_there(const bind_kind *found, const void *from)
{
    int status;
    memcpy(&status, (const char *)from + found->members[1].offset, sizeof status);
    return status == FER_OK;
}

void bind_clear(const bind_kind *kind, void *to)
{
    const double none = NAN;
    memset(to, 0, kind->size);
    if (kind->form == BIND_QUANTITY || kind->form == BIND_NUMBER)
        memcpy(to, &none, sizeof none);
    for (const bind_member *m = kind->members; m && m->name; m++)
        for (size_t i = 0; i < (m->count ? m->count : 1); i++)
            bind_clear(m->kind, (char *)to + m->offset + i * m->kind->size);
}
