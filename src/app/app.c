#include "app/internal.h"

#include "doughwright/say.h"
#include "os/clock.h"
#include "os/memory.h"
#include "os/processors.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>

enum {
    ARENA_BYTES = 32 << 20,
    GROUP_MOST = 64,      /* writes under one commit */
    WAITING_MOST = 10000, /* jobs in a queue before new ones are turned away */
    LIGHT_BODY_MOST = 16 << 10,
    KEPT_BYTES = 64 << 20 /* of lives to go on with: 400 stacks with bands */
};

/* A thread that waits in dw_app_perform, and the last reply it was given. */
struct dw_app__performer {
    dw_app *app;
    pthread_cond_t finished_now;
    bool finished;
    char *reply;
    dw_app__performer *next;
};

static void queue_init(dw_app__queue *queue)
{
    queue->last = &queue->first;
    pthread_cond_init(&queue->filled, NULL);
}

/* Up to `most` jobs, linked; NULL when the app stops. */
static dw_job *queue_take(dw_app *app, dw_app__queue *queue, size_t most)
{
    pthread_mutex_lock(&app->lock);
    while (!queue->first && !app->stopping)
        pthread_cond_wait(&queue->filled, &app->lock);
    dw_job *taken = NULL, **end = &taken;
    for (; queue->first && most > 0 && !app->stopping; most--) {
        *end = queue->first;
        end = &queue->first->next;
        queue->first = *end;
        queue->count--;
    }
    *end = NULL;
    if (!queue->first)
        queue->last = &queue->first;
    pthread_mutex_unlock(&app->lock);
    return taken;
}

static void *read_loop(void *argument)
{
    dw_app__worker *worker = argument;
    dw_job *job;
    while ((job = queue_take(worker->app, &worker->app->reads, 1)))
        dw_app__read(worker, job);
    return NULL;
}

static void *write_loop(void *argument)
{
    dw_app__worker *worker = argument;
    dw_job *jobs;
    while ((jobs = queue_take(worker->app, &worker->app->writes, GROUP_MOST)))
        dw_app__write(worker, jobs);
    return NULL;
}

static dw_status worker_init(dw_app__worker *worker, dw_app *app, dw_err *err)
{
    worker->app = app;
    worker->block = dw_memory_map(app->arena_bytes);
    if (!worker->block)
        return dw_fail(err, DW_E_ROOM, "threads", NULL);
    dw_arena_init(&worker->arena, worker->block, app->arena_bytes);
    return DW_OK;
}

static dw_status worker_start(dw_app__worker *worker, dw_app *app,
                              void *(*loop)(void *), dw_err *err)
{
    DW_TRY(worker_init(worker, app, err));
    /* Signals are the main thread's. */
    sigset_t all, before;
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before);
    worker->started = pthread_create(&worker->thread, NULL, loop, worker) == 0;
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return worker->started ? DW_OK : dw_fail(err, DW_E_ROOM, "threads", NULL);
}

static void worker_stop(dw_app__worker *worker)
{
    if (worker->started)
        pthread_join(worker->thread, NULL);
    dw_store_free(worker->store);
    dw_memory_unmap(worker->block, worker->app ? worker->app->arena_bytes : 0);
}

static dw_status start(dw_app *app, const dw_app_options *options, dw_err *err)
{
    app->pool = dw_pool_new(dw_processors());
    app->kept = dw_life_kept_new(KEPT_BYTES);
    if (!app->pool || !app->kept)
        return dw_fail(err, DW_E_ROOM, "threads", NULL);
    DW_TRY(worker_init(&app->front, app, err));
    if (options->path) {
        DW_TRY(dw_store_open(options->path, &app->writer.store, err));
        DW_TRY(worker_start(&app->writer, app, write_loop, err));
    }
    while (app->readers_count < options->readers) {
        dw_app__worker *reader = &app->readers[app->readers_count++];
        if (options->path)
            DW_TRY(dw_store_open_reader(options->path, &reader->store, err));
        DW_TRY(worker_start(reader, app, read_loop, err));
    }
    return DW_OK;
}

static void performer_free(dw_app__performer *performer)
{
    pthread_cond_destroy(&performer->finished_now);
    free(performer->reply);
    free(performer);
}

/* At the end of a thread that performed. */
static void performer_leave(void *argument)
{
    dw_app__performer *leaving = argument;
    dw_app *app = leaving->app;
    pthread_mutex_lock(&app->lock);
    dw_app__performer **at = &app->performers;
    while (*at != leaving)
        at = &(*at)->next;
    *at = leaving->next;
    pthread_mutex_unlock(&app->lock);
    performer_free(leaving);
}

dw_status dw_app_open(const dw_app_options *options, dw_app **app, dw_err *err)
{
    DW_TRY(dw_check_range(err, "readers", options->readers, 1,
                          DW_APP__READERS_MOST));
    dw_app *opened = calloc(1, sizeof *opened);
    if (!opened)
        return dw_fail(err, DW_E_ROOM, "threads", NULL);
    opened->codec = options->codec;
    opened->now_ms = options->now_ms ? options->now_ms : dw_clock_now_ms;
    opened->arena_bytes =
        options->arena_bytes ? options->arena_bytes : ARENA_BYTES;
    opened->stored = options->path != NULL;
    opened->dry = options->dry;
    pthread_mutex_init(&opened->lock, NULL);
    queue_init(&opened->reads);
    queue_init(&opened->writes);
    if (pthread_key_create(&opened->performer_key, performer_leave) != 0) {
        free(opened);
        return dw_fail(err, DW_E_ROOM, "threads", NULL);
    }
    dw_status status = start(opened, options, err);
    if (status != DW_OK)
        dw_app_free(opened);
    else
        *app = opened;
    return status;
}

