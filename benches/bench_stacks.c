/* The cold room with 400 stacks of four days: how long all their lives take, by
 * the clock on the wall, decoded request to encoded reply, on all processors.
 * First with nothing kept; then after a new reading of the room, going on from
 * what was kept; then how long somebody waits who writes meanwhile. */
#define _POSIX_C_SOURCE 200809L
#include "dw_test.h"
#include "engine/life_kernel.h"
#include "ops/business.h"
#include "os/processors.h"

#include <pthread.h>
#include <stdarg.h>
#include <stdlib.h>
#include <time.h>

enum { STACKS = 400, HOURS = 90, ROUNDS = 5 };
#define HOUR_MS 3600000LL

/* What the business of the tests needs of the tests' runner. */
void dw_test_fail(const char *file, int line, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    vfprintf(stderr, format, args);
    va_end(args);
    fprintf(stderr, " (%s:%d)\n", file, line);
    exit(1);
}

static double clock_ms(clockid_t clock)
{
    struct timespec now;
    clock_gettime(clock, &now);
    return 1e3 * (double)now.tv_sec + 1e-6 * (double)now.tv_nsec;
}

static double wall_ms(void)
{
    return clock_ms(CLOCK_MONOTONIC);
}

static void enter(business *b, int number, long long stop_ms)
{
    const long long minute = 60000;
    business_do(b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(b, "batch.enter",
                "{'batch_id':%d,'room_c':23,'dough_c':%.1f,"
                "'started_ms':%lld,'stopped_ms':%lld,"
                "'pieces':[{'id':%d,'balls_made':80}],'first_box_ms':%lld,"
                "'last_box_ms':%lld,'closed_ms':%lld}",
                number, 24 + 0.01 * (number % 300), stop_ms - 14 * minute,
                stop_ms, number, stop_ms + 20 * minute, stop_ms + 20 * minute,
                stop_ms + 170 * minute);
}

typedef struct took {
    double wall_ms[ROUNDS], processor_ms[ROUNDS]; /* of all threads */
    int rounds;
} took;

static void ask(business *b, int members, took *t)
{
    double wall = wall_ms(), processor = clock_ms(CLOCK_PROCESS_CPUTIME_ID);
    business_do(b, "cold.stacks", "{'members':%d}", members);
    t->wall_ms[t->rounds] = wall_ms() - wall;
    t->processor_ms[t->rounds++] =
        clock_ms(CLOCK_PROCESS_CPUTIME_ID) - processor;
}

static void read_room(business *b, double celsius)
{
    business_wait(b, 60);
    business_do(b, "reading.save", "{'kind':'cold_c','celsius':%.1f}", celsius);
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void tell(const char *what, took *t)
{
    qsort(t->wall_ms, (size_t)t->rounds, sizeof(double), by_size);
    qsort(t->processor_ms, (size_t)t->rounds, sizeof(double), by_size);
    printf("{\"bench\":\"stacks\",\"what\":\"%s\",\"stacks\":%d,"
           "\"instructions\":\"%s\",\"processors\":%d,\"best_ms\":%.0f,"
           "\"middle_ms\":%.0f,\"middle_processor_ms\":%.0f}\n",
           what, STACKS, dw_life__kernel_best()->instructions,
           (int)dw_processors(), t->wall_ms[0], t->wall_ms[t->rounds / 2],
           t->processor_ms[t->rounds / 2]);
}

typedef struct writer {
    business *b;
    double worst_ms, sum_ms;
    int count;
    bool stop;
    pthread_mutex_t lock;
} writer;

static bool stopped(writer *w)
{
    pthread_mutex_lock(&w->lock);
    bool stop = w->stop;
    pthread_mutex_unlock(&w->lock);
    return stop;
}

/* Flour readings, one after the other, which no life hangs on. */
static void *write_on(void *argument)
{
    writer *w = argument;
    const char body[] = "{\"kind\":\"flour_c\",\"celsius\":21}";
    while (!stopped(w)) {
        dw_job job = {.op = dw_op_find("reading.save"),
                      .body = body,
                      .body_bytes = sizeof body - 1,
                      .device = "bench",
                      .lang = "en"};
        double start = wall_ms();
        dw_app_perform(w->b->app, &job);
        double ms = wall_ms() - start;
        w->worst_ms = ms > w->worst_ms ? ms : w->worst_ms;
        w->sum_ms += ms;
        w->count++;
    }
    return NULL;
}

int main(void)
{
    static business b;
    took medians = {.rounds = 0}, bands = medians, busy = medians;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "today.get", "{}");
    long long first_ms = b.now_ms;
    read_room(&b, 3.5);
    business_wait(&b, (HOURS + 3) * 60);
    for (int i = 0; i < STACKS; i++)
        enter(&b, i + 1, first_ms + i * HOURS * HOUR_MS / STACKS);
    read_room(&b, 3.1);
    ask(&b, 0, &medians);
    ask(&b, 63, &bands);
    tell("nothing kept: medians", &medians);
    tell("nothing kept: bands of 64", &bands);
    medians.rounds = bands.rounds = 0;
    for (int i = 0; i < ROUNDS; i++) {
        read_room(&b, 3.3 + 0.4 * (i % 2));
        ask(&b, 0, &medians);
        ask(&b, 63, &bands);
    }
    tell("a new reading: medians", &medians);
    tell("a new reading: bands of 64", &bands);
    writer w = {.b = &b, .lock = PTHREAD_MUTEX_INITIALIZER};
    pthread_t thread;
    pthread_create(&thread, NULL, write_on, &w);
    for (int i = 0; i < ROUNDS; i++)
        ask(&b, 63, &busy);
    pthread_mutex_lock(&w.lock);
    w.stop = true;
    pthread_mutex_unlock(&w.lock);
    pthread_join(thread, NULL);
    tell("asked again while somebody writes: bands of 64", &busy);
    printf("{\"bench\":\"stacks\",\"what\":\"the longest such write\","
           "\"writes\":%d,\"worst_ms\":%.0f,\"mean_ms\":%.1f}\n",
           w.count, w.worst_ms, w.sum_ms / w.count);
    business_stop(&b);
    return 0;
}
