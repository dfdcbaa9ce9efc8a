#include "app/pool.h"

#include <pthread.h>
#include <signal.h>
#include <stdbool.h>
#include <stdlib.h>

enum { HELPERS_MOST = 7 };

typedef struct helper {
    dw_pool *pool;
    size_t hand;
    pthread_t thread;
} helper;

struct dw_pool {
    dw_hands hands;
    pthread_mutex_t one;  /* held by whose work it is */
    pthread_mutex_t lock; /* over all that follows */
    pthread_cond_t begun, ended;
    dw_hands_job *job;
    void *owner;
    size_t next, jobs;
    size_t at_work; /* helpers */
    bool stopping;
    helper helpers[HELPERS_MOST];
    size_t helpers_count;
};

/* With the lock held. */
static void work(dw_pool *pool, size_t hand)
{
    while (pool->next < pool->jobs) {
        size_t index = pool->next++;
        dw_hands_job *job = pool->job;
        void *owner = pool->owner;
        pthread_mutex_unlock(&pool->lock);
        job(owner, hand, index);
        pthread_mutex_lock(&pool->lock);
    }
}

static void *help(void *argument)
{
    const helper *own = argument;
    dw_pool *pool = own->pool;
    pthread_mutex_lock(&pool->lock);
    while (!pool->stopping) {
        if (pool->next >= pool->jobs) {
            pthread_cond_wait(&pool->begun, &pool->lock);
            continue;
        }
        pool->at_work++;
        work(pool, own->hand);
        if (--pool->at_work == 0)
            pthread_cond_signal(&pool->ended);
    }
    pthread_mutex_unlock(&pool->lock);
    return NULL;
}

static void share(void *crew, size_t jobs, dw_hands_job *job, void *owner)
{
    dw_pool *pool = crew;
    if (jobs < 2 || pthread_mutex_trylock(&pool->one) != 0) {
        for (size_t i = 0; i < jobs; i++)
            job(owner, 0, i);
        return;
    }
    pthread_mutex_lock(&pool->lock);
    pool->job = job;
    pool->owner = owner;
    pool->next = 0;
    pool->jobs = jobs;
    pthread_cond_broadcast(&pool->begun);
    work(pool, 0);
    while (pool->at_work > 0)
        pthread_cond_wait(&pool->ended, &pool->lock);
    pthread_mutex_unlock(&pool->lock);
    pthread_mutex_unlock(&pool->one);
}

static void start_helpers(dw_pool *pool, size_t count)
{
    /* Signals are the main thread's. */
    sigset_t all, before;
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before);
    while (pool->helpers_count < count) {
        helper *next = &pool->helpers[pool->helpers_count];
        *next = (helper){.pool = pool, .hand = pool->helpers_count + 1};
        if (pthread_create(&next->thread, NULL, help, next) != 0)
            break;
        pool->helpers_count++;
    }
    pthread_sigmask(SIG_SETMASK, &before, NULL);
}

dw_pool *dw_pool_new(size_t hands)
{
    dw_pool *pool = calloc(1, sizeof *pool);
    if (!pool)
        return NULL;
    size_t helpers = hands > 1 ? hands - 1 : 0;
    pthread_mutex_init(&pool->one, NULL);
    pthread_mutex_init(&pool->lock, NULL);
    pthread_cond_init(&pool->begun, NULL);
    pthread_cond_init(&pool->ended, NULL);
    start_helpers(pool, helpers < HELPERS_MOST ? helpers : HELPERS_MOST);
    pool->hands = (dw_hands){pool->helpers_count + 1, share, pool};
    return pool;
}

void dw_pool_free(dw_pool *pool)
{
    if (!pool)
        return;
    pthread_mutex_lock(&pool->lock);
    pool->stopping = true;
    pthread_cond_broadcast(&pool->begun);
    pthread_mutex_unlock(&pool->lock);
    for (size_t i = 0; i < pool->helpers_count; i++)
        pthread_join(pool->helpers[i].thread, NULL);
    pthread_cond_destroy(&pool->begun);
    pthread_cond_destroy(&pool->ended);
    pthread_mutex_destroy(&pool->lock);
    pthread_mutex_destroy(&pool->one);
    free(pool);
}

const dw_hands *dw_pool_hands(const dw_pool *pool)
{
    return &pool->hands;
}
