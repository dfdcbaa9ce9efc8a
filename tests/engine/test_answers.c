#include "dw_test.h"
#include "life_cases.h"

#include "doughwright/answers.h"
#include "doughwright/cold.h"
#include "engine/find.h"

static unsigned char block[8 << 20];

static dw_arena fresh_arena(void)
{
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    return arena;
}

/* ---- the search ---- */

typedef struct fall {
    double at;
    bool endless; /* no number above 2 */
    int asked;
} fall;

static dw_status cube(void *owner, double x, double *gap, dw_err *err)
{
    fall *f = owner;
    (void)err;
    f->asked++;
    *gap = f->at - x * x * x;
    if (f->endless && *gap > 2)
        *gap = INFINITY;
    return DW_OK;
}

static dw_find__search search_for(fall *f, double least, double most)
{
    return (dw_find__search){.gap = cube,
                             .owner = f,
                             .least = least,
                             .most = most,
                             .guess = least + 0.3 * (most - least),
                             .per_gap = 0.1,
                             .within = 1e-9,
                             .gap_within = 1e-12};
}

TEST(a_cube_comes_to_a_number_at_its_cube_root, DERIVED,
     "cube roots by hand, few askings, also where there is no number")
{
    for (int endless = 0; endless < 2; endless++) {
        fall f = {.at = 64, .endless = endless};
        dw_find__search search = search_for(&f, 0, 10);
        double x = 0;
        SAME(dw_find__nought(&search, &x, NULL), DW_OK);
        NEAR(x, 4, 2e-9);
        CHECK(f.asked <= 24);
    }
    fall out = {.at = 64};
    double x = 0;
    dw_find__search above = search_for(&out, 5, 10);
    SAME(dw_find__nought(&above, &x, NULL), DW_E_UNREACHABLE);
    dw_find__search below = search_for(&out, 0, 3.9);
    SAME(dw_find__nought(&below, &x, NULL), DW_E_UNREACHABLE);
}

/* ---- dough temperature ---- */

/* 0.4 % instant, on the bench, open in the cold, closed. */
static void cold_dough(life_case *c, double dough_c)
{
    case_start(c, 0.4);
    c->request.dough_c = dough_c;
    case_leg(c, 0.5, 22, 8);
    case_leg(c, 2.5, 3, 8);
    case_leg(c, 60, 3, 3);
}

static dw_status find_warmth(life_case *c, int mark, double wanted_h,
                             dw_warmth_reply *found, dw_err *err)
{
    dw_arena arena = fresh_arena();
    const dw_warmth_ask ask = {c->request, mark, wanted_h};
    return dw_answer_warmth(&ask, &arena, found, err);
}

TEST(the_dough_temperature_found_is_the_one_it_came_from, LIMIT,
     "there and back: 15 to 29 degC, best from and end")
{
    for (double dough_c = 15; dough_c < 30; dough_c += 4.75)
        for (int mark = 1; mark <= 4; mark += 3) {
            life_case c;
            dw_warmth_reply found = {0};
            cold_dough(&c, dough_c);
            case_run(&c);
            double at_h =
                mark == 1 ? c.reply.window.best_from_h : c.reply.window.end_h;
            SAME(find_warmth(&c, mark, at_h, &found, NULL), DW_OK);
            NEAR(found.dough_c, dough_c, 0.01);
        }
}

TEST(a_moment_no_dough_temperature_brings_is_refused_with_what_can_be, LIMIT,
     "bad input: field, value, range")
{
    life_case c;
    dw_err err;
    dw_warmth_reply found;
    cold_dough(&c, 25);
    SAME(find_warmth(&c, 1, 4, &found, &err), DW_E_UNREACHABLE);
    SAME_TEXT(err.field, "wanted_h");
    SAME_TEXT(err.value, "4");
    CHECK(err.ranged && err.low > 4 && err.high > err.low);
    c.request.hold_temperature = true;
    SAME(find_warmth(&c, 1, 40, &found, &err), DW_E_CONFLICT);
}

/* ---- closing ---- */

