/* Quantities with units, as people type and read them.
 *
 *   "10 lb"  "1 lb 4 oz"  "4.5kg"  "26C"  "80 F"  "0.375%"  "2 1/2 lb"  "12 in"
 *
 * Values inside are SI, with the units of dw_dimension below. The pages parse
 * the same texts in their own language; both are held to the vectors in
 * tests/data/quantity_vectors.csv.
 *
 * Factors: exact by definition (international yard and pound, 1959; US gallon
 * 231 cubic inches; BIPM litre), see sources.md "units". Label units are those
 * of 21 CFR 101.9(b)(5)(viii) and differ on purpose from the kitchen's.
 */
#ifndef DOUGHWRIGHT_QUANTITY_H
#define DOUGHWRIGHT_QUANTITY_H

#include "doughwright/base.h"

/* symbol, word, base unit, low and high of what anyone can mean */
#define DW_DIMENSION_LIST(X)                                                   \
    X(MASS, "mass", "kg", 0, 100000)                                           \
    X(TEMPERATURE, "temperature", "degC", -80, 600)                            \
    X(PERCENT, "percent", "percent", 0, 1000)                                  \
    X(LENGTH, "length", "m", 0, 100)                                           \
    X(TIME, "time", "h", 0, 8784)                                              \
    X(NUMBER, "count", "count", 0, 1e6)                                        \
    X(VOLUME, "volume", "l", 0, 100000)                                        \
    X(ENERGY, "energy", "j", 0, 1e12)                                          \
    X(PRESSURE, "pressure", "pa", 0, 1e8)                                      \
    X(POWER, "power", "w", 0, 1e9)                                             \
    X(DIFFERENCE, "difference", "K", -1000, 1000) /* of temperatures */

typedef enum dw_dimension {
#define DW_DIMENSION_ENUM(symbol, word, base, low, high) DW_##symbol,
    DW_DIMENSION_LIST(DW_DIMENSION_ENUM)
#undef DW_DIMENSION_ENUM
        DW_DIMENSION_COUNT
} dw_dimension;

/* "mass", "temperature", ... NULL-terminated. */
extern const char *const dw_dimension_words[];

/* A unit: base value = (typed + add) * times / over. `names` are the ways to
 * write it, parted by '|'; the first is the one we print. Static. */
typedef struct dw_unit {
    dw_dimension dimension;
    const char *names;
    double add, times, over;
} dw_unit;

/* The unit of that name ("lb", "fl oz", "degC"; capitals do not matter), or
 * NULL. `dimension` parts "m" the metre from "m" the minute. */
const dw_unit *dw_unit_find(dw_dimension dimension, const char *name);
/* All units, for pages and docs. */
const dw_unit *dw_units(size_t *count);
double dw_unit_to_base(const dw_unit *unit, double typed);
double dw_unit_from_base(const dw_unit *unit, double value);

/* Read `text` as a quantity of `dimension`. A number without a unit is in
 * `bare_unit` (a name known in that dimension, asserted). Parts of falling
 * size add up ("1 lb 4 oz", "1 h 30 min"). A comma is a decimal comma; where
 * it could be a thousands mark ("1,500 g") it is refused. The fields of *err
 * have no name of their own: put one before it with dw_err_within.
 * Fails: DW_E_MISSING empty; DW_E_SYNTAX not a quantity; DW_E_UNIT unknown unit
 * or one of another dimension; DW_E_RANGE beyond DW_DIMENSION_LIST; DW_E_TYPE a
 * count that is not whole. */
dw_status dw_quantity_parse(const char *text, dw_dimension dimension,
                            const char *bare_unit, double *value, dw_err *err);

/* The units a person reads. */
extern const char *const dw_units_words[]; /* metric us */
typedef enum dw_units_choice { DW_METRIC, DW_US } dw_units_choice;

/* Print for a person: "1 lb 4.5 oz" or "567 g", "80 F" or "26.5 C" (a
 * difference of 15 K: "27 F" or "15 C"), "12 in" or
 * "30.5 cm", "0.375 %", "1 h 30 min". Digits are those a shop can weigh
 * or read: 0.1 oz (0.01 below 4 oz, 0.001 below 0.3 oz, 0.1 lb from 100 lb), 1
 * g (0.1 below 100 g, 0.01 below 10 g, four digits from 10 kg), 0.1 degree.
 * Energy, pressure and power print in the base unit. Returns the length; cut to
 * `room`. */
size_t dw_quantity_print(char *out, size_t room, double value,
                         dw_dimension dimension, dw_units_choice units);

#endif
