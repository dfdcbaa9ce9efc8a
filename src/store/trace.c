#include "store/trace.h"

#include "store/internal.h"

static const dw_field next_fields[] = {
    DW_F_CHOICE(dw_trace_next, kind, dw_trace_kind_words, "what it is"),
    DW_F_ID(dw_trace_next, id, "which one"),
    DW_F_REAL_OPT(dw_trace_next, kg, "kg", -1e9, 1e9, "how much"),
    DW_F_YES(dw_trace_next, assumed, false, "nobody tapped it"),
};
static const dw_shape next_shape = DW_SHAPE(
    "trace_next", dw_trace_next, next_fields, "a node next to another");

/* What went into the bowl of a weighing. */
#define WEIGHED "coalesce(w.weighed_kg, w.planned_kg)"
/* One ball of stack s. */
#define BALL_KG                                                                \
    "coalesce((SELECT p.ball_kg FROM batch_piece p WHERE p.batch_id ="         \
    " s.batch_id AND p.product_id = s.product_id LIMIT 1),"                    \
    " (SELECT p.ball_kg FROM product p WHERE p.id = s.product_id))"
/* Balls of drop line d. */
#define LINE_KG                                                                \
    "coalesce((SELECT p.ball_kg FROM stack s JOIN batch_piece p ON"            \
    " p.batch_id = s.batch_id AND p.product_id = s.product_id WHERE s.id ="    \
    " d.stack_id LIMIT 1),"                                                    \
    " (SELECT p.ball_kg FROM product p WHERE p.id = d.product_id))"

/* Balls of stack s that were used here: taken out, or missed by a count; and
 * those that were sent without a shipment. */
#define USED                                                                   \
    "coalesce((SELECT sum(m.balls) FROM stack_move m WHERE m.stack_id = s.id"  \
    " AND m.kind IN ('pull', 'use', 'put_back', 'count_difference')), 0)"
#define SENT                                                                   \
    "(coalesce((SELECT sum(m.balls) FROM stack_move m WHERE m.stack_id = s.id" \
    " AND m.kind = 'send'), 0) - coalesce((SELECT sum(d.balls)"                \
    " FROM drop_line d WHERE d.stack_id = s.id), 0))"

/* All that passed, as (source, source_id) to (target, target_id). Looked into
 * by one end only: the terms of the asker are pushed down into each arm, which
 * has an index on that end. Another lot of the same material that went into a
 * batch takes its weight from the lot that was tapped, or leaves it open. */
#define PASSED                                                                 \
    "WITH passed (source, source_id, target, target_id, kg, assumed) AS ("     \
    "SELECT 'lot', w.lot_id, 'batch', w.batch_id, sum(" WEIGHED ")"            \
    " - coalesce((SELECT sum(c.kg) FROM batch_change c WHERE c.batch_id ="     \
    " w.batch_id AND c.kind = 'lot' AND c.material = max(w.material)), 0), 0"  \
    " FROM batch_weighing w JOIN batch b ON b.id = w.batch_id"                 \
    " WHERE w.lot_id IS NOT NULL AND b.state <> 'planned'"                     \
    " GROUP BY w.lot_id, w.batch_id"                                           \
    " UNION ALL "                                                              \
    "SELECT 'lot', c.lot_id, 'batch', c.batch_id, nullif(sum(c.kg), 0), 0"     \
    " FROM batch_change c WHERE c.lot_id IS NOT NULL"                          \
    " GROUP BY c.lot_id, c.batch_id"                                           \
    " UNION ALL "                                                              \
    "SELECT 'lot', b.flour_lot_id, 'batch', b.id, sum(" WEIGHED "), 1"         \
    " FROM batch b JOIN batch_weighing w ON w.batch_id = b.id"                 \
    " JOIN material_lot l ON l.id = b.flour_lot_id"                            \
    " JOIN material m ON m.id = l.material_id"                                 \
    " WHERE b.state <> 'planned' AND w.lot_id IS NULL"                         \
    " AND w.material = m.name GROUP BY b.flour_lot_id, b.id"                   \
    " UNION ALL "                                                              \
    "SELECT 'lot', lot_id, 'minors', minors_lot_id, kg, 0 FROM minors_part"    \
    " UNION ALL "                                                              \
    "SELECT 'minors', b.minors_lot_id, 'batch', b.id, n.target_kg, 0"          \
    " FROM batch b JOIN minors_lot n ON n.id = b.minors_lot_id"                \
    " WHERE b.state <> 'planned'"                                              \
    " UNION ALL "                                                              \
    "SELECT 'batch', source_batch_id, 'lot', id, kg, 0 FROM material_lot"      \
    " WHERE source_batch_id IS NOT NULL"                                       \
    " UNION ALL "                                                              \
    "SELECT 'batch', s.batch_id, 'stack', s.id, s.balls * " BALL_KG ", 0"      \
    " FROM stack s"                                                            \
    " UNION ALL "                                                              \
    "SELECT 'stack', d.stack_id, 'shipment', d.drop_id,"                       \
    " sum(d.balls * " LINE_KG "), 0 FROM drop_line d"                          \
    " WHERE d.stack_id IS NOT NULL GROUP BY d.stack_id, d.drop_id"             \
    " UNION ALL "                                                              \
    "SELECT 'shipment', h.id, 'shop', h.outlet_id, (SELECT"                    \
    " sum((d.balls - d.refused) * " LINE_KG ") FROM drop_line d"               \
    " WHERE d.drop_id = h.id), 0 FROM drop_made h"                             \
    " UNION ALL "                                                              \
    "SELECT 'stack', s.id, 'shop', 0, " USED " * " BALL_KG ", (SELECT"         \
    " max(m.assumed) FROM stack_move m WHERE m.stack_id = s.id)"               \
    " FROM stack s WHERE " USED " > 0"                                         \
    " UNION ALL "                                                              \
    "SELECT 'stack', s.id, 'shipment', 0, " SENT " * " BALL_KG ", 0"           \
    " FROM stack s WHERE " SENT " > 0)"

