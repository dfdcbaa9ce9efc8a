#include "doughwright/slip.h"

#include "engine/text_case.h"

#include <math.h>

const char *const dw_slip_level_words[] = {"ask", "wrong", NULL};
const char *const dw_slip_code_words[] = {
#define WORD(symbol, word) word,
    DW_SLIP_CODE_LIST(WORD)
#undef WORD
        NULL};

/* ---- the amounts of a formula, kind by kind ---- */

enum { KINDS = DW_OTHER + 1 };

typedef struct amounts {
    double percent[KINDS];       /* what is judged */
    const char *material[KINDS]; /* of the largest line of the kind */
    int yeasts;                  /* how many types of it */
    int yeast;                   /* the type with most of it, or -1 */
} amounts;

static void sum_lines(const dw_formula *formula, amounts *a)
{
    double largest[KINDS] = {0};
    *a = (amounts){.yeast = -1};
    for (size_t i = 0; i < formula->lines_count; i++) {
        const dw_line *line = &formula->lines[i];
        a->percent[line->kind] += line->percent;
        if (!a->material[line->kind] || line->percent > largest[line->kind]) {
            largest[line->kind] = line->percent;
            a->material[line->kind] = line->material;
        }
    }
}

/* All yeast told as the type there is most of. */
static void join_yeasts(amounts *a, const dw_yeast_table *table)
{
    for (int kind = DW_YEAST_FRESH; kind <= DW_YEAST_INSTANT; kind++) {
        if (a->percent[kind] <= 0)
            continue;
        a->yeasts++;
        if (a->yeast < 0 || a->percent[kind] > a->percent[a->yeast])
            a->yeast = kind;
    }
    for (int kind = DW_YEAST_FRESH; kind <= DW_YEAST_INSTANT; kind++)
        if (kind != a->yeast && a->percent[kind] > 0)
            a->percent[a->yeast] +=
                dw_yeast_convert(table, a->percent[kind], kind, a->yeast);
}

/* Milk and eggs are judged with the water they hold, scrap as part of the new
 * dough. */
static void read_amounts(const dw_formula *formula, const dw_yeast_table *table,
                         amounts *a)
{
    sum_lines(formula, a);
    join_yeasts(a, table);
    if (a->percent[DW_DAIRY] > 0 || a->percent[DW_OTHER] > 0) {
        dw_hydration wet;
        dw_lines_hydration(formula->lines, NULL, formula->lines_count, &wet);
        a->percent[DW_WATER] = wet.percent;
    }
    double all = dw_lines_total_percent(formula->lines, formula->lines_count);
    double fresh = all - a->percent[DW_DOUGH];
    a->percent[DW_DOUGH] = 100 * a->percent[DW_DOUGH] / fresh;
}

/* ---- limits ---- */

typedef struct check {
    const dw_formula *formula;
    const dw_slip_basis *basis;
    amounts now, norm;
    dw_slip *slips;
    size_t count;
} check;

/* A shop's own formula, once accepted: how far from it is still usual, asked
 * about, almost surely wrong, as factors both ways. */
static void around_norm(double norm, int kind, dw_limits *limits)
{
    double usual = 1.25, ask = 1.6, wrong = 4;
    if (kind == DW_WATER) {
        usual = 1.08;
        ask = 1.15;
        wrong = 1.5;
    } else if (kind == DW_SALT) {
        ask = 1.4;
    }
    *limits = (dw_limits){norm / usual, norm * usual, norm / ask,
                          norm * ask,   norm / wrong, norm * wrong};
}

static bool limits_of(const check *c, int kind, dw_limits *limits)
{
    double norm = c->norm.percent[kind];
    if (dw_line_kind_is_yeast(kind) && c->norm.yeast >= 0)
        norm = dw_yeast_convert(c->basis->yeast, c->norm.percent[c->norm.yeast],
                                c->norm.yeast, kind);
    bool known =
        dw_slip_limits(c->basis->style, c->basis->process, kind, limits);
    if (known && norm > 0)
        around_norm(norm, kind, limits);
    return known;
}

static bool usual(const dw_limits *limits, double percent)
{
    static const double slack = 1e-9;
    return percent >= limits->usual_low - slack &&
           percent <= limits->usual_high + slack;
}

