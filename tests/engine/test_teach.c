#include "dw_test.h"
#include "teach_shops.h"

#include <stdlib.h>

enum { READINGS = 10, LEGS = 2 };

static unsigned char block[32 << 20];
static dw_arena arena;

/* --- stacks ------------------------------------------------------------ */

typedef struct stack_shop {
    double h[DW_TEACH_STATES];
    dw_line lines[4];
    dw_teach_leg legs[READINGS + 1][LEGS];
    dw_teach_probe probes[READINGS + 1]; /* the last is to be foretold */
} stack_shop;

static void cool(const stack_shop *shop, dw_teach_probe *probe)
{
    ball b = shop_ball(0.4);
    double y[12 * STATES];
    b.piece_kg = probe->piece_g / 1000;
    b.mixed_c = probe->dough_c;
    ball_start(&b, y);
    for (size_t i = 0; i < probe->legs_count; i++) {
        b.air_c = probe->legs[i].air_c;
        b.h = shop->h[probe->legs[i].state];
        shop_follow(&b, y, probe->legs[i].hours, 0.012);
    }
    probe->core_c = ball_core(&b, y);
}

static void open_shop(stack_shop *shop, unsigned long long *seed)
{
    static const double usual[] = {12, 8, 3};
    for (int i = 0; i < DW_TEACH_STATES; i++)
        shop->h[i] = exp(shop_normal_within(seed, log(usual[i]), 0.3, 2.9));
    for (int i = 0; i <= READINGS; i++) {
        dw_teach_leg *leg = shop->legs[i];
        double air = dw_test_between(seed, 2, 4.5);
        int first = i % 3 == 0 ? 0 : 1;
        leg[0] = (dw_teach_leg){dw_test_between(seed, 1, 2.2), air, first};
        leg[1] = (dw_teach_leg){dw_test_between(seed, 2, 4), air, 2};
        dw_teach_probe *probe = &shop->probes[i];
        *probe = (dw_teach_probe){.piece_g = dw_test_between(seed, 250, 500),
                                  .dough_c = dw_test_between(seed, 24, 29),
                                  .legs = leg,
                                  .legs_count = i % 2 ? 2 : 1};
        cool(shop, probe);
    }
}

/* Thermometers, uneven balls, and one reading in twenty simply wrong. */
static void misread(stack_shop *shop, unsigned long long *seed)
{
    for (int i = 0; i < READINGS; i++) {
        dw_teach_probe *probe = &shop->probes[i];
        probe->core_c += 0.5 * shop_normal(seed) + 0.6 * shop_normal(seed);
        probe->dough_c += 0.3 * shop_normal(seed);
        if (dw_test_between(seed, 0, 1) < 0.05)
            probe->core_c += dw_test_between(seed, 4, 9);
    }
}

static dw_teach_stack_ask stack_ask(stack_shop *shop, size_t count)
{
    return (dw_teach_stack_ask){.formula = shop_formula(shop->lines, 0.4),
                                .readings = shop->probes,
                                .readings_count = count};
}

static bool learn_stack(stack_shop *shop, size_t count, dw_teach_stack *out)
{
    dw_err err;
    dw_teach_stack_ask ask = stack_ask(shop, count);
    dw_arena_init(&arena, block, sizeof block);
    dw_status status = dw_teach_stack_run(&ask, &arena, out, &err);
    if (status != DW_OK)
        dw_test_fail(__FILE__, __LINE__, "%s %s", dw_status_code(status),
                     err.field);
    return status == DW_OK;
}

/* The core that three coefficients foretell. */
static double foretell(const stack_shop *shop, const double h[DW_TEACH_STATES])
{
    stack_shop other = *shop;
    dw_teach_probe probe = shop->probes[READINGS];
    memcpy(other.h, h, sizeof other.h);
    cool(&other, &probe);
    return probe.core_c;
}

