#include "doughwright/formula.h"

#include <string.h>

dw_status dw_formula_split(const dw_formula *formula, double *final_percent,
                           dw_err *err)
{
    DW_TRY(dw_formula_verify(formula, err));
    for (size_t i = 0; i < formula->lines_count; i++)
        final_percent[i] = formula->lines[i].percent;
    for (size_t s = 0; s < formula->stages_count; s++) {
        const dw_stage *stage = &formula->stages[s];
        for (size_t j = 0; j < stage->lines_count; j++) {
            /* water poured in twice is two lines: take from each in turn */
            double left = stage->flour_percent * stage->lines[j].percent / 100;
            for (size_t i = 0; i < formula->lines_count && left > 0; i++) {
                if (!dw_line_same(&formula->lines[i], &stage->lines[j]))
                    continue;
                double part = left < final_percent[i] ? left : final_percent[i];
                final_percent[i] -= part;
                left -= part;
            }
        }
    }
    return DW_OK;
}

/* Add `percent` of a line to the union of lines being built. */
static void add_line(dw_formula *total, const dw_line *line, double percent)
{
    for (size_t i = 0; i < total->lines_count; i++)
        if (dw_line_same(&total->lines[i], line)) {
            total->lines[i].percent += percent;
            return;
        }
    dw_line *fresh = &total->lines[total->lines_count++];
    *fresh = *line;
    fresh->percent = percent;
}

static dw_status room(dw_err *err)
{
    return dw_fail(err, DW_E_ROOM, "formula", NULL);
}

dw_status dw_formula_join(const dw_formula *final_mix,
                          const double *amount_percent, dw_arena *arena,
                          dw_formula *total, dw_err *err)
{
    dw_formula lone = {final_mix->lines, final_mix->lines_count, NULL, 0};
    DW_TRY(dw_formula_verify(&lone, err));
    size_t most = final_mix->lines_count, stages = final_mix->stages_count;
    for (size_t s = 0; s < stages; s++)
        most += final_mix->stages[s].lines_count;
    dw_formula sum = {DW_NEW_ARRAY(arena, dw_line, most), 0,
                      DW_NEW_ARRAY(arena, dw_stage, stages), stages};
    if (!sum.lines || !sum.stages)
        return room(err);
    double flour = 100; /* all flour, per 100 of the final mix's */
    for (size_t s = 0; s < stages; s++) {
        const dw_stage *stage = &final_mix->stages[s];
        double whole = dw_lines_total_percent(stage->lines, stage->lines_count);
        sum.stages[s] = *stage;
        sum.stages[s].flour_percent =
            whole > 0 ? 100 * amount_percent[s] / whole : 0;
        flour += sum.stages[s].flour_percent;
    }
    for (size_t i = 0; i < final_mix->lines_count; i++)
        add_line(&sum, &final_mix->lines[i],
                 100 * final_mix->lines[i].percent / flour);
    for (size_t s = 0; s < stages; s++) {
        dw_stage *stage = &sum.stages[s];
        stage->flour_percent *= 100 / flour;
        for (size_t j = 0; j < stage->lines_count; j++)
            add_line(&sum, &stage->lines[j],
                     stage->flour_percent * stage->lines[j].percent / 100);
    }
    DW_TRY(dw_formula_verify(&sum, err));
    *total = sum;
    return DW_OK;
}
