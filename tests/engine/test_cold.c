#include "doughwright/cold.h"
#include "dw_test.h"

static dw_cold_stack common_stack(void)
{
    dw_cold_stack stack;
    dw_shape_preset(&dw_cold_stack_shape, &stack);
    stack.piece_g = 450;
    stack.dough_c = 27;
    stack.air_c = 3;
    return stack;
}

TEST(a_16_ounce_stack_closes_after_about_two_hours, PRACTICE,
     "common practice, no source: about 2 h at core 50-55 degF")
{
    dw_cold_stack stack = common_stack();
    dw_cold_close close;
    SAME(dw_shape_check(&dw_cold_stack_shape, &stack, NULL), DW_OK);
    SAME(dw_cold_close_time(&stack, &close, NULL), DW_OK);
    CHECK(close.from_h < 2.5 && close.by_h > 2);
    CHECK(close.rule_of_thumb);
}

TEST(close_times_follow_the_weight_of_the_ball, DERIVED,
     "exact series by an independent program, 27 into 3 degC, h 8")
{
    static const double rows[][3] = {
        {250, 104, 136}, {450, 136, 176}, {800, 176, 227}};
    for (size_t i = 0; i < DW_COUNT(rows); i++) {
        dw_cold_stack stack = common_stack();
        stack.piece_g = rows[i][0];
        stack.close_from_core_c = 12.8;
        dw_cold_close close;
        SAME(dw_cold_close_time(&stack, &close, NULL), DW_OK);
        NEAR(close.from_h * 60, rows[i][1], 1);
        NEAR(close.by_h * 60, rows[i][2], 1);
        CHECK(close.from_vapour_excess_pa > close.by_vapour_excess_pa);
        CHECK(close.by_vapour_excess_pa > 0);
    }
}

