#include "app/plan.h"
#include "app/run.h"

#include "app/said.h"
#include "app/stock.h"
#include "doughwright/say.h"
#include "os/zone.h"

enum { NOTES_MOST = 200, PIECES_MOST = 40 };

/* Flour this strong makes the mixer work harder (heat.h of the mixers' charts:
 * "high-gluten"). Common practice, no source. */
#define HIGH_GLUTEN_PERCENT 13.5

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "plan", NULL);
}

/* Everything that is read once for the whole plan. */
typedef struct desk {
    dw_call *call;
    const dw_plan_request *request;
    dw_shop shop;
    dw_mixer_row mixer;
    dw_pack_standard *standards;
    size_t standards_count;
    dw_product *products; /* of request->pieces, in its order */
    dw_notes notes;
    dw_plan *plan;
    size_t batches_room;
} desk;

/* ---- reading ------------------------------------------------------------- */

static dw_status read_mixer(desk *d)
{
    dw_mixer_row *rows;
    size_t n, k = 0;
    DW_TRY(dw_rows_get(d->call, "mixer", &dw_mixer_noun, NULL, 0, "id", &rows,
                       &n));
    while (k < n && !(rows[k].here && (d->request->mixer_id == 0 ||
                                       rows[k].id == d->request->mixer_id)))
        k++;
    if (k == n)
        return dw_fail(d->call->err, DW_E_NOT_FOUND, "mixer_id", NULL);
    d->mixer = rows[k];
    return DW_OK;
}

static dw_status limits_of(dw_call *call, const dw_mixer_row *mixer,
                           dw_mixer_limits *limits)
{
    dw_mixer_limit_row *own;
    size_t n;
    DW_TRY(dw_rows_get(call, "mixer_limit", &dw_mixer_limit_noun, "mixer_id",
                       mixer->id, "absorption_percent", &own, &n));
    *limits = (dw_mixer_limits){.kind = mixer->kind,
                                .duty = mixer->duty,
                                .has_bowl_litres = mixer->bowl_litres > 0,
                                .bowl_litres = mixer->bowl_litres,
                                .note = mixer->plate_note,
                                .has_min_dough_kg = mixer->has_min_dough_kg,
                                .min_dough_kg = mixer->min_dough_kg};
    limits->ratings = DW_NEW_ARRAY(call->arena, dw_mixer_rating, n);
    if (!limits->ratings)
        return no_room(call);
    limits->ratings_count = n;
    for (size_t i = 0; i < n; i++)
        limits->ratings[i] = own[i].rating;
    return DW_OK;
}

static dw_status read_standards(desk *d)
{
    dw_standard_batch *rows;
    size_t n;
    DW_TRY(dw_rows_get(d->call, "standard_batch", &dw_standard_batch_noun, NULL,
                       0, "flour_kg DESC", &rows, &n));
    if (n > DW_PACK_STANDARDS)
        n = DW_PACK_STANDARDS;
    d->standards = DW_NEW_ARRAY(d->call->arena, dw_pack_standard, n);
    if (!d->standards)
        return no_room(d->call);
    d->standards_count = n;
    for (size_t i = 0; i < n; i++)
        d->standards[i] = (dw_pack_standard){rows[i].name, rows[i].flour_kg};
    return DW_OK;
}

static dw_status read_products(desk *d)
{
    const dw_plan_request *r = d->request;
    d->products = DW_NEW_ARRAY(d->call->arena, dw_product, r->pieces_count);
    if (!d->products)
        return no_room(d->call);
    for (size_t i = 0; i < r->pieces_count; i++) {
        DW_TRY(dw_row_get(d->call, "product", &dw_product_noun,
                          r->pieces[i].product_id, "pieces.product_id",
                          &d->products[i]));
        for (size_t j = 0; j < i; j++)
            if (r->pieces[j].product_id == r->pieces[i].product_id)
                return dw_fail_says(d->call->err, DW_E_CONFLICT, "pieces",
                                    d->products[i].name,
                                    DW_MSG("is ordered twice"));
    }
    return DW_OK;
}

/* ---- one formula --------------------------------------------------------- */

