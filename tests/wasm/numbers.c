#include "wasm/numbers.h"

#include "doughwright/life.h"

enum { ROOM = 1 << 20, MOST = 1024 };

typedef struct numbers {
    double values[MOST];
    size_t count;
} numbers;

static void add(numbers *to, const double *values, size_t count)
{
    DW_ASSERT(to->count + count <= MOST);
    for (size_t i = 0; i < count; i++)
        to->values[to->count++] = values[i];
}

static dw_status scale(const dw_formula *formula, numbers *to)
{
    double kg[8];
    dw_piece_target pieces[] = {{96, 396.9}, {60, 283.5}};
    dw_target target = {
        .pieces = pieces, .pieces_count = 2, .loss_percent = 1.7};
    dw_scaled scaled;
    DW_TRY(dw_formula_scale(formula, &target, kg, &scaled, NULL));
    add(to, kg, formula->lines_count);
    add(to, &scaled.flour_kg, 1);
    add(to, &scaled.dough_kg, 1);
    add(to, &scaled.total_percent, 1);
    return DW_OK;
}

/* Bench, open in the cold, closed, tempered: every surrounding there is. */
static dw_status live(const dw_formula *formula, dw_arena *arena, numbers *to)
{
    dw_leg legs[] = {{0.5, 24, 8}, {2, 3, 12}, {40, 3.5, 3}, {3, 23, 8}};
    dw_life_request request;
    dw_life_reply reply;
    dw_shape_preset(&dw_life_request_shape, &request);
    request.formula = *formula;
    request.piece_g = 396.9;
    request.has_dough_c = true;
    request.dough_c = 26.3;
    request.legs = legs;
    request.legs_count = DW_COUNT(legs);
    request.members = 0;
    DW_TRY(dw_life_run(&request, arena, &reply, NULL));
#define ADD_COLUMN(name, unit, about) add(to, reply.name, reply.name##_count);
    DW_LIFE_COLUMNS(ADD_COLUMN)
#undef ADD_COLUMN
    add(to, &reply.window.ready_h, 1);
    add(to, &reply.window.end_h, 1);
    return DW_OK;
}

static const numbers *reckon(void)
{
    static unsigned char block[ROOM];
    static numbers all;
    dw_line lines[] = {
        {.material = "flour", .kind = DW_FLOUR, .percent = 100},
        {.material = "water", .kind = DW_WATER, .percent = 58.3},
        {.material = "salt", .kind = DW_SALT, .percent = 1.75},
        {.material = "sugar", .kind = DW_SUGAR, .percent = 2},
        {.material = "oil", .kind = DW_FAT, .percent = 2.1},
        {.material = "yeast", .kind = DW_YEAST_INSTANT, .percent = 0.375},
    };
    dw_formula formula = {.lines = lines, .lines_count = DW_COUNT(lines)};
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    all.count = 0;
    if (scale(&formula, &all) != DW_OK || live(&formula, &arena, &all) != DW_OK)
        all.count = 0;
    return &all;
}

const double *dw_numbers(void)
{
    return reckon()->values;
}

size_t dw_numbers_count(void)
{
    return reckon()->count;
}
