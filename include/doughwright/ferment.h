/* Fermentation of dough: yeast makes gas, ethanol and acid out of sugar.
 *
 * Everything is per 100 g of flour: masses in g, sugars and gas in mmol,
 * temperatures in degC, times in h, pressures in kPa, volumes in mL. One mmol
 * of CO2 is 24.06 mL at 20 degC and 1 atm, the unit in which gas is reported.
 * The equations, their sources and how far they can be trusted are in
 * docs/models/ferment.md; every parameter is in the table below and in
 * docs/models/parameters.md.
 *
 * These are the equations alone, at one temperature and one moment. life.h
 * follows them through a ball that cools and warms.
 */
#ifndef DOUGHWRIGHT_FERMENT_H
#define DOUGHWRIGHT_FERMENT_H

#include "doughwright/base.h"
#include "doughwright/formula.h"

#define DW_ML_PER_MMOL 24.06   /* CO2 at 20 degC, 101.325 kPa */
#define DW_GRAM_PER_MMOL 0.180 /* of hexose */
#define DW_FLOUR_WATER_G 14.0  /* in 100 g of flour */

/* name: in C, JSON and on the page. value; low, high: the range that the
 * uncertainty band is drawn from (equal to value: no range is known, so the
 * band does not vary it); least, most: what an override may be; unit; source
 * key; confidence (high, medium, low). */
