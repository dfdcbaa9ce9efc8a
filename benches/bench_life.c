/* How many lives a second one core follows: 72 h in four legs, every shell
 * reacting, 994 members side by side, with what the shells and steps cost in
 * accuracy against 48 shells and steps of a sixteenth; for each instruction set
 * that this processor has. */
#include "engine/life_walk.h"
#include "life_histories.h"

#include <math.h>
#include <stdio.h>

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

static void run(const dw_life__kernel *kernel, const life_history *history,
                int shells)
{
    dw_life_request request = history->request;
    request.shells = 48;
    request.step_scale = 1.0 / 16;
    finish fine = finish_of(kernel, &request);
    request.shells = shells;
    request.step_scale = 1;
    finish got = finish_of(kernel, &request);
    request.members = 994; /* in 142 blocks of seven beside the nominal life */
    double start = life_seconds();
    int rounds = 0;
    for (; life_seconds() - start < 1; rounds++)
        live(kernel, &request);
    double took = life_seconds() - start;
    printf("{\"bench\":\"life\",\"what\":\"%s\",\"instructions\":\"%s\","
           "\"shells\":%d,\"steps\":%ld,\"members\":994,"
           "\"lives_per_second\":%.0f,\"gas_error_percent\":%.4f,"
           "\"core_error_k\":%.4f}\n",
           history->what, kernel->instructions, shells, (long)got.steps,
           994 * rounds / took, 100 * fabs(got.gas_ml / fine.gas_ml - 1),
           fabs(got.core_c - fine.core_c));
}

int main(void)
{
    static life_history four, swinging;
    const dw_life__kernel *kernels[DW_LIFE_KERNELS_MOST];
    life_four_legs(&four);
    life_swinging(&swinging);
    dw_life__kernels(kernels);
    for (int i = 0; kernels[i]; i++) {
        run(kernels[i], &four, 12);
        run(kernels[i], &four, 24);
        run(kernels[i], &swinging, 12);
    }
    return 0;
}