dw_status dw_plan__mixer_takes(dw_call *call, const dw_mixer_row *mixer,
                               const dw_recipe *recipe, dw_mixer_answer *answer,
                               dw_plan_takes *takes)
{
    dw_hydration hydration;
    dw_mixer_limits limits;
    DW_TRY(limits_of(call, mixer, &limits));
    dw_lines_hydration(recipe->formula.lines, NULL, recipe->formula.lines_count,
                       &hydration);
    dw_mixer_dough dough;
    dw_shape_preset(&dw_mixer_dough_shape, &dough);
    dough.absorption_percent = hydration.percent;
    for (size_t i = 0; i < recipe->formula.lines_count; i++) {
        const dw_line *line = &recipe->formula.lines[i];
        if (line->kind == DW_FLOUR && line->has_protein_percent &&
            line->protein_percent >= HIGH_GLUTEN_PERCENT)
            dough.high_gluten = true;
    }
    DW_TRY(dw_reading_newest(call, 0, DW_READ_FLOUR, &dough.flour_c,
                             &dough.has_flour_c));
    DW_TRY(dw_mixer_limit(&limits, &dough, call->err, answer));
    *takes = (dw_plan_takes){.origin = answer->origin,
                             .absorption_percent = dough.absorption_percent,
                             .derating = answer->derating,
                             .has_rated_kg = answer->has_rated_kg,
                             .has_max_dough_kg = answer->has_max_dough_kg,
                             .has_min_dough_kg = answer->has_min_dough_kg,
                             .rated_kg = answer->rated_kg,
                             .max_dough_kg = answer->max_dough_kg,
                             .min_dough_kg = answer->min_dough_kg,
                             .mixer = mixer->name,
                             .note = limits.note};
    return DW_OK;
}

static dw_status mixer_takes(desk *d, const dw_recipe *recipe,
                             dw_mixer_answer *answer, dw_plan_takes *takes)
{
    DW_TRY(dw_plan__mixer_takes(d->call, &d->mixer, recipe, answer, takes));
    for (size_t i = 0; i < answer->notes_count; i++)
        if (d->notes.count < d->notes.room)
            d->notes.at[d->notes.count++] = answer->notes[i];
    return DW_OK;
}

/* The sizes of one formula as the packing wants them. */
static dw_status pack_formula(desk *d, const dw_recipe *recipe,
                              dw_plan_takes *takes, dw_pack_reply *packed)
{
    dw_mixer_answer *mixer = DW_NEW(d->call->arena, dw_mixer_answer);
    if (!mixer)
        return no_room(d->call);
    DW_TRY(mixer_takes(d, recipe, mixer, takes));
    dw_pack_request request;
    dw_shape_preset(&dw_pack_request_shape, &request);
    request.sizes =
        DW_NEW_ARRAY(d->call->arena, dw_pack_size, d->request->pieces_count);
    if (!request.sizes)
        return no_room(d->call);
    for (size_t i = 0; i < d->request->pieces_count; i++) {
        const dw_product *product = &d->products[i];
        if (product->formula_id == recipe->formula_id)
            request.sizes[request.sizes_count++] = (dw_pack_size){
                product->name, product->ball_kg * 1000,
                d->request->pieces[i].balls, product->balls_per_box};
    }
    request.total_percent = dw_lines_total_percent(recipe->formula.lines,
                                                   recipe->formula.lines_count);
    request.loss_percent = d->shop.ball_loss_percent;
    request.standards = d->standards;
    request.standards_count = d->standards_count;
    request.split = d->request->split;
    request.has_max_dough_kg = mixer->has_max_dough_kg;
    request.max_dough_kg = mixer->max_dough_kg;
    request.has_min_dough_kg = mixer->has_min_dough_kg;
    request.min_dough_kg = mixer->min_dough_kg;
    request.has_bench = true;
    request.bench = (dw_pack_bench){
        (double)d->shop.hands, d->shop.balls_per_minute, d->shop.bench_minutes};
    if (dw_shape_check(&dw_pack_request_shape, &request, d->call->err) != DW_OK)
        return d->call->err->status;
    return dw_batch_pack(&request, d->call->arena, d->call->err, packed);
}

static const dw_product *product_named(const desk *d, const char *name)
{
    for (size_t i = 0; i < d->request->pieces_count; i++)
        if (d->products[i].name == name) /* borrowed: the same text */
            return &d->products[i];
    DW_ASSERT(false);
    return NULL;
}

