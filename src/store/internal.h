/* Shared between the files of src/store only. */
#ifndef DW_STORE_INTERNAL_H
#define DW_STORE_INTERNAL_H

#include "store/store.h"

#include <sqlite3.h>

enum { DW_STORE__BUCKETS = 128, DW_STORE__COLUMNS_MOST = 128 };

typedef struct dw_store__kept {
    sqlite3_stmt *statement;
    struct dw_store__kept *next;
} dw_store__kept;

struct dw_store {
    sqlite3 *db;
    bool writes; /* false: a reader, which SQLite holds to reading */
    bool begun;  /* between begin and commit or rollback, as we see it */
    dw_store__kept *kept[DW_STORE__BUCKETS]; /* statements by their text */
};

/* Turn the connection's last failure into a status and a clear sentence; `what`
 * is the table, or "database". */
dw_status dw_store__fail(dw_store *store, const char *what, dw_err *err);

/* The kept statement of that text, ready to bind. Borrowed; give it back with
 * dw_store__done. Fails when a transaction that was begun is no longer there
 * (SQLite rolls back by itself when the disk is full), so that nothing after
 * it is committed by accident. */
dw_status dw_store__prepare(dw_store *store, const char *sql, const char *what,
                            sqlite3_stmt **statement, dw_err *err);
void dw_store__done(sqlite3_stmt *statement);
/* Step to the end, then give it back. */
dw_status dw_store__finish(dw_store *store, sqlite3_stmt *statement,
                           const char *what, dw_err *err);
void dw_store__forget_statements(dw_store *store);

/* Mapping by shape. A place is a member that has a column; the members of
 * nested structs (DW_ONE that cannot be absent) count as the noun's own. */
typedef struct dw_store__place {
    const dw_field *field;
    size_t base; /* where the struct that holds the member begins */
} dw_store__place;
typedef struct dw_store__places {
    size_t count;
    dw_store__place at[DW_STORE__COLUMNS_MOST];
} dw_store__places;
void dw_store__places_of(const dw_shape *shape, dw_store__places *places);
/* The place of that name, or NULL. */
const dw_store__place *dw_store__place_find(const dw_store__places *places,
                                            const char *name);
/* Bind every $name of the statement from the member of that name. */
dw_status dw_store__bind(dw_store *store, sqlite3_stmt *statement,
                         const dw_shape *shape, const void *row,
                         const char *what, dw_err *err);
/* Which member each result column fills, in the order of the columns; every
 * member with a place must have one. */
dw_status dw_store__match(sqlite3_stmt *statement, const dw_shape *shape,
                          const char *what, dw_store__places *columns,
                          dw_err *err);
/* The current result row into *row, texts copied into the arena. */
dw_status dw_store__read(sqlite3_stmt *statement,
                         const dw_store__places *columns, const dw_shape *shape,
                         dw_arena *arena, void *row, dw_err *err);

/* Add the lots that the text of bags of minors names, with their weight: of the
 * diluent, or of what the formula takes of that material. */
#define DW_STORE__MINORS_PARTS                                                 \
    "INSERT INTO minors_part (minors_lot_id, lot_id, kg)"                      \
    " SELECT b.id, l.id, b.made * CASE WHEN f.kind = 'flour' THEN"             \
    " b.diluent_kg ELSE b.flour_kg * f.percent / 100 END"                      \
    " / count(*) OVER (PARTITION BY b.id, f.id)"                               \
    " FROM minors_lot b JOIN formula_line f ON f.version_id = b.version_id"    \
    " AND f.stage_position = 0 JOIN material m ON m.name = f.material"         \
    " JOIN material_lot l ON l.material_id = m.id"                             \
    " WHERE instr(' ' || replace(replace(b.lots, ',', ' '), ';', ' ') || ' '," \
    " ' ' || l.code || ' ') > 0"

/* Migration n is element n - 1: a NULL-terminated list of statements. */
typedef const char *const *dw_store__migration;
extern const char *const dw_store__schema_shop[];
extern const char *const dw_store__schema_batch[];
extern const char *const dw_store__schema_taught[];
extern const char *const dw_store__schema_service[];
extern const char *const dw_store__schema_close[];
extern const char *const dw_store__schema_demand[];
extern const char *const dw_store__schema_answer[];
extern const char *const dw_store__schema_calendar[];
extern const char *const dw_store__schema_trace[];
extern const char *const dw_store__schema_check[];
extern const dw_store__migration dw_store__migrations[];
extern const size_t dw_store__migrations_count;
/* dw_store_open with another list of migrations, for tests of migrating; the
 * tables are not held against the nouns. */
dw_status dw_store__open_with(const char *path,
                              const dw_store__migration *migrations,
                              size_t count, dw_store **store, dw_err *err);
/* Bring the schema to the newest of the list; a backup copy first. */
dw_status dw_store__migrate(dw_store *store, const char *path,
                            const dw_store__migration *migrations, size_t count,
                            dw_err *err);

/* Every stored noun: its table and its shape. */
typedef struct dw_store__noun {
    const char *table;
    const dw_shape *shape;
} dw_store__noun;
extern const dw_store__noun dw_store__nouns[];
extern const size_t dw_store__nouns_count;

extern const dw_shape dw_store__answer_shape;

#endif