static dw_close_ask closing_of(life_case *c)
{
    dw_close_ask ask;
    dw_shape_preset(&dw_close_ask_shape, &ask);
    ask.life = c->request;
    return ask;
}

static dw_close_reply close_of(const dw_close_ask *ask)
{
    dw_arena arena = fresh_arena();
    dw_close_reply reply = {0};
    SAME(dw_answer_close(ask, &arena, &reply, NULL), DW_OK);
    return reply;
}

TEST(a_stack_without_yeast_closes_when_the_exact_series_says, DERIVED,
     "series of heat conduction for a sphere, 250 to 800 g, h 8: 0.5 min")
{
    for (double piece_g = 250; piece_g <= 800; piece_g += 275) {
        life_case c;
        case_start(&c, 0);
        c.request.piece_g = piece_g;
        c.request.dough_c = 27;
        c.request.model.void_percent = 0.1;
        case_leg(&c, 1, 3, 8);
        dw_composition parts;
        dw_thermal dough;
        SAME(dw_piece_composition(&c.request.formula, &parts, NULL), DW_OK);
        SAME(dw_piece_thermal(&parts, 0.001, 15, &dough, NULL), DW_OK);
        dw_cold_stack series = {piece_g,
                                27,
                                3,
                                8,
                                1250 * 0.999,
                                dough.cp_j_per_kg_k,
                                dough.k_w_per_m_k,
                                115 / 9.,
                                10};
        dw_cold_close exact;
        SAME(dw_cold_close_time(&series, &exact, NULL), DW_OK);
        dw_close_ask ask = closing_of(&c);
        dw_close_reply got = close_of(&ask);
        NEAR(got.from_h.at_h, exact.from_h, 0.5 / 60);
        NEAR(got.by_h.at_h, exact.by_h, 0.5 / 60);
        series.h_w_per_m2_k = 10;
        SAME(dw_cold_close_time(&series, &exact, NULL), DW_OK);
        NEAR(got.by_h.early_h, exact.by_h, 0.5 / 60);
    }
}

TEST(the_stack_closes_after_about_two_hours, PRACTICE,
     "common practice, no source: core 50-55 degF after about 2 h in a "
     "36-40 degF room")
{
    life_case c;
    case_start(&c, 0.4);
    c.request.piece_g = 250;
    case_leg(&c, 1, 3, 8);
    dw_close_ask ask = closing_of(&c);
    dw_close_reply got = close_of(&ask);
    CHECK(got.from_h.at_h > 1.5 && got.from_h.at_h < 2.5);
    CHECK(got.by_h.at_h > got.from_h.at_h && got.by_h.at_h < 3);
}

TEST(fermentation_keeps_the_core_warm_longer, LIMIT,
     "heat made inside: more yeast, later; more bench, counted from the mixer")
{
    double before = 0;
    for (double instant = 0; instant <= 2; instant += 0.5) {
        life_case c;
        case_start(&c, instant);
        case_leg(&c, 0.5, 24, 8);
        case_leg(&c, 1, 3, 8);
        dw_close_ask ask = closing_of(&c);
        dw_close_reply got = close_of(&ask);
        CHECK(got.by_h.at_h > before);
        CHECK(got.by_h.early_h < got.by_h.at_h);
        CHECK(got.by_h.late_h > got.by_h.at_h);
        before = got.by_h.at_h;
    }
}

TEST(the_sooner_it_is_closed_the_sooner_it_is_ready, LIMIT,
     "closed warm, it stays warm")
{
    life_case c;
    case_start(&c, 0.4);
    case_leg(&c, 1, 3, 8);
    dw_close_ask ask = closing_of(&c);
    dw_close_reply got = close_of(&ask);
    CHECK(got.closed_from.has_end_h && got.closed_by.has_end_h);
    CHECK(got.closed_from.end_h < got.closed_by.end_h);
    CHECK(got.closed_from.best_from_h < got.closed_by.best_from_h);
}

