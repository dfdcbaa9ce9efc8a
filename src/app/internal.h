/* Shared between app.c and job.c only. */
#ifndef DW_APP_INTERNAL_H
#define DW_APP_INTERNAL_H

#include "app/app.h"
#include "app/life_kept.h"
#include "app/pool.h"
#include "store/store.h"

#include <pthread.h>

enum { DW_APP__READERS_MOST = 8 };

/* One thread with its connection and its working memory. */
typedef struct dw_app__worker {
    dw_app *app;
    dw_store *store; /* NULL: the app has no database */
    void *block;
    dw_arena arena;
    pthread_t thread;
    bool started;
    int64_t forgot_ms; /* the writer's: when it last let old answers go */
} dw_app__worker;

typedef struct dw_app__queue {
    dw_job *first, **last;
    size_t count;
    pthread_cond_t filled;
} dw_app__queue;

typedef struct dw_app__performer dw_app__performer;

struct dw_app {
    const dw_codec *codec;
    int64_t (*now_ms)(void);
    size_t arena_bytes;
    bool stored, dry;
    dw_pool *pool;
    dw_life_kept *kept;

    pthread_mutex_t lock; /* over all that follows but the workers' own */
    dw_app__queue reads, writes;
    bool stopping;
    void (*changed)(void *owner, const char *op);
    void *changed_owner;
    pthread_key_t performer_key;
    dw_app__performer *performers;

    dw_app__worker front; /* no thread of its own: the caller's */
    dw_app__worker writer, readers[DW_APP__READERS_MOST];
    int readers_count;
};

/* Run and answer a reading or pure job. */
void dw_app__read(dw_app__worker *worker, dw_job *job);
/* Run a list of writing jobs in one transaction, then answer them. */
void dw_app__write(dw_app__worker *worker, dw_job *jobs);

#endif