static dw_status draft_batch(desk *d, const dw_recipe *recipe,
                             const dw_pack_batch *packed, dw_plan_batch *batch)
{
    *batch = (dw_plan_batch){.formula_name = recipe->name,
                             .standard = packed->standard,
                             .odd_kg = packed->odd_kg};
    batch->batch.version_id = recipe->version_id;
    batch->batch.mixer_id = d->mixer.id;
    batch->batch.person_id = d->call->person_id;
    batch->batch.day = d->plan->day;
    batch->batch.flour_kg = packed->flour_kg;
    batch->batch.dough_kg = packed->dough_kg;
    batch->batch.dough_goal_c = recipe->dough_goal_c;
    batch->pieces =
        DW_NEW_ARRAY(d->call->arena, dw_card_cut, packed->sizes_count);
    if (!batch->pieces)
        return no_room(d->call);
    for (size_t i = 0; i < packed->sizes_count; i++) {
        const dw_pack_balls *balls = &packed->sizes[i];
        if (balls->count == 0)
            continue;
        const dw_product *product = product_named(d, balls->product);
        size_t n = batch->pieces_count++;
        batch->pieces[n] =
            (dw_card_cut){.piece = {.product_id = product->id,
                                    .position = (int64_t)n + 1,
                                    .ball_kg = product->ball_kg,
                                    .balls_planned = balls->count},
                          .name = product->name,
                          .balls_per_box = product->balls_per_box,
                          .boxes = balls->boxes,
                          .in_part_box = balls->in_part_box};
    }
    return dw_plan__fill(d->call, &d->shop, recipe, &d->mixer,
                         d->request->bag_of_minors, batch, &d->notes);
}

/* What is beyond the order goes into stock: named on the last batches. */
static void name_surplus(desk *d, size_t first, const dw_plan_account *account)
{
    int64_t left = account->surplus;
    for (size_t i = d->plan->batches_count; i-- > first && left > 0;) {
        dw_plan_batch *batch = &d->plan->batches[i];
        for (size_t j = 0; j < batch->pieces_count && left > 0; j++) {
            dw_batch_piece *piece = &batch->pieces[j].piece;
            if (piece->product_id != account->product_id)
                continue;
            piece->to_stock =
                left < piece->balls_planned ? left : piece->balls_planned;
            left -= piece->to_stock;
        }
    }
}

static dw_status plan_formula(desk *d, int64_t formula_id)
{
    dw_plan *plan = d->plan;
    dw_recipe recipe;
    dw_plan_takes takes;
    dw_pack_reply packed = {0};
    DW_TRY(dw_recipe_newest(d->call, formula_id, &recipe));
    DW_TRY(pack_formula(d, &recipe, &takes, &packed));
    size_t first = plan->batches_count;
    if (first + packed.batches_count > d->batches_room)
        return dw_fail(d->call->err, DW_E_TOO_LARGE, "pieces", NULL);
    for (size_t i = 0; i < packed.batches_count; i++) {
        dw_plan_batch *batch = &plan->batches[plan->batches_count++];
        DW_TRY(draft_batch(d, &recipe, &packed.batches[i], batch));
        batch->takes = takes;
    }
    for (size_t i = 0; i < packed.account_count; i++) {
        const dw_product *product = product_named(d, packed.account[i].product);
        dw_plan_account *account = &plan->account[plan->account_count++];
        *account = (dw_plan_account){product->id, packed.account[i].ordered,
                                     packed.account[i].made,
                                     packed.account[i].surplus, product->name};
        name_surplus(d, first, account);
    }
    for (size_t i = 0; i < packed.notes_count; i++)
        if (d->notes.count < d->notes.room)
            d->notes.at[d->notes.count++] = packed.notes[i];
    plan->proved = plan->proved && packed.proved;
    return DW_OK;
}

/* ---- the run ------------------------------------------------------------- */

/* When it starts: as asked, else now, but not before anybody is there. */
static void set_start(const desk *d, dw_run_request *run)
{
    run->has_start_ms = true;
    run->start_ms = d->request->start_ms;
    if (run->start_ms == 0) {
        run->start_ms = d->call->now_ms;
        if (run->has_earliest_ms && run->start_ms < run->earliest_ms)
            run->start_ms = run->earliest_ms;
    }
}

static dw_status add_run_batch(desk *d, size_t i, dw_run_batch *line)
{
    const dw_plan_batch *batch = &d->plan->batches[i];
    line->name = dw_arena_print(d->call->arena, "%d", (int)i + 1);
    if (!line->name)
        return no_room(d->call);
    return dw_run_fill(d->call, &d->shop, batch->dough_out_min, batch->pieces,
                       batch->pieces_count, batch->batch.dough_goal_c, line);
}

static dw_status lay_run(desk *d)
{
    dw_plan *plan = d->plan;
    dw_run_request run;
    DW_TRY(dw_run_open(d->call, &d->shop, plan->day,
                       plan->batches[0].batch.dough_goal_c, &run));
    run.order = d->request->order;
    set_start(d, &run);
    run.batches =
        DW_NEW_ARRAY(d->call->arena, dw_run_batch, plan->batches_count);
    if (!run.batches)
        return no_room(d->call);
    run.batches_count = plan->batches_count;
    for (size_t i = 0; i < plan->batches_count; i++)
        DW_TRY(add_run_batch(d, i, &run.batches[i]));
    DW_TRY(dw_run_sheet(&run, d->call->arena, d->call->err, &plan->run));
    for (size_t i = 0; i < plan->run.batches_count; i++)
        for (size_t j = 0; j < plan->batches_count; j++)
            if (dw_text_is(plan->run.batches[i].name, run.batches[j].name))
                plan->batches[j].batch.planned_ms =
                    plan->run.batches[i].mix_start_ms;
    return DW_OK;
}

