#include "dw_test.h"
#include "life_cases.h"

#include "doughwright/mishap.h"
#include "doughwright/room.h"

static unsigned char block[16 << 20];

static dw_arena fresh_arena(void)
{
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    return arena;
}

/* ---- mishaps ---- */

typedef struct mishap_case {
    life_case doughs[3];
    dw_mishap_stack stacks[3];
    dw_mishap_ask ask;
    dw_mishap_reply reply;
} mishap_case;

/* 0.4 % instant, open 2.5 h, closed; 8, 40 and 80 h old. */
static void stacks_of_three_ages(mishap_case *m, int kind, double hours)
{
    static const char *const names[] = {"young", "ripe", "old"};
    const double closed_h[] = {5.5, 37.5, 77.5};
    memset(m, 0, sizeof *m);
    dw_shape_preset(&dw_mishap_ask_shape, &m->ask);
    for (int i = 0; i < 3; i++) {
        life_case *c = &m->doughs[i];
        case_start(c, 0.4);
        case_leg(c, 2.5, 3, 8);
        case_leg(c, closed_h[i], 3, 3);
        m->stacks[i] =
            (dw_mishap_stack){names[i], 10, c->request.formula, 450,  25,
                              c->legs,  2,  {1, 3, 3},          NULL, 0};
    }
    m->ask.stacks = m->stacks;
    m->ask.stacks_count = 3;
    m->ask.members = 0;
    m->ask.mishap = (dw_mishap){
        .kind = kind, .hours = hours, .time_constant_h = 10, .recover_h = 1};
}

static void with_air(mishap_case *m, double air_c)
{
    m->ask.mishap.has_air_c = true;
    m->ask.mishap.air_c = air_c;
}

static void foresee(mishap_case *m)
{
    dw_arena arena = fresh_arena();
    dw_err err = {0};
    if (dw_mishap_foresee(&m->ask, &arena, &m->reply, &err) != DW_OK)
        dw_test_fail(__FILE__, __LINE__, "%s %s", err.field, err.value);
}

TEST(an_hour_in_a_warm_van_is_an_hour_leg_of_the_life, DERIVED,
     "the same legs written by hand into the life")
{
    mishap_case m;
    stacks_of_three_ages(&m, DW_MISHAP_VAN, 1.5);
    with_air(&m, 28);
    foresee(&m);
    for (int i = 0; i < 3; i++) {
        life_case *c = &m.doughs[i];
        const dw_mishap_fate *fate = &m.reply.fates[i];
        c->request.dough_c = 25;
        case_leg(c, 1.5, 28, 3);
        case_run(c);
        NEAR(fate->core_c, c->reply.core_c[c->reply.core_c_count - 1], 0.01);
        NEAR(fate->age_h, c->legs[0].hours + c->legs[1].hours + 1.5, 1e-9);
        case_leg(c, 1, 3, 3);
        case_run(c);
        NEAR(fate->now.end_h, c->reply.window.end_h, 0.02);
        c->request.legs_count = 2;
        case_run(c);
        NEAR(fate->planned.end_h, c->reply.window.end_h, 0.02);
        CHECK(fate->now.end_h < fate->planned.end_h);
    }
}

TEST(a_mishap_of_the_past_is_put_where_it_was, DERIVED,
     "the same legs written by hand: warm from 6 to 2 h ago")
{
    mishap_case m;
    stacks_of_three_ages(&m, DW_MISHAP_WARM_ROOM, 4);
    with_air(&m, 14);
    m.ask.mishap.from_h = -6;
    m.ask.stacks_count = 2;
    foresee(&m);
    life_case *c = &m.doughs[1];
    c->request.dough_c = 25;
    c->legs[1].hours = 37.5 - 6;
    case_leg(c, 4, 14, 3);
    case_leg(c, 2, 3, 3);
    case_run(c);
    NEAR(m.reply.fates[1].now.end_h, c->reply.window.end_h, 0.02);
    NEAR(m.reply.fates[1].age_h, 40, 1e-9);
    NEAR(m.reply.fates[1].core_c, c->reply.core_c[c->reply.core_c_count - 1],
         0.02);
}

