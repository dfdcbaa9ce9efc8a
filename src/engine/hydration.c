#include "doughwright/formula.h"

#include "engine/text_case.h"

/* USDA National Nutrient Database for Standard Reference 26, g water per 100 g;
 * names are the kitchen's. */
static const dw_usual_water waters[] = {
    {"whole milk", "01077", DW_DAIRY, 88.13},
    {"milk", "01077", DW_DAIRY, 88.13},
    {"nonfat dry milk", "01091", DW_DAIRY, 3.16},
    {"dry milk", "01091", DW_DAIRY, 3.16},
    {"milk powder", "01091", DW_DAIRY, 3.16},
    {"whole dry milk", "01090", DW_DAIRY, 2.47},
    {"dry whey", "01115", DW_DAIRY, 3.19},
    {"whey powder", "01115", DW_DAIRY, 3.19},
    {"egg", "01123", DW_OTHER, 76.15},
    {"eggs", "01123", DW_OTHER, 76.15},
    {"whole egg", "01123", DW_OTHER, 76.15},
    {"butter", "01145", DW_FAT, 17.94},
    {"salted butter", "01001", DW_FAT, 15.87},
    {"honey", "19296", DW_SUGAR, 17.1},
    {"malt syrup", "19352", DW_MALT, 21.1},
    {"fresh yeast", "18374", DW_YEAST_FRESH, 69},
};

const dw_usual_water *dw_usual_waters(size_t *count)
{
    *count = DW_COUNT(waters);
    return waters;
}

/* Flour as it comes counts as flour. Dry yeast, malt flour and gluten hold 5 to
 * 8 percent, which at their doses is under 0.3 of hydration: left out. */
static double usual_of_kind(int kind)
{
    switch (kind) {
    case DW_WATER: return 100;
    case DW_DAIRY: return 88.13;
    case DW_YEAST_FRESH: return 69;
    default: return 0;
    }
}

/* Only of dairy and the unknown is the usual truly a guess. */
static bool guess(int kind)
{
    return kind == DW_DAIRY || kind == DW_OTHER;
}

double dw_line_water_percent(const dw_line *line, dw_water_from *from)
{
    *from = DW_WATER_BY_KIND;
    if (line->kind == DW_FLOUR)
        return 0;
    if (line->has_water_percent) {
        *from = DW_WATER_TOLD;
        return line->water_percent;
    }
    for (size_t i = 0; i < DW_COUNT(waters); i++)
        if (waters[i].kind == line->kind &&
            dw_text__same(waters[i].material, line->material)) {
            *from = DW_WATER_BY_NAME;
            return waters[i].water_percent;
        }
    return usual_of_kind(line->kind);
}

typedef struct dough {
    double all, water, flour; /* of lines that are not dough themselves */
} dough;

/* A dough line's water and flour, added to *h. */
static void add_dough(const dw_line *line, double amount, const dough *own,
                      dw_hydration *h)
{
    double wet = own->water / own->all, flour = own->flour / own->all;
    if (line->has_water_percent) {
        double told = line->water_percent / 100;
        flour = wet < 1 ? flour * (1 - told) / (1 - wet) : 0;
        wet = told;
    } else {
        h->assumed = true;
    }
    h->water += amount * wet;
    h->flour += amount * flour;
}

void dw_lines_hydration(const dw_line *lines, const double *amounts,
                        size_t count, dw_hydration *hydration)
{
    dough own = {0, 0, 0};
    dw_hydration h = {0, 0, 0, false};
    for (size_t i = 0; i < count; i++) {
        double amount = amounts ? amounts[i] : lines[i].percent;
        if (lines[i].kind == DW_DOUGH)
            continue;
        dw_water_from from;
        own.all += amount;
        own.water += amount * dw_line_water_percent(&lines[i], &from) / 100;
        if (lines[i].kind == DW_FLOUR)
            own.flour += amount;
        if (from == DW_WATER_BY_KIND && guess(lines[i].kind) && amount > 0)
            h.assumed = true;
    }
    DW_ASSERT(own.flour > 0);
    h.water = own.water;
    h.flour = own.flour;
    for (size_t i = 0; i < count; i++)
        if (lines[i].kind == DW_DOUGH)
            add_dough(&lines[i], amounts ? amounts[i] : lines[i].percent, &own,
                      &h);
    h.percent = 100 * h.water / h.flour;
    *hydration = h;
}
