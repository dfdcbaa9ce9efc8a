/* The batch book of the demo: each batch is planned, made, probed, boxed and
 * closed by the same functions that the taps of a shift use, at their time. */
#include "app/demo.h"

#include "app/card.h"
#include "app/plan.h"
#include "app/stock.h"
#include "os/zone.h"

#include <math.h>

/* The mixing work that the demo's mixers truly do, J/kg of dough: what the
 * batch book should teach. Invented. */
static const double TRUE_WORK[] = {16500, 13000};
static const double MINUTE = 60000;

typedef struct book {
    dw_call call; /* its clock is moved */
    uint64_t seed;
    int64_t now_ms, today, *batches;
    const dw_zone *zone;
    dw_shop shop;
    dw_product *products;
    dw_build_to *build_to;
    dw_person *people;
    dw_mixer_row *mixers;
    dw_opening *openings;
    dw_material *materials;
    dw_material_lot *lots;
    size_t products_count, build_to_count, people_count, mixers_count,
        openings_count, materials_count, lots_count;
} book;

static void stand_at(book *b, double ms)
{
    b->call.now_ms = b->call.occurred_ms = (int64_t)ms;
}

/* As a thermometer shows it, to a tenth. */
static dw_status keep_reading(book *b, int64_t batch_id, int kind,
                              double celsius)
{
    dw_reading_row row = {.batch_id = batch_id,
                          .kind = kind,
                          .celsius = round(celsius * 10) / 10,
                          .occurred_ms = b->call.occurred_ms};
    return dw_reading_keep(&b->call, &row);
}

static double wall(const book *b, int64_t day, int64_t minute)
{
    return (double)dw_zone_utc_ms(b->zone, day * 86400000 + minute * 60000);
}

static const dw_opening *hours_of(const book *b, int64_t day)
{
    static const dw_opening usual = {.opens_minute = 360,
                                     .leaves_minute = 1080};
    for (size_t i = 0; i < b->openings_count; i++)
        if (b->openings[i].weekday == dw_weekday(day))
            return &b->openings[i];
    return &usual;
}

/* ---- lots ---------------------------------------------------------------- */

static dw_status make_lot(book *b, const dw_material *material, int64_t age)
{
    dw_chance chance =
        dw_chance_of(b->seed, 3, (uint64_t)material->id, (uint64_t)age);
    dw_material_lot lot = {.material_id = material->id, .open = age < 40};
    lot.code = dw_arena_print(b->call.arena, "%c%04d-%02d",
                              "QRSTV"[material->kind % 5],
                              (int)(dw_chance_bits(&chance) % 10000), (int)age);
    if (!lot.code)
        return dw_fail(b->call.err, DW_E_ROOM, "lots", NULL);
    lot.received_ms = b->now_ms - age * 86400000;
    lot.best_before_day =
        b->today - age + (material->kind == DW_FLOUR ? 270 : 365);
    return dw_row_save(&b->call, "material_lot", &dw_material_lot_noun, &lot,
                       NULL);
}

static dw_status make_lots(book *b)
{
    for (size_t i = 0; i < b->materials_count; i++) {
        if (b->materials[i].kind == DW_FLOUR)
            DW_TRY(make_lot(b, &b->materials[i], 47));
        DW_TRY(make_lot(b, &b->materials[i], 12 + (int64_t)i));
    }
    return dw_rows_get(&b->call, "material_lot", &dw_material_lot_noun, NULL, 0,
                       "id", &b->lots, &b->lots_count);
}

/* The open lot of a material; 0: it has none (water). */
static int64_t lot_of(const book *b, const char *material)
{
    for (size_t i = 0; i < b->materials_count; i++) {
        if (!dw_text_is(b->materials[i].name, material))
            continue;
        for (size_t j = 0; j < b->lots_count; j++)
            if (b->lots[j].open && b->lots[j].material_id == b->materials[i].id)
                return b->lots[j].id;
    }
    return 0;
}

/* ---- one batch ----------------------------------------------------------- */

