#include "doughwright/minors.h"

static const double DRY_PERCENT = 15, DAY_MS = 86400000;

static const dw_field request_fields[] = {
    DW_F_ONE(dw_minors_request, formula, &dw_formula_shape, "of the batch"),
    DW_F_REAL(dw_minors_request, flour_kg, "kg", 0.01, 2000,
              "flour of the batch one bag is for"),
    DW_F_WHOLE_PRESET(dw_minors_request, bags, "", 1, 1000, 1, "how many"),
    DW_F_REAL_PRESET(dw_minors_request, diluent_kg, "kg", 0, 50, 0,
                     "flour in one bag, counted against the batch's"),
    DW_F_TEXT_OPT(dw_minors_request, diluent, 120,
                  "which flour line; the first when not told"),
    DW_F_REAL_PRESET(dw_minors_request, tolerance_percent, "percent", 0.01, 10,
                     1, "of the bag"),
    DW_F_MOMENT(dw_minors_request, made_ms, "when they are weighed"),
    DW_F_WHOLE_PRESET(dw_minors_request, days, "d", 1, 30, 7,
                      "until they are thrown away"),
};
const dw_shape dw_minors_request_shape =
    DW_SHAPE("minors_request", dw_minors_request, request_fields,
             "minors to be weighed ahead");

static const dw_field line_fields[] = {
    DW_F_TEXT(dw_minors_line, material, 120, "what goes in"),
    DW_F_CHOICE(dw_minors_line, kind, dw_line_kind_words, "what it is"),
    DW_F_REAL(dw_minors_line, bag_kg, "kg", 0, 1e6, "in one bag"),
    DW_F_REAL(dw_minors_line, all_kg, "kg", 0, 1e9, "in all bags"),
};
static const dw_shape line_shape =
    DW_SHAPE("minors_line", dw_minors_line, line_fields, "a line of a bag");

static const dw_field reply_fields[] = {
    DW_F_MANY(dw_minors_reply, lines, &line_shape, 0, 64, "diluent first"),
    DW_F_REAL(dw_minors_reply, bag_kg, "kg", 0, 1e6, "a full bag"),
    DW_F_REAL(dw_minors_reply, low_kg, "kg", 0, 1e6, "lightest allowed"),
    DW_F_REAL(dw_minors_reply, high_kg, "kg", 0, 1e6, "heaviest allowed"),
    DW_F_TEXT_OPT(dw_minors_reply, diluent, 120, "the flour in the bag"),
    DW_F_REAL(dw_minors_reply, flour_left_kg, "kg", 0, 1e6,
              "of that flour still to be weighed for the batch"),
    DW_F_WHOLE(dw_minors_reply, bags, "", 1, 1000, "how many"),
    DW_F_MOMENT(dw_minors_reply, made_ms, "when they were weighed"),
    DW_F_MOMENT(dw_minors_reply, discard_ms, "when they are thrown away"),
};
const dw_shape dw_minors_reply_shape =
    DW_SHAPE("minors_reply", dw_minors_reply, reply_fields, "what a bag holds");

bool dw_minors_takes(const dw_line *line)
{
    switch ((dw_line_kind)line->kind) {
    case DW_SALT:
    case DW_SUGAR:
    case DW_YEAST_INSTANT:
    case DW_MALT:
    case DW_GLUTEN: return true;
    case DW_OTHER:
        return line->has_water_percent && line->water_percent <= DRY_PERCENT;
    case DW_FLOUR:
    case DW_WATER:
    case DW_FAT:
    case DW_YEAST_FRESH:
    case DW_YEAST_ACTIVE_DRY:
    case DW_DAIRY:
    case DW_DOUGH: return false;
    }
    DW_ASSERT(false);
    return false;
}

