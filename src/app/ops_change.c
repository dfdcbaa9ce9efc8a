/* Versions of a formula and batches that went otherwise than planned. */
#include "app/op.h"
#include "app/say_slip.h"
#include "doughwright/adjust.h"
#include "doughwright/say.h"

#include <float.h>

/* ---- formula.compare ---- */

typedef struct compare_request {
    dw_formula before, after;
} compare_request;

static const dw_field compare_request_fields[] = {
    DW_F_ONE(compare_request, before, &dw_formula_shape, "the older version"),
    DW_F_ONE(compare_request, after, &dw_formula_shape, "the newer version"),
};
static const dw_shape compare_request_shape =
    DW_SHAPE("compare_request", compare_request, compare_request_fields,
             "two versions of a formula");

typedef struct change_row {
    int what;
    const char *stage, *material, *field;
    bool has_from;
    double from;
    bool has_to;
    double to;
    const char *from_word, *to_word, *message;
} change_row;

static const dw_field change_row_fields[] = {
    DW_F_CHOICE(change_row, what, dw_change_words, "what became of it"),
    DW_F_TEXT_OPT(change_row, stage, 80, "empty for the total formula"),
    DW_F_TEXT_OPT(change_row, material, 80, "empty for a stage as a whole"),
    DW_F_TEXT(change_row, field, 40, "what of it"),
    DW_F_REAL_OPT(change_row, from, "percent", 0, DBL_MAX, "before"),
    DW_F_REAL_OPT(change_row, to, "percent", 0, DBL_MAX, "after"),
    DW_F_TEXT_OPT(change_row, from_word, 40, "before, of a kind"),
    DW_F_TEXT_OPT(change_row, to_word, 40, "after, of a kind"),
    DW_F_TEXT(change_row, message, 1000, "one sentence for people"),
};
static const dw_shape change_row_shape =
    DW_SHAPE("change", change_row, change_row_fields, "one difference");

typedef struct compare_reply {
    change_row *changes;
    size_t changes_count;
} compare_reply;

static const dw_field compare_reply_fields[] = {
    DW_F_MANY_OPT(compare_reply, changes, &change_row_shape, 4000,
                  "empty when the versions are alike"),
};
static const dw_shape compare_reply_shape =
    DW_SHAPE("compare_reply", compare_reply, compare_reply_fields,
             "what makes the newer version of the older");

static const char *field_words(const dw_change *change)
{
    static const char *const words[][2] = {
        {"percent", DW_MSG("percent")},
        {"flour_percent", DW_MSG("part of the flour, percent")},
        {"water_percent", DW_MSG("water in it, percent")},
        {"protein_percent", DW_MSG("protein in it, percent")},
        {"kind", DW_MSG("kind")},
    };
    for (size_t i = 0; i < DW_COUNT(words); i++)
        if (dw_text_is(words[i][0], change->field))
            return words[i][1];
    return change->field;
}

static const char *change_sentence(const dw_change *change)
{
    bool inside = change->stage[0] && change->material[0];
    if (change->what == DW_ADDED)
        return inside ? DW_MSG("{stage}: {name} added, {to}")
                      : DW_MSG("{name} added, {to}");
    if (change->what == DW_REMOVED)
        return inside ? DW_MSG("{stage}: {name} removed, it was {from}")
                      : DW_MSG("{name} removed, it was {from}");
    return inside ? DW_MSG("{stage}: {name}: {field} from {from} to {to}")
                  : DW_MSG("{name}: {field} from {from} to {to}");
}

static const char *side(const char *lang, char *out, size_t room, bool has,
                        double number, const char *word)
{
    if (word[0]) {
        int kind = dw_words_find(dw_line_kind_words, word);
        return kind < 0 ? word : dw_say_kind(lang, kind);
    }
    if (!has)
        return dw_say_sentence(lang, DW_MSG("not told"));
    dw_text_number(out, room, number, 9);
    return out;
}

static const char *say_change(dw_call *call, const dw_change *change)
{
    char from[40], to[40];
    const char *name = change->material[0] ? change->material : change->stage;
    const dw_value values[] = {
        DW_VALUE_TEXT("stage", change->stage),
        DW_VALUE_TEXT("name", name),
        DW_VALUE_TEXT("field",
                      dw_say_sentence(call->lang, field_words(change))),
        DW_VALUE_TEXT("from",
                      side(call->lang, from, sizeof from, change->has_from,
                           change->from, change->from_word)),
        DW_VALUE_TEXT("to", side(call->lang, to, sizeof to, change->has_to,
                                 change->to, change->to_word)),
    };
    return dw_say_in(call->arena, call->lang, change_sentence(change), values,
                     DW_COUNT(values));
}

