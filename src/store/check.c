#include "doughwright/say.h"
#include "store/internal.h"

#include <stdio.h>
#include <string.h>

/* A column as the database tells it. */
typedef struct column {
    const char *name, *type;
    bool filled;  /* NOT NULL */
    bool given;   /* has a default of its own */
    int64_t rank; /* in the primary key, 0 when not */
} column;

static const dw_field column_fields[] = {
    DW_F_TEXT(column, name, 200, "its name"),
    DW_F_TEXT(column, type, 20, "INTEGER, REAL or TEXT"),
    DW_F_YES(column, filled, false, "may it not be NULL"),
    DW_F_YES(column, given, false, "has it a default"),
    DW_F_WHOLE_PRESET(column, rank, "", 0, 100, 0, "place in the key"),
};
static const dw_shape column_shape =
    DW_SHAPE("column", column, column_fields, "a column of a table");

static const char *type_of(dw_kind kind)
{
    if (kind == DW_REAL)
        return "REAL";
    return kind == DW_WHOLE || kind == DW_YES ? "INTEGER" : "TEXT";
}

static dw_status complain(const char *table, const char *name,
                          const char *sentence, dw_err *err)
{
    char field[96];
    snprintf(field, sizeof field, "%.40s.%.50s", table, name);
    return dw_fail_says(err, DW_E_STORE, field, NULL, sentence);
}

static dw_status check_member(const char *table, const dw_field *field,
                              const column *columns, size_t count, dw_err *err)
{
    const column *found = NULL;
    for (size_t i = 0; i < count && !found; i++)
        if (strcmp(columns[i].name, field->name) == 0)
            found = &columns[i];
    if (!found)
        return complain(table, field->name,
                        DW_MSG("has no column of that name"), err);
    if (strcmp(found->type, type_of(field->kind)) != 0)
        return complain(table, field->name,
                        DW_MSG("is a column of another type"), err);
    if (found->filled && field->has != DW_NOWHERE)
        return complain(table, field->name,
                        DW_MSG("may be absent, but its column may not"), err);
    return DW_OK;
}

dw_status dw_store_check_shape(dw_store *store, const char *table,
                               const dw_shape *shape, dw_err *err)
{
    static const char sql[] = "SELECT name, type, \"notnull\" AS filled,"
                              " dflt_value IS NOT NULL AS given, pk AS rank"
                              " FROM pragma_table_info($a)";
    unsigned char block[32 * 1024];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    dw_arg arg = {.name = "$a", .kind = DW_TEXT, .text = table};
    column *columns;
    size_t count;
    DW_TRY(dw_store_query(store, sql, &arg, 1, &column_shape, &arena, &columns,
                          &count, err));
    if (count == 0)
        return dw_fail_says(err, DW_E_STORE, table, NULL,
                            DW_MSG("has no table"));
    dw_store__places places;
    dw_store__places_of(shape, &places);
    for (size_t i = 0; i < places.count; i++)
        DW_TRY(check_member(table, places.at[i].field, columns, count, err));
    for (size_t i = 0; i < count; i++)
        if (columns[i].filled && !columns[i].given &&
            !dw_store__place_find(&places, columns[i].name))
            return complain(
                table, columns[i].name,
                DW_MSG("must be filled, but the program does not know it"),
                err);
    return DW_OK;
}

dw_status dw_store_check(dw_store *store, dw_err *err)
{
    for (size_t i = 0; i < dw_store__nouns_count; i++)
        DW_TRY(dw_store_check_shape(store, dw_store__nouns[i].table,
                                    dw_store__nouns[i].shape, err));
    return DW_OK;
}

typedef struct finding {
    const char *found;
} finding;

static const dw_field finding_fields[] = {
    DW_F_TEXT(finding, found, 1000, "ok, or what is wrong"),
};
static const dw_shape finding_shape =
    DW_SHAPE("finding", finding, finding_fields, "of the database's own check");

static dw_status look(dw_store *store, const char *sql, dw_err *err)
{
    unsigned char block[8 * 1024];
    dw_arena arena;
    finding *findings;
    size_t count;
    dw_arena_init(&arena, block, sizeof block);
    DW_TRY(dw_store_query(store, sql, NULL, 0, &finding_shape, &arena,
                          &findings, &count, err));
    if (count == 0 || strcmp(findings[0].found, "ok") == 0)
        return DW_OK;
    return dw_fail_says(err, DW_E_STORE, "database", findings[0].found,
                        DW_MSG("is damaged; keep the file, restore the last "
                               "copy"));
}

dw_status dw_store_check_file(dw_store *store, dw_err *err)
{
    DW_TRY(look(store,
                "SELECT integrity_check AS found"
                " FROM pragma_integrity_check(1)",
                err));
    return look(store,
                "SELECT \"table\" AS found FROM pragma_foreign_key_check"
                " LIMIT 1",
                err);
}
