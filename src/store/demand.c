#include "store/demand.h"

static const dw_field row_fields[] = {
    DW_F_ID(dw_demand_row, product_id, "of what"),
    DW_F_WHOLE(dw_demand_row, day, "d", 0, 84000, "when"),
    DW_F_WHOLE(dw_demand_row, balls, "", 0, 1e9, "how many"),
    DW_F_YES(dw_demand_row, sold_out, false, "then the number is at least"),
};
static const dw_shape row_shape =
    DW_SHAPE("demand_row", dw_demand_row, row_fields, "demand of a day");

#define WHOLE(letter, number)                                                  \
    {                                                                          \
        .name = letter, .kind = DW_WHOLE, .whole = number                      \
    }

dw_status dw_store_demand(dw_store *store, int64_t outlet_id,
                          int64_t before_day, dw_arena *arena,
                          dw_demand_row **rows, size_t *count, dw_err *err)
{
    const dw_arg args[] = {WHOLE("$a", outlet_id), WHOLE("$b", before_day)};
    return dw_store_query(
        store,
        "SELECT s.product_id AS product_id, s.day AS day,"
        " sum(s.balls + coalesce(m.lost_balls, 0)) AS balls,"
        " max(coalesce(m.sold_out, s.sold_out)) AS sold_out"
        " FROM sale s LEFT JOIN demand_mark m ON m.product_id = s.product_id"
        " AND m.day = s.day AND (m.outlet_id = s.outlet_id"
        "  OR (m.outlet_id IS NULL AND s.outlet_id IS NULL))"
        " WHERE s.day < $b AND ($a = 0 OR s.outlet_id = $a)"
        " GROUP BY s.product_id, s.day ORDER BY s.product_id, s.day",
        args, DW_COUNT(args), &row_shape, arena, rows, count, err);
}

dw_status dw_store_demand_counted(dw_store *store, int64_t before_day,
                                  dw_arena *arena, dw_demand_row **rows,
                                  size_t *count, dw_err *err)
{
    const dw_arg args[] = {WHOLE("$a", before_day)};
    return dw_store_query(
        store,
        "WITH newest AS (SELECT id, day, at_ms FROM count_taken c"
        " WHERE NOT EXISTS (SELECT 1 FROM count_taken later"
        "  WHERE later.day = c.day AND (later.at_ms > c.at_ms"
        "  OR (later.at_ms = c.at_ms AND later.id > c.id)))),"
        " pair AS (SELECT a.id AS a_id, b.id AS b_id, b.day AS day,"
        "  a.at_ms AS from_ms, b.at_ms AS to_ms FROM newest a"
        "  JOIN newest b ON b.day = a.day + 1 WHERE b.day < $a)"
        " SELECT line.product_id AS product_id, pair.day AS day,"
        " max(0, sum(line.balls) - coalesce((SELECT sum(rest.balls)"
        "   FROM count_line rest WHERE rest.count_id = pair.b_id"
        "   AND rest.product_id = line.product_id"
        "   AND rest.mixing_day < pair.day), 0)"
        "  - coalesce((SELECT sum(move.balls) FROM stack_move move"
        "   JOIN stack ON stack.id = move.stack_id"
        "   WHERE stack.product_id = line.product_id"
        "   AND move.kind = 'throw_away' AND move.occurred_ms > pair.from_ms"
        "   AND move.occurred_ms <= pair.to_ms), 0)) AS balls,"
        " (SELECT sum(rest.balls) FROM count_line rest"
        "  WHERE rest.count_id = pair.b_id"
        "  AND rest.product_id = line.product_id) = 0 AS sold_out"
        " FROM pair JOIN count_line line ON line.count_id = pair.a_id"
        " WHERE EXISTS (SELECT 1 FROM count_line also"
        "  WHERE also.count_id = pair.b_id"
        "  AND also.product_id = line.product_id)"
        " GROUP BY line.product_id, pair.day"
        " ORDER BY line.product_id, pair.day",
        args, DW_COUNT(args), &row_shape, arena, rows, count, err);
}

dw_status dw_store_demand_hours(dw_store *store, int64_t outlet_id,
                                int64_t from_day, int64_t to_day,
                                dw_arena *arena, dw_sale_hour **rows,
                                size_t *count, dw_err *err)
{
    const dw_arg args[] = {WHOLE("$a", outlet_id), WHOLE("$b", from_day),
                           WHOLE("$c", to_day)};
    return dw_store_query(
        store,
        "SELECT 0 AS id, 0 AS outlet_id, product_id, day, hour,"
        " sum(balls) AS balls FROM sale_hour"
        " WHERE day BETWEEN $b AND $c AND ($a = 0 OR outlet_id = $a)"
        " GROUP BY product_id, day, hour ORDER BY product_id, day, hour",
        args, DW_COUNT(args), &dw_sale_hour_noun, arena, rows, count, err);
}

dw_status dw_store_forget_hours(dw_store *store, int64_t outlet_id,
                                int64_t product_id, int64_t day, dw_err *err)
{
    const dw_arg args[] = {WHOLE("$a", outlet_id), WHOLE("$b", product_id),
                           WHOLE("$c", day)};
    return dw_store_run(store,
                        "DELETE FROM sale_hour WHERE outlet_id = $a"
                        " AND product_id = $b AND day = $c",
                        args, DW_COUNT(args), err);
}
