/* The constants of nature and of the trade, said once.
 *
 * Each row: symbol, value, unit, low, high (the range in which sources or
 * practice put it), source key (docs/sources.md), mark, meaning. The mark says
 * how the value was come by: READ in the named source, MEM from memory with no
 * source read, COMP computed from other values. What was fitted by us is told
 * in docs/models. A row becomes `DW_<symbol>`, a static const double, and a row
 * of the table that answers "why this number?".
 */
#ifndef DOUGHWRIGHT_CONSTANTS_H
#define DOUGHWRIGHT_CONSTANTS_H

#include <stddef.h>

#define DW_CONSTANT_LIST(X)                                                    \
    X(WATER_CP, 4180, "J/kgK", 4176, 4218, "geankoplis-a2", READ,              \
      "specific heat of water, 0 to 60 degC")                                  \
    X(FLOUR_CP, 1850, "J/kgK", 1800, 1880, "geankoplis-a4", READ,              \
      "specific heat of flour at 12 to 13.5 percent water")                    \
    X(OIL_CP, 2010, "J/kgK", 1950, 2050, "geankoplis-a4", READ,                \
      "specific heat of vegetable oil")                                        \
    X(SALT_CP, 880, "J/kgK", 850, 900, "handbooks", READ,                      \
      "specific heat of salt")                                                 \
    X(SUGAR_CP, 1240, "J/kgK", 1200, 1260, "handbooks", MEM,                   \
      "specific heat of sucrose")                                              \
    X(DRY_CP, 1600, "J/kgK", 1130, 2030, "choi-okos-1986", COMP,               \
      "specific heat of the dry part of other ingredients")                    \
    X(STEEL_CP, 500, "J/kgK", 460, 510, "handbooks", MEM,                      \
      "specific heat of stainless steel")                                      \
    X(ICE_CP, 2050, "J/kgK", 1958, 2100, "handbooks", MEM,                     \
      "specific heat of ice near 0 degC; 1958 at -20 degC")                    \
    X(ICE_LATENT, 333550, "J/kg", 333000, 335000, "iapws", MEM,                \
      "latent heat of melting ice; the trade's 144 Btu/lb is 334944")          \
    X(HYDRATION, 15100, "J/kg", 0, 20000, "sosland", READ,                     \
      "heat of wetting, per kg of flour at 11 to 12 percent moisture")         \
    X(MIXING_WORK, 13000, "J/kg", 10000, 20000, "trade", COMP,                 \
      "work of pizza mixing per kg of dough, from a friction of 35 degF")      \
    X(MIXING_WORK_SD, 4000, "J/kg", 2500, 8000, "trade", COMP,                 \
      "how far mixers are apart in it, one standard deviation")                \
    X(WETTING_WATER, 5, "kg/kg", 4, 6, "trade", MEM,                           \
      "water in which active dry yeast is wetted, per kg of it")               \
    X(WETTING_TEMPERATURE, 40, "degC", 38, 43, "trade", MEM,                   \
      "of that water")                                                         \
    X(BREAD_WORK, 40000, "J/kg", 30000, 50000, "osella-2007", READ,            \
      "work of intensive bread mixing per kg of dough")                        \
    X(GAS_CONDUCTIVITY, 0.025, "W/mK", 0.016, 0.027, "handbooks", MEM,         \
      "thermal conductivity of the gas in the bubbles")                        \
    X(DOUGH_WATER_ACTIVITY, 0.95, "", 0.93, 0.97, "trade", COMP,               \
      "vapour pressure of dough as a share of pure water's")                   \
    X(H_OPEN, 12, "W/m2K", 10, 15, "trade", COMP,                              \
      "ball in an open tray in moving air")                                    \
    X(H_OFFSET, 8, "W/m2K", 7, 10, "trade", COMP, "ball in an offset stack")   \
    X(H_CLOSED, 3, "W/m2K", 2.5, 4, "trade", COMP, "ball in a closed stack")

#define DW_CONSTANT_VALUE(symbol, value, unit, low, high, source, mark, says)  \
    static const double DW_##symbol = value;
DW_CONSTANT_LIST(DW_CONSTANT_VALUE)
#undef DW_CONSTANT_VALUE

typedef enum dw_mark { DW_MARK_READ, DW_MARK_MEM, DW_MARK_COMP } dw_mark;

typedef struct dw_constant {
    const char *symbol;
    double value;
    const char *unit;
    double low, high;
    const char *source; /* key in docs/sources.md */
    dw_mark mark;
    const char *meaning;
} dw_constant;

/* All rows, in the order above. Static, borrowed. */
const dw_constant *dw_constants(size_t *count);

#endif