static void answer_busy(dw_job *job)
{
    job->status = dw_fail(&job->err, DW_E_BUSY, job->op->name, NULL);
    job->done(job);
}

/* Once the app is stopping, nobody adds to a queue; what is in it is taken out
 * at once and answered. */
static void queue_turn_away(dw_app *app, dw_app__queue *queue)
{
    pthread_mutex_lock(&app->lock);
    dw_job *waiting = queue->first;
    queue->first = NULL;
    queue->last = &queue->first;
    queue->count = 0;
    pthread_mutex_unlock(&app->lock);
    while (waiting) {
        dw_job *job = waiting;
        waiting = job->next;
        answer_busy(job);
    }
}

void dw_app_free(dw_app *app)
{
    if (!app)
        return;
    pthread_mutex_lock(&app->lock);
    app->stopping = true;
    pthread_cond_broadcast(&app->reads.filled);
    pthread_cond_broadcast(&app->writes.filled);
    pthread_mutex_unlock(&app->lock);
    /* Those that wait need not wait for a long job to end as well. */
    queue_turn_away(app, &app->reads);
    queue_turn_away(app, &app->writes);
    /* The writer closes last, so that the file is left without its log. */
    for (int i = 0; i < app->readers_count; i++)
        worker_stop(&app->readers[i]);
    worker_stop(&app->writer);
    worker_stop(&app->front);
    dw_pool_free(app->pool);
    dw_life_kept_free(app->kept);
    pthread_cond_destroy(&app->reads.filled);
    pthread_cond_destroy(&app->writes.filled);
    while (app->performers) {
        dw_app__performer *performer = app->performers;
        app->performers = performer->next;
        performer_free(performer);
    }
    pthread_key_delete(app->performer_key);
    pthread_mutex_destroy(&app->lock);
    free(app);
}

static bool queue_add(dw_app *app, dw_app__queue *queue, dw_job *job)
{
    pthread_mutex_lock(&app->lock);
    bool fits = !app->stopping && queue->count < WAITING_MOST;
    if (fits) {
        job->next = NULL;
        *queue->last = job;
        queue->last = &job->next;
        queue->count++;
        pthread_cond_signal(&queue->filled);
    }
    pthread_mutex_unlock(&app->lock);
    return fits;
}

static void receive(dw_app *app, dw_job *job)
{
    memset(&job->err, 0, sizeof job->err);
    job->status = DW_OK;
    job->reply = NULL;
    job->reply_bytes = 0;
    job->replayed = false;
    job->received_ms = app->now_ms();
}

bool dw_app_answer(dw_app *app, dw_job *job)
{
    if (job->op->kind != DW_OP_LIGHT || job->body_bytes > LIGHT_BODY_MOST)
        return false;
    receive(app, job);
    dw_app__read(&app->front, job);
    return true;
}

void dw_app_submit(dw_app *app, dw_job *job)
{
    receive(app, job);
    if (!dw_op_is_pure(job->op) && !app->stored) {
        job->status =
            dw_fail_says(&job->err, DW_E_STORE, job->op->name, NULL,
                         DW_MSG("needs a database, and none was given"));
        job->done(job);
        return;
    }
    bool write = job->op->kind == DW_OP_WRITE;
    if (!queue_add(app, write ? &app->writes : &app->reads, job))
        answer_busy(job);
}

/* This thread's performer, made at its first call; NULL without memory. */
static dw_app__performer *performer_here(dw_app *app)
{
    dw_app__performer *here = pthread_getspecific(app->performer_key);
    if (here)
        return here;
    here = calloc(1, sizeof *here);
    if (!here || pthread_setspecific(app->performer_key, here) != 0) {
        free(here);
        return NULL;
    }
    here->app = app;
    pthread_cond_init(&here->finished_now, NULL);
    pthread_mutex_lock(&app->lock);
    here->next = app->performers;
    app->performers = here;
    pthread_mutex_unlock(&app->lock);
    return here;
}

/* On a worker thread: the reply is copied before its memory goes. */
static void performed(dw_job *job)
{
    dw_app__performer *performer = job->owner;
    if (job->reply) {
        performer->reply = malloc(job->reply_bytes + 1);
        if (performer->reply)
            memcpy(performer->reply, job->reply, job->reply_bytes);
        else
            job->status = dw_fail(&job->err, DW_E_ROOM, job->op->name, NULL);
        if (performer->reply)
            performer->reply[job->reply_bytes] = '\0';
    }
    pthread_mutex_lock(&performer->app->lock);
    performer->finished = true;
    pthread_cond_signal(&performer->finished_now);
    pthread_mutex_unlock(&performer->app->lock);
}

dw_status dw_app_perform(dw_app *app, dw_job *job)
{
    dw_app__performer *here = performer_here(app);
    if (!here)
        return job->status = dw_fail(&job->err, DW_E_ROOM, job->op->name, NULL);
    free(here->reply);
    here->reply = NULL;
    here->finished = false;
    void *owner = job->owner;
    void (*done)(dw_job *) = job->done;
    job->owner = here;
    job->done = performed;
    dw_app_submit(app, job);
    pthread_mutex_lock(&app->lock);
    while (!here->finished)
        pthread_cond_wait(&here->finished_now, &app->lock);
    pthread_mutex_unlock(&app->lock);
    job->owner = owner;
    job->done = done;
    job->reply = here->reply;
    return job->status;
}

void dw_app_watch(dw_app *app, void (*changed)(void *owner, const char *op),
                  void *owner)
{
    pthread_mutex_lock(&app->lock);
    app->changed = changed;
    app->changed_owner = owner;
    pthread_mutex_unlock(&app->lock);
}
