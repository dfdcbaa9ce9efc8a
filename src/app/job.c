/* Running jobs: what happens to one on its worker thread. */
#include "app/internal.h"

#include "app/stacks.h"
#include "doughwright/say.h"
#include "os/memory.h"
#include "solve/solve.h"

#include <stdlib.h>
#include <string.h>

#define DAY_MS 86400000LL
#define ANSWERS_KEPT_MS (60 * DAY_MS)

static const char *or_empty(const char *text)
{
    return text ? text : "";
}

static bool is_keyed(const dw_job *job)
{
    return job->key && *job->key;
}

static int64_t occurred_ms(const dw_job *job)
{
    return job->occurred_ms ? job->occurred_ms : job->received_ms;
}

/* Decode, run, encode. */
static dw_status run_op(dw_app__worker *worker, dw_job *job, const char **text,
                        size_t *bytes)
{
    const dw_op *op = job->op;
    const dw_codec *codec = job->codec ? job->codec : worker->app->codec;
    dw_arena *arena = &worker->arena;
    void *request = dw_arena_take(arena, op->request->bytes);
    void *reply = dw_arena_take(arena, op->reply->bytes);
    if (!request || !reply)
        return dw_fail(&job->err, DW_E_ROOM, op->name, NULL);
    DW_TRY(codec->decode(op->request, job->body, job->body_bytes, arena,
                         request, &job->err));
    dw_shape_preset(op->reply, reply);
    dw_stacks_kept stacks = {.known = false};
    dw_call call = {.arena = arena,
                    .err = &job->err,
                    .store = dw_op_is_pure(op) ? NULL : worker->store,
                    .now_ms = job->received_ms,
                    .occurred_ms = occurred_ms(job),
                    .person_id = job->person_id,
                    .device = or_empty(job->device),
                    .lang = job->lang ? job->lang : "en",
                    .solver = dw_solve_apart(),
                    .hands = dw_pool_hands(worker->app->pool),
                    .kept = worker->app->kept,
                    .stacks = op->kind == DW_OP_READ ? &stacks : NULL};
    DW_TRY(op->run(&call, request, reply));
    return codec->encode(op->reply, reply, arena, text, bytes);
}

static void conclude(dw_job *job, dw_status status)
{
    job->status = status;
    if (status != DW_OK && job->err.status != status)
        dw_fail(&job->err, status, "", NULL);
}

static void empty_arena(dw_app__worker *worker)
{
    enum { KEPT_BYTES = 1 << 20 };
    if (worker->arena.used > KEPT_BYTES)
        dw_memory_shed(worker->block, worker->arena.used);
    worker->arena.used = 0;
}

static dw_status read_inside(dw_app__worker *worker, dw_job *job)
{
    if (dw_op_is_pure(job->op))
        return run_op(worker, job, &job->reply, &job->reply_bytes);
    DW_TRY(dw_store_begin(worker->store, &job->err));
    dw_status status = run_op(worker, job, &job->reply, &job->reply_bytes);
    dw_store_rollback(worker->store);
    return status;
}

void dw_app__read(dw_app__worker *worker, dw_job *job)
{
    conclude(job, read_inside(worker, job));
    job->done(job);
    empty_arena(worker);
}

/* A reply must outlive its worker's arena, until the commit is on disk. */
static dw_status keep_reply(dw_job *job, const char *text, size_t bytes)
{
    char *copy = malloc(bytes + 1);
    if (!copy)
        return dw_fail(&job->err, DW_E_ROOM, job->op->name, NULL);
    memcpy(copy, text, bytes);
    copy[bytes] = '\0';
    job->reply = copy;
    job->reply_bytes = bytes;
    return DW_OK;
}

static void drop_reply(dw_job *job)
{
    free((char *)job->reply); /* only writing jobs come here: it is ours */
    job->reply = NULL;
    job->reply_bytes = 0;
}

static dw_status journal(dw_app__worker *worker, dw_job *job, const char *body)
{
    const dw_journal_row row = {.received_ms = job->received_ms,
                                .occurred_ms = occurred_ms(job),
                                .person_id = job->person_id,
                                .device = or_empty(job->device),
                                .op = job->op->name,
                                .body = body};
    return dw_journal_append(worker->store, &row, &job->err);
}

static dw_status write_new(dw_app__worker *worker, dw_job *job,
                           const char *body)
{
    const char *text;
    size_t bytes;
    DW_TRY(run_op(worker, job, &text, &bytes));
    DW_TRY(keep_reply(job, text, bytes));
    return journal(worker, job, body);
}

/* A key that was seen before is answered as it was then, unless it came with
 * something else. */
