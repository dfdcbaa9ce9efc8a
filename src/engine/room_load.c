/* Balls in a room whose machine may be too small for them. */
#include "doughwright/room.h"

#include "doughwright/piece.h"
#include "doughwright/say.h"
#include "engine/life_walk.h"

#include <math.h>

#define LONGEST_H 48
#define PIECE_H (1.0 / 30) /* the room is held for so long at a time */
#define ROW_PIECES 5       /* told every so many of them */
#define WARM_K 1           /* above the set point counts as warm */
#define PROPERTIES_C 15    /* as the life's: half way from mixer to cold room */
#define PI 3.14159265358979323846

/* A room that is followed while one ball's life is lived in it. */
typedef struct room {
    const dw_room_load *load;
    dw_life_request life; /* its cold cut into pieces */
    size_t first;         /* leg in the cold */
    double set_c, h;
    double capacity_w; /* INFINITY: held */
    double wall_w_per_k, ball_j_per_k, gas_j_per_mmol, radius_m;
    /* as it goes */
    double air_c;
    double mean_c, gas_mmol; /* of the ball when the piece began */
    double told_j;           /* heat the room was given for this piece */
    double owed_j;  /* what the balls gave beside that, still to come */
    double balls_j; /* in all */
    double now_w, peak_w, warmest_c, warm_h;
    bool is_short;
    dw_room_carry *rows; /* NULL: nothing is told */
} room;

static double square_of_cube_root(double x)
{
    return pow(x, 2.0 / 3);
}

/* What the ball gave since the piece began, all balls, J. */
static double given_j(const room *r, double mean_c, double gas_mmol)
{
    double cooled = r->ball_j_per_k * (r->mean_c - mean_c);
    double made = r->gas_j_per_mmol * (gas_mmol - r->gas_mmol);
    return (double)r->load->balls * (cooled + made);
}

/* The room over the next piece: its air at the end of it, the skin as it is
 * now, what is owed spread over it; backward Euler. The machine takes what
 * brings it to the set point, as far as it can. */
static double next_air(room *r, double skin_c, double per_k, double dt_s,
                       double *machine_w)
{
    const dw_room_load *l = r->load;
    double store = l->heat_capacity_j_per_k / dt_s;
    double gain = store * r->air_c + per_k * skin_c +
                  r->wall_w_per_k * l->outside_c + l->other_w +
                  r->owed_j / dt_s;
    double loss = store + per_k + r->wall_w_per_k;
    double need_w = gain - loss * r->set_c;
    *machine_w = fmin(fmax(need_w, 0), r->capacity_w);
    r->is_short = r->is_short || need_w > r->capacity_w;
    return (gain - *machine_w) / loss;
}

static void tell_row(room *r, size_t piece, double time_h, double balls_w,
                     double machine_w)
{
    dw_room_carry *c = r->rows;
    if (!c || piece % ROW_PIECES != 0)
        return;
    size_t i = piece / ROW_PIECES;
    c->time_h[i] = time_h;
    c->room_c[i] = r->air_c;
    c->balls_w[i] = balls_w;
    c->machine_w[i] = machine_w;
}

/* Begin the piece of leg `first + piece` with the ball as it is. */
static void begin_piece(room *r, size_t piece, double time_h, double skin_c,
                        double swelling)
{
    dw_leg *leg = &r->life.legs[r->first + piece];
    double area =
        4 * PI * r->radius_m * r->radius_m * square_of_cube_root(swelling);
    double per_k = (double)r->load->balls * r->h * area, machine_w;
    double dt_s = leg->hours * 3600, before_c = r->air_c;
    double balls_w = per_k * (skin_c - r->set_c);
    double load_w = balls_w + r->load->other_w +
                    r->wall_w_per_k * (r->load->outside_c - r->set_c);
    if (piece == 0)
        r->now_w = load_w;
    r->peak_w = fmax(r->peak_w, load_w);
    double air_c = next_air(r, skin_c, per_k, dt_s, &machine_w);
    tell_row(r, piece, time_h, per_k * (skin_c - before_c), machine_w);
    r->told_j = per_k * (skin_c - air_c) * dt_s + r->owed_j;
    leg->air_c = 0.5 * (before_c + air_c);
    r->air_c = air_c;
    r->warmest_c = fmax(r->warmest_c, air_c);
    if (air_c > r->set_c + WARM_K)
        r->warm_h += leg->hours;
}

