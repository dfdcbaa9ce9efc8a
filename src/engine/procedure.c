#include "doughwright/procedure.h"

#include "doughwright/minors.h"
#include "doughwright/mixer.h"

#include <math.h>
#include <string.h>

enum { LINES = 60, STAGES = 6, STEPS = 400, NOTES = 60 };

/* Wetting active dry yeast, practice of the trade: 5 times its weight of water
 * at 100-105 F, 10 minutes before; instant never meets water below 60 F. */
static const double WET_WATER = 5, WET_MINUTES = 10, WET_LOW_C = 340.0 / 9,
                    WET_HIGH_C = 365.0 / 9, COLD_C = 140.0 / 9;

/* What is being put together: the dough, or a preferment. */
typedef struct bowl {
    const char *stage; /* NULL: the dough */
    char path[48];     /* of its lines in the request */
    const dw_line *lines;
    size_t count;
    double kg[LINES];         /* to be added as such */
    double wet_kg[LINES];     /* water that goes in with a wetted yeast */
    double in_percent[LINES]; /* of the line, so far */
    bool flour_in, water_in, mixed, flour_first;
    size_t wet_step; /* card step that wets the yeast */
    double mixed_minutes;
} bowl;

typedef struct maker {
    const dw_card_request *request;
    dw_arena *arena;
    dw_err *err;
    dw_notes notes;
    dw_card_step *steps;
    size_t count;
    bool full;
    dw_card_step spill; /* written to when full */
    double clock_min, mixer_minutes;
    bool stopped;
    double stopped_min;
    bool second_speed, has_most_minutes;
    double most_minutes, absorption_percent;
    bool stage_made[STAGES];
    int stage_in[STAGES];
    bool bagged[LINES]; /* of the formula's lines */
    bool bag_waits, bag_has_yeast;
    double bag_kg;
} maker;

static void say(maker *m, dw_note_level level, const char *code,
                const char *subject, double value, double limit)
{
    if (m->notes.count < m->notes.room)
        dw_note_limit(&m->notes, level, code, subject, value, limit);
}

/* A card step that takes over what the procedure's step says. */
static dw_card_step *emit(maker *m, const bowl *b, dw_step_kind kind,
                          const char *code, const dw_step *from)
{
    m->full = m->full || m->count == STEPS;
    dw_card_step *step = m->full ? &m->spill : &m->steps[m->count++];
    *step = (dw_card_step){.kind = (int)kind,
                           .code = code,
                           .stage = b->stage,
                           .at_min = m->clock_min};
    if (!from)
        return step;
    step->minutes = from->minutes;
    step->has_minutes_to = from->has_minutes_to;
    step->minutes_to = from->minutes_to;
    step->until = from->until;
    step->has_goal_c = from->has_goal_c;
    step->goal_c = from->goal_c;
    step->question = from->question;
    step->text = from->text;
    return step;
}

static double middle(const dw_card_step *step)
{
    return step->has_minutes_to ? (step->minutes + step->minutes_to) / 2
                                : step->minutes;
}

/* --- adding ----------------------------------------------------------- */

static bool is_yeast(int kind)
{
    return kind == DW_YEAST_FRESH || kind == DW_YEAST_ACTIVE_DRY ||
           kind == DW_YEAST_INSTANT;
}

static bool takes(const dw_step *step, const dw_line *line)
{
    int kind = line->kind;
    switch ((dw_step_what)step->what) {
    case DW_ADD_NOTHING: return false;
    case DW_ADD_MATERIAL: return dw_text_is(step->material, line->material);
    case DW_ADD_WATER: return kind == DW_WATER;
    case DW_ADD_SALT_SUGAR: return kind == DW_SALT || kind == DW_SUGAR;
    case DW_ADD_FLOUR: return kind == DW_FLOUR;
    case DW_ADD_YEAST: return is_yeast(kind);
    case DW_ADD_FAT: return kind == DW_FAT;
    case DW_ADD_STAGES: return kind == DW_DOUGH;
    case DW_ADD_OTHERS:
        return kind == DW_MALT || kind == DW_GLUTEN || kind == DW_DAIRY ||
               kind == DW_OTHER;
    case DW_ADD_REST: return true;
    }
    DW_ASSERT(false);
    return false;
}

