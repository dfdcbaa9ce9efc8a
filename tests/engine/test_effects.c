#include "doughwright/effects.h"
#include "dw_test.h"

#include <stdlib.h>

enum { BLOCK = 1 << 19 };

static double values[] = {1.2, 0.8, 2.1, 1.9, 0.4, 0.7,
                          1.6, 2.4, 1.1, 0.2, 1.4, 2.2};
static int64_t persons[] = {1, 1, 2, 2, 1, 3, 2, 2, 3, 3, 1, 2};
static int64_t lots[] = {1, 2, 1, 2, 2, 1, 1, 2, 2, 2, 1, 1};

typedef struct found {
    void *block;
    dw_status status;
    dw_err err;
    dw_effects_reply reply;
} found;

static found find(const dw_effects_request *request)
{
    dw_arena arena;
    found f = {.block = malloc(BLOCK)};
    dw_arena_init(&arena, f.block, BLOCK);
    f.status = dw_effects_find(request, &arena, &f.err, &f.reply);
    return f;
}

static const dw_effect *effect(const found *f, const char *factor,
                               int64_t level)
{
    for (size_t i = 0; i < f->reply.effects_count; i++)
        if (dw_text_is(f->reply.effects[i].factor, factor) &&
            f->reply.effects[i].level == level)
            return &f->reply.effects[i];
    return NULL;
}

TEST(parts_and_their_errors_are_those_of_a_matrix_solved_elsewhere, DERIVED,
     "R 4.2.2: solve(X'X/s^2 + diag(0, 1/t^2)), t 1, s 0.3; errors of "
     "the contrasts C V C'")
{
    dw_factor factors[] = {{"person", persons, 12}, {"lot", lots, 12}};
    dw_effects_request request = {values, 12, factors, 2, true, true, 1, 0.3};
    found f = find(&request);
    NEED(f.status == DW_OK);
    NEAR(f.reply.mean, 1.22537552782, 1e-9);
    NEAR(f.reply.mean_sd, 0.9171549630, 1e-9);
    const dw_effect *second = effect(&f, "person", 2);
    const dw_effect *lot = effect(&f, "lot", 2);
    NEED(second && lot);
    NEAR(second->part, 0.78240479291, 1e-9);
    NEAR(second->sd, 0.11828108963, 1e-9);
    SAME(second->values_count, 5);
    NEAR(lot->part, -0.09068196501, 1e-9);
    NEAR(lot->sd, 0.08785831492, 1e-9);
    free(f.block);
}

TEST(without_priors_the_parts_differ_as_in_least_squares, DERIVED,
     "R 4.2.2: lm(y ~ person + lot), residual standard error 0.3994909552")
{
    dw_factor factors[] = {{"person", persons, 12}, {"lot", lots, 12}};
    dw_effects_request request = {values, 12, factors, 2, true, false, 1e3, 0};
    found f = find(&request);
    NEED(f.status == DW_OK);
    const dw_effect *first = effect(&f, "person", 1);
    NEED(first && effect(&f, "person", 3));
    NEAR(effect(&f, "person", 2)->part - first->part, 1.0720930233, 1e-5);
    NEAR(effect(&f, "person", 3)->part - first->part, -0.2534883721, 1e-5);
    NEAR(effect(&f, "lot", 2)->part - effect(&f, "lot", 1)->part, -0.1790697674,
         1e-5);
    NEAR(f.reply.noise_sd, 0.3994909552, 1e-5);
    free(f.block);
}

TEST(a_person_who_always_has_one_lot_cannot_be_told_from_it, LIMIT,
     "two parts that always come together share one effect")
{
    double y[] = {0, .1, -.1, 0, 2, 2.1, 1.9, 2};
    int64_t person[] = {1, 1, 2, 2, 3, 3, 3, 3};
    int64_t lot[] = {5, 6, 5, 6, 7, 7, 7, 7};
    dw_factor factors[] = {{"person", person, 8}, {"lot", lot, 8}};
    dw_effects_request request = {y, 8, factors, 2, true, true, 2, 0.1};
    found f = find(&request);
    NEED(f.status == DW_OK);
    const dw_effect *third = effect(&f, "person", 3);
    NEED(third && third->has_together_level);
    SAME_TEXT(third->together_factor, "lot");
    SAME(third->together_level, 7);
    NEAR(third->part, effect(&f, "lot", 7)->part, 1e-9);
    CHECK(third->strength < 2);
    free(f.block);
}

TEST(what_two_make_together_is_known_where_neither_is, DERIVED,
     "the same system inverted by elimination in Python: sum of the two "
     "contrasts 1.3327780092, error 0.0471306342")
{
    double y[] = {0, .1, -.1, 0, 2, 2.1, 1.9, 2};
    int64_t person[] = {1, 1, 2, 2, 3, 3, 3, 3};
    int64_t lot[] = {5, 6, 5, 6, 7, 7, 7, 7};
    dw_factor factors[] = {{"person", person, 8}, {"lot", lot, 8}};
    dw_effects_request request = {y, 8, factors, 2, true, true, 2, 0.1};
    found f = find(&request);
    NEED(f.status == DW_OK);
    const dw_effect *third = effect(&f, "person", 3);
    NEED(third);
    NEAR(third->together_part, 1.3327780092, 1e-9);
    NEAR(third->together_sd, 0.0471306342, 1e-9);
    free(f.block);
}

TEST(what_cannot_be_told_apart_at_all_is_refused, LIMIT, "bad input")
{
    double alike[] = {2, 2, 2, 2};
    int64_t level[] = {1, 1, 2, 2};
    dw_factor factor = {"person", level, 4};
    dw_effects_request request = {alike, 4, &factor, 1, false, false, 0, 0};
    found f = find(&request);
    SAME(f.status, DW_E_UNREACHABLE);
    SAME_TEXT(f.err.field, "values");
    free(f.block);
    factor.levels_count = 3;
    f = find(&request);
    SAME(f.status, DW_E_RANGE);
    SAME_TEXT(f.err.field, "factors[0].levels");
    free(f.block);
    request.values_count = 2;
    f = find(&request);
    SAME(f.status, DW_E_RANGE);
    SAME_TEXT(f.err.field, "values");
    free(f.block);
}