static dw_status weigh(book *b, const dw_plan_batch *plan, double at,
                       dw_chance *chance)
{
    const char *said;
    for (size_t i = 0; i < plan->weighings_count; i++) {
        const dw_batch_weighing *row = &plan->weighings[i];
        double off = 0.0015 * dw_chance_normal(chance);
        double grams = round(row->planned_kg * (1 + off) * 10000) / 10000;
        double kg = row->whole_bags > 0 ? row->planned_kg : grams;
        stand_at(b, at + (double)i * MINUTE / 2);
        DW_TRY(dw_weighing_keep(&b->call, row->id, true, kg,
                                lot_of(b, row->material), b->call.occurred_ms,
                                &said));
    }
    return DW_OK;
}

/* The dough that the balance gives with the true work, read by a hand. */
static dw_status probe(book *b, int64_t batch_id, int64_t mixer_id, double at,
                       dw_chance *chance)
{
    dw_card card;
    stand_at(b, at);
    DW_TRY(dw_card_read(&b->call, batch_id, &card));
    double dough_c = card.batch.dough_goal_c;
    if (card.water.has_answer) {
        dw_heat_batch *inputs = &card.water.inputs;
        inputs->work_j_per_kg_dough =
            TRUE_WORK[(size_t)mixer_id % DW_COUNT(TRUE_WORK)];
        inputs->water_c =
            card.water.answer.liquid_c + 0.3 * dw_chance_normal(chance);
        inputs->ice_kg = card.water.answer.ice_kg;
        dough_c = dw_heat_dough_c(inputs) + 0.4 * dw_chance_normal(chance);
        DW_TRY(keep_reading(b, batch_id, DW_READ_WATER, inputs->water_c));
    }
    return keep_reading(b, batch_id, DW_READ_DOUGH, dough_c);
}

/* What the steps were at, as far as the clock has come. */
typedef struct course {
    double begin, stop, first_box, last_box, close;
} course;

static double step_begins(const course *at, const dw_card_step *step)
{
    switch (step->kind) {
    case DW_STEP_DIVIDE: return at->stop + 3 * MINUTE;
    case DW_STEP_ROUND: return at->stop + 4 * MINUTE;
    case DW_STEP_BOX: return at->first_box;
    case DW_STEP_OIL_TOPS: return at->last_box - 2 * MINUTE;
    case DW_STEP_CHILL_OPEN: return at->last_box;
    case DW_STEP_CLOSE: return at->close;
    default: return at->begin + step->at_min * MINUTE;
    }
}

static double step_ends(const course *at, const dw_card_step *step)
{
    switch (step->kind) {
    case DW_STEP_STOP: return at->stop;
    case DW_STEP_DIVIDE:
    case DW_STEP_ROUND: return at->last_box - 3 * MINUTE;
    case DW_STEP_BOX: return at->last_box;
    case DW_STEP_CHILL_OPEN: return at->close;
    default:
        return step_begins(at, step) +
               (step->minutes > 0 ? step->minutes : 0.7) * MINUTE;
    }
}

static dw_status mark_steps(book *b, const dw_plan_batch *plan,
                            const course *at)
{
    for (size_t i = 0; i < plan->steps_count; i++) {
        dw_batch_step row = plan->steps[i];
        double begins = step_begins(at, &row.step);
        double ends = step_ends(at, &row.step);
        bool later = row.step.kind == DW_STEP_HOLD ||
                     row.step.kind == DW_STEP_TEMPER ||
                     row.step.kind == DW_STEP_SHEET;
        if (later || begins > (double)b->now_ms)
            continue;
        row.started_ms = (int64_t)begins;
        row.done_ms = ends > (double)b->now_ms ? 0 : (int64_t)ends;
        row.person_id = b->call.person_id;
        if (row.done_ms && row.step.kind == DW_STEP_ASK)
            row.answer = "driving";
        DW_TRY(dw_row_save(&b->call, "batch_step", &dw_batch_step_noun, &row,
                           NULL));
    }
    return DW_OK;
}

static dw_status box(book *b, dw_batch_row *batch, const dw_plan_batch *plan,
                     const course *at, dw_chance *chance)
{
    dw_batch_piece made[40];
    size_t n = plan->pieces_count < DW_COUNT(made) ? plan->pieces_count
                                                   : DW_COUNT(made);
    for (size_t i = 0; i < n; i++) {
        made[i] = plan->pieces[i].piece;
        made[i].balls_made =
            made[i].balls_planned - (dw_chance_unit(chance) < 0.2);
    }
    stand_at(b, at->last_box);
    batch->has_scrap_kg = batch->has_residue_kg = true;
    batch->scrap_kg = round(20 + 30 * dw_chance_unit(chance)) / 100;
    batch->residue_kg = round(100 * b->shop.bowl_residue_kg) / 100;
    return dw_batch_box(&b->call, batch, made, n, (int64_t)at->first_box,
                        (int64_t)at->last_box);
}

