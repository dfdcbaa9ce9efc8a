#include "dw_test.h"
#include "teach_shops.h"

enum { CUPS = 5, LOOKS = 2 };

static unsigned char block[32 << 20];
static dw_arena arena;

typedef struct yeast_shop {
    double strength, tmin;
    dw_line lines[4];
    dw_teach_cup_leg legs[CUPS][2];
    dw_teach_cup_reading looks[CUPS][LOOKS];
    dw_teach_cup cups[CUPS];
} yeast_shop;

static void mix(yeast_shop *shop, unsigned long long *seed)
{
    *shop = (yeast_shop){0};
    shop->strength = exp(shop_normal_within(seed, 0, 0.18, 3));
    shop->tmin = shop_normal_within(seed, -1, 0.6, 2.9);
    dw_formula formula = shop_formula(shop->lines, 0.4);
    for (int i = 0; i < CUPS; i++) {
        bool cold = i % 2;
        shop->legs[i][0] = (dw_teach_cup_leg){1, dw_test_between(seed, 22, 28)};
        shop->legs[i][1] =
            cold ? (dw_teach_cup_leg){47, dw_test_between(seed, 3, 5)}
                 : (dw_teach_cup_leg){3, shop->legs[i][0].temp_c};
        shop->looks[i][0].at_h = cold ? 24 : 1;
        shop->looks[i][1].at_h = cold ? 46 : 2;
        shop->cups[i] =
            (dw_teach_cup){formula, shop->legs[i], 2, shop->looks[i], LOOKS};
    }
}

/* What a ruler would read; `batch` is this batch's own strength. */
static void rise(const yeast_shop *shop, dw_teach_cup *cup, double batch)
{
    ball b = shop_ball(0.4);
    double y[12 * STATES], time = 0;
    b.held = 1;
    b.shells = 1;
    b.q30 = 16 * shop->strength * batch;
    b.gas_tmin = shop->tmin;
    b.mixed_c = cup->legs[0].temp_c;
    ball_start(&b, y);
    for (size_t look = 0, leg = 0; look < cup->readings_count; look++) {
        double end = cup->readings[look].at_h;
        double first = cup->legs[0].hours;
        if (leg == 0 && end > first) {
            y[TEMP] = cup->legs[0].temp_c;
            shop_follow(&b, y, first - time, 0.02);
            time = first;
            leg = 1;
        }
        y[TEMP] = cup->legs[leg].temp_c;
        shop_follow(&b, y, end - time, leg ? 0.05 : 0.02);
        time = end;
        cup->readings[look].volume_ratio = ball_swelling(&b, y);
    }
}

static void misread(dw_teach_cup *cup, unsigned long long *seed)
{
    for (size_t i = 0; i < cup->readings_count; i++) {
        double *ratio = &cup->readings[i].volume_ratio;
        *ratio *= exp(0.04 * shop_normal(seed));
        if (dw_test_between(seed, 0, 1) < 0.04)
            *ratio *= dw_test_between(seed, 0.6, 1.5);
    }
}

static bool learn_yeast(const dw_teach_yeast_ask *ask, dw_teach_yeast *out)
{
    dw_err err;
    dw_arena_init(&arena, block, sizeof block);
    dw_status status = dw_teach_yeast_run(ask, &arena, out, &err);
    if (status != DW_OK)
        dw_test_fail(__FILE__, __LINE__, "%s %s", dw_status_code(status),
                     err.field);
    return status == DW_OK;
}

static double cold_ratio(double strength, double tmin)
{
    double t = 4,
           usual = (t - 50) * 25 / (39 * (39 * (t - 38) + 12 * (37 - 2 * t)));
    double w = 38 - tmin, u = t - tmin;
    double here =
        (t - 50) * u * u / (w * (w * (t - 38) + 12 * (38 + tmin - 2 * t)));
    /* both against 30 degC */
    double at30 = (30 - 50.0) * 31 * 31 / (39 * (39 * -8.0 + 12 * (37 - 60)));
    double v = 30 - tmin;
    double here30 = -20.0 * v * v / (w * (w * -8.0 + 12 * (38 + tmin - 60)));
    return strength * here / here30 / (usual / at30);
}

