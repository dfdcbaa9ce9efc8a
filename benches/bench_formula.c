/* How many formulas the engine scales a second on one core: eight lines, two
 * ball sizes, loss, sums verified each time; and the same with a poolish. */
#include "doughwright/formula.h"

#include <stdio.h>
#include <time.h>

static dw_line lines[] = {
    {"bread flour", DW_FLOUR, 80, false, 0, false, 0},
    {"strong flour", DW_FLOUR, 20, false, 0, false, 0},
    {"water", DW_WATER, 60, false, 0, false, 0},
    {"salt", DW_SALT, 2, false, 0, false, 0},
    {"sugar", DW_SUGAR, 1, false, 0, false, 0},
    {"oil", DW_FAT, 2, false, 0, false, 0},
    {"malt", DW_MALT, 0.2, false, 0, false, 0},
    {"instant yeast", DW_YEAST_INSTANT, 0.3, false, 0, false, 0},
};
static dw_line poolish[] = {
    {"bread flour", DW_FLOUR, 100, false, 0, false, 0},
    {"water", DW_WATER, 100, false, 0, false, 0},
    {"instant yeast", DW_YEAST_INSTANT, 0.1, false, 0, false, 0},
};
static dw_stage stage = {"poolish", DW_POOLISH, 30, poolish, DW_COUNT(poolish)};
static dw_piece_target pieces[] = {{96, 400}, {60, 285}};

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static void run(const char *what, size_t stages)
{
    enum { ROUNDS = 200000 };
    const dw_formula formula = {lines, DW_COUNT(lines), &stage, stages};
    dw_target target = {.pieces = pieces, .pieces_count = DW_COUNT(pieces)};
    double kg[DW_COUNT(lines)], sum = 0, start = seconds();
    for (int i = 0; i < ROUNDS; i++) {
        dw_scaled scaled;
        pieces[0].piece_g = 400 + i % 50;
        target.loss_percent = i % 4;
        if (dw_formula_scale(&formula, &target, kg, &scaled, NULL) == DW_OK)
            sum += kg[2];
    }
    double took = seconds() - start;
    printf("{\"bench\":\"formula\",\"what\":\"%s\",\"per_second\":%.0f,"
           "\"mean_water_kg\":%.3f}\n",
           what, ROUNDS / took, sum / ROUNDS);
}

int main(void)
{
    run("scale", 0);
    run("scale with a poolish", 1);
    return 0;
}
