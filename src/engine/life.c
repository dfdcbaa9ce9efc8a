#include "doughwright/life.h"

#include "doughwright/piece.h"
#include "engine/life_ensemble.h"
#include "engine/life_state.h"
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
    const dw_life_going *going;
    dw_life__watch *watch; /* NULL: nobody does */
    dw_ferment_dough dough;
    dw_thermal thermal;
    double mixed_c, pressure_kpa;
    dw_ferment_model *members;
    dw_life__moments *moments; /* of each member */
    double *gas, *volume;      /* [row][member] */
    size_t first_row, rows;    /* of the reply: earlier ones were told before */
    dw_life__block *blocks;    /* one for each hand */
    dw_life_reply answer;
    size_t member_count;
    double yeast_g;
} run;

/* A block's part of it: seven members beside the nominal life. */
enum { MEMBERS_EACH = DW_LIVES - 1 };
typedef struct turn {
    run *run;
    dw_life__block *block;
    size_t index; /* of the block: the first tells the nominal life */
    dw_life__place place;
} turn;

const dw_life__kernel *dw_life__kernel_for(const dw_life_request *request)
{
    return request->members > 0 ? dw_life__kernel_best()
                                : &dw_life__kernel_plain;
}

static size_t block_count(const dw_life_request *request)
{
    size_t members = (size_t)request->members;
    return members ? (members + MEMBERS_EACH - 1) / MEMBERS_EACH : 1;
}

/* The nominal life and the members of a block. */
static int lives_of(const dw_life_request *request, size_t index)
{
    size_t left = (size_t)request->members - index * MEMBERS_EACH;
    return 1 + (int)(left < MEMBERS_EACH ? left : MEMBERS_EACH);
}

/* The member that is this life (1 and up) of a block. */
static size_t member_of(const turn *t, int life)
{
    return t->index * MEMBERS_EACH + (size_t)life - 1;
}

static void shape_block(const run *r, size_t index, dw_life__block *block)
{
    const dw_life_request *request = r->request;
    double start_ml =
        dw_ferment_volume_ml(&request->model, &r->dough,
                             dw_ferment_air_mmol(&request->model, &r->dough,
                                                 r->mixed_c, r->pressure_kpa),
                             r->mixed_c, r->pressure_kpa);
    dw_life__shape_shells(block,
                          request->hold_temperature ? 1 : (int)request->shells);
    block->lives = lives_of(request, index);
    block->dt_h = block->dt_before_h = 0;
    block->flour_100g = request->piece_g / r->dough.mass_g;
    block->heat_capacity_j_per_k =
        request->piece_g / 1000 * r->thermal.cp_j_per_kg_k;
    block->k_w_per_m_k = r->thermal.k_w_per_m_k;
    block->mixed_c = r->mixed_c;
    double start_m3 = block->flour_100g * start_ml * 1e-6;
    block->radius_m = dw_lanes_cbrt(
        dw_lanes_all(0.75 / 3.14159265358979323846 * start_m3))[0];
}

static void fill_block(turn *t, double loss_ball[DW_LIVES])
{
    const run *r = t->run;
    dw_life__block *block = t->block;
    dw_ferment__one set[DW_LIVES];
    dw_ferment__start start[DW_LIVES];
    shape_block(r, t->index, block);
    memset(loss_ball, 0, DW_LIVES * sizeof *loss_ball);
    for (int life = 0; life < block->lives; life++) {
        dw_ferment_model model =
            life ? r->members[member_of(t, life)] : r->request->model;
        loss_ball[life] = model.ball_loss;
        block->v_crit[life] = model.v_crit;
        if (r->request->hold_temperature)
            model.kd = 0;
        dw_ferment__set_one(&model, &r->dough, r->mixed_c, r->pressure_kpa,
                            &set[life]);
        dw_ferment__start_one(&model, &r->dough, &start[life]);
    }
    r->kernel->begin(block, set, start);
}

