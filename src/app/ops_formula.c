/* Formulas in baker's percent: scale, split into stages, join, from weights. */
#include "app/op.h"
#include "doughwright/formula.h"

#include <float.h>

static dw_status room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "reply", NULL);
}

/* ---- a line with its weight, in replies ---- */

typedef struct weighed_line {
    const char *material;
    int kind;
    double percent, kg;
} weighed_line;

static const dw_field weighed_line_fields[] = {
    DW_F_TEXT(weighed_line, material, 80, "the shop's name for it"),
    DW_F_CHOICE(weighed_line, kind, dw_line_kind_words, "what it does"),
    DW_F_REAL(weighed_line, percent, "percent", 0, DBL_MAX,
              "of the flour of this formula, stage or mix"),
    DW_F_REAL(weighed_line, kg, "kg", 0, DBL_MAX, "weight"),
};
static const dw_shape weighed_line_shape =
    DW_SHAPE("weighed_line", weighed_line, weighed_line_fields,
             "an ingredient and its weight");

static weighed_line *weighed_lines(dw_arena *arena, const dw_line *lines,
                                   size_t count)
{
    weighed_line *out = DW_NEW_ARRAY(arena, weighed_line, count);
    for (size_t i = 0; out && i < count; i++)
        out[i] = (weighed_line){lines[i].material, lines[i].kind,
                                lines[i].percent, 0};
    return out;
}

/* ---- formula.scale ---- */

typedef struct scale_request {
    dw_formula formula;
    dw_target target;
} scale_request;

static const dw_field scale_request_fields[] = {
    DW_F_ONE(scale_request, formula, &dw_formula_shape, "what to make"),
    DW_F_ONE(scale_request, target, &dw_target_shape, "how much of it"),
};
static const dw_shape scale_request_shape =
    DW_SHAPE("scale_request", scale_request, scale_request_fields,
             "a formula and how much of it");

typedef struct scale_reply {
    double flour_kg, dough_kg, usable_kg, total_percent, hydration_percent;
    bool hydration_assumed;
    weighed_line *lines;
    size_t lines_count;
} scale_reply;

static const dw_field scale_reply_fields[] = {
    DW_F_REAL(scale_reply, flour_kg, "kg", 0, DBL_MAX, "total flour"),
    DW_F_REAL(scale_reply, dough_kg, "kg", 0, DBL_MAX, "all lines together"),
    DW_F_REAL(scale_reply, usable_kg, "kg", 0, DBL_MAX, "dough less the loss"),
    DW_F_REAL(scale_reply, total_percent, "percent", 0, DBL_MAX,
              "dough per 100 of flour"),
    DW_F_REAL(scale_reply, hydration_percent, "percent", 0, DBL_MAX,
              "all water over all flour, milk, eggs and old dough counted"),
    DW_F_YES(scale_reply, hydration_assumed, false,
             "was the usual water of an ingredient taken for its own"),
    DW_F_MANY(scale_reply, lines, &weighed_line_shape, 1, 60,
              "in the order of the formula"),
};
static const dw_shape scale_reply_shape = DW_SHAPE(
    "scale_reply", scale_reply, scale_reply_fields, "the weights of a formula");

static dw_status run_scale(dw_call *call, const void *request, void *reply)
{
    const scale_request *in = request;
    const dw_formula *formula = &in->formula;
    size_t n = formula->lines_count;
    double *kg = DW_NEW_ARRAY(call->arena, double, n);
    weighed_line *lines = weighed_lines(call->arena, formula->lines, n);
    if (!kg || !lines)
        return room(call);
    dw_scaled scaled;
    dw_hydration wet;
    DW_TRY(dw_formula_scale(formula, &in->target, kg, &scaled, call->err));
    dw_lines_hydration(formula->lines, NULL, n, &wet);
    for (size_t i = 0; i < n; i++)
        lines[i].kg = kg[i];
    *(scale_reply *)reply = (scale_reply){scaled.flour_kg,
                                          scaled.dough_kg,
                                          scaled.usable_kg,
                                          scaled.total_percent,
                                          wet.percent,
                                          wet.assumed,
                                          lines,
                                          n};
    return DW_OK;
}

