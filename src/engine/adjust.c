#include "doughwright/adjust.h"

#include "engine/text_case.h"

const char *const dw_adjustment_words[] = {"add",     "weighed", "forgotten",
                                           "doubled", "swap",    NULL};

static const dw_field adjustment_fields[] = {
    DW_F_CHOICE(dw_adjustment, what, dw_adjustment_words, "what happened"),
    DW_F_TEXT(dw_adjustment, material, 80, "the ingredient's name"),
    DW_F_REAL_OPT(dw_adjustment, kg, "kg", -100000, 100000,
                  "how much, for add (negative: held back) and weighed"),
    {"kind", DW_CHOICE, false, "", 0, 0, 0, offsetof(dw_adjustment, kind),
     offsetof(dw_adjustment, has_kind), DW_NOWHERE, dw_line_kind_words, NULL,
     "the yeast it was swapped for"},
};
const dw_shape dw_adjustment_shape =
    DW_SHAPE("adjustment", dw_adjustment, adjustment_fields,
             "something that went otherwise than planned");

static dw_status swap(const dw_adjustment *change, const dw_yeast_table *table,
                      dw_adjusted_line *line, dw_err *err)
{
    if (!change->has_kind)
        return dw_fail(err, DW_E_MISSING, "kind", NULL);
    if (!dw_line_kind_is_yeast(line->kind))
        return dw_fail_says(err, DW_E_CHOICE, "material", change->material,
                            "is not a yeast, so it cannot be swapped for one");
    if (!dw_line_kind_is_yeast(change->kind))
        return dw_fail(err, DW_E_CHOICE, "kind",
                       dw_line_kind_words[change->kind]);
    line->kg = dw_yeast_convert(table, line->kg, line->kind, change->kind);
    line->kind = change->kind;
    return DW_OK;
}

static dw_status apply(const dw_adjustment *change, const dw_yeast_table *table,
                       dw_adjusted_line *line, dw_err *err)
{
    bool needs_kg =
        change->what == DW_ADJUST_ADD || change->what == DW_ADJUST_WEIGHED;
    if (needs_kg && !change->has_kg)
        return dw_fail(err, DW_E_MISSING, "kg", NULL);
    switch (change->what) {
    case DW_ADJUST_ADD:
        DW_TRY(dw_check_range(err, "kg", change->kg, -line->kg, 100000));
        line->kg += change->kg;
        return DW_OK;
    case DW_ADJUST_WEIGHED:
        DW_TRY(dw_check_range(err, "kg", change->kg, 0, 100000));
        line->kg = change->kg;
        return DW_OK;
    case DW_ADJUST_FORGOTTEN: line->kg = 0; return DW_OK;
    case DW_ADJUST_DOUBLED: line->kg += line->planned_kg; return DW_OK;
    default: return swap(change, table, line, err);
    }
}

static dw_adjusted_line *line_named(dw_adjusted_line *lines, size_t count,
                                    const char *material)
{
    for (size_t i = 0; i < count; i++)
        if (dw_text__same(lines[i].material, material))
            return &lines[i];
    return NULL;
}

/* Water of the lines as they now are: a swapped yeast has its own. */
static void hydration(const dw_formula *formula, const dw_adjusted_line *lines,
                      dw_adjusted *sum)
{
    dw_line now[60];
    double kg[60];
    DW_ASSERT(formula->lines_count <= DW_COUNT(now));
    for (size_t i = 0; i < formula->lines_count; i++) {
        now[i] = formula->lines[i];
        if (now[i].kind != lines[i].kind) {
            now[i].kind = lines[i].kind;
            now[i].has_water_percent = false;
        }
        kg[i] = lines[i].kg;
    }
    dw_hydration wet;
    dw_lines_hydration(now, kg, formula->lines_count, &wet);
    sum->hydration_percent = wet.percent;
}

dw_status dw_batch_adjust(const dw_formula *formula, const double *planned_kg,
                          const dw_adjustment *adjustments, size_t count,
                          const dw_yeast_table *table, dw_adjusted_line *lines,
                          dw_adjusted *adjusted, dw_err *err)
{
    dw_err local;
    if (!err)
        err = &local;
    size_t n = formula->lines_count;
    for (size_t i = 0; i < n; i++)
        lines[i] = (dw_adjusted_line){formula->lines[i].material,
                                      formula->lines[i].kind, planned_kg[i],
                                      planned_kg[i], 0};
    for (size_t i = 0; i < count; i++) {
        dw_adjusted_line *line = line_named(lines, n, adjustments[i].material);
        dw_status status = line ? apply(&adjustments[i], table, line, err)
                                : dw_fail(err, DW_E_NOT_FOUND, "material",
                                          adjustments[i].material);
        if (status != DW_OK)
            return dw_err_within_item(err, "adjustments", i);
    }
    dw_adjusted sum = {0, 0, 0, 0};
    for (size_t i = 0; i < n; i++) {
        sum.dough_kg += lines[i].kg;
        if (lines[i].kind == DW_FLOUR)
            sum.flour_kg += lines[i].kg;
    }
    if (!(sum.flour_kg > 0))
        return dw_fail(err, DW_E_NO_FLOUR, "adjustments", NULL);
    for (size_t i = 0; i < n; i++)
        lines[i].percent = 100 * lines[i].kg / sum.flour_kg;
    sum.total_percent = 100 * sum.dough_kg / sum.flour_kg;
    hydration(formula, lines, &sum);
    *adjusted = sum;
    return DW_OK;
}
