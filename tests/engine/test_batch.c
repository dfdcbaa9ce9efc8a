#include "doughwright/batch.h"
#include "dw_test.h"

#include <stdlib.h>

#define LB 0.45359237
#define OZ_G 28.349523125

static unsigned char *room;

static dw_arena fresh(void)
{
    if (!room)
        room = malloc(DW_PACK_BYTES);
    dw_arena arena;
    dw_arena_init(&arena, room, DW_PACK_BYTES);
    return arena;
}

static dw_pack_standard bags[] = {
    {"whole bag", 50 * LB}, {"3/4 bag", 37.5 * LB}, {"1/2 bag", 25 * LB}};

static dw_pack_request order(dw_pack_size *sizes, size_t count)
{
    dw_pack_request r;
    dw_shape_preset(&dw_pack_request_shape, &r);
    r.sizes = sizes;
    r.sizes_count = count;
    r.total_percent = 164;
    r.standards = bags;
    r.standards_count = 3;
    return r;
}

static bool says(const dw_pack_reply *reply, const char *code)
{
    for (size_t i = 0; i < reply->notes_count; i++)
        if (dw_text_is(reply->notes[i].code, code))
            return true;
    return false;
}

/* Everything that must hold for any order. */
static void account_holds(const dw_pack_request *r, const dw_pack_reply *reply)
{
    int64_t made[DW_PACK_SIZES] = {0};
    for (size_t j = 0; j < reply->batches_count; j++) {
        const dw_pack_batch *b = &reply->batches[j];
        double kg = b->odd_kg;
        int64_t balls = 0;
        for (size_t k = 0; k < b->sizes_count; k++) {
            kg += (double)b->sizes[k].count * b->sizes[k].piece_g / 1000;
            balls += b->sizes[k].count;
            for (size_t s = 0; s < r->sizes_count; s++)
                if (r->sizes[s].product == b->sizes[k].product)
                    made[s] += b->sizes[k].count;
        }
        NEAR(kg, b->usable_kg, 1e-6);
        NEAR(b->dough_kg * (1 - r->loss_percent / 100), b->usable_kg, 1e-9);
        SAME(balls, b->balls);
        if (r->has_max_dough_kg)
            CHECK(b->dough_kg <= r->max_dough_kg + 1e-6);
        if (r->has_bench)
            CHECK((double)balls <= r->bench.hands * r->bench.balls_per_minute *
                                           r->bench.minutes +
                                       1e-9);
    }
    for (size_t s = 0; s < r->sizes_count; s++) {
        const dw_pack_account *a = &reply->account[s];
        SAME(a->ordered, r->sizes[s].count);
        SAME(a->made, made[s]);
        SAME(a->ordered + a->surplus, a->made);
        CHECK(a->surplus >= 0);
    }
    CHECK(reply->bound_kg <= reply->cost_kg + 1e-12);
}

TEST(ninety_six_of_14_oz_and_sixty_of_10_oz_are_a_bag_and_a_half, DERIVED,
     "121.5 lb of balls; a 50 lb bag at 164 % is 82 lb: 2 batches of at least "
     "74.1 lb of flour, 75 lb is the least the bags give")
{
    dw_pack_size sizes[] = {{"14-inch", 14 * OZ_G, 96, 8},
                            {"10-inch", 10 * OZ_G, 60, 12}};
    dw_pack_request r = order(sizes, 2);
    dw_arena arena = fresh();
    dw_pack_reply reply;
    SAME(dw_batch_pack(&r, &arena, NULL, &reply), DW_OK);
    SAME(reply.batches_count, 2);
    SAME_TEXT(reply.batches[0].standard, "whole bag");
    SAME_TEXT(reply.batches[1].standard, "1/2 bag");
    NEAR(reply.flour_kg, 75 * LB, 1e-9);
    /* 123 lb = 1968 oz of dough, 1944 oz of balls: 24 oz are a 14 and a 10.
     */
    NEAR(reply.odd_kg, 0, 0.001);
    SAME(reply.account[0].surplus, 1);
    SAME(reply.account[1].surplus, 1);
    CHECK(reply.proved && says(&reply, "surplus"));
    account_holds(&r, &reply);
}

TEST(a_mixer_that_takes_no_whole_bag_gets_smaller_ones, DERIVED,
     "60 lb limit: a whole bag is 82 lb, 3/4 bag 61.5 lb, 1/2 bag 41 lb")
{
    dw_pack_size sizes[] = {{"14-inch", 14 * OZ_G, 96, 8}};
    dw_pack_request r = order(sizes, 1);
    r.has_max_dough_kg = true;
    r.max_dough_kg = 60 * LB;
    dw_arena arena = fresh();
    dw_pack_reply reply;
    SAME(dw_batch_pack(&r, &arena, NULL, &reply), DW_OK);
    SAME(reply.batches_count, 3); /* 84 lb of balls */
    for (size_t j = 0; j < 3; j++)
        SAME_TEXT(reply.batches[j].standard, "1/2 bag");
    CHECK(says(&reply, "standard_over_mixer"));
    account_holds(&r, &reply);
    r.max_dough_kg = 30 * LB;
    arena = fresh();
    SAME(dw_batch_pack(&r, &arena, NULL, &reply), DW_OK);
    CHECK(says(&reply, "no_standard_fits"));
    account_holds(&r, &reply);
}

