/* Slips of formulas and of weighings. */
#include "app/op.h"
#include "app/say_slip.h"

#include <float.h>

/* ---- formula.check ---- */

typedef struct check_request {
    dw_formula formula;
    int style, process;
    bool has_norm;
    dw_formula norm;
    bool has_yeast_table;
    dw_yeast_table yeast_table;
} check_request;

static const dw_field check_request_fields[] = {
    DW_F_ONE(check_request, formula, &dw_formula_shape, "what to look at"),
    DW_F_CHOICE_PRESET(check_request, style, dw_style_words, DW_THIN,
                       "the style it is for"),
    DW_F_CHOICE_PRESET(check_request, process, dw_process_words, DW_COLD,
                       "how the dough is held"),
    DW_F_ONE_OPT(check_request, norm, &dw_formula_shape,
                 "a formula the shop has accepted: its own norm"),
    DW_F_ONE_OPT(check_request, yeast_table, &dw_yeast_table_shape,
                 "the shop's own yeast conversion"),
};
static const dw_shape check_request_shape =
    DW_SHAPE("check_request", check_request, check_request_fields,
             "a formula, its style and process");

typedef struct slip_row {
    const char *material;
    double percent;
    int level, code, kind;
    double usual_low, usual_high;
    const char *message;
} slip_row;

static const dw_field slip_row_fields[] = {
    DW_F_TEXT(slip_row, material, 80, "the line, or what is missing"),
    DW_F_REAL(slip_row, percent, "percent", 0, DBL_MAX,
              "all lines of its kind together"),
    DW_F_CHOICE(slip_row, level, dw_slip_level_words,
                "ask: was it meant? wrong: almost surely not"),
    DW_F_CHOICE(slip_row, code, dw_slip_code_words, "what it looks like"),
    DW_F_CHOICE(slip_row, kind, dw_line_kind_words, "what the line does"),
    DW_F_REAL(slip_row, usual_low, "percent", 0, DBL_MAX, "usual from"),
    DW_F_REAL(slip_row, usual_high, "percent", 0, DBL_MAX, "usual to"),
    DW_F_TEXT(slip_row, message, 1000, "one sentence for people"),
};
static const dw_shape slip_row_shape =
    DW_SHAPE("slip", slip_row, slip_row_fields, "a suspicious number");

typedef struct check_reply {
    slip_row *slips;
    size_t slips_count;
} check_reply;

static const dw_field check_reply_fields[] = {
    DW_F_MANY_OPT(check_reply, slips, &slip_row_shape, DW_SLIPS_MOST,
                  "empty when all is as usual"),
};
static const dw_shape check_reply_shape = DW_SHAPE(
    "check_reply", check_reply, check_reply_fields, "what looks like a slip");

static dw_status run_check(dw_call *call, const void *request, void *reply)
{
    const check_request *in = request;
    const dw_slip_basis basis = {
        in->style, in->process, in->has_norm ? &in->norm : NULL,
        in->has_yeast_table ? &in->yeast_table : &dw_yeast_usual};
    dw_slip slips[DW_SLIPS_MOST];
    size_t count = 0;
    DW_TRY(dw_formula_slips(&in->formula, &basis, slips, &count, call->err));
    slip_row *rows = DW_NEW_ARRAY(call->arena, slip_row, count);
    for (size_t i = 0; rows && i < count; i++) {
        const dw_slip *slip = &slips[i];
        const char *material = slip->material;
        const char *message =
            dw_say_slip(call->arena, call->lang, slip, &basis);
        rows[i] = (slip_row){material ? material
                                      : dw_say_kind(call->lang, slip->kind),
                             slip->percent,
                             slip->level,
                             slip->code,
                             slip->kind,
                             slip->usual_low,
                             slip->usual_high,
                             message};
        if (!message)
            rows = NULL;
    }
    if (!rows)
        return dw_fail(call->err, DW_E_ROOM, "slips", NULL);
    *(check_reply *)reply = (check_reply){rows, count};
    return DW_OK;
}

/* ---- weight.check ---- */

typedef struct weight_request {
    const char *material;
    double planned_kg, weighed_kg, tolerance_kg;
    int units;
} weight_request;

static const dw_field weight_request_fields[] = {
    DW_F_TEXT(weight_request, material, 80, "what was weighed"),
    DW_F_REAL(weight_request, planned_kg, "kg", 1e-6, 1e5, "as planned"),
    DW_F_REAL(weight_request, weighed_kg, "kg", 0, 1e5, "as weighed"),
    DW_F_REAL_PRESET(weight_request, tolerance_kg, "kg", 0, 1e5, 0,
                     "what the scale cannot tell; never less than 5 percent"),
    DW_F_CHOICE_PRESET(weight_request, units, dw_units_words, DW_METRIC,
                       "units of the message"),
};
static const dw_shape weight_request_shape =
    DW_SHAPE("weight_request", weight_request, weight_request_fields,
             "what was weighed against what was planned");

typedef struct weight_reply {
    bool fits;
    int code, level;
    double ratio;
    const char *message;
} weight_reply;

static const dw_field weight_reply_fields[] = {
    DW_F_YES(weight_reply, fits, false, "is it as planned"),
    DW_F_CHOICE(weight_reply, code, dw_weighed_words, "what it looks like"),
    DW_F_CHOICE(weight_reply, level, dw_slip_level_words,
                "means something when it does not fit"),
    DW_F_REAL(weight_reply, ratio, "", 0, DBL_MAX, "weighed over planned"),
    DW_F_TEXT(weight_reply, message, 1000, "one sentence for people"),
};
static const dw_shape weight_reply_shape =
    DW_SHAPE("weight_reply", weight_reply, weight_reply_fields,
             "does what was weighed fit");

static dw_status run_weight(dw_call *call, const void *request, void *reply)
{
    const weight_request *in = request;
    dw_weighing w;
    DW_TRY(dw_slip_weighed(in->planned_kg, in->weighed_kg, in->tolerance_kg, &w,
                           call->err));
    const char *message =
        dw_say_weighing(call->arena, call->lang, in->material, in->planned_kg,
                        in->weighed_kg, &w, (dw_units_choice)in->units);
    if (!message)
        return dw_fail(call->err, DW_E_ROOM, "message", NULL);
    *(weight_reply *)reply = (weight_reply){w.code == DW_WEIGHED_FITS, w.code,
                                            w.level, w.ratio, message};
    return DW_OK;
}

const dw_op dw_ops_slip[] = {
    {"formula.check", DW_OP_LIGHT, &check_request_shape, &check_reply_shape,
     run_check, "Numbers of a formula that are probably not what was meant."},
    {"weight.check", DW_OP_PURE, &weight_request_shape, &weight_reply_shape,
     run_weight, "Does what was weighed fit what was planned?"},
};
const size_t dw_ops_slip_count = DW_COUNT(dw_ops_slip);
