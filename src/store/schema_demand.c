/* Demand: sales by hour, what people know of days, names in registers' files.
 * Released: append another migration, never edit this one. */
#include "store/internal.h"

const char *const dw_store__schema_demand[] = {
    "CREATE TABLE sale_hour ("
    " id INTEGER PRIMARY KEY,"
    " outlet_id INTEGER REFERENCES outlet,"
    " product_id INTEGER REFERENCES product,"
    " day INTEGER NOT NULL,"
    " hour INTEGER NOT NULL,"
    " balls INTEGER NOT NULL,"
    " UNIQUE (outlet_id, product_id, day, hour)) STRICT",
    "CREATE INDEX sale_hour_by_day ON sale_hour (day)",
    "CREATE TABLE demand_mark ("
    " id INTEGER PRIMARY KEY,"
    " outlet_id INTEGER REFERENCES outlet,"
    " product_id INTEGER REFERENCES product,"
    " day INTEGER NOT NULL,"
    " sold_out INTEGER NOT NULL,"
    " lost_balls INTEGER NOT NULL,"
    " note TEXT,"
    " person_id INTEGER REFERENCES person,"
    " UNIQUE (outlet_id, product_id, day)) STRICT",
    "CREATE TABLE demand_event ("
    " id INTEGER PRIMARY KEY,"
    " name TEXT NOT NULL UNIQUE,"
    " rule TEXT NOT NULL,"
    " day INTEGER,"
    " month INTEGER,"
    " date INTEGER,"
    " nth INTEGER,"
    " weekday INTEGER,"
    " offset_days INTEGER,"
    " days INTEGER NOT NULL,"
    " closed INTEGER NOT NULL,"
    " expected_percent REAL) STRICT",
    "CREATE TABLE demand_override ("
    " id INTEGER PRIMARY KEY,"
    " outlet_id INTEGER REFERENCES outlet,"
    " product_id INTEGER REFERENCES product,"
    " from_day INTEGER NOT NULL,"
    " to_day INTEGER NOT NULL,"
    " balls INTEGER,"
    " percent REAL,"
    " reason TEXT NOT NULL,"
    " expires_day INTEGER NOT NULL,"
    " person_id INTEGER REFERENCES person,"
    " made_ms INTEGER NOT NULL) STRICT",
    "CREATE INDEX demand_override_by_to_day ON demand_override (to_day)",
    "CREATE TABLE product_like ("
    " id INTEGER PRIMARY KEY,"
    " product_id INTEGER UNIQUE REFERENCES product,"
    " like_id INTEGER REFERENCES product) STRICT",
    "CREATE TABLE sales_name ("
    " id INTEGER PRIMARY KEY,"
    " kind TEXT NOT NULL,"
    " written TEXT NOT NULL,"
    " product_id INTEGER REFERENCES product,"
    " outlet_id INTEGER REFERENCES outlet,"
    " balls_each INTEGER NOT NULL,"
    " passed_over INTEGER NOT NULL,"
    " UNIQUE (kind, written)) STRICT",
    NULL};