TEST(the_bench_limits_a_batch_as_well, PRACTICE,
     "common practice, no source: balls <= hands x balls/min x 20 min")
{
    dw_pack_size sizes[] = {{"small", 200, 300, 12}};
    dw_pack_request r = order(sizes, 1);
    r.has_bench = true;
    r.bench = (dw_pack_bench){2, 3, 20};
    dw_arena arena = fresh();
    dw_pack_reply reply;
    SAME(dw_batch_pack(&r, &arena, NULL, &reply), DW_OK);
    SAME(reply.bench_balls, 120);
    SAME(reply.batches_count, 3);
    account_holds(&r, &reply);
    r.bench = (dw_pack_bench){0.25, 0.1, 1};
    dw_err err;
    arena = fresh();
    SAME(dw_batch_pack(&r, &arena, &err, &reply), DW_E_UNREACHABLE);
    SAME_TEXT(err.field, "bench");
}

TEST(equal_batches_hold_full_boxes, DERIVED,
     "100 balls in boxes of 8 are 13 boxes = 104 balls; 400 g each, 41.6 kg; "
     "22 kg of dough a batch: 2 batches of 7 boxes")
{
    dw_pack_size sizes[] = {{"large", 400, 100, 8}};
    dw_pack_request r = order(sizes, 1);
    r.split = DW_PACK_EQUAL;
    r.has_max_dough_kg = true;
    r.max_dough_kg = 22.5;
    dw_arena arena = fresh();
    dw_pack_reply reply;
    SAME(dw_batch_pack(&r, &arena, NULL, &reply), DW_OK);
    SAME(reply.batches_count, 2);
    NEAR(reply.batches[0].usable_kg, 22.4, 1e-9);
    NEAR(reply.batches[0].flour_kg, reply.batches[1].flour_kg, 1e-12);
    SAME(reply.batches[0].balls, 56);
    SAME(reply.account[0].made, 112);
    account_holds(&r, &reply);
}

TEST(a_batch_below_the_mixers_minimum_is_named, LIMIT, "batch.h")
{
    dw_pack_size sizes[] = {{"large", 400, 10, 8}};
    dw_pack_request r = order(sizes, 1);
    r.standards_count = 0;
    r.has_min_dough_kg = true;
    r.min_dough_kg = 10;
    dw_arena arena = fresh();
    dw_pack_reply reply;
    SAME(dw_batch_pack(&r, &arena, NULL, &reply), DW_OK);
    CHECK(says(&reply, "batch_under_mixer"));
}

TEST(loss_and_heavy_balls_are_counted, DERIVED,
     "10 balls of 1 kg with 20 % loss need 12.5 kg of dough; a 1/2 bag of 2 kg "
     "flour at 150 % gives 2.4 kg")
{
    dw_pack_size sizes[] = {{"slab", 1000, 10, 0}};
    dw_pack_request r = order(sizes, 1);
    r.total_percent = 150;
    r.loss_percent = 20;
    r.standards_count = 0;
    dw_arena arena = fresh();
    dw_pack_reply reply;
    SAME(dw_batch_pack(&r, &arena, NULL, &reply), DW_OK);
    NEAR(reply.dough_kg, 12.5, 1e-9);
    dw_pack_standard tiny[] = {{"tiny", 2}};
    r.standards = tiny;
    r.standards_count = 1;
    sizes[0].piece_g = 2500;
    dw_err err;
    arena = fresh();
    SAME(dw_batch_pack(&r, &arena, &err, &reply), DW_E_RANGE);
    SAME_TEXT(err.field, "sizes[0].piece_g");
    NEAR(err.high, 2400, 1e-6);
}

/* --- exhaustive comparison ------------------------------------------- */

typedef struct tiny {
    size_t batches, sizes;
    double usable[3], kg[3], part_box_kg;
    int box[3], need[3], bench;
    double best;
} tiny;

