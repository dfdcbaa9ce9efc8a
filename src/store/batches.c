#include "store/batches.h"

static dw_arg whole(const char *name, int64_t value)
{
    return (dw_arg){.name = name, .kind = DW_WHOLE, .whole = value};
}

dw_status dw_store_readings_newest(dw_store *store, int64_t batch_id, int kind,
                                   int64_t since_ms, dw_arena *arena,
                                   dw_reading_row **rows, size_t *count,
                                   dw_err *err)
{
    dw_arg args[] = {
        whole("$a", batch_id),
        {.name = "$b", .kind = DW_TEXT, .text = dw_reading_kind_words[kind]},
        whole("$c", since_ms)};
    return dw_store_query(store,
                          "SELECT * FROM reading"
                          " WHERE coalesce(batch_id, 0) = $a AND kind = $b"
                          " AND occurred_ms >= $c"
                          " ORDER BY occurred_ms DESC, id DESC",
                          args, DW_COUNT(args), &dw_reading_noun, arena, rows,
                          count, err);
}

dw_status dw_store_batches_stopped(dw_store *store, int64_t mixer_id,
                                   int64_t from_ms, int64_t to_ms,
                                   dw_arena *arena, dw_batch_row **rows,
                                   size_t *count, dw_err *err)
{
    dw_arg args[] = {whole("$a", mixer_id), whole("$b", from_ms),
                     whole("$c", to_ms)};
    return dw_store_query(store,
                          "SELECT * FROM batch WHERE mixer_id = $a"
                          " AND stopped_ms > $b AND stopped_ms <= $c"
                          " ORDER BY stopped_ms DESC",
                          args, DW_COUNT(args), &dw_batch_noun, arena, rows,
                          count, err);
}

dw_status dw_store_batches_of_days(dw_store *store, int64_t from_day,
                                   int64_t to_day, dw_arena *arena,
                                   dw_batch_row **rows, size_t *count,
                                   dw_err *err)
{
    dw_arg args[] = {whole("$a", from_day), whole("$b", to_day)};
    return dw_store_query(store,
                          "SELECT * FROM batch WHERE day BETWEEN $a AND $b"
                          " ORDER BY day, planned_ms, id",
                          args, DW_COUNT(args), &dw_batch_noun, arena, rows,
                          count, err);
}

dw_status dw_store_batches_open(dw_store *store, dw_arena *arena,
                                dw_batch_row **rows, size_t *count, dw_err *err)
{
    return dw_store_query(store,
                          "SELECT * FROM batch"
                          " WHERE state NOT IN ('closed', 'abandoned')"
                          " ORDER BY planned_ms, id",
                          NULL, 0, &dw_batch_noun, arena, rows, count, err);
}

dw_status dw_store_stacks_open(dw_store *store, dw_arena *arena,
                               dw_stack **rows, size_t *count, dw_err *err)
{
    return dw_store_query(store,
                          "SELECT * FROM stack WHERE closed_ms = 0"
                          " AND opened_ms > 0 ORDER BY close_due_ms, id",
                          NULL, 0, &dw_stack_noun, arena, rows, count, err);
}

dw_status dw_store_batch_number(dw_store *store, dw_arena *arena,
                                int64_t *number, dw_err *err)
{
    dw_batch_row *last;
    size_t n;
    DW_TRY(dw_store_query(store,
                          "SELECT * FROM batch ORDER BY number DESC LIMIT 1",
                          NULL, 0, &dw_batch_noun, arena, &last, &n, err));
    *number = n > 0 ? last[0].number + 1 : 1;
    return DW_OK;
}

static const dw_field taught_fields[] = {
    DW_F_ID(dw_batch_taught, batch_id, "which batch"),
    DW_F_ID(dw_batch_taught, formula_id, "of which formula"),
    DW_F_REAL(dw_batch_taught, mixer_minutes, "min", 0, 10000, "mixed"),
    DW_F_REAL(dw_batch_taught, work_j_per_kg_dough, "J/kg", -50000, 300000,
              "the work it showed"),
    DW_F_REAL(dw_batch_taught, sd_j_per_kg, "J/kg", 0, 200000, "how well"),
};
static const dw_shape taught_shape = DW_SHAPE(
    "batch_taught", dw_batch_taught, taught_fields, "what a batch taught");

dw_status dw_store_batches_taught(dw_store *store, int64_t mixer_id,
                                  int64_t but_id, dw_arena *arena,
                                  dw_batch_taught **rows, size_t *count,
                                  dw_err *err)
{
    dw_arg args[] = {whole("$a", mixer_id), whole("$b", but_id)};
    return dw_store_query(
        store,
        "SELECT b.id AS batch_id, v.formula_id AS formula_id, b.mixer_minutes,"
        " b.work_j_per_kg_dough, b.sd_j_per_kg FROM batch b"
        " JOIN formula_version v ON v.id = b.version_id"
        " WHERE b.mixer_id = $a AND b.id <> $b"
        " AND b.work_j_per_kg_dough IS NOT NULL AND b.sd_j_per_kg IS NOT NULL"
        " ORDER BY b.stopped_ms, b.id",
        args, DW_COUNT(args), &taught_shape, arena, rows, count, err);
}