static dw_status list(dw_store *store, const char *sql, int kind, int64_t id,
                      const dw_shape *shape, dw_arena *arena, void *rows,
                      size_t *count, dw_err *err)
{
    const dw_arg args[] = {
        {.name = "$id", .kind = DW_WHOLE, .whole = id},
        {.name = "$kind", .kind = DW_TEXT, .text = dw_trace_kind_words[kind]}};
    return dw_store_query(store, sql, args, DW_COUNT(args), shape, arena, rows,
                          count, err);
}

dw_status dw_store_trace_from(dw_store *store, int kind, int64_t id,
                              dw_arena *arena, dw_trace_next **rows,
                              size_t *count, dw_err *err)
{
    return list(store,
                PASSED " SELECT target AS kind, target_id AS id, kg, assumed"
                       " FROM passed WHERE source = $kind"
                       " AND source_id = $id",
                kind, id, &next_shape, arena, rows, count, err);
}

dw_status dw_store_trace_into(dw_store *store, int kind, int64_t id,
                              dw_arena *arena, dw_trace_next **rows,
                              size_t *count, dw_err *err)
{
    return list(store,
                PASSED " SELECT source AS kind, source_id AS id, kg, assumed"
                       " FROM passed WHERE target = $kind"
                       " AND target_id = $id",
                kind, id, &next_shape, arena, rows, count, err);
}

/* ---- nodes --------------------------------------------------------------- */

#define NODE(kind, rest)                                                       \
    "SELECT '" kind "' AS kind, 0.0 AS other_in_kg, 0.0 AS other_out_kg,"      \
    " 0 AS other_unknown, " rest

/* What a batch was given without a lot: water, what nobody tapped, what was
 * added or left out beside the sheet; less what is taken to be of its planned
 * flour lot. */
#define NO_LOT_KG                                                              \
    "coalesce((SELECT sum(" WEIGHED ") FROM batch_weighing w"                  \
    " WHERE w.batch_id = b.id AND w.lot_id IS NULL AND NOT (b.flour_lot_id"    \
    " IS NOT NULL AND w.material = (SELECT m.name FROM material_lot l"         \
    " JOIN material m ON m.id = l.material_id WHERE l.id ="                    \
    " b.flour_lot_id))), 0) + coalesce((SELECT sum(c.kg) FROM batch_change c"  \
    " WHERE c.batch_id = b.id AND c.lot_id IS NULL"                            \
    " AND c.kind <> 'yeast_type'), 0)"
/* Dough of a batch that was kept as a lot. */
#define KEPT_KG                                                                \
    "coalesce((SELECT sum(l.kg) FROM material_lot l"                           \
    " WHERE l.source_batch_id = b.id), 0)"
#define STACK_LEFT                                                             \
    "(s.balls - coalesce((SELECT sum(m.balls) FROM stack_move m"               \
    " WHERE m.stack_id = s.id), 0))"