static dw_status judge(book *b, const dw_plan_batch *plan, dw_chance *chance)
{
    static const char *const words[] = {"good",  "good",    "good",
                                        "good",  "good",    "not_looked",
                                        "tight", "bubbles", "sticky"};
    size_t pick = dw_chance_bits(chance) % DW_COUNT(words);
    dw_verdict verdict = {.batch_id = plan->batch.id,
                          .product_id = plan->pieces[0].piece.product_id,
                          .verdict =
                              dw_words_find(dw_verdict_words, words[pick]),
                          .person_id = b->call.person_id};
    double at = wall(b, plan->batch.day + 1, 660);
    if (at > (double)b->now_ms)
        return DW_OK;
    verdict.occurred_ms = (int64_t)at;
    return dw_row_save(&b->call, "verdict", &dw_verdict_noun, &verdict, NULL);
}

static double balls_of(const dw_plan_batch *plan)
{
    double balls = 0;
    for (size_t i = 0; i < plan->pieces_count; i++)
        balls += (double)plan->pieces[i].piece.balls_planned;
    return balls;
}

/* Live a planned batch up to the demo's now. */
static dw_status live(book *b, const dw_plan_batch *plan)
{
    const double now = (double)b->now_ms;
    dw_batch_row batch = plan->batch;
    dw_chance chance = dw_chance_of(b->seed, 2, (uint64_t)batch.number, 0);
    course at = {.begin = (double)batch.planned_ms +
                          4 * MINUTE * dw_chance_unit(&chance)};
    at.stop = at.begin + plan->dough_out_min * MINUTE;
    at.first_box = at.stop + 6 * MINUTE;
    at.last_box = at.first_box +
                  MINUTE * (3 + balls_of(plan) / (b->shop.balls_per_minute *
                                                  (double)b->shop.hands));
    at.close = at.last_box + 150 * MINUTE;
    (*b->batches)++;
    if (at.begin > now)
        return DW_OK;
    b->call.person_id = b->people[dw_chance_bits(&chance) % b->people_count].id;
    DW_TRY(weigh(b, plan, at.begin - 12 * MINUTE, &chance));
    stand_at(b, at.begin);
    DW_TRY(dw_batch_begin(&b->call, &batch, b->call.occurred_ms));
    if (at.stop <= now) {
        DW_TRY(dw_batch_stop(&b->call, &batch, (int64_t)at.stop));
        DW_TRY(probe(b, batch.id, batch.mixer_id, at.stop + MINUTE, &chance));
        DW_TRY(dw_batch_open(&b->call, batch.id, &batch)); /* what it taught */
    }
    if (at.last_box <= now) {
        DW_TRY(box(b, &batch, plan, &at, &chance));
        if (batch.close_due_ms)
            at.close = (double)batch.close_due_ms - 8 * MINUTE;
    }
    if (at.close <= now) {
        stand_at(b, at.close);
        DW_TRY(dw_batch_close(&b->call, &batch, b->call.occurred_ms));
    }
    DW_TRY(mark_steps(b, plan, &at));
    return judge(b, plan, &chance);
}

/* ---- one day ------------------------------------------------------------- */

static dw_status read_shop(book *b, int64_t day, double at)
{
    dw_chance chance = dw_chance_of(b->seed, 4, 0, (uint64_t)day);
    double warm = dw_chance_normal(&chance);
    const struct {
        int kind;
        double celsius;
    } readings[] = {
        {DW_READ_FLOUR, 20.5 + 0.8 * warm},
        {DW_READ_ROOM, 23 + 1.4 * warm},
        {DW_READ_TAP, 15.5 + 0.4 * dw_chance_normal(&chance)},
        {DW_READ_COLD, 3.2 + 0.4 * dw_chance_normal(&chance)},
    };
    b->call.person_id = b->people[0].id;
    for (size_t i = 0; i < DW_COUNT(readings); i++) {
        stand_at(b, at + (double)i * MINUTE);
        DW_TRY(keep_reading(b, 0, readings[i].kind, readings[i].celsius));
    }
    return DW_OK;
}

