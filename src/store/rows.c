#include "store/internal.h"

#include <stddef.h>
#include <string.h>

/* Names of tables and columns are written by us, never by people; this keeps it
 * so. */
static void assert_name(const char *name)
{
    DW_ASSERT(*name);
    for (const char *c = name; *c; c++)
        DW_ASSERT((*c >= 'a' && *c <= 'z') || *c == '_' ||
                  (*c >= '0' && *c <= '9'));
}

static void assert_order(const char *order)
{
    static const char allowed[] =
        "abcdefghijklmnopqrstuvwxyz0123456789_ ,ADESC";
    DW_ASSERT(strspn(order, allowed) == strlen(order));
}

/* One name per column member: `format` has one %w, or two. */
static void append_columns(sqlite3_str *sql, const dw_shape *shape,
                           const char *format)
{
    dw_store__places places;
    dw_store__places_of(shape, &places);
    for (size_t i = 0; i < places.count; i++) {
        const char *name = places.at[i].field->name;
        if (i > 0)
            sqlite3_str_appendall(sql, ", ");
        sqlite3_str_appendf(sql, format, name, name);
    }
}

/* Prepare the finished text; it is taken. */
static dw_status prepare_built(dw_store *store, sqlite3_str *built,
                               const char *what, sqlite3_stmt **statement,
                               dw_err *err)
{
    char *sql = sqlite3_str_finish(built);
    if (!sql)
        return dw_fail(err, DW_E_ROOM, what, NULL);
    dw_status status = dw_store__prepare(store, sql, what, statement, err);
    sqlite3_free(sql);
    return status;
}

dw_status dw_store_insert(dw_store *store, const char *table,
                          const dw_shape *shape, const void *row, int64_t *id,
                          dw_err *err)
{
    assert_name(table);
    sqlite3_str *sql = sqlite3_str_new(store->db);
    sqlite3_str_appendf(sql, "INSERT INTO \"%w\" (", table);
    append_columns(sql, shape, "\"%w\"");
    sqlite3_str_appendall(sql, ") VALUES (");
    append_columns(sql, shape, "$%w");
    sqlite3_str_appendall(sql, ")");
    sqlite3_stmt *statement;
    DW_TRY(prepare_built(store, sql, table, &statement, err));
    DW_TRY(dw_store__bind(store, statement, shape, row, table, err));
    DW_TRY(dw_store__finish(store, statement, table, err));
    if (id)
        *id = sqlite3_last_insert_rowid(store->db);
    return DW_OK;
}

static dw_status not_found(const char *table, int64_t id, dw_err *err)
{
    char text[32];
    dw_text_number(text, sizeof text, (double)id, 15);
    return dw_fail(err, DW_E_NOT_FOUND, table, text);
}

dw_status dw_store_update(dw_store *store, const char *table,
                          const dw_shape *shape, const void *row, dw_err *err)
{
    assert_name(table);
    DW_ASSERT(strcmp(shape->fields[0].name, "id") == 0);
    sqlite3_str *sql = sqlite3_str_new(store->db);
    sqlite3_str_appendf(sql, "UPDATE \"%w\" SET ", table);
    append_columns(sql, shape, "\"%w\" = $%w");
    sqlite3_str_appendall(sql, " WHERE \"id\" = $id");
    sqlite3_stmt *statement;
    DW_TRY(prepare_built(store, sql, table, &statement, err));
    DW_TRY(dw_store__bind(store, statement, shape, row, table, err));
    DW_TRY(dw_store__finish(store, statement, table, err));
    if (sqlite3_changes(store->db) == 0) {
        const unsigned char *bytes = row;
        int64_t id;
        memcpy(&id, bytes + shape->fields[0].offset, sizeof id);
        return not_found(table, id, err);
    }
    return DW_OK;
}

/* Rows arrive one by one and texts between them: link them first, then lay
 * them side by side. */
typedef union link {
    union link *next;
    max_align_t align;
} link;

static dw_status gather(const link *first, size_t count, size_t bytes,
                        const char *what, dw_arena *arena, void **rows,
                        dw_err *err)
{
    unsigned char *all = dw_arena_take(arena, count * bytes);
    if (!all)
        return dw_fail(err, DW_E_ROOM, what, NULL);
    for (size_t i = 0; i < count; i++, first = first->next)
        memcpy(all + i * bytes, first + 1, bytes);
    *rows = all;
    return DW_OK;
}

static dw_status read_rows(dw_store *store, sqlite3_stmt *statement,
                           const char *what, const dw_shape *shape,
                           dw_arena *arena, void **rows, size_t *count,
                           dw_err *err)
{
    dw_store__places columns;
    DW_TRY(dw_store__match(statement, shape, what, &columns, err));
    link *first = NULL, **last = &first;
    size_t n = 0;
    int code;
    while ((code = sqlite3_step(statement)) == SQLITE_ROW) {
        link *one = dw_arena_take(arena, sizeof *one + shape->bytes);
        if (!one)
            return dw_fail(err, DW_E_ROOM, what, NULL);
        DW_TRY(dw_store__read(statement, &columns, shape, arena, one + 1, err));
        *last = one;
        last = &one->next;
        n++;
    }
    if (code != SQLITE_DONE)
        return dw_store__fail(store, what, err);
    DW_TRY(gather(first, n, shape->bytes, what, arena, rows, err));
    *count = n;
    return DW_OK;
}

