/* Papers of a formula: its procedure for the wall, and its weights at a size.
 */
#include "paper/papers.h"

#include "app/formulary.h"
#include "app/said.h"
#include "paper/steps.h"
#include "paper/words.h"

/* ---- the procedure ------------------------------------------------------- */

typedef struct procedure_card {
    dw_recipe recipe;
    dw_card_reply card; /* of 100 kg of flour: kilograms are percent */
} procedure_card;

static const char *step_measure(dw_sheet *sheet, const dw_card_step *step)
{
    if (step->has_kg && step->kind == DW_STEP_ADD)
        return dw_paper__print(sheet, "%s\u00a0%%",
                               dw_paper__number(sheet, step->kg, 4));
    if (step->minutes > 0)
        return dw_paper__minutes(sheet, step->minutes, step->has_minutes_to,
                                 step->minutes_to);
    if (step->kind == DW_STEP_PROBE && step->has_goal_c)
        return dw_paper__temperature(sheet, step->goal_c);
    return NULL;
}

static void draw_procedure(dw_sheet *sheet, const void *object)
{
    const procedure_card *what = object;
    const dw_card_reply *card = &what->card;
    dw_sheet_gap(sheet, 4);
    dw_paper__draw_cautions(sheet, card->sayings, card->sayings_count);
    for (size_t i = 0; i < card->steps_count; i++) {
        const char *stage = card->steps[i].stage;
        if (!dw_text_is(stage, i > 0 ? card->steps[i - 1].stage : NULL))
            dw_paper__stage(sheet, stage);
        const char *measure = step_measure(sheet, &card->steps[i]);
        const dw_cell cells[] = {
            {DW_CELL_RIGHT, 26, DW_INK_AMOUNT,
             dw_paper__number(sheet, (double)i + 1, 4)},
            {DW_CELL_TEXT, 0, DW_INK_WALL,
             dw_paper__step(sheet, &card->steps[i], &card->sayings[i])},
            {DW_CELL_RIGHT, 80, DW_INK_AMOUNT, measure},
        };
        dw_sheet_row(sheet, cells, measure ? 3 : 2);
    }
    dw_sheet_gap(sheet, 8);
    for (size_t i = 0; i < card->notes_count; i++)
        if (card->notes[i].message)
            dw_sheet_say(sheet, DW_INK_BODY, card->notes[i].message);
    dw_sheet_say(sheet, DW_INK_BODY,
                 dw_paper__word(sheet, DW_MSG("Percents are of total flour. "
                                              "Raw flour and dough are not "
                                              "tasted.")));
}

static dw_status make_card(dw_sheet *sheet, procedure_card *what)
{
    dw_call *call = sheet->call;
    dw_card_request request;
    dw_shape_preset(&dw_card_request_shape, &request);
    request.formula = what->recipe.formula;
    request.flour_kg = 100;
    request.procedure = (dw_procedure){what->recipe.name, what->recipe.steps,
                                       what->recipe.steps_count};
    request.mixer_second_speed = true;
    request.has_dough_goal_c = true;
    request.dough_goal_c = what->recipe.dough_goal_c;
    dw_card_reply *card = &what->card;
    DW_TRY(dw_procedure_card(&request, call->arena, call->err, card));
    DW_TRY(dw_said_card(call, card->steps, card->steps_count, &card->sayings));
    card->sayings_count = card->steps_count;
    return dw_said_notes(call, card->notes, card->notes_count);
}

static void name_formula(dw_sheet *sheet, const dw_recipe *recipe,
                         const char *detail)
{
    const dw_value values[] = {
        DW_VALUE_NUMBER("version", (double)recipe->number),
        DW_VALUE_TEXT("goal",
                      dw_paper__temperature(sheet, recipe->dough_goal_c)),
    };
    sheet->title = recipe->name;
    sheet->detail = dw_paper__say(sheet, detail, values, DW_COUNT(values));
}

dw_status dw_paper__procedure(dw_sheet *sheet, const dw_paper_request *request,
                              dw_paper *paper)
{
    procedure_card what = {.card = {.steps = NULL}};
    DW_TRY(dw_recipe_newest(sheet->call, request->id, &what.recipe));
    DW_TRY(make_card(sheet, &what));
    name_formula(sheet, &what.recipe,
                 DW_MSG("Procedure, version {version}. Dough at {goal}."));
    return dw_sheet_print(sheet, draw_procedure, &what, paper);
}

/* ---- at a size ----------------------------------------------------------- */

typedef struct scaled_formula {
    dw_recipe recipe;
    const dw_target *target;
    dw_scaled scaled;
    double *kg;            /* of each line of the total formula */
    double *final_percent; /* of each line, what the stages leave */
} scaled_formula;