static const char *add_code(int kind, bool running)
{
    switch ((dw_line_kind)kind) {
    case DW_FLOUR: return "add_flour";
    case DW_WATER: return "add_water";
    case DW_SALT: return "add_salt";
    case DW_SUGAR: return "add_sugar";
    case DW_FAT: return running ? "add_fat_running" : "add_fat";
    case DW_YEAST_FRESH: return "add_yeast_fresh";
    case DW_YEAST_ACTIVE_DRY: return "add_yeast_wetted";
    case DW_YEAST_INSTANT: return "add_yeast_dry";
    case DW_DOUGH: return "add_stage";
    case DW_MALT:
    case DW_GLUTEN:
    case DW_DAIRY:
    case DW_OTHER: return "add_other";
    }
    DW_ASSERT(false);
    return NULL;
}

static dw_card_step *emit_add(maker *m, const bowl *b, const char *code,
                              const dw_step *from, const char *material,
                              double kg)
{
    dw_card_step *step = emit(m, b, DW_STEP_ADD, code, from);
    step->material = material;
    step->has_kg = true;
    step->kg = kg;
    step->running = from && from->running;
    if (step->running)
        step->caution = "pour_hands_out";
    return step;
}

static void emit_bag(maker *m, const bowl *b)
{
    emit_add(m, b, "add_minors_bag", NULL, NULL, m->bag_kg);
    m->bag_waits = false;
}

static void watch_yeast(maker *m, const bowl *b, const dw_line *line)
{
    const dw_card_request *r = m->request;
    bool cold = r->ice_kg > 0 || (r->has_water_c && r->water_c < COLD_C);
    if (b->flour_in || line->kind == DW_YEAST_ACTIVE_DRY)
        return;
    say(m, DW_NOTE_WARN, cold ? "yeast_into_cold_water" : "yeast_before_flour",
        line->material, r->has_water_c ? r->water_c : 0, COLD_C);
}

/* A line in the bag comes with the bag, which goes in with the yeast. */
static void meet_bagged(maker *m, bowl *b, size_t i)
{
    b->in_percent[i] = 100;
    if (is_yeast(b->lines[i].kind) && m->bag_waits)
        emit_bag(m, b);
}

static void add_line(maker *m, bowl *b, const dw_step *from, size_t i,
                     double share_percent)
{
    const dw_line *line = &b->lines[i];
    if (!b->stage && m->bagged[i]) {
        if (is_yeast(line->kind))
            watch_yeast(m, b, line);
        meet_bagged(m, b, i);
        return;
    }
    b->in_percent[i] += share_percent;
    dw_card_step *step = emit_add(
        m, b, add_code(line->kind, from->running), from, line->material,
        (b->kg[i] + b->wet_kg[i]) * share_percent / 100);
    step->has_line_kind = true;
    step->line_kind = line->kind;
    if (line->kind == DW_YEAST_ACTIVE_DRY && b->wet_step < m->count)
        m->steps[b->wet_step].at_min = m->clock_min - WET_MINUTES;
    if (is_yeast(line->kind))
        watch_yeast(m, b, line);
    if (line->kind == DW_FLOUR)
        b->flour_in = true;
    if (line->kind == DW_WATER) {
        b->flour_first = b->flour_first || (b->flour_in && !b->water_in);
        b->water_in = true;
    }
}

static double stage_kg(const dw_card_request *r, const dw_stage *stage)
{
    double percent = 0;
    for (size_t i = 0; i < stage->lines_count; i++)
        percent += stage->lines[i].percent;
    return r->flour_kg * stage->flour_percent / 100 * percent / 100;
}

static bool add_stages(maker *m, bowl *b, const dw_step *from)
{
    const dw_formula *formula = &m->request->formula;
    bool any = false;
    for (size_t i = 0; i < formula->stages_count && !b->stage; i++) {
        const dw_stage *stage = &formula->stages[i];
        bool named = from->what == DW_ADD_MATERIAL &&
                     dw_text_is(from->material, stage->name);
        bool all = from->what == DW_ADD_STAGES ||
                   (from->what == DW_ADD_REST && m->stage_in[i] == 0);
        if (!named && !all)
            continue;
        any = true;
        m->stage_in[i]++;
        emit_add(m, b, "add_stage", from, stage->name,
                 stage_kg(m->request, stage));
    }
    return any;
}

static dw_status add(maker *m, bowl *b, const dw_step *from, size_t at)
{
    bool any = add_stages(m, b, from);
    for (size_t i = 0; i < b->count; i++) {
        if (!takes(from, &b->lines[i]))
            continue;
        any = true;
        double share = from->what == DW_ADD_REST ? 100 - b->in_percent[i]
                                                 : from->share_percent;
        if (b->kg[i] > 0 && share > 0)
            add_line(m, b, from, i, share);
    }
    if (any || from->what != DW_ADD_MATERIAL)
        return DW_OK;
    char field[64];
    dw_text_item(field, sizeof field, "procedure.steps", at, ".material");
    return dw_fail(m->err, DW_E_NOT_FOUND, field, from->material);
}

