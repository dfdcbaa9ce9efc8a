/* The application: runs operations (op.h) against the store.
 *
 * One writer thread takes write jobs: a savepoint per job, one commit per group
 * of waiting jobs, answers only after the sync. Reader threads take read jobs,
 * each on its own connection; pure jobs run on them as well. The application
 * does not know JSON: a door hands it a codec.
 *
 * A job with a key is idempotent: the same device, key, operation and body are
 * answered with the first reply (`replayed`); another operation or body under
 * the same key is DW_E_CONFLICT with field "key". What was refused is not
 * remembered, nor is anything for longer than 60 days: what a tablet sends
 * again after that is written anew. DW_E_BUSY: the app is closing, too many
 * jobs wait, or another program holds the database.
 */
#ifndef DW_APP_H
#define DW_APP_H

#include "app/op.h"

typedef struct dw_app dw_app;

/* How a door turns text into requests and replies into text. */
typedef struct dw_codec {
    /* Unknown fields, wrong types, ranges: DW_OK or the error. The object is
     * preset, filled and checked; its lists live in the arena. */
    dw_status (*decode)(const dw_shape *shape, const char *text, size_t bytes,
                        dw_arena *arena, void *object, dw_err *err);
    dw_status (*encode)(const dw_shape *shape, const void *object,
                        dw_arena *arena, const char **text, size_t *bytes);
} dw_codec;

typedef struct dw_app_options {
    const char *path;        /* database file; NULL: pure operations only */
    int readers;             /* reader threads, 1..8 */
    size_t arena_bytes;      /* working memory of one job; 0: 32 MiB */
    const dw_codec *codec;   /* borrowed */
    int64_t (*now_ms)(void); /* UTC; NULL: dw_clock_now_ms */
    bool dry;                /* writes are rolled back: `--dry-run`, tests */
} dw_app_options;

/* The handle is yours: dw_app_free answers waiting jobs with DW_E_BUSY, waits
 * for the running ones, and closes the store. No other thread may use the app
 * or, having performed, come to its end meanwhile. */
dw_status dw_app_open(const dw_app_options *options, dw_app **app, dw_err *err);
void dw_app_free(dw_app *app);

/* One request on its way. Filled by the door; the app fills the outcome. */
typedef struct dw_job {
    const dw_op *op;
    const char *body; /* borrowed until done */
    size_t body_bytes;
    const char *device, *key; /* key "" or NULL: not idempotent */
    const char *lang;
    int64_t person_id, occurred_ms; /* 0: not told */
    const dw_codec *codec;          /* NULL: the app's; borrowed */

    dw_status status; /* outcome */
    dw_err err;
    const char *reply; /* encoded; valid inside done, or until the next
                          dw_app_perform of this thread */
    size_t reply_bytes;
    bool replayed; /* answered from the record of (device, key) */

    void (*done)(struct dw_job *job); /* on a worker thread, or at once */
    void *owner;
    int64_t received_ms; /* the app's own, as is next */
    struct dw_job *next;
} dw_job;

/* Thread-safe. Calls job->done once, after the commit is on disk; at once, on
 * this thread, when the job is turned away. */
void dw_app_submit(dw_app *app, dw_job *job);
/* Runs a light operation on a small body at once, on this thread; job->done is
 * called before it returns. False: it is not one, nothing was done, submit it.
 * One thread at a time: that of the network. */
bool dw_app_answer(dw_app *app, dw_job *job);
/* The same as dw_app_submit, waiting for the outcome; `done` is not used. */
dw_status dw_app_perform(dw_app *app, dw_job *job);

/* `changed` is called on the writer thread after each committed write, with the
 * operation's name; the server tells the tablets. It must be short and not call
 * the app. One watcher; NULL takes it away, and it is not called again. */
void dw_app_watch(dw_app *app, void (*changed)(void *owner, const char *op),
                  void *owner);

#endif
