#include "doughwright/slip.h"
#include "dw_test.h"
#include "slip_cases.h"

static dw_line line(const char *material, int kind, double percent)
{
    return (dw_line){material, kind, percent, false, 0, false, 0};
}

enum { LINES = 6, WATER = 1, SALT, SUGAR, OIL, YEAST };

/* A sound thin dough, cold. */
static dw_formula thin(dw_line lines[LINES])
{
    lines[0] = line("flour", DW_FLOUR, 100);
    lines[WATER] = line("water", DW_WATER, 58);
    lines[SALT] = line("salt", DW_SALT, 1.75);
    lines[SUGAR] = line("sugar", DW_SUGAR, 2);
    lines[OIL] = line("oil", DW_FAT, 2);
    lines[YEAST] = line("instant yeast", DW_YEAST_INSTANT, 0.375);
    return (dw_formula){lines, LINES, NULL, 0};
}

static dw_slip slips[DW_SLIPS_MOST];

static size_t check_as(const dw_formula *f, int style, int process,
                       const dw_formula *norm)
{
    const dw_slip_basis basis = {style, process, norm, &dw_yeast_usual};
    size_t count = 0;
    SAME(dw_formula_slips(f, &basis, slips, &count, NULL), DW_OK);
    return count;
}

static size_t check(const dw_formula *f)
{
    return check_as(f, DW_THIN, DW_COLD, NULL);
}

TEST(a_sound_thin_dough_has_no_slips, PRACTICE, "common practice, no source")
{
    dw_line lines[LINES];
    dw_formula f = thin(lines);
    SAME(check(&f), 0);
}

TEST(instant_yeast_of_0_0375_is_a_tenfold_slip, PRACTICE,
     "common practice, no source")
{
    dw_line lines[LINES];
    dw_formula f = thin(lines);
    lines[YEAST].percent = 0.0375;
    NEED(check(&f) == 1);
    SAME(slips[0].code, DW_SLIP_TENTH);
    SAME(slips[0].level, DW_WRONG);
    SAME_TEXT(slips[0].material, "instant yeast");
    NEAR(slips[0].usual_low, 0.17, 1e-12);
    NEAR(slips[0].usual_high, 0.5, 1e-12);
    lines[YEAST].percent = 3.75;
    NEED(check(&f) == 1);
    SAME(slips[0].code, DW_SLIP_TENFOLD);
    SAME(slips[0].level, DW_WRONG);
}

/* Level of one line at a percent: -1 none, else dw_slip_level. */
static int level_at(int index, int kind, double percent)
{
    dw_line lines[LINES];
    dw_formula f = thin(lines);
    lines[index] = line("it", kind, percent);
    int level = -1;
    size_t count = check(&f);
    for (size_t i = 0; i < count; i++)
        if (slips[i].kind == kind && slips[i].code != DW_SLIP_TWO_YEASTS &&
            slips[i].level > level)
            level = slips[i].level;
    return level;
}

TEST(the_limits_of_the_trade_ask_and_call_wrong_where_it_says, PRACTICE,
     "common practice, no source: the trade's table for thin, cold dough")
{
    static const struct {
        int index, kind;
        double percent;
        int level;
    } cases[] = {
        {SALT, DW_SALT, 1.5, -1},
        {SALT, DW_SALT, 3.0, -1},
        {SALT, DW_SALT, 1.2, 0},
        {SALT, DW_SALT, 3.3, 0},
        {SALT, DW_SALT, 0.45, 1},
        {SALT, DW_SALT, 5.1, 1},
        {YEAST, DW_YEAST_INSTANT, 0.17, -1},
        {YEAST, DW_YEAST_INSTANT, 0.5, -1},
        {YEAST, DW_YEAST_INSTANT, 0.8, 0},
        {YEAST, DW_YEAST_INSTANT, 2.1, 1},
        {YEAST, DW_YEAST_INSTANT, 0.045, 1},
        {YEAST, DW_YEAST_FRESH, 0.5, -1},
        {YEAST, DW_YEAST_FRESH, 1.5, -1},
        {YEAST, DW_YEAST_FRESH, 2.2, 0},
        {YEAST, DW_YEAST_FRESH, 3.1, 1},
        {SUGAR, DW_SUGAR, 3, -1},
        {SUGAR, DW_SUGAR, 5.5, 0},
        {SUGAR, DW_SUGAR, 12.5, 1},
        {OIL, DW_FAT, 5, -1},
        {OIL, DW_FAT, 8.5, 0},
        {OIL, DW_FAT, 31, 1},
        {WATER, DW_WATER, 50, -1},
        {WATER, DW_WATER, 70, -1},
        {WATER, DW_WATER, 44, 0},
        {WATER, DW_WATER, 76, 0},
        {WATER, DW_WATER, 34, 1},
        {WATER, DW_WATER, 101, 1},
        {SUGAR, DW_MALT, 0.25, -1},
        {SUGAR, DW_MALT, 0.6, 0},
        {SUGAR, DW_MALT, 1.1, 1},
        {SUGAR, DW_GLUTEN, 3, -1},
        {SUGAR, DW_GLUTEN, 6, 0},
        {SUGAR, DW_GLUTEN, 9, 1},
        {SUGAR, DW_DOUGH, 16, -1}, /* 9.9 of the new dough */
        {SUGAR, DW_DOUGH, 30, 0},
        {SUGAR, DW_DOUGH, 90, 1},
    };
    for (size_t i = 0; i < DW_COUNT(cases); i++) {
        int got = level_at(cases[i].index, cases[i].kind, cases[i].percent);
        if (got != cases[i].level)
            dw_test_fail(__FILE__, __LINE__, "%s %g: level %d, not %d",
                         dw_line_kind_words[cases[i].kind], cases[i].percent,
                         got, cases[i].level);
    }
}

