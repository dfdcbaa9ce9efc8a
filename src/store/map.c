#include "doughwright/say.h"
#include "store/internal.h"

#include <string.h>

static const void *at(const void *object, size_t offset)
{
    return (const unsigned char *)object + offset;
}

static void *at_mut(void *object, size_t offset)
{
    return (unsigned char *)object + offset;
}

static bool is_column(const dw_field *field)
{
    switch (field->kind) {
    case DW_REAL:
    case DW_WHOLE:
    case DW_YES:
    case DW_TEXT:
    case DW_CHOICE: return true;
    case DW_REALS:
    case DW_WHOLES:
    case DW_ONE:
    case DW_MANY: return false;
    }
    DW_ASSERT(false);
    return false;
}

static void add_places(const dw_shape *shape, size_t base,
                       dw_store__places *places)
{
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        if (field->kind == DW_ONE && field->has == DW_NOWHERE) {
            add_places(field->shape, base + field->offset, places);
        } else if (is_column(field)) {
            DW_ASSERT(places->count < DW_STORE__COLUMNS_MOST);
            places->at[places->count++] = (dw_store__place){field, base};
        }
    }
}

void dw_store__places_of(const dw_shape *shape, dw_store__places *places)
{
    places->count = 0;
    add_places(shape, 0, places);
}

const dw_store__place *dw_store__place_find(const dw_store__places *places,
                                            const char *name)
{
    for (size_t i = 0; i < places->count; i++)
        if (strcmp(places->at[i].field->name, name) == 0)
            return &places->at[i];
    return NULL;
}

/* "id" and "..._id": 0 means none and is NULL, so that foreign keys hold. */
static bool names_an_id(const char *name)
{
    size_t n = strlen(name);
    return strcmp(name, "id") == 0 ||
           (n > 3 && strcmp(name + n - 3, "_id") == 0);
}

static int bind_text(sqlite3_stmt *statement, int index, const char *text)
{
    /* NULL binds NULL. The row outlives the statement's run. */
    return sqlite3_bind_text(statement, index, text, -1, SQLITE_STATIC);
}

static int bind_whole(sqlite3_stmt *statement, int index, const char *name,
                      int64_t value)
{
    if (value == 0 && names_an_id(name))
        return sqlite3_bind_null(statement, index);
    return sqlite3_bind_int64(statement, index, value);
}

static int bind_member(sqlite3_stmt *statement, int index,
                       const dw_field *field, const void *row)
{
    const void *member = at(row, field->offset);
    if (!dw_field_has(field, row))
        return sqlite3_bind_null(statement, index);
    switch (field->kind) {
    case DW_REAL:
        return sqlite3_bind_double(statement, index, *(const double *)member);
    case DW_WHOLE:
        return bind_whole(statement, index, field->name,
                          *(const int64_t *)member);
    case DW_YES:
        return sqlite3_bind_int(statement, index, *(const bool *)member);
    case DW_TEXT:
        return bind_text(statement, index, *(const char *const *)member);
    case DW_CHOICE:
        return bind_text(statement, index, field->words[*(const int *)member]);
    case DW_REALS:
    case DW_WHOLES:
    case DW_ONE:
    case DW_MANY: break;
    }
    DW_ASSERT(false);
    return SQLITE_MISUSE;
}

dw_status dw_store__bind(dw_store *store, sqlite3_stmt *statement,
                         const dw_shape *shape, const void *row,
                         const char *what, dw_err *err)
{
    dw_store__places places;
    dw_store__places_of(shape, &places);
    int count = sqlite3_bind_parameter_count(statement);
    for (int i = 1; i <= count; i++) {
        const char *name = sqlite3_bind_parameter_name(statement, i);
        const dw_store__place *place = dw_store__place_find(&places, name + 1);
        DW_ASSERT(place);
        if (bind_member(statement, i, place->field, at(row, place->base)) !=
            SQLITE_OK) {
            dw_status status = dw_store__fail(store, what, err);
            dw_store__done(statement);
            return status;
        }
    }
    return DW_OK;
}

