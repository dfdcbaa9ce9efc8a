/* A miller's figures: protein, ash and absorption on a moisture basis, and what
 * a farinograph needs for them. */
#include "app/op.h"
#include "doughwright/flour.h"

/* ---- flour.basis ---- */

typedef struct basis_request {
    bool has_protein_percent, has_ash_percent, has_absorption_percent;
    double protein_percent, ash_percent, absorption_percent;
    double from_percent, to_percent;
} basis_request;

static const dw_field basis_request_fields[] = {
    DW_F_REAL_OPT(basis_request, protein_percent, "percent", 0, 100,
                  "at from_percent"),
    DW_F_REAL_OPT(basis_request, ash_percent, "percent", 0, 100,
                  "at from_percent"),
    DW_F_REAL_OPT(basis_request, absorption_percent, "percent", 0, 200,
                  "water per 100 of the flour at from_percent"),
    DW_F_REAL(basis_request, from_percent, "percent", 0, 40,
              "moisture it is told at"),
    DW_F_REAL_PRESET(basis_request, to_percent, "percent", 0, 40, 14,
                     "moisture wanted; 14 in the United States, 0 in much of "
                     "Europe"),
};
static const dw_shape basis_request_shape =
    DW_SHAPE("basis_request", basis_request, basis_request_fields,
             "figures of a flour at one moisture");

typedef struct basis_reply {
    bool has_protein_percent, has_ash_percent, has_absorption_percent;
    double protein_percent, ash_percent, absorption_percent;
} basis_reply;

static const dw_field basis_reply_fields[] = {
    DW_F_REAL_OPT(basis_reply, protein_percent, "percent", 0, 200,
                  "at to_percent"),
    DW_F_REAL_OPT(basis_reply, ash_percent, "percent", 0, 200, "at to_percent"),
    DW_F_REAL_OPT(basis_reply, absorption_percent, "percent", -100, 400,
                  "at to_percent"),
};
static const dw_shape basis_reply_shape = DW_SHAPE(
    "basis_reply", basis_reply, basis_reply_fields, "the same at another");

static dw_status run_basis(dw_call *call, const void *request, void *reply)
{
    const basis_request *in = request;
    double from = in->from_percent, to = in->to_percent;
    if (!in->has_protein_percent && !in->has_ash_percent &&
        !in->has_absorption_percent)
        return dw_fail(call->err, DW_E_MISSING, "protein_percent", NULL);
    *(basis_reply *)reply = (basis_reply){
        .has_protein_percent = in->has_protein_percent,
        .has_ash_percent = in->has_ash_percent,
        .has_absorption_percent = in->has_absorption_percent,
        .protein_percent = dw_flour_on_basis(in->protein_percent, from, to),
        .ash_percent = dw_flour_on_basis(in->ash_percent, from, to),
        .absorption_percent =
            dw_flour_absorption_on_basis(in->absorption_percent, from, to)};
    return DW_OK;
}

/* ---- flour.farinograph ---- */

typedef struct bowl_request {
    int bowl;
    double moisture_percent, absorption_percent;
    bool has_water_ml;
    double water_ml;
} bowl_request;

static const char *const bowl_words[] = {"50_g", "300_g", NULL};
static const double bowls_g[] = {50, 300};

static const dw_field bowl_request_fields[] = {
    DW_F_CHOICE_PRESET(bowl_request, bowl, bowl_words, 1, "which bowl"),
    DW_F_REAL(bowl_request, moisture_percent, "percent", 0, 40, "the flour's"),
    DW_F_REAL_PRESET(bowl_request, absorption_percent, "percent", 30, 100, 60,
                     "expected, at 14 % moisture"),
    DW_F_REAL_OPT(bowl_request, water_ml, "ml", 0, 400,
                  "poured in, when it was run"),
};
static const dw_shape bowl_request_shape =
    DW_SHAPE("farinograph_request", bowl_request, bowl_request_fields,
             "a flour in a farinograph");

typedef struct bowl_reply {
    double flour_g, water_ml;
    bool has_absorption_percent;
    double absorption_percent;
} bowl_reply;

static const dw_field bowl_reply_fields[] = {
    DW_F_REAL(bowl_reply, flour_g, "g", 0, 1000, "into the bowl"),
    DW_F_REAL(bowl_reply, water_ml, "ml", 0, 1000,
              "for the expected absorption"),
    DW_F_REAL_OPT(bowl_reply, absorption_percent, "percent", -300, 1000,
                  "by the water that was poured in, at 14 % moisture"),
};
static const dw_shape bowl_reply_shape =
    DW_SHAPE("farinograph_reply", bowl_reply, bowl_reply_fields,
             "what goes in, and what it says");

static dw_status run_bowl(dw_call *call, const void *request, void *reply)
{
    const bowl_request *in = request;
    bowl_reply *out = reply;
    double bowl_g = bowls_g[in->bowl];
    (void)call;
    out->flour_g = dw_farinograph_flour_g(bowl_g, in->moisture_percent);
    out->water_ml =
        dw_farinograph_water_ml(bowl_g, out->flour_g, in->absorption_percent);
    out->has_absorption_percent = in->has_water_ml;
    out->absorption_percent =
        dw_farinograph_absorption(bowl_g, out->flour_g, in->water_ml);
    return DW_OK;
}

const dw_op dw_ops_moisture[] = {
    {"flour.basis", DW_OP_PURE, &basis_request_shape, &basis_reply_shape,
     run_basis, "Protein, ash and absorption of a flour at another moisture."},
    {"flour.farinograph", DW_OP_PURE, &bowl_request_shape, &bowl_reply_shape,
     run_bowl, "Flour and water for a farinograph, and the absorption found."},
};
const size_t dw_ops_moisture_count = DW_COUNT(dw_ops_moisture);