/* --- mixing and the rest ---------------------------------------------- */

static void mix(maker *m, bowl *b, const dw_step *from)
{
    const dw_card_request *r = m->request;
    bool second = from->speed == DW_SPEED_SECOND;
    if (second && !(m->second_speed && r->mixer_second_speed)) {
        say(m, DW_NOTE_INFO, "second_speed_dropped", NULL, from->minutes,
            m->absorption_percent);
        return;
    }
    dw_step now = *from;
    if (!b->stage && b->flour_first && !b->mixed) {
        now.minutes += r->flour_first_minutes;
        now.minutes_to += r->flour_first_minutes;
        say(m, DW_NOTE_INFO, "flour_first", NULL, r->flour_first_minutes, 0);
    }
    if (!b->stage && m->has_most_minutes) {
        double left = m->most_minutes - b->mixed_minutes;
        double most = now.has_minutes_to ? now.minutes_to : now.minutes;
        if (most > left)
            say(m, DW_NOTE_WARN, "mix_cut", NULL, left, m->most_minutes);
        if (left <= 0)
            return;
        now.minutes = fmin(now.minutes, left);
        now.minutes_to = fmin(now.minutes_to, left);
    }
    if (!b->stage && m->bag_waits && !m->bag_has_yeast)
        emit_bag(m, b);
    dw_card_step *step =
        emit(m, b, DW_STEP_MIX, second ? "mix_second" : "mix_low", &now);
    step->speed = second ? DW_SPEED_SECOND : DW_SPEED_LOW;
    step->caution = "guard_closed_hands_out";
    b->mixed = true;
    b->mixed_minutes += middle(step);
    m->mixer_minutes += middle(step);
    m->clock_min += middle(step);
}

static void divide(maker *m, const bowl *b, const dw_step *from)
{
    const dw_card_request *r = m->request;
    if (r->pieces_count == 0)
        emit(m, b, DW_STEP_DIVIDE, "divide", from);
    for (size_t i = 0; i < r->pieces_count; i++) {
        dw_card_step *step = emit(m, b, DW_STEP_DIVIDE, "divide", from);
        step->material = r->pieces[i].product;
        step->has_kg = step->has_count = true;
        step->kg = r->pieces[i].piece_g / 1000;
        step->count = r->pieces[i].count;
    }
}

static void plain(maker *m, const bowl *b, const dw_step *from)
{
    const dw_card_request *r = m->request;
    if (from->kind == DW_STEP_OIL_BOWL && r->release_oil_kg <= 0)
        return;
    dw_card_step *step = emit(m, b, (dw_step_kind)from->kind,
                              dw_step_kind_words[from->kind], from);
    if (from->kind == DW_STEP_OIL_BOWL) {
        step->has_kg = step->running = true;
        step->kg = r->release_oil_kg;
        step->caution = "pour_hands_out";
    } else if (from->kind == DW_STEP_STOP) {
        step->caution = "power_off_before_scraping";
        if (!b->stage && !m->stopped) {
            m->stopped = true;
            m->stopped_min = m->clock_min;
        }
    } else if (from->kind == DW_STEP_PROBE && !step->has_goal_c) {
        step->has_goal_c = r->has_dough_goal_c;
        step->goal_c = r->dough_goal_c;
    }
    m->clock_min += middle(step);
}

static dw_status one_step(maker *m, bowl *b, size_t at)
{
    const dw_step *step = &m->request->procedure.steps[at];
    char field[64];
    switch ((dw_step_kind)step->kind) {
    case DW_STEP_ADD: return add(m, b, step, at);
    case DW_STEP_MIX: mix(m, b, step); return DW_OK;
    case DW_STEP_DIVIDE: divide(m, b, step); return DW_OK;
    case DW_STEP_WET_YEAST:
        dw_text_item(field, sizeof field, "procedure.steps", at, ".kind");
        return dw_fail_says(m->err, DW_E_CHOICE, field, "wet_yeast",
                            "is put in by the card itself when the "
                            "yeast needs it");
    case DW_STEP_REST:
    case DW_STEP_ASK:
    case DW_STEP_OIL_BOWL:
    case DW_STEP_STOP:
    case DW_STEP_PROBE:
    case DW_STEP_ROUND:
    case DW_STEP_BOX:
    case DW_STEP_OIL_TOPS:
    case DW_STEP_CHILL_OPEN:
    case DW_STEP_CLOSE:
    case DW_STEP_HOLD:
    case DW_STEP_TEMPER:
    case DW_STEP_SHEET:
    case DW_STEP_PUNCH: plain(m, b, step); return DW_OK;
    }
    DW_ASSERT(false);
    return DW_E_CHOICE;
}

