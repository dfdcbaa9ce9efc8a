#include "doughwright/formula.h"

#include "engine/text_case.h"

/* ---- shapes ---- */

const char *const dw_line_kind_words[] = {"flour",
                                          "water",
                                          "salt",
                                          "sugar",
                                          "fat",
                                          "yeast_fresh",
                                          "yeast_active_dry",
                                          "yeast_instant",
                                          "malt",
                                          "gluten",
                                          "dairy",
                                          "dough",
                                          "other",
                                          NULL};
const char *const dw_stage_kind_words[] = {"poolish", "biga", "sponge",
                                           "old_dough", NULL};
const char *const dw_style_words[] = {"thin",       "new_york",   "pan",
                                      "biscuit",    "cracker",    "sicilian",
                                      "neapolitan", "roman_tray", NULL};
const char *const dw_process_words[] = {"cold", "same_day", "emergency",
                                        "frozen", NULL};

static const dw_field line_fields[] = {
    DW_F_TEXT(dw_line, material, 80, "the shop's name for it"),
    DW_F_CHOICE(dw_line, kind, dw_line_kind_words, "what it does in the dough"),
    DW_F_REAL(dw_line, percent, "percent", 0, 1000,
              "of total flour; in a stage, of the stage's flour"),
    DW_F_REAL_OPT(dw_line, water_percent, "percent", 0, 100,
                  "water in it, of its own weight"),
    DW_F_REAL_OPT(dw_line, protein_percent, "percent", 0, 100,
                  "protein in it as it is, of its own weight"),
};
const dw_shape dw_line_shape =
    DW_SHAPE("line", dw_line, line_fields, "one ingredient");

static const dw_field stage_fields[] = {
    DW_F_TEXT(dw_stage, name, 80, "what the shop calls it"),
    DW_F_CHOICE(dw_stage, kind, dw_stage_kind_words, "what sort it is"),
    DW_F_REAL(dw_stage, flour_percent, "percent", 0, 100,
              "part of the total flour that it takes"),
    DW_F_MANY(dw_stage, lines, &dw_line_shape, 1, 60,
              "what goes in, percent of the stage's own flour"),
};
const dw_shape dw_stage_shape =
    DW_SHAPE("stage", dw_stage, stage_fields, "a preferment");

static const dw_field formula_fields[] = {
    DW_F_MANY(dw_formula, lines, &dw_line_shape, 1, 60,
              "the total formula, percent of total flour"),
    DW_F_MANY_OPT(dw_formula, stages, &dw_stage_shape, 6,
                  "what is mixed earlier out of the total"),
};
const dw_shape dw_formula_shape = DW_SHAPE(
    "formula", dw_formula, formula_fields, "a formula in baker's percent");

static const dw_field piece_fields[] = {
    DW_F_WHOLE(dw_piece_target, count, "", 1, 1e6, "how many"),
    DW_F_REAL(dw_piece_target, piece_g, "g", 1, 50000, "weight of one"),
};
const dw_shape dw_piece_target_shape =
    DW_SHAPE("piece_target", dw_piece_target, piece_fields, "pieces of a size");

static const dw_field pan_fields[] = {
    DW_F_WHOLE(dw_pan_target, count, "", 1, 1e6, "how many"),
    DW_F_REAL_OPT(dw_pan_target, diameter_m, "m", 0.01, 5, "of a round pan"),
    DW_F_REAL_OPT(dw_pan_target, length_m, "m", 0.01, 5,
                  "of a rectangular pan"),
    DW_F_REAL_OPT(dw_pan_target, width_m, "m", 0.01, 5, "of a rectangular pan"),
    DW_F_REAL(dw_pan_target, loading_kg_per_m2, "kg/m2", 0.1, 50,
              "dough on a square metre of pan"),
};
const dw_shape dw_pan_target_shape =
    DW_SHAPE("pan_target", dw_pan_target, pan_fields, "pans of a size");