static dw_status check_yeast(const dw_formula *formula, dw_err *err)
{
    for (size_t i = 0; i < formula->lines_count; i++) {
        int kind = formula->lines[i].kind;
        char field[64];
        dw_text_item(field, sizeof field, "formula.lines", i, ".kind");
        if (kind == DW_YEAST_FRESH || kind == DW_YEAST_ACTIVE_DRY)
            return dw_fail_says(err, DW_E_CHOICE, field,
                                dw_line_kind_words[kind],
                                "must be instant yeast: no other keeps in a "
                                "bag with salt and flour");
    }
    return DW_OK;
}

/* A stage that holds a minor would leave the bag with too much of it. */
static dw_status check_stages(const dw_formula *formula, dw_err *err)
{
    for (size_t i = 0; i < formula->stages_count; i++)
        for (size_t k = 0; k < formula->stages[i].lines_count; k++) {
            char field[64];
            dw_text_item(field, sizeof field, "formula.stages", i, "");
            if (dw_minors_takes(&formula->stages[i].lines[k]))
                return dw_fail_says(err, DW_E_CONFLICT, field,
                                    formula->stages[i].name,
                                    "takes minors of its own; weigh them "
                                    "apart");
        }
    return DW_OK;
}

static dw_status find_diluent(const dw_minors_request *request, dw_err *err,
                              const dw_line **flour)
{
    const dw_formula *formula = &request->formula;
    bool any = false;
    for (size_t i = 0; i < formula->lines_count; i++) {
        const dw_line *line = &formula->lines[i];
        if (line->kind != DW_FLOUR)
            continue;
        any = true;
        if (request->diluent && !dw_text_is(request->diluent, line->material))
            continue;
        *flour = line;
        return DW_OK;
    }
    if (any)
        return dw_fail(err, DW_E_NOT_FOUND, "diluent", request->diluent);
    return dw_fail(err, DW_E_NO_FLOUR, "formula.lines", NULL);
}

static void add_line(const dw_minors_request *request, const dw_line *line,
                     double kg, dw_minors_reply *out)
{
    out->lines[out->lines_count++] = (dw_minors_line){
        line->material, line->kind, kg, kg * (double)request->bags};
    out->bag_kg += kg;
}

dw_status dw_minors_bag(const dw_minors_request *request, dw_arena *arena,
                        dw_err *err, dw_minors_reply *reply)
{
    const dw_formula *formula = &request->formula;
    const dw_line *flour = NULL;
    DW_TRY(check_yeast(formula, err));
    DW_TRY(check_stages(formula, err));
    DW_TRY(find_diluent(request, err, &flour));
    double line_kg = flour->percent / 100 * request->flour_kg;
    DW_TRY(dw_check_range(err, "diluent_kg", request->diluent_kg, 0, line_kg));
    dw_minors_reply out = {
        .lines = DW_NEW_ARRAY(arena, dw_minors_line, formula->lines_count + 1),
        .diluent = flour->material,
        .flour_left_kg = line_kg - request->diluent_kg,
        .bags = request->bags,
        .made_ms = request->made_ms,
        .discard_ms = request->made_ms + request->days * (int64_t)DAY_MS,
    };
    if (!out.lines)
        return dw_fail(err, DW_E_ROOM, "arena", NULL);
    if (request->diluent_kg > 0)
        add_line(request, flour, request->diluent_kg, &out);
    size_t minors = 0;
    for (size_t i = 0; i < formula->lines_count; i++) {
        const dw_line *line = &formula->lines[i];
        if (!dw_minors_takes(line) || line->percent <= 0)
            continue;
        add_line(request, line, line->percent / 100 * request->flour_kg, &out);
        minors++;
    }
    if (minors == 0)
        return dw_fail_says(err, DW_E_MISSING, "formula.lines", NULL,
                            "holds nothing that goes into a bag");
    double allowed = out.bag_kg * request->tolerance_percent / 100;
    out.low_kg = out.bag_kg - allowed;
    out.high_kg = out.bag_kg + allowed;
    *reply = out;
    return DW_OK;
}
