#include "dw_test.h"

#include "doughwright/life.h"
#include "doughwright/piece.h"
#include "life_equations.h"

typedef struct history {
    double water, salt, sugar, instant; /* percent */
    double piece_g, dough_c;
    dw_leg legs[80];
    size_t count;
} history;

enum { FINE = 48 };

static dw_status live(const history *h, bool held, dw_life_reply *reply,
                      dw_line lines[5])
{
    static unsigned char block[8 << 20];
    const dw_line all[] = {
        {"flour", DW_FLOUR, 100, false, 0, false, 0},
        {"water", DW_WATER, h->water, false, 0, false, 0},
        {"salt", DW_SALT, h->salt, false, 0, false, 0},
        {"sugar", DW_SUGAR, h->sugar, false, 0, false, 0},
        {"yeast", DW_YEAST_INSTANT, h->instant, false, 0, false, 0}};
    memcpy(lines, all, sizeof all);
    dw_life_request request = {.formula = {lines, 5, NULL, 0},
                               .piece_g = h->piece_g,
                               .has_dough_c = true,
                               .dough_c = h->dough_c,
                               .legs = (dw_leg *)h->legs,
                               .legs_count = h->count,
                               .earliest_cold_use_h = 10,
                               .report_every_h = 1,
                               .hold_temperature = held,
                               .shells = 24,
                               .step_scale = 1};
    dw_ferment_model_preset(&request.model);
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    return dw_life_run(&request, &arena, reply, NULL);
}

static ball reference(const history *h, bool held, dw_line lines[5])
{
    dw_formula formula = {lines, 5, NULL, 0};
    dw_composition parts;
    dw_thermal dough = {0};
    dw_piece_composition(&formula, &parts, NULL);
    dw_piece_thermal(&parts, 0, 15, &dough, NULL);
    return (ball){
        .water = h->water,
        .salt = h->salt,
        .added_sugar = h->sugar,
        .yeast_dry = h->instant * 0.95 * 0.90,
        .q30 = 16,
        .gas_tmin = -1,
        .mass = 100 + h->water + h->salt + h->sugar + h->instant,
        .mixed_c = held ? h->legs[0].air_c : h->dough_c,
        .pressure_kpa = 101.325,
        .piece_kg = h->piece_g / 1000,
        .cp = dough.cp_j_per_kg_k,
        .k_dense = dough.k_w_per_m_k,
        .shells = held ? 1 : FINE,
        .held = held,
    };
}

typedef struct worst {
    double gas, core, mean, skin;
} worst;

static void take_most(double *most, double value)
{
    if (value > *most)
        *most = value;
}

/* Both, hour by hour; what they differ by at most: gas as a part of what there
 * is (of 5 mL at least), temperatures in K. */
static worst compare(const history *h, bool held)
{
    dw_line lines[5];
    dw_life_reply reply;
    worst w = {0, 0, 0, 0};
    if (live(h, held, &reply, lines) != DW_OK)
        return (worst){NAN, NAN, NAN, NAN};
    ball b = reference(h, held, lines);
    double y[FINE * STATES], leg_end = 0;
    size_t leg = 0;
    ball_start(&b, y);
    for (size_t i = 1; i < reply.time_h_count; i++) {
        double at = reply.time_h[i - 1];
        while (at < reply.time_h[i] - 1e-9) {
            if (at >= leg_end - 1e-9)
                leg_end += h->legs[leg++].hours;
            double to = fmin(leg_end, reply.time_h[i]);
            b.air_c = h->legs[leg - 1].air_c;
            b.h = h->legs[leg - 1].h_w_per_m2_k;
            if (held)
                y[TEMP] = b.air_c;
            if (solve(&b, y, at, to) != 0)
                return (worst){NAN, NAN, NAN, NAN};
            at = to;
        }
        double gas = ball_mean(&b, y, MADE) * 24.06;
        take_most(&w.gas,
                  fabs(reply.gas_ml_per_100g_flour[i] - gas) / fmax(gas, 5));
        if (held)
            continue;
        take_most(&w.core, fabs(reply.core_c[i] - ball_core(&b, y)));
        take_most(&w.mean, fabs(reply.mean_c[i] - ball_mean(&b, y, TEMP)));
        take_most(&w.skin, fabs(reply.skin_c[i] - ball_skin(&b, y)));
    }
    return w;
}

static const history lives[] = {
    {58,
     1.75,
     0,
     .4,
     450,
     26,
     {{.5, 22, 8}, {2.5, 3, 8}, {66, 3, 3}, {3, 22, 8}},
     4},
    {60, 2, 4, 1.5, 450, 35, {{6, 24, 8}}, 1},
    {60, 2, 0, .375, 250, 27, {{8, 21, 12}}, 1},
    {65,
     2.5,
     1,
     .2,
     800,
     24,
     {{1, 24, 5}, {30, 5, 3}, {4, 18, 8}, {10, 4, 12}},
     4},
    {60, 2, 2, .8, 450, 30, {{4, 30, 8}, {20, 2, 15}, {2, 35, 10}}, 3},
};

TEST(long_kinetics_agree_with_a_general_solver, DERIVED,
     "the same equations written twice, CVODE at 1e-9: gas within 0.2 %")
{
    const double temps_c[] = {3, 10, 20, 27, 35};
    const double instant[] = {0.1, 0.4, 1.5};
    double most = 0;
    for (size_t t = 0; t < DW_COUNT(temps_c); t++)
        for (size_t i = 0; i < DW_COUNT(instant); i++) {
            history h = {60,
                         2,
                         0,
                         instant[i],
                         450,
                         25,
                         {{10, temps_c[t], 8}, {10, 15, 8}},
                         2};
            worst w = compare(&h, true);
            CHECK(w.gas <= 0.002);
            take_most(&most, w.gas);
        }
    printf("  kinetics: gas %.4f %%\n", 100 * most);
}

TEST(long_lives_agree_with_a_general_solver_on_a_finer_grid, DERIVED,
     "the same equations written twice, CVODE at 1e-9 and twice the shells: "
     "gas within 0.5 %, temperatures within 0.05 K")
{
    for (size_t i = 0; i < DW_COUNT(lives); i++) {
        worst w = compare(&lives[i], false);
        CHECK(w.gas <= 0.005);
        CHECK(w.core <= 0.05);
        CHECK(w.mean <= 0.05);
        CHECK(w.skin <= 0.05);
        printf("  life %zu: gas %.4f %%, core %.4f, mean %.4f, skin %.4f K\n",
               i, 100 * w.gas, w.core, w.mean, w.skin);
    }
}

TEST(long_a_life_in_a_room_that_cycles_agrees_with_a_general_solver, DERIVED,
     "the same, a room between 4 and 2 degC, ten minutes each, for 12 h")
{
    history h = {58, 1.75, 0, .4, 450, 26, {{.5, 22, 8}, {1.5, 3, 8}}, 2};
    for (int i = 0; i < 36; i++) {
        h.legs[h.count++] = (dw_leg){1.0 / 6, 4, 3};
        h.legs[h.count++] = (dw_leg){1.0 / 6, 2, 3};
    }
    worst w = compare(&h, false);
    CHECK(w.gas <= 0.005);
    CHECK(w.core <= 0.05);
    CHECK(w.mean <= 0.05);
    CHECK(w.skin <= 0.05);
    printf("  cycling: gas %.4f %%, core %.4f, mean %.4f, skin %.4f K\n",
           100 * w.gas, w.core, w.mean, w.skin);
}
