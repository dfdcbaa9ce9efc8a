#include "doughwright/say.h"
#include "store/internal.h"

#include <stdlib.h>
#include <string.h>

static const char *constraint_sentence(int extended)
{
    switch (extended) {
    case SQLITE_CONSTRAINT_UNIQUE:
    case SQLITE_CONSTRAINT_PRIMARYKEY:
    case SQLITE_CONSTRAINT_ROWID: return DW_MSG("is there already");
    case SQLITE_CONSTRAINT_FOREIGNKEY:
        return DW_MSG("points to something that is not there, or is still "
                      "in use");
    case SQLITE_CONSTRAINT_NOTNULL: return DW_MSG("lacks a value it must have");
    default: return DW_MSG("breaks a rule of the database");
    }
}

static const char *failure_sentence(int primary)
{
    switch (primary) {
    case SQLITE_FULL:
        return DW_MSG(
            "could not be stored: the disk is full; nothing was changed");
    case SQLITE_READONLY:
        return DW_MSG("cannot be written to; nothing was changed");
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        return DW_MSG("is damaged or is not a database of this program");
    case SQLITE_CANTOPEN: return DW_MSG("could not be opened");
    case SQLITE_IOERR:
        return DW_MSG("could not be stored: the disk cannot be read or "
                      "written; nothing was changed");
    default: return NULL;
    }
}

/* "UNIQUE constraint failed: person.name": what a person can use of it is the
 * end; a broken reference tells nothing. */
static const char *broken(const char *message)
{
    static const char before[] = "constraint failed";
    const char *found = strstr(message, before);
    if (!found)
        return message; /* a trigger's own words */
    found += strlen(before);
    return strncmp(found, ": ", 2) == 0 ? found + 2 : NULL;
}

dw_status dw_store__fail(dw_store *store, const char *what, dw_err *err)
{
    int extended = sqlite3_extended_errcode(store->db);
    int primary = extended & 0xff;
    const char *message = sqlite3_errmsg(store->db);
    const char *sentence = failure_sentence(primary);
    switch (primary) {
    case SQLITE_CONSTRAINT:
        return dw_fail_says(err, DW_E_CONFLICT, what, broken(message),
                            constraint_sentence(extended));
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return dw_fail_says(err, DW_E_BUSY, what, NULL,
                            DW_MSG("is in use by another program; try again"));
    case SQLITE_NOMEM: return dw_fail(err, DW_E_ROOM, what, NULL);
    case SQLITE_TOOBIG: return dw_fail(err, DW_E_TOO_LARGE, what, NULL);
    default:
        return dw_fail_says(err, DW_E_STORE, what, sentence ? NULL : message,
                            sentence);
    }
}

/* FNV-1a, to find a statement by its text. */
static size_t bucket_of(const char *sql)
{
    uint64_t hash = 0xcbf29ce484222325u;
    for (; *sql; sql++)
        hash = (hash ^ (unsigned char)*sql) * 0x100000001b3u;
    return (size_t)(hash % DW_STORE__BUCKETS);
}

static sqlite3_stmt *find(const dw_store *store, size_t bucket, const char *sql)
{
    for (dw_store__kept *kept = store->kept[bucket]; kept; kept = kept->next)
        if (strcmp(sqlite3_sql(kept->statement), sql) == 0)
            return kept->statement;
    return NULL;
}

dw_status dw_store__prepare(dw_store *store, const char *sql, const char *what,
                            sqlite3_stmt **statement, dw_err *err)
{
    if (store->begun && sqlite3_get_autocommit(store->db))
        return dw_fail(err, DW_E_STORE, what, NULL);
    size_t bucket = bucket_of(sql);
    sqlite3_stmt *found = find(store, bucket, sql);
    if (!found) {
        dw_store__kept *kept = malloc(sizeof *kept);
        if (!kept)
            return dw_fail(err, DW_E_ROOM, what, NULL);
        if (sqlite3_prepare_v3(store->db, sql, -1, SQLITE_PREPARE_PERSISTENT,
                               &found, NULL) != SQLITE_OK) {
            free(kept);
            return dw_store__fail(store, what, err);
        }
        DW_ASSERT(found); /* an empty text is a programmer's error */
        kept->statement = found;
        kept->next = store->kept[bucket];
        store->kept[bucket] = kept;
    }
    DW_ASSERT(!sqlite3_stmt_busy(found));
    *statement = found;
    return DW_OK;
}

void dw_store__done(sqlite3_stmt *statement)
{
    sqlite3_reset(statement);
    sqlite3_clear_bindings(statement);
}

dw_status dw_store__finish(dw_store *store, sqlite3_stmt *statement,
                           const char *what, dw_err *err)
{
    int code;
    do
        code = sqlite3_step(statement);
    while (code == SQLITE_ROW);
    dw_status status = DW_OK;
    if (code != SQLITE_DONE)
        status = dw_store__fail(store, what, err);
    dw_store__done(statement);
    return status;
}

void dw_store__forget_statements(dw_store *store)
{
    for (size_t i = 0; i < DW_STORE__BUCKETS; i++)
        while (store->kept[i]) {
            dw_store__kept *kept = store->kept[i];
            store->kept[i] = kept->next;
            sqlite3_finalize(kept->statement);
            free(kept);
        }
}
