#include "doughwright/life.h"

#include "doughwright/piece.h"
#include "engine/life_ensemble.h"
#include "engine/life_walk.h"

#define PROPERTIES_C 15 /* half way between mixer and cold room */
#define FREEZES_C (-3)  /* dough begins to (practice) */
#define ROWS_MOST 20000

static dw_status check_legs(const dw_life_request *request, dw_err *err)
{
    for (size_t i = 0; i < request->legs_count; i++) {
        if (request->legs[i].air_c >= FREEZES_C)
            continue;
        dw_fail_range(err, "legs.air_c", request->legs[i].air_c, FREEZES_C, 60);
        if (err)
            err->status = DW_E_NO_MODEL;
        return DW_E_NO_MODEL;
    }
    DW_TRY(dw_check_range(err, "legs.hours", dw_life__legs_h(request), 0,
                          DW_LIFE_LONGEST_H));
    return dw_check_range(err, "report_every_h",
                          dw_life__legs_h(request) / request->report_every_h, 0,
                          ROWS_MOST);
}

static dw_status check(const dw_life_request *request, dw_err *err)
{
    if (!request->hold_temperature && !request->has_dough_c)
        return dw_fail(err, DW_E_MISSING, "dough_c", NULL);
    DW_TRY(check_legs(request, err));
    double from = 0;
    for (size_t i = 0; i < request->events_count; i++) {
        DW_TRY(dw_check_range(err, "events.at_h", request->events[i].at_h, from,
                              DW_LIFE_LONGEST_H));
        from = request->events[i].at_h;
    }
    if (dw_ferment_model_check(&request->model, err) != DW_OK)
        return dw_err_within(err, "model");
    return dw_life__check_ranges(request, err);
}

/* The whole run's own things, in the arena. */
typedef struct run {
    const dw_life_request *request;
    const dw_life__kernel *kernel;
    dw_life__watch *watch; /* NULL: nobody does */
    dw_ferment_dough dough;
    dw_thermal thermal;
    double mixed_c, pressure_kpa;
    dw_ferment_model *members;
    dw_life__moments *moments; /* of each member */
    double *gas, *volume;      /* [row][member] */
    dw_life__block *block;
    dw_life_reply *reply;
    size_t member_count, first; /* first member of this block, lane 1 */
    bool nominal;               /* this block writes the nominal rows */
    double yeast_g;
} run;

/* Lane 0 is the nominal life in every block; the others are members, or the
 * nominal life again when there are none left. */
static const dw_ferment_model *lane_model(const run *r, int lane)
{
    size_t member = r->first + (size_t)lane - 1;
    if (lane == 0 || member >= r->member_count)
        return &r->request->model;
    return &r->members[member];
}

/* Halving and eighth parts bring any x > 0 to where dw_lanes_cbrt is true. */
static double cube_root(double x)
{
    double scale = 1;
    while (x < 0.125) {
        x *= 8;
        scale *= 0.5;
    }
    while (x > 8) {
        x *= 0.125;
        scale *= 2;
    }
    return scale * dw_lanes_cbrt(dw_lanes_all(x))[0];
}

static void fill_block(run *r, double loss_ball[DW_LANES])
{
    const dw_life_request *request = r->request;
    dw_life__block *block = r->block;
    memset(block, 0, sizeof *block);
    dw_life__shape_shells(block,
                          request->hold_temperature ? 1 : (int)request->shells);
    dw_ferment__state start;
    for (int lane = 0; lane < DW_LANES; lane++) {
        dw_ferment_model model = *lane_model(r, lane);
        loss_ball[lane] = model.ball_loss;
        if (request->hold_temperature)
            model.kd = 0;
        dw_ferment__set_lane(&block->set, lane, &model, &r->dough, r->mixed_c,
                             r->pressure_kpa);
        dw_ferment__start_lane(&start, lane, &model, &r->dough);
    }
    for (int i = 0; i < block->shells; i++) {
        block->shell[i].y = start;
        block->shell[i].temp = dw_lanes_all(r->mixed_c);
        block->shell[i].swelling = dw_lanes_all(1);
        block->shell[i].swelling_before = dw_lanes_all(1);
    }
    double piece_kg = request->piece_g / 1000;
    block->flour_100g = request->piece_g / r->dough.mass_g;
    block->heat_capacity_j_per_k = piece_kg * r->thermal.cp_j_per_kg_k;
    block->k_w_per_m_k = r->thermal.k_w_per_m_k;
    double start_m3 = block->flour_100g * block->set.start_ml[0] * 1e-6;
    block->radius_m = cube_root(0.75 / 3.14159265358979323846 * start_m3);
}