dw_status dw_store__match(sqlite3_stmt *statement, const dw_shape *shape,
                          const char *what, dw_store__places *columns,
                          dw_err *err)
{
    dw_store__places places;
    dw_store__places_of(shape, &places);
    int count = sqlite3_column_count(statement);
    DW_ASSERT(count <= DW_STORE__COLUMNS_MOST);
    columns->count = 0;
    for (int i = 0; i < count; i++) {
        const char *name = sqlite3_column_name(statement, i);
        const dw_store__place *place = dw_store__place_find(&places, name);
        if (!place)
            return dw_fail_says(
                err, DW_E_STORE, what, name,
                DW_MSG("has a column that the program does not know"));
        columns->at[columns->count++] = *place;
    }
    for (size_t i = 0; i < places.count; i++)
        if (!dw_store__place_find(columns, places.at[i].field->name))
            return dw_fail_says(err, DW_E_STORE, what, places.at[i].field->name,
                                DW_MSG("has no column of that name"));
    return DW_OK;
}

static dw_status read_text(sqlite3_stmt *statement, int column,
                           const char *name, dw_arena *arena, const char **text,
                           dw_err *err)
{
    const unsigned char *found = sqlite3_column_text(statement, column);
    size_t bytes = (size_t)sqlite3_column_bytes(statement, column);
    char *copy = dw_arena_take(arena, bytes + 1);
    if (!copy || !found)
        return dw_fail(err, DW_E_ROOM, name, NULL);
    memcpy(copy, found, bytes);
    *text = copy;
    return DW_OK;
}

static dw_status read_choice(sqlite3_stmt *statement, int column,
                             const dw_field *field, int *index, dw_err *err)
{
    const char *word = (const char *)sqlite3_column_text(statement, column);
    int found = word ? dw_words_find(field->words, word) : -1;
    if (found < 0)
        return dw_fail_says(
            err, DW_E_STORE, field->name, word,
            DW_MSG("holds a word that this version does not know"));
    *index = found;
    return DW_OK;
}

static dw_status read_member(sqlite3_stmt *statement, int column,
                             const dw_field *field, dw_arena *arena, void *row,
                             dw_err *err)
{
    void *member = at_mut(row, field->offset);
    bool absent = sqlite3_column_type(statement, column) == SQLITE_NULL;
    if (field->has != DW_NOWHERE)
        *(bool *)at_mut(row, field->has) = !absent;
    if (absent)
        return DW_OK; /* the member keeps its preset: 0, NULL */
    switch (field->kind) {
    case DW_REAL:
        *(double *)member = sqlite3_column_double(statement, column);
        return DW_OK;
    case DW_WHOLE:
        *(int64_t *)member = sqlite3_column_int64(statement, column);
        return DW_OK;
    case DW_YES:
        *(bool *)member = sqlite3_column_int64(statement, column) != 0;
        return DW_OK;
    case DW_TEXT:
        return read_text(statement, column, field->name, arena,
                         (const char **)member, err);
    case DW_CHOICE:
        return read_choice(statement, column, field, (int *)member, err);
    case DW_REALS:
    case DW_WHOLES:
    case DW_ONE:
    case DW_MANY: break;
    }
    DW_ASSERT(false);
    return DW_E_TYPE;
}

dw_status dw_store__read(sqlite3_stmt *statement,
                         const dw_store__places *columns, const dw_shape *shape,
                         dw_arena *arena, void *row, dw_err *err)
{
    dw_shape_preset(shape, row);
    for (size_t i = 0; i < columns->count; i++)
        DW_TRY(read_member(statement, (int)i, columns->at[i].field, arena,
                           at_mut(row, columns->at[i].base), err));
    return DW_OK;
}
