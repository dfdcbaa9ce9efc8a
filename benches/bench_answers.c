/* How long the answers that are asked the other way round take, with the usual
 * 24 shells, one core: best and middle of 41 askings, ms. */
#define _POSIX_C_SOURCE 200809L
#include "doughwright/life.h"

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
    } all[] = {{"yeast for a moment", ask_yeast}};
    for (size_t i = 0; i < DW_COUNT(all); i++)
        for (int64_t members = 0; members <= 63; members += 63)
            run(all[i].what, all[i].ask, members);
    return 0;
}
