#include "doughwright/weigh.h"

#include <math.h>

bool dw_weigh_is_minor(int kind)
{
    switch ((dw_line_kind)kind) {
    case DW_SALT:
    case DW_SUGAR:
    case DW_YEAST_FRESH:
    case DW_YEAST_ACTIVE_DRY:
    case DW_YEAST_INSTANT:
    case DW_MALT:
    case DW_GLUTEN:
    case DW_OTHER: return true;
    case DW_FLOUR:
    case DW_WATER:
    case DW_FAT:
    case DW_DAIRY:
    case DW_DOUGH: return false;
    }
    DW_ASSERT(false);
    return false;
}

/* One way to weigh the rest of a line. */
typedef struct way {
    const dw_scale *scale;
    int64_t divisions, loads;
    double doubt_kg; /* (2) of weigh.h */
    bool within;
} way;

static way over_scale(const dw_scale *scale, double rest_kg, double allowed_kg)
{
    way w = {.scale = scale};
    w.divisions = (int64_t)llround(rest_kg / scale->division_kg);
    int64_t most =
        (int64_t)floor(scale->capacity_kg / scale->division_kg + 1e-9);
    w.loads = (w.divisions + most - 1) / most;
    double rounding = (double)w.divisions * scale->division_kg - rest_kg;
    w.doubt_kg = fabs(rounding) + (double)w.loads * scale->division_kg / 2;
    w.within = w.doubt_kg <= allowed_kg * (1 + 1e-9);
    return w;
}

static bool better(const way *a, const way *b)
{
    if (a->within != b->within)
        return a->within;
    if (a->within && a->loads != b->loads)
        return a->loads < b->loads;
    return a->doubt_kg < b->doubt_kg;
}

/* The best way that puts something on a scale; scale NULL when the rest is
 * below half of every division. */
static way best_way(const dw_weigh_request *request, double rest_kg,
                    double allowed_kg)
{
    way best = {.scale = NULL};
    for (size_t i = 0; i < request->scales_count; i++) {
        way w = over_scale(&request->scales[i], rest_kg, allowed_kg);
        if (w.divisions > 0 && (!best.scale || better(&w, &best)))
            best = w;
    }
    return best;
}

static double finest(const dw_weigh_request *request)
{
    double division = request->scales[0].division_kg;
    for (size_t i = 1; i < request->scales_count; i++)
        division = fmin(division, request->scales[i].division_kg);
    return division;
}

/* Loads as equal as the divisions allow: 7 divisions in 2 loads are 4 + 3. */
static bool set_loads(const way *w, dw_arena *arena, dw_weigh_row *row)
{
    row->loads = DW_NEW_ARRAY(arena, dw_weigh_load, 2);
    if (!row->loads)
        return false;
    double division = w->scale->division_kg;
    int64_t each = w->divisions / w->loads, more = w->divisions % w->loads;
    if (more > 0)
        row->loads[row->loads_count++] =
            (dw_weigh_load){more, (double)(each + 1) * division};
    if (w->loads > more && each > 0)
        row->loads[row->loads_count++] =
            (dw_weigh_load){w->loads - more, (double)each * division};
    row->scale = w->scale->name;
    return true;
}

static dw_status set_row(const dw_weigh_request *request,
                         const dw_weigh_line *line, dw_arena *arena,
                         dw_err *err, dw_notes *notes, dw_weigh_row *row)
{
    double rest_kg = line->kg, doubt_kg = 0;
    *row = (dw_weigh_row){
        .material = line->material, .kind = line->kind, .wanted_kg = line->kg};
    if (line->has_bag_kg) {
        row->bag_kg = line->bag_kg;
        row->bags = (int64_t)floor(line->kg / line->bag_kg + 1e-9);
        row->weighed_kg = (double)row->bags * line->bag_kg;
        rest_kg = fmax(0, rest_kg - row->weighed_kg);
    }
    way w =
        best_way(request, rest_kg, line->kg * request->tolerance_percent / 100);
    if (w.scale) {
        if (!set_loads(&w, arena, row))
            return dw_fail(err, DW_E_ROOM, "arena", NULL);
        row->weighed_kg += (double)w.divisions * w.scale->division_kg;
        doubt_kg = w.doubt_kg;
    } else {
        doubt_kg = rest_kg;
        if (line->kg > 0 && row->bags == 0)
            dw_note_limit(notes, DW_NOTE_WARN, "scale_too_coarse",
                          line->material, line->kg, finest(request) / 2);
    }
    row->rounding_kg = row->weighed_kg - line->kg;
    row->doubt_percent = line->kg > 0 ? 100 * doubt_kg / line->kg : 0;
    if (w.scale && !w.within)
        dw_note_limit(notes, DW_NOTE_WARN, "scale_coarse", line->material,
                      row->doubt_percent, request->tolerance_percent);
    return DW_OK;
}

static dw_status check_scales(const dw_weigh_request *request, dw_err *err)
{
    for (size_t i = 0; i < request->scales_count; i++) {
        const dw_scale *scale = &request->scales[i];
        char field[64];
        dw_text_item(field, sizeof field, "scales", i, ".division_kg");
        if (scale->division_kg > scale->capacity_kg)
            return dw_fail_range(err, field, scale->division_kg, 0,
                                 scale->capacity_kg);
    }
    return DW_OK;
}

dw_status dw_weigh_split(const dw_weigh_request *request, dw_arena *arena,
                         dw_err *err, dw_weigh_reply *reply)
{
    DW_TRY(check_scales(request, err));
    size_t n = request->lines_count;
    dw_weigh_reply out = {.rows = DW_NEW_ARRAY(arena, dw_weigh_row, n),
                          .rows_count = n,
                          .notes = DW_NEW_ARRAY(arena, dw_note, n)};
    if (!out.rows || !out.notes)
        return dw_fail(err, DW_E_ROOM, "arena", NULL);
    dw_notes notes = {out.notes, n, 0};
    for (size_t i = 0; i < n; i++) {
        dw_weigh_row *row = &out.rows[i];
        DW_TRY(set_row(request, &request->lines[i], arena, err, &notes, row));
        out.dough_kg += row->weighed_kg;
        if (dw_weigh_is_minor(row->kind))
            out.minors_kg += row->weighed_kg;
    }
    out.notes_count = notes.count;
    *reply = out;
    return DW_OK;
}

void dw_weigh_balance(const dw_weigh_balance_request *request,
                      dw_weigh_balance_reply *reply)
{
    double missing = request->dough_kg - request->balls_kg - request->scrap_kg -
                     request->residue_kg;
    double allowed = request->dough_kg * request->tolerance_percent / 100;
    *reply = (dw_weigh_balance_reply){
        .missing_kg = missing,
        .missing_percent = 100 * missing / request->dough_kg,
        .adds_up = fabs(missing) <= allowed * (1 + 1e-9),
    };
    dw_notes notes = {&reply->note_, 1, 0};
    if (reply->adds_up)
        dw_note_limit(&notes, DW_NOTE_INFO, "dough_adds_up", NULL, missing,
                      allowed);
    else
        dw_note_limit(&notes, DW_NOTE_WARN,
                      missing > 0 ? "dough_missing" : "dough_extra", NULL,
                      fabs(missing), allowed);
    reply->notes = &reply->note_;
    reply->notes_count = notes.count;
}