TEST(a_power_cut_warms_the_shut_room_by_its_own_time_constant, DERIVED,
     "exp curve cut by hand into legs of 0.1 h")
{
    mishap_case m;
    stacks_of_three_ages(&m, DW_MISHAP_POWER_CUT, 8);
    m.ask.mishap.has_outside_c = true;
    m.ask.mishap.outside_c = 30;
    m.ask.stacks_count = 2;
    foresee(&m);
    static dw_leg legs[200];
    life_case *c = &m.doughs[1];
    size_t n = 0;
    legs[n++] = c->legs[0];
    legs[n++] = c->legs[1];
    for (int i = 0; i < 80; i++)
        legs[n++] = (dw_leg){0.1, 30 - 27 * exp(-(0.1 * i + 0.05) / 10), 3};
    c->request.dough_c = 25;
    c->request.legs = legs;
    c->request.legs_count = n;
    c->request.step_scale = 0.1;
    case_run(c);
    NEAR(m.reply.fates[1].core_c, c->reply.core_c[c->reply.core_c_count - 1],
         0.03);
    double warm_c = 30 - 27 * exp(-0.8);
    for (int i = 0; i < 40; i++)
        legs[n++] = (dw_leg){0.1, 3 + (warm_c - 3) * exp(-(0.1 * i + 0.05)), 3};
    legs[n++] = (dw_leg){1, 3, 3};
    c->request.legs_count = n;
    case_run(c);
    NEAR(m.reply.fates[1].now.end_h, c->reply.window.end_h, 0.05);
}

TEST(nothing_happens_when_the_room_stays_cold, LIMIT,
     "a warm room as warm as ever, a power cut where it is as cold outside")
{
    mishap_case m;
    stacks_of_three_ages(&m, DW_MISHAP_WARM_ROOM, 12);
    with_air(&m, 3);
    foresee(&m);
    for (int i = 0; i < 3; i++)
        NEAR(m.reply.fates[i].now.end_h, m.reply.fates[i].planned.end_h, 0.02);
    stacks_of_three_ages(&m, DW_MISHAP_POWER_CUT, 12);
    m.ask.mishap.has_outside_c = true;
    m.ask.mishap.outside_c = 3;
    foresee(&m);
    for (int i = 0; i < 3; i++)
        NEAR(m.reply.fates[i].now.end_h, m.reply.fates[i].planned.end_h, 0.02);
}

TEST(the_longer_the_power_is_away_the_worse_for_every_stack, LIMIT,
     "monotony; the old go first; boxes are all counted")
{
    double before[3] = {1e9, 1e9, 1e9};
    for (double hours = 1; hours < 40; hours *= 2) {
        mishap_case m;
        stacks_of_three_ages(&m, DW_MISHAP_POWER_CUT, hours);
        m.ask.mishap.has_outside_c = true;
        m.ask.mishap.outside_c = 26;
        foresee(&m);
        for (int i = 0; i < 3; i++) {
            NEED(m.reply.fates[i].now.has_end_h);
            CHECK(m.reply.fates[i].now.end_h <= before[i] + 0.02);
            before[i] = m.reply.fates[i].now.end_h;
            CHECK(i == 0 ||
                  m.reply.fates[i].verdict >= m.reply.fates[i - 1].verdict);
        }
        SAME(m.reply.saved_boxes + m.reply.use_first_boxes + m.reply.past_boxes,
             30);
        CHECK(hours > 1 || m.reply.fates[0].verdict == DW_FATE_SAVED);
        CHECK(hours < 30 || m.reply.fates[2].verdict == DW_FATE_PAST);
    }
}

TEST(dough_on_the_bench_does_not_feel_the_cold_room, LIMIT,
     "a room touches what was planned to be in it")
{
    mishap_case m;
    stacks_of_three_ages(&m, DW_MISHAP_WARM_ROOM, 2);
    with_air(&m, 20);
    m.ask.mishap.from_h = -3;
    m.ask.stacks_count = 1;
    m.doughs[0].legs[0] = (dw_leg){3, 21, 8};
    m.stacks[0].legs_count = 1;
    foresee(&m);
    NEAR(m.reply.fates[0].now.end_h, m.reply.fates[0].planned.end_h, 0.02);
}

