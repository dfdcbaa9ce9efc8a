#include "doughwright/say.h"
#include "store/internal.h"

#include <sodium.h>
#include <stdio.h>
#include <string.h>

enum { HEX = 2 * crypto_hash_sha256_BYTES + 1 };

static const dw_field journal_fields[] = {
    DW_F_ID(dw_journal_row, id, "its place, from 1 without gaps"),
    DW_F_MOMENT(dw_journal_row, received_ms, "when it reached the program"),
    DW_F_MOMENT(dw_journal_row, occurred_ms, "when it happened"),
    DW_F_ID(dw_journal_row, person_id, "who did it"),
    DW_F_TEXT_OPT(dw_journal_row, device, 200, "where it was entered"),
    DW_F_TEXT(dw_journal_row, op, 80, "the operation"),
    DW_F_TEXT_OPT(dw_journal_row, body, 8388608, "the request as it came"),
    DW_F_TEXT(dw_journal_row, body_hash, 64, "SHA-256 of the request"),
    DW_F_TEXT(dw_journal_row, hash, 64, "SHA-256 over the row before and this"),
};
const dw_shape dw_journal_row_shape =
    DW_SHAPE("journal_row", dw_journal_row, journal_fields,
             "One thing somebody did, as it came in.");

static void finish_hex(crypto_hash_sha256_state *state, char hex[HEX])
{
    unsigned char digest[crypto_hash_sha256_BYTES];
    crypto_hash_sha256_final(state, digest);
    sodium_bin2hex(hex, HEX, digest, sizeof digest);
}

static void add(crypto_hash_sha256_state *state, const char *text)
{
    crypto_hash_sha256_update(state, (const unsigned char *)text, strlen(text));
}

static void hash_body(const char *body, char hex[HEX])
{
    crypto_hash_sha256_state state;
    crypto_hash_sha256_init(&state);
    add(&state, body);
    finish_hex(&state, hex);
}

/* Texts carry their length, so that no two rows spell the same bytes. */
static void add_text(crypto_hash_sha256_state *state, const char *text)
{
    char length[32];
    snprintf(length, sizeof length, "%zu:", strlen(text));
    add(state, length);
    add(state, text);
    add(state, "\n");
}

static void hash_row(const char *previous, const dw_journal_row *row,
                     char hex[HEX])
{
    char numbers[4 * 24];
    snprintf(numbers, sizeof numbers, "\n%lld\n%lld\n%lld\n%lld\n",
             (long long)row->id, (long long)row->received_ms,
             (long long)row->occurred_ms, (long long)row->person_id);
    crypto_hash_sha256_state state;
    crypto_hash_sha256_init(&state);
    add(&state, previous);
    add(&state, numbers);
    add_text(&state, row->device);
    add_text(&state, row->op);
    add(&state, row->body_hash);
    add(&state, "\n");
    finish_hex(&state, hex);
}

void dw_answer_hash(const char *op, const char *body, char hash[65])
{
    crypto_hash_sha256_state state;
    crypto_hash_sha256_init(&state);
    add(&state, op);
    add(&state, "\n");
    add(&state, body);
    finish_hex(&state, hash);
}

/* Where the chain stands: number and hash of its last row; 0 and "" at first.
 */
static dw_status read_last(dw_store *store, int64_t *id, char hash[HEX],
                           dw_err *err)
{
    sqlite3_stmt *statement;
    DW_TRY(dw_store__prepare(store,
                             "SELECT id, hash FROM journal"
                             " ORDER BY id DESC LIMIT 1",
                             "journal", &statement, err));
    *id = 0;
    hash[0] = '\0';
    int code = sqlite3_step(statement);
    dw_status status = DW_OK;
    if (code == SQLITE_ROW) {
        *id = sqlite3_column_int64(statement, 0);
        snprintf(hash, HEX, "%s",
                 (const char *)sqlite3_column_text(statement, 1));
    } else if (code != SQLITE_DONE) {
        status = dw_store__fail(store, "journal", err);
    }
    dw_store__done(statement);
    return status;
}