static void write_nominal(run *r, size_t i, double time_h,
                          const dw_life__look *look)
{
    dw_life_reply *reply = &r->answer;
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
    turn *t = owner;
    run *r = t->run;
    size_t row = index - r->first_row;
    if (t->index == 0)
        write_nominal(r, row, time_h, look);
    for (int life = 1; life < t->block->lives; life++) {
        size_t at = row * r->member_count + member_of(t, life);
        r->gas[at] = look->gas[life] * DW_ML_PER_MMOL;
        r->volume[at] = look->swelling[life];
    }
}

static void keep_state(void *owner, const dw_life__place *place,
                       const dw_life__block *block)
{
    turn *t = owner;
    dw_life__state_put(t->run->going->keep, t->index, t->run->kernel, place,
                       block);
}

static void live_block(void *owner, size_t hand, size_t index)
{
    run *r = owner;
    turn t = {.run = r, .block = &r->blocks[hand], .index = index};
    double loss_ball[DW_LIVES];
    dw_life__rows rows = {write_row, &t};
    dw_life__keep keep = {r->going->keep_legs, keep_state, &t};
    dw_life__path path = {.request = r->request,
                          .kernel = r->kernel,
                          .loss_ball = loss_ball,
                          .rows = &rows,
                          .watch = index == 0 ? r->watch : NULL,
                          .keep = r->going->keep ? &keep : NULL,
                          .go_on = r->going->from != NULL};
    fill_block(&t, loss_ball);
    if (path.go_on)
        dw_life__state_get(r->going->from, index, r->kernel, &t.place, t.block);
    dw_life__walk_through(&path, t.block, &t.place);
    if (index == 0) {
        dw_life__window_of(r->request, &t.place.moments[0], &r->answer.window);
        r->answer.steps = t.place.steps;
    }
    for (int life = 1; life < t.block->lives; life++)
        r->moments[member_of(&t, life)] = t.place.moments[life];
}

static void live(run *r)
{
    const dw_hands *hands = r->going->hands;
    size_t blocks = block_count(r->request);
    r->yeast_g = dw_ferment_yeast_g(&r->request->model, &r->dough);
    if (r->going->keep)
        dw_life__state_begin(
            r->going->keep, r->going->keep_legs,
            dw_life__state_block_bytes(r->request, lives_of(r->request, 0)));
    if (hands) {
        hands->share(hands->crew, blocks, live_block, r);
        return;
    }
    for (size_t i = 0; i < blocks; i++)
        live_block(r, 0, i);
}

