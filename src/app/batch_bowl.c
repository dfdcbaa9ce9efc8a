/* What is in a batch's bowl: as planned, and as it went. */
#include "app/batches.h"

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "batch", NULL);
}

/* ---- the dough as it is -------------------------------------------------- */

typedef struct list {
    dw_adjustment *rows;
    size_t count;
} list;

static bool is_line(const dw_formula *formula, const char *material)
{
    for (size_t i = 0; i < formula->lines_count; i++)
        if (dw_text_is(formula->lines[i].material, material))
            return true;
    return false;
}

/* A bag of minors or a preferment weighed as one is no line of the formula:
 * what it weighs otherwise cannot be told apart, and is left out. */
static void add_weighing(const dw_formula *formula,
                         const dw_batch_weighing *row, list *out)
{
    double off = row->weighed_kg - row->planned_kg;
    if (row->has_weighed_kg && off != 0 && is_line(formula, row->material))
        out->rows[out->count++] = (dw_adjustment){.what = DW_ADJUST_ADD,
                                                  .material = row->material,
                                                  .has_kg = true,
                                                  .kg = off};
}

static void add(list *out, int what, const char *material)
{
    out->rows[out->count++] =
        (dw_adjustment){.what = what, .material = material};
}

static void add_kg(list *out, int what, const dw_batch_change *change)
{
    add(out, what, change->material);
    out->rows[out->count - 1].has_kg = true;
    out->rows[out->count - 1].kg = change->kg;
}

/* A change that moves no weight (another lot, oil that slides) adds nothing.
 * Yeast of another kind is as much as raises alike, unless it was weighed. */
static void add_change(const dw_batch_change *change, list *out)
{
    switch (change->kind) {
    case DW_CHANGE_WATER: add_kg(out, DW_ADJUST_ADD, change); break;
    case DW_CHANGE_FORGOTTEN:
        add(out, DW_ADJUST_FORGOTTEN, change->material);
        break;
    case DW_CHANGE_DOUBLED:
        add(out, DW_ADJUST_DOUBLED, change->material);
        break;
    case DW_CHANGE_YEAST_TYPE:
        add(out, DW_ADJUST_SWAP, change->material);
        out->rows[out->count - 1].has_kind = change->has_to_kind;
        out->rows[out->count - 1].kind = change->to_kind;
        if (change->kg != 0)
            add_kg(out, DW_ADJUST_WEIGHED, change);
        break;
    default: break;
    }
}

/* Weighings that came otherwise than planned, then what was reported. */
static dw_status read_adjustments(dw_call *call, int64_t batch_id,
                                  const dw_formula *formula, list *out)
{
    dw_batch_weighing *weighings;
    dw_batch_change *changes;
    size_t weighings_count, changes_count;
    DW_TRY(dw_rows_get(call, "batch_weighing", &dw_batch_weighing_noun,
                       "batch_id", batch_id, "position", &weighings,
                       &weighings_count));
    DW_TRY(dw_rows_get(call, "batch_change", &dw_batch_change_noun, "batch_id",
                       batch_id, "id", &changes, &changes_count));
    out->count = 0;
    out->rows = DW_NEW_ARRAY(call->arena, dw_adjustment,
                             weighings_count + 2 * changes_count);
    if (!out->rows)
        return no_room(call);
    for (size_t i = 0; i < weighings_count; i++)
        add_weighing(formula, &weighings[i], out);
    for (size_t i = 0; i < changes_count; i++)
        add_change(&changes[i], out);
    return DW_OK;
}

/* The formula's lines as they went in: a yeast that was exchanged has the
 * water of its own kind. */
static void take_lines(const dw_adjusted_line *now, dw_formula *formula)
{
    for (size_t i = 0; i < formula->lines_count; i++) {
        dw_line *line = &formula->lines[i];
        line->percent = now[i].percent;
        if (line->kind == now[i].kind)
            continue;
        line->kind = now[i].kind;
        line->has_water_percent = false;
    }
}

static dw_status adjust(dw_call *call, const dw_shop *shop,
                        const dw_batch_row *batch, const list *off,
                        dw_bowl *bowl)
{
    size_t n = bowl->planned.lines_count;
    double *kg = DW_NEW_ARRAY(call->arena, double, n);
    dw_adjusted_line *lines = DW_NEW_ARRAY(call->arena, dw_adjusted_line, n);
    dw_yeast_table table = {"shop", 1, shop->yeast_active_dry_ratio,
                            shop->yeast_instant_ratio};
    if (!kg || !lines)
        return no_room(call);
    for (size_t i = 0; i < n; i++)
        kg[i] = batch->flour_kg * bowl->planned.lines[i].percent / 100;
    DW_TRY(dw_batch_adjust(&bowl->planned, kg, off->rows, off->count, &table,
                           lines, &bowl->sum, call->err));
    if (off->count > 0)
        take_lines(lines, &bowl->now);
    return DW_OK;
}

dw_status dw_bowl_read(dw_call *call, const dw_shop *shop,
                       const dw_batch_row *batch, const dw_formula *formula,
                       dw_bowl *bowl)
{
    list off;
    DW_TRY(read_adjustments(call, batch->id, formula, &off));
    bowl->off = off.count > 0;
    DW_TRY(dw_formula_watered(call, formula, batch->lot_water_percent,
                              &bowl->planned));
    DW_TRY(dw_formula_watered(call, &bowl->planned, 0, &bowl->now));
    return adjust(call, shop, batch, &off, bowl);
}