static void recover_yeast(int shops, double slack)
{
    unsigned long long seed = 41;
    shop_score strength = {0}, cold = {0}, rate = {0};
    for (int i = 0; i < shops; i++) {
        yeast_shop shop;
        dw_teach_yeast t;
        mix(&shop, &seed);
        for (int k = 0; k < CUPS; k++) {
            rise(&shop, &shop.cups[k], exp(0.06 * shop_normal(&seed)));
            misread(&shop.cups[k], &seed);
        }
        dw_teach_yeast_ask ask = {.cups = shop.cups, .cups_count = CUPS};
        NEED(learn_yeast(&ask, &t));
        double truth = cold_ratio(shop.strength, shop.tmin);
        shop_score_belief(&strength, &t.activity.after, shop.strength);
        shop_score_belief(&cold, &t.f_Tmin.after, shop.tmin);
        shop_score_belief(&rate, &t.cold_ratio, truth);
        shop_score_error(&strength, t.activity.prior.mean - shop.strength,
                         t.activity.after.mean - shop.strength);
        shop_score_error(&cold, t.f_Tmin.prior.mean - shop.tmin,
                         t.f_Tmin.after.mean - shop.tmin);
        shop_score_error(&rate, log(truth), log(t.cold_ratio.mean / truth));
    }
    shop_check("activity", &strength, slack);
    shop_check("f_Tmin", &cold, slack);
    shop_check("rate at 4 degC", &rate, slack);
}

TEST(yeast_is_recovered_from_five_cups_read_twice, DERIVED,
     "tests/reference, hidden activity and cold rate, 10 shops")
{
    recover_yeast(10, 0.25);
}

TEST(long_yeast_is_recovered_from_five_cups_read_twice, DERIVED,
     "tests/reference, hidden activity and cold rate, 300 shops")
{
    recover_yeast(300, 0);
}

static double no_yeast(double batch, double temp_c)
{
    unsigned long long seed = 51;
    yeast_shop shop;
    dw_teach_yeast t;
    mix(&shop, &seed);
    shop.strength = 1;
    shop.tmin = -1;
    shop.legs[0][0].temp_c = temp_c;
    shop.looks[0][0].at_h = 0.75;
    shop.looks[0][1].at_h = 1;
    rise(&shop, &shop.cups[0], batch);
    dw_teach_yeast_ask ask = {.cups = shop.cups, .cups_count = 1};
    if (!learn_yeast(&ask, &t))
        return NAN;
    return t.cups[0].no_yeast_probability;
}

TEST(a_cup_finds_forgotten_yeast_within_the_hour, DERIVED,
     "tests/reference, 0.4 percent instant, looks at 45 and 60 minutes")
{
    CHECK(no_yeast(0, 32) > 0.98);
    CHECK(no_yeast(1, 32) < 0.001);
    CHECK(no_yeast(0, 28) > 0.85);
    CHECK(no_yeast(1, 28) < 0.01);
}

TEST(readings_of_a_cup_that_cannot_be_are_refused, LIMIT, "teach.h")
{
    unsigned long long seed = 61;
    yeast_shop shop;
    dw_teach_yeast t;
    mix(&shop, &seed);
    dw_teach_yeast_ask ask = {.cups = shop.cups, .cups_count = 1};
    shop.looks[0][0] = (dw_teach_cup_reading){2, 40, false};
    shop.looks[0][1] = (dw_teach_cup_reading){-1, 1.5, false};
    NEED(learn_yeast(&ask, &t));
    SAME(t.counts.refused, 2);
    SAME(t.cups[0].marks[0].why, DW_TEACH_IMPOSSIBLE);
    SAME(t.cups[0].marks[1].why, DW_TEACH_BACKWARDS);
    NEAR(t.activity.after.mean, t.activity.prior.mean, 1e-12);
    shop.legs[0][0].temp_c = 79; /* degF */
    NEED(learn_yeast(&ask, &t));
    SAME(t.cups[0].marks[0].why, DW_TEACH_FAHRENHEIT);
    NEAR(t.cups[0].no_yeast_probability, 0.02, 1e-12);
}

TEST(dough_called_blown_means_stronger_yeast_and_tight_weaker, LIMIT,
     "one verdict moves the mean by less than one standard deviation")
{
    yeast_shop shop;
    dw_leg legs[] = {{0.5, 22, 8}, {2, 3, 8}, {30, 3, 3}};
    static const int said[] = {1, 0, 4}; /* tight good blown */
    double mean[3];
    for (int i = 0; i < 3; i++) {
        dw_teach_yeast t;
        dw_teach_taste taste = {
            shop_formula(shop.lines, 0.4), 450, 26, legs, 3, said[i], false};
        dw_teach_yeast_ask ask = {.verdicts = &taste, .verdicts_count = 1};
        NEED(learn_yeast(&ask, &t));
        mean[i] = t.activity.after.mean;
        NEAR(mean[i], t.activity.prior.mean, t.activity.prior.sd);
        SAME(t.counts.used + t.counts.doubted, 1);
        taste.left_out = true;
        NEED(learn_yeast(&ask, &t));
        NEAR(t.activity.after.mean, t.activity.prior.mean, 1e-12);
    }
    CHECK(mean[0] < mean[1] && mean[1] < mean[2]);
}
