/* The store: one database file per business.
 *
 * A dw_store is one connection and belongs to one thread at a time. All SQL of
 * the program lives in src/store; rows are mapped by shape (doughwright/
 * field.h): a column has the name of its field, and values are bound by name.
 * The members of a nested struct (DW_ONE) are columns of the noun's own row, so
 * a row can hold an engine's struct whole; lists (DW_MANY) live in tables of
 * their own. Absent optional members and texts that are not there are NULL;
 * so is an id ("id", "..._id") of 0, so that foreign keys hold. A choice is
 * kept as its word. A noun's shape begins with "id". Statements are prepared
 * once and kept.
 *
 * Failures of all functions: DW_E_CONFLICT when a constraint is broken (field:
 * the table), DW_E_BUSY when another program holds the file for five seconds,
 * DW_E_ROOM when the arena is full, DW_E_STORE for a full disk, a file that
 * cannot be written, is damaged or is not ours. Table, column and order texts
 * are the program's own, never a person's.
 */
#ifndef DW_STORE_H
#define DW_STORE_H

#include "doughwright/field.h"

typedef struct dw_store dw_store;

/* Open or create the file, migrate it to the newest schema (a backup copy is
 * taken before a migration of existing data). WAL, full sync, foreign keys.
 * The handle is yours: close it with dw_store_free. */
dw_status dw_store_open(const char *path, dw_store **store, dw_err *err);
/* One more connection to a file that is already open and migrated, for reads.
 */
dw_status dw_store_open_reader(const char *path, dw_store **store, dw_err *err);
void dw_store_free(dw_store *store);

/* Hold every stored noun, or one shape, against its table: a column of the same
 * name and type for each member, absent members NULL, no other column that must
 * be filled. DW_E_STORE with "table.column" as field. dw_store_open does it. */
dw_status dw_store_check(dw_store *store, dw_err *err);
dw_status dw_store_check_shape(dw_store *store, const char *table,
                               const dw_shape *shape, dw_err *err);

/* Transactions. A savepoint nests inside begin..commit. A commit that fails has
 * rolled back. A full disk may end the transaction by itself: from then on
 * every call fails until dw_store_rollback. */
dw_status dw_store_begin(dw_store *store, dw_err *err);
dw_status dw_store_commit(dw_store *store, dw_err *err);
void dw_store_rollback(dw_store *store);
bool dw_store_in_transaction(const dw_store *store);
dw_status dw_store_savepoint(dw_store *store, dw_err *err);
dw_status dw_store_release(dw_store *store, dw_err *err);
void dw_store_undo_savepoint(dw_store *store);

/* Add a row; a row id of 0 lets the store choose. *id is the new id (may be
 * NULL). A broken constraint is DW_E_CONFLICT with the table as field. */
dw_status dw_store_insert(dw_store *store, const char *table,
                          const dw_shape *shape, const void *row, int64_t *id,
                          dw_err *err);
/* Write every column of the row whose id is row->id. DW_E_NOT_FOUND. */
dw_status dw_store_update(dw_store *store, const char *table,
                          const dw_shape *shape, const void *row, dw_err *err);
/* One row by id into *row; its texts are copied into the arena. */
dw_status dw_store_get(dw_store *store, const char *table,
                       const dw_shape *shape, int64_t id, dw_arena *arena,
                       void *row, dw_err *err);
/* All rows whose `column` (a whole number column) equals value, ordered by
 * `order` (column names of the table, e.g. "position" or "made_ms DESC");
 * column NULL: all rows. *rows is an array of shape->bytes each, in the arena.
 */
dw_status dw_store_list(dw_store *store, const char *table,
                        const dw_shape *shape, const char *column,
                        int64_t value, const char *order, dw_arena *arena,
                        void *rows, size_t *count, dw_err *err);
dw_status dw_store_delete(dw_store *store, const char *table,
                          const char *column, int64_t value, dw_err *err);
/* Delete every row of a table. */
dw_status dw_store_clear(dw_store *store, const char *table, dw_err *err);
/* Replace the child rows of one parent: delete those whose `column` is
 * `parent`, insert the given ones (their parent member is already set). Inside
 * a transaction. */
dw_status dw_store_replace(dw_store *store, const char *table,
                           const dw_shape *shape, const char *column,
                           int64_t parent, const void *rows, size_t count,
                           dw_err *err);

/* A query of a src/store noun file: `sql` names its arguments $a, $b, $c...;
 * result columns are matched to the shape by name. For use inside src/store. */
typedef struct dw_arg {
    const char *name; /* "$a" */
    dw_kind kind;     /* DW_WHOLE, DW_REAL or DW_TEXT */
    int64_t whole;
    double real;
    const char *text;
} dw_arg;
dw_status dw_store_query(dw_store *store, const char *sql, const dw_arg *args,
                         size_t args_count, const dw_shape *shape,
                         dw_arena *arena, void *rows, size_t *count,
                         dw_err *err);
dw_status dw_store_run(dw_store *store, const char *sql, const dw_arg *args,
                       size_t args_count, dw_err *err);

/* The journal: append-only, each row hashed (SHA-256) over the one before. The
 * chain covers the body by its hash, so a body that tells about a person can be
 * erased (set to NULL, the only change the table allows) and it still holds.
 * What is hashed: the previous hash ("" at first) and a newline; id,
 * received_ms, occurred_ms, person_id, each with a newline; device and op, each
 * as its length in bytes, a colon, the text and a newline; body_hash and a
 * newline. */
typedef struct dw_journal_row {
    int64_t id;
    int64_t received_ms, occurred_ms;
    int64_t person_id;
    const char *device;
    const char *op;
    const char *body;             /* the request as it came; NULL once erased */
    const char *body_hash, *hash; /* hex; written by dw_journal_append */
} dw_journal_row;
extern const dw_shape dw_journal_row_shape;
dw_status dw_journal_append(dw_store *store, const dw_journal_row *row,
                            dw_err *err);
/* Where the chain stands. Written down outside the file (on paper, in a
 * message), rows and hash also show a file that was exchanged as a whole. */
typedef struct dw_journal_head {
    int64_t rows;
    int64_t received_ms; /* of the last; 0 when there is none */
    char hash[65];       /* of the last, "" when there is none */
} dw_journal_head;
/* DW_OK, or DW_E_CONFLICT with the first row that does not fit as value. The
 * arena needs room for the largest row. */
dw_status dw_journal_verify(dw_store *store, dw_arena *arena, dw_err *err,
                            dw_journal_head *head);
/* The database's own check of its pages, keys and indexes: DW_E_STORE with what
 * it found as value. */
dw_status dw_store_check_file(dw_store *store, dw_err *err);

/* Idempotency: what was answered to (device, key), and when the request came.
 */
typedef struct dw_answer {
    const char *device, *key, *body_hash, *reply;
    int64_t received_ms;
} dw_answer;
/* What body_hash holds: SHA-256 in hex over op, a newline and body. */
void dw_answer_hash(const char *op, const char *body, char hash[65]);
/* *found false when the key is new. */
dw_status dw_answer_find(dw_store *store, const char *device, const char *key,
                         dw_arena *arena, dw_answer *answer, bool *found,
                         dw_err *err);
dw_status dw_answer_keep(dw_store *store, const dw_answer *answer, dw_err *err);
/* Forget what was answered before that moment. */
dw_status dw_answer_forget(dw_store *store, int64_t before_ms, dw_err *err);

#endif