/* Every count of every size in every batch. */
static void every(tiny *t, size_t j, size_t s, double left, int balls,
                  double cost, const int *need)
{
    if (s == t->sizes) {
        cost += left;
        if (j + 1 == t->batches) {
            for (size_t k = 0; k < t->sizes; k++)
                if (need[k] > 0)
                    return;
            t->best = fmin(t->best, cost);
            return;
        }
        every(t, j + 1, 0, t->usable[j + 1], t->bench, cost, need);
        return;
    }
    int rest[3];
    memcpy(rest, need, sizeof rest);
    for (int n = 0; n <= balls && n * t->kg[s] <= left + 1e-9; n++) {
        rest[s] = need[s] - n;
        int part = t->box[s] > 0 && n % t->box[s] != 0;
        every(t, j, s + 1, left - n * t->kg[s], balls - n,
              cost + part * t->part_box_kg, rest);
    }
}

static double exhaustive(const dw_pack_request *r, const dw_pack_reply *reply)
{
    tiny t = {.batches = reply->batches_count,
              .sizes = r->sizes_count,
              .part_box_kg = r->part_box_g / 1000,
              .best = 1e9,
              .bench = reply->has_bench_balls ? (int)reply->bench_balls : 9999};
    for (size_t j = 0; j < t.batches; j++)
        t.usable[j] = reply->batches[j].usable_kg;
    for (size_t s = 0; s < t.sizes; s++) {
        t.kg[s] = r->sizes[s].piece_g / 1000;
        t.box[s] = (int)r->sizes[s].per_box;
        t.need[s] = (int)r->sizes[s].count;
        if (r->split == DW_PACK_EQUAL && t.box[s] > 0)
            t.need[s] = (t.need[s] + t.box[s] - 1) / t.box[s] * t.box[s];
    }
    every(&t, 0, 0, t.usable[0], t.bench, 0, t.need);
    return t.best;
}

static void small_orders(unsigned long long seed, int cases)
{
    int compared = 0;
    for (int i = 0; i < cases; i++) {
        dw_pack_size sizes[3] = {
            {"a", 0, 0, 0}, {"b", 0, 0, 0}, {"c", 0, 0, 0}};
        size_t n = 1 + dw_test_bits(&seed) % 3;
        for (size_t s = 0; s < n; s++) {
            sizes[s].piece_g = floor(dw_test_between(&seed, 150, 900));
            sizes[s].count = 1 + (int64_t)(dw_test_bits(&seed) % 6);
            sizes[s].per_box = (int64_t)(dw_test_bits(&seed) % 5);
        }
        dw_pack_standard standards[] = {{"whole", 3}, {"half", 2}};
        dw_pack_request r = order(sizes, n);
        r.standards = standards;
        r.standards_count = 2;
        r.split = (int)(dw_test_bits(&seed) % 4 == 0);
        r.part_box_g = (double[]){0, 1, 150, 900}[dw_test_bits(&seed) % 4];
        r.has_bench = dw_test_bits(&seed) % 2 == 0;
        r.bench = (dw_pack_bench){1, 1, 12};
        r.has_max_dough_kg = true;
        r.max_dough_kg = 5.2;
        dw_arena arena = fresh();
        dw_pack_reply reply;
        NEED(dw_batch_pack(&r, &arena, NULL, &reply) == DW_OK);
        account_holds(&r, &reply);
        if (reply.batches_count <= 2) {
            CHECK(reply.proved);
            NEAR(reply.cost_kg, exhaustive(&r, &reply), 0.0001 + 1e-9);
            compared++;
        }
    }
    CHECK(2 * compared > cases); /* the larger ones are too many to count */
}

TEST(small_orders_cost_what_an_exhaustive_search_finds, DERIVED,
     "every count of every size in every batch, 600 orders, seed 5")
{
    small_orders(5, 600);
}

TEST(long_small_orders_cost_what_an_exhaustive_search_finds, DERIVED,
     "every count of every size in every batch, 5000 orders, seed 6")
{
    small_orders(6, 5000);
}

TEST(large_orders_add_up_and_break_no_limit, LIMIT, "60 orders, seed 7")
{
    unsigned long long seed = 7;
    static const char *const names[] = {"a", "b", "c", "d", "e"};
    for (int i = 0; i < 60; i++) {
        dw_pack_size sizes[5];
        size_t n = 1 + dw_test_bits(&seed) % 5;
        for (size_t s = 0; s < n; s++)
            sizes[s] =
                (dw_pack_size){names[s], dw_test_between(&seed, 150, 700),
                               1 + (int64_t)(dw_test_bits(&seed) % 120),
                               (int64_t)(dw_test_bits(&seed) % 13)};
        dw_pack_request r = order(sizes, n);
        r.loss_percent = dw_test_between(&seed, 0, 3);
        r.split = (int)(dw_test_bits(&seed) % 2);
        r.has_bench = true;
        r.bench = (dw_pack_bench){2, 4, 20};
        r.has_max_dough_kg = true;
        r.max_dough_kg = dw_test_between(&seed, 20, 60);
        dw_arena arena = fresh();
        dw_pack_reply reply;
        NEED(dw_batch_pack(&r, &arena, NULL, &reply) == DW_OK);
        account_holds(&r, &reply);
    }
}
