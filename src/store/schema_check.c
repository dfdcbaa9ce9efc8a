/* What is to be checked again and again, and each time it was. Released: append
 * another migration, never edit this one. */
#include "store/internal.h"

const char *const dw_store__schema_check[] = {
    "CREATE TABLE check_due ("
    " id INTEGER PRIMARY KEY,"
    " what TEXT NOT NULL,"
    " name TEXT NOT NULL,"
    " every_days INTEGER NOT NULL,"
    " lowest REAL,"
    " highest REAL,"
    " since_ms INTEGER NOT NULL,"
    " stopped INTEGER NOT NULL) STRICT",
    "CREATE TABLE check_done ("
    " id INTEGER PRIMARY KEY,"
    " check_id INTEGER NOT NULL REFERENCES check_due,"
    " value REAL,"
    " within INTEGER NOT NULL,"
    " action TEXT,"
    " occurred_ms INTEGER NOT NULL,"
    " received_ms INTEGER NOT NULL,"
    " person_id INTEGER REFERENCES person) STRICT",
    "CREATE INDEX check_done_by_check ON check_done (check_id, occurred_ms)",
    NULL};