static void line_row(dw_sheet *sheet, const char *material, double percent,
                     double kg)
{
    const dw_cell cells[] = {
        {DW_CELL_BOX, 16, DW_INK_BODY, NULL},
        {DW_CELL_TEXT, 0, DW_INK_BODY, dw_paper__capital(sheet, material)},
        {DW_CELL_RIGHT, 90, DW_INK_LABEL,
         dw_paper__print(sheet, "%s\u00a0%%",
                         dw_paper__number(sheet, percent, 5))},
        {DW_CELL_RIGHT, 140, DW_INK_AMOUNT, dw_paper__mass(sheet, kg, 0)},
    };
    dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

static void draw_lines_head(dw_sheet *sheet)
{
    const dw_cell cells[] = {
        {DW_CELL_TEXT, 16, DW_INK_LABEL, NULL},
        {DW_CELL_TEXT, 0, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Ingredient"))},
        {DW_CELL_RIGHT, 90, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("of flour"))},
        {DW_CELL_RIGHT, 140, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Weight"))},
    };
    dw_sheet_head_row(sheet, cells, DW_COUNT(cells));
}

/* What each stage takes, then what the final mix still gets. */
static void draw_stages(dw_sheet *sheet, const scaled_formula *what)
{
    const dw_formula *formula = &what->recipe.formula;
    for (size_t i = 0; i < formula->stages_count; i++) {
        const dw_stage *stage = &formula->stages[i];
        double flour_kg = what->scaled.flour_kg * stage->flour_percent / 100;
        dw_sheet_heading(sheet, dw_paper__capital(sheet, stage->name), 60);
        for (size_t j = 0; j < stage->lines_count; j++)
            line_row(sheet, stage->lines[j].material, stage->lines[j].percent,
                     flour_kg * stage->lines[j].percent / 100);
    }
    if (formula->stages_count == 0)
        return;
    dw_sheet_heading(sheet, dw_paper__word(sheet, DW_MSG("Final mix")), 60);
    for (size_t i = 0; i < formula->lines_count; i++)
        if (what->final_percent[i] > 1e-9)
            line_row(sheet, formula->lines[i].material, what->final_percent[i],
                     what->scaled.flour_kg * what->final_percent[i] / 100);
}

/* What it was scaled for, where that is more than a weight. */
static void draw_target(dw_sheet *sheet, const dw_target *target)
{
    for (size_t i = 0; i < target->pieces_count; i++) {
        double kg = target->pieces[i].piece_g / 1000;
        dw_sheet_say(sheet, DW_INK_BODY,
                     dw_paper__print(sheet, "%d × %s",
                                     (int)target->pieces[i].count,
                                     dw_paper__mass(sheet, kg, 0)));
    }
    for (size_t i = 0; i < target->pans_count; i++) {
        const dw_value values[] = {
            DW_VALUE_NUMBER("count", (double)target->pans[i].count)};
        dw_sheet_say(sheet, DW_INK_BODY,
                     dw_paper__say(sheet, DW_MSG("Pans: {count}."), values, 1));
    }
}

static void draw_scale(dw_sheet *sheet, const void *object)
{
    const scaled_formula *what = object;
    const dw_formula *formula = &what->recipe.formula;
    const dw_value values[] = {
        DW_VALUE_TEXT("flour", dw_paper__mass(sheet, what->scaled.flour_kg, 0)),
        DW_VALUE_TEXT("dough", dw_paper__mass(sheet, what->scaled.dough_kg, 0)),
        DW_VALUE_TEXT("usable",
                      dw_paper__mass(sheet, what->scaled.usable_kg, 0)),
        DW_VALUE_TEXT("percent",
                      dw_paper__number(sheet, what->scaled.total_percent, 6)),
    };
    dw_sheet_gap(sheet, 6);
    dw_sheet_say(sheet, DW_INK_AMOUNT,
                 dw_paper__say(sheet,
                               DW_MSG("{flour} of flour make {dough} of "
                                      "dough."),
                               values, DW_COUNT(values)));
    draw_target(sheet, what->target);
    dw_sheet_gap(sheet, 4);
    draw_lines_head(sheet);
    for (size_t i = 0; i < formula->lines_count; i++)
        line_row(sheet, formula->lines[i].material, formula->lines[i].percent,
                 what->kg[i]);
    const dw_cell sum[] = {
        {DW_CELL_TEXT, 16, DW_INK_BODY, NULL},
        {DW_CELL_TEXT, 0, DW_INK_STRONG,
         dw_paper__word(sheet, DW_MSG("Together"))},
        {DW_CELL_RIGHT, 90, DW_INK_LABEL,
         dw_paper__print(sheet, "%s\u00a0%%", values[3].text)},
        {DW_CELL_RIGHT, 140, DW_INK_AMOUNT, values[1].text},
    };
    dw_sheet_row(sheet, sum, DW_COUNT(sum));
    if (what->scaled.usable_kg < what->scaled.dough_kg - 1e-9) {
        dw_sheet_gap(sheet, 4);
        dw_sheet_say(sheet, DW_INK_BODY,
                     dw_paper__say(sheet,
                                   DW_MSG("{usable} of it become pieces; the "
                                          "rest is the usual loss."),
                                   values, DW_COUNT(values)));
    }
    draw_stages(sheet, what);
}

static dw_status scale(dw_sheet *sheet, scaled_formula *what)
{
    dw_call *call = sheet->call;
    const dw_formula *formula = &what->recipe.formula;
    what->kg = DW_NEW_ARRAY(call->arena, double, formula->lines_count);
    what->final_percent =
        DW_NEW_ARRAY(call->arena, double, formula->lines_count);
    if (!what->kg || !what->final_percent)
        return dw_fail(call->err, DW_E_ROOM, "paper", NULL);
    if (dw_formula_scale(formula, what->target, what->kg, &what->scaled,
                         call->err) != DW_OK)
        return dw_err_within(call->err, "target");
    return dw_formula_split(formula, what->final_percent, call->err);
}

dw_status dw_paper__scale(dw_sheet *sheet, const dw_paper_request *request,
                          dw_paper *paper)
{
    const dw_target usual = {.has_flour_kg = true, .flour_kg = 10};
    scaled_formula what = {.target =
                               request->has_target ? &request->target : &usual};
    DW_TRY(dw_recipe_newest(sheet->call, request->id, &what.recipe));
    DW_TRY(scale(sheet, &what));
    name_formula(sheet, &what.recipe,
                 DW_MSG("Weights, version {version}. Dough at {goal}."));
    return dw_sheet_print(sheet, draw_scale, &what, paper);
}