static void recover_stacks(int shops, double slack)
{
    unsigned long long seed = 11;
    shop_score score[DW_TEACH_STATES] = {{0}}, core = {0};
    for (int i = 0; i < shops; i++) {
        stack_shop shop;
        dw_teach_stack t;
        open_shop(&shop, &seed);
        misread(&shop, &seed);
        NEED(learn_stack(&shop, READINGS, &t));
        const dw_lesson *l[] = {&t.open_w_per_m2_k, &t.offset_w_per_m2_k,
                                &t.closed_w_per_m2_k};
        double before[DW_TEACH_STATES], after[DW_TEACH_STATES];
        for (int k = 0; k < DW_TEACH_STATES; k++) {
            shop_score_belief(&score[k], &l[k]->after, shop.h[k]);
            shop_score_belief(&core, &l[k]->after, shop.h[k]);
            before[k] = l[k]->prior.mean;
            after[k] = l[k]->after.mean;
        }
        double truth = shop.probes[READINGS].core_c;
        shop_score_error(&core, foretell(&shop, before) - truth,
                         foretell(&shop, after) - truth);
    }
    shop_check("stacks", &core, slack);
    for (int k = 0; k < DW_TEACH_STATES; k++)
        shop_check(dw_teach_state_words[k], &score[k], slack + 0.03);
}

TEST(stacks_are_recovered_from_ten_probes, DERIVED,
     "tests/reference, hidden coefficients, 8 shops")
{
    recover_stacks(8, 0.15);
}

TEST(long_stacks_are_recovered_from_ten_probes, DERIVED,
     "tests/reference, hidden coefficients, 200 shops")
{
    recover_stacks(200, 0);
}

TEST(one_wild_probe_moves_little_and_leaving_it_out_undoes_it, LIMIT, "teach.h")
{
    unsigned long long seed = 3;
    stack_shop shop;
    dw_teach_stack nine, ten, undone;
    open_shop(&shop, &seed);
    NEED(learn_stack(&shop, READINGS - 1, &nine));
    shop.probes[READINGS - 1].core_c = 24; /* soon after 10 degC and less */
    NEED(learn_stack(&shop, READINGS, &ten));
    SAME(ten.counts.doubted, 1);
    SAME(ten.marks[READINGS - 1].why, DW_TEACH_UNLIKE);
    const dw_lesson *l = &ten.offset_w_per_m2_k;
    NEAR(l->after.mean, l->before.mean, l->before.sd);
    NEAR(l->before.mean, nine.offset_w_per_m2_k.after.mean, 1e-9);
    shop.probes[READINGS - 1].left_out = true;
    NEED(learn_stack(&shop, READINGS, &undone));
    SAME(undone.counts.left_out, 1);
    NEAR(undone.offset_w_per_m2_k.after.mean, nine.offset_w_per_m2_k.after.mean,
         1e-9);
    NEAR(undone.closed_w_per_m2_k.after.high, nine.closed_w_per_m2_k.after.high,
         1e-9);
}

TEST(probes_in_fahrenheit_and_sensor_nonsense_are_refused, LIMIT, "teach.h")
{
    static const struct {
        double core;
        int why;
    } bad[] = {{55, DW_TEACH_FAHRENHEIT}, {-40, DW_TEACH_NO_SENSOR},
               {999, DW_TEACH_NO_SENSOR}, {-127, DW_TEACH_NO_SENSOR},
               {85, DW_TEACH_NO_SENSOR},  {-5, DW_TEACH_IMPOSSIBLE},
               {NAN, DW_TEACH_NO_SENSOR}};
    unsigned long long seed = 4;
    stack_shop shop;
    open_shop(&shop, &seed);
    for (size_t i = 0; i < DW_COUNT(bad); i++) {
        dw_teach_stack t;
        shop.probes[0].core_c = bad[i].core;
        NEED(learn_stack(&shop, 1, &t));
        SAME(t.counts.refused, 1);
        SAME(t.marks[0].why, bad[i].why);
        NEAR(t.open_w_per_m2_k.after.mean, t.open_w_per_m2_k.prior.mean, 1e-9);
    }
}

