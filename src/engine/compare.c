#include "doughwright/formula.h"

#include "engine/text_case.h"

const char *const dw_change_words[] = {"added", "removed", "changed", NULL};

enum { FIELDS = 4 }; /* of a line that can change */

typedef struct list {
    dw_change *changes;
    size_t count;
} list;

static dw_change *push(list *out, int what, const char *stage,
                       const char *material, const char *field)
{
    dw_change *change = &out->changes[out->count++];
    *change =
        (dw_change){what, stage, material, field, false, 0, false, 0, "", ""};
    return change;
}

static void push_number(list *out, const char *stage, const char *material,
                        const char *field, const double *from, const double *to)
{
    if (!from && !to)
        return;
    if (from && to && *from == *to)
        return;
    dw_change *change = push(out, DW_CHANGED, stage, material, field);
    change->has_from = from != NULL;
    change->has_to = to != NULL;
    change->from = from ? *from : 0;
    change->to = to ? *to : 0;
}

static void push_word(list *out, const char *stage, const char *material,
                      const char *from, const char *to)
{
    if (from == to)
        return;
    dw_change *change = push(out, DW_CHANGED, stage, material, "kind");
    change->from_word = from;
    change->to_word = to;
}

static void compare_line(list *out, const char *stage, const dw_line *a,
                         const dw_line *b)
{
    const char *name = b->material;
    push_number(out, stage, name, "percent", &a->percent, &b->percent);
    push_word(out, stage, name, dw_line_kind_words[a->kind],
              dw_line_kind_words[b->kind]);
    push_number(out, stage, name, "water_percent",
                a->has_water_percent ? &a->water_percent : NULL,
                b->has_water_percent ? &b->water_percent : NULL);
    push_number(out, stage, name, "protein_percent",
                a->has_protein_percent ? &a->protein_percent : NULL,
                b->has_protein_percent ? &b->protein_percent : NULL);
}

typedef struct lines {
    const dw_line *at;
    size_t count;
} lines;

/* The line of that name which is, as often, the so-manieth: the second "water"
 * is compared with the second. */
static const dw_line *match(lines where, lines from, size_t index)
{
    const char *name = from.at[index].material;
    size_t before = 0;
    for (size_t i = 0; i < index; i++)
        before += dw_text__same(from.at[i].material, name);
    for (size_t i = 0; i < where.count; i++)
        if (dw_text__same(where.at[i].material, name) && before-- == 0)
            return where.at + i;
    return NULL;
}

static void compare_lines(list *out, const char *stage, lines a, lines b)
{
    for (size_t i = 0; i < b.count; i++) {
        const dw_line *old = match(a, b, i);
        if (old) {
            compare_line(out, stage, old, &b.at[i]);
            continue;
        }
        dw_change *change =
            push(out, DW_ADDED, stage, b.at[i].material, "percent");
        change->has_to = true;
        change->to = b.at[i].percent;
    }
    for (size_t i = 0; i < a.count; i++) {
        if (match(b, a, i))
            continue;
        dw_change *change =
            push(out, DW_REMOVED, stage, a.at[i].material, "percent");
        change->has_from = true;
        change->from = a.at[i].percent;
    }
}

static const dw_stage *stage_named(const dw_formula *formula, const char *name)
{
    for (size_t s = 0; s < formula->stages_count; s++)
        if (dw_text__same(formula->stages[s].name, name))
            return &formula->stages[s];
    return NULL;
}

/* A stage that came or went is one change; its lines go with it. */
static void compare_stages(list *out, const dw_formula *a, const dw_formula *b)
{
    for (size_t s = 0; s < b->stages_count; s++) {
        const dw_stage *now = &b->stages[s], *old = stage_named(a, now->name);
        if (!old) {
            dw_change *change =
                push(out, DW_ADDED, now->name, "", "flour_percent");
            change->has_to = true;
            change->to = now->flour_percent;
            continue;
        }
        push_number(out, now->name, "", "flour_percent", &old->flour_percent,
                    &now->flour_percent);
        push_word(out, now->name, "", dw_stage_kind_words[old->kind],
                  dw_stage_kind_words[now->kind]);
        compare_lines(out, now->name, (lines){old->lines, old->lines_count},
                      (lines){now->lines, now->lines_count});
    }
    for (size_t s = 0; s < a->stages_count; s++) {
        const dw_stage *old = &a->stages[s];
        if (stage_named(b, old->name))
            continue;
        dw_change *change =
            push(out, DW_REMOVED, old->name, "", "flour_percent");
        change->has_from = true;
        change->from = old->flour_percent;
    }
}

/* No list of changes can be longer. */
static size_t most_changes(const dw_formula *formula)
{
    size_t most = FIELDS * formula->lines_count;
    for (size_t s = 0; s < formula->stages_count; s++)
        most += 2 + FIELDS * formula->stages[s].lines_count;
    return most;
}

dw_status dw_formula_compare(const dw_formula *before, const dw_formula *after,
                             dw_arena *arena, dw_change **changes,
                             size_t *count, dw_err *err)
{
    list out = {DW_NEW_ARRAY(arena, dw_change,
                             most_changes(before) + most_changes(after)),
                0};
    if (!out.changes)
        return dw_fail(err, DW_E_ROOM, "changes", NULL);
    compare_lines(&out, "", (lines){before->lines, before->lines_count},
                  (lines){after->lines, after->lines_count});
    compare_stages(&out, before, after);
    *changes = out.changes;
    *count = out.count;
    return DW_OK;
}
