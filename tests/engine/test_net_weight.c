#include "doughwright/net_weight.h"
#include "dw_csv.h"
#include "dw_test.h"

#include <stdlib.h>

static dw_net_weight_reply checked(int rule, double label_kg, int64_t lot,
                                   double *contents_kg, size_t count)
{
    dw_net_weight_request request = {rule, label_kg, lot, contents_kg, count};
    dw_net_weight_reply reply = {0};
    dw_err err;
    SAME(dw_net_weight_check(&request, &err, &reply), DW_OK);
    return reply;
}

static double cell(const dw_csv *row, int at)
{
    return strtod(row->cells[at], NULL);
}

static void look_at_allowed(const dw_csv *row)
{
    double over_g = cell(row, 0), to_g = cell(row, 1), allowed_g = cell(row, 4);
    if (strstr(row->cells[4], "10%")) {
        NEAR(dw_net_weight_us_allowed_kg(to_g / 1000), to_g / 1e4, 1e-9);
    } else if (strstr(row->cells[4], "2%")) {
        NEAR(dw_net_weight_us_allowed_kg(30), 0.6, 1e-9);
    } else {
        NEAR(dw_net_weight_us_allowed_kg(to_g / 1000), allowed_g / 1000, 1e-9);
        NEAR(dw_net_weight_us_allowed_kg((over_g + 0.5) / 1000),
             allowed_g / 1000, 1e-9);
    }
}

TEST(a_package_may_be_short_by_the_table_of_the_us, PUBLISHED,
     "Handbook 133, from memory, grams equal truncated pounds: "
     "hb133_mav_weight_from_memory.csv")
{
    SAME(dw_csv_each("hb133_mav_weight_from_memory.csv", look_at_allowed), 34);
    NEAR(dw_net_weight_us_allowed_kg(0.250), 0.0127, 1e-9);
    NEAR(dw_net_weight_us_allowed_kg(16 * 0.028349523125), 0.0199, 1e-9);
}

static void look_at_tolerable(const dw_csv *row)
{
    NEAR(dw_net_weight_eu_tolerable_kg(cell(row, 0) / 1000) * 1000,
         cell(row, 1), 1e-6);
}

TEST(a_package_may_be_short_by_the_table_of_the_eu, PUBLISHED,
     "76/211/EEC annex I, shares rounded up to 0.1 g: eu_tne_vectors.csv")
{
    SAME(dw_csv_each("eu_tne_vectors.csv", look_at_tolerable), 14);
}

/* Two values a kilogram apart about the label: s is known. */
static void look_at_sample(const dw_csv *row)
{
    int64_t from = (int64_t)cell(row, 0), needed = (int64_t)cell(row, 2);
    double contents_kg[48];
    if (needed < 2)
        return;
    for (int64_t i = 0; i < needed; i++)
        contents_kg[i] = 10 + (i % 2 == 0 ? 0.1 : -0.1);
    dw_net_weight_reply reply = checked(DW_NET_WEIGHT_US_HANDBOOK_133, 10, from,
                                        contents_kg, (size_t)needed);
    CHECK(reply.enough);
    SAME(reply.packages_needed, needed);
    SAME(reply.short_allowed, (int64_t)cell(row, 5));
    NEAR(reply.mean_limit_kg / reply.deviation_kg, cell(row, 3), 1e-9);
}

TEST(a_lot_is_sampled_as_category_a_says, PUBLISHED,
     "Handbook 133 category A, recomputed from Student t: hb133_category_a.csv")
{
    SAME(dw_csv_each("hb133_category_a.csv", look_at_sample), 14);
}

TEST(a_lot_just_below_its_label_passes_and_one_2_5_g_lower_fails, DERIVED,
     "worked by hand: 250 g, errors of mean -0.5 g and deviation 2.286323 g; "
     "SEL 0.635 x that is 1.451815 g")
{
    const double errors_g[] = {1.5, -2,  0.5, 3,    -1, -4.5,
                               2,   -.5, 1,   -3.5, 0,  -2.5};
    double contents_kg[12], lower_kg[12];
    for (size_t i = 0; i < 12; i++) {
        contents_kg[i] = 0.250 + errors_g[i] / 1000;
        lower_kg[i] = contents_kg[i] - 0.0025;
    }
    dw_net_weight_reply reply =
        checked(DW_NET_WEIGHT_US_HANDBOOK_133, 0.25, 200, contents_kg, 12);
    NEAR(reply.mean_error_kg, -0.0005, 1e-9);
    NEAR(reply.deviation_kg, 0.002286323, 1e-9);
    NEAR(reply.mean_limit_kg, 0.001451815, 1e-9);
    CHECK(reply.passes);
    reply = checked(DW_NET_WEIGHT_US_HANDBOOK_133, 0.25, 200, lower_kg, 12);
    NEAR(reply.mean_error_kg, -0.003, 1e-9);
    SAME(reply.short_count, 0);
    CHECK(!reply.mean_passes && reply.singles_pass && !reply.passes);
}

static void fill(double *contents_kg, size_t count, double kg)
{
    for (size_t i = 0; i < count; i++)
        contents_kg[i] = kg + (i % 2 == 0 ? 1e-4 : -1e-4);
}

TEST(the_reference_test_counts_short_packages, PUBLISHED,
     "SI 2006/659 schedule 2: a lot of 400, 50 packages, accept 3, reject 4; "
     "mean of 30 by 0.503 s; label 250 g, tolerable 9 g")
{
    double contents_kg[50];
    fill(contents_kg, 50, 0.2512);
    for (size_t i = 40; i < 43; i++)
        contents_kg[i] = 0.2405; /* below 241 g */
    dw_net_weight_reply reply =
        checked(DW_NET_WEIGHT_EU_76_211, 0.25, 400, contents_kg, 50);
    SAME(reply.short_count, 3);
    NEAR(reply.mean_limit_kg / reply.deviation_kg, 0.503, 1e-9);
    CHECK(reply.passes && !reply.own_short_passes);
    contents_kg[44] = 0.2409;
    reply = checked(DW_NET_WEIGHT_EU_76_211, 0.25, 400, contents_kg, 50);
    CHECK(!reply.singles_pass && !reply.passes);
    contents_kg[44] = 0.2512;
    contents_kg[40] = 0.2315; /* below 232 g: not even one */
    reply = checked(DW_NET_WEIGHT_EU_76_211, 0.25, 400, contents_kg, 50);
    SAME(reply.very_short_count, 1);
    CHECK(!reply.passes && !reply.own_very_short_passes);
}

TEST(too_few_packages_give_no_verdict, LIMIT, "the rule's sample is needed")
{
    double contents_kg[600];
    fill(contents_kg, 600, 0.26);
    dw_net_weight_reply reply =
        checked(DW_NET_WEIGHT_EU_76_211, 0.25, 400, contents_kg, 20);
    CHECK(reply.mean_passes && reply.singles_pass);
    CHECK(!reply.enough && !reply.passes);
    dw_net_weight_request request = {DW_NET_WEIGHT_EU_76_211, 0.25, 1000,
                                     contents_kg, 600};
    dw_err err;
    SAME(dw_net_weight_check(&request, &err, &reply), DW_E_RANGE);
    SAME_TEXT(err.field, "contents_kg");
    request.contents_kg_count = 50;
    request.label_kg = 30;
    SAME(dw_net_weight_check(&request, &err, &reply), DW_E_RANGE);
    SAME_TEXT(err.field, "label_kg");
}
