#include "doughwright/flour.h"
#include "doughwright/yeast.h"
#include "dw_csv.h"
#include "dw_test.h"

#include <stdlib.h>

/* A number in the middle of a cell: the first after `mark`. */
static double after(const char *cell, const char *mark)
{
    const char *at = strstr(cell, mark);
    return at ? strtod(at + strlen(mark), NULL) : NAN;
}

static void farinograph(const dw_csv *row, double bowl_g)
{
    double flour = dw_farinograph_flour_g(bowl_g, strtod(row->cells[1], NULL));
    double water = dw_farinograph_water_ml(bowl_g, flour, 62);
    NEAR(flour, strtod(row->cells[3], NULL), 5e-7);
    const char *mark = strstr(row->cells[3], "for 62 %") ? "62 %: " : "water ";
    NEAR(water, after(row->cells[3], mark), 5e-7);
    NEAR(dw_farinograph_absorption(bowl_g, flour, water), 62, 1e-9);
}

TEST(moisture_bases_convert_as_published_and_recomputed, PUBLISHED,
     "Iowa State Ext. PM 1625; USDA SR26 flours and AACC 54-21 recomputed: "
     "moisture_basis.csv")
{
    FILE *file = fopen(dw_test_data("moisture_basis.csv"), "r");
    NEED(file != NULL);
    dw_csv row;
    int rows = 0;
    for (dw_csv_row(file, &row); dw_csv_row(file, &row); rows++) {
        const char *what = row.cells[0];
        double from = strtod(row.cells[1], NULL);
        double want = strtod(row.cells[3], NULL);
        if (strstr(what, "farinograph 50"))
            farinograph(&row, 50);
        else if (strstr(what, "farinograph 300"))
            farinograph(&row, 300);
        else if (strstr(what, "at 14%"))
            NEAR(dw_flour_absorption_on_basis(62, 14, from), want, 5e-7);
        else if (strstr(what, "absorption"))
            NEAR(dw_flour_absorption_on_basis(60, from, 14), want, 5e-7);
        else
            NEAR(dw_flour_on_basis(strtod(what, NULL), from,
                                   strtod(row.cells[2], NULL)),
                 want, 5e-7);
        if (strstr(row.cells[4], "6.4)")) /* printed to one digit */
            NEAR(dw_flour_on_basis(6, from, 15), 6.4, 0.05);
    }
    fclose(file);
    SAME(rows, 11);
}

static dw_flour flour(const char *name, double share, double protein,
                      double moisture)
{
    return (dw_flour){name, true, share, protein, true, moisture, false, 0};
}

TEST(blend_of_8_and_14_2_percent_is_9_24, PUBLISHED,
     "baking forum worked example, case B11")
{
    dw_flour parts[] = {flour("soft", 80, 8, 14),
                        flour("strong", 20, 14.2, 14)};
    dw_blend blend;
    SAME(dw_flour_blend(parts, 2, 14, &blend, NULL), DW_OK);
    NEAR(blend.protein_percent, 9.24, 1e-9);
    NEAR(blend.protein_as_is_percent, 9.24, 1e-9);
}

TEST(pearson_square_of_two_flours, DERIVED,
     "USDA SR26 20481 and 20645, case B12, recomputed by hand")
{
    dw_flour pair[] = {flour("plain", 0, 10.33, 14),
                       flour("high", 0, 15.33, 14)};
    double share[2];
    SAME(dw_flour_pearson(pair, 13, 14, share, NULL), DW_OK);
    NEAR(share[0] / share[1], 2.33 / 2.67, 1e-9);
    NEAR(share[0], 46.6, 1e-9);
    NEAR(share[1], 53.4, 1e-9);
}

TEST(gluten_for_14_percent_of_the_blend, DERIVED,
     "USDA SR26 20083 and 48052, case B13, recomputed by hand")
{
    dw_gluten_need need;
    SAME(dw_gluten_for(11.98, 75.16, 14, &need, NULL), DW_OK);
    NEAR(need.gluten_percent, 3.3028, 5e-5);
    NEAR(need.share_percent, 3.1972, 5e-5);
}

