/* Lessons from stored readings, told whole or kept as rows. */
#include "app/taught.h"

#define YEAST_BYTES ((size_t)6 << 20)
#define STACK_BYTES ((size_t)4 << 20)
#define YEAST_ENTRIES ((size_t)3 * DW_EVIDENCE_YEAST_MOST) /* three kinds */
#define ROOM_BYTES ((size_t)1 << 20)

const char *const dw_lesson_words[] = {"stack", "yeast", "room", NULL};

static const dw_field told_fields[] = {
    DW_F_CHOICE(dw_told, lesson, dw_lesson_words, "about what"),
    DW_F_YES(dw_told, left_out, false, "as a whole: the trade's numbers hold"),
    DW_F_TEXT_OPT(dw_told, reason, 200, "of who left it out"),
    DW_F_MANY_OPT(dw_told, values, &dw_taught_noun, 1000, "what it says"),
    DW_F_MANY_OPT(dw_told, readings, &dw_evidence_shape, 10000,
                  "what it was made from, oldest first"),
};
const dw_shape dw_told_shape =
    DW_SHAPE("told", dw_told, told_fields, "a lesson and its readings");

/* ---- marks to entries ---------------------------------------------------- */

static void put_mark(const dw_teach_mark *mark, dw_evidence *entry)
{
    entry->use = mark->use;
    entry->why = mark->why;
    entry->has_expected = mark->has_expected;
    entry->expected = mark->expected;
}

static void count_entry(const dw_evidence *entry, dw_teach_counts *counts)
{
    counts->used += entry->use == DW_TEACH_USED;
    counts->doubted += entry->use == DW_TEACH_DOUBTED;
    counts->refused += entry->use == DW_TEACH_REFUSED;
    counts->left_out += entry->use == DW_TEACH_LEFT_OUT;
}

static void count_case(const dw_case *made, dw_teach_counts *counts)
{
    for (size_t i = 0; i < made->entries_count; i++)
        count_entry(&made->entries[i], counts);
}

/* A number of which nothing counts is not known better than before. */
static void add_value(const dw_call *call, int what, const dw_belief *prior,
                      const dw_belief *after, const dw_teach_counts *counts,
                      dw_told *told)
{
    if (counts->used + counts->doubted == 0)
        return;
    told->values[told->values_count++] =
        (dw_taught_row){.what = what,
                        .prior_mean = prior->mean,
                        .prior_low = prior->low,
                        .prior_high = prior->high,
                        .mean = after->mean,
                        .low = after->low,
                        .high = after->high,
                        .used = counts->used,
                        .doubted = counts->doubted,
                        .refused = counts->refused,
                        .left_out = counts->left_out,
                        .learned_ms = call->now_ms};
}

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "readings", NULL);
}

/* A block of the call's arena for one lesson after the other. */
static bool borrow(dw_call *call, size_t bytes, dw_arena *arena)
{
    void *block = dw_arena_take(call->arena, bytes);
    dw_arena_init(arena, block, block ? bytes : 0);
    return block != NULL;
}

/* ---- stacks -------------------------------------------------------------- */

/* What counts for the closed state: probes of stacks that were closed. */
static dw_teach_counts count_closed(const dw_teach_stack_ask *ask,
                                    const dw_case *probes)
{
    dw_teach_counts counts = {0};
    for (size_t i = 0; i < ask->readings_count; i++)
        if (ask->readings[i].legs_count == 3)
            count_entry(&probes->entries[probes->entry_of[i]], &counts);
    return counts;
}

static dw_status tell_stack(dw_call *call, const dw_left_outs *outs,
                            dw_told *told)
{
    dw_shop shop;
    dw_teach_stack_ask ask;
    dw_case probes;
    dw_arena arena;
    dw_teach_stack reply;
    DW_TRY(dw_shop_get(call, &shop));
    DW_TRY(dw_evidence_stack(call, &shop, outs, &ask, &probes));
    told->values = DW_NEW_ARRAY(call->arena, dw_taught_row, 2);
    if (!told->values || !borrow(call, STACK_BYTES, &arena))
        return no_room(call);
    DW_TRY(dw_teach_stack_run(&ask, &arena, &reply, call->err));
    for (size_t i = 0; i < reply.marks_count; i++)
        put_mark(&reply.marks[i], &probes.entries[probes.entry_of[i]]);
    dw_teach_counts counts = {0}, closed = count_closed(&ask, &probes);
    count_case(&probes, &counts);
    const dw_lesson *h = &reply.offset_w_per_m2_k;
    add_value(call, DW_TAUGHT_OFFSET_H, &h->prior, &h->after, &counts, told);
    h = &reply.closed_w_per_m2_k;
    add_value(call, DW_TAUGHT_CLOSED_H, &h->prior, &h->after, &closed, told);
    told->readings = probes.entries;
    told->readings_count = probes.entries_count;
    return DW_OK;
}

