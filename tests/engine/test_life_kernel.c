#include "dw_test.h"

#include "engine/life_kernel.h"
#include "life_cases.h"

TEST(our_exp_is_the_exponential, DERIVED, "the C library's exp, 1e-14")
{
    for (double x = -650; x < 650; x += 0.37) {
        dw_lanes got = dw_lanes_exp(dw_lanes_all(x));
        NEAR(got[0] / exp(x), 1, 1e-14);
        CHECK(got[DW_LANES - 1] == got[0]);
    }
}

TEST(our_cube_root_is_one, DERIVED, "its cube, 3e-13")
{
    for (double x = 0.05; x <= 40; x *= 1.01) {
        dw_lanes root = dw_lanes_cbrt(dw_lanes_all(x));
        NEAR(root[0] * root[0] * root[0] / x, 1, 3e-13);
    }
}

static const dw_ferment_dough basic = {
    .mass_g = 162.4, .water_g = 60, .salt_g = 2, .instant_g = 0.4};

/* A number of a shell, by its place in dw_life__shell. */
enum { MADE = 7, TEMP = 11, RATE = 14, RATE_BEFORE = 15 };
static double *at_shell(dw_life__block *block, const dw_life__kernel *kernel,
                        int life, int shell, size_t number)
{
    return dw_life__number(kernel, block, life,
                           DW_LIFE__SET + (size_t)shell * DW_LIFE__SHELL +
                               number);
}

/* Every number of `one` in all lanes of `lanes`. */
static void spread(void *lanes, const void *one, size_t bytes)
{
    for (size_t i = 0; i < bytes / sizeof(double); i++) {
        double value;
        memcpy(&value, (const char *)one + i * sizeof value, sizeof value);
        dw_lanes all = dw_lanes_all(value);
        memcpy((char *)lanes + i * sizeof all, &all, sizeof all);
    }
}

/* Shells, and a block of lives that are all alike. */
static void start_block(dw_life__block *block, const dw_life__kernel *kernel,
                        const dw_ferment__one *one,
                        const dw_ferment__start *start)
{
    dw_ferment__one set[DW_LIVES];
    dw_ferment__start states[DW_LIVES];
    for (int life = 0; life < DW_LIVES; life++) {
        set[life] = *one;
        states[life] = *start;
    }
    block->lives = DW_LIVES;
    dw_life__shape_shells(block, 24);
    kernel->begin(block, set, states);
}

TEST(carbon_closes, LIMIT,
     "6 hexose = CO2 + 2 ethanol + 4 succinate + 3 glycerol, 1e-9; glycerol "
     "about 0.14 of CO2")
{
    dw_ferment_model model;
    dw_ferment_model_preset(&model);
    model.kd = 0;
    dw_ferment__one one;
    dw_ferment__start start;
    dw_ferment__set set;
    dw_ferment__state y, y0;
    dw_ferment__set_one(&model, &basic, 25, 101.325, &one);
    dw_ferment__start_one(&model, &basic, &start);
    spread(&set, &one, sizeof one);
    spread(&y, &start, sizeof start);
    y0 = y;
    double glycerol = (6 / model.co2_per_hexose - 3 - 4 * model.succinate) / 3;
    NEAR(glycerol, 0.14, 0.005);
    for (int i = 0; i < 1000; i++) {
        dw_ferment__rates rates;
        dw_ferment__at at =
            dw_ferment__at_temp(&set, dw_lanes_all(5 + 25.0 * (i % 7) / 7));
        y = dw_ferment__step(&set, &at, &y, 0.05, &rates);
        double hexose = y.s[0] + y.mal[0] + y.d[0];
        double used = y0.s[0] + y0.mal[0] + y0.d[0] - hexose;
        double found = y.c[0] * (1 + 2 + 4 * model.succinate + 3 * glycerol);
        NEAR(found, 6 * used, 1e-9);
        NEAR(y.x[0] + y.n[0], y0.x[0] + y0.n[0], 1e-12);
        CHECK(y.s[0] >= 0 && y.mal[0] >= 0 && y.d[0] >= 0 && y.n[0] >= 0);
        CHECK(y.lost[0] >= 0 && y.lost[0] <= y.c[0]);
        CHECK(y.lf[0] >= 0 && y.lf[0] <= 1 && y.a[0] >= 0 && y.a[0] <= 1);
    }
    CHECK(y.c[0] > 10);
}

