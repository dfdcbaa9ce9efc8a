#include "doughwright/say.h"
#include "store/internal.h"

#include <stdio.h>
#include <unistd.h>

/* "DoWr": tells our files from other SQLite files. */
enum { APPLICATION_ID = 0x446f5772 };

static dw_status read_number(dw_store *store, const char *sql, int64_t *number,
                             dw_err *err)
{
    sqlite3_stmt *statement;
    DW_TRY(dw_store__prepare(store, sql, "database", &statement, err));
    if (sqlite3_step(statement) != SQLITE_ROW) {
        dw_status status = dw_store__fail(store, "database", err);
        dw_store__done(statement);
        return status;
    }
    *number = sqlite3_column_int64(statement, 0);
    dw_store__done(statement);
    return DW_OK;
}

/* Which migration the file has; 0: it is empty. */
static dw_status read_version(dw_store *store, const char *path, size_t newest,
                              size_t *version, dw_err *err)
{
    int64_t application = 0, number = 0, tables = 0;
    DW_TRY(read_number(store, "PRAGMA application_id", &application, err));
    DW_TRY(read_number(store, "PRAGMA user_version", &number, err));
    DW_TRY(
        read_number(store, "SELECT count(*) FROM sqlite_schema", &tables, err));
    bool ours = application == APPLICATION_ID && number > 0;
    bool empty = application == 0 && number == 0 && tables == 0;
    if (!ours && !empty)
        return dw_fail_says(
            err, DW_E_STORE, "database", path,
            DW_MSG("is damaged or is not a database of this program"));
    if ((uint64_t)number > newest)
        return dw_fail_says(
            err, DW_E_STORE, "database", path,
            DW_MSG("was written by a newer version of this program"));
    *version = (size_t)number;
    return DW_OK;
}

/* A name that is not taken: a backup of the same version may be there from an
 * earlier migration of a restored file, and is kept. */
static dw_status backup_path(const char *path, size_t version, char *out,
                             size_t room, dw_err *err)
{
    for (int n = 1; n < 1000; n++) {
        int used =
            n == 1 ? snprintf(out, room, "%s.v%zu.backup", path, version)
                   : snprintf(out, room, "%s.v%zu.%d.backup", path, version, n);
        if (used < 0 || (size_t)used >= room)
            break;
        if (access(out, F_OK) != 0)
            return DW_OK;
    }
    return dw_fail_says(
        err, DW_E_STORE, "database", path,
        DW_MSG("could not be copied before it is brought up to date"));
}

static dw_status copy_all(dw_store *source, const char *copy_path, dw_err *err)
{
    dw_store copy = {0};
    int code = sqlite3_open_v2(
        copy_path, &copy.db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL);
    if (code == SQLITE_OK) {
        sqlite3_backup *backup =
            sqlite3_backup_init(copy.db, "main", source->db, "main");
        if (backup) {
            sqlite3_backup_step(backup, -1);
            sqlite3_backup_finish(backup); /* repeats a step's failure */
        }
        code = sqlite3_errcode(copy.db);
    }
    dw_status status = DW_OK;
    if (code != SQLITE_OK)
        status = dw_store__fail(&copy, "database", err);
    sqlite3_close(copy.db);
    if (status != DW_OK)
        unlink(copy_path);
    return status;
}

/* A connection that is writing cannot be the source of a backup; another one
 * sees the same data while ours holds the lock. */
static dw_status back_up(const char *path, size_t version, dw_err *err)
{
    char copy_path[4096];
    DW_TRY(backup_path(path, version, copy_path, sizeof copy_path, err));
    dw_store *source;
    DW_TRY(dw_store_open_reader(path, &source, err));
    dw_status status = copy_all(source, copy_path, err);
    dw_store_free(source);
    return status;
}

static dw_status run_all(dw_store *store, dw_store__migration statements,
                         dw_err *err)
{
    for (; *statements; statements++)
        if (sqlite3_exec(store->db, *statements, NULL, NULL, NULL) != SQLITE_OK)
            return dw_store__fail(store, "database", err);
    return DW_OK;
}

static dw_status mark(dw_store *store, size_t version, dw_err *err)
{
    char sql[96];
    snprintf(sql, sizeof sql,
             "PRAGMA application_id = %d; PRAGMA user_version = %zu",
             APPLICATION_ID, version);
    const char *const statements[] = {sql, NULL};
    return run_all(store, statements, err);
}

static dw_status check_references(dw_store *store, const char *path,
                                  dw_err *err)
{
    int64_t broken = 0;
    DW_TRY(read_number(store, "SELECT count(*) FROM pragma_foreign_key_check",
                       &broken, err));
    if (broken > 0)
        return dw_fail_says(err, DW_E_STORE, "database", path,
                            DW_MSG("cannot be brought up to date without "
                                   "losing data; nothing was changed"));
    return DW_OK;
}

/* Inside the transaction: the version is read again, as another program may
 * have been faster. */
static dw_status migrate_locked(dw_store *store, const char *path,
                                const dw_store__migration *migrations,
                                size_t count, dw_err *err)
{
    size_t version = 0;
    DW_TRY(read_version(store, path, count, &version, err));
    if (version == count)
        return DW_OK;
    if (version > 0)
        DW_TRY(back_up(path, version, err));
    for (size_t i = version; i < count; i++)
        DW_TRY(run_all(store, migrations[i], err));
    DW_TRY(check_references(store, path, err));
    return mark(store, count, err);
}

dw_status dw_store__migrate(dw_store *store, const char *path,
                            const dw_store__migration *migrations, size_t count,
                            dw_err *err)
{
    size_t version = 0;
    DW_TRY(read_version(store, path, count, &version, err));
    if (version == count)
        return DW_OK;
    /* A table that is built anew is dropped in between; what refers to it is
     * checked at the end. */
    DW_TRY(dw_store_run(store, "PRAGMA foreign_keys = OFF", NULL, 0, err));
    DW_TRY(dw_store_begin(store, err));
    dw_status status = migrate_locked(store, path, migrations, count, err);
    if (status == DW_OK)
        status = dw_store_commit(store, err);
    else
        dw_store_rollback(store);
    DW_TRY(status);
    return dw_store_run(store, "PRAGMA foreign_keys = ON", NULL, 0, err);
}