/* By the stack's lesson where there is one. */
static dw_status stack_h(dw_call *call, dw_stack_h *h)
{
    dw_shop shop;
    dw_taught kept;
    DW_TRY(dw_shop_get(call, &shop));
    DW_TRY(dw_taught_read(call, &kept));
    *h = dw_taught_h(&kept, &shop);
    return DW_OK;
}

/* ---- yeast --------------------------------------------------------------- */

/* Keys: each yeast; each formula with it when there are several; each lot when
 * there are several. */
static void add_keys(const dw_tasted *kinds, size_t n, dw_yeast_key *keys,
                     size_t *count)
{
    for (size_t i = 0; i < n; i++) {
        const dw_yeast_key wanted[] = {{kinds[i].yeast, 0, 0},
                                       {kinds[i].yeast, kinds[i].formula_id, 0},
                                       {kinds[i].yeast, 0, kinds[i].lot_id}};
        for (size_t k = 0; k < DW_COUNT(wanted); k++) {
            bool known = k == 2 && wanted[k].lot_id == 0;
            for (size_t j = 0; j < *count && !known; j++)
                known = keys[j].yeast == wanted[k].yeast &&
                        keys[j].formula_id == wanted[k].formula_id &&
                        keys[j].lot_id == wanted[k].lot_id;
            if (!known)
                keys[(*count)++] = wanted[k];
        }
    }
}

/* A formula or lot that is the only one of its yeast says what the yeast does.
 */
static bool is_only_one(const dw_yeast_key *keys, size_t count,
                        const dw_yeast_key *key)
{
    size_t formulas = 0, lots = 0;
    for (size_t i = 0; i < count; i++) {
        formulas += keys[i].yeast == key->yeast && keys[i].formula_id != 0;
        lots += keys[i].yeast == key->yeast && keys[i].lot_id != 0;
    }
    return (key->formula_id != 0 && formulas == 1) ||
           (key->lot_id != 0 && lots == 1);
}

static void mark_yeast(const dw_teach_yeast *reply, dw_case *cups,
                       dw_case *verdicts)
{
    for (size_t i = 0; i < reply->cups_count; i++)
        for (size_t k = 0; k < reply->cups[i].marks_count; k++) {
            dw_evidence *entry = &cups->entries[cups->entry_of[i] + k];
            if (entry->use != DW_TEACH_LEFT_OUT)
                put_mark(&reply->cups[i].marks[k], entry);
        }
    for (size_t i = 0; i < reply->verdicts_count; i++)
        put_mark(&reply->verdicts[i],
                 &verdicts->entries[verdicts->entry_of[i]]);
}

static void add_entries(const dw_case *made, dw_told *told)
{
    for (size_t i = 0; i < made->entries_count; i++)
        told->readings[told->readings_count++] = made->entries[i];
}

static dw_status tell_key(dw_call *call, const dw_left_outs *outs,
                          const dw_stack_h *h, const dw_yeast_key *key,
                          const dw_belief *unread, dw_arena *block,
                          dw_told *told)
{
    dw_teach_yeast_ask ask;
    dw_case cups, verdicts;
    dw_teach_yeast reply;
    dw_arena arena = *block; /* from its front, each time */
    DW_TRY(dw_evidence_yeast(call, h, outs, key, &ask, &cups, &verdicts));
    DW_TRY(dw_teach_yeast_run(&ask, &arena, &reply, call->err));
    mark_yeast(&reply, &cups, &verdicts);
    dw_teach_counts counts = {0};
    count_case(&cups, &counts);
    count_case(&verdicts, &counts);
    size_t first = told->values_count;
    add_value(call, DW_TAUGHT_ACTIVITY, &reply.activity.prior,
              &reply.activity.after, &counts, told);
    add_value(call, DW_TAUGHT_F_TMIN, &reply.f_Tmin.prior, &reply.f_Tmin.after,
              &counts, told);
    add_value(call, DW_TAUGHT_COLD_RATIO, unread, &reply.cold_ratio, &counts,
              told);
    for (size_t i = first; i < told->values_count; i++) {
        told->values[i].has_yeast = true;
        told->values[i].yeast = key->yeast;
        told->values[i].formula_id = key->formula_id;
        told->values[i].lot_id = key->lot_id;
    }
    if (key->formula_id != 0 || key->lot_id != 0)
        return DW_OK;
    add_entries(&cups, told);
    add_entries(&verdicts, told);
    return DW_OK;
}

