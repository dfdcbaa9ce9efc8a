#include "app/evidence.h"

#include "app/batches.h"

#define HOUR_MS 3600000.0
enum { PROBES_MOST = 32, TASTED_MOST = 24, LOOKS_MOST = DW_CUP_LOOKS_MOST };
/* A cup filled later than this after the mixer says little of its yeast. */
#define LATE_MS (30 * 60000LL)
#define LOG_MS (7 * 86400000LL)

const char *const dw_evidence_why_words[] = {
    "fine",      "unlike",   "fahrenheit", "no_sensor", "impossible",
    "backwards", "gap",      "no_stack",   "no_times",  "no_dough",
    "no_air",    "no_model", "changed",    "late",      NULL};

#define ANY 1e6
static const dw_field evidence_fields[] = {
    DW_F_CHOICE(dw_evidence, what, dw_leave_words, "of which kind"),
    DW_F_ID(dw_evidence, of_id, "its row"),
    DW_F_ID(dw_evidence, batch_id, "of which batch"),
    DW_F_WHOLE(dw_evidence, number, "", 0, 1e9, "its number"),
    DW_F_TEXT_OPT(dw_evidence, name, 60, "the product"),
    DW_F_TEXT_OPT(dw_evidence, verdict, 20, "how it was called"),
    DW_F_MOMENT(dw_evidence, occurred_ms, "when"),
    DW_F_REAL_OPT(dw_evidence, value, "", -ANY, ANY,
                  "degC; of a cup its volume against the first"),
    DW_F_REAL_OPT(dw_evidence, expected, "", -ANY, ANY,
                  "what the lesson would have it read; of a verdict mL of gas"),
    DW_F_CHOICE(dw_evidence, use, dw_teach_use_words, "what became of it"),
    DW_F_CHOICE(dw_evidence, why, dw_evidence_why_words, "and why"),
    DW_F_TEXT_OPT(dw_evidence, reason, 200, "of who left it out"),
};
const dw_shape dw_evidence_shape =
    DW_SHAPE("evidence", dw_evidence, evidence_fields,
             "one reading and what became of it");

/* ---- what is left out ---------------------------------------------------- */

dw_status dw_left_outs_read(dw_call *call, dw_left_outs *outs)
{
    return dw_store_left_out(call->store, call->arena, &outs->rows,
                             &outs->count, call->err);
}

const dw_left_out *dw_left_outs_find(const dw_left_outs *outs, int what,
                                     int64_t of_id)
{
    for (size_t i = 0; i < outs->count; i++)
        if (outs->rows[i].what == what && outs->rows[i].of_id == of_id)
            return &outs->rows[i];
    return NULL;
}

/* An entry begins as what a person made of it. True: it is left out. */
static bool begin_entry(const dw_left_outs *outs, dw_evidence *entry)
{
    const dw_left_out *out = dw_left_outs_find(outs, entry->what, entry->of_id);
    entry->use = out ? DW_TEACH_LEFT_OUT : DW_TEACH_REFUSED;
    entry->why = DW_TEACH_FINE;
    entry->reason = out ? out->reason : NULL;
    return out != NULL;
}

static bool take_case(dw_call *call, size_t most, dw_case *made)
{
    made->entries = DW_NEW_ARRAY(call->arena, dw_evidence, most + 1);
    made->entry_of = DW_NEW_ARRAY(call->arena, size_t, most + 1);
    made->entries_count = 0;
    return made->entries && made->entry_of;
}

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "readings", NULL);
}

static void name_entry(const dw_stay *stay, dw_evidence *entry)
{
    entry->batch_id = stay->batch.id;
    entry->number = stay->batch.number;
    entry->name = stay->product.name;
}

/* ---- probes in stacks ---------------------------------------------------- */

/* On the bench the boxes stand as they will in the cold. */
static void stand(const dw_stay *stay, dw_teach_leg *legs, size_t *count)
{
    enum { OFFSET = 1, CLOSED = 2 };
    legs[0] = (dw_teach_leg){stay->bench_h, stay->room_c, OFFSET};
    legs[1] = (dw_teach_leg){stay->open_h, stay->air_c, OFFSET};
    legs[2] = (dw_teach_leg){stay->closed_h, stay->air_c, CLOSED};
    *count = stay->closed_h > 0 ? 3 : 2;
}