static int64_t build_to_of(const book *b, int64_t product_id, int64_t day)
{
    for (size_t i = 0; i < b->build_to_count; i++)
        if (b->build_to[i].product_id == product_id &&
            b->build_to[i].weekday == dw_weekday(day))
            return b->build_to[i].balls;
    return 0;
}

/* What one mixer makes on a day: the formulas are dealt out to the mixers. */
static dw_status order(book *b, int64_t day, size_t mixer, double share,
                       dw_plan_request *request)
{
    dw_shape_preset(&dw_plan_request_shape, request);
    request->day = day;
    request->mixer_id = b->mixers[mixer].id;
    request->bag_of_minors = false;
    request->pieces =
        DW_NEW_ARRAY(b->call.arena, dw_plan_piece, b->products_count);
    if (!request->pieces)
        return dw_fail(b->call.err, DW_E_ROOM, "pieces", NULL);
    for (size_t i = 0; i < b->products_count; i++) {
        const dw_product *product = &b->products[i];
        if ((size_t)product->formula_id / 2 % b->mixers_count != mixer)
            continue;
        double wanted = share * (double)build_to_of(b, product->id, day + 1);
        int64_t boxes = (int64_t)(wanted / (double)product->balls_per_box);
        if (boxes > 0)
            request->pieces[request->pieces_count++] =
                (dw_plan_piece){product->id, boxes * product->balls_per_box};
    }
    return DW_OK;
}

/* In the order of their start, so that a bowl is warm from the one before. */
static dw_status live_plan(book *b, dw_plan *plan)
{
    for (size_t i = 0; i < plan->batches_count; i++)
        for (size_t j = i + 1; j < plan->batches_count; j++)
            if (plan->batches[j].batch.planned_ms <
                plan->batches[i].batch.planned_ms) {
                dw_plan_batch other = plan->batches[i];
                plan->batches[i] = plan->batches[j];
                plan->batches[j] = other;
            }
    for (size_t i = 0; i < plan->batches_count; i++)
        DW_TRY(live(b, &plan->batches[i]));
    return DW_OK;
}

/* Plan a share of the next day's dough on one mixer from `start` on, and live
 * it. */
static dw_status run_mixer(book *b, int64_t day, size_t mixer, double share,
                           double start)
{
    size_t before = b->call.arena->used;
    dw_plan_request request;
    dw_plan plan;
    stand_at(b, start < (double)b->now_ms ? start : (double)b->now_ms);
    DW_TRY(order(b, day, mixer, share, &request));
    if (request.pieces_count == 0)
        return DW_OK;
    request.start_ms = (int64_t)start;
    DW_TRY(dw_plan_make(&b->call, &request, &plan));
    DW_TRY(dw_plan_keep(&b->call, &plan));
    DW_TRY(live_plan(b, &plan));
    b->call.arena->used = before;
    return DW_OK;
}

static dw_status live_day(book *b, int64_t day)
{
    int64_t opens = hours_of(b, day)->opens_minute;
    DW_TRY(read_shop(b, day, wall(b, day, opens + 15)));
    for (size_t i = 0; i < b->mixers_count; i++)
        DW_TRY(run_mixer(b, day, i, 0.65,
                         wall(b, day, opens + 45 + 20 * (int64_t)i)));
    return DW_OK;
}

/* Today: the first mixer is at work, the others have theirs before them. */
static dw_status live_today(book *b)
{
    double now = (double)b->now_ms;
    DW_TRY(read_shop(b, b->today, now - 130 * MINUTE));
    for (size_t i = 0; i < b->mixers_count; i++)
        DW_TRY(run_mixer(b, b->today, i, i == 0 ? 0.35 : 0.4,
                         i == 0 ? now - 110 * MINUTE : now + 15 * MINUTE));
    return DW_OK;
}

/* ---- what is left -------------------------------------------------------- */

/* Balls of a stack that are left on the evening of `evening`. */
static int64_t left_of(const book *b, const dw_stack *stack, int64_t evening)
{
    static const double shares[] = {0.85, 0.2, 0.04};
    int64_t age = evening - stack->mixing_day;
    dw_chance chance = dw_chance_of(b->seed, 5, (uint64_t)stack->id, 0);
    if (age < 0 || age >= (int64_t)DW_COUNT(shares))
        return 0;
    double share = shares[age] * (0.8 + 0.35 * dw_chance_unit(&chance));
    return (int64_t)(share * (double)stack->balls);
}