static dw_status write_keyed(dw_app__worker *worker, dw_job *job,
                             const char *body)
{
    char hash[65];
    dw_answer answer = {or_empty(job->device), job->key, hash, NULL,
                        job->received_ms},
              before;
    bool found;
    dw_answer_hash(job->op->name, body, hash);
    DW_TRY(dw_answer_find(worker->store, answer.device, answer.key,
                          &worker->arena, &before, &found, &job->err));
    if (!found) {
        DW_TRY(write_new(worker, job, body));
        answer.reply = job->reply;
        return dw_answer_keep(worker->store, &answer, &job->err);
    }
    if (strcmp(before.body_hash, hash) != 0)
        return dw_fail_says(&job->err, DW_E_CONFLICT, "key", job->key,
                            DW_MSG("was used before for something else"));
    job->replayed = true;
    return keep_reply(job, before.reply, strlen(before.reply));
}

static dw_status write_inside(dw_app__worker *worker, dw_job *job)
{
    char *body = dw_arena_take(&worker->arena, job->body_bytes + 1);
    if (!body)
        return dw_fail(&job->err, DW_E_ROOM, job->op->name, NULL);
    if (job->body_bytes > 0)
        memcpy(body, job->body, job->body_bytes);
    return is_keyed(job) ? write_keyed(worker, job, body)
                         : write_new(worker, job, body);
}

static dw_status write_one(dw_app__worker *worker, dw_job *job)
{
    DW_TRY(dw_store_savepoint(worker->store, &job->err));
    dw_status status = write_inside(worker, job);
    if (status == DW_OK && !worker->app->dry)
        status = dw_store_release(worker->store, &job->err);
    else
        dw_store_undo_savepoint(worker->store);
    if (status != DW_OK)
        drop_reply(job);
    return status;
}

/* Nothing of the group is on disk. */
static void fail_all(dw_job *jobs, const dw_err *err)
{
    for (dw_job *job = jobs; job; job = job->next) {
        drop_reply(job);
        job->replayed = false;
        if (job->status == DW_OK) {
            job->err = *err;
            job->status = err->status;
        }
    }
}

static dw_status finish(dw_app__worker *worker, dw_err *err)
{
    if (!worker->app->dry)
        return dw_store_commit(worker->store, err);
    dw_store_rollback(worker->store);
    return DW_OK;
}

/* Once after the start and then once a day: a tablet keeps its queue for days,
 * not for months. */
static dw_status forget_old(dw_app__worker *worker, int64_t now_ms, dw_err *err)
{
    if (worker->forgot_ms != 0 && now_ms < worker->forgot_ms + DAY_MS)
        return DW_OK;
    worker->forgot_ms = now_ms;
    return dw_answer_forget(worker->store, now_ms - ANSWERS_KEPT_MS, err);
}

/* One transaction over all of them; on failure none of them is on disk. */
static dw_status write_group(dw_app__worker *worker, dw_job *jobs)
{
    dw_err err = {.status = DW_OK};
    dw_status status = dw_store_begin(worker->store, &err);
    if (status == DW_OK)
        status = forget_old(worker, jobs->received_ms, &err);
    for (dw_job *job = jobs; job && status == DW_OK; job = job->next) {
        conclude(job, write_one(worker, job));
        empty_arena(worker);
        if (!dw_store_in_transaction(worker->store)) {
            err = job->err;
            status = err.status;
        }
    }
    if (status == DW_OK)
        status = finish(worker, &err);
    else
        dw_store_rollback(worker->store);
    if (status != DW_OK)
        fail_all(jobs, &err);
    return status;
}

/* One job must not take the others of its group down with it. */
static void write_singly(dw_app__worker *worker, dw_job *jobs)
{
    for (dw_job *job = jobs; job; job = job->next) {
        dw_job *next = job->next;
        memset(&job->err, 0, sizeof job->err);
        job->status = DW_OK;
        job->next = NULL;
        write_group(worker, job);
        job->next = next;
    }
}

/* Under the lock, so that a watcher that has been taken away may be freed. */
static void tell(dw_app *app, const char *op)
{
    pthread_mutex_lock(&app->lock);
    if (app->changed)
        app->changed(app->changed_owner, op);
    pthread_mutex_unlock(&app->lock);
}

void dw_app__write(dw_app__worker *worker, dw_job *jobs)
{
    dw_status status = write_group(worker, jobs);
    if (status != DW_OK && status != DW_E_BUSY && jobs->next)
        write_singly(worker, jobs);
    while (jobs) {
        dw_job *job = jobs;
        jobs = job->next;
        char *reply = (char *)job->reply;
        if (job->status == DW_OK && !job->replayed && !worker->app->dry)
            tell(worker->app, job->op->name);
        job->done(job); /* the job may be gone now */
        free(reply);
    }
}