TEST(a_closed_ball_keeps_its_energy, LIMIT,
     "no heat through the surface: what fermentation gives warms the dough")
{
    static dw_life__block block;
    memset(&block, 0, sizeof block);
    dw_ferment_model model;
    dw_ferment_model_preset(&model);
    dw_ferment__one one;
    dw_ferment__start start;
    const dw_life__kernel *plain = &dw_life__kernel_plain;
    dw_ferment__set_one(&model, &basic, 25, 101.325, &one);
    dw_ferment__start_one(&model, &basic, &start);
    start_block(&block, plain, &one, &start);
    for (int i = 0; i < 24; i++)
        *at_shell(&block, plain, 0, i, TEMP) = 20 + 0.4 * i;
    block.flour_100g = 450 / 162.4;
    block.heat_capacity_j_per_k = 0.450 * 2765;
    block.k_w_per_m_k = 0.42;
    block.radius_m = 0.0454;
    const dw_life__outside shut = {20, 1e-12};
    dw_life__look cold, after;
    plain->look(&block, &shut, &cold);
    double given = 0;
    for (int i = 0; i < 60; i++) {
        dw_life__pace pace;
        double source[24], ahead = i == 1 ? 2 : 1;
        for (int k = 0; k < 24; k++) {
            double rate = *at_shell(&block, plain, 0, k, RATE);
            double before = *at_shell(&block, plain, 0, k, RATE_BEFORE);
            source[k] = rate + ahead * (rate - before);
        }
        for (int k = 0; k < 24; k++)
            given += block.shape[k].part * block.flour_100g * model.heat *
                     0.05 * source[k];
        plain->step(&block, 0.05, &shut, DW_LIFE__FREE, &pace);
        if (i == 0)
            given = 0; /* the first step has no rate before it */
    }
    plain->look(&block, &shut, &after);
    double stored =
        (after.mean_c[0] - cold.mean_c[0]) * block.heat_capacity_j_per_k;
    NEAR(stored / given, 1, 1e-9);
    /* and that is 62 J for each mmol, but for the first steps' look ahead */
    NEAR(given / (after.gas[0] * block.flour_100g * model.heat), 1, 0.01);
}

/* Dough without yeast or bubbles: 27 degC, rho 1130, cp 2750, k 0.37. */
static void start_still(dw_life__block *block, double radius_m)
{
    memset(block, 0, sizeof *block);
    dw_ferment_model model;
    dw_ferment_model_preset(&model);
    dw_ferment_dough dough = {.mass_g = 160, .water_g = 60};
    dw_ferment__one one;
    dw_ferment__start start = {0};
    dw_ferment__set_one(&model, &dough, 27, 101.325, &one);
    one.solid = 1;
    one.air_mmol = 0;
    double volume = 4.0 / 3 * 3.14159265358979 * radius_m * radius_m * radius_m;
    block->heat_capacity_j_per_k = volume * 1130 * 2750;
    block->k_w_per_m_k = 0.37;
    block->radius_m = radius_m;
    block->mixed_c = 27;
    start_block(block, &dw_life__kernel_plain, &one, &start);
}

static dw_life__look cool(dw_life__block *block, double h, int steps)
{
    const dw_life__outside air = {3, h};
    dw_life__look look;
    for (int i = 0; i < steps; i++) {
        dw_life__pace pace;
        dw_life__kernel_plain.step(block, 1.0 / 120, &air, DW_LIFE__FREE,
                                   &pace);
    }
    dw_life__kernel_plain.look(block, &air, &look);
    return look;
}