static void line_path(const bowl *b, size_t i, char *field, size_t room)
{
    char lines[sizeof b->path + 8];
    size_t n = strlen(b->path);
    memcpy(lines, b->path, n);
    memcpy(lines + n, ".lines", sizeof ".lines");
    dw_text_item(field, room, lines, i, "");
}

/* --- the bowl before and after ---------------------------------------- */

/* Take the wetting water off the first water line that has enough. */
static dw_status wet_yeast(maker *m, bowl *b)
{
    b->wet_step = STEPS;
    for (size_t i = 0; i < b->count; i++) {
        if (b->lines[i].kind != DW_YEAST_ACTIVE_DRY || b->kg[i] <= 0)
            continue;
        double water_kg = WET_WATER * b->kg[i];
        size_t from = 0;
        while (from < b->count && (b->lines[from].kind != DW_WATER ||
                                   b->kg[from] < water_kg * (1 - 1e-9)))
            from++;
        char field[96];
        line_path(b, i, field, sizeof field);
        if (from == b->count)
            return dw_fail_says(m->err, DW_E_RANGE, field, b->lines[i].material,
                                "needs five times its weight of the "
                                "formula's water to be wetted");
        b->kg[from] = fmax(0, b->kg[from] - water_kg);
        b->wet_kg[i] = water_kg;
        b->wet_step = m->count;
        dw_card_step *step = emit(m, b, DW_STEP_WET_YEAST, "wet_yeast", NULL);
        step->material = b->lines[i].material;
        step->has_kg = step->has_low_c = step->has_high_c = true;
        step->kg = water_kg;
        step->low_c = WET_LOW_C;
        step->high_c = WET_HIGH_C;
        step->minutes = WET_MINUTES;
    }
    return DW_OK;
}

static dw_status all_in(maker *m, const bowl *b)
{
    for (size_t i = 0; i < b->count; i++) {
        /* Wetting may have taken all the water of a line. */
        if (b->kg[i] <= 0)
            continue;
        char field[96];
        line_path(b, i, field, sizeof field);
        if (b->in_percent[i] < 99.99)
            return dw_fail_says(m->err, DW_E_MISSING, field,
                                b->lines[i].material,
                                "is not (all) added by any step of the "
                                "procedure");
        if (b->in_percent[i] > 100.01)
            return dw_fail_says(m->err, DW_E_CONFLICT, field,
                                b->lines[i].material,
                                "is added more than once by the "
                                "procedure");
    }
    return DW_OK;
}

static dw_status stages_in(maker *m)
{
    const dw_formula *formula = &m->request->formula;
    for (size_t i = 0; i < formula->stages_count; i++) {
        const dw_stage *stage = &formula->stages[i];
        char field[64];
        dw_text_item(field, sizeof field, "formula.stages", i, "");
        if (m->stage_in[i] > 1)
            return dw_fail_says(m->err, DW_E_CONFLICT, field, stage->name,
                                "is added more than once by the "
                                "procedure");
        if (m->stage_in[i] == 0 ||
            (stage->kind != DW_OLD_DOUGH && !m->stage_made[i]))
            return dw_fail_says(m->err, DW_E_MISSING, field, stage->name,
                                "is not made and added by the "
                                "procedure");
    }
    return DW_OK;
}

/* One preferment, from its own first step to the dough's. */
static dw_status make_stage(maker *m, size_t i)
{
    const dw_card_request *r = m->request;
    const dw_stage *stage = &r->formula.stages[i];
    bowl b = {.stage = stage->name,
              .lines = stage->lines,
              .count = stage->lines_count};
    dw_text_item(b.path, sizeof b.path, "formula.stages", i, "");
    double flour_kg = r->flour_kg * stage->flour_percent / 100;
    for (size_t k = 0; k < b.count; k++)
        b.kg[k] = flour_kg * stage->lines[k].percent / 100;
    size_t first = m->count;
    m->clock_min = 0;
    DW_TRY(wet_yeast(m, &b));
    for (size_t k = 0; k < r->procedure.steps_count; k++)
        if (r->procedure.steps[k].for_stage) {
            m->stage_made[i] = true;
            DW_TRY(one_step(m, &b, k));
        }
    if (!m->stage_made[i])
        return DW_OK; /* stages_in names it */
    for (size_t k = first; k < m->count; k++)
        m->steps[k].at_min -= m->clock_min;
    m->clock_min = 0;
    return all_in(m, &b);
}

