#include "week_cases.h"

#include "dw_csv.h"

#include <stdlib.h>

static void set_single(week_case *s, int64_t days)
{
    memset(s, 0, sizeof *s);
    dw_shape_preset(&dw_week_request_shape, &s->ask);
    s->mixer = (dw_week_mixer){"mixer", s->minutes, (size_t)days};
    s->bowl = (dw_week_bowl){"mixer", 0, 1e5, 1};
    s->formula = (dw_week_formula){.name = "dough",
                                   .bowls = &s->bowl,
                                   .bowls_count = 1,
                                   .start_costs = s->starts,
                                   .start_costs_count = (size_t)days};
    s->product = (dw_week_product){.name = "ball",
                                   .formula = "dough",
                                   .ball_kg = 1,
                                   .lost_cost = 1e5,
                                   .wanted = s->wanted,
                                   .wanted_count = (size_t)days};
    s->product.latest_days = days - 1;
    for (int64_t t = 0; t < days; t++) {
        s->wanted[t] =
            (dw_week_wanted){.counts = &s->counts[t], .counts_count = 1};
        s->minutes[t] = 1;
    }
    s->ask.days = days;
    s->ask.mixers = &s->mixer;
    s->ask.formulas = &s->formula;
    s->ask.products = &s->product;
    s->ask.mixers_count = s->ask.formulas_count = s->ask.products_count = 1;
}

static int numbers(const char *text, double *list)
{
    int n = 0;
    char *end;
    for (double x = strtod(text, &end); end != text; x = strtod(text, &end)) {
        list[n++] = x;
        text = end;
    }
    return n;
}

/* demand,setup_cost,holding,optimal_cost,...: the case's name carries shelf
 * life and capacity. */
static void set_case(week_case *s, const dw_csv *row)
{
    double demand[DW_WEEK_DAYS], starts[DW_WEEK_DAYS];
    int days = numbers(row->cells[1], demand);
    int given = numbers(row->cells[2], starts);
    const char *life = strstr(row->cells[0], "shelf life ");
    const char *capacity = strstr(row->cells[0], "C=");
    set_single(s, days);
    for (int t = 0; t < days; t++) {
        s->counts[t] = (int64_t)demand[t];
        s->starts[t] = starts[given == 1 ? 0 : t];
    }
    s->product.holding_cost = atof(row->cells[3]);
    if (life)
        s->product.latest_days = atoi(life + 11) - 1;
    if (capacity)
        s->bowl.most_kg = atof(capacity + 2);
    if (strstr(row->cells[0], "purchase")) {
        static const double costs[] = {3, 1, 4, 6, 6};
        memcpy(s->makes, costs, sizeof costs);
        s->product.make_costs = s->makes;
        s->product.make_costs_count = 5;
    }
}

int week_cases(const char *path, week_case *cases)
{
    FILE *file = fopen(path, "r");
    dw_csv row;
    int n = 0;
    if (!file)
        return 0;
    dw_csv_row(file, &row);
    while (n < WEEK_CASES && dw_csv_row(file, &row)) {
        set_case(&cases[n], &row);
        snprintf(cases[n].name, sizeof cases[n].name, "%s", row.cells[0]);
        cases[n++].best = atof(row.cells[4]);
    }
    fclose(file);
    return n;
}
