/* A ball cooling, the cold room, and the constants: piece.*, cold.*,
 * program.constants. */
#include "app/op.h"

#include "doughwright/cold.h"
#include "doughwright/constants.h"
#include "doughwright/piece.h"
#include "doughwright/say.h"

/* piece.cool */

static const char *const form_words[] = {"sphere", "disc", "sheet", NULL};
enum { COOL_SPHERE, COOL_DISC, COOL_SHEET };

typedef struct cool_ask {
    dw_ball ball;
    int form;
    bool has_diameter_m, has_thickness_m, one_cold_face;
    double diameter_m, thickness_m;
    double *times_h;
    size_t times_h_count;
} cool_ask;

typedef struct cool_reply {
    double *core_c, *skin_c, *mean_c;
    size_t core_c_count, skin_c_count, mean_c_count;
    double radius_m;
    bool has_thickness_m;
    double thickness_m;
} cool_reply;

/* A member of the ball, under its own name. */
#define F_BALL(m, unit, lo, hi, about)                                         \
    {                                                                          \
#m, DW_REAL, true, unit, lo, hi, 0,                                    \
            offsetof(cool_ask, ball) + offsetof(dw_ball, m), DW_NOWHERE,       \
            DW_NOWHERE, NULL, NULL, about                                      \
    }

static const dw_field cool_fields[] = {
    F_BALL(piece_g, "g", 1, 20000, "one ball"),
    F_BALL(density_kg_m3, "kg/m3", 300, 10000, "of the dough"),
    F_BALL(cp_j_per_kg_k, "J/kgK", 100, 10000, "of the dough"),
    F_BALL(k_w_per_m_k, "W/mK", 0.01, 500, "of the dough"),
    F_BALL(start_c, "degC", -40, 150, "the dough at the start"),
    F_BALL(air_c, "degC", -40, 150, "the air"),
    F_BALL(h_w_per_m2_k, "W/m2K", 0.1, 2000, "surface coefficient"),
    DW_F_REALS(cool_ask, times_h, "h", 0, 1e5, "when to tell"),
    DW_F_CHOICE_PRESET(cool_ask, form, form_words, COOL_SPHERE,
                       "a ball, a disc on a tray, or a sheet"),
    DW_F_REAL_OPT(cool_ask, diameter_m, "m", 0.01, 2, "of a disc"),
    DW_F_REAL_OPT(cool_ask, thickness_m, "m", 0.001, 0.5, "of a sheet"),
    DW_F_YES(cool_ask, one_cold_face, true,
             "the other lies on a tray and takes no heat"),
};
static const dw_shape cool_shape = DW_SHAPE(
    "piece_cool_ask", cool_ask, cool_fields, "a piece put into other air");

static const dw_field cool_reply_fields[] = {
    DW_F_REALS(cool_reply, core_c, "degC", -40, 150, "the centre"),
    DW_F_REALS(cool_reply, skin_c, "degC", -40, 150, "the surface"),
    DW_F_REALS(cool_reply, mean_c, "degC", -40, 150, "the mean"),
    DW_F_REAL(cool_reply, radius_m, "m", 0, 1,
              "of the ball or disc; 0: a sheet"),
    DW_F_REAL_OPT(cool_reply, thickness_m, "m", 0, 1000, "of a disc or sheet"),
};
static const dw_shape cool_reply_shape =
    DW_SHAPE("piece_cool", cool_reply, cool_reply_fields,
             "temperatures of the piece, by the exact series");

/* Sizes are told of the form that has them. */
static dw_status check_form(const cool_ask *ask, dw_err *err)
{
    bool disc = ask->form == COOL_DISC, sheet = ask->form == COOL_SHEET;
    if (disc && !ask->has_diameter_m)
        return dw_fail(err, DW_E_MISSING, "diameter_m", NULL);
    if (sheet && !ask->has_thickness_m)
        return dw_fail(err, DW_E_MISSING, "thickness_m", NULL);
    if (ask->has_diameter_m && !disc)
        return dw_fail_says(err, DW_E_CONFLICT, "diameter_m", NULL,
                            DW_MSG("is of a disc, and the form is another"));
    if (ask->has_thickness_m && !sheet)
        return dw_fail_says(err, DW_E_CONFLICT, "thickness_m", NULL,
                            DW_MSG("is of a sheet, and the form is another"));
    return DW_OK;
}

static dw_status cool_at(const cool_ask *ask, double time_h,
                         dw_ball_temps *temps, dw_err *err)
{
    const dw_flat flat = {.dough = ask->ball,
                          .has_diameter_m = ask->has_diameter_m,
                          .diameter_m = ask->diameter_m,
                          .thickness_m = ask->thickness_m,
                          .one_cold_face = ask->one_cold_face};
    return ask->form == COOL_SPHERE
               ? dw_ball_temps_at(&ask->ball, time_h, temps, err)
               : dw_flat_temps_at(&flat, time_h, temps, err);
}

