#include "app/op.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>

const dw_shape dw_nothing_shape = {"nothing", "an empty object",
                                   sizeof(dw_nothing), NULL, 0};

/* One pair of lines for each src/app/ops_<noun>.c. */
extern const dw_op dw_ops_answer[];
extern const size_t dw_ops_answer_count;
extern const dw_op dw_ops_batch[];
extern const size_t dw_ops_batch_count;
extern const dw_op dw_ops_foresee[];
extern const size_t dw_ops_foresee_count;
extern const dw_op dw_ops_heat[];
extern const size_t dw_ops_heat_count;
extern const dw_op dw_ops_piece[];
extern const size_t dw_ops_piece_count;
extern const dw_op dw_ops_drift[];
extern const size_t dw_ops_drift_count;
extern const dw_op dw_ops_journal[];
extern const size_t dw_ops_journal_count;
extern const dw_op dw_ops_label[];
extern const size_t dw_ops_label_count;
extern const dw_op dw_ops_life[];
extern const size_t dw_ops_life_count;
extern const dw_op dw_ops_mishap[];
extern const size_t dw_ops_mishap_count;
extern const dw_op dw_ops_learn[];
extern const size_t dw_ops_learn_count;
extern const dw_op dw_ops_taught[];
extern const size_t dw_ops_taught_count;
extern const dw_op dw_ops_cup[];
extern const size_t dw_ops_cup_count;
extern const dw_op dw_ops_moisture[];
extern const size_t dw_ops_moisture_count;
extern const dw_op dw_ops_plan[];
extern const size_t dw_ops_plan_count;
extern const dw_op dw_ops_quality[];
extern const size_t dw_ops_quality_count;
extern const dw_op dw_ops_program[];
extern const size_t dw_ops_program_count;
extern const dw_op dw_ops_run[];
extern const size_t dw_ops_run_count;
extern const dw_op dw_ops_book[];
extern const size_t dw_ops_book_count;
extern const dw_op dw_ops_card[];
extern const size_t dw_ops_card_count;
extern const dw_op dw_ops_cold_room[];
extern const size_t dw_ops_cold_room_count;
extern const dw_op dw_ops_count[];
extern const size_t dw_ops_count_count;
extern const dw_op dw_ops_change[];
extern const size_t dw_ops_change_count;
extern const dw_op dw_ops_demand[];
extern const size_t dw_ops_demand_count;
extern const dw_op dw_ops_flour[];
extern const size_t dw_ops_flour_count;
extern const dw_op dw_ops_forecast[];
extern const size_t dw_ops_forecast_count;
extern const dw_op dw_ops_formula[];
extern const size_t dw_ops_formula_count;
extern const dw_op dw_ops_demo[];
extern const size_t dw_ops_demo_count;
extern const dw_op dw_ops_load[];
extern const size_t dw_ops_load_count;
extern const dw_op dw_ops_sale[];
extern const size_t dw_ops_sale_count;
extern const dw_op dw_ops_sales_file[];
extern const size_t dw_ops_sales_file_count;
extern const dw_op dw_ops_slip[];
extern const size_t dw_ops_slip_count;
extern const dw_op dw_ops_check[];
extern const size_t dw_ops_check_count;
extern const dw_op dw_ops_calendar[];
extern const size_t dw_ops_calendar_count;
extern const dw_op dw_ops_drop[];
extern const size_t dw_ops_drop_count;
extern const dw_op dw_ops_purchase[];
extern const size_t dw_ops_purchase_count;
extern const dw_op dw_ops_pull[];
extern const size_t dw_ops_pull_count;
extern const dw_op dw_ops_shift[];
extern const size_t dw_ops_shift_count;
extern const dw_op dw_ops_stock[];
extern const size_t dw_ops_stock_count;
extern const dw_op dw_ops_released[];
extern const size_t dw_ops_released_count;
extern const dw_op dw_ops_trace[];
extern const size_t dw_ops_trace_count;
extern const dw_op dw_ops_formulary[];
extern const size_t dw_ops_formulary_count;
extern const dw_op dw_ops_shop[];
extern const size_t dw_ops_shop_count;
extern const dw_op dw_ops_week[];
extern const size_t dw_ops_week_count;