static dw_status run_compare(dw_call *call, const void *request, void *reply)
{
    const compare_request *in = request;
    dw_change *changes;
    size_t count;
    DW_TRY(dw_formula_compare(&in->before, &in->after, call->arena, &changes,
                              &count, call->err));
    change_row *rows = DW_NEW_ARRAY(call->arena, change_row, count);
    for (size_t i = 0; rows && i < count; i++) {
        const dw_change *c = &changes[i];
        const char *message = say_change(call, c);
        rows[i] = (change_row){c->what,      c->stage,   c->material, c->field,
                               c->has_from,  c->from,    c->has_to,   c->to,
                               c->from_word, c->to_word, message};
        if (!message)
            rows = NULL;
    }
    if (!rows)
        return dw_fail(call->err, DW_E_ROOM, "changes", NULL);
    *(compare_reply *)reply = (compare_reply){rows, count};
    return DW_OK;
}

/* ---- formula.adjust ---- */

typedef struct adjust_request {
    dw_formula formula;
    double *planned_kg;
    size_t planned_kg_count;
    dw_adjustment *adjustments;
    size_t adjustments_count;
    bool has_yeast_table;
    dw_yeast_table yeast_table;
} adjust_request;

static const dw_field adjust_request_fields[] = {
    DW_F_ONE(adjust_request, formula, &dw_formula_shape, "as it was planned"),
    DW_F_REALS(adjust_request, planned_kg, "kg", 0, 100000,
               "planned weights, one a line of the formula"),
    DW_F_MANY(adjust_request, adjustments, &dw_adjustment_shape, 0, 100,
              "what went otherwise, in order"),
    DW_F_ONE_OPT(adjust_request, yeast_table, &dw_yeast_table_shape,
                 "the shop's own yeast conversion"),
};
static const dw_shape adjust_request_shape =
    DW_SHAPE("adjust_request", adjust_request, adjust_request_fields,
             "a batch as planned and what happened");

static const dw_field adjusted_line_fields[] = {
    DW_F_TEXT(dw_adjusted_line, material, 80, "the shop's name for it"),
    DW_F_CHOICE(dw_adjusted_line, kind, dw_line_kind_words, "what it is now"),
    DW_F_REAL(dw_adjusted_line, planned_kg, "kg", 0, DBL_MAX, "as planned"),
    DW_F_REAL(dw_adjusted_line, kg, "kg", 0, DBL_MAX, "in the bowl"),
    DW_F_REAL(dw_adjusted_line, percent, "percent", 0, DBL_MAX,
              "of the flour in the bowl"),
};
static const dw_shape adjusted_line_shape =
    DW_SHAPE("adjusted_line", dw_adjusted_line, adjusted_line_fields,
             "an ingredient as it is in the bowl");

typedef struct adjust_reply {
    double flour_kg, dough_kg, total_percent, hydration_percent;
    dw_adjusted_line *lines;
    size_t lines_count;
} adjust_reply;

static const dw_field adjust_reply_fields[] = {
    DW_F_REAL(adjust_reply, flour_kg, "kg", 0, DBL_MAX, "flour in the bowl"),
    DW_F_REAL(adjust_reply, dough_kg, "kg", 0, DBL_MAX, "all in the bowl"),
    DW_F_REAL(adjust_reply, total_percent, "percent", 0, DBL_MAX,
              "dough per 100 of flour"),
    DW_F_REAL(adjust_reply, hydration_percent, "percent", 0, DBL_MAX,
              "all water over all flour"),
    DW_F_MANY(adjust_reply, lines, &adjusted_line_shape, 1, 60,
              "in the order of the formula"),
};
static const dw_shape adjust_reply_shape =
    DW_SHAPE("adjust_reply", adjust_reply, adjust_reply_fields,
             "the batch as it is now");

static dw_status run_adjust(dw_call *call, const void *request, void *reply)
{
    const adjust_request *in = request;
    size_t n = in->formula.lines_count;
    if (in->planned_kg_count != n) {
        dw_fail_range(call->err, "planned_kg", (double)in->planned_kg_count,
                      (double)n, (double)n);
        call->err->sentence =
            DW_MSG("needs one weight for each line of the formula");
        return call->err->status;
    }
    dw_adjusted_line *lines = DW_NEW_ARRAY(call->arena, dw_adjusted_line, n);
    if (!lines)
        return dw_fail(call->err, DW_E_ROOM, "lines", NULL);
    dw_adjusted sum;
    DW_TRY(dw_batch_adjust(
        &in->formula, in->planned_kg, in->adjustments, in->adjustments_count,
        in->has_yeast_table ? &in->yeast_table : &dw_yeast_usual, lines, &sum,
        call->err));
    *(adjust_reply *)reply =
        (adjust_reply){sum.flour_kg,          sum.dough_kg, sum.total_percent,
                       sum.hydration_percent, lines,        n};
    return DW_OK;
}

const dw_op dw_ops_change[] = {
    {"formula.compare", DW_OP_PURE, &compare_request_shape,
     &compare_reply_shape, run_compare,
     "What makes the newer version of a formula of the older."},
    {"formula.adjust", DW_OP_PURE, &adjust_request_shape, &adjust_reply_shape,
     run_adjust,
     "What is in the bowl after something went otherwise than planned."},
};
const size_t dw_ops_change_count = DW_COUNT(dw_ops_change);
