/* What the shop's own readings teach: witness cups, what is left out, what was
 * learned. Released: append another migration, never edit this one. */
#include "store/internal.h"

const char *const dw_store__schema_taught[] = {
    "ALTER TABLE reading ADD COLUMN product_id INTEGER REFERENCES product",
    "CREATE INDEX reading_by_kind ON reading (kind, occurred_ms)",
    "CREATE TABLE cup ("
    " id INTEGER PRIMARY KEY,"
    " batch_id INTEGER REFERENCES batch,"
    " start_ml REAL NOT NULL,"
    " place_c REAL NOT NULL,"
    " occurred_ms INTEGER NOT NULL,"
    " received_ms INTEGER NOT NULL,"
    " person_id INTEGER REFERENCES person,"
    " device TEXT) STRICT",
    "CREATE INDEX cup_by_batch_id ON cup (batch_id)",
    "CREATE TABLE cup_reading ("
    " id INTEGER PRIMARY KEY,"
    " cup_id INTEGER REFERENCES cup,"
    " volume_ml REAL NOT NULL,"
    " place_c REAL NOT NULL,"
    " occurred_ms INTEGER NOT NULL,"
    " received_ms INTEGER NOT NULL,"
    " person_id INTEGER REFERENCES person,"
    " device TEXT) STRICT",
    "CREATE INDEX cup_reading_by_cup_id ON cup_reading (cup_id)",
    /* Append-only: the newest row of a thing counts. */
    "CREATE TABLE left_out ("
    " id INTEGER PRIMARY KEY,"
    " what TEXT NOT NULL,"
    " of_id INTEGER,"
    " out INTEGER NOT NULL,"
    " reason TEXT,"
    " occurred_ms INTEGER NOT NULL,"
    " person_id INTEGER REFERENCES person) STRICT",
    "CREATE INDEX left_out_by_what ON left_out (what, of_id)",
    /* Worked out from the rows above and kept because every page asks. */
    "CREATE TABLE taught ("
    " id INTEGER PRIMARY KEY,"
    " what TEXT NOT NULL,"
    " yeast TEXT,"
    " formula_id INTEGER REFERENCES formula,"
    " lot_id INTEGER REFERENCES material_lot,"
    " prior_mean REAL NOT NULL,"
    " prior_low REAL NOT NULL,"
    " prior_high REAL NOT NULL,"
    " mean REAL NOT NULL,"
    " low REAL NOT NULL,"
    " high REAL NOT NULL,"
    " used INTEGER NOT NULL,"
    " doubted INTEGER NOT NULL,"
    " refused INTEGER NOT NULL,"
    " left_out INTEGER NOT NULL,"
    " learned_ms INTEGER NOT NULL) STRICT",
    NULL};
