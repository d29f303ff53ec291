/* SPDX-License-Identifier: MIT */
/** @file
 * Module `text`: read quantities from text and write them, exactly and independent of the locale.
 *
 * What a person writes is understood: `12.7 mm`, `0.5in`, `1 1/4 in`, `1-1/4"`, `20 %`, `-0.05 mm`. The unit is
 * never guessed: a number without a unit is refused, for ratios too (`0.2` could be 0.2 % or 20 %; write
 * `20 %` or `0.2 fraction`). Units: #FER_UNIT_LIST. Nor is a comma: it is a decimal sign where the caller says so.
 */
#ifndef FERRULE_TEXT_H
#define FERRULE_TEXT_H

#include <ferrule/quantity.h>
#include <ferrule/status.h>

/** For the argument `decimals`: the fewest digits that read back as the same number. */
#define FER_SHORTEST (-1)

/** For the argument `decimals`: in place of decimals the nearest fraction of so many parts, 2, 4, 8, 16, 32, 64 or
 * 128, as an inch rule has them: `1 1/4 in` in 64ths is 80/64 in. What lies between is rounded away: half a part,
 * 0.2 mm at 64ths of an inch. */
#define FER_FRACTION(parts) (-1000 - (parts))

/** Bytes that hold the text of any quantity in any unit with up to 30 decimals, with the closing zero. */
#define FER_TEXT_CAPACITY 400

/** @def FER_KIND_LIST
 * The kinds of quantity: X(kind, field, words). */
#define FER_KIND_LIST(X)                                                                                     \
    X(length, mm, "length")                                                                                  \
    X(area, mm2, "area")                                                                                     \
    X(force, newton, "force")                                                                                \
    X(pressure, mpa, "pressure")                                                                             \
    X(angle, rad, "angle")                                                                                   \
    X(ratio, fraction, "ratio")                                                                              \
    X(temperature, celsius, "temperature")                                                                   \
    X(per_length, per_mm, "number per length")

#ifdef __cplusplus
extern "C" {
#endif

#define FER_DECLARE_TEXT(kind, field, words)                                                                 \
    FER_API fer_status fer_parse_##kind(const char *text, size_t length, fer_##kind *quantity,               \
                                        size_t *stop);                                                       \
    FER_API fer_status fer_parse_comma_##kind(const char *text, size_t length, fer_##kind *quantity,         \
                                              size_t *stop);                                                 \
    FER_API fer_status fer_format_##kind(fer_##kind quantity, fer_unit unit, int decimals, char *text,       \
                                         size_t capacity, size_t *length);

/** @name Read and write, for each kind of quantity
 *
 * `fer_parse_KIND(text, length, quantity, stop)` reads a number and a unit of that kind.
 * Grammar: blanks, sign, number, blanks, unit, blanks, and nothing else. A number is a decimal (`12`, `12.7`,
 * `.5`, `1.2e3`), a fraction (`3/4`), or a whole number and a fraction below one, with a blank or a hyphen
 * between (`1 1/4`, `1-1/4`). A fraction may be one character, with or without a blank before it (`½`, `1½`, `1 ⅝`:
 * halves to tenths, as Unicode has them), and its bar the typographic one (`5⁄16`). The sign stands before all of
 * it; the typographic minus is understood. Blanks are space, tab, no-break space, thin and narrow no-break space.
 * The unit may follow without a blank, in capitals or not (`MM`, `In`, `BAR`), except where case makes another unit:
 * M before P or m is mega (`MPa`, `Mpa` and `MPA` are megapascals, `mPa` and `mpa` are refused, and so is `Mm`), and
 * a unit of one letter is as it is listed (`m`, `N`).
 *  - text: need not end in a zero byte; not one byte beyond `length` is read
 *  - quantity: the double nearest to the exact value of number times unit (ties to even), 0 where that is
 *    below all doubles, never a negative zero; NaN on failure
 *  - stop: byte at which reading ended: on failure where the trouble is, otherwise `length`
 *  - status: one of FER_TEXT_…
 *
 * `fer_parse_comma_KIND(text, length, quantity, stop)` is the same where the decimal sign is the comma (`12,7 mm`):
 * only the caller can know that. A point in the number is then refused, as a comma is otherwise, since each of them
 * separates thousands where the other one is the decimal sign.
 *
 * `fer_format_KIND(quantity, unit, decimals, text, capacity, length)` writes number, blank and unit.
 *  - unit: one of the kind's own units
 *  - decimals: 0 to 30, #FER_SHORTEST, or #FER_FRACTION of so many parts. Rounding is that of the exact value; a value exactly between two
 *    neighbours goes to the even one. Shortest has no exponent and as few digits as read back to the same bits,
 *    and of these the nearest. A fraction is the nearest one of so many parts, written in lowest terms (`7/8 in`,
 *    `1 1/4 in`, `2 in`). What rounds to zero is written without a sign.
 *  - text: written with a closing zero byte; an empty text on failure (where capacity is at least 1)
 *  - length: bytes written without the closing zero; 0 on failure
 * @accuracy correctly rounded both ways for every finite double (tests/unit/test_text.c,
 *   tests/agree/text/test_text_exact.py); degrees have the first 75 digits right
 * @source IEEE 754-2019, clause 5.12 (correct rounding of conversions); grammar: common practice, no source
 * @{ */
FER_KIND_LIST(FER_DECLARE_TEXT)
/** @} */

#undef FER_DECLARE_TEXT

/**
 * The symbol that is printed for a unit, such as "mm".
 *
 * @param[in] unit  any number
 * @return the first symbol of the unit in #FER_UNIT_LIST; "" for a number that is not in the list; never NULL
 */
FER_API const char *fer_unit_symbol(fer_unit unit);

#ifdef __cplusplus
}
#endif

#endif
