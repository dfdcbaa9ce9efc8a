/* Water, ice, mixing work and the trade's rules: heat.* and learn.* */
#include "app/op.h"
#include "app/said.h"

#include "doughwright/heat.h"
#include "doughwright/learn.h"

static dw_status run_water(dw_call *call, const void *request, void *reply)
{
    dw_heat_answer *answer = reply;
    DW_TRY(dw_heat_water(request, answer, call->err));
    DW_TRY(dw_said_notes(call, answer->warnings, answer->warnings_count));
    return answer->has_why ? dw_said_why(call, &answer->why) : DW_OK;
}

/* heat.batch */

typedef struct batch_reply {
    double water_kg, liquid_kg, wetting_kg;
    dw_heat_answer answer;
} batch_reply;

static const dw_field batch_reply_fields[] = {
    DW_F_REAL(batch_reply, water_kg, "kg", 0, 1e6,
              "water and ice of the final mix, wetting water apart"),
    DW_F_REAL(batch_reply, liquid_kg, "kg", 0, 1e6, "water_kg less the ice"),
    DW_F_REAL(batch_reply, wetting_kg, "kg", 0, 1e6,
              "warm water that wets active dry yeast"),
    DW_F_ONE(batch_reply, answer, &dw_heat_answer_shape, "its temperature"),
};
static const dw_shape batch_reply_shape =
    DW_SHAPE("heat_batch", batch_reply, batch_reply_fields,
             "water and ice of a formula's batch");

static dw_status run_batch(dw_call *call, const void *request, void *reply)
{
    batch_reply *out = reply;
    dw_heat_batch batch;
    DW_TRY(dw_heat_batch_of(request, call->arena, &batch, &out->wetting_kg,
                            call->err));
    DW_TRY(run_water(call, &batch, &out->answer));
    out->water_kg = batch.water_kg;
    out->liquid_kg = batch.water_kg - out->answer.ice_kg;
    return DW_OK;
}

static dw_status run_learn(dw_call *call, const void *request, void *reply)
{
    return dw_heat_learn(request, reply, call->err);
}

/* heat.rule, heat.friction, heat.base */

typedef struct rule_ask {
    double goal_c;
    double *temps_c;
    size_t temps_c_count;
    double friction_c;
} rule_ask;

typedef struct water_reply {
    double water_c;
} water_reply;

static const dw_field rule_fields[] = {
    DW_F_REAL(rule_ask, goal_c, "degC", 0, 50, "the wanted dough temperature"),
    DW_F_REALS(rule_ask, temps_c, "degC", -40, 100,
               "flour, room, preferment...; the water is one factor more"),
    DW_F_REAL(rule_ask, friction_c, "K", -200, 400,
              "friction, a difference summed over the factors"),
};
static const dw_shape rule_shape =
    DW_SHAPE("heat_rule_ask", rule_ask, rule_fields,
             "the trade's rule with any number of factors");

static const dw_field water_fields[] = {
    DW_F_REAL(water_reply, water_c, "degC", -1e5, 1e5, "the water"),
};
static const dw_shape water_shape =
    DW_SHAPE("heat_rule_water", water_reply, water_fields, "the rule's water");

static dw_status run_rule(dw_call *call, const void *request, void *reply)
{
    const rule_ask *ask = request;
    ((water_reply *)reply)->water_c = dw_rule_water_c(
        ask->goal_c, ask->temps_c, ask->temps_c_count, ask->friction_c);
    return DW_OK;
}

typedef struct base_ask {
    double base_c;
    double *temps_c;
    size_t temps_c_count;
} base_ask;

static const dw_field base_fields[] = {
    DW_F_REAL(base_ask, base_c, "degC", 0, 200,
              "base temperature; it holds the friction"),
    DW_F_REALS(base_ask, temps_c, "degC", -40, 100, "flour and room"),
};
static const dw_shape base_shape = DW_SHAPE(
    "heat_base_ask", base_ask, base_fields, "the base temperature rule");

static dw_status run_base(dw_call *call, const void *request, void *reply)
{
    const base_ask *ask = request;
    ((water_reply *)reply)->water_c =
        dw_rule_base_water_c(ask->base_c, ask->temps_c, ask->temps_c_count);
    return DW_OK;
}

