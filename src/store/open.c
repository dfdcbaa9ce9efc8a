#include "store/internal.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static dw_status set_up(dw_store *store, const char *const *settings,
                        dw_err *err)
{
    for (; *settings; settings++)
        DW_TRY(dw_store_run(store, *settings, NULL, 0, err));
    return DW_OK;
}

/* The first reads of a file tell whether it is a database at all; the file is
 * then what the person wants to hear about. */
static dw_status say_path(const char *path, dw_err *err)
{
    if (!err)
        return DW_E_STORE;
    return dw_fail_says(err, err->status, "database", path, err->sentence);
}

static dw_status connect(const char *path, int flags, dw_store **store,
                         dw_err *err)
{
    static const char *const settings[] = {"PRAGMA journal_mode = WAL",
                                           "PRAGMA synchronous = FULL",
                                           "PRAGMA foreign_keys = ON", NULL};
    dw_store *new_store = calloc(1, sizeof *new_store);
    if (!new_store)
        return dw_fail(err, DW_E_ROOM, "database", path);
    bool is_new = access(path, F_OK) != 0;
    int code = sqlite3_open_v2(
        path, &new_store->db,
        flags | SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL);
    /* A business is its people's alone; SQLite gives the files beside it the
     * same mode. */
    if (is_new && code == SQLITE_OK)
        chmod(path, S_IRUSR | S_IWUSR);
    dw_err local;
    if (!err)
        err = &local;
    dw_status status = DW_OK;
    if (code != SQLITE_OK) {
        status = dw_store__fail(new_store, "database", err);
    } else {
        sqlite3_extended_result_codes(new_store->db, 1);
        sqlite3_busy_timeout(new_store->db, 5000);
        /* A misspelt column must not pass for a text. */
        sqlite3_db_config(new_store->db, SQLITE_DBCONFIG_DQS_DML, 0, NULL);
        sqlite3_db_config(new_store->db, SQLITE_DBCONFIG_DQS_DDL, 0, NULL);
        status = set_up(new_store, settings, err);
    }
    if (status != DW_OK) {
        dw_store_free(new_store);
        return say_path(path, err);
    }
    *store = new_store;
    return DW_OK;
}

dw_status dw_store__open_with(const char *path,
                              const dw_store__migration *migrations,
                              size_t count, dw_store **store, dw_err *err)
{
    dw_store *opened;
    DW_TRY(connect(path, SQLITE_OPEN_CREATE, &opened, err));
    opened->writes = true;
    dw_status status = dw_store__migrate(opened, path, migrations, count, err);
    if (status != DW_OK) {
        dw_store_free(opened);
        return status;
    }
    *store = opened;
    return DW_OK;
}

dw_status dw_store_open(const char *path, dw_store **store, dw_err *err)
{
    dw_store *opened;
    DW_TRY(dw_store__open_with(path, dw_store__migrations,
                               dw_store__migrations_count, &opened, err));
    dw_status status = dw_store_check(opened, err);
    if (status != DW_OK) {
        dw_store_free(opened);
        return status;
    }
    *store = opened;
    return DW_OK;
}

dw_status dw_store_open_reader(const char *path, dw_store **store, dw_err *err)
{
    static const char *const settings[] = {"PRAGMA query_only = ON", NULL};
    dw_store *opened;
    DW_TRY(connect(path, 0, &opened, err));
    dw_status status = set_up(opened, settings, err);
    if (status != DW_OK) {
        dw_store_free(opened);
        return status;
    }
    *store = opened;
    return DW_OK;
}

void dw_store_free(dw_store *store)
{
    if (!store)
        return;
    dw_store__forget_statements(store);
    sqlite3_close(store->db);
    free(store);
}