/* The gas rate in the cold as far as it is known without any reading. */
static dw_status cold_unread(dw_call *call, const dw_arena *block,
                             dw_belief *unread)
{
    const dw_teach_yeast_ask nothing = {.elevation_m = 0};
    dw_teach_yeast reply;
    dw_arena arena = *block;
    DW_TRY(dw_teach_yeast_run(&nothing, &arena, &reply, call->err));
    *unread = reply.cold_ratio;
    return DW_OK;
}

static dw_status tell_yeast(dw_call *call, const dw_left_outs *outs,
                            dw_told *told)
{
    enum { NUMBERS = 3 };
    dw_tasted *kinds;
    size_t n, count = 0;
    dw_stack_h h;
    dw_arena arena;
    dw_belief unread;
    DW_TRY(
        dw_store_tasted_kinds(call->store, call->arena, &kinds, &n, call->err));
    DW_TRY(stack_h(call, &h));
    dw_yeast_key *keys = DW_NEW_ARRAY(call->arena, dw_yeast_key, 3 * n + 1);
    told->values =
        DW_NEW_ARRAY(call->arena, dw_taught_row, 3 * n * NUMBERS + 1);
    told->readings = DW_NEW_ARRAY(call->arena, dw_evidence, YEAST_ENTRIES);
    if (!keys || !told->values || !told->readings ||
        !borrow(call, YEAST_BYTES, &arena))
        return no_room(call);
    DW_TRY(cold_unread(call, &arena, &unread));
    add_keys(kinds, n, keys, &count);
    for (size_t i = 0; i < count; i++)
        if (!is_only_one(keys, count, &keys[i]))
            DW_TRY(tell_key(call, outs, &h, &keys[i], &unread, &arena, told));
    return DW_OK;
}

/* ---- the room ------------------------------------------------------------ */

/* Of the log only what is not simply used. */
static void keep_told(dw_case *log, dw_told *told)
{
    told->readings = log->entries;
    for (size_t i = 0; i < log->entries_count; i++) {
        const dw_evidence *entry = &log->entries[i];
        if (entry->use != DW_TEACH_USED || entry->why != DW_TEACH_FINE)
            told->readings[told->readings_count++] = *entry;
    }
}

/* Readings soon after another: the others say nothing of how fast the air comes
 * back. */
static dw_teach_counts count_followed(const dw_case *log)
{
    dw_teach_counts counts = {0};
    bool first = true;
    for (size_t i = 0; i < log->entries_count; i++) {
        const dw_evidence *entry = &log->entries[i];
        bool counts_here = entry->use == DW_TEACH_USED ||
                           entry->use == DW_TEACH_DOUBTED;
        if (!(counts_here && first) && entry->why != DW_TEACH_GAP)
            count_entry(entry, &counts);
        first = first && !counts_here;
    }
    return counts;
}

static dw_status tell_room(dw_call *call, const dw_left_outs *outs,
                           dw_told *told)
{
    dw_teach_room_ask ask;
    dw_case log;
    dw_arena arena;
    dw_teach_room reply;
    DW_TRY(dw_evidence_room(call, outs, &ask, &log));
    told->values = DW_NEW_ARRAY(call->arena, dw_taught_row, 2);
    if (!told->values || !borrow(call, ROOM_BYTES, &arena))
        return no_room(call);
    DW_TRY(dw_teach_room_run(&ask, &arena, &reply, call->err));
    for (size_t i = 0; i < log.entries_count; i++)
        if (log.entries[i].use != DW_TEACH_LEFT_OUT)
            log.entries[i].use = DW_TEACH_USED;
    for (size_t i = 0; i < reply.marks_count; i++)
        put_mark(&reply.marks[i],
                 &log.entries[log.entry_of[reply.marks[i].index]]);
    dw_teach_counts counts = {0};
    count_case(&log, &counts);
    add_value(call, DW_TAUGHT_AIR, &reply.air_c.prior, &reply.air_c.after,
              &counts, told);
    dw_teach_counts followed = count_followed(&log);
    add_value(call, DW_TAUGHT_TIME_CONSTANT, &reply.time_constant_h.prior,
              &reply.time_constant_h.after, &followed, told);
    keep_told(&log, told);
    return DW_OK;
}