/* Vectors want a stricter place than the arena gives. */
static dw_life__block *take_blocks(dw_arena *arena, size_t count)
{
    size_t align = _Alignof(dw_life__block);
    char *taken = dw_arena_take(arena, count * sizeof(dw_life__block) + align);
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

static bool take_run(dw_arena *arena, run *r)
{
    size_t members = r->member_count, rows = r->rows;
    r->blocks =
        take_blocks(arena, r->going->hands ? r->going->hands->count : 1);
    if (members > 0) {
        r->members = DW_NEW_ARRAY(arena, dw_ferment_model, members);
        r->moments = DW_NEW_ARRAY(arena, dw_life__moments, members);
        r->gas = DW_NEW_ARRAY(arena, double, members *rows);
        r->volume = DW_NEW_ARRAY(arena, double, members *rows);
        if (!r->members || !r->moments || !r->gas || !r->volume)
            return false;
    }
    return r->blocks && take_reply(arena, rows, &r->answer);
}

static dw_status check_going(const dw_life_request *request,
                             const dw_life_going *going, dw_err *err)
{
    const dw_life__state *state = going->from;
    size_t from = state ? state->legs : 0;
    if (!going->from && !going->keep)
        return DW_OK;
    DW_TRY(dw_check_range(err, "legs", (double)request->legs_count,
                          (double)from + 1, (double)request->legs_count));
    if (!going->keep)
        return DW_OK;
    return dw_check_range(err, "keep_legs", (double)going->keep_legs,
                          (double)from + 1, (double)request->legs_count - 1);
}

static dw_status prepare(run *r, dw_err *err)
{
    const dw_life_request *request = r->request;
    dw_composition composition;
    DW_TRY(check(request, err));
    DW_TRY(check_going(request, r->going, err));
    DW_TRY(dw_ferment_dough_of(&request->formula, &r->dough, err));
    DW_TRY(dw_piece_composition(&request->formula, &composition, err));
    DW_TRY(dw_piece_thermal(&composition, 0, PROPERTIES_C, &r->thermal, err));
    r->pressure_kpa = dw_ferment_pressure_kpa(request->elevation_m);
    r->mixed_c =
        request->hold_temperature ? request->legs[0].air_c : request->dough_c;
    r->member_count = (size_t)request->members;
    const dw_life__state *from = r->going->from;
    r->first_row = from ? from->row : 0;
    r->rows = dw_life__row_count(request) - r->first_row;
    return DW_OK;
}

static dw_status run_life(run *r, dw_arena *arena, dw_life_reply *reply,
                          dw_err *err)
{
    static const dw_life_going alone = {0};
    const dw_life_request *request = r->request;
    r->going = r->going ? r->going : &alone;
    r->kernel = r->kernel ? r->kernel : dw_life__kernel_for(request);
    DW_TRY(prepare(r, err));
    if (!take_run(arena, r) || !dw_life__draw(request, r->members, arena))
        return dw_fail(err, DW_E_ROOM, "members", NULL);
    live(r);
    r->answer.limits = dw_life_limits_of(request);
    r->answer.has_band = r->member_count > 0;
    if (r->answer.has_band &&
        !dw_life__band_of(request, r->moments, r->gas, r->volume, r->rows,
                          arena, &r->answer.band))
        return dw_fail(err, DW_E_ROOM, "members", NULL);
    *reply = r->answer;
    return DW_OK;
}

dw_status dw_life__run_given(const dw_life_request *request,
                             const dw_ferment_model *members, dw_arena *arena,
                             double *gas_ml, double *volume_ratio, dw_err *err)
{
    static const dw_life_going alone = {0};
    run r = {
        .request = request, .kernel = dw_life__kernel_best(), .going = &alone};
    DW_TRY(prepare(&r, err));
    size_t count = r.member_count;
    if (!take_run(arena, &r))
        return dw_fail(err, DW_E_ROOM, "members", NULL);
    memcpy(r.members, members, count * sizeof *members);
    live(&r);
    const double *gas = r.gas + (r.rows - 1) * count;
    const double *volume = r.volume + (r.rows - 1) * count;
    memcpy(gas_ml, gas, count * sizeof *gas);
    memcpy(volume_ratio, volume, count * sizeof *volume);
    return DW_OK;
}

dw_status dw_life__run_on(const dw_life__kernel *kernel,
                          const dw_life_request *request, dw_arena *arena,
                          dw_life_reply *reply, dw_err *err)
{
    run r = {.request = request, .kernel = kernel};
    return run_life(&r, arena, reply, err);
}

dw_status dw_life__run_watched(const dw_life_request *request,
                               dw_life__watch *watch, dw_arena *arena,
                               dw_life_reply *reply, dw_err *err)
{
    run r = {.request = request, .watch = watch};
    return run_life(&r, arena, reply, err);
}

dw_status dw_life_run(const dw_life_request *request, dw_arena *arena,
                      dw_life_reply *reply, dw_err *err)
{
    run r = {.request = request};
    return run_life(&r, arena, reply, err);
}

dw_status dw_life_go(const dw_life_request *request, const dw_life_going *going,
                     dw_arena *arena, dw_life_reply *reply, dw_err *err)
{
    run r = {.request = request, .going = going};
    return run_life(&r, arena, reply, err);
}

size_t dw_life_state_bytes(const dw_life_request *request)
{
    return sizeof(dw_life__state) +
           block_count(request) *
               dw_life__state_block_bytes(request, lives_of(request, 0));
}