/* At the end of a leg: `next` is about to be entered. */
static void pass_leg(void *owner, size_t next, double time_h,
                     const dw_life__look *look)
{
    room *r = owner;
    double mean_c = look->mean_c[0], gas_mmol = look->gas[0];
    if (next < r->first)
        return;
    if (next > r->first) {
        double given = given_j(r, mean_c, gas_mmol);
        r->balls_j += given;
        r->owed_j = given - r->told_j + r->owed_j;
    }
    r->mean_c = mean_c;
    r->gas_mmol = gas_mmol;
    if (next + 1 < r->life.legs_count)
        begin_piece(r, next - r->first, time_h, look->skin_c[0],
                    look->swelling[0]);
}

static dw_status set_ball(room *r, dw_err *err)
{
    const dw_life_request *life = &r->load->life;
    dw_ferment_dough dough;
    dw_composition composition;
    dw_thermal thermal;
    DW_TRY(dw_ferment_dough_of(&life->formula, &dough, err));
    DW_TRY(dw_piece_composition(&life->formula, &composition, err));
    DW_TRY(dw_piece_thermal(&composition, 0, PROPERTIES_C, &thermal, err));
    double kg = life->piece_g / 1000;
    double density =
        1000 * life->model.dough_density * (1 - life->model.void_percent / 100);
    r->ball_j_per_k = kg * thermal.cp_j_per_kg_k;
    r->gas_j_per_mmol = life->model.heat * life->piece_g / dough.mass_g;
    r->radius_m = dw_ball_radius_m(life->piece_g, density);
    return DW_OK;
}

/* A room that takes up less in a piece than the balls' air films pass cannot be
 * followed by pieces of that length. */
static dw_status check_room(const room *r, dw_err *err)
{
    double area = 4 * PI * r->radius_m * r->radius_m;
    double least = (double)r->load->balls * r->h * area * PIECE_H * 3600;
    return dw_check_range(err, "heat_capacity_j_per_k",
                          r->load->heat_capacity_j_per_k, least, INFINITY);
}

/* The cold in pieces, and one moment more at the set point that goes on. */
static dw_status cut_cold(room *r, dw_arena *arena, dw_err *err)
{
    const dw_life_request *life = &r->load->life;
    const dw_leg *cold = &life->legs[r->first];
    size_t pieces = (size_t)ceil(cold->hours / PIECE_H - 1e-9);
    dw_leg *legs = DW_NEW_ARRAY(arena, dw_leg, r->first + pieces + 1);
    if (!legs)
        return dw_fail(err, DW_E_ROOM, "life.legs", NULL);
    memcpy(legs, life->legs, r->first * sizeof *legs);
    for (size_t i = 0; i <= pieces; i++)
        legs[r->first + i] = (dw_leg){cold->hours / (double)pieces, cold->air_c,
                                      cold->h_w_per_m2_k};
    legs[r->first + pieces].hours = 1.0 / 3600;
    r->life.legs = legs;
    r->life.legs_count = r->first + pieces + 1;
    return DW_OK;
}

