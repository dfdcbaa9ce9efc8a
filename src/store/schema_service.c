/* The tables of service: who is there, what goes to which shop, what is bought.
 * Released: append another migration, never edit this one. */
#include "store/internal.h"

const char *const dw_store__schema_service[] = {
    "ALTER TABLE material ADD COLUMN lead_days INTEGER",
    "ALTER TABLE material ADD COLUMN keep_days INTEGER",
    "ALTER TABLE material_lot ADD COLUMN kg REAL",
    "ALTER TABLE outlet ADD COLUMN promised_days INTEGER",
    "CREATE TABLE service ("
    " id INTEGER PRIMARY KEY,"
    " run_down TEXT NOT NULL,"
    " pull_step_minutes REAL NOT NULL,"
    " day_sd_percent REAL NOT NULL,"
    " short_cost_balls REAL NOT NULL,"
    " short_rule TEXT NOT NULL,"
    " promised_days INTEGER NOT NULL,"
    " door_most_c REAL NOT NULL,"
    " buy_days INTEGER NOT NULL) STRICT",
    "CREATE TABLE shift ("
    " id INTEGER PRIMARY KEY,"
    " person_id INTEGER REFERENCES person,"
    " weekday INTEGER NOT NULL,"
    " from_minute INTEGER NOT NULL,"
    " to_minute INTEGER NOT NULL) STRICT",
    "CREATE INDEX shift_by_weekday ON shift (weekday)",
    "CREATE TABLE shift_change ("
    " id INTEGER PRIMARY KEY,"
    " day INTEGER NOT NULL,"
    " person_id INTEGER REFERENCES person,"
    " here INTEGER NOT NULL,"
    " from_minute INTEGER NOT NULL,"
    " to_minute INTEGER NOT NULL,"
    " note TEXT) STRICT",
    "CREATE INDEX shift_change_by_day ON shift_change (day)",
    "CREATE TABLE drop_day ("
    " id INTEGER PRIMARY KEY,"
    " outlet_id INTEGER REFERENCES outlet,"
    " weekday INTEGER NOT NULL,"
    " at_minute INTEGER NOT NULL,"
    " cutoff_minutes INTEGER NOT NULL,"
    " UNIQUE (outlet_id, weekday)) STRICT",
    "CREATE TABLE outlet_order ("
    " id INTEGER PRIMARY KEY,"
    " outlet_id INTEGER REFERENCES outlet,"
    " day INTEGER NOT NULL,"
    " placed_ms INTEGER NOT NULL,"
    " late INTEGER NOT NULL,"
    " person_id INTEGER REFERENCES person,"
    " note TEXT) STRICT",
    "CREATE INDEX outlet_order_by_day ON outlet_order (day)",
    "CREATE TABLE outlet_order_line ("
    " id INTEGER PRIMARY KEY,"
    " order_id INTEGER REFERENCES outlet_order,"
    " product_id INTEGER REFERENCES product,"
    " balls INTEGER NOT NULL) STRICT",
    "CREATE INDEX outlet_order_line_by_order_id"
    " ON outlet_order_line (order_id)",
    "CREATE TABLE drop_made ("
    " id INTEGER PRIMARY KEY,"
    " day INTEGER NOT NULL,"
    " outlet_id INTEGER REFERENCES outlet,"
    " loaded_ms INTEGER NOT NULL,"
    " arrived_ms INTEGER NOT NULL,"
    " door_c REAL,"
    " person_id INTEGER REFERENCES person,"
    " note TEXT,"
    " UNIQUE (day, outlet_id)) STRICT",
    "CREATE TABLE drop_line ("
    " id INTEGER PRIMARY KEY,"
    " drop_id INTEGER REFERENCES drop_made,"
    " product_id INTEGER REFERENCES product,"
    " stack_id INTEGER REFERENCES stack,"
    " mixing_day INTEGER NOT NULL,"
    " balls INTEGER NOT NULL,"
    " boxes INTEGER NOT NULL,"
    " refused INTEGER NOT NULL,"
    " credited INTEGER NOT NULL,"
    " reason TEXT) STRICT",
    "CREATE INDEX drop_line_by_drop_id ON drop_line (drop_id)",
    "CREATE TABLE box_move ("
    " id INTEGER PRIMARY KEY,"
    " outlet_id INTEGER REFERENCES outlet,"
    " drop_id INTEGER REFERENCES drop_made,"
    " boxes_out INTEGER NOT NULL,"
    " boxes_back INTEGER NOT NULL,"
    " occurred_ms INTEGER NOT NULL,"
    " person_id INTEGER REFERENCES person) STRICT",
    "CREATE INDEX box_move_by_outlet_id ON box_move (outlet_id)",
    NULL};
