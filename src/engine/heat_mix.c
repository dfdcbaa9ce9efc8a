/* A formula as the heat balance sees it. */
#include "doughwright/heat.h"

#include "doughwright/constants.h"
#include "doughwright/say.h"

static double line_cp(const dw_line *line)
{
    switch ((dw_line_kind)line->kind) {
    case DW_FLOUR: return DW_FLOUR_CP;
    case DW_WATER: return DW_WATER_CP;
    case DW_SALT: return DW_SALT_CP;
    case DW_SUGAR: return DW_SUGAR_CP;
    case DW_FAT: return DW_OIL_CP;
    default: break;
    }
    dw_water_from from;
    double water = line->kind == DW_DOUGH && !line->has_water_percent
                       ? 45
                       : dw_line_water_percent(line, &from);
    return DW_DRY_CP + (DW_WATER_CP - DW_DRY_CP) * water / 100;
}

static int yeast_of(int kind)
{
    switch (kind) {
    case DW_YEAST_FRESH: return DW_HEAT_YEAST_FRESH;
    case DW_YEAST_ACTIVE_DRY: return DW_HEAT_YEAST_ACTIVE_DRY;
    case DW_YEAST_INSTANT: return DW_HEAT_YEAST_INSTANT;
    default: return DW_HEAT_YEAST_NOT_TOLD;
    }
}

static void add_part(dw_heat_batch *batch, double kg, double cp, double temp_c)
{
    if (kg > 0)
        batch->parts[batch->parts_count++] = (dw_heat_part){kg, cp, temp_c};
}

/* Lines of the final mix; *active_dry_kg is what has to be wetted. */
static void add_lines(const dw_heat_mix *mix, const double *final_percent,
                      dw_heat_batch *batch, double *active_dry_kg)
{
    for (size_t i = 0; i < mix->formula.lines_count; i++) {
        const dw_line *line = &mix->formula.lines[i];
        double kg = mix->flour_kg * final_percent[i] / 100;
        if (kg > 0 && yeast_of(line->kind) > batch->yeast)
            batch->yeast = yeast_of(line->kind);
        if (line->kind == DW_YEAST_ACTIVE_DRY)
            *active_dry_kg += kg;
        if (line->kind == DW_WATER) {
            batch->water_kg += kg;
            continue;
        }
        if (line->kind == DW_FLOUR)
            batch->flour_kg += kg;
        add_part(batch, kg, line_cp(line),
                 line->kind == DW_FLOUR ? mix->flour_c : mix->room_c);
    }
}

static void add_stage(const dw_heat_mix *mix, const dw_stage *stage,
                      dw_heat_batch *batch)
{
    double flour = mix->flour_kg * stage->flour_percent / 100;
    double kg = 0, capacity = 0;
    for (size_t i = 0; i < stage->lines_count; i++) {
        double one = flour * stage->lines[i].percent / 100;
        kg += one;
        capacity += one * line_cp(&stage->lines[i]);
    }
    if (kg > 0)
        add_part(batch, kg, capacity / kg,
                 mix->has_stage_c ? mix->stage_c : mix->room_c);
}

static dw_heat_batch readings_of(const dw_heat_mix *mix)
{
    return (dw_heat_batch){
        .goal_c = mix->goal_c,
        .bowl_kg = mix->bowl_kg,
        .bowl_cp_j_per_kg_k = DW_STEEL_CP,
        .bowl_c = mix->has_bowl_c ? mix->bowl_c : mix->room_c,
        .hydration_j_per_kg_flour = mix->hydration_j_per_kg_flour,
        .work_j_per_kg_dough = mix->work_j_per_kg_dough,
        .tap_c = mix->tap_c,
        .ice_c = mix->ice_c,
        .has_room_c = true,
        .room_c = mix->room_c,
        .has_flour_c = true,
        .flour_c = mix->flour_c,
        .has_kept_friction_c = mix->has_kept_friction_c,
        .kept_friction_c = mix->kept_friction_c,
    };
}

dw_status dw_heat_batch_of(const dw_heat_mix *mix, dw_arena *arena,
                           dw_heat_batch *batch, double *wetting_kg,
                           dw_err *err)
{
    const dw_formula *formula = &mix->formula;
    size_t most = formula->lines_count + formula->stages_count + 1;
    double *final_percent = DW_NEW_ARRAY(arena, double, most);
    dw_heat_part *parts = DW_NEW_ARRAY(arena, dw_heat_part, most);
    if (!final_percent || !parts)
        return dw_fail(err, DW_E_ROOM, "formula.lines", NULL);
    dw_status status = dw_formula_split(formula, final_percent, err);
    if (status != DW_OK) {
        dw_err_within(err, "formula");
        return status;
    }
    dw_heat_batch made = readings_of(mix);
    double active_dry_kg = 0;
    made.parts = parts;
    add_lines(mix, final_percent, &made, &active_dry_kg);
    for (size_t i = 0; i < formula->stages_count; i++)
        add_stage(mix, &formula->stages[i], &made);
    dw_heat_part wetting;
    DW_TRY(dw_heat_wetting(active_dry_kg, made.water_kg, &wetting, err));
    made.water_kg -= wetting.kg;
    if (made.water_kg < 1e-6)
        return dw_fail_says(err, DW_E_MISSING, "formula.lines", NULL,
                            DW_MSG("have no water left for the final mix"));
    add_part(&made, wetting.kg, wetting.cp_j_per_kg_k, wetting.temp_c);
    *batch = made;
    *wetting_kg = wetting.kg;
    return DW_OK;
}
