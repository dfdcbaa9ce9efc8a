#include "store/internal.h"

static dw_status run(dw_store *store, const char *sql, dw_err *err)
{
    return dw_store_run(store, sql, NULL, 0, err);
}

dw_status dw_store_begin(dw_store *store, dw_err *err)
{
    DW_ASSERT(!store->begun);
    /* A writer takes the lock at once: a transaction that read first and then
     * finds another writer could only start over. */
    DW_TRY(run(store, store->writes ? "BEGIN IMMEDIATE" : "BEGIN", err));
    store->begun = true;
    return DW_OK;
}

dw_status dw_store_commit(dw_store *store, dw_err *err)
{
    DW_ASSERT(store->begun);
    dw_status status = run(store, "COMMIT", err);
    if (status != DW_OK)
        dw_store_rollback(store);
    store->begun = false;
    return status;
}

void dw_store_rollback(dw_store *store)
{
    store->begun = false;
    if (!sqlite3_get_autocommit(store->db))
        run(store, "ROLLBACK", NULL);
}

bool dw_store_in_transaction(const dw_store *store)
{
    return store->begun && !sqlite3_get_autocommit(store->db);
}

dw_status dw_store_savepoint(dw_store *store, dw_err *err)
{
    DW_ASSERT(store->begun);
    return run(store, "SAVEPOINT nested", err);
}

dw_status dw_store_release(dw_store *store, dw_err *err)
{
    return run(store, "RELEASE nested", err);
}

void dw_store_undo_savepoint(dw_store *store)
{
    /* When SQLite has rolled everything back by itself, there is nothing left
     * to undo. */
    if (!dw_store_in_transaction(store))
        return;
    run(store, "ROLLBACK TO nested", NULL);
    run(store, "RELEASE nested", NULL);
}