TEST(limits_belong_to_style_and_process, PRACTICE,
     "common practice, no source: cracker water, biscuit salt and fat, "
     "Neapolitan salt and fresh yeast, tray-style water, same-day yeast")
{
    dw_limits l;
    CHECK(dw_slip_limits(DW_CRACKER, DW_COLD, DW_WATER, &l) &&
          l.usual_low == 40 && l.usual_high == 45);
    CHECK(dw_slip_limits(DW_BISCUIT, DW_COLD, DW_SALT, &l) &&
          l.usual_low == 0.7 && l.usual_high == 1);
    CHECK(dw_slip_limits(DW_BISCUIT, DW_COLD, DW_FAT, &l) &&
          l.usual_low == 18 && l.usual_high == 25);
    CHECK(dw_slip_limits(DW_NEAPOLITAN, DW_COLD, DW_SALT, &l) &&
          l.usual_high == 3.2);
    CHECK(dw_slip_limits(DW_NEAPOLITAN, DW_COLD, DW_YEAST_FRESH, &l) &&
          l.usual_low < 0.17 && l.usual_high > 0.17);
    CHECK(dw_slip_limits(DW_ROMAN_TRAY, DW_COLD, DW_WATER, &l) &&
          l.usual_low <= 75 && l.usual_high >= 80);
    dw_slip_limits(DW_THIN, DW_SAME_DAY, DW_YEAST_INSTANT, &l);
    NEAR(l.usual_low, 0.17 * 1.5, 1e-12);
    NEAR(l.usual_high, 0.5 * 2, 1e-12);
    dw_slip_limits(DW_THIN, DW_EMERGENCY, DW_YEAST_INSTANT, &l);
    NEAR(l.usual_high, 0.5 * 4, 1e-12);
    dw_slip_limits(DW_THIN, DW_COLD, DW_YEAST_ACTIVE_DRY, &l);
    NEAR(l.usual_low, 0.17 * 1.3, 1e-12);
    CHECK(!dw_slip_limits(DW_THIN, DW_COLD, DW_FLOUR, &l));
}

TEST(an_instant_dose_under_a_fresh_label_is_seen_and_the_other_way, PRACTICE,
     "common practice, no source: fresh 1, instant 0.35")
{
    dw_line lines[LINES];
    dw_formula f = thin(lines);
    lines[YEAST] = line("fresh yeast", DW_YEAST_FRESH, 0.375);
    NEED(check(&f) == 1);
    SAME(slips[0].code, DW_SLIP_YEAST_TYPE);
    SAME(slips[0].other_kind, DW_YEAST_INSTANT);
    lines[YEAST] = line("instant yeast", DW_YEAST_INSTANT, 1.1);
    NEED(check(&f) == 1);
    SAME(slips[0].code, DW_SLIP_YEAST_TYPE);
    SAME(slips[0].other_kind, DW_YEAST_FRESH);
}

TEST(missing_swapped_and_repeated_lines_are_told, DERIVED, "worked by hand")
{
    dw_line lines[LINES + 1];
    dw_formula f = thin(lines);
    lines[SALT].percent = 0; /* a line of 0 is legal, but there is no salt */
    NEED(check(&f) == 1);
    SAME(slips[0].code, DW_SLIP_MISSING);
    SAME(slips[0].kind, DW_SALT);
    f.lines_count = YEAST; /* no yeast */
    lines[SALT].percent = 1.75;
    NEED(check(&f) == 1);
    SAME(slips[0].kind, DW_YEAST_INSTANT);
    SAME(slips[0].level, DW_WRONG);

    f = thin(lines);
    lines[SALT].percent = 0.5;
    lines[SUGAR].percent = 1.75;
    NEED(check(&f) == 1);
    SAME(slips[0].code, DW_SLIP_SWAPPED);
    SAME(slips[0].kind, DW_SALT);
    SAME_TEXT(slips[0].other, "sugar");

    f = thin(lines);
    lines[LINES] = line("Sea salt", DW_SALT, 0.25);
    f.lines_count = LINES + 1;
    NEED(check(&f) == 1);
    SAME(slips[0].code, DW_SLIP_REPEATED);
    lines[LINES] = line("fresh yeast", DW_YEAST_FRESH, 0.2);
    NEED(check(&f) == 1);
    SAME(slips[0].code, DW_SLIP_TWO_YEASTS);
    NEAR(slips[0].percent, 0.375 + 0.07, 1e-12);
    lines[LINES] = line("water", DW_WATER, 4); /* a second pour is common */
    SAME(check(&f), 0);
}

