/* How many lives a second one core follows: 72 h in four legs, every shell
 * reacting, members side by side, with what the shells and steps cost in
 * accuracy against 48 shells and steps of a sixteenth; for each instruction set
 * that this processor has. */
#include "engine/life_walk.h"

#include <math.h>
#include <stdio.h>
#include <time.h>

static dw_line lines[] = {
    {"flour", DW_FLOUR, 100, false, 0, false, 0},
    {"water", DW_WATER, 58, false, 0, false, 0},
    {"salt", DW_SALT, 1.75, false, 0, false, 0},
    {"instant yeast", DW_YEAST_INSTANT, 0.4, false, 0, false, 0},
};
static dw_leg legs[] = {{0.5, 22, 8}, {2.5, 3, 8}, {66, 3, 3}, {3, 22, 8}};
/* A cold room that swings by 2 K every 20 min. */
static dw_leg swinging[3 + 2 * 3 * 69];

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static dw_life_request request_of(dw_leg *history, size_t count)
{
    dw_life_request request = {.formula = {lines, DW_COUNT(lines), NULL, 0},
                               .piece_g = 450,
                               .has_dough_c = true,
                               .dough_c = 26,
                               .legs = history,
                               .legs_count = count,
                               .earliest_cold_use_h = 10,
                               .report_every_h = 72,
                               .members = 0,
                               .shells = 12,
                               .step_scale = 1};
    dw_ferment_model_preset(&request.model);
    return request;
}

static dw_life_reply live(const dw_life__kernel *kernel,
                          const dw_life_request *request)
{
    static unsigned char block[32 << 20];
    dw_arena arena;
    dw_life_reply reply = {0};
    dw_arena_init(&arena, block, sizeof block);
    dw_err err;
    if (dw_life__run_on(kernel, request, &arena, &reply, &err) != DW_OK)
        fprintf(stderr, "bench_life: %s\n", err.field);
    return reply;
}

/* Gas and core at the end of the legs. */
typedef struct finish {
    double gas_ml, core_c;
    int64_t steps;
} finish;

static finish finish_of(const dw_life__kernel *kernel,
                        const dw_life_request *request)
{
    dw_life_reply reply = live(kernel, request);
    size_t last = reply.time_h_count - 1;
    return (finish){reply.gas_ml_per_100g_flour[last], reply.core_c[last],
                    reply.steps};
}

static void run(const dw_life__kernel *kernel, const char *what,
                dw_leg *history, size_t count, int shells)
{
    dw_life_request request = request_of(history, count);
    request.shells = 48;
    request.step_scale = 1.0 / 16;
    finish fine = finish_of(kernel, &request);
    request.shells = shells;
    request.step_scale = 1;
    finish got = finish_of(kernel, &request);
    request.members = 994; /* in 142 blocks of seven beside the nominal life */
    double start = seconds();
    int rounds = 0;
    for (; seconds() - start < 1; rounds++)
        live(kernel, &request);
    double took = seconds() - start;
    printf("{\"bench\":\"life\",\"what\":\"%s\",\"instructions\":\"%s\","
           "\"shells\":%d,\"steps\":%ld,\"members\":994,"
           "\"lives_per_second\":%.0f,\"gas_error_percent\":%.4f,"
           "\"core_error_k\":%.4f}\n",
           what, kernel->instructions, shells, (long)got.steps,
           994 * rounds / took, 100 * fabs(got.gas_ml / fine.gas_ml - 1),
           fabs(got.core_c - fine.core_c));
}

int main(void)
{
    size_t count = 0;
    swinging[count++] = (dw_leg){0.5, 22, 8};
    swinging[count++] = (dw_leg){2.5, 3, 8};
    for (int i = 0; i < 3 * 66; i++) {
        swinging[count++] = (dw_leg){1.0 / 6, 4, 3};
        swinging[count++] = (dw_leg){1.0 / 6, 2, 3};
    }
    swinging[count++] = (dw_leg){3, 22, 8};
    const dw_life__kernel *kernels[DW_LIFE_KERNELS_MOST];
    dw_life__kernels(kernels);
    for (int i = 0; kernels[i]; i++) {
        run(kernels[i], "four legs", legs, DW_COUNT(legs), 12);
        run(kernels[i], "four legs", legs, DW_COUNT(legs), 24);
        run(kernels[i], "cold room swinging every 20 min", swinging, count, 12);
    }
    return 0;
}