static dw_status use_up(book *b, const dw_stack *stack, int64_t left,
                        double latest)
{
    if (left >= stack->balls)
        return DW_OK;
    double at = wall(b, stack->mixing_day + 2, 1260);
    dw_stack_move move = {.stack_id = stack->id,
                          .kind = dw_words_find(dw_move_kind_words, "use"),
                          .balls = stack->balls - left,
                          .assumed = true,
                          .occurred_ms = (int64_t)(at < latest ? at : latest)};
    return dw_row_save(&b->call, "stack_move", &dw_stack_move_noun, &move,
                       NULL);
}

/* Add to the line of that product and mixing day. */
static void add_line(dw_count_line *lines, size_t *n, const dw_stack *stack,
                     int64_t balls)
{
    size_t i = 0;
    while (i < *n && (lines[i].product_id != stack->product_id ||
                      lines[i].mixing_day != stack->mixing_day))
        i++;
    if (i == *n)
        lines[(*n)++] = (dw_count_line){.product_id = stack->product_id,
                                        .mixing_day = stack->mixing_day};
    lines[i].balls += balls;
}

/* The count of yesterday evening, and what was used until then. */
static dw_status count_evening(book *b)
{
    int64_t evening = b->today - 1;
    double at = wall(b, evening, hours_of(b, evening)->leaves_minute - 10);
    dw_stack *stacks;
    size_t n, lines_count = 0;
    DW_TRY(dw_rows_get(&b->call, "stack", &dw_stack_noun, NULL, 0, "id",
                       &stacks, &n));
    dw_count_line *lines = DW_NEW_ARRAY(b->call.arena, dw_count_line, n);
    if (!lines)
        return dw_fail(b->call.err, DW_E_ROOM, "count", NULL);
    for (size_t i = 0; i < n; i++) {
        int64_t left = left_of(b, &stacks[i], evening);
        DW_TRY(use_up(b, &stacks[i], left, at - MINUTE));
        if (left > 0)
            add_line(lines, &lines_count, &stacks[i], left);
    }
    dw_count_row row = {0, evening, (int64_t)at, b->people[0].id};
    DW_TRY(dw_row_save(&b->call, "count_taken", &dw_count_taken_noun, &row,
                       &row.id));
    for (size_t i = 0; i < lines_count; i++) {
        lines[i].count_id = row.id;
        DW_TRY(dw_row_save(&b->call, "count_line", &dw_count_line_noun,
                           &lines[i], NULL));
    }
    return DW_OK;
}

/* ---- the book ------------------------------------------------------------ */

static dw_status read_book(book *b)
{
    dw_call *call = &b->call;
    DW_TRY(dw_shop_get(call, &b->shop));
    DW_TRY(dw_zone_load(b->shop.zone, call->arena, &b->zone, call->err));
    DW_TRY(dw_shop_day(call, &b->shop, b->now_ms, &b->today));
#define READ(table, list)                                                      \
    DW_TRY(dw_rows_get(call, #table, &dw_##table##_noun, NULL, 0, "id",        \
                       &b->list, &b->list##_count))
    READ(product, products);
    READ(build_to, build_to);
    READ(person, people);
    READ(mixer, mixers);
    READ(opening, openings);
    READ(material, materials);
#undef READ
    if (b->people_count == 0)
        return dw_fail(call->err, DW_E_MISSING, "shop.people", NULL);
    if (b->mixers_count == 0)
        return dw_fail(call->err, DW_E_MISSING, "shop.mixers", NULL);
    return DW_OK;
}

dw_status dw_demo_book(dw_call *call, uint64_t seed, int64_t *batches)
{
    book b = {.call = *call,
              .seed = seed,
              .now_ms = call->now_ms,
              .batches = batches};
    DW_TRY(read_book(&b));
    DW_TRY(make_lots(&b));
    for (int64_t day = b.today - DW_DEMO_BOOK_DAYS; day < b.today; day++)
        DW_TRY(live_day(&b, day));
    DW_TRY(count_evening(&b));
    return live_today(&b);
}