static const char *const node_sql[DW_TRACE_KINDS] = {
    NODE("lot", "l.id, m.name || ' ' || l.code AS name, l.received_ms AS at_ms,"
                " CASE WHEN l.source_batch_id IS NULL THEN l.kg END"
                " AS received_kg, CASE WHEN l.open = 0 THEN 0.0 END AS left_kg,"
                " l.wasted_kg FROM material_lot l"
                " LEFT JOIN material m ON m.id = l.material_id"
                " WHERE l.id = $id AND $kind = 'lot'"),
    NODE("minors", "n.id, f.name, n.made_day * 86400000 AS at_ms,"
                   " max(n.made * n.target_kg - coalesce((SELECT sum(p.kg)"
                   " FROM minors_part p WHERE p.minors_lot_id = n.id), 0), 0)"
                   " AS received_kg, n.left_count * n.target_kg AS left_kg,"
                   " 0.0 AS wasted_kg FROM minors_lot n"
                   " LEFT JOIN formula_version v ON v.id = n.version_id"
                   " LEFT JOIN formula f ON f.id = v.formula_id"
                   " WHERE n.id = $id AND $kind = 'minors'"),
    NODE("batch",
         "b.id, coalesce(f.name, '') || ' ' || b.number AS name,"
         " CASE b.started_ms WHEN 0 THEN b.planned_ms ELSE b.started_ms END"
         " AS at_ms, " NO_LOT_KG " AS received_kg,"
         " CASE WHEN b.state IN ('boxed', 'closed', 'abandoned') THEN 0.0 END"
         " AS left_kg, max(CASE b.state WHEN 'abandoned' THEN b.dough_kg"
         " ELSE coalesce(b.scrap_kg, 0) + coalesce(b.residue_kg, 0) END"
         " - " KEPT_KG ", 0) AS wasted_kg FROM batch b"
         " LEFT JOIN formula_version v ON v.id = b.version_id"
         " LEFT JOIN formula f ON f.id = v.formula_id"
         " WHERE b.id = $id AND $kind = 'batch'"),
    NODE("stack", "s.id, p.name, s.opened_ms AS at_ms, NULL AS received_kg,"
                  " " STACK_LEFT " * " BALL_KG " AS left_kg, coalesce((SELECT"
                  " sum(m.balls) FROM stack_move m WHERE m.stack_id = s.id"
                  " AND m.kind = 'throw_away'), 0) * " BALL_KG " AS wasted_kg"
                  " FROM stack s LEFT JOIN product p ON p.id = s.product_id"
                  " WHERE s.id = $id AND $kind = 'stack'"),
    NODE("shipment",
         "h.id, o.name, CASE h.loaded_ms WHEN 0 THEN h.day * 86400000 ELSE"
         " h.loaded_ms END AS at_ms, (SELECT sum(d.balls * " LINE_KG ")"
         " FROM drop_line d WHERE d.drop_id = h.id AND d.stack_id IS NULL)"
         " AS received_kg, 0.0 AS left_kg, coalesce((SELECT"
         " sum(d.refused * " LINE_KG ") FROM drop_line d"
         " WHERE d.drop_id = h.id), 0) AS wasted_kg FROM drop_made h"
         " LEFT JOIN outlet o ON o.id = h.outlet_id"
         " WHERE h.id = $id AND $kind = 'shipment'"),
    NODE("shop", "o.id, o.name, 0 AS at_ms, NULL AS received_kg,"
                 " NULL AS left_kg, 0.0 AS wasted_kg FROM outlet o"
                 " WHERE o.id = $id AND $kind = 'shop'"),
};

dw_status dw_store_trace_node(dw_store *store, int kind, int64_t id,
                              dw_arena *arena, dw_trace_node *node, dw_err *err)
{
    dw_trace_node *rows;
    size_t count;
    if (id == 0 && (kind == DW_TRACE_SHOP || kind == DW_TRACE_SHIPMENT)) {
        *node = (dw_trace_node){.kind = kind};
        return DW_OK;
    }
    DW_TRY(list(store, node_sql[kind], kind, id, &dw_trace_node_shape, arena,
                &rows, &count, err));
    if (count == 0)
        return dw_fail(err, DW_E_NOT_FOUND, dw_trace_kind_words[kind], NULL);
    *node = rows[0];
    return DW_OK;
}

dw_status dw_store_minors_parts(dw_store *store, int64_t minors_lot_id,
                                dw_err *err)
{
    const dw_arg args[] = {
        {.name = "$id", .kind = DW_WHOLE, .whole = minors_lot_id}};
    return dw_store_run(store, DW_STORE__MINORS_PARTS " AND b.id = $id", args,
                        DW_COUNT(args), err);
}

/* ---- lots ---------------------------------------------------------------- */

static const dw_field lot_row_fields[] = {
    DW_F_ONE(dw_lot_row, lot, &dw_material_lot_noun, "as it was received"),
    DW_F_TEXT_OPT(dw_lot_row, material, 60, "of what"),
    DW_F_TEXT_OPT(dw_lot_row, source, 120, "the batch it comes from"),
    DW_F_REAL(dw_lot_row, used_kg, "kg", -1e9, 1e9,
              "weighed into batches and bags"),
};
const dw_shape dw_lot_row_shape =
    DW_SHAPE("lot_row", dw_lot_row, lot_row_fields, "a lot of a material");