static dw_status set_bag(maker *m, bowl *b)
{
    const dw_card_request *r = m->request;
    if (!r->has_minors_bag)
        return DW_OK;
    dw_minors_request bag;
    dw_minors_reply held;
    dw_shape_preset(&dw_minors_request_shape, &bag);
    bag.formula = r->formula;
    bag.flour_kg = r->flour_kg;
    bag.diluent_kg = r->minors_bag.diluent_kg;
    bag.diluent = r->minors_bag.diluent;
    DW_TRY(dw_minors_bag(&bag, m->arena, m->err, &held));
    m->bag_kg = held.bag_kg;
    m->bag_waits = true;
    bool off = false;
    for (size_t i = 0; i < b->count; i++) {
        const dw_line *line = &b->lines[i];
        m->bagged[i] = dw_minors_takes(line) && line->percent > 0;
        m->bag_has_yeast =
            m->bag_has_yeast || (m->bagged[i] && is_yeast(line->kind));
        if (off || line->kind != DW_FLOUR ||
            !dw_text_is(line->material, held.diluent))
            continue;
        off = true;
        DW_TRY(dw_check_range(m->err, "minors_bag.diluent_kg", bag.diluent_kg,
                              0, b->kg[i]));
        b->kg[i] -= bag.diluent_kg;
    }
    return DW_OK;
}

static void set_speeds(maker *m)
{
    const dw_formula *formula = &m->request->formula;
    for (size_t i = 0; i < formula->lines_count; i++)
        if (formula->lines[i].kind == DW_WATER)
            m->absorption_percent += formula->lines[i].percent;
    dw_mixer_limits any;
    dw_mixer_dough dough;
    dw_mixer_answer answer;
    dw_shape_preset(&dw_mixer_limits_shape, &any);
    dw_shape_preset(&dw_mixer_dough_shape, &dough);
    dough.absorption_percent = m->absorption_percent;
    DW_ASSERT(dw_mixer_limit(&any, &dough, NULL, &answer) == DW_OK);
    m->second_speed = answer.second_speed;
    m->has_most_minutes = answer.has_max_minutes;
    m->most_minutes = answer.max_minutes;
}

static dw_status make_dough(maker *m)
{
    const dw_card_request *r = m->request;
    bowl b = {.path = "formula",
              .lines = r->formula.lines,
              .count = r->formula.lines_count};
    double final_percent[LINES];
    DW_TRY(dw_formula_split(&r->formula, final_percent, m->err));
    for (size_t i = 0; i < b.count; i++)
        b.kg[i] = fmax(0, final_percent[i]) / 100 * r->flour_kg;
    DW_TRY(set_bag(m, &b));
    for (size_t i = 0; i < r->formula.stages_count; i++)
        if (r->formula.stages[i].kind != DW_OLD_DOUGH)
            DW_TRY(make_stage(m, i));
    DW_TRY(wet_yeast(m, &b));
    for (size_t k = 0; k < r->procedure.steps_count; k++)
        if (!r->procedure.steps[k].for_stage)
            DW_TRY(one_step(m, &b, k));
    DW_TRY(all_in(m, &b));
    return stages_in(m);
}

dw_status dw_procedure_card(const dw_card_request *request, dw_arena *arena,
                            dw_err *err, dw_card_reply *reply)
{
    DW_ASSERT(request->formula.lines_count <= LINES &&
              request->formula.stages_count <= STAGES);
    maker *m = DW_NEW(arena, maker);
    dw_note *notes = DW_NEW_ARRAY(arena, dw_note, NOTES);
    dw_card_step *steps = DW_NEW_ARRAY(arena, dw_card_step, STEPS);
    if (!m || !notes || !steps)
        return dw_fail(err, DW_E_ROOM, "arena", NULL);
    m->request = request;
    m->arena = arena;
    m->err = err;
    m->steps = steps;
    m->notes = (dw_notes){notes, NOTES, 0};
    set_speeds(m);
    DW_TRY(make_dough(m));
    if (m->full)
        return dw_fail_says(err, DW_E_TOO_LARGE, "procedure.steps", NULL,
                            "make a card of too many steps");
    *reply = (dw_card_reply){
        .steps = steps,
        .steps_count = m->count,
        .mixer_minutes = m->mixer_minutes,
        .mixer_hours = m->mixer_minutes / 60,
        .dough_out_min = m->stopped ? m->stopped_min : m->clock_min,
        .absorption_percent = m->absorption_percent,
        .release_oil_kg = request->release_oil_kg,
        .notes = notes,
        .notes_count = m->notes.count,
    };
    return DW_OK;
}