TEST(three_points_more_is_5_gluten_and_7_5_water, PRACTICE,
     "common practice, no source")
{
    dw_gluten_need need;
    SAME(dw_gluten_for(11, 75, 14, &need, NULL), DW_OK);
    NEAR(need.rule_percent, 5, 1e-12);
    NEAR(1.5 * need.rule_percent, 7.5, 1e-12);
    NEAR(need.water_percent, 1.5 * need.gluten_percent, 1e-12);
}

TEST(pearson_and_blend_agree_whatever_the_moistures, LIMIT,
     "Pearson's shares blended back give the target")
{
    unsigned long long seed = 3;
    for (int i = 0; i < 500; i++) {
        dw_flour pair[] = {flour("a", 0, dw_test_between(&seed, 8, 11),
                                 dw_test_between(&seed, 9, 15)),
                           flour("b", 0, dw_test_between(&seed, 14, 17),
                                 dw_test_between(&seed, 9, 15))};
        double target = dw_test_between(&seed, 11.8, 12.8), share[2];
        SAME(dw_flour_pearson(pair, target, 12, share, NULL), DW_OK);
        pair[0].share_percent = share[0];
        pair[1].share_percent = share[1];
        dw_blend blend;
        SAME(dw_flour_blend(pair, 2, 12, &blend, NULL), DW_OK);
        NEAR(blend.protein_percent, target, 1e-9);
    }
}

TEST(a_protein_told_on_a_basis_is_told_as_it_is, DERIVED,
     "11.891505 on 14 % is 11.98 at 13.36 % (moisture_basis.csv, inverse)")
{
    dw_flour told = flour("bread", 100, 11.891505, 13.36);
    told.has_protein_basis_percent = true;
    told.protein_basis_percent = 14;
    NEAR(dw_flour_as_is(&told), 11.98, 1e-6);
    told.has_moisture_percent = false; /* then 14: nothing to convert */
    NEAR(dw_flour_as_is(&told), 11.891505, 1e-12);
}

TEST(blends_that_cannot_be_are_refused, LIMIT, "one clear error")
{
    dw_flour pair[] = {flour("a", 50, 10, 14), flour("b", 40, 13, 14)};
    dw_blend blend = {-1, -1, -1};
    double share[2] = {-1, -1};
    dw_err err;
    SAME(dw_flour_blend(pair, 2, 14, &blend, &err), DW_E_SUM);
    SAME_TEXT(err.field, "share_percent");
    SAME_TEXT(err.value, "90");
    CHECK(blend.protein_percent == -1);
    pair[1].has_share_percent = false;
    SAME(dw_flour_blend(pair, 2, 14, &blend, &err), DW_E_MISSING);
    SAME(dw_flour_pearson(pair, 14, 14, share, &err), DW_E_UNREACHABLE);
    CHECK(err.ranged && fabs(err.low - 10) < 1e-9 && share[0] == -1);
    NEAR(err.high, 13, 1e-9);
    dw_gluten_need need;
    SAME(dw_gluten_for(12, 75, 11, &need, &err), DW_E_UNREACHABLE);
    SAME(dw_gluten_for(12, 75, 75, &need, &err), DW_E_UNREACHABLE);
    SAME(dw_gluten_for(12, 75, NAN, &need, &err), DW_E_UNREACHABLE);
}

TEST(yeast_converts_one_to_0_45_to_0_35, PRACTICE, "common practice, no source")
{
    NEAR(dw_yeast_convert(&dw_yeast_usual, 1, DW_YEAST_FRESH,
                          DW_YEAST_ACTIVE_DRY),
         0.45, 1e-12);
    NEAR(dw_yeast_convert(&dw_yeast_usual, 1, DW_YEAST_FRESH, DW_YEAST_INSTANT),
         0.35, 1e-12);
    NEAR(dw_yeast_convert(&dw_yeast_usual, 0.35, DW_YEAST_INSTANT,
                          DW_YEAST_FRESH),
         1, 1e-12);
    dw_yeast_table own = {"our supplier", 1, 0.5, 0.4};
    NEAR(dw_yeast_convert(&own, 0.5, DW_YEAST_ACTIVE_DRY, DW_YEAST_INSTANT),
         0.4, 1e-12);
}