static void set_sizes(const cool_ask *ask, cool_reply *out)
{
    const dw_flat flat = {.dough = ask->ball,
                          .has_diameter_m = ask->has_diameter_m,
                          .diameter_m = ask->diameter_m,
                          .thickness_m = ask->thickness_m};
    out->has_thickness_m = ask->form != COOL_SPHERE;
    if (out->has_thickness_m)
        out->thickness_m = dw_flat_thickness_m(&flat);
    out->radius_m =
        ask->form == COOL_SPHERE
            ? dw_ball_radius_m(ask->ball.piece_g, ask->ball.density_kg_m3)
            : ask->diameter_m / 2;
}

static dw_status run_cool(dw_call *call, const void *request, void *reply)
{
    const cool_ask *ask = request;
    cool_reply *out = reply;
    size_t count = ask->times_h_count;
    DW_TRY(check_form(ask, call->err));
    double *all = DW_NEW_ARRAY(call->arena, double, 3 * count);
    if (!all)
        return dw_fail(call->err, DW_E_ROOM, "times_h", NULL);
    cool_reply made = {.core_c = all,
                       .skin_c = all + count,
                       .mean_c = all + 2 * count,
                       .core_c_count = count,
                       .skin_c_count = count,
                       .mean_c_count = count};
    set_sizes(ask, &made);
    for (size_t i = 0; i < count; i++) {
        dw_ball_temps temps;
        DW_TRY(cool_at(ask, ask->times_h[i], &temps, call->err));
        made.core_c[i] = temps.core_c;
        made.skin_c[i] = temps.skin_c;
        made.mean_c[i] = temps.mean_c;
    }
    *out = made;
    return DW_OK;
}

/* piece.properties */

typedef struct properties_ask {
    dw_formula formula;
    double gas_fraction, temp_c;
} properties_ask;

static const dw_field properties_fields[] = {
    DW_F_ONE(properties_ask, formula, &dw_formula_shape, "the total formula"),
    DW_F_REAL_PRESET(properties_ask, gas_fraction, "", 0, 0.9, 0.08,
                     "bubbles, share of the volume"),
    DW_F_REAL_PRESET(properties_ask, temp_c, "degC", -2, 100, 5,
                     "at this temperature"),
};
static const dw_shape properties_shape =
    DW_SHAPE("piece_properties_ask", properties_ask, properties_fields,
             "a dough whose thermal properties are asked");

static const dw_field thermal_fields[] = {
    DW_F_REAL(dw_thermal, cp_j_per_kg_k, "J/kgK", 0, 1e5, "specific heat"),
    DW_F_REAL(dw_thermal, density_kg_m3, "kg/m3", 0, 1e5, "density"),
    DW_F_REAL(dw_thermal, k_w_per_m_k, "W/mK", 0, 1e3, "conductivity"),
};
static const dw_shape thermal_shape = DW_SHAPE(
    "piece_properties", dw_thermal, thermal_fields, "thermal properties");

static dw_status run_properties(dw_call *call, const void *request, void *reply)
{
    const properties_ask *ask = request;
    dw_composition composition;
    DW_TRY(dw_piece_composition(&ask->formula, &composition, call->err));
    return dw_piece_thermal(&composition, ask->gas_fraction, ask->temp_c, reply,
                            call->err);
}

/* piece.surface */

static const dw_field air_fields[] = {
    DW_F_REAL(dw_ball_air, piece_g, "g", 1, 20000, "one ball"),
    DW_F_REAL_PRESET(dw_ball_air, density_kg_m3, "kg/m3", 300, 10000, 1130,
                     "of the dough"),
    DW_F_REAL(dw_ball_air, air_c, "degC", -40, 100, "the air"),
    DW_F_REAL(dw_ball_air, skin_c, "degC", -40, 100, "the ball's surface"),
    DW_F_REAL_OPT(dw_ball_air, air_m_s, "m/s", 0.05, 20, "past the ball"),
};
static const dw_shape air_shape =
    DW_SHAPE("piece_air", dw_ball_air, air_fields, "a ball alone in air");
static const dw_field surface_fields[] = {
    DW_F_REAL(dw_ball_surface, free_w_per_m2_k, "W/m2K", 0, 1e5,
              "in still air"),
    DW_F_REAL_OPT(dw_ball_surface, forced_w_per_m2_k, "W/m2K", 0, 1e5,
                  "in the stream"),
};
static const dw_shape surface_shape = DW_SHAPE(
    "piece_surface", dw_ball_surface, surface_fields, "surface coefficients");

static dw_status run_surface(dw_call *call, const void *request, void *reply)
{
    dw_ball_surface_in_air(request, reply);
    return DW_OK;
}

/* cold.* */

static dw_status run_close(dw_call *call, const void *request, void *reply)
{
    return dw_cold_close_time(request, reply, call->err);
}

static dw_status run_temper(dw_call *call, const void *request, void *reply)
{
    return dw_cold_temper_time(request, reply, call->err);
}

static dw_status run_load(dw_call *call, const void *request, void *reply)
{
    return dw_cold_load_heat(request, reply, call->err);
}

typedef struct days_ask {
    dw_cold_days days;
    int64_t age_days;
} days_ask;

typedef struct days_reply {
    int readiness;
} days_reply;