static void write_nominal(run *r, size_t i, double time_h,
                          const dw_life__look *look)
{
    dw_life_reply *reply = r->reply;
    reply->time_h[i] = time_h;
    reply->core_c[i] = look->core_c[0];
    reply->mean_c[i] = look->mean_c[0];
    reply->skin_c[i] = look->skin_c[0];
    reply->gas_ml_per_100g_flour[i] = look->gas[0] * DW_ML_PER_MMOL;
    reply->held_ml_per_100g_flour[i] = look->held[0] * DW_ML_PER_MMOL;
    reply->lost_ml_per_100g_flour[i] = look->lost[0] * DW_ML_PER_MMOL;
    reply->volume_ratio[i] = look->swelling[0];
    reply->sugar_g_per_100g_flour[i] = look->sugar[0] * DW_GRAM_PER_MMOL;
    reply->age_h[i] = look->age[0];
    reply->yeast_ratio[i] = r->yeast_g > 0 ? look->yeast[0] / r->yeast_g : 0;
}

static void write_row(void *owner, size_t index, double time_h,
                      const dw_life__look *look)
{
    run *r = owner;
    if (r->nominal)
        write_nominal(r, index, time_h, look);
    for (int lane = 1; lane < DW_LANES; lane++) {
        size_t member = r->first + (size_t)lane - 1;
        if (member >= r->member_count)
            break;
        size_t at = index * r->member_count + member;
        r->gas[at] = look->gas[lane] * DW_ML_PER_MMOL;
        r->volume[at] = look->swelling[lane];
    }
}

/* Blocks of seven members beside the nominal life. */
static void live(run *r)
{
    dw_life__rows rows = {write_row, r};
    r->yeast_g = dw_ferment_yeast_g(&r->request->model, &r->dough);
    for (r->first = 0; r->nominal || r->first < r->member_count;
         r->first += DW_LANES - 1) {
        double loss_ball[DW_LANES];
        dw_life__moments moments[DW_LANES];
        int64_t steps;
        fill_block(r, loss_ball);
        dw_life__walk_through(r->request, r->kernel, r->block, loss_ball, &rows,
                              r->nominal ? r->watch : NULL, moments, &steps);
        if (r->nominal) {
            dw_life__window_of(r->request, &moments[0], &r->reply->window);
            r->reply->steps = steps;
        }
        for (size_t lane = 1; lane < DW_LANES; lane++)
            if (r->first + lane - 1 < r->member_count)
                r->moments[r->first + lane - 1] = moments[lane];
        r->nominal = false;
    }
}

/* Vectors want a stricter place than the arena gives. */
static dw_life__block *take_block(dw_arena *arena)
{
    size_t align = _Alignof(dw_life__block);
    char *taken = dw_arena_take(arena, sizeof(dw_life__block) + align);
    if (!taken)
        return NULL;
    return (dw_life__block *)(void *)(taken + align - (uintptr_t)taken % align);
}

static bool take_reply(dw_arena *arena, size_t rows, dw_life_reply *reply)
{
    bool all = true;
#define TAKE(name, ...)                                                        \
    reply->name = DW_NEW_ARRAY(arena, double, rows);                           \
    reply->name##_count = rows;                                                \
    all = all && reply->name;
    DW_LIFE_COLUMNS(TAKE)
#undef TAKE
    return all;
}

