#include "app/formulary.h"

#define ORDER_LINES "stage_position, position"

static const dw_field recipe_fields[] = {
    DW_F_ID(dw_recipe, formula_id, "which formula; 0 adds one"),
    DW_F_ID(dw_recipe, version_id, "which version"),
    DW_F_WHOLE_PRESET(dw_recipe, number, "", 0, 100000, 0, "1, 2..."),
    DW_F_TEXT(dw_recipe, name, 80, "what the shop calls it"),
    DW_F_CHOICE_PRESET(dw_recipe, style, dw_style_words, 0, "what is usual"),
    DW_F_CHOICE_PRESET(dw_recipe, process, dw_process_words, 0,
                       "what is usual"),
    DW_F_YES(dw_recipe, here, true, "still in use"),
    DW_F_TEXT_OPT(dw_recipe, note, 400, "why it changed"),
    DW_F_MOMENT(dw_recipe, made_ms, "when the version was made"),
    DW_F_ID(dw_recipe, person_id, "by whom"),
    DW_F_REAL_PRESET(dw_recipe, dough_goal_c, "degC", 5, 45, 25,
                     "wanted dough temperature"),
    DW_F_YES(dw_recipe, used, false, "never changes again"),
    DW_F_YES(dw_recipe, slips_accepted, false, "its slips were seen and kept"),
    DW_F_ONE(dw_recipe, formula, &dw_formula_shape, "lines and stages"),
    DW_F_MANY_OPT(dw_recipe, steps, &dw_step_shape, 60, "the procedure"),
};
const dw_shape dw_recipe_shape = DW_SHAPE("recipe", dw_recipe, recipe_fields,
                                          "a version of a formula, whole");

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "formula", NULL);
}

/* ---- reading ------------------------------------------------------------- */

/* The run of lines of one stage, as the engine wants them. */
static dw_status take_lines(dw_call *call, const dw_formula_line_row *rows,
                            size_t count, int64_t stage_position,
                            dw_line **lines, size_t *lines_count)
{
    size_t first = 0, n = 0;
    while (first < count && rows[first].stage_position != stage_position)
        first++;
    while (first + n < count &&
           rows[first + n].stage_position == stage_position)
        n++;
    *lines = DW_NEW_ARRAY(call->arena, dw_line, n);
    if (!*lines)
        return no_room(call);
    for (size_t i = 0; i < n; i++)
        (*lines)[i] = rows[first + i].line;
    *lines_count = n;
    return DW_OK;
}

static dw_status read_formula(dw_call *call, int64_t version_id,
                              dw_formula *formula)
{
    dw_formula_line_row *lines;
    dw_formula_stage_row *stages;
    size_t lines_count, stages_count;
    DW_TRY(dw_rows_get(call, "formula_line", &dw_formula_line_noun,
                       "version_id", version_id, ORDER_LINES, &lines,
                       &lines_count));
    DW_TRY(dw_rows_get(call, "formula_stage", &dw_formula_stage_noun,
                       "version_id", version_id, "position", &stages,
                       &stages_count));
    DW_TRY(take_lines(call, lines, lines_count, 0, &formula->lines,
                      &formula->lines_count));
    formula->stages = DW_NEW_ARRAY(call->arena, dw_stage, stages_count);
    if (!formula->stages)
        return no_room(call);
    formula->stages_count = stages_count;
    for (size_t i = 0; i < stages_count; i++) {
        dw_stage *stage = &formula->stages[i];
        stage->name = stages[i].name;
        stage->kind = stages[i].kind;
        stage->flour_percent = stages[i].flour_percent;
        DW_TRY(take_lines(call, lines, lines_count, stages[i].position,
                          &stage->lines, &stage->lines_count));
    }
    return DW_OK;
}

static dw_status read_steps(dw_call *call, int64_t version_id,
                            dw_recipe *recipe)
{
    dw_procedure_step_row *rows;
    size_t n;
    DW_TRY(dw_rows_get(call, "procedure_step", &dw_procedure_step_noun,
                       "version_id", version_id, "position", &rows, &n));
    recipe->steps = DW_NEW_ARRAY(call->arena, dw_step, n);
    if (!recipe->steps)
        return no_room(call);
    recipe->steps_count = n;
    for (size_t i = 0; i < n; i++)
        recipe->steps[i] = rows[i].step;
    return DW_OK;
}

static dw_status fill(dw_call *call, const dw_formula_version *version,
                      dw_recipe *recipe)
{
    dw_formula_row row;
    DW_TRY(dw_row_get(call, "formula", &dw_formula_noun, version->formula_id,
                      "formula_id", &row));
    *recipe = (dw_recipe){.formula_id = row.id,
                          .version_id = version->id,
                          .number = version->number,
                          .name = row.name,
                          .style = row.style,
                          .process = row.process,
                          .here = row.here,
                          .note = version->note,
                          .made_ms = version->made_ms,
                          .person_id = version->person_id,
                          .dough_goal_c = version->dough_goal_c,
                          .used = version->used,
                          .slips_accepted = version->slips_accepted};
    DW_TRY(read_formula(call, version->id, &recipe->formula));
    return read_steps(call, version->id, recipe);
}

dw_status dw_recipe_read(dw_call *call, int64_t version_id, dw_recipe *recipe)
{
    dw_formula_version version;
    DW_TRY(dw_row_get(call, "formula_version", &dw_formula_version_noun,
                      version_id, "version_id", &version));
    return fill(call, &version, recipe);
}

