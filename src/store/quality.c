#include "store/quality.h"

static const dw_field row_fields[] = {
    DW_F_ID(dw_quality_row, batch_id, "which batch"),
    DW_F_WHOLE(dw_quality_row, number, "", 0, 1e9, "its number"),
    DW_F_ID(dw_quality_row, mixer_id, "mixed in"),
    DW_F_ID(dw_quality_row, person_id, "by whom"),
    DW_F_ID(dw_quality_row, flour_lot_id, "of which flour"),
    DW_F_MOMENT(dw_quality_row, stopped_ms, "off the mixer"),
    DW_F_REAL(dw_quality_row, dough_goal_c, "degC", -30, 60, "wanted"),
    DW_F_REAL(dw_quality_row, dough_kg, "kg", 0, 1e5, "planned"),
    DW_F_REAL_OPT(dw_quality_row, dough_c, "degC", -30, 110, "probed"),
    DW_F_REAL_OPT(dw_quality_row, water_c, "degC", -30, 110, "poured in"),
    DW_F_REAL_OPT(dw_quality_row, asked_water_c, "degC", -60, 200, "asked for"),
    DW_F_REAL_OPT(dw_quality_row, tap_c, "degC", -30, 110, "of the day"),
    DW_F_REAL_OPT(dw_quality_row, room_c, "degC", -30, 110, "of the day"),
    DW_F_REAL_OPT(dw_quality_row, flour_c, "degC", -30, 110, "of the day"),
    DW_F_REAL_OPT(dw_quality_row, work_j_per_kg_dough, "J/kg", -50000, 300000,
                  "as the batch showed"),
    DW_F_REAL_OPT(dw_quality_row, balls_kg, "kg", 0, 1e5, "made"),
    DW_F_REAL_OPT(dw_quality_row, scrap_kg, "kg", 0, 1e5, "left over"),
};
static const dw_shape row_shape =
    DW_SHAPE("quality_row", dw_quality_row, row_fields, "a batch as it came");

#define OWN(kind)                                                              \
    "(SELECT r.celsius FROM reading r WHERE r.batch_id = b.id"                 \
    " AND r.kind = '" kind "' ORDER BY r.occurred_ms DESC, r.id DESC LIMIT 1)"
#define OF_THE_DAY(kind)                                                       \
    "coalesce(" OWN(kind) ", (SELECT r.celsius FROM reading r"                 \
                          " WHERE r.batch_id IS NULL AND r.kind = '" kind "'"  \
                          " AND r.occurred_ms BETWEEN b.stopped_ms - "         \
                          "64800000 AND b.stopped_ms"                          \
                          " ORDER BY r.occurred_ms DESC, r.id DESC LIMIT 1))"

dw_status dw_store_quality_rows(dw_store *store, int64_t from_ms, int64_t to_ms,
                                dw_arena *arena, dw_quality_row **rows,
                                size_t *count, dw_err *err)
{
    static const char sql[] =
        "SELECT b.id AS batch_id, b.number, b.mixer_id, b.person_id,"
        " b.flour_lot_id, b.stopped_ms, b.dough_goal_c, b.dough_kg,"
        " b.water_c AS asked_water_c, b.work_j_per_kg_dough, b.scrap_kg,"
        " " OWN("dough_c") " AS dough_c, " OWN(
            "water_c") " AS water_c,"
                       " " OF_THE_DAY(
                           "tap_c") " AS tap_c,"
                                    " " OF_THE_DAY(
                                        "room_c") " AS room_c,"
                                                  " " OF_THE_DAY(
                                                      "flour_c") " AS flour_c,"
                                                                 " (SELECT "
                                                                 "sum(p.balls_"
                                                                 "made * "
                                                                 "p.ball_kg) "
                                                                 "FROM "
                                                                 "batch_piece p"
                                                                 "  WHERE "
                                                                 "p.batch_id = "
                                                                 "b.id AND "
                                                                 "p.balls_made "
                                                                 "IS NOT NULL) "
                                                                 "AS balls_kg"
                                                                 " FROM batch "
                                                                 "b WHERE "
                                                                 "b.stopped_ms "
                                                                 "BETWEEN $a "
                                                                 "AND $b"
                                                                 " AND "
                                                                 "b.stopped_ms "
                                                                 "> 0 AND "
                                                                 "b.state <> "
                                                                 "'abandoned'"
                                                                 " ORDER BY "
                                                                 "b.stopped_ms,"
                                                                 " b.id";
    const dw_arg args[] = {{.name = "$a", .kind = DW_WHOLE, .whole = from_ms},
                           {.name = "$b", .kind = DW_WHOLE, .whole = to_ms}};
    return dw_store_query(store, sql, args, DW_COUNT(args), &row_shape, arena,
                          rows, count, err);
}

dw_status dw_store_quality_cold(dw_store *store, int64_t from_ms, int64_t to_ms,
                                dw_arena *arena, dw_reading_row **rows,
                                size_t *count, dw_err *err)
{
    const dw_arg args[] = {{.name = "$a", .kind = DW_WHOLE, .whole = from_ms},
                           {.name = "$b", .kind = DW_WHOLE, .whole = to_ms}};
    return dw_store_query(store,
                          "SELECT * FROM reading WHERE kind = 'cold_c'"
                          " AND occurred_ms BETWEEN $a AND $b"
                          " ORDER BY occurred_ms, id",
                          args, DW_COUNT(args), &dw_reading_noun, arena, rows,
                          count, err);
}