dw_status dw_store_lots(dw_store *store, int64_t from_ms, int64_t to_ms,
                        int64_t limit, dw_arena *arena, dw_lot_row **rows,
                        size_t *count, dw_err *err)
{
    const dw_arg args[] = {{.name = "$a", .kind = DW_WHOLE, .whole = from_ms},
                           {.name = "$b", .kind = DW_WHOLE, .whole = to_ms},
                           {.name = "$c", .kind = DW_WHOLE, .whole = limit}};
    return dw_store_query(
        store,
        "SELECT l.*, m.name AS material, (SELECT f.name || ' ' || b.number"
        " FROM batch b JOIN formula_version v ON v.id = b.version_id"
        " JOIN formula f ON f.id = v.formula_id"
        " WHERE b.id = l.source_batch_id) AS source,"
        " coalesce((SELECT sum(" WEIGHED ") FROM batch_weighing w"
        " JOIN batch b ON b.id = w.batch_id WHERE w.lot_id = l.id"
        " AND b.state <> 'planned'), 0) + coalesce((SELECT sum(p.kg)"
        " FROM minors_part p WHERE p.lot_id = l.id), 0) AS used_kg"
        " FROM material_lot l LEFT JOIN material m ON m.id = l.material_id"
        " WHERE l.received_ms BETWEEN $a AND $b"
        " ORDER BY l.received_ms DESC, l.id DESC LIMIT $c",
        args, DW_COUNT(args), &dw_lot_row_shape, arena, rows, count, err);
}

/* ---- what left ----------------------------------------------------------- */

static const dw_field released_row_fields[] = {
    DW_F_WHOLE(dw_released_row, day, "d", 0, 84100, "on which day"),
    DW_F_MOMENT(dw_released_row, loaded_ms, "it left"),
    DW_F_TEXT_OPT(dw_released_row, recipient, 60, "to whom"),
    DW_F_TEXT_OPT(dw_released_row, product, 60, "of what"),
    DW_F_ID(dw_released_row, batch_number, "of which batch; 0: not known"),
    DW_F_ID(dw_released_row, batch_id, "its row"),
    DW_F_ID(dw_released_row, stack_id, "from which stack"),
    DW_F_WHOLE(dw_released_row, balls, "", 0, 1e6, "how many"),
    DW_F_WHOLE(dw_released_row, boxes, "", 0, 1e6, "in how many boxes"),
    DW_F_WHOLE(dw_released_row, refused, "", 0, 1e6, "balls, at the door"),
    DW_F_REAL(dw_released_row, kg, "kg", 0, 1e6, "they weigh"),
    DW_F_TEXT_OPT(dw_released_row, carrier, 80, "who loaded it"),
};
const dw_shape dw_released_row_shape =
    DW_SHAPE("released_line", dw_released_row, released_row_fields,
             "a line of a shipment");

dw_status dw_store_released(dw_store *store, int64_t from_day, int64_t to_day,
                            int64_t stack_id, int64_t limit, dw_arena *arena,
                            dw_released_row **rows, size_t *count, dw_err *err)
{
    const dw_arg args[] = {{.name = "$a", .kind = DW_WHOLE, .whole = from_day},
                           {.name = "$b", .kind = DW_WHOLE, .whole = to_day},
                           {.name = "$c", .kind = DW_WHOLE, .whole = limit},
                           {.name = "$d", .kind = DW_WHOLE, .whole = stack_id}};
    return dw_store_query(
        store,
        "SELECT h.day, h.loaded_ms, o.name AS recipient, p.name AS product,"
        " coalesce(b.number, 0) AS batch_number, b.id AS batch_id,"
        " d.stack_id, d.balls, d.boxes, d.refused, d.balls * " LINE_KG
        " AS kg, w.name AS carrier FROM drop_made h"
        " JOIN drop_line d ON d.drop_id = h.id"
        " LEFT JOIN outlet o ON o.id = h.outlet_id"
        " LEFT JOIN product p ON p.id = d.product_id"
        " LEFT JOIN stack s ON s.id = d.stack_id"
        " LEFT JOIN batch b ON b.id = s.batch_id"
        " LEFT JOIN person w ON w.id = h.person_id"
        " WHERE h.day BETWEEN $a AND $b AND ($d = 0 OR d.stack_id = $d)"
        " ORDER BY h.day, h.id, d.id LIMIT $c",
        args, DW_COUNT(args), &dw_released_row_shape, arena, rows, count, err);
}