dw_status dw_recipe_newest(dw_call *call, int64_t formula_id, dw_recipe *recipe)
{
    dw_formula_version *versions;
    size_t n;
    DW_TRY(dw_rows_get(call, "formula_version", &dw_formula_version_noun,
                       "formula_id", formula_id, "number DESC", &versions, &n));
    if (n == 0) {
        char text[24];
        dw_text_number(text, sizeof text, (double)formula_id, 15);
        return dw_fail(call->err, DW_E_NOT_FOUND, "formula_id", text);
    }
    return fill(call, &versions[0], recipe);
}

/* ---- writing ------------------------------------------------------------- */

static dw_status write_lines(dw_call *call, int64_t version_id,
                             int64_t stage_position, const dw_line *lines,
                             size_t count)
{
    for (size_t i = 0; i < count; i++) {
        dw_formula_line_row row = {0, version_id, stage_position,
                                   (int64_t)i + 1, lines[i]};
        DW_TRY(dw_row_save(call, "formula_line", &dw_formula_line_noun, &row,
                           NULL));
    }
    return DW_OK;
}

static dw_status write_stages(dw_call *call, int64_t version_id,
                              const dw_formula *formula)
{
    for (size_t i = 0; i < formula->stages_count; i++) {
        const dw_stage *stage = &formula->stages[i];
        dw_formula_stage_row row = {.version_id = version_id,
                                    .position = (int64_t)i + 1,
                                    .name = stage->name,
                                    .kind = stage->kind,
                                    .flour_percent = stage->flour_percent};
        DW_TRY(dw_row_save(call, "formula_stage", &dw_formula_stage_noun, &row,
                           NULL));
        DW_TRY(write_lines(call, version_id, row.position, stage->lines,
                           stage->lines_count));
    }
    return DW_OK;
}

/* All that a version holds, anew. */
static dw_status write_content(dw_call *call, const dw_recipe *recipe)
{
    static const char *const tables[] = {"formula_line", "formula_stage",
                                         "procedure_step"};
    int64_t id = recipe->version_id;
    for (size_t i = 0; i < DW_COUNT(tables); i++)
        DW_TRY(dw_store_delete(call->store, tables[i], "version_id", id,
                               call->err));
    DW_TRY(write_lines(call, id, 0, recipe->formula.lines,
                       recipe->formula.lines_count));
    DW_TRY(write_stages(call, id, &recipe->formula));
    for (size_t i = 0; i < recipe->steps_count; i++) {
        dw_procedure_step_row row = {0, id, (int64_t)i + 1, recipe->steps[i]};
        DW_TRY(dw_row_save(call, "procedure_step", &dw_procedure_step_noun,
                           &row, NULL));
    }
    return DW_OK;
}

static bool same_content(const dw_recipe *a, const dw_recipe *b)
{
    if (a->steps_count != b->steps_count ||
        a->dough_goal_c != b->dough_goal_c ||
        !dw_shape_same(&dw_formula_shape, &a->formula, &b->formula))
        return false;
    for (size_t i = 0; i < a->steps_count; i++)
        if (!dw_shape_same(&dw_step_shape, &a->steps[i], &b->steps[i]))
            return false;
    return true;
}

static dw_status write_version(dw_call *call, dw_recipe *recipe,
                               int64_t version_id, int64_t number)
{
    dw_formula_version version = {.id = version_id,
                                  .formula_id = recipe->formula_id,
                                  .number = number,
                                  .note = recipe->note,
                                  .made_ms = call->now_ms,
                                  .person_id = call->person_id,
                                  .dough_goal_c = recipe->dough_goal_c,
                                  .slips_accepted = recipe->slips_accepted};
    DW_TRY(dw_row_save(call, "formula_version", &dw_formula_version_noun,
                       &version, &recipe->version_id));
    recipe->number = number;
    return write_content(call, recipe);
}

/* "Seen and kept" may be said of a version that is in use: it is about the
 * people, not about the dough. */
static dw_status accept_slips(dw_call *call, int64_t version_id, bool accepted)
{
    dw_formula_version version;
    DW_TRY(dw_row_get(call, "formula_version", &dw_formula_version_noun,
                      version_id, "version_id", &version));
    version.slips_accepted = accepted;
    return dw_row_save(call, "formula_version", &dw_formula_version_noun,
                       &version, NULL);
}

dw_status dw_recipe_write(dw_call *call, dw_recipe *recipe)
{
    if (dw_formula_verify(&recipe->formula, call->err) != DW_OK)
        return dw_err_within(call->err, "formula");
    dw_formula_row row = {recipe->formula_id, recipe->name, recipe->style,
                          recipe->process, recipe->here};
    bool fresh = recipe->formula_id == 0;
    DW_TRY(dw_row_save(call, "formula", &dw_formula_noun, &row,
                       &recipe->formula_id));
    if (fresh)
        return write_version(call, recipe, 0, 1);
    dw_recipe newest;
    DW_TRY(dw_recipe_newest(call, recipe->formula_id, &newest));
    recipe->version_id = newest.version_id;
    recipe->number = newest.number;
    if (same_content(recipe, &newest))
        return accept_slips(call, newest.version_id, recipe->slips_accepted);
    if (newest.used)
        return write_version(call, recipe, 0, newest.number + 1);
    return write_version(call, recipe, newest.version_id, newest.number);
}

dw_status dw_recipe_mark_used(dw_call *call, int64_t version_id)
{
    dw_formula_version version;
    DW_TRY(dw_row_get(call, "formula_version", &dw_formula_version_noun,
                      version_id, "version_id", &version));
    version.used = true;
    return dw_row_save(call, "formula_version", &dw_formula_version_noun,
                       &version, NULL);
}