static dw_status add_probe(dw_call *call, const dw_reading_row *row,
                           const dw_left_outs *outs, dw_teach_stack_ask *ask,
                           dw_case *probes)
{
    dw_evidence *entry = &probes->entries[probes->entries_count];
    dw_stay stay;
    *entry = (dw_evidence){.what = DW_LEAVE_READING,
                           .of_id = row->id,
                           .occurred_ms = row->occurred_ms,
                           .has_value = true,
                           .value = row->celsius};
    bool out = begin_entry(outs, entry);
    DW_TRY(dw_stay_until(call, row->batch_id, row->product_id, row->occurred_ms,
                         &stay, &entry->why));
    name_entry(&stay, entry);
    size_t here = probes->entries_count++;
    if (out)
        entry->why = DW_TEACH_FINE;
    if (out || entry->why != DW_TEACH_FINE)
        return DW_OK;
    dw_teach_probe *probe = &ask->readings[ask->readings_count];
    *probe = (dw_teach_probe){.piece_g = stay.product.ball_kg * 1000,
                              .dough_c = stay.dough_c,
                              .has_formula = true,
                              .formula = stay.formula,
                              .core_c = row->celsius};
    probe->legs = DW_NEW_ARRAY(call->arena, dw_teach_leg, 3);
    if (!probe->legs)
        return no_room(call);
    stand(&stay, probe->legs, &probe->legs_count);
    probes->entry_of[ask->readings_count++] = here;
    return DW_OK;
}

dw_status dw_evidence_stack(dw_call *call, const dw_shop *shop,
                            const dw_left_outs *outs, dw_teach_stack_ask *ask,
                            dw_case *probes)
{
    dw_reading_row *rows;
    size_t n;
    DW_TRY(dw_store_readings_of(call->store, DW_READ_CORE, PROBES_MOST,
                                call->arena, &rows, &n, call->err));
    *ask = (dw_teach_stack_ask){.has_offset_usual_w_per_m2_k = true,
                                .offset_usual_w_per_m2_k =
                                    shop->open_h_w_per_m2_k};
    ask->readings = DW_NEW_ARRAY(call->arena, dw_teach_probe, n + 1);
    if (!ask->readings || !take_case(call, n, probes))
        return no_room(call);
    for (size_t i = n; i-- > 0;)
        if (rows[i].batch_id != 0)
            DW_TRY(add_probe(call, &rows[i], outs, ask, probes));
    return DW_OK;
}

/* ---- verdicts ------------------------------------------------------------ */

static dw_status add_verdict(dw_call *call, const dw_tasted *of,
                             const dw_stack_h *h, const dw_left_outs *outs,
                             dw_teach_yeast_ask *ask, dw_case *verdicts)
{
    dw_evidence *entry = &verdicts->entries[verdicts->entries_count];
    dw_verdict row;
    dw_stay stay;
    DW_TRY(dw_row_get(call, "verdict", &dw_verdict_noun, of->id, "id", &row));
    *entry = (dw_evidence){.what = DW_LEAVE_VERDICT,
                           .of_id = row.id,
                           .occurred_ms = row.occurred_ms,
                           .verdict = dw_verdict_words[row.verdict]};
    bool out = begin_entry(outs, entry);
    DW_TRY(dw_stay_until(call, row.batch_id, row.product_id, row.occurred_ms,
                         &stay, &entry->why));
    name_entry(&stay, entry);
    size_t here = verdicts->entries_count++;
    if (out)
        entry->why = DW_TEACH_FINE;
    if (out || entry->why != DW_TEACH_FINE)
        return DW_OK;
    dw_teach_taste *taste = &ask->verdicts[ask->verdicts_count];
    *taste = (dw_teach_taste){.formula = stay.formula,
                              .piece_g = stay.product.ball_kg * 1000,
                              .dough_c = stay.dough_c,
                              .legs_count = stay.closed_h > 0 ? 3 : 2,
                              .verdict = row.verdict};
    taste->legs = DW_NEW_ARRAY(call->arena, dw_leg, 3);
    if (!taste->legs)
        return no_room(call);
    taste->legs[0] = (dw_leg){stay.bench_h, stay.room_c, h->open_w_per_m2_k};
    taste->legs[1] = (dw_leg){stay.open_h, stay.air_c, h->open_w_per_m2_k};
    taste->legs[2] = (dw_leg){stay.closed_h, stay.air_c, h->closed_w_per_m2_k};
    verdicts->entry_of[ask->verdicts_count++] = here;
    return DW_OK;
}