static dw_status bind_args(dw_store *store, sqlite3_stmt *statement,
                           const dw_arg *args, size_t args_count,
                           const char *what, dw_err *err)
{
    for (size_t i = 0; i < args_count; i++) {
        const dw_arg *arg = &args[i];
        int index = sqlite3_bind_parameter_index(statement, arg->name);
        DW_ASSERT(index > 0);
        int code = SQLITE_MISUSE;
        if (arg->kind == DW_WHOLE)
            code = sqlite3_bind_int64(statement, index, arg->whole);
        else if (arg->kind == DW_REAL)
            code = sqlite3_bind_double(statement, index, arg->real);
        else if (arg->kind == DW_TEXT)
            code = sqlite3_bind_text(statement, index, arg->text, -1,
                                     SQLITE_STATIC);
        if (code != SQLITE_OK) {
            dw_status status = dw_store__fail(store, what, err);
            dw_store__done(statement);
            return status;
        }
    }
    return DW_OK;
}

/* Bind, read all, give the statement back. */
static dw_status query(dw_store *store, sqlite3_stmt *statement,
                       const char *what, const dw_arg *args, size_t args_count,
                       const dw_shape *shape, dw_arena *arena, void *rows,
                       size_t *count, dw_err *err)
{
    DW_TRY(bind_args(store, statement, args, args_count, what, err));
    void *all;
    dw_status status =
        read_rows(store, statement, what, shape, arena, &all, count, err);
    dw_store__done(statement);
    if (status == DW_OK)
        memcpy(rows, &all, sizeof all);
    return status;
}

dw_status dw_store_list(dw_store *store, const char *table,
                        const dw_shape *shape, const char *column,
                        int64_t value, const char *order, dw_arena *arena,
                        void *rows, size_t *count, dw_err *err)
{
    assert_name(table);
    sqlite3_str *sql = sqlite3_str_new(store->db);
    sqlite3_str_appendall(sql, "SELECT ");
    append_columns(sql, shape, "\"%w\"");
    sqlite3_str_appendf(sql, " FROM \"%w\"", table);
    if (column) {
        assert_name(column);
        sqlite3_str_appendf(sql, " WHERE \"%w\" = $value", column);
    }
    if (order) {
        assert_order(order);
        sqlite3_str_appendf(sql, " ORDER BY %s", order);
    }
    sqlite3_stmt *statement;
    DW_TRY(prepare_built(store, sql, table, &statement, err));
    dw_arg arg = {.name = "$value", .kind = DW_WHOLE, .whole = value};
    return query(store, statement, table, &arg, column ? 1 : 0, shape, arena,
                 rows, count, err);
}

dw_status dw_store_get(dw_store *store, const char *table,
                       const dw_shape *shape, int64_t id, dw_arena *arena,
                       void *row, dw_err *err)
{
    void *rows;
    size_t count;
    DW_TRY(dw_store_list(store, table, shape, "id", id, NULL, arena, &rows,
                         &count, err));
    if (count == 0)
        return not_found(table, id, err);
    memcpy(row, rows, shape->bytes);
    return DW_OK;
}

dw_status dw_store_delete(dw_store *store, const char *table,
                          const char *column, int64_t value, dw_err *err)
{
    assert_name(table);
    assert_name(column);
    sqlite3_str *sql = sqlite3_str_new(store->db);
    sqlite3_str_appendf(sql, "DELETE FROM \"%w\" WHERE \"%w\" = $value", table,
                        column);
    sqlite3_stmt *statement;
    DW_TRY(prepare_built(store, sql, table, &statement, err));
    dw_arg arg = {.name = "$value", .kind = DW_WHOLE, .whole = value};
    DW_TRY(bind_args(store, statement, &arg, 1, table, err));
    return dw_store__finish(store, statement, table, err);
}

dw_status dw_store_clear(dw_store *store, const char *table, dw_err *err)
{
    assert_name(table);
    sqlite3_str *sql = sqlite3_str_new(store->db);
    sqlite3_str_appendf(sql, "DELETE FROM \"%w\"", table);
    sqlite3_stmt *statement;
    DW_TRY(prepare_built(store, sql, table, &statement, err));
    return dw_store__finish(store, statement, table, err);
}

dw_status dw_store_replace(dw_store *store, const char *table,
                           const dw_shape *shape, const char *column,
                           int64_t parent, const void *rows, size_t count,
                           dw_err *err)
{
    const unsigned char *row = rows;
    DW_ASSERT(store->begun); /* or half of it could stay */
    DW_TRY(dw_store_delete(store, table, column, parent, err));
    for (size_t i = 0; i < count; i++)
        DW_TRY(dw_store_insert(store, table, shape, row + i * shape->bytes,
                               NULL, err));
    return DW_OK;
}

dw_status dw_store_query(dw_store *store, const char *sql, const dw_arg *args,
                         size_t args_count, const dw_shape *shape,
                         dw_arena *arena, void *rows, size_t *count,
                         dw_err *err)
{
    sqlite3_stmt *statement;
    DW_TRY(dw_store__prepare(store, sql, shape->name, &statement, err));
    return query(store, statement, shape->name, args, args_count, shape, arena,
                 rows, count, err);
}

dw_status dw_store_run(dw_store *store, const char *sql, const dw_arg *args,
                       size_t args_count, dw_err *err)
{
    sqlite3_stmt *statement;
    DW_TRY(dw_store__prepare(store, sql, "database", &statement, err));
    DW_TRY(bind_args(store, statement, args, args_count, "database", err));
    return dw_store__finish(store, statement, "database", err);
}