/* ---- told and kept ------------------------------------------------------- */

/* A whole lesson is left out under the word of its place in this list. */
static const int whole_of[] = {DW_LEAVE_STACK, DW_LEAVE_YEAST, DW_LEAVE_ROOM};

dw_status dw_taught_tell(dw_call *call, int lesson, dw_told *told)
{
    dw_left_outs outs;
    DW_TRY(dw_left_outs_read(call, &outs));
    const dw_left_out *out = dw_left_outs_find(&outs, whole_of[lesson], 0);
    *told = (dw_told){.lesson = lesson,
                      .left_out = out != NULL,
                      .reason = out ? out->reason : NULL};
    switch (lesson) {
    case DW_LESSON_STACK: return tell_stack(call, &outs, told);
    case DW_LESSON_YEAST: return tell_yeast(call, &outs, told);
    default: return tell_room(call, &outs, told);
    }
}

static int lesson_of(int what)
{
    switch (what) {
    case DW_TAUGHT_OFFSET_H:
    case DW_TAUGHT_CLOSED_H: return DW_LESSON_STACK;
    case DW_TAUGHT_AIR:
    case DW_TAUGHT_TIME_CONSTANT: return DW_LESSON_ROOM;
    default: return DW_LESSON_YEAST;
    }
}

static dw_status forget(dw_call *call, int lesson)
{
    dw_taught kept;
    DW_TRY(dw_taught_read(call, &kept));
    for (size_t i = 0; i < kept.count; i++)
        if (lesson_of(kept.rows[i].what) == lesson)
            DW_TRY(dw_store_delete(call->store, "taught", "id", kept.rows[i].id,
                                   call->err));
    return DW_OK;
}

static dw_status learn_one(dw_call *call, int lesson)
{
    dw_told told;
    DW_TRY(dw_taught_tell(call, lesson, &told));
    DW_TRY(forget(call, lesson));
    for (size_t i = 0; i < told.values_count && !told.left_out; i++)
        DW_TRY(dw_row_save(call, "taught", &dw_taught_noun, &told.values[i],
                           NULL));
    return DW_OK;
}

dw_status dw_taught_learn(dw_call *call, int lesson)
{
    dw_shop shop;
    if (dw_shop_get(call, &shop) == DW_E_NOT_FOUND)
        return DW_OK; /* an empty database has nothing to learn for */
    size_t used = call->arena->used;
    DW_TRY(learn_one(call, lesson));
    if (lesson == DW_LESSON_STACK)
        DW_TRY(learn_one(call, DW_LESSON_YEAST));
    call->arena->used = used; /* a lesson's rows are in the store */
    return DW_OK;
}

dw_status dw_taught_after(dw_call *call, int64_t batch_id)
{
    bool teaches;
    DW_TRY(dw_store_teaches(call->store, batch_id, call->arena, &teaches,
                            call->err));
    return teaches ? dw_taught_learn(call, DW_LESSON_STACK) : DW_OK;
}

dw_status dw_taught_after_reading(dw_call *call, const dw_reading_row *row)
{
    bool teaches;
    switch (row->kind) {
    case DW_READ_CORE: return dw_taught_learn(call, DW_LESSON_STACK);
    case DW_READ_DOUGH:
    case DW_READ_ROOM: return dw_taught_after(call, row->batch_id);
    case DW_READ_COLD: break;
    default: return DW_OK;
    }
    DW_TRY(dw_taught_learn(call, DW_LESSON_ROOM));
    DW_TRY(dw_store_teaches_after(call->store, row->occurred_ms, call->arena,
                                  &teaches, call->err));
    return teaches ? dw_taught_learn(call, DW_LESSON_STACK) : DW_OK;
}
