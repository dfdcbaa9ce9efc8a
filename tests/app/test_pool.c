#include "app/pool.h"
#include "dw_test.h"

#include <pthread.h>

enum { JOBS = 1000 };

typedef struct tally {
    int done[JOBS];
    size_t hands;
    int wrong_hands;
    pthread_mutex_t lock;
    const dw_hands *within; /* shared out again from inside a job */
} tally;

static void count_inner(void *owner, size_t hand, size_t index)
{
    int *done = owner;
    done[index] += hand == 0;
}

static void count_job(void *owner, size_t hand, size_t index)
{
    tally *t = owner;
    int inner[3] = {0, 0, 0};
    if (t->within)
        t->within->share(t->within->crew, 3, count_inner, inner);
    pthread_mutex_lock(&t->lock);
    t->done[index]++;
    t->wrong_hands += hand >= t->hands;
    t->wrong_hands += t->within && inner[0] + inner[1] + inner[2] != 3;
    pthread_mutex_unlock(&t->lock);
}

static size_t done_once(const tally *t)
{
    size_t once = 0;
    for (int i = 0; i < JOBS; i++)
        once += t->done[i] == 1;
    return once;
}

TEST(hands_do_every_job_once, LIMIT, "1 to 8 hands, 1000 jobs; hands.h")
{
    for (size_t hands = 1; hands <= 8; hands++) {
        dw_pool *pool = dw_pool_new(hands);
        NEED(pool);
        const dw_hands *crew = dw_pool_hands(pool);
        CHECK(crew->count >= 1 && crew->count <= hands);
        tally t = {.hands = crew->count, .lock = PTHREAD_MUTEX_INITIALIZER};
        crew->share(crew->crew, JOBS, count_job, &t);
        SAME(done_once(&t), JOBS);
        SAME(t.wrong_hands, 0);
        crew->share(crew->crew, 0, count_job, &t);
        SAME(done_once(&t), JOBS);
        dw_pool_free(pool);
    }
}

TEST(work_within_work_is_done_by_the_hand_that_has_it, LIMIT, "hands.h")
{
    dw_pool *pool = dw_pool_new(3);
    NEED(pool);
    const dw_hands *crew = dw_pool_hands(pool);
    tally t = {.hands = crew->count,
               .lock = PTHREAD_MUTEX_INITIALIZER,
               .within = crew};
    crew->share(crew->crew, JOBS, count_job, &t);
    SAME(done_once(&t), JOBS);
    SAME(t.wrong_hands, 0);
    dw_pool_free(pool);
}
