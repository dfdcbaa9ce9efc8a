#include "notes.h"

#include "dw_test.h"

#include <pthread.h>
#include <stdlib.h>

typedef struct note {
    int64_t id;
    const char *text;
} note;
static const dw_field note_fields[] = {
    DW_F_ID(note, id, "its number"),
    DW_F_TEXT(note, text, 1e7, "what it says"),
};
static const dw_shape note_shape =
    DW_SHAPE("note", note, note_fields, "a note");

typedef struct amount {
    int64_t bytes;
} amount;
static const dw_field amount_fields[] = {
    DW_F_WHOLE(amount, bytes, "", 0, 1e9, "how many")};
static const dw_shape amount_shape =
    DW_SHAPE("amount", amount, amount_fields, "an amount");

typedef struct tally {
    int64_t count;
} tally;
static const dw_field tally_fields[] = {
    DW_F_WHOLE(tally, count, "", 0, 1e15, "how many")};
static const dw_shape tally_shape =
    DW_SHAPE("tally", tally, tally_fields, "a count");

static dw_status decode_line(const dw_shape *shape, const char *line,
                             size_t bytes, dw_arena *arena, void *object,
                             dw_err *err)
{
    char *copy = dw_arena_take(arena, bytes + 1);
    if (!copy)
        return dw_fail(err, DW_E_ROOM, "", NULL);
    memcpy(copy, line, bytes);
    char *equals = strchr(copy, '=');
    if (!equals)
        return dw_fail(err, DW_E_SYNTAX, "", copy);
    *equals = '\0';
    const dw_field *field = dw_shape_find(shape, copy);
    if (!field)
        return dw_fail(err, DW_E_UNKNOWN_FIELD, copy, NULL);
    char *member = (char *)object + field->offset;
    if (field->kind == DW_WHOLE)
        *(int64_t *)member = strtoll(equals + 1, NULL, 10);
    else
        *(const char **)member = equals + 1;
    return DW_OK;
}

static dw_status decode(const dw_shape *shape, const char *text, size_t bytes,
                        dw_arena *arena, void *object, dw_err *err)
{
    dw_shape_preset(shape, object);
    for (const char *at = text; at < text + bytes;) {
        const char *end = memchr(at, '\n', (size_t)(text + bytes - at));
        size_t length = (size_t)((end ? end : text + bytes) - at);
        DW_TRY(decode_line(shape, at, length, arena, object, err));
        at += length + 1;
    }
    return dw_shape_check(shape, object, err);
}

static dw_status encode(const dw_shape *shape, const void *object,
                        dw_arena *arena, const char **text, size_t *bytes)
{
    enum { ROOM = 4096 };
    char *out = dw_arena_take(arena, ROOM);
    size_t used = 0;
    for (size_t i = 0; out && i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        const char *member = (const char *)object + field->offset;
        if (field->kind == DW_WHOLE)
            used += (size_t)snprintf(out + used, ROOM - used, "%s=%lld\n",
                                     field->name,
                                     (long long)*(const int64_t *)member);
        else
            used += (size_t)snprintf(out + used, ROOM - used, "%s=%.900s\n",
                                     field->name, *(const char *const *)member);
    }
    if (!out || used >= ROOM)
        return DW_E_ROOM;
    *text = out;
    *bytes = used;
    return DW_OK;
}

const dw_codec notes_codec = {decode, encode};

static dw_status run_add(dw_call *call, const void *request, void *reply)
{
    note *out = reply;
    *out = *(const note *)request;
    return dw_store_insert(call->store, "note", &note_shape, out, &out->id,
                           call->err);
}

static dw_status run_refuse(dw_call *call, const void *request, void *reply)
{
    DW_TRY(run_add(call, request, reply));
    return dw_fail(call->err, DW_E_USED, "text", NULL);
}

static dw_status run_fill(dw_call *call, const void *request, void *reply)
{
    size_t bytes = (size_t)((const amount *)request)->bytes;
    char *text = dw_arena_take(call->arena, bytes + 1);
    if (!text)
        return dw_fail(call->err, DW_E_ROOM, "bytes", NULL);
    memset(text, 'x', bytes);
    note big = {0, text};
    return dw_store_insert(call->store, "note", &note_shape, &big, NULL,
                           call->err);
}

static dw_status run_limit(dw_call *call, const void *request, void *reply)
{
    static const char sql[] =
        "SELECT page_count AS count FROM pragma_page_count";
    tally *pages;
    size_t n;
    DW_TRY(dw_store_query(call->store, sql, NULL, 0, &tally_shape, call->arena,
                          &pages, &n, call->err));
    char limit[64];
    snprintf(
        limit, sizeof limit, "PRAGMA max_page_count = %lld",
        (long long)(pages->count + ((const amount *)request)->bytes / 4096));
    return dw_store_run(call->store, limit, NULL, 0, call->err);
}

