#include "doughwright/piece.h"

/* Grams per 100 g as is, USDA National Nutrient Database SR26: foods 20129,
 * 14429, 02047, 19335, 04044, 18374, 18375 (instant as active dry), 20131,
 * 48052, 01154. Carbohydrate is by difference less fibre. Dough is bread flour
 * with 60 percent water; an unknown material is taken as starch. */
static const struct {
    double water, protein, fat, fibre, ash;
} usual[] = {
    [DW_FLOUR] = {13.36, 11.98, 1.66, 2.4, 0.47},
    [DW_WATER] = {100, 0, 0, 0, 0},
    [DW_SALT] = {0.2, 0, 0, 0, 99.8},
    [DW_SUGAR] = {0.02, 0, 0, 0, 0.01},
    [DW_FAT] = {0, 0, 100, 0, 0},
    [DW_YEAST_FRESH] = {69, 8.4, 1.9, 8.1, 1.8},
    [DW_YEAST_ACTIVE_DRY] = {5.08, 40.44, 7.61, 26.9, 5.65},
    [DW_YEAST_INSTANT] = {5.08, 40.44, 7.61, 26.9, 5.65},
    [DW_MALT] = {8.21, 10.28, 1.84, 7.1, 1.37},
    [DW_GLUTEN] = {8.2, 75.16, 1.85, 0.6, 1},
    [DW_DAIRY] = {3.16, 36.16, 0.77, 0, 7.93},
    [DW_DOUGH] = {45.85, 7.49, 1.04, 1.5, 0.29},
    [DW_OTHER] = {12, 0, 0, 0, 0},
};

/* Told water moves all solids alike; told protein is taken from the starch. */
static void add_line(const dw_line *line, double parts[DW_COMPONENTS])
{
    double water = usual[line->kind].water, solids = 1;
    if (line->has_water_percent) {
        solids = water < 100 ? (100 - line->water_percent) / (100 - water) : 0;
        water = line->water_percent;
    }
    double protein = line->has_protein_percent
                         ? line->protein_percent
                         : usual[line->kind].protein * solids;
    double fat = usual[line->kind].fat * solids;
    double fibre = usual[line->kind].fibre * solids;
    double ash = usual[line->kind].ash * solids;
    double starch = 100 - water - protein - fat - fibre - ash;
    double share = line->percent / 100;
    parts[DW_LIQUID_WATER] += share * water;
    parts[DW_PROTEIN] += share * protein;
    parts[DW_FAT_COMPONENT] += share * fat;
    parts[DW_FIBRE] += share * fibre;
    parts[DW_ASH] += share * ash;
    parts[DW_CARBOHYDRATE] += share * (starch > 0 ? starch : 0);
}

dw_status dw_piece_composition(const dw_formula *formula,
                               dw_composition *composition, dw_err *err)
{
    double parts[DW_COMPONENTS] = {0}, sum = 0;
    for (size_t i = 0; i < formula->lines_count; i++) {
        DW_ASSERT((unsigned)formula->lines[i].kind < DW_COUNT(usual));
        add_line(&formula->lines[i], parts);
    }
    for (int i = 0; i < DW_COMPONENTS; i++)
        sum += parts[i];
    if (!(sum > 0))
        return dw_fail(err, DW_E_SUM, "formula.lines", NULL);
    for (int i = 0; i < DW_COMPONENTS; i++)
        composition->fraction[i] = parts[i] / sum;
    return DW_OK;
}