dw_status dw_journal_append(dw_store *store, const dw_journal_row *row,
                            dw_err *err)
{
    char previous[HEX], body_hash[HEX], hash[HEX];
    dw_journal_row whole = *row;
    DW_ASSERT(row->op && row->body);
    DW_TRY(read_last(store, &whole.id, previous, err));
    whole.id++;
    if (!whole.device)
        whole.device = "";
    hash_body(whole.body, body_hash);
    whole.body_hash = body_hash;
    hash_row(previous, &whole, hash);
    whole.hash = hash;
    return dw_store_insert(store, "journal", &dw_journal_row_shape, &whole,
                           NULL, err);
}

static bool fits(const dw_journal_row *row, int64_t id, const char *previous)
{
    char hash[HEX];
    if (row->id != id)
        return false;
    if (row->body) {
        hash_body(row->body, hash);
        if (strcmp(hash, row->body_hash) != 0)
            return false;
    }
    hash_row(previous, row, hash);
    return strcmp(hash, row->hash) == 0;
}

static dw_status does_not_fit(int64_t id, dw_err *err)
{
    char text[32];
    snprintf(text, sizeof text, "%lld", (long long)id);
    return dw_fail_says(
        err, DW_E_CONFLICT, "journal", text,
        DW_MSG("was changed outside this program, from this row on"));
}

/* Row by row, in the memory of one row. *head is the last that fits. */
static dw_status walk(dw_store *store, sqlite3_stmt *statement, dw_arena *arena,
                      dw_err *err, dw_journal_head *head)
{
    dw_store__places columns;
    DW_TRY(dw_store__match(statement, &dw_journal_row_shape, "journal",
                           &columns, err));
    dw_journal_head at = {.rows = 0};
    size_t mark = arena->used;
    int code;
    while ((code = sqlite3_step(statement)) == SQLITE_ROW) {
        dw_journal_row row;
        arena->used = mark;
        DW_TRY(dw_store__read(statement, &columns, &dw_journal_row_shape, arena,
                              &row, err));
        if (!fits(&row, ++at.rows, at.hash))
            return does_not_fit(at.rows, err);
        memcpy(at.hash, row.hash, HEX);
        at.received_ms = row.received_ms;
    }
    if (code != SQLITE_DONE)
        return dw_store__fail(store, "journal", err);
    *head = at;
    return DW_OK;
}

/* The last number the database ever gave a row of the journal. */
static dw_status read_given(dw_store *store, int64_t *given, dw_err *err)
{
    sqlite3_stmt *statement;
    DW_TRY(dw_store__prepare(store,
                             "SELECT ifnull(max(seq), 0) FROM sqlite_sequence"
                             " WHERE name = 'journal'",
                             "journal", &statement, err));
    dw_status status = DW_OK;
    if (sqlite3_step(statement) == SQLITE_ROW)
        *given = sqlite3_column_int64(statement, 0);
    else
        status = dw_store__fail(store, "journal", err);
    dw_store__done(statement);
    return status;
}

dw_status dw_journal_verify(dw_store *store, dw_arena *arena, dw_err *err,
                            dw_journal_head *head)
{
    static const char sql[] =
        "SELECT id, received_ms, occurred_ms, person_id, device, op, body,"
        " body_hash, hash FROM journal ORDER BY id";
    sqlite3_stmt *statement;
    DW_TRY(dw_store__prepare(store, sql, "journal", &statement, err));
    size_t mark = arena->used;
    int64_t given = 0;
    dw_journal_head at = {.rows = 0};
    /* Read first: rows that are appended meanwhile must not look cut. */
    DW_TRY(read_given(store, &given, err));
    dw_status status = walk(store, statement, arena, err, &at);
    arena->used = mark;
    dw_store__done(statement);
    DW_TRY(status);
    if (at.rows < given)
        return does_not_fit(at.rows + 1, err);
    *head = at;
    return DW_OK;
}