/* ---- formula.split ---- */

typedef struct split_stage {
    const char *name;
    int kind;
    double flour_percent, flour_kg, dough_kg;
    bool has_amount_percent;
    double amount_percent;
    weighed_line *lines;
    size_t lines_count;
} split_stage;

static const dw_field split_stage_fields[] = {
    DW_F_TEXT(split_stage, name, 80, "the stage's name"),
    DW_F_CHOICE(split_stage, kind, dw_stage_kind_words, "what sort it is"),
    DW_F_REAL(split_stage, flour_percent, "percent", 0, 100,
              "of the total flour"),
    DW_F_REAL(split_stage, flour_kg, "kg", 0, DBL_MAX, "flour in it"),
    DW_F_REAL(split_stage, dough_kg, "kg", 0, DBL_MAX, "all of it"),
    DW_F_REAL_OPT(split_stage, amount_percent, "percent", 0, DBL_MAX,
                  "all of it per 100 of the final mix's flour"),
    DW_F_MANY(split_stage, lines, &weighed_line_shape, 1, 60,
              "percent of the stage's flour"),
};
static const dw_shape split_stage_shape = DW_SHAPE(
    "split_stage", split_stage, split_stage_fields, "a stage and its weights");

typedef struct final_line {
    const char *material;
    int kind;
    double total_percent;
    bool has_percent;
    double percent;
    double kg;
} final_line;

static const dw_field final_line_fields[] = {
    DW_F_TEXT(final_line, material, 80, "the shop's name for it"),
    DW_F_CHOICE(final_line, kind, dw_line_kind_words, "what it does"),
    DW_F_REAL(final_line, total_percent, "percent", 0, DBL_MAX,
              "what is left for the final mix, of the total flour"),
    DW_F_REAL_OPT(final_line, percent, "percent", 0, DBL_MAX,
                  "the same, of the final mix's own flour"),
    DW_F_REAL(final_line, kg, "kg", 0, DBL_MAX, "weight"),
};
static const dw_shape final_line_shape =
    DW_SHAPE("final_line", final_line, final_line_fields,
             "what the final mix gets of an ingredient");

typedef struct split_reply {
    double flour_kg, dough_kg, final_flour_kg, final_kg;
    split_stage *stages;
    size_t stages_count;
    final_line *final;
    size_t final_count;
} split_reply;

static const dw_field split_reply_fields[] = {
    DW_F_REAL(split_reply, flour_kg, "kg", 0, DBL_MAX, "total flour"),
    DW_F_REAL(split_reply, dough_kg, "kg", 0, DBL_MAX, "total dough"),
    DW_F_REAL(split_reply, final_flour_kg, "kg", 0, DBL_MAX,
              "flour that goes into the final mix"),
    DW_F_REAL(split_reply, final_kg, "kg", 0, DBL_MAX,
              "the final mix without its stages"),
    DW_F_MANY_OPT(split_reply, stages, &split_stage_shape, 6,
                  "what is mixed earlier"),
    DW_F_MANY(split_reply, final, &final_line_shape, 1, 60,
              "total less stages, in the order of the formula"),
};
static const dw_shape split_reply_shape =
    DW_SHAPE("split_reply", split_reply, split_reply_fields,
             "a formula's stages and its final mix");

static bool split_stages(dw_call *call, const dw_formula *formula,
                         split_reply *out)
{
    out->stages_count = formula->stages_count;
    out->stages = DW_NEW_ARRAY(call->arena, split_stage, out->stages_count);
    for (size_t s = 0; out->stages && s < out->stages_count; s++) {
        const dw_stage *from = &formula->stages[s];
        split_stage *to = &out->stages[s];
        to->name = from->name;
        to->kind = from->kind;
        to->flour_percent = from->flour_percent;
        to->flour_kg = out->flour_kg * from->flour_percent / 100;
        to->lines_count = from->lines_count;
        to->lines = weighed_lines(call->arena, from->lines, from->lines_count);
        if (!to->lines)
            return false;
        for (size_t j = 0; j < to->lines_count; j++) {
            to->lines[j].kg = to->flour_kg * from->lines[j].percent / 100;
            to->dough_kg += to->lines[j].kg;
        }
        to->has_amount_percent = out->final_flour_kg > 0;
        if (to->has_amount_percent)
            to->amount_percent = 100 * to->dough_kg / out->final_flour_kg;
    }
    return out->stages != NULL;
}