static bool take_run(dw_arena *arena, size_t rows, run *r)
{
    size_t members = r->member_count;
    r->block = take_block(arena);
    if (members > 0) {
        r->members = DW_NEW_ARRAY(arena, dw_ferment_model, members);
        r->moments = DW_NEW_ARRAY(arena, dw_life__moments, members);
        r->gas = DW_NEW_ARRAY(arena, double, members *rows);
        r->volume = DW_NEW_ARRAY(arena, double, members *rows);
        if (!r->members || !r->moments || !r->gas || !r->volume)
            return false;
    }
    return r->block && take_reply(arena, rows, r->reply);
}

static dw_status prepare(run *r, dw_err *err)
{
    const dw_life_request *request = r->request;
    dw_composition composition;
    DW_TRY(check(request, err));
    DW_TRY(dw_ferment_dough_of(&request->formula, &r->dough, err));
    DW_TRY(dw_piece_composition(&request->formula, &composition, err));
    DW_TRY(dw_piece_thermal(&composition, 0, PROPERTIES_C, &r->thermal, err));
    r->pressure_kpa = dw_ferment_pressure_kpa(request->elevation_m);
    r->mixed_c =
        request->hold_temperature ? request->legs[0].air_c : request->dough_c;
    r->member_count = (size_t)request->members;
    r->nominal = true;
    return DW_OK;
}

static dw_status run_life(const dw_life__kernel *kernel,
                          const dw_life_request *request, dw_life__watch *watch,
                          dw_arena *arena, dw_life_reply *reply, dw_err *err)
{
    dw_life_reply answer = {0};
    run r = {
        .request = request, .kernel = kernel, .watch = watch, .reply = &answer};
    DW_TRY(prepare(&r, err));
    size_t rows = dw_life__row_count(request);
    if (!take_run(arena, rows, &r))
        return dw_fail(err, DW_E_ROOM, "members", NULL);
    if (!dw_life__draw(request, r.members, arena))
        return dw_fail(err, DW_E_ROOM, "members", NULL);
    live(&r);
    answer.limits = dw_life_limits_of(request);
    answer.has_band = r.member_count > 0;
    if (answer.has_band &&
        !dw_life__band_of(request, r.moments, r.gas, r.volume, rows, arena,
                          &answer.band))
        return dw_fail(err, DW_E_ROOM, "members", NULL);
    *reply = answer;
    return DW_OK;
}

dw_status dw_life__run_given(const dw_life_request *request,
                             const dw_ferment_model *members, dw_arena *arena,
                             double *gas_ml, double *volume_ratio, dw_err *err)
{
    dw_life_reply unread = {0};
    run r = {
        .request = request, .kernel = dw_life__kernel_best(), .reply = &unread};
    DW_TRY(prepare(&r, err));
    size_t rows = dw_life__row_count(request), count = r.member_count;
    if (!take_run(arena, rows, &r))
        return dw_fail(err, DW_E_ROOM, "members", NULL);
    memcpy(r.members, members, count * sizeof *members);
    live(&r);
    const double *gas = r.gas + (rows - 1) * count;
    const double *volume = r.volume + (rows - 1) * count;
    memcpy(gas_ml, gas, count * sizeof *gas);
    memcpy(volume_ratio, volume, count * sizeof *volume);
    return DW_OK;
}

dw_status dw_life__run_on(const dw_life__kernel *kernel,
                          const dw_life_request *request, dw_arena *arena,
                          dw_life_reply *reply, dw_err *err)
{
    return run_life(kernel, request, NULL, arena, reply, err);
}

dw_status dw_life__run_watched(const dw_life_request *request,
                               dw_life__watch *watch, dw_arena *arena,
                               dw_life_reply *reply, dw_err *err)
{
    return run_life(dw_life__kernel_best(), request, watch, arena, reply, err);
}

dw_status dw_life_run(const dw_life_request *request, dw_arena *arena,
                      dw_life_reply *reply, dw_err *err)
{
    return run_life(dw_life__kernel_best(), request, NULL, arena, reply, err);
}
