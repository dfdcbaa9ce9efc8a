/* What a trace needs beside the record of the batches: how a lot came, what
 * went into bags of minors and which batch took one, drills, and indexes to
 * walk from a lot. */
#include "store/internal.h"

const char *const dw_store__schema_trace[] = {
    "ALTER TABLE material_lot ADD COLUMN packs INTEGER",
    "ALTER TABLE material_lot ADD COLUMN received_c REAL",
    "ALTER TABLE material_lot ADD COLUMN wasted_kg REAL NOT NULL DEFAULT 0",
    "ALTER TABLE material_lot ADD COLUMN source_batch_id INTEGER"
    " REFERENCES batch",
    "ALTER TABLE material_lot ADD COLUMN carrier TEXT",
    "ALTER TABLE material_lot ADD COLUMN note TEXT",
    "ALTER TABLE batch ADD COLUMN minors_lot_id INTEGER REFERENCES minors_lot",
    "CREATE TABLE minors_part ("
    " id INTEGER PRIMARY KEY,"
    " minors_lot_id INTEGER REFERENCES minors_lot,"
    " lot_id INTEGER REFERENCES material_lot,"
    " kg REAL NOT NULL) STRICT",
    /* the lots of older bags, as far as their text names them */
    DW_STORE__MINORS_PARTS,
    "CREATE TABLE recall_drill ("
    " id INTEGER PRIMARY KEY,"
    " lot_id INTEGER REFERENCES material_lot,"
    " batch_id INTEGER REFERENCES batch,"
    " started_ms INTEGER NOT NULL,"
    " stopped_ms INTEGER NOT NULL,"
    " person_id INTEGER REFERENCES person,"
    " note TEXT) STRICT",
    "CREATE INDEX minors_part_by_minors_lot_id ON minors_part (minors_lot_id)",
    "CREATE INDEX minors_part_by_lot_id ON minors_part (lot_id)",
    "CREATE INDEX batch_weighing_by_lot_id ON batch_weighing (lot_id)"
    " WHERE lot_id IS NOT NULL",
    "CREATE INDEX batch_change_by_lot_id ON batch_change (lot_id)"
    " WHERE lot_id IS NOT NULL",
    "CREATE INDEX batch_by_flour_lot_id ON batch (flour_lot_id)",
    "CREATE INDEX batch_by_minors_lot_id ON batch (minors_lot_id)",
    "CREATE INDEX material_lot_by_source_batch_id"
    " ON material_lot (source_batch_id)",
    "CREATE INDEX material_lot_by_received_ms ON material_lot (received_ms)",
    "CREATE INDEX drop_line_by_stack_id ON drop_line (stack_id)",
    "CREATE INDEX drop_made_by_outlet_id ON drop_made (outlet_id)", NULL};
