/* When an answer was given, so that old ones can go. Released: append another
 * migration, never edit this one. */
#include "store/internal.h"

const char *const dw_store__schema_answer[] = {
    "ALTER TABLE answer ADD COLUMN received_ms INTEGER NOT NULL DEFAULT 0",
    /* Those that were there are as old as the newest thing that was written:
     * a tablet may still wait to hear them. */
    "UPDATE answer SET received_ms ="
    " (SELECT coalesce(max(received_ms), 0) FROM journal)",
    "CREATE INDEX answer_by_received_ms ON answer (received_ms)", NULL};
