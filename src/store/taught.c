#include "store/taught.h"

static dw_arg whole(const char *name, int64_t value)
{
    return (dw_arg){.name = name, .kind = DW_WHOLE, .whole = value};
}

static dw_arg text(const char *name, const char *value)
{
    return (dw_arg){.name = name, .kind = DW_TEXT, .text = value};
}

dw_status dw_store_readings_of(dw_store *store, int kind, int64_t most,
                               dw_arena *arena, dw_reading_row **rows,
                               size_t *count, dw_err *err)
{
    dw_arg args[] = {text("$a", dw_reading_kind_words[kind]),
                     whole("$b", most)};
    return dw_store_query(store,
                          "SELECT * FROM reading WHERE kind = $a"
                          " ORDER BY occurred_ms DESC, id DESC LIMIT $b",
                          args, DW_COUNT(args), &dw_reading_noun, arena, rows,
                          count, err);
}

dw_status dw_store_cold_between(dw_store *store, int64_t batch_id,
                                int64_t from_ms, int64_t to_ms, dw_arena *arena,
                                dw_reading_row **rows, size_t *count,
                                dw_err *err)
{
    dw_arg args[] = {whole("$a", batch_id), whole("$b", from_ms),
                     whole("$c", to_ms)};
    return dw_store_query(store,
                          "SELECT * FROM reading"
                          " WHERE kind = 'cold_c' AND"
                          " coalesce(batch_id, 0) IN (0, $a)"
                          " AND occurred_ms BETWEEN $b AND $c"
                          " AND NOT coalesce((SELECT out FROM left_out"
                          " WHERE what = 'reading' AND of_id = reading.id"
                          " ORDER BY id DESC LIMIT 1), 0)"
                          " ORDER BY occurred_ms, id",
                          args, DW_COUNT(args), &dw_reading_noun, arena, rows,
                          count, err);
}

dw_status dw_store_cold_since(dw_store *store, int64_t from_ms, dw_arena *arena,
                              dw_reading_row **rows, size_t *count, dw_err *err)
{
    dw_arg args[] = {whole("$a", from_ms)};
    return dw_store_query(store,
                          "SELECT * FROM reading"
                          " WHERE kind = 'cold_c' AND occurred_ms >= $a"
                          " AND NOT coalesce((SELECT out FROM left_out"
                          " WHERE what = 'reading' AND of_id = reading.id"
                          " ORDER BY id DESC LIMIT 1), 0)"
                          " ORDER BY occurred_ms, id",
                          args, DW_COUNT(args), &dw_reading_noun, arena, rows,
                          count, err);
}

static const dw_field tasted_fields[] = {
    DW_F_ID(dw_tasted, id, "the verdict's or the cup's"),
    DW_F_ID(dw_tasted, batch_id, "of which batch"),
    DW_F_ID(dw_tasted, formula_id, "of which formula"),
    DW_F_ID(dw_tasted, lot_id, "lot of the yeast"),
    DW_F_CHOICE(dw_tasted, yeast, dw_line_kind_words, "which yeast"),
    DW_F_MOMENT(dw_tasted, occurred_ms, "when"),
};
static const dw_shape tasted_shape =
    DW_SHAPE("tasted", dw_tasted, tasted_fields, "dough that was judged");

/* A batch with the one yeast that was weighed into it. */
#define BATCH_YEAST                                                            \
    " JOIN batch b ON b.id = t.batch_id"                                       \
    " JOIN formula_version v ON v.id = b.version_id"                           \
    " JOIN (SELECT batch_id, kind AS yeast, max(lot_id) AS lot_id"             \
    " FROM batch_weighing WHERE kind LIKE 'yeast_%'"                           \
    " GROUP BY batch_id HAVING count(DISTINCT kind) = 1) y"                    \
    " ON y.batch_id = b.id"
#define TASTED_COLUMNS                                                         \
    "SELECT t.id, t.batch_id, v.formula_id, y.lot_id, y.yeast, t.occurred_ms"
#define TASTED_WHERE                                                           \
    " WHERE y.yeast = $a AND ($b = 0 OR v.formula_id = $b)"                    \
    " AND ($c = 0 OR y.lot_id = $c)"
#define NEWEST " ORDER BY t.occurred_ms DESC, t.id DESC LIMIT $d"

static dw_status tasted(dw_store *store, const char *sql, const dw_tasted *of,
                        int64_t most, dw_arena *arena, dw_tasted **rows,
                        size_t *count, dw_err *err)
{
    dw_arg args[] = {text("$a", dw_line_kind_words[of->yeast]),
                     whole("$b", of->formula_id), whole("$c", of->lot_id),
                     whole("$d", most)};
    return dw_store_query(store, sql, args, DW_COUNT(args), &tasted_shape,
                          arena, rows, count, err);
}