/* -1 when there is nothing to say, else the level. */
static int level_of(const dw_limits *limits, double percent)
{
    if (percent < limits->wrong_low || percent > limits->wrong_high)
        return DW_WRONG;
    if (percent < limits->ask_low || percent > limits->ask_high)
        return DW_ASK;
    return -1;
}

/* ---- explanations ---- */

static dw_slip *push(check *c, int code, int level, int kind)
{
    DW_ASSERT(c->count < DW_SLIPS_MOST);
    dw_slip *slip = &c->slips[c->count++];
    dw_limits limits = {0};
    limits_of(c, kind, &limits);
    *slip = (dw_slip){.code = code,
                      .level = level,
                      .kind = kind,
                      .material = c->now.material[kind],
                      .percent = c->now.percent[kind],
                      .usual_low = limits.usual_low,
                      .usual_high = limits.usual_high};
    return slip;
}

/* Why might it be off? The first reason that would make it usual. */
static int reason(const dw_limits *limits, double percent)
{
    static const double lb_for_kg = 2.2046226;
    if (usual(limits, 10 * percent))
        return DW_SLIP_TENTH;
    if (usual(limits, percent / 10))
        return DW_SLIP_TENFOLD;
    bool low = percent < limits->usual_low;
    if (low &&
        (usual(limits, 2 * percent) || usual(limits, lb_for_kg * percent)))
        return DW_SLIP_HALF;
    if (!low &&
        (usual(limits, percent / 2) || usual(limits, percent / lb_for_kg)))
        return DW_SLIP_TWICE;
    return low ? DW_SLIP_LOW : DW_SLIP_HIGH;
}

/* Fresh against dry: their doses differ two- to threefold. The two dry yeasts
 * differ by a third, less than formulas do, so they are not told apart. A
 * little over the usual is not yet the dose of another type. */
static int other_yeast(const check *c, int kind, double percent)
{
    static const double over = 1.1;
    dw_limits own, other;
    limits_of(c, kind, &own);
    if (percent >= own.usual_low && percent <= own.usual_high * over)
        return -1;
    bool fresh = kind == DW_YEAST_FRESH;
    int first = fresh ? DW_YEAST_INSTANT : DW_YEAST_FRESH;
    int last = fresh ? DW_YEAST_ACTIVE_DRY : DW_YEAST_FRESH;
    limits_of(c, first, &other);
    if (usual(&other, percent))
        return first;
    limits_of(c, last, &other);
    return usual(&other, percent) ? last : -1;
}

static void check_amount(check *c, int kind)
{
    dw_limits limits;
    double percent = c->now.percent[kind];
    if (percent <= 0 || !limits_of(c, kind, &limits))
        return;
    int level = level_of(&limits, percent);
    int why = reason(&limits, percent);
    bool decimal = why == DW_SLIP_TENTH || why == DW_SLIP_TENFOLD;
    if (dw_line_kind_is_yeast(kind) && !(level >= 0 && decimal)) {
        int other = other_yeast(c, kind, percent);
        if (other >= 0) {
            push(c, DW_SLIP_YEAST_TYPE, level < 0 ? DW_ASK : level, kind)
                ->other_kind = other;
            return;
        }
    }
    if (level >= 0)
        push(c, why, level, kind);
}

/* ---- exchanged ---- */

static int level_now(const check *c, int kind)
{
    dw_limits limits;
    return limits_of(c, kind, &limits) ? level_of(&limits, c->now.percent[kind])
                                       : -1;
}

static bool usual_with(const check *c, int kind, double percent)
{
    dw_limits limits;
    return percent > 0 && limits_of(c, kind, &limits) &&
           usual(&limits, percent);
}

/* Two white powders of which one is off, and both usual once exchanged. */
static void check_swapped(check *c, int *one, int *two)
{
    int yeast = c->now.yeast < 0 ? DW_YEAST_INSTANT : c->now.yeast;
    const int pairs[][2] = {
        {DW_SALT, DW_SUGAR}, {DW_SALT, yeast}, {DW_SUGAR, yeast}};
    for (size_t i = 0; i < DW_COUNT(pairs); i++) {
        int a = pairs[i][0], b = pairs[i][1];
        int la = level_now(c, a), lb = level_now(c, b);
        int level = la > lb ? la : lb;
        if (level < 0 || !usual_with(c, a, c->now.percent[b]) ||
            !usual_with(c, b, c->now.percent[a]))
            continue;
        dw_slip *slip = push(c, DW_SLIP_SWAPPED, level, a);
        slip->other_kind = b;
        slip->other = c->now.material[b];
        *one = a;
        *two = b;
        return;
    }
}