#define DW_FERMENT_PARAMETERS(X)                                               \
    X(q30, 16, 12, 20, 0, 60, "mmol/g/h", jayaram_2013, "medium",              \
      "gas made by a gram of yeast dry matter at 30 degC")                     \
    X(f_Tmin, -1, -2, 0, -6, 5, "degC", white_munns_1951, "low",               \
      "gas stops at this cold: the cold rate hangs on it")                     \
    X(f_Topt, 38, 38, 38, 30, 42, "degC", white_munns_1951, "medium",          \
      "gas is fastest")                                                        \
    X(f_Tmax, 50, 50, 50, 45, 60, "degC", white_munns_1951, "medium",          \
      "gas stops at this warmth")                                              \
    X(g_Tmin, 2.8, 1.3, 4.3, -2, 10, "degC", salvado_2011, "medium",           \
      "yeast does not grow below")                                             \
    X(g_Topt, 32.3, 32.3, 32.3, 25, 38, "degC", salvado_2011, "high",          \
      "growth is fastest")                                                     \
    X(g_Tmax, 45.4, 45.4, 45.4, 40, 50, "degC", salvado_2011, "high",          \
      "yeast does not grow above")                                             \
    X(mu, 0.277, 0.277, 0.277, 0, 1, "1/h", pyler, "high",                     \
      "growth rate at its best temperature, nutrients full")                   \
    X(N0, 0.195, 0.195, 0.195, 0.001, 2, "g", pyler, "high",                   \
      "yeast dry matter that the flour's nutrients can grow")                  \
    X(growth_lag, 2, 2, 2, 0, 24, "h", pyler, "high",                          \
      "before growth begins, at 27 degC")                                      \
    X(gas_lag, 0.33, 0.33, 0.33, 0.02, 5, "h", practice, "medium",             \
      "before gas is at full rate, at 30 degC")                                \
    X(kd, 0.0075, 0.005, 0.01, 0, 0.5, "1/day", practice, "low",               \
      "yeast lost in chilled dough")                                           \
    X(co2_per_hexose, 1.7, 1.6, 1.9, 1, 2, "mol/mol", jayaram_2013, "high",    \
      "gas from a molecule of sugar")                                          \
    X(succinate, 0.027, 0.027, 0.027, 0, 0.1, "mol/mol", jayaram_2013,         \
      "medium", "acid made with a molecule of gas")                            \
    X(free_sugar, 1.5, 1, 2, 0, 10, "g", saunders_1972, "medium",              \
      "sugars that flour brings")                                              \
    X(maltose, 5, 3, 6, 0, 20, "g", saunders_1972, "medium",                   \
      "maltose that flour's enzymes can make")                                 \
    X(ka30, 0.22, 0.22, 0.22, 0, 5, "1/h", assumed, "low",                     \
      "rate at which they make it, 30 degC")                                   \
    X(ka_Ea, 55, 55, 55, 0, 120, "kJ/mol", assumed, "low",                     \
      "how that rate follows temperature")                                     \
    X(maltose_rate, 0.9, 0.9, 0.9, 0, 1.5, "-", assumed, "low",                \
      "gas rate on maltose against free sugar")                                \
    X(sugar_half, 1, 1, 1, 0.01, 50, "mmol", assumed, "low",                   \
      "free sugar at which its rate is half")                                  \
    X(maltose_half, 2, 2, 2, 0.01, 50, "mmol", assumed, "low",                 \
      "maltose at which its rate is half")                                     \
    X(adapt_time, 1, 1, 1, 0.05, 24, "h", assumed, "low",                      \
      "for yeast to turn to maltose, at 30 degC")                              \
    X(salt_slope, 0.055, 0.055, 0.055, 0, 0.3, "1/percent", salt_studies,      \
      "medium", "rate lost by a percent of salt in 74 g of water")             \
    X(sugar_limit, 10, 10, 10, 1, 100, "percent", practice, "medium",          \
      "added sugar that halves the rate")                                      \
    X(ethanol_limit, 11, 11, 11, 1, 30, "percent", practice, "low",            \
      "ethanol in the dough's water that stops gas")                           \
    X(v_crit, 2.6, 2.6, 2.6, 1, 10, "-", practice, "low",                      \
      "swelling at which bubbles begin to leak")                               \
    X(k_loss, 0.25, 0.25, 0.25, 0, 10, "1/h", practice, "low",                 \
      "how fast they leak")                                                    \
    X(void_percent, 8, 8, 8, 0.1, 30, "percent", practice, "medium",           \
      "air in dough off the mixer")                                            \
    X(dough_density, 1.25, 1.25, 1.25, 1, 1.5, "g/mL", practice, "medium",     \
      "of dough without bubbles")                                              \
    X(solubility, 0.85, 0.85, 0.85, 0.3, 1.5, "-", assumed, "medium",          \
      "of CO2 in dough's water against water")                                 \
    X(salting_out, 0.10, 0.10, 0.10, 0, 0.5, "kg/mol", crc_handbook, "high",   \
      "solubility lost to salt, log10 per molal")                              \
    X(fresh_solids, 0.30, 0.30, 0.30, 0.2, 0.4, "g/g", aacc_89_01, "high",     \
      "dry matter of fresh yeast")                                             \
    X(fresh_activity, 1, 1, 1, 0, 2, "-", definition, "high",                  \
      "fresh yeast is the measure of the others")                              \
    X(instant_solids, 0.95, 0.95, 0.95, 0.9, 0.98, "g/g", aacc_89_01, "high",  \
      "dry matter of instant yeast")                                           \
    X(instant_activity, 0.90, 0.79, 1.05, 0, 2, "-", baking_texts, "medium",   \
      "of its dry matter against fresh (0.35 g for 1 g: 0.30 to 0.40)")        \
    X(active_dry_solids, 0.92, 0.92, 0.92, 0.88, 0.96, "g/g", aacc_89_01,      \
      "high", "dry matter of active dry yeast")                                \
    X(active_dry_activity, 0.72, 0.65, 0.82, 0, 2, "-", baking_texts,          \
      "medium", "of its dry matter against fresh (0.45: 0.40 to 0.50)")        \
    X(heat, 62, 62, 62, 0, 200, "J/mmol", hexose_heat, "medium",               \
      "heat given with a mmol of gas (105 kJ per mol of hexose)")              \
    X(age_Ea, 58, 50, 65, 0, 120, "kJ/mol", practice, "medium",                \
      "how ageing follows temperature")                                        \
    X(punch_loss, 0.45, 0.45, 0.45, 0, 1, "-", practice, "low",                \
      "held gas that punching lets out")                                       \
    X(ball_loss, 0.25, 0.10, 0.50, 0, 1, "-", practice, "low",                 \
      "held gas that balling lets out")                                        \
    X(gas_ready, 130, 130, 130, 0, 2000, "mL", practice, "medium",             \
      "gas made at which dough opens")                                         \
    X(gas_best, 200, 200, 200, 0, 2000, "mL", practice, "medium",              \
      "gas made from which it is best")                                        \
    X(gas_use_first, 280, 280, 280, 0, 2000, "mL", practice, "medium",         \
      "gas made from which it should be used first")                           \
    X(gas_end, 360, 360, 360, 0, 2000, "mL", practice, "medium",               \
      "gas made at which it is past")                                          \
    X(age_ready, 2, 2, 2, 0, 100, "h", practice, "medium",                     \
      "least age, hours at 25 degC")                                           \
    X(age_gas_end, 6, 6, 6, 0, 200, "h", practice, "medium",                   \
      "age before which much gas alone does not end it")                       \
    X(age_end, 16, 16, 16, 0, 500, "h", practice, "medium",                    \
      "age at which it is past")                                               \
    X(use_first_cold, 8, 8, 8, 0, 100, "h", practice, "medium",                \
      "use first: this long before the end, in the cold")                      \
    X(use_first_bench, 1, 1, 1, 0, 100, "h", practice, "medium",               \
      "use first: this long before the end, on the bench")