dw_status dw_store_verdicts_of(dw_store *store, int yeast, int64_t formula_id,
                               int64_t lot_id, int64_t most, dw_arena *arena,
                               dw_tasted **rows, size_t *count, dw_err *err)
{
    dw_tasted of = {.yeast = yeast, .formula_id = formula_id, .lot_id = lot_id};
    return tasted(store,
                  TASTED_COLUMNS " FROM verdict t" BATCH_YEAST TASTED_WHERE
                                 " AND t.verdict <> 'not_looked'" NEWEST,
                  &of, most, arena, rows, count, err);
}

dw_status dw_store_cups_of(dw_store *store, int yeast, int64_t formula_id,
                           int64_t lot_id, int64_t most, dw_arena *arena,
                           dw_tasted **rows, size_t *count, dw_err *err)
{
    dw_tasted of = {.yeast = yeast, .formula_id = formula_id, .lot_id = lot_id};
    return tasted(store,
                  TASTED_COLUMNS " FROM cup t" BATCH_YEAST TASTED_WHERE NEWEST,
                  &of, most, arena, rows, count, err);
}

dw_status dw_store_cups_since(dw_store *store, int64_t since_ms,
                              dw_arena *arena, dw_cup **rows, size_t *count,
                              dw_err *err)
{
    dw_arg args[] = {whole("$a", since_ms)};
    return dw_store_query(store,
                          "SELECT * FROM cup WHERE occurred_ms > $a"
                          " ORDER BY occurred_ms, id",
                          args, DW_COUNT(args), &dw_cup_noun, arena, rows,
                          count, err);
}

dw_status dw_store_tasted_kinds(dw_store *store, dw_arena *arena,
                                dw_tasted **rows, size_t *count, dw_err *err)
{
    return dw_store_query(
        store,
        "SELECT DISTINCT 0 AS id, 0 AS batch_id, v.formula_id, y.lot_id,"
        " y.yeast, 0 AS occurred_ms FROM"
        " (SELECT batch_id FROM verdict WHERE verdict <> 'not_looked'"
        " UNION SELECT batch_id FROM cup) t" BATCH_YEAST
        " ORDER BY y.yeast, v.formula_id, y.lot_id",
        NULL, 0, &tasted_shape, arena, rows, count, err);
}

dw_status dw_store_left_out(dw_store *store, dw_arena *arena,
                            dw_left_out **rows, size_t *count, dw_err *err)
{
    return dw_store_query(store,
                          "SELECT * FROM left_out l WHERE out = 1 AND id ="
                          " (SELECT max(id) FROM left_out n"
                          " WHERE n.what = l.what AND n.of_id IS l.of_id)"
                          " ORDER BY id",
                          NULL, 0, &dw_left_out_noun, arena, rows, count, err);
}

typedef struct found {
    bool is_there;
} found;
static const dw_field found_fields[] = {
    DW_F_YES(found, is_there, false, "is there one"),
};
static const dw_shape found_shape =
    DW_SHAPE("found", found, found_fields, "is there one");

#define TEACHES(where)                                                         \
    "SELECT EXISTS (SELECT 1 FROM reading WHERE kind = 'core_c' AND " where    \
    ") OR EXISTS (SELECT 1 FROM verdict WHERE " where                          \
    ") OR EXISTS (SELECT 1 FROM cup WHERE " where ") AS is_there"

static dw_status is_there(dw_store *store, const char *sql, int64_t value,
                          dw_arena *arena, bool *there, dw_err *err)
{
    dw_arg args[] = {whole("$a", value)};
    found *rows;
    size_t n;
    DW_TRY(dw_store_query(store, sql, args, DW_COUNT(args), &found_shape, arena,
                          &rows, &n, err));
    *there = n > 0 && rows[0].is_there;
    return DW_OK;
}

dw_status dw_store_teaches(dw_store *store, int64_t batch_id, dw_arena *arena,
                           bool *teaches, dw_err *err)
{
    return is_there(store, TEACHES("batch_id = $a"), batch_id, arena, teaches,
                    err);
}

dw_status dw_store_teaches_after(dw_store *store, int64_t after_ms,
                                 dw_arena *arena, bool *teaches, dw_err *err)
{
    return is_there(store, TEACHES("occurred_ms >= $a"), after_ms, arena,
                    teaches, err);
}
