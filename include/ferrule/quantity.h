/* SPDX-License-Identifier: MIT */
/** @file
 * Module `quantity`: numbers that carry their unit as a type.
 *
 * One struct for each kind of quantity, one double inside, the unit is the field's name. The base
 * mm, N, MPa is coherent, so formulas need no factors, and shop figures such as 41.0 mm stay exact.
 * A length cannot be passed where a pressure is meant: the compiler refuses it.
 *
 * For every unit of #FER_UNIT_LIST there is a constructor and a reader: `fer_inch(0.5)` is a #fer_length,
 * `fer_to_inch(x)` is its number in inches.
 */
#ifndef FERRULE_QUANTITY_H
#define FERRULE_QUANTITY_H

/** A length, kept in millimetres. */
typedef struct fer_length {
    double mm; /**< number in mm @decimals 2 */
} fer_length;

/** An area, kept in square millimetres. */
typedef struct fer_area {
    double mm2; /**< number in mm² @decimals 1 */
} fer_area;

/** A force, kept in newtons. */
typedef struct fer_force {
    double newton; /**< number in N @decimals 0 */
} fer_force;

/** A pressure or stress, kept in megapascals (N/mm²). */
typedef struct fer_pressure {
    double mpa; /**< number in MPa @decimals 1 */
} fer_pressure;

/** An angle, kept in radians. */
typedef struct fer_angle {
    double rad; /**< number in rad @decimals 4 */
} fer_angle;

/** A ratio of two like quantities, kept as a fraction: 20 % is 0.2. */
typedef struct fer_ratio {
    double fraction; /**< number as a fraction of one @decimals 4 */
} fer_ratio;

/** A temperature, kept in degrees Celsius. */
typedef struct fer_temperature {
    double celsius; /**< number in °C @decimals 1 */
} fer_temperature;

/** A change per length, kept per millimetre: the slope of a ratio against a length. */
typedef struct fer_per_length {
    double per_mm; /**< number in 1/mm @decimals 5 */
} fer_per_length;

/** @def FER_UNIT_LIST
 * The one list of units: X(kind, field, unit, numerator, denominator, zero, symbols).
 *
 * base number = (number − zero) × numerator / denominator; all but π are whole numbers below 2⁵³, so that the
 * factor is exact. The first of the symbols is printed and ends with a zero byte; those after it, separated by a
 * space, are understood too (module `text`). Factors: NIST SP 811 (2008), appendix B.8 and B.9; the pound-force is
 * exactly 4.4482216152605 N, the inch 25.4 mm.
 */
