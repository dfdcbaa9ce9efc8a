/* How long the answers that are asked the other way round take, with the usual
 * 24 shells, one core: best and middle of 41 askings, ms. */
#define _POSIX_C_SOURCE 200809L
#include "doughwright/answers.h"
#include "doughwright/mishap.h"
#include "doughwright/room.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static dw_line lines[] = {
    {"flour", DW_FLOUR, 100, false, 0, false, 0},
    {"water", DW_WATER, 58, false, 0, false, 0},
    {"salt", DW_SALT, 1.75, false, 0, false, 0},
    {"yeast", DW_YEAST_INSTANT, 0.4, false, 0, false, 0},
};
static dw_leg legs[] = {{0.5, 22, 8}, {2.5, 3, 8}, {66, 3, 3}, {3, 22, 8}};

static dw_life_request life_of(int64_t members)
{
    dw_life_request life;
    dw_shape_preset(&dw_life_request_shape, &life);
    life.formula = (dw_formula){lines, DW_COUNT(lines), NULL, 0};
    life.piece_g = 450;
    life.has_dough_c = true;
    life.dough_c = 26;
    life.legs = legs;
    life.legs_count = DW_COUNT(legs);
    life.members = members;
    return life;
}

/* This thread's own time: others may be using the machine. */
static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

typedef dw_status asking(dw_arena *arena, int64_t members, dw_err *err);

static dw_status ask_yeast(dw_arena *arena, int64_t members, dw_err *err)
{
    dw_life_yeast_reply reply;
    dw_life_yeast_ask ask = {life_of(members), 1, 40};
    return dw_life_yeast(&ask, arena, &reply, err);
}

static dw_status ask_warmth(dw_arena *arena, int64_t members, dw_err *err)
{
    dw_warmth_reply reply;
    dw_warmth_ask ask = {life_of(members), 1, 25};
    return dw_answer_warmth(&ask, arena, &reply, err);
}

static dw_status ask_close(dw_arena *arena, int64_t members, dw_err *err)
{
    dw_close_reply reply;
    dw_close_ask ask;
    dw_shape_preset(&dw_close_ask_shape, &ask);
    ask.life = life_of(members);
    return dw_answer_close(&ask, arena, &reply, err);
}

static dw_status ask_pull(dw_arena *arena, int64_t members, dw_err *err)
{
    dw_pull_reply reply;
    dw_pull_ask ask;
    dw_shape_preset(&dw_pull_ask_shape, &ask);
    ask.life = life_of(members);
    ask.life.legs_count = 3;
    ask.opening_h = 48;
    ask.room_c = 22;
    return dw_answer_pull(&ask, arena, &reply, err);
}

static dw_status ask_transfer(dw_arena *arena, int64_t members, dw_err *err)
{
    static dw_leg other[] = {{0.3, 25, 8}, {2.5, 4, 8}, {66, 4, 3}};
    dw_transfer_reply reply;
    dw_transfer_ask ask;
    dw_life_request life = life_of(members);
    dw_shape_preset(&dw_transfer_ask_shape, &ask);
    ask.formula = life.formula;
    ask.piece_g = life.piece_g;
    ask.dough_c = 25;
    ask.here = (dw_shop_ways){.flour_kg = 25,
                              .flour_c = 22,
                              .room_c = 22,
                              .tap_c = 15,
                              .work_j_per_kg_dough = 13000,
                              .legs = legs,
                              .legs_count = 3};
    ask.there = ask.here;
    ask.there.legs = other;
    ask.there.elevation_m = 1000;
    ask.members = members;
    return dw_answer_transfer(&ask, arena, &reply, err);
}

static dw_status ask_hurry(dw_arena *arena, int64_t members, dw_err *err)
{
    dw_hurry_reply reply;
    dw_hurry_ask ask;
    dw_life_request life = life_of(members);
    dw_shape_preset(&dw_hurry_ask_shape, &ask);
    ask.formula = life.formula;
    ask.piece_g = life.piece_g;
    ask.usable_in_h = 1.3;
    ask.members = members;
    return dw_answer_hurry(&ask, arena, &reply, err);
}

/* One stack, 40 h old, power cut for 8 h. */
static dw_status ask_foresee(dw_arena *arena, int64_t members, dw_err *err)
{
    static dw_leg past[] = {{2.5, 3, 8}, {37.5, 3, 3}};
    dw_life_request life = life_of(members);
    dw_mishap_stack stack = {"ripe", 10, life.formula, 450,  25,
                             past,   2,  {1, 3, 3},    NULL, 0};
    dw_mishap_ask ask;
    dw_mishap_reply reply;
    dw_shape_preset(&dw_mishap_ask_shape, &ask);
    ask.mishap = (dw_mishap){.kind = DW_MISHAP_POWER_CUT,
                             .hours = 8,
                             .has_outside_c = true,
                             .outside_c = 30,
                             .time_constant_h = 10,
                             .recover_h = 1};
    ask.stacks = &stack;
    ask.stacks_count = 1;
    ask.members = members;
    return dw_mishap_foresee(&ask, arena, &reply, err);
}

static dw_status ask_carry(dw_arena *arena, int64_t members, dw_err *err)
{
    dw_room_load load = {.life = life_of(members),
                         .balls = 444,
                         .capacity_w = 1500,
                         .outside_c = 25,
                         .time_constant_h = 10,
                         .heat_capacity_j_per_k = 1.5e6};
    dw_room_carry carry;
    load.life.legs_count = 2;
    return dw_room_carry_load(&load, arena, &carry, err);
}

static void run(const char *what, asking *ask, int64_t members)
{
    static unsigned char block[8 << 20];
    enum { ROUNDS = 41 };
    double took[ROUNDS];
    for (int i = 0; i < ROUNDS; i++) {
        dw_arena arena;
        dw_err err;
        dw_arena_init(&arena, block, sizeof block);
        double start = seconds();
        if (ask(&arena, members, &err) != DW_OK) {
            fprintf(stderr, "bench_answers: %s: %s\n", what, err.field);
            return;
        }
        took[i] = 1000 * (seconds() - start);
    }
    qsort(took, ROUNDS, sizeof took[0], by_size);
    printf("{\"bench\":\"answers\",\"what\":\"%s\",\"members\":%d,"
           "\"best_ms\":%.2f,\"middle_ms\":%.2f}\n",
           what, (int)members, took[0], took[ROUNDS / 2]);
}

int main(void)
{
    static const struct {
        const char *what;
        asking *ask;
    } all[] = {
        {"yeast for a moment", ask_yeast},
        {"dough temperature for a moment", ask_warmth},
        {"closing the stack", ask_close},
        {"pulling for the opening", ask_pull},
        {"formula to another shop", ask_transfer},
        {"emergency dough", ask_hurry},
        {"a stack in a power cut", ask_foresee},
        {"balls put into a room, followed 2.5 h", ask_carry},
    };
    for (size_t i = 0; i < DW_COUNT(all); i++)
        for (int64_t members = 0; members <= 63; members += 63)
            run(all[i].what, all[i].ask, members);
    return 0;
}
