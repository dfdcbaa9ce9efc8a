/* Who may subscribe to the calendar. Released: append another migration, never
 * edit this one. */
#include "store/internal.h"

const char *const dw_store__schema_calendar[] = {
    "CREATE TABLE calendar_key ("
    " id INTEGER PRIMARY KEY,"
    " key TEXT NOT NULL UNIQUE,"
    " outlet_id INTEGER REFERENCES outlet,"
    " made_ms INTEGER NOT NULL,"
    " person_id INTEGER REFERENCES person) STRICT",
    NULL};