typedef struct friction_ask {
    double dough_c;
    double *temps_c;
    size_t temps_c_count;
    bool has_added_c;
    double added_c;
} friction_ask;

typedef struct friction_reply {
    double friction_c;
    bool has_friction_with_added_c;
    double friction_with_added_c;
} friction_reply;

static const dw_field friction_fields[] = {
    DW_F_REAL(friction_ask, dough_c, "degC", -5, 60, "the dough off the mixer"),
    DW_F_REALS(friction_ask, temps_c, "degC", -80, 100,
               "all factors of that batch: flour, room, water..."),
    DW_F_REAL_OPT(friction_ask, added_c, "degC", -40, 100,
                  "a factor to be counted from now on, a preferment"),
};
static const dw_shape friction_shape =
    DW_SHAPE("heat_friction_ask", friction_ask, friction_fields,
             "a batch whose friction is asked");
static const dw_field friction_reply_fields[] = {
    DW_F_REAL(friction_reply, friction_c, "K", -1e5, 1e5,
              "for as many factors as were given"),
    DW_F_REAL_OPT(friction_reply, friction_with_added_c, "K", -1e5, 1e5,
                  "for one factor more"),
};
static const dw_shape friction_reply_shape = DW_SHAPE(
    "heat_friction", friction_reply, friction_reply_fields, "its friction");

static dw_status run_friction(dw_call *call, const void *request, void *reply)
{
    const friction_ask *ask = request;
    friction_reply *out = reply;
    out->friction_c =
        dw_rule_friction_c(ask->dough_c, ask->temps_c, ask->temps_c_count);
    out->has_friction_with_added_c = ask->has_added_c;
    if (ask->has_added_c)
        out->friction_with_added_c =
            dw_rule_friction_with(out->friction_c, ask->dough_c, ask->added_c);
    return DW_OK;
}

/* heat.ice, heat.wetting */

typedef struct ice_ask {
    double water_kg, tap_c, wanted_c, ice_c;
} ice_ask;

typedef struct ice_reply {
    double ice_kg, on_top_kg;
} ice_reply;

static const dw_field ice_fields[] = {
    DW_F_REAL(ice_ask, water_kg, "kg", 0, 1e5, "all the water"),
    DW_F_REAL(ice_ask, tap_c, "degC", 0, 100, "the tap water"),
    DW_F_REAL(ice_ask, wanted_c, "degC", -40, 100,
              "wanted of all the water; virtual below 0"),
    DW_F_REAL_PRESET(ice_ask, ice_c, "degC", -40, 0, 0, "the ice"),
};
static const dw_shape ice_shape =
    DW_SHAPE("heat_ice_ask", ice_ask, ice_fields, "water to be cooled by ice");
static const dw_field ice_reply_fields[] = {
    DW_F_REAL(ice_reply, ice_kg, "kg", 0, 1e6,
              "ice that replaces as much of the water"),
    DW_F_REAL(ice_reply, on_top_kg, "kg", 0, 1e6,
              "ice put on top of all the water instead"),
};
static const dw_shape ice_reply_shape =
    DW_SHAPE("heat_ice", ice_reply, ice_reply_fields, "the ice, both ways");

static dw_status run_ice(dw_call *call, const void *request, void *reply)
{
    const ice_ask *ask = request;
    ice_reply *out = reply;
    out->ice_kg =
        dw_ice_replacing(ask->water_kg, ask->tap_c, ask->wanted_c, ask->ice_c);
    out->on_top_kg =
        dw_ice_on_top(ask->water_kg, ask->tap_c, ask->wanted_c, ask->ice_c);
    return DW_OK;
}

typedef struct wetting_ask {
    double active_dry_kg, water_kg;
} wetting_ask;

static const dw_field wetting_fields[] = {
    DW_F_REAL(wetting_ask, active_dry_kg, "kg", 0, 1e4, "active dry yeast"),
    DW_F_REAL(wetting_ask, water_kg, "kg", 0, 1e5, "the formula's water"),
};
static const dw_shape wetting_shape =
    DW_SHAPE("heat_wetting_ask", wetting_ask, wetting_fields,
             "active dry yeast to be wetted");

static dw_status run_wetting(dw_call *call, const void *request, void *reply)
{
    const wetting_ask *ask = request;
    return dw_heat_wetting(ask->active_dry_kg, ask->water_kg, reply, call->err);
}