TEST(the_reference_ball_cools_as_computed, DERIVED,
     "two independent programs: R 0.0456, h 8, 27 degC into 3 degC air: "
     "centre, surface, mean after 30 min and 4 h")
{
    static dw_life__block block;
    start_still(&block, 0.0456);
    dw_life__look look = cool(&block, 8, 60);
    NEAR(look.core_c[0], 25.6895, 0.02);
    NEAR(look.skin_c[0], 18.3936, 0.02);
    NEAR(look.mean_c[0], 21.4307, 0.02);
    start_still(&block, 0.0456);
    look = cool(&block, 8, 480);
    NEAR(look.core_c[0], 7.0782, 0.02);
    NEAR(look.skin_c[0], 5.6111, 0.02);
    NEAR(look.mean_c[0], 6.1663, 0.02);
}

TEST(balls_come_to_closing_temperature_in_the_minutes_computed, DERIVED,
     "two independent programs: minutes for the centre to 12.8 and 10 degC")
{
    const double rows[][4] = {
        {.0375, 3, 225, 302}, {.0375, 8, 104, 136}, {.0375, 12, 80, 103},
        {.0456, 3, 282, 377}, {.0456, 8, 136, 176}, {.0456, 12, 106, 136},
        {.0553, 3, 354, 471}, {.0553, 8, 176, 227}, {.0553, 12, 141, 179}};
    static dw_life__block block;
    for (size_t i = 0; i < DW_COUNT(rows); i++)
        for (int m = 0; m < 2; m++) {
            double level = m ? 10 : 12.8;
            /* a minute before it is warmer, a minute after colder */
            int halves = (int)(2 * rows[i][2 + m]);
            start_still(&block, rows[i][0]);
            CHECK(cool(&block, rows[i][1], halves - 2).core_c[0] > level);
            start_still(&block, rows[i][0]);
            CHECK(cool(&block, rows[i][1], halves + 2).core_c[0] < level);
        }
}

/* Eight unlike lives of yeasted dough, in air of 4 degC. */
static void live_unlike(const dw_life__kernel *kernel, dw_life__block *block)
{
    dw_ferment__one set[DW_LIVES];
    dw_ferment__start start[DW_LIVES];
    start_still(block, 0.0456);
    for (int life = 0; life < DW_LIVES; life++) {
        dw_ferment_model model;
        dw_ferment_model_preset(&model);
        model.q30 += life;
        dw_ferment__set_one(&model, &basic, 27, 101.325, &set[life]);
        dw_ferment__start_one(&model, &basic, &start[life]);
    }
    block->flour_100g = 2.7;
    kernel->begin(block, set, start);
    const dw_life__outside air = {4, 8};
    for (int i = 0; i < 300; i++) {
        dw_life__pace pace;
        kernel->step(block, 0.01 + 0.001 * (i % 7), &air, DW_LIFE__FREE, &pace);
    }
}

TEST(every_instruction_set_gives_the_same_bits, LIMIT,
     "the same source, no contraction, our own functions: every number of "
     "every life and shell")
{
    const dw_life__kernel *kernels[DW_LIFE_KERNELS_MOST];
    static dw_life__block plain, block;
    size_t each = DW_LIFE__SET + 24 * DW_LIFE__SHELL;
    dw_life__kernels(kernels);
    live_unlike(kernels[0], &plain);
    for (int k = 1; kernels[k]; k++) {
        live_unlike(kernels[k], &block);
        size_t same = 0;
        for (int life = 0; life < DW_LIVES; life++)
            for (size_t i = 0; i < each; i++)
                same += memcmp(dw_life__number(kernels[k], &block, life, i),
                               dw_life__number(kernels[0], &plain, life, i),
                               sizeof(double)) == 0;
        SAME(same, DW_LIVES * each);
    }
    CHECK(*at_shell(&plain, kernels[0], 0, 0, MADE) > 1);
    CHECK(*at_shell(&plain, kernels[0], 7, 0, MADE) >
          *at_shell(&plain, kernels[0], 6, 0, MADE));
}