static dw_status check_load(const dw_room_load *load, dw_err *err)
{
    const dw_life_request *life = &load->life;
    const dw_leg *cold = &life->legs[life->legs_count - 1];
    if (life->hold_temperature)
        return dw_fail(err, DW_E_CONFLICT, "life.hold_temperature", NULL);
    if (!life->has_dough_c)
        return dw_fail(err, DW_E_MISSING, "life.dough_c", NULL);
    DW_TRY(dw_check_range(err, "life.legs.air_c", cold->air_c, -3,
                          DW_LIFE_COLD_C));
    DW_TRY(dw_check_range(err, "life.legs.hours", cold->hours, PIECE_H,
                          LONGEST_H));
    double empty_w = load->other_w + load->heat_capacity_j_per_k /
                                         (load->time_constant_h * 3600) *
                                         (load->outside_c - cold->air_c);
    if (load->capacity_w >= empty_w)
        return DW_OK;
    dw_fail_range(err, "capacity_w", load->capacity_w, empty_w, INFINITY);
    if (err)
        err->sentence = DW_MSG("is {value}: the room alone, empty, needs "
                               "{low}");
    return DW_E_RANGE;
}

/* Live in the room with a machine of capacity_w. */
static dw_status live_in(room *r, double capacity_w, dw_arena *arena,
                         dw_window *window, dw_err *err)
{
    const dw_life_request *life = &r->load->life;
    dw_life__watch watch = {.gate = {pass_leg, r}};
    dw_life_reply reply;
    r->capacity_w = capacity_w;
    r->air_c = r->warmest_c = r->set_c;
    r->told_j = r->owed_j = r->balls_j = r->warm_h = 0;
    r->now_w = 0;
    r->peak_w = -INFINITY;
    r->is_short = false;
    r->mean_c = life->dough_c;
    r->gas_mmol = 0;
    if (r->first == 0) /* no leg ends before the cold */
        begin_piece(r, 0, 0, life->dough_c, 1);
    size_t used = arena->used;
    dw_status status =
        dw_life__run_watched(&r->life, &watch, arena, &reply, err);
    arena->used = used;
    if (status == DW_OK)
        *window = reply.window;
    return status;
}

static bool take_rows(dw_arena *arena, size_t pieces, dw_room_carry *carry)
{
    size_t rows = (pieces + ROW_PIECES - 1) / ROW_PIECES;
    carry->time_h = DW_NEW_ARRAY(arena, double, rows);
    carry->room_c = DW_NEW_ARRAY(arena, double, rows);
    carry->balls_w = DW_NEW_ARRAY(arena, double, rows);
    carry->machine_w = DW_NEW_ARRAY(arena, double, rows);
    carry->time_h_count = carry->room_c_count = rows;
    carry->balls_w_count = carry->machine_w_count = rows;
    return carry->time_h && carry->room_c && carry->balls_w && carry->machine_w;
}

dw_status dw_room_carry_load(const dw_room_load *load, dw_arena *arena,
                             dw_room_carry *carry, dw_err *err)
{
    DW_TRY(check_load(load, err));
    room r = {.load = load, .life = load->life};
    r.first = load->life.legs_count - 1;
    r.set_c = load->life.legs[r.first].air_c;
    r.h = load->life.legs[r.first].h_w_per_m2_k;
    r.wall_w_per_k =
        load->heat_capacity_j_per_k / (load->time_constant_h * 3600);
    r.life.members = 0;
    r.life.report_every_h = DW_LIFE_LONGEST_H;
    dw_room_carry made = {0};
    DW_TRY(set_ball(&r, err));
    DW_TRY(check_room(&r, err));
    DW_TRY(cut_cold(&r, arena, err));
    if (!take_rows(arena, r.life.legs_count - r.first - 1, &made))
        return dw_fail(err, DW_E_ROOM, "life.legs", NULL);
    DW_TRY(live_in(&r, INFINITY, arena, &made.held, err));
    made.now_w = r.now_w;
    made.peak_w = r.peak_w;
    made.heat_j = r.balls_j;
    r.rows = &made;
    DW_TRY(live_in(&r, load->capacity_w, arena, &made.found, err));
    made.is_short = r.is_short;
    made.warmest_c = r.warmest_c;
    made.warm_h = r.warm_h;
    *carry = made;
    return DW_OK;
}
