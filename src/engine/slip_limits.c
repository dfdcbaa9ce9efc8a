#include "doughwright/slip.h"

/* Thin, cold-fermented dough: common practice. A low of 0 means no limit. The
 * ask_low of the yeasts and every wrong_low but salt's, water's and instant
 * yeast's lie between the practice's own figures and a tenth of the usual. */
typedef struct row {
    int kind;
    dw_limits limits;
} row;

static const row thin[] = {
    {DW_WATER, {50, 70, 45, 75, 35, 100}},
    {DW_SALT, {1.5, 3.0, 1.25, 3.25, 0.5, 5}},
    {DW_SUGAR, {0, 3, 0, 5, 0, 12}},
    {DW_FAT, {0, 5, 0.35, 8, 0, 30}},
    {DW_YEAST_INSTANT, {0.17, 0.5, 0.1, 0.75, 0.05, 2}},
    {DW_YEAST_FRESH, {0.5, 1.5, 0.3, 2, 0.12, 3}},
    {DW_MALT, {0, 0.25, 0, 0.5, 0, 1}},
    {DW_GLUTEN, {0, 3, 0, 5, 0, 8}},
    {DW_DOUGH, {0, 10, 0, 15, 0, 50}},
};

/* Where a style differs from it. */
typedef struct style_row {
    int style, kind;
    dw_limits limits;
} style_row;

static const style_row styles[] = {
    {DW_PAN, DW_SUGAR, {1, 3, 0.3, 5, 0, 12}},
    {DW_PAN, DW_FAT, {2, 6, 0.5, 10, 0, 30}},
    {DW_BISCUIT, DW_WATER, {45, 50, 38, 60, 30, 90}},
    {DW_BISCUIT, DW_SALT, {0.7, 1, 0.5, 1.75, 0.2, 3.5}},
    {DW_BISCUIT, DW_FAT, {18, 25, 12, 35, 5, 60}},
    {DW_CRACKER, DW_WATER, {40, 45, 34, 55, 25, 90}},
    {DW_CRACKER, DW_SALT, {1, 2, 0.75, 2.75, 0.35, 4.5}},
    {DW_CRACKER, DW_FAT, {8, 15, 4, 22, 1.6, 50}},
    {DW_SICILIAN, DW_WATER, {57, 70, 48, 80, 35, 105}},
    {DW_NEAPOLITAN, DW_SALT, {2.5, 3.2, 1.75, 3.75, 0.6, 5.5}},
    {DW_NEAPOLITAN, DW_SUGAR, {0, 0.5, 0, 2, 0, 8}},
    {DW_NEAPOLITAN, DW_FAT, {0, 1, 0, 3, 0, 15}},
    {DW_ROMAN_TRAY, DW_WATER, {70, 82, 62, 95, 45, 115}},
    {DW_ROMAN_TRAY, DW_SUGAR, {0, 1, 0, 3, 0, 10}},
};

/* How much yeast a style takes beside the thin one, low end and high end:
 * pan
 * 0.4 instant, biscuit 0.8 active dry, Neapolitan 0.17 fresh, tray style "low".
 * The low ends lie above the dose of a dry yeast, so that one under a fresh
 * label is seen. */
typedef struct span {
    double low, high;
} span;

static const span style_yeast[] = {
    [DW_THIN] = {1, 1},
    [DW_NEW_YORK] = {1, 1},
    [DW_PAN] = {1.15, 1.1},
    [DW_BISCUIT] = {1.9, 1.6},
    [DW_CRACKER] = {1, 1},
    [DW_SICILIAN] = {1, 1},
    [DW_NEAPOLITAN] = {0.175, 0.2},
    [DW_ROMAN_TRAY] = {0.5, 0.5},
};

static const span process_yeast[] = {
    [DW_COLD] = {1, 1},
    [DW_SAME_DAY] = {1.5, 2},
    [DW_EMERGENCY] = {2, 4},
    [DW_FROZEN] = {1.5, 2},
};

/* Active dry beside instant, in the trade's round figure. */
static const double ACTIVE_DRY = 1.3;

static void scale_yeast(dw_limits *limits, double low, double high)
{
    limits->usual_low *= low;
    limits->ask_low *= low;
    limits->wrong_low *= low;
    limits->usual_high *= high;
    limits->ask_high *= high;
    limits->wrong_high *= high;
}

static bool find_thin(int kind, dw_limits *limits)
{
    for (size_t i = 0; i < DW_COUNT(thin); i++)
        if (thin[i].kind == kind) {
            *limits = thin[i].limits;
            return true;
        }
    return false;
}

bool dw_slip_limits(int style, int process, int kind, dw_limits *limits)
{
    DW_ASSERT(style >= DW_THIN && style <= DW_ROMAN_TRAY);
    DW_ASSERT(process >= DW_COLD && process <= DW_FROZEN);
    for (size_t i = 0; i < DW_COUNT(styles); i++)
        if (styles[i].style == style && styles[i].kind == kind) {
            *limits = styles[i].limits;
            return true;
        }
    bool dry = kind == DW_YEAST_ACTIVE_DRY;
    if (!find_thin(dry ? DW_YEAST_INSTANT : kind, limits))
        return false;
    if (dw_line_kind_is_yeast(kind)) {
        double type = dry ? ACTIVE_DRY : 1;
        scale_yeast(
            limits, type * style_yeast[style].low * process_yeast[process].low,
            type * style_yeast[style].high * process_yeast[process].high);
    }
    return true;
}