static const dw_field target_fields[] = {
    DW_F_REAL_OPT(dw_target, flour_kg, "kg", 1e-6, 1e6, "total flour"),
    DW_F_REAL_OPT(dw_target, dough_kg, "kg", 1e-6, 1e6, "dough to come out"),
    DW_F_REAL_OPT(dw_target, bags, "", 0.01, 10000, "bags of flour"),
    DW_F_REAL_OPT(dw_target, bag_kg, "kg", 0.1, 1500, "weight of a bag"),
    DW_F_MANY_OPT(dw_target, pieces, &dw_piece_target_shape, 100,
                  "pieces of one or more sizes"),
    DW_F_MANY_OPT(dw_target, pans, &dw_pan_target_shape, 100,
                  "pans of one or more sizes"),
    DW_F_REAL_PRESET(dw_target, loss_percent, "percent", 0, 90, 0,
                     "dough made that never becomes a piece"),
};
const dw_shape dw_target_shape =
    DW_SHAPE("target", dw_target, target_fields,
             "what is wanted: flour, dough, bags, pieces or pans");

/* ---- sums ---- */

double dw_lines_total_percent(const dw_line *lines, size_t count)
{
    double total = 0;
    for (size_t i = 0; i < count; i++)
        total += lines[i].percent;
    return total;
}

bool dw_line_same(const dw_line *a, const dw_line *b)
{
    return a->kind == b->kind && dw_text__same(a->material, b->material);
}

/* A sum that is off: as a range error, but told as one. */
static dw_status off(dw_err *err, const char *field, double value, double low,
                     double high)
{
    dw_fail_range(err, field, value, low, high);
    if (err)
        err->status = DW_E_SUM;
    return DW_E_SUM;
}

static dw_status verify_flour(const dw_line *lines, size_t count, dw_err *err)
{
    double flour = 0;
    for (size_t i = 0; i < count; i++)
        if (lines[i].kind == DW_FLOUR)
            flour += lines[i].percent;
    if (flour == 0)
        return dw_fail(err, DW_E_NO_FLOUR, "lines", NULL);
    if (!(flour >= DW_FLOUR_SUM_LOW && flour <= DW_FLOUR_SUM_HIGH))
        return off(err, "lines", flour, DW_FLOUR_SUM_LOW, DW_FLOUR_SUM_HIGH);
    return DW_OK;
}

/* What the total has of one ingredient, lines of the same name together. */
static double had(const dw_formula *formula, const dw_line *wanted)
{
    double percent = 0;
    for (size_t i = 0; i < formula->lines_count; i++)
        if (dw_line_same(&formula->lines[i], wanted))
            percent += formula->lines[i].percent;
    return percent;
}

/* What stages 0..last take of it; of stage `last` its lines 0..line. */
static double taken(const dw_formula *formula, size_t last, size_t line)
{
    const dw_line *wanted = &formula->stages[last].lines[line];
    double percent = 0;
    for (size_t s = 0; s <= last; s++) {
        const dw_stage *stage = &formula->stages[s];
        size_t count = s == last ? line + 1 : stage->lines_count;
        for (size_t j = 0; j < count; j++)
            if (dw_line_same(&stage->lines[j], wanted))
                percent += stage->flour_percent * stage->lines[j].percent / 100;
    }
    return percent;
}

static dw_status verify_stage(const dw_formula *formula, size_t s, dw_err *err)
{
    static const double slack = 1e-6; /* percent, for rounded cards */
    const dw_stage *stage = &formula->stages[s];
    if (verify_flour(stage->lines, stage->lines_count, err) != DW_OK)
        return dw_err_within_item(err, "stages", s);
    for (size_t j = 0; j < stage->lines_count; j++) {
        double has = had(formula, &stage->lines[j]);
        double all = taken(formula, s, j);
        if (all <= has + slack)
            continue;
        double mine = stage->lines[j].percent;
        double left = mine - 100 * (all - has) / stage->flour_percent;
        off(err, "percent", mine, 0, left > 0 ? left : 0);
        dw_err_within_item(err, "lines", j);
        return dw_err_within_item(err, "stages", s);
    }
    return DW_OK;
}

dw_status dw_formula_verify(const dw_formula *formula, dw_err *err)
{
    dw_err local;
    if (!err)
        err = &local;
    DW_TRY(verify_flour(formula->lines, formula->lines_count, err));
    for (size_t s = 0; s < formula->stages_count; s++)
        DW_TRY(verify_stage(formula, s, err));
    return DW_OK;
}

/* ---- scaling ---- */

static const double PI = 3.14159265358979323846;