static bool split_final(dw_call *call, const dw_formula *formula,
                        const double *left, split_reply *out)
{
    double flour = 0;
    size_t n = formula->lines_count;
    out->final = DW_NEW_ARRAY(call->arena, final_line, n);
    out->final_count = n;
    if (!out->final)
        return false;
    for (size_t i = 0; i < n; i++)
        if (formula->lines[i].kind == DW_FLOUR)
            flour += left[i];
    for (size_t i = 0; i < n; i++) {
        final_line *line = &out->final[i];
        *line = (final_line){formula->lines[i].material,
                             formula->lines[i].kind,
                             left[i],
                             flour > 0,
                             flour > 0 ? 100 * left[i] / flour : 0,
                             out->flour_kg * left[i] / 100};
        out->final_kg += line->kg;
    }
    out->final_flour_kg = out->flour_kg * flour / 100;
    return true;
}

static dw_status run_split(dw_call *call, const void *request, void *reply)
{
    const scale_request *in = request;
    size_t n = in->formula.lines_count;
    double *kg = DW_NEW_ARRAY(call->arena, double, n);
    double *left = DW_NEW_ARRAY(call->arena, double, n);
    if (!kg || !left)
        return room(call);
    dw_scaled scaled;
    split_reply out = {0};
    DW_TRY(dw_formula_scale(&in->formula, &in->target, kg, &scaled, call->err));
    DW_TRY(dw_formula_split(&in->formula, left, call->err));
    out.flour_kg = scaled.flour_kg;
    out.dough_kg = scaled.dough_kg;
    if (!split_final(call, &in->formula, left, &out) ||
        !split_stages(call, &in->formula, &out))
        return room(call);
    *(split_reply *)reply = out;
    return DW_OK;
}

/* ---- formula.join ---- */

typedef struct join_stage {
    const char *name;
    int kind;
    double amount_percent;
    dw_line *lines;
    size_t lines_count;
} join_stage;

static const dw_field join_stage_fields[] = {
    DW_F_TEXT(join_stage, name, 80, "the stage's name"),
    DW_F_CHOICE(join_stage, kind, dw_stage_kind_words, "what sort it is"),
    DW_F_REAL(join_stage, amount_percent, "percent", 0, 10000,
              "all of it per 100 of the final mix's flour"),
    DW_F_MANY(join_stage, lines, &dw_line_shape, 1, 60,
              "percent of the stage's own flour"),
};
static const dw_shape join_stage_shape =
    DW_SHAPE("join_stage", join_stage, join_stage_fields,
             "a stage, told by the final mix's flour");

typedef struct join_request {
    dw_line *final;
    size_t final_count;
    join_stage *stages;
    size_t stages_count;
} join_request;

static const dw_field join_request_fields[] = {
    DW_F_MANY(join_request, final, &dw_line_shape, 1, 60,
              "the final mix, percent of its own flour"),
    DW_F_MANY(join_request, stages, &join_stage_shape, 1, 6,
              "what is mixed earlier"),
};
static const dw_shape join_request_shape =
    DW_SHAPE("join_request", join_request, join_request_fields,
             "a card that tells a final mix and its stages");

typedef struct join_reply {
    dw_formula formula;
} join_reply;

static const dw_field join_reply_fields[] = {
    DW_F_ONE(join_reply, formula, &dw_formula_shape, "the total formula"),
};
static const dw_shape join_reply_shape =
    DW_SHAPE("join_reply", join_reply, join_reply_fields, "a total formula");