/* ---- the plan ------------------------------------------------------------ */

static dw_status open_desk(desk *d)
{
    const dw_plan_request *r = d->request;
    DW_TRY(dw_shop_get(d->call, &d->shop));
    d->plan->day = r->day;
    if (r->day == 0)
        DW_TRY(dw_shop_day(d->call, &d->shop, d->call->now_ms, &d->plan->day));
    DW_TRY(read_mixer(d));
    DW_TRY(read_standards(d));
    DW_TRY(read_products(d));
    d->batches_room = DW_RUN_BATCHES;
    d->plan->proved = true;
    d->plan->batches =
        DW_NEW_ARRAY(d->call->arena, dw_plan_batch, d->batches_room);
    d->plan->account =
        DW_NEW_ARRAY(d->call->arena, dw_plan_account, r->pieces_count);
    d->notes.at = DW_NEW_ARRAY(d->call->arena, dw_note, NOTES_MOST);
    d->notes.room = NOTES_MOST;
    if (!d->plan->batches || !d->plan->account || !d->notes.at)
        return no_room(d->call);
    return DW_OK;
}

dw_status dw_plan_make(dw_call *call, const dw_plan_request *request,
                       dw_plan *plan)
{
    *plan = (dw_plan){.day = 0};
    desk d = {.call = call, .request = request, .plan = plan};
    DW_TRY(open_desk(&d));
    for (size_t i = 0; i < request->pieces_count; i++) {
        bool seen = false;
        for (size_t j = 0; j < i; j++)
            seen |= d.products[j].formula_id == d.products[i].formula_id;
        if (!seen)
            DW_TRY(plan_formula(&d, d.products[i].formula_id));
    }
    DW_TRY(lay_run(&d));
    plan->notes = d.notes.at;
    plan->notes_count = d.notes.count;
    dw_said_advice(call, plan->run.advice, plan->run.advice_count);
    DW_TRY(dw_said_notes(call, plan->notes, plan->notes_count));
    return dw_said_notes(call, plan->run.notes, plan->run.notes_count);
}

static dw_status keep_rows(dw_call *call, dw_plan_batch *batch)
{
    int64_t id = batch->batch.id;
    for (size_t i = 0; i < batch->pieces_count; i++) {
        batch->pieces[i].piece.batch_id = id;
        DW_TRY(dw_row_save(call, "batch_piece", &dw_batch_piece_noun,
                           &batch->pieces[i].piece,
                           &batch->pieces[i].piece.id));
    }
    for (size_t i = 0; i < batch->weighings_count; i++) {
        batch->weighings[i].batch_id = id;
        DW_TRY(dw_row_save(call, "batch_weighing", &dw_batch_weighing_noun,
                           &batch->weighings[i], &batch->weighings[i].id));
    }
    for (size_t i = 0; i < batch->steps_count; i++) {
        batch->steps[i].batch_id = id;
        DW_TRY(dw_row_save(call, "batch_step", &dw_batch_step_noun,
                           &batch->steps[i], &batch->steps[i].id));
    }
    return DW_OK;
}

static dw_status take_bag(dw_call *call, int64_t lot_id)
{
    dw_minors_lot lot;
    DW_TRY(dw_row_get(call, "minors_lot", &dw_minors_lot_noun, lot_id,
                      "minors_lot_id", &lot));
    if (lot.left_count == 0)
        return dw_fail_says(call->err, DW_E_CONFLICT, "bag_of_minors", NULL,
                            DW_MSG("has no bag left"));
    lot.left_count--;
    return dw_row_save(call, "minors_lot", &dw_minors_lot_noun, &lot, NULL);
}

dw_status dw_plan_keep(dw_call *call, dw_plan *plan)
{
    for (size_t i = 0; i < plan->batches_count; i++) {
        dw_plan_batch *batch = &plan->batches[i];
        DW_TRY(dw_store_batch_number(call->store, call->arena,
                                     &batch->batch.number, call->err));
        DW_TRY(dw_row_save(call, "batch", &dw_batch_noun, &batch->batch,
                           &batch->batch.id));
        DW_TRY(keep_rows(call, batch));
        if (batch->batch.minors_lot_id)
            DW_TRY(take_bag(call, batch->batch.minors_lot_id));
        DW_TRY(dw_recipe_mark_used(call, batch->batch.version_id));
    }
    return DW_OK;
}