dw_status dw_pan_dough_kg(const dw_pan_target *pan, double *kg, dw_err *err)
{
    bool side = pan->has_length_m || pan->has_width_m;
    if (pan->has_diameter_m && side)
        return dw_fail_says(err, DW_E_CONFLICT, "diameter_m", NULL,
                            "goes with a round pan, length and width with a "
                            "rectangular one; give one of the two");
    if (pan->has_diameter_m) {
        *kg =
            pan->loading_kg_per_m2 * PI * pan->diameter_m * pan->diameter_m / 4;
        return DW_OK;
    }
    if (!side)
        return dw_fail(err, DW_E_MISSING, "diameter_m", NULL);
    if (!pan->has_length_m || !pan->has_width_m)
        return dw_fail(err, DW_E_MISSING,
                       pan->has_length_m ? "width_m" : "length_m", NULL);
    *kg = pan->loading_kg_per_m2 * pan->length_m * pan->width_m;
    return DW_OK;
}

static dw_status one_target(const dw_target *target, dw_err *err)
{
    int wanted = target->has_flour_kg + target->has_dough_kg +
                 target->has_bags + (target->pieces_count > 0) +
                 (target->pans_count > 0);
    if (wanted == 0)
        return dw_fail_says(err, DW_E_MISSING, "target", NULL,
                            "needs one of flour_kg, dough_kg, bags, pieces, "
                            "pans");
    if (wanted > 1)
        return dw_fail_says(err, DW_E_CONFLICT, "target", NULL,
                            "takes only one of flour_kg, dough_kg, bags, "
                            "pieces, pans");
    if (target->has_bags != target->has_bag_kg)
        return dw_fail(err, target->has_bags ? DW_E_MISSING : DW_E_CONFLICT,
                       "target.bag_kg", NULL);
    return dw_check_range(err, "target.loss_percent", target->loss_percent, 0,
                          90);
}

/* Dough that is wanted of pieces and pans, kg. */
static dw_status wanted_kg(const dw_target *target, double *kg, dw_err *err)
{
    double sum = target->has_dough_kg ? target->dough_kg : 0;
    for (size_t i = 0; i < target->pieces_count; i++)
        sum +=
            (double)target->pieces[i].count * target->pieces[i].piece_g / 1000;
    for (size_t i = 0; i < target->pans_count; i++) {
        double pan;
        if (dw_pan_dough_kg(&target->pans[i], &pan, err) != DW_OK)
            return dw_err_within_item(err, "target.pans", i);
        sum += (double)target->pans[i].count * pan;
    }
    *kg = sum;
    return DW_OK;
}

dw_status dw_formula_scale(const dw_formula *formula, const dw_target *target,
                           double *kg, dw_scaled *scaled, dw_err *err)
{
    dw_err local;
    if (!err)
        err = &local;
    if (dw_formula_verify(formula, err) != DW_OK)
        return dw_err_within(err, "formula");
    DW_TRY(one_target(target, err));
    double total = dw_lines_total_percent(formula->lines, formula->lines_count);
    double kept = 1 - target->loss_percent / 100, flour, dough = 0;
    if (target->has_flour_kg || target->has_bags) {
        flour =
            target->has_bags ? target->bags * target->bag_kg : target->flour_kg;
        dough = flour * (total / 100);
    } else {
        DW_TRY(wanted_kg(target, &dough, err));
        dough /= kept;
        flour = dough / (total / 100);
    }
    DW_TRY(dw_check_range(err, "dough_kg", dough, 1e-6, 1e6));
    for (size_t i = 0; i < formula->lines_count; i++)
        kg[i] = flour * formula->lines[i].percent / 100;
    *scaled = (dw_scaled){flour, dough, dough * kept, total};
    return DW_OK;
}

dw_status dw_lines_from_weights(const dw_line *lines, const double *kg,
                                size_t count, double *percent, dw_err *err)
{
    double flour = 0;
    for (size_t i = 0; i < count; i++)
        if (lines[i].kind == DW_FLOUR)
            flour += kg[i];
    if (!(flour > 0))
        return dw_fail(err, DW_E_NO_FLOUR, "lines", NULL);
    for (size_t i = 0; i < count; i++)
        percent[i] = 100 * kg[i] / flour;
    return DW_OK;
}