#define FER_UNIT_LIST(X)                                                                                     \
    X(length, mm, mm, 1.0, 1.0, 0.0, "mm\0millimetre millimetres millimeter millimeters")                    \
    X(length, mm, cm, 10.0, 1.0, 0.0, "cm\0centimetre centimetres centimeter centimeters")                   \
    X(length, mm, metre, 1000.0, 1.0, 0.0, "m\0metre metres meter meters")                                   \
    X(length, mm, micrometre, 1.0, 1000.0, 0.0,                                                              \
      "\xC2\xB5m\0\xCE\xBCm um micrometre micrometres micrometer micrometers")                               \
    X(length, mm, inch, 127.0, 5.0, 0.0, "in\0inch inches \" \xE2\x80\xB3 \xE2\x80\x9D")                     \
    X(length, mm, foot, 1524.0, 5.0, 0.0, "ft\0foot feet ' \xE2\x80\xB2")                                    \
    X(length, mm, thou, 127.0, 5000.0, 0.0, "thou\0mil mils")                                                \
    X(area, mm2, mm2, 1.0, 1.0, 0.0, "mm\xC2\xB2\0mm2 mm^2")                                                 \
    X(area, mm2, cm2, 100.0, 1.0, 0.0, "cm\xC2\xB2\0cm2 cm^2")                                               \
    X(area, mm2, square_inch, 16129.0, 25.0, 0.0, "in\xC2\xB2\0in2 in^2")                                    \
    X(force, newton, newton, 1.0, 1.0, 0.0, "N\0newton newtons")                                             \
    X(force, newton, kn, 1000.0, 1.0, 0.0, "kN\0kilonewton kilonewtons")                                     \
    X(force, newton, lbf, 44482216152605.0, 10000000000000.0, 0.0, "lbf")                                    \
    X(force, newton, tonne_force, 980665.0, 100.0, 0.0, "tf\0tonne-force")                                   \
    X(pressure, mpa, mpa, 1.0, 1.0, 0.0, "MPa\0N/mm\xC2\xB2 N/mm2 N/mm^2 megapascal")                        \
    X(pressure, mpa, bar, 1.0, 10.0, 0.0, "bar")                                                             \
    X(pressure, mpa, psi, 44482216152605.0, 6451600000000000.0, 0.0, "psi\0lbf/in\xC2\xB2 lbf/in2 lbf/in^2") \
    X(pressure, mpa, kpa, 1.0, 1000.0, 0.0, "kPa\0kilopascal")                                               \
    X(pressure, mpa, gpa, 1000.0, 1.0, 0.0, "GPa\0kN/mm\xC2\xB2 kN/mm2 kN/mm^2 gigapascal")                  \
    X(angle, rad, rad, 1.0, 1.0, 0.0, "rad\0radian radians")                                                 \
    X(angle, rad, deg, 3.14159265358979323846, 180.0, 0.0, "\xC2\xB0\0deg degree degrees")                   \
    X(ratio, fraction, fraction, 1.0, 1.0, 0.0, "fraction")                                                  \
    X(ratio, fraction, percent, 1.0, 100.0, 0.0, "%\0percent")                                               \
    X(temperature, celsius, celsius, 1.0, 1.0, 0.0,                                                          \
      "\xC2\xB0"                                                                                             \
      "C\0degC C celsius")                                                                                   \
    X(temperature, celsius, fahrenheit, 5.0, 9.0, 32.0,                                                      \
      "\xC2\xB0"                                                                                             \
      "F\0degF F fahrenheit")                                                                                \
    X(per_length, per_mm, per_mm, 1.0, 1.0, 0.0, "1/mm\0/mm")                                                \
    X(per_length, per_mm, per_inch, 5.0, 127.0, 0.0, "1/in\0/in")

/** A unit of #FER_UNIT_LIST. */
typedef enum fer_unit {
#define FER_UNIT_ENUMERATOR(kind, field, unit, numerator, denominator, zero, symbols) FER_UNIT_##unit,
    FER_UNIT_LIST(FER_UNIT_ENUMERATOR)
#undef FER_UNIT_ENUMERATOR
        FER_UNIT_COUNT /**< number of units; not a unit */
} fer_unit;

#define FER_DEFINE_UNIT(kind, field, unit, numerator, denominator, zero, symbols)                            \
    static inline fer_##kind fer_##unit(double number)                                                       \
    {                                                                                                        \
        fer_##kind quantity;                                                                                 \
        quantity.field = (number - (zero)) * (numerator) / (denominator);                                    \
        return quantity;                                                                                     \
    }                                                                                                        \
    static inline double fer_to_##unit(fer_##kind quantity)                                                  \
    {                                                                                                        \
        return quantity.field * (denominator) / (numerator) + (zero);                                        \
    }

/** @name Constructors and readers
 * `fer_UNIT(number)` makes a quantity, `fer_to_UNIT(quantity)` gives its number in that unit. One pair for each
 * unit of #FER_UNIT_LIST. No check: NaN and infinity go through and are refused where the quantity is used.
 * @accuracy 1.5 units in the last place (two roundings; proven with Gappa); mm, N, MPa, rad, fraction and °C are exact.
 * @source NIST SP 811 (2008), appendix B.8, B.9. @{ */
FER_UNIT_LIST(FER_DEFINE_UNIT)
/** @} */

#undef FER_DEFINE_UNIT

#endif