TEST(a_verdict_is_sure_only_when_the_band_agrees, LIMIT,
     "early and late lives about the end")
{
    int sure = 0, unsure = 0;
    for (double hours = 1; hours < 24; hours += 3) {
        mishap_case m;
        stacks_of_three_ages(&m, DW_MISHAP_LEFT_OUT, hours);
        with_air(&m, 24);
        m.ask.members = 21;
        foresee(&m);
        for (int i = 0; i < 3; i++) {
            const dw_mishap_fate *f = &m.reply.fates[i];
            bool past = f->band.end_h.has_p95 && f->band.end_h.p95 <= f->age_h;
            CHECK(f->has_band);
            CHECK(!past || (f->sure && f->verdict == DW_FATE_PAST));
            sure += f->sure;
            unsure += !f->sure;
        }
    }
    CHECK(sure > 0 && unsure > 0);
}

static void refused(mishap_case *m, dw_status status, const char *field)
{
    dw_err err = {0};
    dw_arena arena = fresh_arena();
    SAME(dw_mishap_foresee(&m->ask, &arena, &m->reply, &err), status);
    SAME_TEXT(err.field, field);
}

TEST(a_mishap_that_cannot_be_is_refused_by_name, LIMIT,
     "bad input: field, value, range; degF typed as degC")
{
    mishap_case m;
    stacks_of_three_ages(&m, DW_MISHAP_WARM_ROOM, 2);
    refused(&m, DW_E_MISSING, "mishap.air_c");
    with_air(&m, 41); /* degF */
    refused(&m, DW_E_RANGE, "mishap.air_c");
    with_air(&m, 14);
    m.stacks[1].then.air_c = 38; /* degF */
    refused(&m, DW_E_RANGE, "stacks[1].then.air_c");
    m.stacks[1].then.air_c = 3;
    m.ask.mishap.from_h = -100;
    refused(&m, DW_E_RANGE, "stacks[0].mishap.from_h");
    m.ask.mishap.from_h = 0;
    m.doughs[2].legs[1].hours = 400;
    refused(&m, DW_E_RANGE, "stacks[2].legs.hours");
    m.ask.mishap.kind = DW_MISHAP_POWER_CUT;
    refused(&m, DW_E_MISSING, "mishap.outside_c");
}

/* ---- a log ---- */

static dw_status legs_of(dw_room_reading *readings, size_t count,
                         dw_room_history *history, dw_err *err)
{
    dw_room_log log;
    dw_arena arena = fresh_arena();
    dw_shape_preset(&dw_room_log_shape, &log);
    log.readings = readings;
    log.readings_count = count;
    dw_status status = dw_shape_check(&dw_room_log_shape, &log, err);
    return status == DW_OK ? dw_room_legs(&log, &arena, history, err) : status;
}

TEST(a_log_becomes_legs_of_its_means, DERIVED, "trapezoids by hand")
{
    dw_room_reading r[] = {{10, 2}, {10.2, 4}, {10.4, 4}, {11, 10}, {11.1, 2}};
    dw_room_history got = {0};
    SAME(legs_of(r, DW_COUNT(r), &got, NULL), DW_OK);
    SAME(got.legs_count, 3);
    NEAR(got.legs[0].hours, 0.4, 1e-12);
    NEAR(got.legs[0].air_c, 3.5, 1e-9);
    NEAR(got.legs[1].hours, 0.6, 1e-12);
    NEAR(got.legs[1].air_c, 7, 1e-9);
    NEAR(got.legs[2].air_c, 6, 1e-9);
    NEAR(got.hours, 1.1, 1e-9);
    NEAR(got.mean_c, (0.4 * 3.5 + 0.6 * 7 + 0.1 * 6) / 1.1, 1e-9);
    NEAR(got.warmest_c, 10, 0);
    NEAR(got.coldest_c, 2, 0);
}