/* ---- cups ---------------------------------------------------------------- */

/* From the mixer's stop, or from its filling when that was first. */
static int64_t cup_from_ms(const dw_cup *cup, const dw_batch_row *batch)
{
    bool stopped = batch->stopped_ms != 0;
    return stopped && batch->stopped_ms < cup->occurred_ms ? batch->stopped_ms
                                                           : cup->occurred_ms;
}

static void add_leg(dw_teach_cup *made, int64_t from_ms, int64_t to_ms,
                    double temp_c)
{
    double hours = (double)(to_ms - from_ms) / HOUR_MS;
    if (hours > 0)
        made->legs[made->legs_count++] = (dw_teach_cup_leg){hours, temp_c};
}

/* Where it stood, and its looks; entries from `first` on. */
static void fill_cup(const dw_cup *cup, const dw_cup_reading *rows, size_t n,
                     int64_t from_ms, const dw_evidence *entries,
                     dw_teach_cup *made)
{
    double place_c = cup->place_c;
    int64_t at_ms = from_ms;
    for (size_t i = 0; i < n; i++) {
        const dw_cup_reading *row = &rows[i];
        made->readings[i] = (dw_teach_cup_reading){
            (double)(row->occurred_ms - from_ms) / HOUR_MS,
            row->volume_ml / cup->start_ml,
            entries[i].use == DW_TEACH_LEFT_OUT};
        if (row->occurred_ms <= at_ms)
            continue;
        add_leg(made, at_ms, row->occurred_ms, place_c);
        at_ms = row->occurred_ms;
        place_c = row->place_c;
    }
    made->readings_count = n;
}

/* Entries of a cup's looks. */
static void enter_looks(const dw_left_outs *outs, const dw_cup *cup,
                        const dw_batch_row *batch, const dw_cup_reading *rows,
                        size_t n, int why, dw_case *cups)
{
    const dw_left_out *whole = dw_left_outs_find(outs, DW_LEAVE_CUP, cup->id);
    for (size_t i = 0; i < n; i++) {
        dw_evidence *entry = &cups->entries[cups->entries_count++];
        *entry = (dw_evidence){.what = DW_LEAVE_CUP_READING,
                               .of_id = rows[i].id,
                               .batch_id = batch->id,
                               .number = batch->number,
                               .occurred_ms = rows[i].occurred_ms,
                               .has_value = true,
                               .value = rows[i].volume_ml / cup->start_ml};
        if (begin_entry(outs, entry))
            continue;
        entry->why = why;
        if (whole) {
            entry->use = DW_TEACH_LEFT_OUT;
            entry->why = DW_TEACH_FINE;
            entry->reason = whole->reason;
        }
    }
}

static dw_status add_cup(dw_call *call, const dw_tasted *of,
                         const dw_left_outs *outs, dw_teach_yeast_ask *ask,
                         dw_case *cups)
{
    dw_cup cup;
    dw_batch_row batch;
    dw_formula formula;
    dw_cup_reading *rows;
    size_t n, first = cups->entries_count;
    int why = DW_TEACH_FINE;
    DW_TRY(dw_row_get(call, "cup", &dw_cup_noun, of->id, "id", &cup));
    DW_TRY(dw_row_get(call, "batch", &dw_batch_noun, cup.batch_id, "batch_id",
                      &batch));
    DW_TRY(dw_rows_get(call, "cup_reading", &dw_cup_reading_noun, "cup_id",
                       cup.id, "id", &rows, &n));
    n = n < LOOKS_MOST ? n : LOOKS_MOST;
    int64_t from_ms = cup_from_ms(&cup, &batch);
    if (cup.occurred_ms - from_ms > LATE_MS)
        why = DW_WHY_LATE;
    DW_TRY(dw_batch_dough(call, &batch, &formula, &why));
    enter_looks(outs, &cup, &batch, rows, n, why, cups);
    if (n == 0 || why != DW_TEACH_FINE)
        return DW_OK;
    dw_teach_cup *made = &ask->cups[ask->cups_count];
    *made = (dw_teach_cup){.formula = formula};
    made->legs = DW_NEW_ARRAY(call->arena, dw_teach_cup_leg, n);
    made->readings = DW_NEW_ARRAY(call->arena, dw_teach_cup_reading, n);
    if (!made->legs || !made->readings)
        return no_room(call);
    fill_cup(&cup, rows, n, from_ms, &cups->entries[first], made);
    cups->entry_of[ask->cups_count++] = first;
    return DW_OK;
}

