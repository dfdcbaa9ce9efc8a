/* Ingredients: blends of flour, yeast by type, quantities as typed. */
#include "app/op.h"
#include "doughwright/flour.h"
#include "doughwright/quantity.h"
#include "doughwright/say.h"
#include "doughwright/yeast.h"

#include <float.h>

/* ---- formula.blend ---- */

typedef struct gluten {
    double protein_percent;
    bool has_moisture_percent;
    double moisture_percent;
} gluten;

static const dw_field gluten_fields[] = {
    DW_F_REAL(gluten, protein_percent, "percent", 50, 100,
              "its protein as it is"),
    DW_F_REAL_OPT(gluten, moisture_percent, "percent", 0, 40,
                  "its own water; 8.2 when not told (USDA SR26 48052)"),
};
static const dw_shape gluten_shape =
    DW_SHAPE("gluten", gluten, gluten_fields, "vital wheat gluten");

typedef struct blend_request {
    dw_flour *flours;
    size_t flours_count;
    bool has_target_protein_percent;
    double target_protein_percent;
    bool has_gluten;
    gluten gluten;
    double basis_percent;
} blend_request;

static const dw_field blend_request_fields[] = {
    DW_F_MANY(blend_request, flours, &dw_flour_shape, 1, 12,
              "the flours; for a target without gluten two, without shares"),
    DW_F_REAL_OPT(blend_request, target_protein_percent, "percent", 0, 60,
                  "wanted protein on the basis"),
    DW_F_ONE_OPT(blend_request, gluten, &gluten_shape,
                 "gluten to reach the target with"),
    DW_F_REAL_PRESET(blend_request, basis_percent, "percent", 0, 40, 14,
                     "moisture at which protein is compared"),
};
static const dw_shape blend_request_shape = DW_SHAPE(
    "blend_request", blend_request, blend_request_fields, "flours to blend");

typedef struct share {
    const char *material;
    double share_percent;
} share;

static const dw_field share_fields[] = {
    DW_F_TEXT(share, material, 80, "the flour"),
    DW_F_REAL(share, share_percent, "percent", 0, 100, "of the flours' weight"),
};
static const dw_shape share_shape =
    DW_SHAPE("share", share, share_fields, "a flour's part");

typedef struct blend_reply {
    share *flours;
    size_t flours_count;
    double protein_percent, protein_as_is_percent, moisture_percent;
    bool has_gluten_percent;
    double gluten_percent;
    bool has_gluten_rule_percent;
    double gluten_rule_percent;
    bool has_water_percent;
    double water_percent;
} blend_reply;

static const dw_field blend_reply_fields[] = {
    DW_F_MANY(blend_reply, flours, &share_shape, 1, 12, "the shares"),
    DW_F_REAL(blend_reply, protein_percent, "percent", 0, 100,
              "of the flours, on the basis"),
    DW_F_REAL(blend_reply, protein_as_is_percent, "percent", 0, 100,
              "of the flours as they are"),
    DW_F_REAL(blend_reply, moisture_percent, "percent", 0, 100,
              "of the flours together"),
    DW_F_REAL_OPT(blend_reply, gluten_percent, "percent", 0, DBL_MAX,
                  "gluten to add, of the flours' weight, as it is"),
    DW_F_REAL_OPT(blend_reply, gluten_rule_percent, "percent", 0, DBL_MAX,
                  "what the trade's rule says: points over 0.6"),
    DW_F_REAL_OPT(blend_reply, water_percent, "percent", 0, DBL_MAX,
                  "water to add for it, of the flours' weight"),
};
static const dw_shape blend_reply_shape = DW_SHAPE(
    "blend_reply", blend_reply, blend_reply_fields, "a blend of flours");

