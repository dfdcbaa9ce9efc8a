/* What was read of the batches of a time, to be looked at for drift. */
#ifndef DW_STORE_QUALITY_H
#define DW_STORE_QUALITY_H

#include "store/nouns.h"
#include "store/store.h"

/* A batch whose mixer stopped. Tap, room and flour are its own readings, else
 * the shop's last of the 18 hours before. */
typedef struct dw_quality_row {
    int64_t batch_id, number, mixer_id, person_id, flour_lot_id, stopped_ms;
    double dough_goal_c, dough_kg;
    bool has_dough_c, has_water_c, has_asked_water_c, has_tap_c, has_room_c,
        has_flour_c, has_work_j_per_kg_dough, has_balls_kg, has_scrap_kg;
    double dough_c, water_c, asked_water_c, tap_c, room_c, flour_c,
        work_j_per_kg_dough;
    double balls_kg; /* made, by the weight they were meant to have */
    double scrap_kg;
} dw_quality_row;

/* Oldest first. */
dw_status dw_store_quality_rows(dw_store *store, int64_t from_ms, int64_t to_ms,
                                dw_arena *arena, dw_quality_row **rows,
                                size_t *count, dw_err *err);

/* The cold rooms' readings, oldest first. */
dw_status dw_store_quality_cold(dw_store *store, int64_t from_ms, int64_t to_ms,
                                dw_arena *arena, dw_reading_row **rows,
                                size_t *count, dw_err *err);

#endif
