/* Many at once, and killed in the middle. */
#include "dw_test.h"
#include "notes.h"

#include <pthread.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

enum { THREADS = 4, WRITES = 500 };

typedef struct sender {
    dw_app *app;
    int number;
    int failed, replayed, wrong;
    pthread_t thread;
} sender;

/* Every fifth is sent twice under its key, as a tablet does whose answer was
 * lost. */
static void send_one(sender *s, int i)
{
    char body[40], key[20], device[20];
    snprintf(body, sizeof body, "text=%d-%d", s->number, i);
    snprintf(key, sizeof key, "k%d", i);
    snprintf(device, sizeof device, "tablet%d", s->number);
    for (int times = i % 5 == 0 ? 2 : 1; times > 0; times--) {
        dw_job job = notes_perform_keyed(s->app, &notes_add, body, device, key);
        s->failed += job.status != DW_OK;
        s->replayed += job.replayed;
        s->wrong += !job.reply || !strstr(job.reply, body);
    }
}

static void *send_all(void *argument)
{
    sender *s = argument;
    for (int i = 0; i < WRITES; i++) {
        send_one(s, i);
        if (i % 50 == 0)
            s->failed +=
                notes_perform(s->app, &notes_count, "").status != DW_OK;
    }
    return NULL;
}

TEST(two_thousand_writes_of_four_threads_are_each_done_once, LIMIT, "app.h")
{
    notes n;
    notes_start(&n);
    sender senders[THREADS];
    for (int i = 0; i < THREADS; i++) {
        senders[i] = (sender){.app = n.app, .number = i};
        NEED(pthread_create(&senders[i].thread, NULL, send_all, &senders[i]) ==
             0);
    }
    for (int i = 0; i < THREADS; i++) {
        pthread_join(senders[i].thread, NULL);
        SAME(senders[i].failed, 0);
        SAME(senders[i].wrong, 0);
        SAME(senders[i].replayed, WRITES / 5);
    }
    SAME(notes_number(n.path, "SELECT count(*) AS count FROM note"), 2000);
    SAME(notes_number(n.path, "SELECT count(DISTINCT text) AS count FROM note"),
         2000);
    SAME(notes_number(n.path, "SELECT count(*) AS count FROM journal"), 2000);
    SAME(notes_number(n.path, "SELECT count(*) AS count FROM answer"), 2000);
    CHECK(notes_journal_holds(n.path));
    notes_stop(&n);
}

typedef struct victim {
    dw_app *app;
    int pipe, round, number;
} victim;

/* Write, and tell the parent the row's id only once it is acknowledged. */
static void *write_until_killed(void *argument)
{
    victim *v = argument;
    for (int i = 0;; i++) {
        char body[60];
        snprintf(body, sizeof body, "text=%d-%d-%d", v->round, v->number, i);
        dw_job job = notes_perform(v->app, &notes_add, body);
        int64_t id = job.status == DW_OK ? atoll(job.reply + 3) : -1;
        if (write(v->pipe, &id, sizeof id) != sizeof id)
            _exit(1);
    }
    return NULL;
}

static void child(const char *path, int pipe, int round)
{
    dw_app *app = notes_open(path);
    victim victims[3];
    pthread_t thread;
    if (!app)
        _exit(2);
    for (int i = 0; i < 3; i++) {
        victims[i] = (victim){app, pipe, round, i};
        if (pthread_create(&thread, NULL, write_until_killed, &victims[i]))
            _exit(3);
    }
    pthread_join(thread, NULL);
    _exit(4);
}

/* Ids acknowledged until the child was killed, `bytes` of them. */
static size_t collect(int pipe, int64_t *ids, size_t most)
{
    size_t used = 0;
    ssize_t got;
    char *at = (char *)ids;
    while ((got = read(pipe, at + used, most * sizeof *ids - used)) > 0)
        used += (size_t)got;
    return used / sizeof *ids;
}

static void check_all_there(const char *path, const int64_t *ids, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char sql[80];
        snprintf(sql, sizeof sql,
                 "SELECT count(*) AS count FROM note WHERE id = %lld",
                 (long long)ids[i]);
        SAME(notes_number(path, sql), 1);
    }
    SAME(notes_number(path, "SELECT (SELECT count(*) FROM note) -"
                            " (SELECT count(*) FROM journal) AS count"),
         0);
    SAME(notes_number(path,
                      "SELECT count(*) AS count FROM pragma_integrity_check"
                      " WHERE integrity_check = 'ok'"),
         1);
    CHECK(notes_journal_holds(path));
}

static void kill_rounds(int rounds, unsigned long long seed)
{
    enum { MOST = 100000 };
    static int64_t ids[MOST];
    notes n;
    notes_make(&n);
    fflush(stdout);
    for (int round = 0; round < rounds; round++) {
        int ends[2];
        NEED(pipe(ends) == 0);
        pid_t pid = fork();
        NEED(pid >= 0);
        if (pid == 0) {
            close(ends[0]);
            child(n.path, ends[1], round);
        }
        close(ends[1]);
        /* not before it has written at all, however busy the machine is */
        NEED(read(ends[0], ids, sizeof *ids) == sizeof *ids);
        usleep((useconds_t)dw_test_between(&seed, 5e3, 80e3));
        kill(pid, SIGKILL);
        int status = 0;
        waitpid(pid, &status, 0);
        CHECK(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL);
        size_t count = 1 + collect(ends[0], ids + 1, MOST - 1);
        close(ends[0]);
        check_all_there(n.path, ids, count < 500 ? count : 500);
        if (count > 500)
            check_all_there(n.path, ids + count - 500, 500);
    }
    notes_stop(&n);
}

TEST(what_was_acknowledged_survives_a_killed_process, LIMIT,
     "kill -9 at a random moment, 5 rounds")
{
    kill_rounds(5, 1);
}

TEST(long_what_was_acknowledged_survives_fifty_kills, LIMIT,
     "kill -9 at a random moment, 50 rounds")
{
    kill_rounds(50, 2);
}