/* Two flours and a target: shares are the answer. */
static dw_status find_shares(const blend_request *in, dw_err *err)
{
    double parts[2];
    if (in->flours_count != 2)
        return dw_fail_says(err, DW_E_RANGE, "flours", NULL,
                            DW_MSG("must be two when a target is to be reached "
                                   "without gluten"));
    for (size_t i = 0; i < 2; i++)
        if (in->flours[i].has_share_percent)
            return dw_fail_says(err, DW_E_CONFLICT, "flours.share_percent",
                                NULL,
                                DW_MSG("is the answer when a target is told"));
    DW_TRY(dw_flour_pearson(in->flours, in->target_protein_percent,
                            in->basis_percent, parts, err));
    for (size_t i = 0; i < 2; i++) {
        in->flours[i].has_share_percent = true;
        in->flours[i].share_percent = parts[i];
    }
    return DW_OK;
}

/* All three proteins on the basis, the answer told of gluten as it comes:
 * weights on the basis and as is differ by their dry parts. */
static dw_status add_gluten(const blend_request *in, blend_reply *out,
                            dw_err *err)
{
    static const double usual_moisture = 8.2;
    double moisture = in->gluten.has_moisture_percent
                          ? in->gluten.moisture_percent
                          : usual_moisture;
    double protein = dw_flour_on_basis(in->gluten.protein_percent, moisture,
                                       in->basis_percent);
    dw_gluten_need need;
    DW_TRY(dw_gluten_for(out->protein_percent, protein,
                         in->target_protein_percent, &need, err));
    double as_is =
        need.gluten_percent * (100 - out->moisture_percent) / (100 - moisture);
    out->has_gluten_percent = out->has_gluten_rule_percent = true;
    out->has_water_percent = true;
    out->gluten_percent = as_is;
    out->gluten_rule_percent = need.rule_percent;
    out->water_percent = 1.5 * as_is;
    return DW_OK;
}

static dw_status run_blend(dw_call *call, const void *request, void *reply)
{
    const blend_request *in = request;
    size_t n = in->flours_count;
    if (in->has_gluten && !in->has_target_protein_percent)
        return dw_fail(call->err, DW_E_MISSING, "target_protein_percent", NULL);
    if (in->has_target_protein_percent && !in->has_gluten)
        DW_TRY(find_shares(in, call->err));
    if (n == 1 && !in->flours[0].has_share_percent) {
        in->flours[0].has_share_percent = true;
        in->flours[0].share_percent = 100;
    }
    dw_blend blend;
    DW_TRY(dw_flour_blend(in->flours, n, in->basis_percent, &blend, call->err));
    blend_reply out = {.flours = DW_NEW_ARRAY(call->arena, share, n),
                       .flours_count = n,
                       .protein_percent = blend.protein_percent,
                       .protein_as_is_percent = blend.protein_as_is_percent,
                       .moisture_percent = blend.moisture_percent};
    if (!out.flours)
        return dw_fail(call->err, DW_E_ROOM, "flours", NULL);
    for (size_t i = 0; i < n; i++)
        out.flours[i] =
            (share){in->flours[i].material, in->flours[i].share_percent};
    if (in->has_gluten)
        DW_TRY(add_gluten(in, &out, call->err));
    *(blend_reply *)reply = out;
    return DW_OK;
}

/* ---- yeast.convert ---- */

static const char *const yeast_words[] = {"yeast_fresh", "yeast_active_dry",
                                          "yeast_instant", NULL};

typedef struct yeast_request {
    double percent;
    int from, to;
    bool has_table;
    dw_yeast_table table;
} yeast_request;

static const dw_field yeast_request_fields[] = {
    DW_F_REAL(yeast_request, percent, "percent", 0, 1000,
              "of the yeast there is; a weight converts alike"),
    DW_F_CHOICE(yeast_request, from, yeast_words, "the yeast there is"),
    DW_F_CHOICE(yeast_request, to, yeast_words, "the yeast wanted"),
    DW_F_ONE_OPT(yeast_request, table, &dw_yeast_table_shape,
                 "the shop's own; fresh 1, active dry 0.45, instant 0.35"),
};
static const dw_shape yeast_request_shape =
    DW_SHAPE("yeast_request", yeast_request, yeast_request_fields,
             "one yeast to tell as another");

typedef struct yeast_reply {
    double percent;
    dw_yeast_table table;
} yeast_reply;