TEST(a_stack_that_never_gets_cold_enough_is_refused, LIMIT, "bad input")
{
    dw_err err;
    dw_close_reply reply;
    life_case c;
    case_start(&c, 0.4);
    case_leg(&c, 1, 9.9, 8);
    dw_close_ask ask = closing_of(&c);
    dw_arena arena = fresh_arena();
    ask.close_by_core_c = 5;
    SAME(dw_answer_close(&ask, &arena, &reply, &err), DW_E_UNREACHABLE);
    SAME_TEXT(err.field, "life.legs.air_c");
    SAME_TEXT(err.value, "9.9");
    ask.close_by_core_c = 14;
    SAME(dw_answer_close(&ask, &arena, &reply, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "close_by_core_c");
    c.legs[0].air_c = 21;
    ask.close_by_core_c = 10;
    SAME(dw_answer_close(&ask, &arena, &reply, &err), DW_E_MISSING);
    SAME_TEXT(err.field, "life.legs");
}

/* ---- pulling ---- */

static dw_pull_ask pulling_of(life_case *c, double opening_h, double room_c)
{
    dw_pull_ask ask;
    dw_shape_preset(&dw_pull_ask_shape, &ask);
    ask.life = c->request;
    ask.opening_h = opening_h;
    ask.room_c = room_c;
    return ask;
}

static double core_at_opening(const life_case *c, double pull_h,
                              double opening_h, const dw_leg *room)
{
    life_case own = *c;
    own.request.legs = own.legs;
    size_t last = own.request.legs_count - 1;
    double cold_from_h = 0;
    for (size_t i = 0; i < last; i++)
        cold_from_h += own.legs[i].hours;
    own.legs[last].hours = pull_h - cold_from_h;
    case_leg(&own, opening_h - pull_h, room->air_c, room->h_w_per_m2_k);
    case_run(&own);
    return own.reply.core_c[own.reply.core_c_count - 1];
}

TEST(balls_pulled_as_told_are_as_warm_as_wanted, LIMIT,
     "there and back: 50 and 60 degF at opening, three rooms, from a day on")
{
    for (double room_c = 18; room_c <= 30; room_c += 6)
        for (double opening_h = 12; opening_h < 80; opening_h += 22) {
            life_case c;
            cold_dough(&c, 25);
            dw_pull_ask ask = pulling_of(&c, opening_h, room_c);
            dw_pull_reply got = {0};
            dw_arena arena = fresh_arena();
            SAME(dw_answer_pull(&ask, &arena, &got, NULL), DW_OK);
            const dw_leg room = {0, room_c, 8}, windy = {0, room_c, 10};
            NEAR(core_at_opening(&c, got.by_h.at_h, opening_h, &room), 10,
                 0.02);
            NEAR(core_at_opening(&c, got.by_h.late_h, opening_h, &windy), 10,
                 0.02);
            CHECK(got.has_from_h);
            NEAR(core_at_opening(&c, got.from_h.at_h, opening_h, &room),
                 140 / 9., 0.02);
            CHECK(got.from_h.at_h < got.pull_h && got.pull_h < got.by_h.at_h);
            CHECK(got.core_c > 10 && got.core_c < 140 / 9.);
        }
}

TEST(balls_need_an_hour_or_two_on_the_bench, PRACTICE,
     "common practice, no source: tempering 1 to 3 h")
{
    life_case c;
    cold_dough(&c, 25);
    dw_pull_ask ask = pulling_of(&c, 48, 22);
    dw_pull_reply got = {0};
    dw_arena arena = fresh_arena();
    SAME(dw_answer_pull(&ask, &arena, &got, NULL), DW_OK);
    CHECK(48 - got.by_h.at_h > 0.75 && 48 - got.from_h.at_h < 4);
}

TEST(a_cool_room_has_no_too_soon_and_a_cold_one_no_answer, LIMIT,
     "core never above 13 degC in a room of 13; never 10 in one of 9")
{
    life_case c;
    dw_err err;
    dw_pull_reply got = {0};
    cold_dough(&c, 25);
    dw_arena arena = fresh_arena();
    dw_pull_ask ask = pulling_of(&c, 40, 13);
    SAME(dw_answer_pull(&ask, &arena, &got, NULL), DW_OK);
    CHECK(!got.has_from_h);
    NEAR(got.pull_h, got.by_h.early_h, 0);
    ask.room_c = 9;
    SAME(dw_answer_pull(&ask, &arena, &got, &err), DW_E_UNREACHABLE);
    SAME_TEXT(err.field, "room_c");
    ask = pulling_of(&c, 2, 22);
    SAME(dw_answer_pull(&ask, &arena, &got, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "opening_h");
    cold_dough(&c, 3.5);
    c.legs[0].hours = 1e-6;
    c.legs[1].hours = 1e-6;
    ask = pulling_of(&c, 0.3, 22);
    SAME(dw_answer_pull(&ask, &arena, &got, &err), DW_E_UNREACHABLE);
    SAME_TEXT(err.field, "opening_h");
    c.legs[2].air_c = 20;
    SAME(dw_answer_pull(&ask, &arena, &got, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "life.legs.air_c");
}

/* ---- another shop ---- */

static dw_shop_ways shop_of(unsigned long long *seed, dw_leg *legs)
{
    double room_c = dw_test_between(seed, 18, 25);
    legs[0] = (dw_leg){dw_test_between(seed, 0.1, 0.4), room_c, 8};
    legs[1] = (dw_leg){2.5, dw_test_between(seed, 3, 4), 8};
    legs[2] = (dw_leg){60, legs[1].air_c, 3};
    return (dw_shop_ways){
        .flour_kg = dw_test_between(seed, 10, 50),
        .flour_c = room_c,
        .room_c = room_c,
        .tap_c = dw_test_between(seed, 12, 20),
        .bowl_kg = dw_test_between(seed, 0, 30),
        .work_j_per_kg_dough = dw_test_between(seed, 8000, 18000),
        .legs = legs,
        .legs_count = 3,
        .elevation_m = dw_test_between(seed, 0, 1000),
    };
}

static void go_and_come_back(dw_transfer_turn turn, unsigned long long seed)
{
    life_case c;
    dw_leg here[3], there[3];
    dw_err err = {0};
    double percent = dw_test_between(&seed, 0.4, 0.55);
    case_start(&c, percent);
    dw_transfer_ask ask;
    dw_shape_preset(&dw_transfer_ask_shape, &ask);
    ask.formula = c.request.formula;
    ask.piece_g = dw_test_between(&seed, 200, 600);
    ask.dough_c = dw_test_between(&seed, 22, 26);
    ask.here = shop_of(&seed, here);
    ask.there = shop_of(&seed, there);
    ask.turn = (int)turn;
    ask.earliest_cold_use_h = 0; /* the yeast decides */
    ask.members = 0;
    dw_transfer_reply went = {0}, came = {0};
    dw_arena arena = fresh_arena();
    SAME(dw_answer_transfer(&ask, &arena, &went, &err), DW_OK);
    NEAR(went.there.window.best_from_h, went.here.best_from_h, 0.01);
    dw_transfer_ask back = ask;
    back.here = ask.there;
    back.there = ask.here;
    c.lines[4].percent = went.percent;
    back.dough_c = went.dough_c;
    SAME(dw_answer_transfer(&back, &arena, &came, &err), DW_OK);
    NEAR(came.percent / percent, 1, 1e-3);
    NEAR(came.dough_c, ask.dough_c, 0.02);
    NEAR(came.there_water.water_c, went.here_water.water_c, 0.1);
    NEAR(came.there_water.ice_kg, went.here_water.ice_kg,
         0.002 * ask.here.flour_kg);
}

TEST(a_formula_that_goes_and_comes_back_is_the_one_that_went, LIMIT,
     "there and back, 20 pairs of shops, by yeast")
{
    for (unsigned long long seed = 1; seed <= 20; seed++)
        go_and_come_back(DW_TRANSFER_YEAST, seed);
}

TEST(the_same_by_dough_temperature_where_that_is_enough, LIMIT,
     "there and back, shops alike but for mixer, tap and half a degree")
{
    life_case c;
    dw_leg here[3], there[3];
    unsigned long long seed = 5;
    case_start(&c, 0.4);
    dw_transfer_ask ask;
    dw_shape_preset(&dw_transfer_ask_shape, &ask);
    ask.formula = c.request.formula;
    ask.piece_g = 450;
    ask.dough_c = 25;
    ask.here = shop_of(&seed, here);
    ask.there = ask.here;
    memcpy(there, here, sizeof there);
    there[1].air_c += 0.5;
    there[2].air_c += 0.5;
    ask.there.legs = there;
    ask.there.tap_c = 8;
    ask.there.work_j_per_kg_dough = 9000;
    ask.turn = DW_TRANSFER_DOUGH_C;
    ask.members = 0;
    dw_transfer_reply went = {0}, came = {0};
    dw_arena arena = fresh_arena();
    SAME(dw_answer_transfer(&ask, &arena, &went, NULL), DW_OK);
    CHECK(went.dough_c < 25); /* a warmer room wants a cooler dough */
    NEAR(went.percent, 0.4, 0);
    dw_transfer_ask back = ask;
    back.here = ask.there;
    back.there = ask.here;
    back.dough_c = went.dough_c;
    SAME(dw_answer_transfer(&back, &arena, &came, NULL), DW_OK);
    NEAR(came.dough_c, 25, 0.02);
}

TEST(the_same_shop_asks_for_the_same_dough, LIMIT, "no way, no change")
{
    life_case c;
    dw_leg legs[3];
    unsigned long long seed = 9;
    case_start(&c, 0.4);
    dw_transfer_ask ask;
    dw_shape_preset(&dw_transfer_ask_shape, &ask);
    ask.formula = c.request.formula;
    ask.piece_g = 450;
    ask.dough_c = 25;
    ask.here = ask.there = shop_of(&seed, legs);
    ask.members = 0;
    dw_transfer_reply got = {0};
    dw_arena arena = fresh_arena();
    SAME(dw_answer_transfer(&ask, &arena, &got, NULL), DW_OK);
    NEAR(got.percent, 0.4, 1e-6);
    NEAR(got.here_water.water_c, got.there_water.water_c, 1e-9);
}

TEST(a_moment_that_yeast_does_not_decide_does_not_travel, LIMIT,
     "ready waits for the shop's earliest use in the cold")
{
    life_case c;
    dw_leg legs[3];
    dw_err err;
    unsigned long long seed = 9;
    case_start(&c, 0.4);
    dw_transfer_ask ask;
    dw_shape_preset(&dw_transfer_ask_shape, &ask);
    ask.formula = c.request.formula;
    ask.piece_g = 450;
    ask.dough_c = 25;
    ask.here = ask.there = shop_of(&seed, legs);
    ask.mark = 0;
    ask.earliest_cold_use_h = 20;
    dw_transfer_reply got;
    dw_arena arena = fresh_arena();
    SAME(dw_answer_transfer(&ask, &arena, &got, &err), DW_E_UNREACHABLE);
    SAME_TEXT(err.field, "mark");
    ask.mark = 4;
    ask.there.work_j_per_kg_dough = 200000;
    ask.there.flour_c = 50;
    SAME(dw_answer_transfer(&ask, &arena, &got, &err), DW_E_UNREACHABLE);
    SAME_TEXT(err.field, "there.goal_c");
    c.request.formula.lines_count = 4;
    ask.formula = c.request.formula;
    SAME(dw_answer_transfer(&ask, &arena, &got, &err), DW_E_SUM);
    SAME_TEXT(err.field, "formula.lines");
}

/* ---- emergency dough ---- */

static dw_hurry_ask hurry_of(life_case *c, double usable_in_h)
{
    dw_hurry_ask ask;
    dw_shape_preset(&dw_hurry_ask_shape, &ask);
    case_start(c, 0.4);
    case_formula(c, 60, 2, 4, DW_YEAST_INSTANT, 0.4);
    ask.formula = c->request.formula;
    ask.piece_g = 450;
    ask.usable_in_h = usable_in_h;
    ask.members = 0;
    return ask;
}

TEST(emergency_dough_in_an_hour_is_as_the_model_of_it_says, DERIVED,
     "independent program, coupled: 1.5 % instant, 4 % sugar, 35 degC: ready "
     "1.0 h")
{
    life_case c;
    dw_hurry_ask ask = hurry_of(&c, 1.15);
    dw_hurry_reply got = {0};
    dw_arena arena = fresh_arena();
    SAME(dw_answer_hurry(&ask, &arena, &got, NULL), DW_OK);
    CHECK(got.warmer);
    NEAR(got.dough_c, 34, 1);
    NEAR(got.life.window.ready_h, 1.15, 1e-3);
}

TEST(an_emergency_dough_of_known_yeast_has_a_narrower_band, LIMIT,
     "answers.h: the ranges go into the life")
{
    life_case c;
    dw_hurry_ask ask = hurry_of(&c, 1.5);
    dw_hurry_reply usual = {0}, known = {0};
    dw_life_range ranges[] = {{"q30", 15.8, 16.2}, {"f_Tmin", -1.1, -0.9}};
    dw_arena arena = fresh_arena();
    ask.members = 21;
    SAME(dw_answer_hurry(&ask, &arena, &usual, NULL), DW_OK);
    ask.ranges = ranges;
    ask.ranges_count = 2;
    SAME(dw_answer_hurry(&ask, &arena, &known, NULL), DW_OK);
    const dw_band_moment *wide = &usual.life.band.window.ready_h;
    const dw_band_moment *narrow = &known.life.band.window.ready_h;
    CHECK(narrow->p95 - narrow->p05 < wide->p95 - wide->p05);
}

TEST(emergency_dough_is_practice_s_dough, PRACTICE,
     "common practice, no source: instant yeast two to four times the usual "
     "0.375 %, 85-95 degF, usable in 60-120 min, life 90 min to 6 h")
{
    for (double hours = 1.15; hours <= 2; hours += 0.3) {
        life_case c;
        dw_hurry_ask ask = hurry_of(&c, hours);
        dw_hurry_reply got = {0};
        dw_arena arena = fresh_arena();
        SAME(dw_answer_hurry(&ask, &arena, &got, NULL), DW_OK);
        CHECK(got.percent <= 2 && got.percent >= 0.375);
        CHECK(got.dough_c <= 35);
        CHECK(got.life.window.end_h > 1.5 && got.life.window.end_h < 7);
        NEAR(got.life.window.ready_h, hours, 1e-3);
    }
}

TEST(with_time_yeast_alone_is_enough, LIMIT,
     "less yeast the longer it may take")
{
    double before = 100;
    for (double hours = 3; hours <= 9; hours += 1.5) {
        life_case c;
        dw_hurry_ask ask = hurry_of(&c, hours);
        dw_hurry_reply got = {0};
        dw_arena arena = fresh_arena();
        SAME(dw_answer_hurry(&ask, &arena, &got, NULL), DW_OK);
        CHECK(!got.warmer && got.percent < before);
        NEAR(got.life.window.ready_h, hours, 1e-3);
        before = got.percent;
    }
}

TEST(what_no_yeast_and_warmth_can_do_is_refused_with_the_soonest, LIMIT,
     "bad input: field, value, range")
{
    life_case c;
    dw_err err;
    dw_hurry_ask ask = hurry_of(&c, 0.5);
    dw_hurry_reply got;
    dw_arena arena = fresh_arena();
    SAME(dw_answer_hurry(&ask, &arena, &got, &err), DW_E_UNREACHABLE);
    SAME_TEXT(err.field, "usable_in_h");
    CHECK(err.ranged && err.low > 0.8 && err.low < 1.2);
    ask.dough_most_c = 20;
    SAME(dw_answer_hurry(&ask, &arena, &got, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "dough_most_c");
}
