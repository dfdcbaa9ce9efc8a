#include "fake_app.h"

#include "door/json.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>

typedef struct echo {
    const char *text;
    const char *device, *key, *lang;
    int64_t person_id, occurred_ms;
} echo;

static const dw_field ask_fields[] = {
    DW_F_TEXT(echo, text, 9000000, "comes back"),
};
static const dw_field echo_fields[] = {
    DW_F_TEXT(echo, text, 9000000, "as sent"),
    DW_F_TEXT_OPT(echo, device, 64, "of the header"),
    DW_F_TEXT_OPT(echo, key, 128, "of the header"),
    DW_F_TEXT_OPT(echo, lang, 2, "of the header"),
    DW_F_ID(echo, person_id, "of the header"),
    DW_F_MOMENT(echo, occurred_ms, "of the header"),
};
static const dw_shape ask_shape = DW_SHAPE("ask", echo, ask_fields, "a text");
static const dw_shape echo_shape =
    DW_SHAPE("echo", echo, echo_fields, "the text");
const dw_shape dw_nothing_shape = {"nothing", "an empty object",
                                   sizeof(dw_nothing), NULL, 0};

static dw_status run_echo(dw_call *call, const void *request, void *reply)
{
    echo *out = reply;
    *out = *(const echo *)request;
    out->device = call->device;
    out->lang = call->lang;
    out->person_id = call->person_id;
    out->occurred_ms = call->occurred_ms;
    return DW_OK;
}

static dw_status run_refuse(dw_call *call, const void *request, void *reply)
{
    return dw_fail_range(call->err, "percent", 1000, 0, 100);
}

static const dw_op ops[] = {
    {"test.echo", DW_OP_PURE, &ask_shape, &echo_shape, run_echo, "Echoes."},
    {"test.refuse", DW_OP_PURE, &ask_shape, &echo_shape, run_refuse,
     "Refuses."},
};

const dw_op *dw_ops(size_t *count)
{
    *count = DW_COUNT(ops);
    return ops;
}

const dw_op *dw_op_find(const char *name)
{
    for (size_t i = 0; i < DW_COUNT(ops); i++)
        if (strcmp(ops[i].name, name) == 0)
            return &ops[i];
    return NULL;
}

struct dw_app {
    pthread_mutex_t lock;
    pthread_cond_t changed;
    pthread_t worker;
    dw_job *first, **last;
    bool held, over;
    int arrived;
    void (*watcher)(void *owner, const char *op);
    void *owner;
};

enum { ARENA_BYTES = 40 * 1024 * 1024 };

static void perform(dw_job *job, void *block)
{
    dw_arena arena;
    dw_arena_init(&arena, block, ARENA_BYTES);
    void *request = dw_arena_take(&arena, job->op->request->bytes);
    void *reply = dw_arena_take(&arena, job->op->reply->bytes);
    dw_call call = {.arena = &arena,
                    .err = &job->err,
                    .person_id = job->person_id,
                    .occurred_ms = job->occurred_ms,
                    .device = job->device,
                    .lang = job->lang};
    job->status = dw_json_decode(job->op->request, job->body, job->body_bytes,
                                 &arena, request, &job->err);
    if (job->status == DW_OK)
        job->status = job->op->run(&call, request, reply);
    if (job->status == DW_OK && job->op == &ops[0])
        ((echo *)reply)->key = job->key;
    if (job->status == DW_OK)
        job->status = dw_json_encode(job->op->reply, reply, &arena, &job->reply,
                                     &job->reply_bytes);
    job->done(job);
}

static void *work(void *memory)
{
    dw_app *app = memory;
    void *block = malloc(ARENA_BYTES);
    pthread_mutex_lock(&app->lock);
    while (!app->over || app->first) {
        dw_job *job = app->first;
        if (!job || app->held) {
            pthread_cond_wait(&app->changed, &app->lock);
            continue;
        }
        app->first = job->next;
        if (!app->first)
            app->last = &app->first;
        pthread_mutex_unlock(&app->lock);
        perform(job, block);
        pthread_mutex_lock(&app->lock);
    }
    pthread_mutex_unlock(&app->lock);
    free(block);
    return NULL;
}

dw_app *fake_app_new(void)
{
    dw_app *app = calloc(1, sizeof *app);
    app->last = &app->first;
    pthread_mutex_init(&app->lock, NULL);
    pthread_cond_init(&app->changed, NULL);
    pthread_create(&app->worker, NULL, work, app);
    return app;
}

void fake_app_hold(dw_app *app, bool held)
{
    pthread_mutex_lock(&app->lock);
    app->held = held;
    pthread_cond_broadcast(&app->changed);
    pthread_mutex_unlock(&app->lock);
}

int fake_app_arrived(dw_app *app)
{
    pthread_mutex_lock(&app->lock);
    int arrived = app->arrived;
    pthread_mutex_unlock(&app->lock);
    return arrived;
}

void fake_app_wrote(dw_app *app, const char *op)
{
    pthread_mutex_lock(&app->lock);
    if (app->watcher)
        app->watcher(app->owner, op);
    pthread_mutex_unlock(&app->lock);
}

void fake_app_free(dw_app *app)
{
    pthread_mutex_lock(&app->lock);
    app->over = true;
    pthread_cond_broadcast(&app->changed);
    pthread_mutex_unlock(&app->lock);
    pthread_join(app->worker, NULL);
    free(app);
}

void dw_app_submit(dw_app *app, dw_job *job)
{
    pthread_mutex_lock(&app->lock);
    job->next = NULL;
    *app->last = job;
    app->last = &job->next;
    app->arrived++;
    pthread_cond_broadcast(&app->changed);
    pthread_mutex_unlock(&app->lock);
}

/* Nothing is light here: all goes the long way, which is what is tested. */
bool dw_app_answer(dw_app *app, dw_job *job)
{
    (void)app;
    (void)job;
    return false;
}

void dw_app_watch(dw_app *app, void (*changed)(void *owner, const char *op),
                  void *owner)
{
    pthread_mutex_lock(&app->lock);
    app->watcher = changed;
    app->owner = owner;
    pthread_mutex_unlock(&app->lock);
}