/* ---- missing, repeated ---- */

static bool raised_otherwise(const check *c)
{
    for (size_t s = 0; s < c->formula->stages_count; s++)
        if (c->formula->stages[s].kind == DW_OLD_DOUGH)
            return true;
    return c->now.percent[DW_DOUGH] >= 5;
}

static void check_missing(check *c)
{
    bool rich = c->basis->style == DW_BISCUIT || c->basis->style == DW_CRACKER;
    if (c->now.percent[DW_WATER] <= 0)
        push(c, DW_SLIP_MISSING, DW_WRONG, DW_WATER);
    if (c->now.percent[DW_SALT] <= 0)
        push(c, DW_SLIP_MISSING, DW_WRONG, DW_SALT);
    if (c->now.yeast < 0) {
        int kind = c->norm.yeast < 0 ? DW_YEAST_INSTANT : c->norm.yeast;
        bool maybe = raised_otherwise(c) || c->basis->style == DW_CRACKER;
        push(c, DW_SLIP_MISSING, maybe ? DW_ASK : DW_WRONG, kind);
    }
    if (c->now.percent[DW_FAT] <= 0 && (rich || c->norm.percent[DW_FAT] > 0))
        push(c, DW_SLIP_MISSING, DW_ASK, DW_FAT);
    if (c->now.percent[DW_SUGAR] <= 0 && c->norm.percent[DW_SUGAR] > 0)
        push(c, DW_SLIP_MISSING, DW_ASK, DW_SUGAR);
}

/* Water in two goes, two fats and two flours are common; two salts are not. */
static bool same_again(const dw_line *a, const dw_line *b)
{
    if (a->percent <= 0 || b->percent <= 0 || a->kind != b->kind ||
        a->kind == DW_WATER)
        return false;
    bool single = a->kind == DW_SALT || dw_line_kind_is_yeast(a->kind);
    return single || dw_text__same(a->material, b->material);
}

static void check_repeated(check *c)
{
    const dw_formula *f = c->formula;
    for (size_t i = 1; i < f->lines_count; i++) {
        size_t j = 0;
        while (j < i && !same_again(&f->lines[j], &f->lines[i]))
            j++;
        if (j == i)
            continue;
        dw_slip *slip = push(c, DW_SLIP_REPEATED, DW_ASK, f->lines[i].kind);
        slip->material = f->lines[i].material;
        slip->percent = f->lines[i].percent;
        slip->other = f->lines[j].material;
    }
    if (c->now.yeasts < 2)
        return;
    dw_slip *slip = push(c, DW_SLIP_TWO_YEASTS, DW_ASK, c->now.yeast);
    for (int kind = DW_YEAST_FRESH; kind <= DW_YEAST_INSTANT; kind++)
        if (kind != c->now.yeast && c->now.percent[kind] > 0) {
            slip->other_kind = kind;
            slip->other = c->now.material[kind];
        }
}

dw_status dw_formula_slips(const dw_formula *formula,
                           const dw_slip_basis *basis, dw_slip *slips,
                           size_t *count, dw_err *err)
{
    check c = {formula, basis, {.yeast = -1}, {.yeast = -1}, slips, 0};
    DW_TRY(dw_formula_verify(formula, err));
    read_amounts(formula, basis->yeast, &c.now);
    if (basis->norm) {
        if (dw_formula_verify(basis->norm, err) != DW_OK)
            return err ? dw_err_within(err, "norm") : DW_E_SUM;
        read_amounts(basis->norm, basis->yeast, &c.norm);
    }
    int one = -1, two = -1;
    check_swapped(&c, &one, &two);
    for (int kind = DW_WATER; kind < KINDS; kind++) {
        bool minor_yeast = dw_line_kind_is_yeast(kind) && kind != c.now.yeast;
        if (kind != one && kind != two && !minor_yeast)
            check_amount(&c, kind);
    }
    check_missing(&c);
    check_repeated(&c);
    *count = c.count;
    return DW_OK;
}