extern const dw_op dw_ops_today[];
extern const size_t dw_ops_today_count;

typedef struct table {
    const dw_op *ops;
    const size_t *count;
} table;

static const table tables[] = {
    {dw_ops_answer, &dw_ops_answer_count},
    {dw_ops_batch, &dw_ops_batch_count},
    {dw_ops_foresee, &dw_ops_foresee_count},
    {dw_ops_heat, &dw_ops_heat_count},
    {dw_ops_piece, &dw_ops_piece_count},
    {dw_ops_learn, &dw_ops_learn_count},
    {dw_ops_drift, &dw_ops_drift_count},
    {dw_ops_journal, &dw_ops_journal_count},
    {dw_ops_label, &dw_ops_label_count},
    {dw_ops_taught, &dw_ops_taught_count},
    {dw_ops_cup, &dw_ops_cup_count},
    {dw_ops_life, &dw_ops_life_count},
    {dw_ops_mishap, &dw_ops_mishap_count},
    {dw_ops_moisture, &dw_ops_moisture_count},
    {dw_ops_plan, &dw_ops_plan_count},
    {dw_ops_program, &dw_ops_program_count},
    {dw_ops_quality, &dw_ops_quality_count},
    {dw_ops_run, &dw_ops_run_count},
    {dw_ops_book, &dw_ops_book_count},
    {dw_ops_today, &dw_ops_today_count},
    {dw_ops_card, &dw_ops_card_count},
    {dw_ops_cold_room, &dw_ops_cold_room_count},
    {dw_ops_count, &dw_ops_count_count},
    {dw_ops_change, &dw_ops_change_count},
    {dw_ops_demand, &dw_ops_demand_count},
    {dw_ops_flour, &dw_ops_flour_count},
    {dw_ops_forecast, &dw_ops_forecast_count},
    {dw_ops_formula, &dw_ops_formula_count},
    {dw_ops_demo, &dw_ops_demo_count},
    {dw_ops_load, &dw_ops_load_count},
    {dw_ops_sale, &dw_ops_sale_count},
    {dw_ops_sales_file, &dw_ops_sales_file_count},
    {dw_ops_slip, &dw_ops_slip_count},
    {dw_ops_check, &dw_ops_check_count},
    {dw_ops_calendar, &dw_ops_calendar_count},
    {dw_ops_drop, &dw_ops_drop_count},
    {dw_ops_purchase, &dw_ops_purchase_count},
    {dw_ops_pull, &dw_ops_pull_count},
    {dw_ops_shift, &dw_ops_shift_count},
    {dw_ops_stock, &dw_ops_stock_count},
    {dw_ops_released, &dw_ops_released_count},
    {dw_ops_trace, &dw_ops_trace_count},
    {dw_ops_formulary, &dw_ops_formulary_count},
    {dw_ops_shop, &dw_ops_shop_count},
    {dw_ops_week, &dw_ops_week_count},
};

enum { OPS_MOST = 256 };

/* Written once, before any thread reads it. */
static struct {
    dw_op ops[OPS_MOST];
    size_t count;
    pthread_once_t once;
} all = {.once = PTHREAD_ONCE_INIT};

static int by_name(const void *a, const void *b)
{
    return strcmp(((const dw_op *)a)->name, ((const dw_op *)b)->name);
}

static void build(void)
{
    for (size_t i = 0; i < DW_COUNT(tables); i++) {
        DW_ASSERT(all.count + *tables[i].count <= OPS_MOST);
        memcpy(all.ops + all.count, tables[i].ops,
               *tables[i].count * sizeof(dw_op));
        all.count += *tables[i].count;
    }
    qsort(all.ops, all.count, sizeof(dw_op), by_name);
}

const dw_op *dw_ops(size_t *count)
{
    pthread_once(&all.once, build);
    *count = all.count;
    return all.ops;
}

const dw_op *dw_op_find(const char *name)
{
    size_t count;
    const dw_op *ops = dw_ops(&count);
    const dw_op wanted = {.name = name};
    return bsearch(&wanted, ops, count, sizeof(dw_op), by_name);
}