static dw_status run_join(dw_call *call, const void *request, void *reply)
{
    const join_request *in = request;
    size_t n = in->stages_count;
    dw_stage *stages = DW_NEW_ARRAY(call->arena, dw_stage, n);
    double *amounts = DW_NEW_ARRAY(call->arena, double, n);
    if (!stages || !amounts)
        return room(call);
    for (size_t s = 0; s < n; s++) {
        const join_stage *from = &in->stages[s];
        stages[s] = (dw_stage){from->name, from->kind, 0, from->lines,
                               from->lines_count};
        amounts[s] = from->amount_percent;
    }
    const dw_formula final_mix = {in->final, in->final_count, stages, n};
    return dw_formula_join(&final_mix, amounts, call->arena,
                           &((join_reply *)reply)->formula, call->err);
}

/* ---- formula.from_weights ---- */

typedef struct weight {
    const char *material;
    int kind;
    double kg;
} weight;

static const dw_field weight_fields[] = {
    DW_F_TEXT(weight, material, 80, "the shop's name for it"),
    DW_F_CHOICE(weight, kind, dw_line_kind_words, "what it does"),
    DW_F_REAL(weight, kg, "kg", 0, 100000, "weight"),
};
static const dw_shape weight_shape =
    DW_SHAPE("weight", weight, weight_fields, "an ingredient by weight");

typedef struct weights_request {
    weight *lines;
    size_t lines_count;
} weights_request;

static const dw_field weights_request_fields[] = {
    DW_F_MANY(weights_request, lines, &weight_shape, 1, 60, "what goes in"),
};
static const dw_shape weights_request_shape =
    DW_SHAPE("weights_request", weights_request, weights_request_fields,
             "a recipe by weight");

static dw_status run_from_weights(dw_call *call, const void *request,
                                  void *reply)
{
    const weights_request *in = request;
    size_t n = in->lines_count;
    dw_line *lines = DW_NEW_ARRAY(call->arena, dw_line, n);
    double *kg = DW_NEW_ARRAY(call->arena, double, n);
    double *percent = DW_NEW_ARRAY(call->arena, double, n);
    if (!lines || !kg || !percent)
        return room(call);
    scale_reply out = {0};
    for (size_t i = 0; i < n; i++) {
        lines[i].material = in->lines[i].material;
        lines[i].kind = in->lines[i].kind;
        kg[i] = in->lines[i].kg;
        out.dough_kg += kg[i];
        if (lines[i].kind == DW_FLOUR)
            out.flour_kg += kg[i];
    }
    DW_TRY(dw_lines_from_weights(lines, kg, n, percent, call->err));
    for (size_t i = 0; i < n; i++)
        lines[i].percent = percent[i];
    dw_hydration wet;
    dw_lines_hydration(lines, NULL, n, &wet);
    out.usable_kg = out.dough_kg;
    out.total_percent = 100 * out.dough_kg / out.flour_kg;
    out.hydration_percent = wet.percent;
    out.hydration_assumed = wet.assumed;
    out.lines = weighed_lines(call->arena, lines, n);
    out.lines_count = n;
    if (!out.lines)
        return room(call);
    for (size_t i = 0; i < n; i++)
        out.lines[i].kg = kg[i];
    *(scale_reply *)reply = out;
    return DW_OK;
}

const dw_op dw_ops_formula[] = {
    {"formula.scale", DW_OP_LIGHT, &scale_request_shape, &scale_reply_shape,
     run_scale, "Weights of a formula for flour, dough, bags, pieces or pans."},
    {"formula.split", DW_OP_PURE, &scale_request_shape, &split_reply_shape,
     run_split, "The stages of a formula and what is left for the final mix."},
    {"formula.join", DW_OP_PURE, &join_request_shape, &join_reply_shape,
     run_join, "The total formula of a final mix and its stages."},
    {"formula.from_weights", DW_OP_PURE, &weights_request_shape,
     &scale_reply_shape, run_from_weights,
     "Baker's percents of a recipe given by weight."},
};
const size_t dw_ops_formula_count = DW_COUNT(dw_ops_formula);