#define DW_FERMENT_SOURCES(X)                                                  \
    X(jayaram_2013, "Jayaram et al. 2013, Food Chemistry 136:301, and "        \
                    "rheofermentometer tables")                                \
    X(white_munns_1951, "White & Munns 1951, Journal of the Institute of "     \
                        "Brewing 57:280; the trade's doubling per 17 degF; "   \
                        "one stated outcome in the cold")                      \
    X(salvado_2011, "Salvado et al. 2011, Applied and Environmental "          \
                    "Microbiology 77:2292; least temperature within the "      \
                    "genus's range")                                           \
    X(pyler, "growth counts quoted from Pyler, Baking Science & Technology")   \
    X(saunders_1972, "Saunders, Ng & Kline 1972, Cereal Chemistry 49:86 "      \
                     "(sum 5.5 %)")                                            \
    X(crc_handbook, "CRC Handbook of Chemistry and Physics, after Carroll "    \
                    "1991")                                                    \
    X(aacc_89_01, "AACC method 89-01.01, yeast solids")                        \
    X(baking_texts, "exchange ratios of baking texts, fresh 1 : active dry "   \
                    "0.45 (0.40-0.50) : instant 0.35 (0.30-0.40)")             \
    X(salt_studies, "gas lost to salt, quoted: 3 % -16 %, 1.5 % -9 %")         \
    X(hexose_heat, "105 kJ per mol of hexose fermented")                       \
    X(practice, "common practice, no source")                                  \
    X(definition, "definition")                                                \
    X(assumed, "assumed; no measurement found")

typedef struct dw_ferment_model {
#define DW_FERMENT_MEMBER(name, ...) double name;
    DW_FERMENT_PARAMETERS(DW_FERMENT_MEMBER)
#undef DW_FERMENT_MEMBER
} dw_ferment_model;

enum {
#define DW_FERMENT_ONE(...) +1
    DW_FERMENT_PARAMETER_COUNT = 0 DW_FERMENT_PARAMETERS(DW_FERMENT_ONE)
#undef DW_FERMENT_ONE
};

/* A dw_ferment_model with every parameter preset, for requests and files. */
extern const dw_shape dw_ferment_model_shape;

