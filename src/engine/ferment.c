#include "engine/ferment_lanes.h"

static const dw_field model_fields[] = {
#define FIELD(name, value, low, high, least, most, unit, source, conf, about)  \
    DW_F_REAL_PRESET(dw_ferment_model, name, unit, least, most, value, about),
    DW_FERMENT_PARAMETERS(FIELD)
#undef FIELD
};
const dw_shape dw_ferment_model_shape =
    DW_SHAPE("ferment_model", dw_ferment_model, model_fields,
             "parameters of fermentation that replace the usual ones");

const dw_ferment_parameter dw_ferment_parameters[DW_FERMENT_PARAMETER_COUNT] = {
#define PARAMETER(name, value, low, high, least, most, unit, source, conf,     \
                  about)                                                       \
    {low, high, #source, conf},
    DW_FERMENT_PARAMETERS(PARAMETER)
#undef PARAMETER
};

static const dw_ferment_source sources[] = {
#define SOURCE(key, citation) {#key, citation},
    DW_FERMENT_SOURCES(SOURCE)
#undef SOURCE
};

const dw_ferment_source *dw_ferment_sources(size_t *count)
{
    *count = DW_COUNT(sources);
    return sources;
}

void dw_ferment_model_preset(dw_ferment_model *model)
{
    dw_shape_preset(&dw_ferment_model_shape, model);
}

/* The temperature curve has one top only if that lies above the middle. */
static dw_status check_curve(const char *field, double tmin, double topt,
                             double tmax, dw_err *err)
{
    double middle = 0.5 * (tmin + tmax);
    if (topt > middle && topt < tmax)
        return DW_OK;
    return dw_fail_range(err, field, topt, middle, tmax);
}

dw_status dw_ferment_model_check(const dw_ferment_model *model, dw_err *err)
{
    DW_TRY(dw_shape_check(&dw_ferment_model_shape, model, err));
    DW_TRY(check_curve("f_Topt", model->f_Tmin, model->f_Topt, model->f_Tmax,
                       err));
    return check_curve("g_Topt", model->g_Tmin, model->g_Topt, model->g_Tmax,
                       err);
}

static void add_line(const dw_line *line, dw_ferment_dough *dough)
{
    dw_water_from from;
    double water = dw_line_water_percent(line, &from);
    dough->mass_g += line->percent;
    dough->water_g += line->percent * water / 100; /* of flour lines none */
    switch (line->kind) {
    case DW_SALT: dough->salt_g += line->percent; break;
    case DW_SUGAR: dough->sugar_g += line->percent * (100 - water) / 100; break;
    case DW_YEAST_FRESH: dough->fresh_g += line->percent; break;
    case DW_YEAST_ACTIVE_DRY: dough->active_dry_g += line->percent; break;
    case DW_YEAST_INSTANT: dough->instant_g += line->percent; break;
    default: break;
    }
}

dw_status dw_ferment_dough_of(const dw_formula *formula,
                              dw_ferment_dough *dough, dw_err *err)
{
    dw_ferment_dough sum = {0};
    double flour = 0;
    for (size_t i = 0; i < formula->lines_count; i++) {
        add_line(&formula->lines[i], &sum);
        if (formula->lines[i].kind == DW_FLOUR)
            flour += formula->lines[i].percent;
    }
    if (!(flour > 0))
        return dw_fail(err, DW_E_NO_FLOUR, "formula.lines", NULL);
    if (!(flour >= 99.99 && flour <= 100.01))
        return dw_fail_range(err, "formula.lines", flour, 99.99, 100.01);
    double yeast = sum.fresh_g + sum.active_dry_g + sum.instant_g;
    DW_TRY(dw_check_range(err, "formula.yeast", yeast, 0, 20));
    DW_TRY(dw_check_range(err, "formula.water", sum.water_g, 20, 200));
    DW_TRY(dw_check_range(err, "formula.salt", sum.salt_g, 0, 20));
    DW_TRY(dw_check_range(err, "formula.sugar", sum.sugar_g, 0, 60));
    *dough = sum;
    return DW_OK;
}

