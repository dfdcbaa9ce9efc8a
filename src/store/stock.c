#include "store/stock.h"

static const dw_field stock_row_fields[] = {
    DW_F_WHOLE(dw_stock_row, product_id, "", 0, 9007199254740991.0, "of what"),
    DW_F_WHOLE(dw_stock_row, mixing_day, "d", 0, 84000, "made when"),
    DW_F_WHOLE(dw_stock_row, balls, "", 0, 1e9, "how many"),
};
const dw_shape dw_stock_row_shape =
    DW_SHAPE("stock_row", dw_stock_row, stock_row_fields,
             "balls of one product and mixing day");

dw_status dw_store_stock(dw_store *store, dw_arena *arena, dw_stock_row **rows,
                         size_t *count, dw_err *err)
{
    static const char sql[] =
        "WITH counted AS ("
        " SELECT l.product_id, max(c.at_ms) AS at_ms"
        " FROM count_line l JOIN count_taken c ON c.id = l.count_id"
        " GROUP BY l.product_id),"
        " parts AS ("
        " SELECT l.product_id, l.mixing_day, l.balls"
        " FROM count_line l JOIN count_taken c ON c.id = l.count_id"
        " JOIN counted n ON n.product_id = l.product_id AND n.at_ms = c.at_ms"
        " UNION ALL"
        " SELECT s.product_id, s.mixing_day, s.balls FROM stack s"
        " LEFT JOIN counted n ON n.product_id = s.product_id"
        " WHERE s.opened_ms > coalesce(n.at_ms, 0)"
        " UNION ALL"
        " SELECT s.product_id, s.mixing_day, -m.balls FROM stack_move m"
        " JOIN stack s ON s.id = m.stack_id"
        " LEFT JOIN counted n ON n.product_id = s.product_id"
        " WHERE m.occurred_ms > coalesce(n.at_ms, 0)"
        " UNION ALL"
        /* balls that were only counted, sent to a shop */
        " SELECT l.product_id, l.mixing_day, -l.balls FROM drop_line l"
        " JOIN drop_made d ON d.id = l.drop_id"
        " LEFT JOIN counted n ON n.product_id = l.product_id"
        " WHERE l.stack_id IS NULL AND d.loaded_ms > coalesce(n.at_ms, 0))"
        " SELECT product_id, mixing_day, sum(balls) AS balls FROM parts"
        " GROUP BY product_id, mixing_day HAVING sum(balls) > 0"
        " ORDER BY product_id, mixing_day";
    return dw_store_query(store, sql, NULL, 0, &dw_stock_row_shape, arena, rows,
                          count, err);
}

static dw_arg since(int64_t mixing_day)
{
    return (dw_arg){.name = "$a", .kind = DW_WHOLE, .whole = mixing_day};
}

dw_status dw_store_stacks_since(dw_store *store, int64_t mixing_day,
                                dw_arena *arena, dw_stack **rows, size_t *count,
                                dw_err *err)
{
    dw_arg args[] = {since(mixing_day)};
    return dw_store_query(store,
                          "SELECT * FROM stack WHERE mixing_day >= $a"
                          " ORDER BY product_id, mixing_day, opened_ms, id",
                          args, DW_COUNT(args), &dw_stack_noun, arena, rows,
                          count, err);
}

static const dw_field moved_fields[] = {
    DW_F_ID(dw_stack_moved, stack_id, "which stack"),
    DW_F_WHOLE(dw_stack_moved, balls, "", -1e9, 1e9, "moved out"),
    DW_F_WHOLE(dw_stack_moved, assumed, "", -1e9, 1e9, "by no tap"),
};
static const dw_shape moved_shape =
    DW_SHAPE("stack_moved", dw_stack_moved, moved_fields, "what left a stack");

dw_status dw_store_stacks_moved(dw_store *store, int64_t mixing_day,
                                dw_arena *arena, dw_stack_moved **rows,
                                size_t *count, dw_err *err)
{
    dw_arg args[] = {since(mixing_day)};
    return dw_store_query(store,
                          "SELECT m.stack_id, sum(m.balls) AS balls,"
                          " sum(m.balls * m.assumed) AS assumed"
                          " FROM stack_move m JOIN stack s ON s.id = m.stack_id"
                          " WHERE s.mixing_day >= $a"
                          " GROUP BY m.stack_id ORDER BY m.stack_id",
                          args, DW_COUNT(args), &moved_shape, arena, rows,
                          count, err);
}

static const dw_field counted_fields[] = {
    DW_F_ID(dw_stock_counted, product_id, "of what"),
    DW_F_MOMENT(dw_stock_counted, at_ms, "its newest count"),
};
static const dw_shape counted_shape =
    DW_SHAPE("stock_counted", dw_stock_counted, counted_fields,
             "when a product was counted");

dw_status dw_store_stock_counted(dw_store *store, dw_arena *arena,
                                 dw_stock_counted **rows, size_t *count,
                                 dw_err *err)
{
    return dw_store_query(store,
                          "SELECT l.product_id, max(c.at_ms) AS at_ms"
                          " FROM count_line l"
                          " JOIN count_taken c ON c.id = l.count_id"
                          " GROUP BY l.product_id",
                          NULL, 0, &counted_shape, arena, rows, count, err);
}

static const dw_field went_fields[] = {
    DW_F_ID(dw_stack_went, stack_id, "of which stack"),
    DW_F_ID(dw_stack_went, product_id, "of what"),
    DW_F_WHOLE(dw_stack_went, balls, "", -1e9, 1e9, "taken out"),
    DW_F_MOMENT(dw_stack_went, occurred_ms, "when"),
    DW_F_YES(dw_stack_went, service, false, "pulled, used or put back"),
};
static const dw_shape went_shape =
    DW_SHAPE("stack_went", dw_stack_went, went_fields, "what left a stack");

dw_status dw_store_stacks_went(dw_store *store, int64_t since_ms,
                               dw_arena *arena, dw_stack_went **rows,
                               size_t *count, dw_err *err)
{
    dw_arg args[] = {since(since_ms)};
    return dw_store_query(store,
                          "SELECT m.stack_id, s.product_id, m.balls,"
                          " m.occurred_ms,"
                          " m.kind IN ('pull', 'use', 'put_back') AS service"
                          " FROM stack_move m JOIN stack s ON s.id = m.stack_id"
                          " WHERE m.occurred_ms > $a"
                          " ORDER BY m.stack_id, m.occurred_ms",
                          args, DW_COUNT(args), &went_shape, arena, rows, count,
                          err);
}