TEST(a_log_with_nonsense_is_refused_by_its_line, LIMIT,
     "gaps, time running back, -40, 999, degF typed as degC")
{
    dw_err err;
    dw_room_history got;
    dw_room_reading back[] = {{0, 3}, {0.5, 3}, {0.4, 3}};
    SAME(legs_of(back, 3, &got, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "readings[2].at_h");
    SAME_TEXT(err.value, "0.4");
    NEAR(err.low, 0.5, 0);
    dw_room_reading still[] = {{0, 3}, {0, 3}};
    SAME(legs_of(still, 2, &got, &err), DW_E_RANGE);
    dw_room_reading gap[] = {{0, 3}, {0.5, 3}, {7, 3}};
    SAME(legs_of(gap, 3, &got, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "readings[2].at_h");
    NEAR(err.high, 1.5, 0);
    const double nonsense[] = {-40, 999, 85, -127};
    for (size_t i = 0; i < DW_COUNT(nonsense); i++) {
        dw_room_reading bad[] = {{0, 3}, {0.5, nonsense[i]}, {1, 3}};
        SAME(legs_of(bad, 3, &got, &err), DW_E_RANGE);
        SAME_TEXT(err.field, "readings[1].air_c");
    }
    dw_room_reading degf[] = {{0, 38}, {0.5, 37}, {1, 41}};
    SAME(legs_of(degf, 3, &got, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "readings[0].air_c");
}

/* ---- balls put into a room ---- */

static dw_room_load load_of(life_case *c, double capacity_w)
{
    dw_room_load load = {.life = c->request,
                         .balls = 444,
                         .capacity_w = capacity_w,
                         .outside_c = 25,
                         .time_constant_h = 10,
                         .heat_capacity_j_per_k = 1.5e6};
    return load;
}

static dw_room_carry carry_of(const dw_room_load *load)
{
    dw_arena arena = fresh_arena();
    dw_room_carry carry = {0};
    dw_err err = {0};
    if (dw_room_carry_load(load, &arena, &carry, &err) != DW_OK)
        dw_test_fail(__FILE__, __LINE__, "%s %s", err.field, err.value);
    return carry;
}

TEST(just_loaded_the_room_takes_out_what_the_balls_give, DERIVED,
     "by hand: 444 balls of 450 g, 27 into 3 degC at h 8, 2.23 kW at density "
     "1130, here 1150; walls 1.5e6 J/K / 10 h x 22 K")
{
    life_case c;
    case_start(&c, 0);
    c.request.dough_c = 27;
    case_leg(&c, 12, 3, 8);
    dw_room_load load = load_of(&c, 1e5);
    dw_room_carry carry = carry_of(&load);
    double walls_w = 1.5e6 / 36000 * 22;
    NEAR(carry.now_w - walls_w, 2230 * pow(1130 / 1150., 2 / 3.), 10);
    CHECK(carry.peak_w == carry.now_w && !carry.is_short);
    CHECK(carry.warm_h == 0);
    NEAR(carry.warmest_c, 3, 1e-9);
    /* 199.8 kg from 27 to 3 degC */
    NEAR(carry.heat_j, 199.8 * 2770 * 24, 0.02 * carry.heat_j);
    NEAR(carry.held.end_h, carry.found.end_h, 0.05);
}

/* Two lumps, the balls and the room, by small steps of the classic fourth-order
 * method; light balls of 2 g have one temperature each. */
static void two_lumps(const dw_room_load *load, double ball_j_per_k,
                      double area_m2, double at_h, double t[2])
{
    double ua = load->heat_capacity_j_per_k / (load->time_constant_h * 3600);
    double ha = (double)load->balls * 8 * area_m2;
    double balls = (double)load->balls * ball_j_per_k;
    double dt = 1;
    for (double s = 0; s < at_h * 3600; s += dt) {
        double k[4][2], at[2] = {t[0], t[1]};
        for (int i = 0; i < 4; i++) {
            double q = ha * (at[0] - at[1]);
            double w = q + ua * (load->outside_c - at[1]) + load->other_w;
            double machine = at[1] > 3              ? load->capacity_w
                             : w < load->capacity_w ? w
                                                    : load->capacity_w;
            k[i][0] = -q / balls;
            k[i][1] = (w - machine) / load->heat_capacity_j_per_k;
            double part = i == 2 ? dt : dt / 2;
            at[0] = t[0] + part * k[i][0];
            at[1] = t[1] + part * k[i][1];
        }
        for (int i = 0; i < 2; i++)
            t[i] += dt / 6 * (k[0][i] + 2 * k[1][i] + 2 * k[2][i] + k[3][i]);
    }
}

TEST(a_room_too_small_warms_as_two_lumps_do, DERIVED,
     "balls so small that each has one temperature, against an independent "
     "integration of two lumps: 0.15 K")
{
    life_case c;
    case_start(&c, 0);
    c.request.piece_g = 2;
    c.request.dough_c = 27;
    case_leg(&c, 6, 3, 8);
    dw_room_load load = load_of(&c, 1200);
    load.balls = 100000;
    dw_composition parts;
    dw_thermal dough;
    SAME(dw_piece_composition(&c.request.formula, &parts, NULL), DW_OK);
    SAME(dw_piece_thermal(&parts, 0, 15, &dough, NULL), DW_OK);
    double radius = cbrt(0.75 / 3.14159265358979 * 0.002 / (1250 * 0.92));
    double area = 4 * 3.14159265358979 * radius * radius;
    dw_room_carry carry = carry_of(&load);
    CHECK(carry.is_short && carry.warmest_c > 6);
    double t[2] = {27, 3};
    for (size_t i = 1; i < carry.time_h_count; i++) {
        two_lumps(&load, 0.002 * dough.cp_j_per_kg_k, area,
                  carry.time_h[i] - carry.time_h[i - 1], t);
        NEAR(carry.room_c[i], t[1], 0.15);
    }
}

TEST(a_smaller_machine_makes_a_warmer_room_and_older_dough, LIMIT,
     "monotony in capacity; the held window does not depend on it")
{
    double warmest = 0, end = 1e9, held = 0;
    for (double capacity_w = 3000; capacity_w > 1100; capacity_w -= 400) {
        life_case c;
        case_start(&c, 0.4);
        case_leg(&c, 0.5, 22, 8);
        case_leg(&c, 24, 3, 8);
        dw_room_load load = load_of(&c, capacity_w);
        dw_room_carry carry = carry_of(&load);
        CHECK(carry.warmest_c >= warmest);
        CHECK(carry.found.end_h <= end + 0.02);
        CHECK(held == 0 || carry.held.end_h == held);
        CHECK(carry.is_short == (carry.warmest_c > 3.001));
        for (size_t i = 0; i < carry.machine_w_count; i++)
            CHECK(carry.machine_w[i] <= capacity_w);
        warmest = carry.warmest_c;
        end = carry.found.end_h;
        held = carry.held.end_h;
    }
    CHECK(warmest > 5);
}

TEST(what_the_balls_lose_the_room_and_its_machine_get, LIMIT,
     "energy: balls + walls - machine = what the room holds, within 2 %")
{
    life_case c;
    case_start(&c, 0.4);
    case_leg(&c, 24, 3, 8);
    dw_room_load load = load_of(&c, 1300);
    dw_room_carry carry = carry_of(&load);
    double ua = load.heat_capacity_j_per_k / 36000, sum = 0, balls = 0;
    size_t last = carry.time_h_count - 1;
    for (size_t i = 0; i < last; i++) {
        double dt = 3600 * (carry.time_h[i + 1] - carry.time_h[i]);
        double in = 0.5 * (carry.balls_w[i] + carry.balls_w[i + 1]);
        double room = 0.5 * (carry.room_c[i] + carry.room_c[i + 1]);
        double out = 0.5 * (carry.machine_w[i] + carry.machine_w[i + 1]);
        sum += dt * (in + ua * (25 - room) - out);
        balls += dt * in;
    }
    double kept = load.heat_capacity_j_per_k * (carry.room_c[last] - 3);
    NEAR(sum, kept, 0.02 * balls);
}

TEST(a_load_that_cannot_be_followed_is_refused_by_name, LIMIT,
     "bad input: field, value, range")
{
    life_case c;
    dw_err err;
    dw_room_carry carry;
    dw_arena arena = fresh_arena();
    case_start(&c, 0.4);
    case_leg(&c, 24, 38, 8); /* degF */
    dw_room_load load = load_of(&c, 3000);
    SAME(dw_room_carry_load(&load, &arena, &carry, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "life.legs.air_c");
    c.legs[0] = (dw_leg){60, 3, 8};
    SAME(dw_room_carry_load(&load, &arena, &carry, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "life.legs.hours");
    c.legs[0].hours = 24;
    load.capacity_w = 500; /* walls take 917 W */
    SAME(dw_room_carry_load(&load, &arena, &carry, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "capacity_w");
    NEAR(err.low, 1.5e6 / 36000 * 22, 1e-6);
    load.capacity_w = 3000;
    load.heat_capacity_j_per_k = 5000; /* films pass 93 W/K x 120 s */
    SAME(dw_room_carry_load(&load, &arena, &carry, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "heat_capacity_j_per_k");
    NEAR(err.low, 11000, 500);
    load.life.has_dough_c = false;
    SAME(dw_room_carry_load(&load, &arena, &carry, &err), DW_E_MISSING);
    SAME_TEXT(err.field, "life.dough_c");
}