double dw_ferment_yeast_g(const dw_ferment_model *model,
                          const dw_ferment_dough *dough)
{
    return dough->fresh_g * model->fresh_solids * model->fresh_activity +
           dough->active_dry_g * model->active_dry_solids *
               model->active_dry_activity +
           dough->instant_g * model->instant_solids * model->instant_activity;
}

double dw_ferment_ctmi(double temp_c, double tmin, double topt, double tmax)
{
    dw_lanes bottom;
    dw_lanes top =
        dw_ferment__ctmi_top(dw_lanes_all(temp_c), dw_lanes_all(tmin),
                             dw_lanes_all(topt), dw_lanes_all(tmax), &bottom);
    return top[0] / bottom[0];
}

double dw_ferment_gas_factor(const dw_ferment_model *model, double temp_c)
{
    return dw_ferment_ctmi(temp_c, model->f_Tmin, model->f_Topt,
                           model->f_Tmax) /
           dw_ferment_ctmi(30, model->f_Tmin, model->f_Topt, model->f_Tmax);
}

double dw_ferment_growth_factor(const dw_ferment_model *model, double temp_c)
{
    return dw_ferment_ctmi(temp_c, model->g_Tmin, model->g_Topt, model->g_Tmax);
}

/* [3] */
double dw_ferment_salt_factor(const dw_ferment_model *model,
                              const dw_ferment_dough *dough)
{
    double rest = 1 - model->salt_slope * dough->salt_g * 74 /
                          (dough->water_g + DW_FLOUR_WATER_G);
    return rest > 0 ? rest : 0;
}

double dw_ferment_sugar_factor(const dw_ferment_model *model,
                               const dw_ferment_dough *dough)
{
    double part = dough->sugar_g / model->sugar_limit;
    return 1 / (1 + part * part * part * part);
}

static double activation_k(double kj_per_mol)
{
    return kj_per_mol * 1000 / DW_FERMENT_GAS_CONSTANT;
}

double dw_ferment_age_factor(const dw_ferment_model *model, double temp_c)
{
    return dw_ferment__arrhenius(dw_lanes_all(activation_k(model->age_Ea)),
                                 dw_lanes_all(1 / (temp_c + DW_FERMENT_KELVIN)),
                                 25)[0];
}

double dw_ferment_solubility(double temp_c)
{
    return dw_ferment__solubility(dw_lanes_all(temp_c))[0];
}

/* [8] without x: 55.5 mol of water per kg, x in thousandths, mmol. */
static double capacity_scale(const dw_ferment_model *model,
                             const dw_ferment_dough *dough, double pressure_kpa)
{
    double water_kg = (dough->water_g + DW_FLOUR_WATER_G) / 1000;
    double salt_molal = dough->salt_g / 58.44 / water_kg;
    double salted = dw_lanes_exp(
        dw_lanes_all(-2.302585092994046 * model->salting_out * salt_molal))[0];
    return 55.5 * water_kg * model->solubility * salted * pressure_kpa / 100;
}

double dw_ferment_capacity_mmol(const dw_ferment_model *model,
                                const dw_ferment_dough *dough, double temp_c,
                                double pressure_kpa)
{
    return capacity_scale(model, dough, pressure_kpa) *
           dw_ferment_solubility(temp_c);
}

double dw_ferment_free_mmol(double total_mmol, double capacity_mmol,
                            double air_mmol)
{
    return dw_ferment__free(dw_lanes_all(total_mmol),
                            dw_lanes_all(capacity_mmol),
                            dw_lanes_all(air_mmol))[0];
}

static double solid_ml(const dw_ferment_model *model,
                       const dw_ferment_dough *dough)
{
    return dough->mass_g / model->dough_density;
}

static double ml_per_mmol(double temp_c, double pressure_kpa)
{
    return DW_FERMENT_GAS_CONSTANT / pressure_kpa *
           (temp_c + DW_FERMENT_KELVIN);
}