static dw_status run_count(dw_call *call, const void *request, void *reply)
{
    tally *rows;
    size_t n;
    DW_TRY(dw_store_query(call->store, "SELECT count(*) AS count FROM note",
                          NULL, 0, &tally_shape, call->arena, &rows, &n,
                          call->err));
    *(tally *)reply = rows[0];
    return DW_OK;
}

static dw_status run_echo(dw_call *call, const void *request, void *reply)
{
    *(note *)reply = *(const note *)request;
    return call->store ? dw_fail(call->err, DW_E_STORE, "", NULL) : DW_OK;
}

static pthread_mutex_t hold_lock = PTHREAD_MUTEX_INITIALIZER;
static pthread_cond_t hold_changed = PTHREAD_COND_INITIALIZER;
enum { FREE, HELD, LET_GO };
static int hold = FREE;

static void hold_step(int from, int to)
{
    pthread_mutex_lock(&hold_lock);
    while (hold != from)
        pthread_cond_wait(&hold_changed, &hold_lock);
    hold = to;
    pthread_cond_broadcast(&hold_changed);
    pthread_mutex_unlock(&hold_lock);
}

static dw_status run_hold(dw_call *call, const void *request, void *reply)
{
    hold_step(FREE, HELD);
    hold_step(LET_GO, FREE);
    return DW_OK;
}

void notes_await_hold(void)
{
    hold_step(HELD, HELD);
}

void notes_let_go(void)
{
    hold_step(HELD, LET_GO);
}

const dw_op notes_add = {"note.add",  DW_OP_WRITE, &note_shape,
                         &note_shape, run_add,     "adds"};
const dw_op notes_refuse = {"note.refuse", DW_OP_WRITE, &note_shape,
                            &note_shape,   run_refuse,  "refuses"};
const dw_op notes_fill = {"note.fill",       DW_OP_WRITE, &amount_shape,
                          &dw_nothing_shape, run_fill,    "fills"};
const dw_op notes_limit = {"note.limit",      DW_OP_WRITE, &amount_shape,
                           &dw_nothing_shape, run_limit,   "limits"};
const dw_op notes_hold = {"note.hold",       DW_OP_WRITE, &dw_nothing_shape,
                          &dw_nothing_shape, run_hold,    "waits"};
const dw_op notes_count = {"note.count", DW_OP_READ, &dw_nothing_shape,
                           &tally_shape, run_count,  "counts"};
const dw_op notes_echo = {"note.echo", DW_OP_PURE, &note_shape,
                          &note_shape, run_echo,   "says it again"};

void notes_make(notes *n)
{
    dw_temp_make(&n->temp);
    n->app = NULL;
    snprintf(n->path, sizeof n->path, "%s", dw_temp_path(&n->temp, "a.db"));
    dw_store *store;
    NEED(dw_store_open(n->path, &store, NULL) == DW_OK);
    CHECK(dw_store_run(store,
                       "CREATE TABLE note (id INTEGER PRIMARY KEY,"
                       " text TEXT NOT NULL) STRICT",
                       NULL, 0, NULL) == DW_OK);
    dw_store_free(store);
}

dw_app *notes_open(const char *path)
{
    const dw_app_options options = {
        .path = path, .readers = 2, .codec = &notes_codec};
    dw_app *app = NULL;
    return dw_app_open(&options, &app, NULL) == DW_OK ? app : NULL;
}

void notes_start(notes *n)
{
    notes_make(n);
    n->app = notes_open(n->path);
    CHECK(n->app);
}

void notes_stop(notes *n)
{
    dw_app_free(n->app);
    dw_temp_remove(&n->temp);
}

dw_job notes_perform_keyed(dw_app *app, const dw_op *op, const char *body,
                           const char *device, const char *key)
{
    dw_job job = {.op = op,
                  .body = body,
                  .body_bytes = strlen(body),
                  .device = device,
                  .key = key};
    dw_app_perform(app, &job);
    return job;
}

dw_job notes_perform(dw_app *app, const dw_op *op, const char *body)
{
    return notes_perform_keyed(app, op, body, NULL, NULL);
}

int64_t notes_number(const char *path, const char *sql)
{
    unsigned char block[4096];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    dw_store *store;
    if (dw_store_open_reader(path, &store, NULL) != DW_OK)
        return -1;
    tally *rows;
    size_t n = 0;
    dw_status status = dw_store_query(store, sql, NULL, 0, &tally_shape, &arena,
                                      &rows, &n, NULL);
    int64_t count = status == DW_OK && n == 1 ? rows[0].count : -1;
    dw_store_free(store);
    return count;
}

bool notes_journal_holds(const char *path)
{
    static unsigned char block[1 << 20];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    dw_store *store;
    if (dw_store_open_reader(path, &store, NULL) != DW_OK)
        return false;
    dw_journal_head head;
    dw_status status = dw_journal_verify(store, &arena, NULL, &head);
    dw_store_free(store);
    return status == DW_OK;
}