TEST(a_warm_cold_room_never_closes_a_stack, LIMIT, "cold.h")
{
    dw_cold_stack stack = common_stack();
    stack.air_c = 11;
    dw_cold_close close = {.from_h = -1};
    dw_err err;
    SAME(dw_cold_close_time(&stack, &close, &err), DW_E_UNREACHABLE);
    SAME_TEXT(err.field, "air_c");
    SAME_TEXT(err.value, "11");
    CHECK(close.from_h == -1);
    stack = common_stack();
    stack.close_by_core_c = 14;
    SAME(dw_cold_close_time(&stack, &close, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "close_by_core_c");
    stack = common_stack();
    stack.piece_g = 0;
    SAME(dw_cold_close_time(&stack, &close, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "piece_g");
}

TEST(colder_dough_closes_sooner_and_cold_dough_at_once, LIMIT, "monotony")
{
    double last = 1e9;
    for (double dough = 30; dough >= 13; dough -= 1) {
        dw_cold_stack stack = common_stack();
        stack.dough_c = dough;
        dw_cold_close close;
        SAME(dw_cold_close_time(&stack, &close, NULL), DW_OK);
        CHECK(close.from_h < last && close.by_h > close.from_h);
        last = close.from_h;
    }
    dw_cold_stack stack = common_stack();
    stack.dough_c = 9;
    dw_cold_close close;
    SAME(dw_cold_close_time(&stack, &close, NULL), DW_OK);
    CHECK(close.from_h == 0 && close.by_h == 0);
}

TEST(balls_temper_in_the_time_the_trade_quotes, PRACTICE,
     "common practice, no source: 20 min to 2.5 h")
{
    dw_cold_bench bench;
    dw_shape_preset(&dw_cold_bench_shape, &bench);
    bench.piece_g = 400;
    bench.core_c = 4;
    bench.room_c = 24;
    dw_cold_temper temper;
    dw_err err;
    SAME(dw_cold_temper_time(&bench, &temper, &err), DW_OK);
    CHECK(temper.usable_from_h > 20 / 60. && temper.usable_from_h < 2.5);
    CHECK(temper.has_warm_h && temper.warm_h > temper.usable_from_h);
    NEAR(temper.end_h, 3, 0);
    bench.room_c = 14;
    SAME(dw_cold_temper_time(&bench, &temper, &err), DW_OK);
    CHECK(!temper.has_warm_h);
    bench.room_c = 9;
    SAME(dw_cold_temper_time(&bench, &temper, &err), DW_E_UNREACHABLE);
    bench.core_c = 12;
    SAME(dw_cold_temper_time(&bench, &temper, &err), DW_OK);
    CHECK(temper.usable_from_h == 0);
}

TEST(days_of_the_shop_with_the_mixing_day_as_day_0, PRACTICE,
     "common practice, no source: ready 1, best 2, fine 3, blowing 4")
{
    dw_cold_days days;
    dw_shape_preset(&dw_cold_days_shape, &days);
    SAME(dw_cold_days_check(&days, NULL), DW_OK);
    SAME(dw_cold_readiness(&days, 0), DW_NOT_YET);
    SAME(dw_cold_readiness(&days, 1), DW_READY);
    SAME(dw_cold_readiness(&days, 2), DW_BEST);
    SAME(dw_cold_readiness(&days, 3), DW_USE_FIRST);
    SAME(dw_cold_readiness(&days, 4), DW_PAST);
    dw_err err;
    days.best_day = 0;
    SAME(dw_cold_days_check(&days, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "best_day");
}

TEST(freezing_meat, PUBLISHED,
     "Hundy, Trott & Welch, Refrigeration and Air-Conditioning, ex. 18.6")
{
    dw_cold_load load;
    dw_shape_preset(&dw_cold_load_shape, &load);
    load.dough_kg = 90000;
    load.over_h = 24;
    load.start_c = 2;
    load.end_c = -12;
    load.cp_j_per_kg_k = 3200;
    load.has_freezing_c = true;
    load.freezing_c = -1;
    load.latent_j_per_kg = 225000;
    load.frozen_cp_j_per_kg_k = 1630;
    dw_cold_heat heat;
    SAME(dw_cold_load_heat(&load, &heat, NULL), DW_OK);
    NEAR(heat.mean_w / 1000, 263, 0.5);
    CHECK(!heat.has_peak_w);
}

TEST(freezing_cookie_dough, PUBLISHED,
     "refrigeration text, 10,000 lb/h: 921,000 Btu/h = 76.75 tons")
{
    const double lb = 0.45359237, btu = 1055.05585262, btu_lb = btu / lb;
    dw_cold_load load;
    dw_shape_preset(&dw_cold_load_shape, &load);
    load.dough_kg = 10000 * lb;
    load.over_h = 1;
    load.start_c = 33 / 1.8;
    load.end_c = -17 / 1.8;
    load.cp_j_per_kg_k = 0.75 * btu_lb * 1.8;
    load.has_freezing_c = true;
    load.freezing_c = -6 / 1.8;
    load.latent_j_per_kg = 59 * btu_lb;
    load.frozen_cp_j_per_kg_k = 0.35 * btu_lb * 1.8;
    dw_cold_heat heat;
    SAME(dw_cold_load_heat(&load, &heat, NULL), DW_OK);
    NEAR(heat.heat_j / btu, 921000, 1);
    NEAR(heat.mean_w * 3600 / btu / 12000, 76.75, 0.001);
}

TEST(two_hundred_kilos_of_dough_and_their_first_peak, DERIVED,
     "by hand: 12,696 kJ, 1.176 kW over 3 h, 2.23 kW for 444 balls of 450 g")
{
    dw_cold_load load;
    dw_shape_preset(&dw_cold_load_shape, &load);
    load.dough_kg = 200;
    load.over_h = 3;
    load.start_c = 27;
    load.end_c = 4;
    load.piece_g = 450;
    dw_cold_heat heat;
    SAME(dw_shape_check(&dw_cold_load_shape, &load, NULL), DW_OK);
    SAME(dw_cold_load_heat(&load, &heat, NULL), DW_OK);
    NEAR(heat.heat_j / 1000, 12696, 1e-6);
    NEAR(heat.mean_w, 1176, 1);
    NEAR(heat.peak_w, 2230, 10);
    dw_err err;
    load.end_c = 30;
    SAME(dw_cold_load_heat(&load, &heat, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "end_c");
    load.end_c = -10;
    load.has_freezing_c = true;
    load.freezing_c = -3;
    SAME(dw_cold_load_heat(&load, &heat, &err), DW_E_MISSING);
    SAME_TEXT(err.field, "latent_j_per_kg");
}