static const dw_field days_fields[] = {
    /* not required: its own presets stand when it is not given */
    {"days", DW_ONE, false, "", 0, 0, 0, offsetof(days_ask, days), DW_NOWHERE,
     DW_NOWHERE, NULL, &dw_cold_days_shape,
     "the shop's rule; mixing day is day 0"},
    DW_F_WHOLE(days_ask, age_days, "", 0, 1000,
               "business days since the mixing day"),
};
static const dw_shape days_shape =
    DW_SHAPE("cold_days_ask", days_ask, days_fields, "dough of some days");
static const dw_field days_reply_fields[] = {
    DW_F_CHOICE(days_reply, readiness, dw_readiness_words, "how it stands"),
};
static const dw_shape days_reply_shape = DW_SHAPE(
    "cold_readiness", days_reply, days_reply_fields, "by the shop's days");

static dw_status run_days(dw_call *call, const void *request, void *reply)
{
    const days_ask *ask = request;
    if (dw_cold_days_check(&ask->days, call->err) != DW_OK)
        return dw_err_within(call->err, "days");
    ((days_reply *)reply)->readiness =
        (int)dw_cold_readiness(&ask->days, ask->age_days);
    return DW_OK;
}

/* program.constants */

typedef struct constants_ask {
    const char *symbol;
} constants_ask;

static const dw_field constants_ask_fields[] = {
    DW_F_TEXT_OPT(constants_ask, symbol, 60, "only this one"),
};
static const dw_shape constants_ask_shape =
    DW_SHAPE("program_constants_ask", constants_ask, constants_ask_fields,
             "which constants");

typedef struct constants_reply {
    dw_constant *constants;
    size_t constants_count;
} constants_reply;

static const char *const mark_words[] = {"read", "memory", "computed", NULL};

static const dw_field constant_fields[] = {
    DW_F_TEXT(dw_constant, symbol, 60, "its name in the program"),
    DW_F_REAL(dw_constant, value, "", -1e9, 1e9, "its value"),
    DW_F_TEXT_OPT(dw_constant, unit, 20, "its unit"),
    DW_F_REAL(dw_constant, low, "", -1e9, 1e9, "what sources give at least"),
    DW_F_REAL(dw_constant, high, "", -1e9, 1e9, "what sources give at most"),
    DW_F_TEXT(dw_constant, source, 60, "key in docs/sources.md"),
    DW_F_CHOICE(dw_constant, mark, mark_words, "how it was come by"),
    DW_F_TEXT(dw_constant, meaning, 200, "what it is"),
};
static const dw_shape constant_shape =
    DW_SHAPE("constant", dw_constant, constant_fields,
             "a constant of nature or of the trade");
static const dw_field constants_fields[] = {
    DW_F_MANY(constants_reply, constants, &constant_shape, 1, 1000,
              "all constants"),
};
static const dw_shape constants_shape =
    DW_SHAPE("program_constants", constants_reply, constants_fields,
             "the constants with their sources");

static dw_status run_constants(dw_call *call, const void *request, void *reply)
{
    const char *symbol = ((const constants_ask *)request)->symbol;
    constants_reply *out = reply;
    size_t count, kept = 0;
    const dw_constant *rows = dw_constants(&count);
    dw_constant *copy = DW_NEW_ARRAY(call->arena, dw_constant, count);
    if (!copy)
        return dw_fail(call->err, DW_E_ROOM, "constants", NULL);
    for (size_t i = 0; i < count; i++)
        if (!symbol || dw_text_is(symbol, rows[i].symbol))
            copy[kept++] = rows[i];
    if (kept == 0)
        return dw_fail(call->err, DW_E_NOT_FOUND, "symbol", symbol);
    out->constants = copy;
    out->constants_count = kept;
    return DW_OK;
}

const dw_op dw_ops_piece[] = {
    {"cold.close", DW_OP_PURE, &dw_cold_stack_shape, &dw_cold_close_shape,
     run_close, "When to close a stack, by the trade's clock."},
    {"cold.days", DW_OP_PURE, &days_shape, &days_reply_shape, run_days,
     "How dough of some days stands by the shop's days."},
    {"cold.load", DW_OP_PURE, &dw_cold_load_shape, &dw_cold_heat_shape,
     run_load, "Heat that the cold room must carry away."},
    {"cold.temper", DW_OP_PURE, &dw_cold_bench_shape, &dw_cold_temper_shape,
     run_temper, "Tempering and bench life, by the trade's clock."},
    {"piece.cool", DW_OP_PURE, &cool_shape, &cool_reply_shape, run_cool,
     "Core, skin and mean of a ball, a disc or a sheet in air, by the exact "
     "series."},
    {"piece.properties", DW_OP_PURE, &properties_shape, &thermal_shape,
     run_properties, "Thermal properties of a dough from its formula."},
    {"piece.surface", DW_OP_PURE, &air_shape, &surface_shape, run_surface,
     "Surface coefficient of a ball alone in still or moving air."},
    {"program.constants", DW_OP_PURE, &constants_ask_shape, &constants_shape,
     run_constants, "The constants with range, source and how known."},
};
const size_t dw_ops_piece_count = DW_COUNT(dw_ops_piece);