double dw_ferment_air_mmol(const dw_ferment_model *model,
                           const dw_ferment_dough *dough, double temp_c,
                           double pressure_kpa)
{
    double bubbles = model->void_percent / 100;
    return solid_ml(model, dough) * bubbles / (1 - bubbles) /
           ml_per_mmol(temp_c, pressure_kpa);
}

double dw_ferment_volume_ml(const dw_ferment_model *model,
                            const dw_ferment_dough *dough, double gas_mmol,
                            double temp_c, double pressure_kpa)
{
    return solid_ml(model, dough) +
           gas_mmol * ml_per_mmol(temp_c, pressure_kpa);
}

/* ln(1 - x) by its series: x is below 0.21 for every elevation allowed. */
static double log_of_rest(double x)
{
    double sum = 0, power = x;
    for (int n = 1; n <= 30; n++) {
        sum -= power / n;
        power *= x;
    }
    return sum;
}

double dw_ferment_pressure_kpa(double elevation_m)
{
    double ln = 5.25588 * log_of_rest(2.25577e-5 * elevation_m);
    return 101.325 * dw_lanes_exp(dw_lanes_all(ln))[0];
}

void dw_ferment__set_one(const dw_ferment_model *model,
                         const dw_ferment_dough *dough, double mixed_c,
                         double pressure_kpa, dw_ferment__one *set)
{
    double gas_30 =
        dw_ferment_ctmi(30, model->f_Tmin, model->f_Topt, model->f_Tmax);
    double salted = dw_ferment_salt_factor(model, dough);
    double air = dw_ferment_air_mmol(model, dough, mixed_c, pressure_kpa);
    double start_ml =
        dw_ferment_volume_ml(model, dough, air, mixed_c, pressure_kpa);
    *set = (dw_ferment__one){
        .gas_scale =
            model->q30 * salted * dw_ferment_sugar_factor(model, dough),
        .per_gas_30 = 1 / gas_30,
        .f_Tmin = model->f_Tmin,
        .f_Topt = model->f_Topt,
        .f_Tmax = model->f_Tmax,
        .g_Tmin = model->g_Tmin,
        .g_Topt = model->g_Topt,
        .g_Tmax = model->g_Tmax,
        .growth_scale = model->mu * salted / model->N0,
        .per_g27 = 1 / dw_ferment_growth_factor(model, 27),
        .growth_lag = model->growth_lag,
        .per_gas_lag = 1 / model->gas_lag,
        .per_adapt_time = 1 / model->adapt_time,
        .kd = model->kd / 24,
        .hexose_per_co2 = 1 / model->co2_per_hexose,
        .ka30 = model->ka30,
        .ka_K = activation_k(model->ka_Ea),
        .age_K = activation_k(model->age_Ea),
        .maltose_rate = model->maltose_rate,
        .sugar_half = model->sugar_half,
        .maltose_half = model->maltose_half,
        .ethanol_slope = 100 * DW_FERMENT_ETHANOL_G /
                         (dough->water_g + DW_FLOUR_WATER_G) /
                         model->ethanol_limit,
        .v_crit = model->v_crit,
        .k_loss = model->k_loss,
        .capacity_scale = capacity_scale(model, dough, pressure_kpa),
        .solid = solid_ml(model, dough) / start_ml,
        .air_mmol = air,
        .swell = DW_FERMENT_GAS_CONSTANT / pressure_kpa / start_ml,
        .heat = model->heat};
}

void dw_ferment__start_one(const dw_ferment_model *model,
                           const dw_ferment_dough *dough,
                           dw_ferment__start *state)
{
    *state = (dw_ferment__start){.x = dw_ferment_yeast_g(model, dough),
                                 .n = model->N0,
                                 .s = (model->free_sugar + dough->sugar_g) /
                                      DW_GRAM_PER_MMOL,
                                 .d = model->maltose / DW_GRAM_PER_MMOL};
}
