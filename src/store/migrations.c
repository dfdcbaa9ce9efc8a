/* The schema, one migration after another. Append only: a migration that has
 * been released is never edited. Each is a NULL-terminated list of statements.
 *
 * Columns are named as the members of the noun's shape: REAL and INTEGER for
 * numbers and ids, INTEGER for yes/no, TEXT for texts and words of a choice.
 * A member that may be absent, an id that may be none and an optional text are
 * columns that may be NULL. */
#include "store/internal.h"

static const char *const journal_and_answers[] = {
    /* AUTOINCREMENT remembers the last number ever given, so that rows cut
     * from the end are missed. */
    "CREATE TABLE journal ("
    " id INTEGER PRIMARY KEY AUTOINCREMENT,"
    " received_ms INTEGER NOT NULL,"
    " occurred_ms INTEGER NOT NULL,"
    " person_id INTEGER,"
    " device TEXT NOT NULL,"
    " op TEXT NOT NULL,"
    " body TEXT,"
    " body_hash TEXT NOT NULL,"
    " hash TEXT NOT NULL"
    ") STRICT",
    /* Only the body may go, when what it says about a person must. */
    "CREATE TRIGGER journal_is_not_edited BEFORE UPDATE ON journal"
    " WHEN NEW.body IS NOT NULL OR NEW.id IS NOT OLD.id"
    " OR NEW.received_ms IS NOT OLD.received_ms"
    " OR NEW.occurred_ms IS NOT OLD.occurred_ms"
    " OR NEW.person_id IS NOT OLD.person_id"
    " OR NEW.device IS NOT OLD.device OR NEW.op IS NOT OLD.op"
    " OR NEW.body_hash IS NOT OLD.body_hash OR NEW.hash IS NOT OLD.hash"
    " BEGIN SELECT raise(ABORT, 'the journal is not edited'); END",
    "CREATE TRIGGER journal_is_not_cut BEFORE DELETE ON journal"
    " BEGIN SELECT raise(ABORT, 'the journal is not cut'); END",
    "CREATE TABLE answer ("
    " device TEXT NOT NULL,"
    " key TEXT NOT NULL,"
    " body_hash TEXT NOT NULL,"
    " reply TEXT NOT NULL,"
    " PRIMARY KEY (device, key)"
    ") STRICT, WITHOUT ROWID",
    NULL};

const dw_store__migration dw_store__migrations[] = {
    journal_and_answers,       dw_store__schema_shop,
    dw_store__schema_batch,    dw_store__schema_taught,
    dw_store__schema_service,  dw_store__schema_close,
    dw_store__schema_demand,   dw_store__schema_answer,
    dw_store__schema_calendar, dw_store__schema_trace,
    dw_store__schema_check};
const size_t dw_store__migrations_count = DW_COUNT(dw_store__migrations);