/* learn.work, learn.lot_water */

typedef struct work_ask {
    dw_reading *readings;
    size_t readings_count;
    dw_reading *mixer_readings;
    size_t mixer_readings_count;
} work_ask;

static const dw_field work_fields[] = {
    DW_F_MANY_OPT(work_ask, readings, &dw_reading_shape, 1000,
                  "of this mixer, formula and time, oldest first"),
    DW_F_MANY_OPT(work_ask, mixer_readings, &dw_reading_shape, 1000,
                  "of the mixer's other doughs, oldest first"),
};
static const dw_shape work_shape = DW_SHAPE(
    "learn_work_ask", work_ask, work_fields, "what recorded batches showed");

static dw_status take_all(dw_learned *state, const dw_reading *readings,
                          size_t count, dw_err *err)
{
    for (size_t i = 0; i < count; i++)
        DW_TRY(dw_learn_update(state, &readings[i], err));
    return DW_OK;
}

static dw_status run_work(dw_call *call, const void *request, void *reply)
{
    const work_ask *ask = request;
    dw_learned own = {.seen = 0}, mixer = {.seen = 0};
    DW_TRY(take_all(&own, ask->readings, ask->readings_count, call->err));
    DW_TRY(take_all(&mixer, ask->mixer_readings, ask->mixer_readings_count,
                    call->err));
    dw_learn_estimate(&own, &mixer, reply);
    return DW_OK;
}

typedef struct lot_ask {
    double *percent;
    size_t percent_count;
} lot_ask;

typedef struct lot_reply {
    double percent;
} lot_reply;

static const dw_field lot_fields[] = {
    DW_F_REALS(lot_ask, percent, "percent", -30, 30,
               "water added or held back, of flour, oldest batch first"),
};
static const dw_shape lot_shape = DW_SHAPE("learn_lot_ask", lot_ask, lot_fields,
                                           "water corrections of one lot");
static const dw_field lot_reply_fields[] = {
    DW_F_REAL(lot_reply, percent, "percent", -30, 30, "to carry forward"),
};
static const dw_shape lot_reply_shape = DW_SHAPE(
    "learn_lot_water", lot_reply, lot_reply_fields, "the lot's correction");

static dw_status run_lot(dw_call *call, const void *request, void *reply)
{
    const lot_ask *ask = request;
    ((lot_reply *)reply)->percent =
        dw_learn_lot_water(ask->percent, ask->percent_count);
    return DW_OK;
}

const dw_op dw_ops_heat[] = {
    {"heat.base", DW_OP_PURE, &base_shape, &water_shape, run_base,
     "Water temperature by the base temperature of the metric trade."},
    {"heat.batch", DW_OP_PURE, &dw_heat_mix_shape, &batch_reply_shape,
     run_batch, "Water and ice of a formula's batch from the day's readings."},
    {"heat.friction", DW_OP_PURE, &friction_shape, &friction_reply_shape,
     run_friction, "Friction number of a batch, and for one factor more."},
    {"heat.ice", DW_OP_LIGHT, &ice_shape, &ice_reply_shape, run_ice,
     "Ice that brings tap water to a wanted temperature."},
    {"heat.learn", DW_OP_PURE, &dw_heat_learn_shape, &dw_heat_learned_shape,
     run_learn, "Mixing work that explains the dough's temperature."},
    {"heat.rule", DW_OP_LIGHT, &rule_shape, &water_shape, run_rule,
     "Water temperature by the trade's rule with any number of factors."},
    {"heat.water", DW_OP_LIGHT, &dw_heat_water_shape, &dw_heat_answer_shape,
     run_water,
     "Water and ice for a wanted dough temperature by the heat "
     "balance, with the trade's rule beside it."},
    {"heat.wetting", DW_OP_PURE, &wetting_shape, &dw_heat_part_shape,
     run_wetting,
     "The warm water in which active dry yeast is wetted, as a "
     "part of the heat balance."},
    {"learn.lot_water", DW_OP_PURE, &lot_shape, &lot_reply_shape, run_lot,
     "The water correction to carry forward for a lot of flour."},
    {"learn.work", DW_OP_PURE, &work_shape, &dw_estimate_shape, run_work,
     "Mixing work learned from recorded batches, with its uncertainty."},
};
const size_t dw_ops_heat_count = DW_COUNT(dw_ops_heat);