TEST(without_probes_the_trade_speaks, DERIVED,
     "quantiles of a lognormal by hand: 8 exp(+-1.645 x 0.3)")
{
    unsigned long long seed = 5;
    stack_shop shop;
    dw_teach_stack t;
    open_shop(&shop, &seed);
    NEED(learn_stack(&shop, 0, &t));
    NEAR(t.offset_w_per_m2_k.after.low, 4.884, 0.05);
    NEAR(t.offset_w_per_m2_k.after.high, 13.10, 0.15);
    NEAR(t.offset_w_per_m2_k.after.mean, 8.368, 0.05);
}

TEST(a_shops_own_setting_is_what_its_prior_lies_about, DERIVED,
     "quantiles of a lognormal by hand: 12 exp(+-1.645 x 0.3)")
{
    unsigned long long seed = 5;
    stack_shop shop;
    dw_teach_stack t;
    dw_err err;
    open_shop(&shop, &seed);
    dw_teach_stack_ask ask = stack_ask(&shop, 0);
    ask.has_offset_usual_w_per_m2_k = true;
    ask.offset_usual_w_per_m2_k = 12;
    dw_arena_init(&arena, block, sizeof block);
    NEED(dw_teach_stack_run(&ask, &arena, &t, &err) == DW_OK);
    NEAR(t.offset_w_per_m2_k.after.low, 7.326, 0.08);
    NEAR(t.offset_w_per_m2_k.after.high, 19.66, 0.2);
    NEAR(t.closed_w_per_m2_k.after.mean, 3.138, 0.02);
}

TEST(a_probe_of_another_dough_is_taken_with_its_own_formula, LIMIT,
     "told for one probe or for all, the same dough teaches the same")
{
    unsigned long long seed = 6;
    stack_shop shop;
    dw_teach_stack all, own;
    dw_err err;
    dw_line lines[4];
    open_shop(&shop, &seed);
    NEED(learn_stack(&shop, 3, &all));
    for (int i = 0; i < 3; i++) {
        shop.probes[i].has_formula = true;
        shop.probes[i].formula = stack_ask(&shop, 0).formula;
    }
    dw_teach_stack_ask ask = stack_ask(&shop, 3);
    ask.formula = shop_formula(lines, 5); /* nobody's */
    dw_arena_init(&arena, block, sizeof block);
    NEED(dw_teach_stack_run(&ask, &arena, &own, &err) == DW_OK);
    CHECK(own.offset_w_per_m2_k.after.mean == all.offset_w_per_m2_k.after.mean);
}

/* --- the room ---------------------------------------------------------- */

enum { LOG = 145 }; /* twelve hours, every five minutes */
typedef struct room_shop {
    double air_c, tau_h;
    double at_h[LOG], log_c[LOG];
    dw_teach_room_ask ask;
} room_shop;

/* Air in steps of ten seconds: restless about its rest, thrown up by a door
 * now and then; a thermometer with noise and one slip in a hundred. */
static void open_room(room_shop *room, unsigned long long *seed)
{
    double step = 10 / 3600.0, restless = dw_test_between(seed, 0.1, 0.4);
    room->air_c = shop_normal_within(seed, 3.5, 1.5, 3);
    room->tau_h = exp(shop_normal_within(seed, log(0.4), 0.6, 2.9));
    double air = room->air_c;
    double kick = restless * sqrt(2 * step / room->tau_h);
    for (int i = 0; i < LOG * 30; i++) {
        if (i % 30 == 0) {
            room->at_h[i / 30] = i * step;
            double noise = 0.1 * shop_normal(seed);
            if (dw_test_between(seed, 0, 1) < 0.01)
                noise += 6 * shop_normal(seed);
            room->log_c[i / 30] = air + noise;
        }
        air +=
            (room->air_c - air) * step / room->tau_h + kick * shop_normal(seed);
        if (dw_test_between(seed, 0, 1) < 0.7 * step)
            air += dw_test_between(seed, 1, 6);
    }
    room->ask = (dw_teach_room_ask){.at_h = room->at_h,
                                    .air_c = room->log_c,
                                    .at_h_count = LOG,
                                    .air_c_count = LOG};
}

