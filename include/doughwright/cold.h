/* The cold room by the trade's clock: when to close a stack, which days the
 * dough is good, how long it may stand on the bench, and what the room must
 * carry away.
 *
 * Close times come from the exact cooling of a sphere (piece.h) in air of one
 * temperature; fermentation heat and the real fan are not in them. Days are the
 * shop's own rule. Both are rules of thumb and are said to be: the life of a
 * ball answers from its measured temperatures. Caution: they are about quality;
 * the local food code says what temperature a room must keep.
 * Equations: docs/models/cooling.md.
 */
#ifndef DOUGHWRIGHT_COLD_H
#define DOUGHWRIGHT_COLD_H

#include "doughwright/field.h"
#include "doughwright/piece.h"

/* Dough balls put into moving air, open or offset. */
typedef struct dw_cold_stack {
    double piece_g;
    double dough_c;
    double air_c;
    double h_w_per_m2_k;  /* preset 8, an offset stack */
    double density_kg_m3; /* presets 1130, 2750, 0.37 */
    double cp_j_per_kg_k;
    double k_w_per_m_k;
    double close_from_core_c; /* presets 12.78 and 10 (55 and 50 degF) */
    double close_by_core_c;
} dw_cold_stack;

typedef struct dw_cold_close {
    double from_h, by_h; /* after boxing: core at the two temperatures */
    double from_skin_c, by_skin_c;
    /* Vapour pressure over the dough less that over a wall as cold as the
     * air: what drives sweat under a lid that is put on then. */
    double from_vapour_excess_pa, by_vapour_excess_pa;
    bool rule_of_thumb; /* true, always: no log was read */
} dw_cold_close;

extern const dw_shape dw_cold_stack_shape, dw_cold_close_shape;

/* DW_E_RANGE when the two core temperatures are not falling; DW_E_UNREACHABLE
 * when the air is too warm for them. */
dw_status dw_cold_close_time(const dw_cold_stack *stack, dw_cold_close *close,
                             dw_err *err);

/* Balls out of the cold. */
typedef struct dw_cold_bench {
    double piece_g;
    double core_c; /* when taken out; the whole ball is taken to be so */
    double room_c;
    double h_w_per_m2_k; /* preset 8 */
    double density_kg_m3, cp_j_per_kg_k, k_w_per_m_k;
    double bench_h; /* preset 3 (practice 2 to 4): shop setting */
} dw_cold_bench;

typedef struct dw_cold_temper {
    double usable_from_h; /* core at 10 degC (50 degF) */
    bool has_warm_h;      /* false: the room is too cool for it */
    double warm_h;        /* core at 15.6 degC (60 degF) */
    double end_h;         /* bench_h after taking out */
    bool rule_of_thumb;
} dw_cold_temper;

extern const dw_shape dw_cold_bench_shape, dw_cold_temper_shape;

/* DW_E_UNREACHABLE when the room never brings the core to 10 degC. */
dw_status dw_cold_temper_time(const dw_cold_bench *bench,
                              dw_cold_temper *temper, dw_err *err);

/* The shop's days, counted from the mixing day = 0. */
typedef struct dw_cold_days {
    int64_t ready_day, best_day, use_first_day, last_day; /* presets 1 2 3 3 */
} dw_cold_days;
extern const dw_shape dw_cold_days_shape;

typedef enum dw_readiness {
    DW_NOT_YET,
    DW_READY,
    DW_BEST,
    DW_USE_FIRST,
    DW_PAST
} dw_readiness;
extern const char *const dw_readiness_words[]; /* not_yet ready best ... */

/* DW_E_RANGE unless 0 <= ready <= best <= use first <= last <= 60. */
dw_status dw_cold_days_check(const dw_cold_days *days, dw_err *err);
/* Of dough whose mixing day was `age` business days ago. */
dw_readiness dw_cold_readiness(const dw_cold_days *days, int64_t age);

/* A load of dough to be cooled, through its freezing point or not. */
typedef struct dw_cold_load {
    double dough_kg;
    double cp_j_per_kg_k;
    double start_c, end_c;
    double over_h;
    bool has_freezing_c; /* told: end_c below it freezes the dough */
    double freezing_c;
    double frozen_cp_j_per_kg_k;
    double latent_j_per_kg;
    double other_w; /* walls, doors, people, fans: preset 0 */
    /* for the first peak; presets 0, 8, 1130 */
    double piece_g, air_c, h_w_per_m2_k, density_kg_m3;
} dw_cold_load;

typedef struct dw_cold_heat {
    double heat_j;
    double mean_w; /* over the time, other_w included */
    bool has_peak_w;
    double peak_w; /* just loaded: h A (start - air) + other_w */
} dw_cold_heat;

extern const dw_shape dw_cold_load_shape, dw_cold_heat_shape;

/* DW_E_RANGE when end_c is not below start_c; DW_E_MISSING when freezing_c is
 * told and crossed without latent heat. */
dw_status dw_cold_load_heat(const dw_cold_load *load, dw_cold_heat *heat,
                            dw_err *err);

#endif
