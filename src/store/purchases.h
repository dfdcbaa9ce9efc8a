/* What batches took of the materials. */
#ifndef DW_STORE_PURCHASES_H
#define DW_STORE_PURCHASES_H

#include "store/nouns.h"
#include "store/store.h"

/* Weighed, or planned where nobody wrote a weight; lot_id 0: not told. */
typedef struct dw_material_used {
    int64_t lot_id, day, started_ms;
    const char *material;
    double kg;
    bool planned; /* of a batch that is still to be mixed */
} dw_material_used;

/* Of batches begun since a moment, and of those planned for a day or later;
 * abandoned ones left out. */
dw_status dw_store_materials_used(dw_store *store, int64_t since_ms,
                                  int64_t from_day, dw_arena *arena,
                                  dw_material_used **rows, size_t *count,
                                  dw_err *err);

#endif