TEST(milk_counts_as_water_when_water_is_judged, DERIVED, "worked by hand")
{
    dw_line lines[LINES];
    dw_formula f = thin(lines);
    lines[WATER].percent = 30;
    SAME(check(&f), 1);
    lines[SUGAR] = line("whole milk", DW_DAIRY, 32);
    SAME(check(&f), 0); /* 30 + 28.2 */
}

TEST(an_accepted_formula_is_its_own_norm, DERIVED, "worked by hand")
{
    dw_line own[LINES], lines[LINES];
    dw_formula norm = thin(own), f = thin(lines);
    own[YEAST].percent = lines[YEAST].percent = 0.04;
    SAME(check(&f), 1); /* by style */
    SAME(check_as(&f, DW_THIN, DW_COLD, &norm), 0);
    lines[YEAST].percent = 0.4;
    NEED(check_as(&f, DW_THIN, DW_COLD, &norm) == 1);
    SAME(slips[0].code, DW_SLIP_TENFOLD);
    lines[YEAST].percent = 0.04;
    lines[OIL].percent = 0;
    NEED(check_as(&f, DW_THIN, DW_COLD, &norm) == 1);
    SAME(slips[0].code, DW_SLIP_MISSING);
    SAME(slips[0].kind, DW_FAT);
    own[0].percent = 90;
    const dw_slip_basis basis = {DW_THIN, DW_COLD, &norm, &dw_yeast_usual};
    size_t count = 99;
    dw_err err;
    SAME(dw_formula_slips(&f, &basis, slips, &count, &err), DW_E_SUM);
    SAME_TEXT(err.field, "norm.lines");
    SAME(count, 99);
}

TEST(three_pounds_for_three_ounces_is_told, PRACTICE,
     "common practice, no source")
{
    const double lb = 0.45359237, oz = lb / 16;
    static const struct {
        double planned, weighed;
        int code, level;
    } cases[] = {
        {3 * 0.45359237 / 16, 3 * 0.45359237, DW_WEIGHED_LB_FOR_OZ, DW_WRONG},
        {3, 3.0 / 16, DW_WEIGHED_OZ_FOR_LB, DW_WRONG},
        {10, 10 * 0.45359237, DW_WEIGHED_LB_FOR_KG, DW_WRONG},
        {4.5359237, 10, DW_WEIGHED_KG_FOR_LB, DW_WRONG},
        {0.017, 0.17, DW_WEIGHED_TENFOLD, DW_WRONG},
        {0.17, 0.017, DW_WEIGHED_TENTH, DW_WRONG},
        {0.017, 0.017 * 28.35, DW_WEIGHED_OZ_FOR_G, DW_WRONG},
        {0.5, 1, DW_WEIGHED_TWICE, DW_WRONG},
        {0.5, 0.52, DW_WEIGHED_FITS, DW_ASK},
        {0.5, 0.54, DW_WEIGHED_MORE, DW_ASK},
        {0.5, 0.35, DW_WEIGHED_LESS, DW_WRONG},
        {0.5, 0, DW_WEIGHED_LESS, DW_WRONG},
    };
    for (size_t i = 0; i < DW_COUNT(cases); i++) {
        dw_weighing w;
        SAME(dw_slip_weighed(cases[i].planned, cases[i].weighed, 0, &w, NULL),
             DW_OK);
        SAME(w.code, cases[i].code);
        SAME(w.level, cases[i].level);
    }
    dw_weighing w;
    /* a scale of quarter ounces cannot do better on half an ounce */
    SAME(dw_slip_weighed(0.6 * oz, 0.75 * oz, 0.25 * oz, &w, NULL), DW_OK);
    SAME(w.code, DW_WEIGHED_FITS);
    dw_err err;
    SAME(dw_slip_weighed(0, 1, 0, &w, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "planned_kg");
    SAME(dw_slip_weighed(1, NAN, 0, &w, &err), DW_E_RANGE);
    SAME(dw_slip_weighed(1, -1, 0, &w, &err), DW_E_RANGE);
}

TEST(most_planted_slips_are_caught_and_sound_formulas_left_alone, LIMIT,
     "criterion: 95 percent of tenfold, tenth and yeast type, 3 percent false")
{
    static const slip_plant plants[] = {PLANT_NONE, PLANT_TENFOLD, PLANT_TENTH,
                                        PLANT_FRESH_DRY};
    int tried = 0, caught = 0, alarms = 0;
    unsigned long long seed = 77;
    for (int i = 0; i < 400; i++) {
        slip_plant plant = plants[i % 4];
        slip_case c;
        dw_slip first;
        slip_case_draw(&seed, (i / 4) % (DW_ROMAN_TRAY + 1), DW_COLD, &c);
        if (plant == PLANT_NONE) {
            alarms += slip_case_caught(&c, &first);
            continue;
        }
        NEED(slip_case_plant(&seed, plant, &c));
        tried++;
        caught += slip_case_caught(&c, &first);
    }
    CHECK(caught >= 0.95 * tried);
    CHECK(alarms <= 0.03 * 100);
}
