#include "slip_cases.h"

#include "doughwright/yeast.h"

#include <string.h>

const char *const slip_plant_words[] = {"none",
                                        "tenfold",
                                        "tenth",
                                        "yeast_type_fresh_dry",
                                        "yeast_type_dry_dry",
                                        "swapped",
                                        "missing",
                                        "doubled",
                                        "twice",
                                        "lb_for_kg"};

static double between(unsigned long long *seed, double low, double high)
{
    *seed += 0x9E3779B97F4A7C15ULL; /* splitmix64 */
    unsigned long long z = *seed;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    z ^= z >> 31;
    return low + (double)(z >> 11) * 0x1.0p-53 * (high - low);
}

static int pick(unsigned long long *seed, int count)
{
    return (int)between(seed, 0, count);
}

/* The style table of the trade; a single figure is drawn within a tenth of it.
 * Cracker and Sicilian name no yeast: the thin dough's, and that of thin and
 * New York together. The tray style says "low", read here as 0.1 to 0.2
 * instant. Fat of the cracker is "8+". */
typedef struct range {
    double low, high;
} range;

static const struct {
    range water, salt, sugar, fat, yeast;
    int yeast_kind;
} styles[] = {
    [DW_THIN] = {{58, 62},
                 {1.75, 1.75},
                 {0, 2},
                 {2, 2},
                 {0.375, 0.4},
                 DW_YEAST_INSTANT},
    [DW_NEW_YORK] = {{57, 63},
                     {1.75, 2.5},
                     {0, 1},
                     {1, 3},
                     {0.25, 0.375},
                     DW_YEAST_INSTANT},
    [DW_PAN] =
        {{58, 65}, {1.75, 1.75}, {2, 2}, {4, 4}, {0.4, 0.4}, DW_YEAST_INSTANT},
    [DW_BISCUIT] = {{45, 50},
                    {0.7, 1},
                    {0, 1.5},
                    {18, 25},
                    {0.8, 0.8},
                    DW_YEAST_ACTIVE_DRY},
    [DW_CRACKER] =
        {{40, 45}, {1, 2}, {0, 0}, {8, 12}, {0.375, 0.4}, DW_YEAST_INSTANT},
    [DW_SICILIAN] =
        {{57, 70}, {2, 2.5}, {0, 2}, {1, 3}, {0.25, 0.4}, DW_YEAST_INSTANT},
    [DW_NEAPOLITAN] =
        {{56, 62}, {2.8, 3.2}, {0, 0}, {0, 0}, {0.17, 0.17}, DW_YEAST_FRESH},
    [DW_ROMAN_TRAY] =
        {{75, 80}, {2.5, 3}, {0, 0}, {3, 3}, {0.1, 0.2}, DW_YEAST_INSTANT},
};

static const range processes[] = {
    [DW_COLD] = {1, 1},
    [DW_SAME_DAY] = {1.5, 2},
    [DW_EMERGENCY] = {2, 4},
    [DW_FROZEN] = {1.5, 2},
};

static double draw(unsigned long long *seed, range r)
{
    if (r.low == r.high)
        return between(seed, 0.9 * r.low, 1.1 * r.high);
    return between(seed, r.low, r.high);
}

static void add(slip_case *c, const char *material, int kind, double percent)
{
    DW_ASSERT(c->formula.lines_count < SLIP_LINES_MOST);
    c->lines[c->formula.lines_count++] =
        (dw_line){material, kind, percent, false, 0, false, 0};
}

static const char *yeast_name(int kind)
{
    return kind == DW_YEAST_FRESH        ? "fresh yeast"
           : kind == DW_YEAST_ACTIVE_DRY ? "active dry yeast"
                                         : "instant yeast";
}