/* The table's other columns, in the order of dw_ferment_model_shape.fields. */
typedef struct dw_ferment_parameter {
    double low, high;
    const char *source, *confidence;
} dw_ferment_parameter;
extern const dw_ferment_parameter
    dw_ferment_parameters[DW_FERMENT_PARAMETER_COUNT];
typedef struct dw_ferment_source {
    const char *key, *citation;
} dw_ferment_source;
const dw_ferment_source *dw_ferment_sources(size_t *count);

/* Every parameter at its value. */
void dw_ferment_model_preset(dw_ferment_model *model);

/* Every parameter in its range and each temperature curve with one top:
 * DW_E_RANGE names the parameter. */
dw_status dw_ferment_model_check(const dw_ferment_model *model, dw_err *err);

/* A formula as yeast sees it, per 100 g of flour. */
typedef struct dw_ferment_dough {
    double mass_g;  /* all of it, flour 100 */
    double water_g; /* added, what other lines bring included */
    double salt_g, sugar_g;
    double fresh_g, active_dry_g, instant_g; /* yeast as it is */
} dw_ferment_dough;

/* From the total formula. Lines that do not tell their water use what is usual
 * for their kind. Malt counts by its mass and water alone: its enzymes are not
 * modelled. DW_E_NO_FLOUR, DW_E_RANGE. */
dw_status dw_ferment_dough_of(const dw_formula *formula,
                              dw_ferment_dough *dough, dw_err *err);

/* Yeast dry matter in g, equal in activity to that of fresh yeast. */
double dw_ferment_yeast_g(const dw_ferment_model *model,
                          const dw_ferment_dough *dough);

/* Cardinal temperature model with inflection (Rosso et al. 1993), 1 at topt,
 * 0 at and outside tmin and tmax. */
double dw_ferment_ctmi(double temp_c, double tmin, double topt, double tmax);
/* Gas rate against that at 30 degC, f; growth rate against its best, g. */
double dw_ferment_gas_factor(const dw_ferment_model *model, double temp_c);
double dw_ferment_growth_factor(const dw_ferment_model *model, double temp_c);
/* What salt and added sugar leave of the gas rate. */
double dw_ferment_salt_factor(const dw_ferment_model *model,
                              const dw_ferment_dough *dough);
double dw_ferment_sugar_factor(const dw_ferment_model *model,
                               const dw_ferment_dough *dough);
/* Hours of age that one hour at temp_c adds; 1 at 25 degC. */
double dw_ferment_age_factor(const dw_ferment_model *model, double temp_c);

/* CO2 in pure water under 100 kPa of it, 1000 x mole fraction: the table of the
 * CRC Handbook, 0 to 40 degC in steps of 5, straight in the logarithm between.
 */
double dw_ferment_solubility(double temp_c);
/* mmol of CO2 that the dough's water holds under pure CO2 at pressure_kpa. */
double dw_ferment_capacity_mmol(const dw_ferment_model *model,
                                const dw_ferment_dough *dough, double temp_c,
                                double pressure_kpa);
/* mmol of CO2 in bubbles, of total_mmol in the dough: dissolved and free gas in
 * balance, the bubbles sharing the pressure with air_mmol of air. */
double dw_ferment_free_mmol(double total_mmol, double capacity_mmol,
                            double air_mmol);
/* mmol of air in the bubbles of fresh dough. */
double dw_ferment_air_mmol(const dw_ferment_model *model,
                           const dw_ferment_dough *dough, double temp_c,
                           double pressure_kpa);
/* Of 100 g of flour's dough with gas_mmol of CO2 and air in its bubbles. */
double dw_ferment_volume_ml(const dw_ferment_model *model,
                            const dw_ferment_dough *dough, double gas_mmol,
                            double temp_c, double pressure_kpa);

/* Air pressure at an elevation of -500 to 9000 m:
 * 101.325 (1 - 2.25577e-5 h)^5.25588 kPa (ISO 2533 standard atmosphere). */
double dw_ferment_pressure_kpa(double elevation_m);

#endif