static const dw_field yeast_reply_fields[] = {
    DW_F_REAL(yeast_reply, percent, "percent", 0, DBL_MAX,
              "of the yeast wanted"),
    DW_F_ONE(yeast_reply, table, &dw_yeast_table_shape, "by this table"),
};
static const dw_shape yeast_reply_shape = DW_SHAPE(
    "yeast_reply", yeast_reply, yeast_reply_fields, "as much as raises alike");

static dw_status run_yeast(dw_call *call, const void *request, void *reply)
{
    const yeast_request *in = request;
    const dw_yeast_table *table = in->has_table ? &in->table : &dw_yeast_usual;
    double percent = dw_yeast_convert(
        table, in->percent, DW_YEAST_FRESH + in->from, DW_YEAST_FRESH + in->to);
    *(yeast_reply *)reply = (yeast_reply){percent, *table};
    return DW_OK;
}

/* ---- quantity.parse ---- */

typedef struct parse_request {
    const char *text;
    int dimension;
    const char *bare_unit;
} parse_request;

static const dw_field parse_request_fields[] = {
    DW_F_TEXT(parse_request, text, 64, "as a person types it"),
    DW_F_CHOICE(parse_request, dimension, dw_dimension_words, "what it is"),
    DW_F_TEXT_OPT(parse_request, bare_unit, 30,
                  "unit of a number without one; the base unit if not told"),
};
static const dw_shape parse_request_shape = DW_SHAPE(
    "parse_request", parse_request, parse_request_fields, "a typed quantity");

typedef struct parse_reply {
    double value;
    const char *unit, *metric, *us;
} parse_reply;

static const dw_field parse_reply_fields[] = {
    DW_F_REAL(parse_reply, value, "", -DBL_MAX, DBL_MAX, "in the unit"),
    DW_F_TEXT(parse_reply, unit, 30, "the base unit of the dimension"),
    DW_F_TEXT(parse_reply, metric, 60, "printed in kg, g, C, cm"),
    DW_F_TEXT(parse_reply, us, 60, "printed in lb, oz, F, in"),
};
static const dw_shape parse_reply_shape = DW_SHAPE(
    "parse_reply", parse_reply, parse_reply_fields, "the quantity that is");

static const char *printed(dw_call *call, const parse_request *in, double value,
                           dw_units_choice units)
{
    char text[60];
    dw_quantity_print(text, sizeof text, value, (dw_dimension)in->dimension,
                      units);
    return dw_arena_text(call->arena, text);
}

static dw_status run_parse(dw_call *call, const void *request, void *reply)
{
    static const char *const bases[] = {
#define BASE(symbol, word, base, low, high) base,
        DW_DIMENSION_LIST(BASE)
#undef BASE
    };
    const parse_request *in = request;
    dw_dimension dimension = (dw_dimension)in->dimension;
    const char *base = bases[in->dimension];
    const char *bare = in->bare_unit && in->bare_unit[0] ? in->bare_unit : base;
    if (!dw_unit_find(dimension, bare))
        return dw_fail_says(call->err, DW_E_UNIT, "bare_unit", bare,
                            DW_MSG("has a unit that is not known here"));
    double value;
    if (dw_quantity_parse(in->text, dimension, bare, &value, call->err) !=
        DW_OK)
        return dw_err_within(call->err, "text");
    parse_reply out = {value, base, printed(call, in, value, DW_METRIC),
                       printed(call, in, value, DW_US)};
    if (!out.metric || !out.us)
        return dw_fail(call->err, DW_E_ROOM, "text", NULL);
    *(parse_reply *)reply = out;
    return DW_OK;
}

const dw_op dw_ops_flour[] = {
    {"formula.blend", DW_OP_PURE, &blend_request_shape, &blend_reply_shape,
     run_blend, "Protein and moisture of a blend, or the shares for a target."},
    {"yeast.convert", DW_OP_LIGHT, &yeast_request_shape, &yeast_reply_shape,
     run_yeast, "How much of one yeast raises as much as another."},
    {"quantity.parse", DW_OP_LIGHT, &parse_request_shape, &parse_reply_shape,
     run_parse, "Read a quantity with its unit and print it both ways."},
};
const size_t dw_ops_flour_count = DW_COUNT(dw_ops_flour);