void slip_case_draw(unsigned long long *seed, int style, int process,
                    slip_case *c)
{
    memset(c, 0, sizeof *c);
    c->formula.lines = c->lines;
    c->style = style;
    c->process = process;
    add(c, "flour", DW_FLOUR, 100);
    add(c, "water", DW_WATER, draw(seed, styles[style].water));
    add(c, "salt", DW_SALT, draw(seed, styles[style].salt));
    /* sugar is required in the pan style, a choice in others */
    range sugar = styles[style].sugar;
    if (sugar.low > 0 || (sugar.high > 0 && pick(seed, 2)))
        add(c, "sugar", DW_SUGAR,
            sugar.low > 0 ? draw(seed, sugar) : between(seed, 0.5, sugar.high));
    if (styles[style].fat.high > 0)
        add(c, "oil", DW_FAT, draw(seed, styles[style].fat));
    int kind = DW_YEAST_FRESH + pick(seed, 3);
    double yeast =
        draw(seed, styles[style].yeast) *
        between(seed, processes[process].low, processes[process].high);
    add(c, yeast_name(kind), kind,
        dw_yeast_convert(&dw_yeast_usual, yeast, styles[style].yeast_kind,
                         kind));
}

static dw_line *line_of(slip_case *c, int kind)
{
    for (size_t i = 0; i < c->formula.lines_count; i++)
        if (c->lines[i].kind == kind)
            return &c->lines[i];
    return NULL;
}

static dw_line *yeast_line(slip_case *c)
{
    return &c->lines[c->formula.lines_count - 1];
}

/* A required line other than flour. */
static dw_line *required(unsigned long long *seed, slip_case *c)
{
    for (;;) {
        dw_line *line =
            &c->lines[1 + pick(seed, (int)c->formula.lines_count - 1)];
        bool choice = line->kind == DW_SUGAR && styles[c->style].sugar.low <= 0;
        if (!choice)
            return line;
    }
}

static bool relabel(unsigned long long *seed, slip_plant plant, slip_case *c)
{
    dw_line *line = yeast_line(c);
    bool fresh = line->kind == DW_YEAST_FRESH;
    if (plant == PLANT_DRY_DRY && fresh)
        return false;
    if (plant == PLANT_DRY_DRY)
        line->kind = line->kind == DW_YEAST_INSTANT ? DW_YEAST_ACTIVE_DRY
                                                    : DW_YEAST_INSTANT;
    else
        line->kind =
            fresh ? DW_YEAST_ACTIVE_DRY + pick(seed, 2) : DW_YEAST_FRESH;
    line->material = yeast_name(line->kind);
    c->kind = line->kind;
    return true;
}

static bool exchange(unsigned long long *seed, slip_case *c)
{
    dw_line *salt = line_of(c, DW_SALT), *sugar = line_of(c, DW_SUGAR);
    dw_line *other = sugar && pick(seed, 2) ? sugar : yeast_line(c);
    double percent = salt->percent;
    salt->percent = other->percent;
    other->percent = percent;
    c->kind = DW_SALT;
    return true;
}

bool slip_case_plant(unsigned long long *seed, slip_plant plant, slip_case *c)
{
    if (plant == PLANT_FRESH_DRY || plant == PLANT_DRY_DRY)
        return relabel(seed, plant, c);
    if (plant == PLANT_SWAPPED)
        return exchange(seed, c);
    dw_line *line = required(seed, c);
    c->kind = line->kind;
    switch (plant) {
    case PLANT_TENFOLD: line->percent *= 10; break;
    case PLANT_TENTH: line->percent /= 10; break;
    case PLANT_TWICE: line->percent *= 2; break;
    case PLANT_LB_FOR_KG:
        line->percent *= pick(seed, 2) ? 2.2046226 : 0.45359237;
        break;
    case PLANT_MISSING:
        *line = *yeast_line(c);
        c->formula.lines_count--;
        break;
    default: add(c, line->material, line->kind, line->percent); break;
    }
    return true;
}

/* A slip in the planted kind, or naming it as the other of two. */
static bool about(const dw_slip *slip, const slip_case *c)
{
    return slip->kind == c->kind || slip->other_kind == c->kind ||
           (dw_line_kind_is_yeast(slip->kind) &&
            dw_line_kind_is_yeast(c->kind));
}

bool slip_case_caught(const slip_case *c, dw_slip *first)
{
    const dw_slip_basis basis = {c->style, c->process, NULL, &dw_yeast_usual};
    dw_slip slips[DW_SLIPS_MOST];
    size_t count = 0;
    dw_status status =
        dw_formula_slips(&c->formula, &basis, slips, &count, NULL);
    DW_ASSERT(status == DW_OK);
    for (size_t i = 0; i < count; i++)
        if (c->kind == DW_FLOUR || about(&slips[i], c)) {
            *first = slips[i];
            return true;
        }
    return false;
}