static bool learn_room(const room_shop *room, dw_teach_room *out)
{
    dw_err err;
    dw_arena_init(&arena, block, sizeof block);
    dw_status status = dw_teach_room_run(&room->ask, &arena, out, &err);
    if (status != DW_OK)
        dw_test_fail(__FILE__, __LINE__, "%s %s", dw_status_code(status),
                     err.field);
    return status == DW_OK;
}

static void recover_rooms(int shops, double slack)
{
    unsigned long long seed = 21;
    shop_score air = {0}, tau = {0};
    for (int i = 0; i < shops; i++) {
        room_shop room;
        dw_teach_room t;
        open_room(&room, &seed);
        NEED(learn_room(&room, &t));
        shop_score_belief(&air, &t.air_c.after, room.air_c);
        shop_score_belief(&tau, &t.time_constant_h.after, room.tau_h);
        shop_score_error(&air, t.air_c.prior.mean - room.air_c,
                         t.air_c.after.mean - room.air_c);
        shop_score_error(&tau, log(t.time_constant_h.prior.mean / room.tau_h),
                         log(t.time_constant_h.after.mean / room.tau_h));
    }
    shop_check("air", &air, slack);
    shop_check("time constant", &tau, slack);
}

TEST(a_room_is_recovered_from_twelve_hours_of_log, DERIVED,
     "its own small simulation, 20 rooms")
{
    recover_rooms(20, 0.12);
}

TEST(long_a_room_is_recovered_from_twelve_hours_of_log, DERIVED,
     "its own small simulation, 300 rooms")
{
    recover_rooms(300, 0);
}

TEST(a_log_with_nonsense_teaches_what_it_teaches_without, LIMIT, "teach.h")
{
    unsigned long long seed = 31;
    room_shop room;
    dw_teach_room bad, without;
    open_room(&room, &seed);
    room.log_c[20] = -40;
    room.log_c[21] = 999;
    room.log_c[22] = 38.5; /* degF of a cold room */
    room.at_h[30] = room.at_h[25];
    NEED(learn_room(&room, &bad));
    SAME(bad.counts.refused, 4);
    SAME(bad.marks[0].index, 20);
    SAME(bad.marks[0].why, DW_TEACH_NO_SENSOR);
    SAME(bad.marks[2].why, DW_TEACH_FAHRENHEIT);
    int64_t left_out[] = {20, 21, 22, 30};
    room.ask.left_out = left_out;
    room.ask.left_out_count = 4;
    NEED(learn_room(&room, &without));
    SAME(without.counts.left_out, 4);
    NEAR(bad.air_c.after.mean, without.air_c.after.mean, 1e-12);
    NEAR(bad.time_constant_h.after.sd, without.time_constant_h.after.sd, 1e-12);
}

TEST(a_gap_is_told_and_lists_of_two_lengths_refused, LIMIT, "teach.h")
{
    unsigned long long seed = 32;
    room_shop room;
    dw_teach_room t;
    open_room(&room, &seed);
    for (int i = 100; i < LOG; i++)
        room.at_h[i] += 7;
    NEED(learn_room(&room, &t));
    int gaps = 0;
    for (size_t i = 0; i < t.marks_count; i++)
        gaps += t.marks[i].why == DW_TEACH_GAP && t.marks[i].index == 100;
    SAME(gaps, 1);
    dw_err err;
    room.ask.air_c_count--;
    SAME(dw_teach_room_run(&room.ask, &arena, &t, &err), DW_E_SUM);
}