dw_status dw_evidence_yeast(dw_call *call, const dw_stack_h *h,
                            const dw_left_outs *outs, const dw_yeast_key *key,
                            dw_teach_yeast_ask *ask, dw_case *cups,
                            dw_case *verdicts)
{
    dw_tasted *cup, *verdict;
    size_t cup_count, verdict_count;
    DW_TRY(dw_store_cups_of(call->store, key->yeast, key->formula_id,
                            key->lot_id, TASTED_MOST, call->arena, &cup,
                            &cup_count, call->err));
    DW_TRY(dw_store_verdicts_of(call->store, key->yeast, key->formula_id,
                                key->lot_id, TASTED_MOST, call->arena, &verdict,
                                &verdict_count, call->err));
    *ask = (dw_teach_yeast_ask){.elevation_m = 0};
    ask->cups = DW_NEW_ARRAY(call->arena, dw_teach_cup, cup_count + 1);
    ask->verdicts =
        DW_NEW_ARRAY(call->arena, dw_teach_taste, verdict_count + 1);
    if (!ask->cups || !ask->verdicts ||
        !take_case(call, cup_count * LOOKS_MOST, cups) ||
        !take_case(call, verdict_count, verdicts))
        return no_room(call);
    for (size_t i = cup_count; i-- > 0;)
        DW_TRY(add_cup(call, &cup[i], outs, ask, cups));
    for (size_t i = verdict_count; i-- > 0;)
        DW_TRY(add_verdict(call, &verdict[i], h, outs, ask, verdicts));
    return DW_OK;
}

/* ---- the room ------------------------------------------------------------ */

dw_status dw_evidence_room(dw_call *call, const dw_left_outs *outs,
                           dw_teach_room_ask *ask, dw_case *log)
{
    dw_reading_row *rows;
    size_t n;
    DW_TRY(dw_store_readings_of(call->store, DW_READ_COLD, DW_TEACH_LOG_MOST,
                                call->arena, &rows, &n, call->err));
    *ask = (dw_teach_room_ask){.at_h_count = 0};
    ask->at_h = DW_NEW_ARRAY(call->arena, double, n + 1);
    ask->air_c = DW_NEW_ARRAY(call->arena, double, n + 1);
    ask->left_out = DW_NEW_ARRAY(call->arena, int64_t, n + 1);
    if (!ask->at_h || !ask->air_c || !ask->left_out || !take_case(call, n, log))
        return no_room(call);
    for (size_t i = n; i-- > 0;) {
        if (rows[i].occurred_ms < rows[0].occurred_ms - LOG_MS)
            continue;
        size_t at = ask->at_h_count++;
        dw_evidence *entry = &log->entries[log->entries_count++];
        *entry = (dw_evidence){.what = DW_LEAVE_READING,
                               .of_id = rows[i].id,
                               .batch_id = rows[i].batch_id,
                               .occurred_ms = rows[i].occurred_ms,
                               .has_value = true,
                               .value = rows[i].celsius};
        if (begin_entry(outs, entry))
            ask->left_out[ask->left_out_count++] = (int64_t)at;
        ask->at_h[at] =
            (double)(rows[i].occurred_ms - rows[n - 1].occurred_ms) / HOUR_MS;
        ask->air_c[at] = rows[i].celsius;
        log->entry_of[at] = at;
    }
    ask->air_c_count = ask->at_h_count;
    return DW_OK;
}
