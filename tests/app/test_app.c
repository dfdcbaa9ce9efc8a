#include "dw_test.h"
#include "notes.h"

#include <pthread.h>
#include <unistd.h>

static const char count_notes[] = "SELECT count(*) AS count FROM note";
static const char count_journal[] = "SELECT count(*) AS count FROM journal";

TEST(a_write_is_done_journalled_and_seen_by_readers, LIMIT, "app.h")
{
    notes n;
    notes_start(&n);
    dw_job job = {.op = &notes_add,
                  .body = "text=close the stack",
                  .body_bytes = 20,
                  .device = "bench",
                  .person_id = 4,
                  .occurred_ms = 1700000000000};
    SAME(dw_app_perform(n.app, &job), DW_OK);
    SAME_TEXT(job.reply, "id=1\ntext=close the stack\n");
    SAME(job.reply_bytes, strlen(job.reply));
    SAME_TEXT(notes_perform(n.app, &notes_count, "").reply, "count=1\n");
    SAME(notes_number(n.path,
                      "SELECT count(*) AS count FROM journal WHERE"
                      " device = 'bench' AND person_id = 4 AND"
                      " op = 'note.add' AND body = 'text=close the stack'"
                      " AND occurred_ms = 1700000000000"
                      " AND received_ms > 1750000000000"),
         1);
    CHECK(notes_journal_holds(n.path));
    notes_stop(&n);
}

TEST(a_refused_write_leaves_nothing_behind, LIMIT, "app.h")
{
    notes n;
    notes_start(&n);
    dw_job job = notes_perform(n.app, &notes_refuse, "text=x");
    SAME(job.status, DW_E_USED);
    SAME_TEXT(job.err.field, "text");
    CHECK(job.reply == NULL);
    SAME(notes_number(n.path, count_notes), 0);
    SAME(notes_number(n.path, count_journal), 0);
    job = notes_perform(n.app, &notes_add, "weight=3");
    SAME(job.status, DW_E_UNKNOWN_FIELD);
    SAME_TEXT(job.err.field, "weight");
    SAME(notes_perform(n.app, &notes_add, "").status, DW_E_MISSING);
    SAME(notes_number(n.path, count_journal), 0);
    notes_stop(&n);
}

TEST(the_same_key_is_answered_once_and_for_all, LIMIT, "app.h")
{
    notes n;
    notes_start(&n);
    dw_job first =
        notes_perform_keyed(n.app, &notes_add, "text=a", "tablet", "k");
    SAME(first.status, DW_OK);
    CHECK(!first.replayed);
    SAME(notes_perform(n.app, &notes_add, "text=b").status, DW_OK);
    dw_job again =
        notes_perform_keyed(n.app, &notes_add, "text=a", "tablet", "k");
    SAME(again.status, DW_OK);
    CHECK(again.replayed);
    SAME_TEXT(again.reply, "id=1\ntext=a\n");
    SAME(notes_number(n.path, count_notes), 2);
    SAME(notes_number(n.path, count_journal), 2);
    notes_stop(&n);
}

TEST(the_same_key_for_something_else_is_a_conflict, LIMIT, "app.h")
{
    notes n;
    notes_start(&n);
    SAME(notes_perform_keyed(n.app, &notes_add, "text=a", "tablet", "k").status,
         DW_OK);
    dw_job other =
        notes_perform_keyed(n.app, &notes_add, "text=b", "tablet", "k");
    SAME(other.status, DW_E_CONFLICT);
    SAME(dw_status_http(other.status), 409);
    SAME_TEXT(other.err.field, "key");
    SAME_TEXT(other.err.value, "k");
    SAME(notes_perform_keyed(n.app, &notes_fill, "bytes=1", "tablet", "k")
             .status,
         DW_E_CONFLICT);
    SAME(notes_perform_keyed(n.app, &notes_add, "text=b", "phone", "k").status,
         DW_OK);
    SAME(notes_number(n.path, count_notes), 2);
    notes_stop(&n);
}

TEST(what_was_refused_may_be_tried_again_under_its_key, LIMIT, "app.h")
{
    notes n;
    notes_start(&n);
    SAME(notes_perform_keyed(n.app, &notes_refuse, "text=a", "t", "k").status,
         DW_E_USED);
    SAME(notes_perform_keyed(n.app, &notes_add, "text=a", "t", "k").status,
         DW_OK);
    notes_stop(&n);
}

TEST(answers_survive_a_restart, LIMIT, "app.h")
{
    notes n;
    notes_start(&n);
    SAME(notes_perform_keyed(n.app, &notes_add, "text=a", "t", "k").status,
         DW_OK);
    dw_app_free(n.app);
    n.app = notes_open(n.path);
    NEED(n.app);
    dw_job again = notes_perform_keyed(n.app, &notes_add, "text=a", "t", "k");
    CHECK(again.replayed);
    SAME_TEXT(again.reply, "id=1\ntext=a\n");
    notes_stop(&n);
}

/* A clock of this test alone. */
static int64_t told_ms;
static int64_t told(void)
{
    return told_ms;
}

TEST(answers_are_kept_for_sixty_days, LIMIT, "app.h: days counted by hand")
{
    const int64_t day_ms = 86400000, start_ms = 1780660800000;
    notes n;
    notes_make(&n);
    dw_app_options options = {
        .path = n.path, .readers = 1, .codec = &notes_codec, .now_ms = told};
    dw_err err;
    told_ms = start_ms;
    NEED(dw_app_open(&options, &n.app, &err) == DW_OK);
    notes_perform_keyed(n.app, &notes_add, "text=a", "t", "old");
    told_ms = start_ms + 40 * day_ms;
    notes_perform_keyed(n.app, &notes_add, "text=b", "t", "new");
    told_ms = start_ms + 60 * day_ms;
    CHECK(
        notes_perform_keyed(n.app, &notes_add, "text=a", "t", "old").replayed);
    /* less than a day after the last time nothing is looked at */
    told_ms = start_ms + 61 * day_ms - 1;
    CHECK(
        notes_perform_keyed(n.app, &notes_add, "text=a", "t", "old").replayed);
    told_ms = start_ms + 61 * day_ms;
    notes_perform(n.app, &notes_add, "text=c");
    SAME(notes_number(n.path, "SELECT count(*) AS count FROM answer"), 1);
    CHECK(
        notes_perform_keyed(n.app, &notes_add, "text=b", "t", "new").replayed);
    /* and with the first write after a start */
    dw_app_free(n.app);
    told_ms = start_ms + 101 * day_ms;
    NEED(dw_app_open(&options, &n.app, &err) == DW_OK);
    notes_perform(n.app, &notes_add, "text=d");
    SAME(notes_number(n.path, "SELECT count(*) AS count FROM answer"), 0);
    notes_stop(&n);
}

TEST(a_dry_run_answers_and_changes_nothing, LIMIT, "app.h")
{
    notes n;
    notes_make(&n);
    const dw_app_options options = {
        .path = n.path, .readers = 1, .codec = &notes_codec, .dry = true};
    NEED(dw_app_open(&options, &n.app, NULL) == DW_OK);
    dw_job job = notes_perform_keyed(n.app, &notes_add, "text=a", "t", "k");
    SAME(job.status, DW_OK);
    SAME_TEXT(job.reply, "id=1\ntext=a\n");
    SAME(notes_perform(n.app, &notes_refuse, "text=a").status, DW_E_USED);
    SAME(notes_number(n.path, count_notes), 0);
    SAME(notes_number(n.path, count_journal), 0);
    SAME(notes_number(n.path, "SELECT count(*) AS count FROM answer"), 0);
    notes_stop(&n);
}

TEST(pure_operations_need_and_make_no_database, LIMIT, "app.h")
{
    dw_app *app = notes_open(NULL);
    NEED(app);
    dw_job job = notes_perform(app, &notes_echo, "text=flour");
    SAME(job.status, DW_OK);
    SAME_TEXT(job.reply, "id=0\ntext=flour\n");
    SAME(notes_perform(app, &notes_count, "").status, DW_E_STORE);
    job = notes_perform(app, &notes_add, "text=x");
    SAME(job.status, DW_E_STORE);
    SAME_TEXT(job.err.sentence, "needs a database, and none was given");
    dw_app_free(app);
}

typedef struct heard {
    pthread_t by;
    char reply[64];
    dw_status status;
    int times;
} heard;

static void hear(dw_job *job)
{
    heard *h = job->owner;
    h->by = pthread_self();
    h->status = job->status;
    h->times++;
    snprintf(h->reply, sizeof h->reply, "%s", job->reply ? job->reply : "");
}

TEST(a_light_operation_is_answered_at_once_on_the_thread_that_asks, LIMIT,
     "app.h")
{
    static char large[20000];
    dw_op light = notes_echo;
    light.kind = DW_OP_LIGHT;
    dw_app *app = notes_open(NULL);
    NEED(app);
    heard h = {.times = 0};
    dw_job job = {.op = &light,
                  .body = "text=flour",
                  .body_bytes = strlen("text=flour"),
                  .done = hear,
                  .owner = &h};
    CHECK(dw_app_answer(app, &job));
    SAME(h.times, 1);
    CHECK(pthread_equal(h.by, pthread_self()));
    SAME_TEXT(h.reply, "id=0\ntext=flour\n");
    job.body = "colour=red";
    CHECK(dw_app_answer(app, &job));
    SAME(h.times, 2);
    CHECK(h.status != DW_OK);
    SAME(notes_perform(app, &light, "text=x").status, DW_OK); /* long way too */
    memset(large, 'x', sizeof large - 1);
    job.body = large;
    job.body_bytes = strlen(large);
    CHECK(!dw_app_answer(app, &job));
    job.op = &notes_echo;
    job.body_bytes = 4;
    CHECK(!dw_app_answer(app, &job));
    SAME(h.times, 2);
    dw_app_free(app);
}

TEST(options_out_of_range_and_bad_files_are_refused, LIMIT, "app.h")
{
    dw_app_options options = {.readers = 9, .codec = &notes_codec};
    dw_app *app = NULL;
    dw_err err;
    SAME(dw_app_open(&options, &app, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "readers");
    options = (dw_app_options){
        .readers = 1, .codec = &notes_codec, .path = "/nowhere/a.db"};
    SAME(dw_app_open(&options, &app, &err), DW_E_STORE);
    CHECK(app == NULL);
}

/* Counts the jobs that were answered on their own. */
typedef struct box {
    pthread_mutex_t lock;
    pthread_cond_t more;
    int answered;
} box;

static void into_box(dw_job *job)
{
    box *b = job->owner;
    pthread_mutex_lock(&b->lock);
    b->answered++;
    pthread_cond_signal(&b->more);
    pthread_mutex_unlock(&b->lock);
}

static void await(box *b, int answered)
{
    pthread_mutex_lock(&b->lock);
    while (b->answered < answered)
        pthread_cond_wait(&b->more, &b->lock);
    pthread_mutex_unlock(&b->lock);
}

static dw_job make_job(const dw_op *op, const char *body, box *b)
{
    return (dw_job){.op = op,
                    .body = body,
                    .body_bytes = strlen(body),
                    .done = into_box,
                    .owner = b};
}

/* The first job holds the writer, so that the others wait as one group. */
static void submit_group(dw_app *app, dw_job *jobs, int count)
{
    dw_app_submit(app, &jobs[0]);
    notes_await_hold();
    for (int i = 1; i < count; i++)
        dw_app_submit(app, &jobs[i]);
}

#define BOX                                                                    \
    {                                                                          \
        PTHREAD_MUTEX_INITIALIZER, PTHREAD_COND_INITIALIZER, 0                 \
    }

TEST(in_a_group_a_refused_job_takes_no_other_with_it, LIMIT, "app.h")
{
    notes n;
    notes_start(&n);
    box b = BOX;
    dw_job jobs[] = {make_job(&notes_hold, "", &b),
                     make_job(&notes_add, "text=a", &b),
                     make_job(&notes_refuse, "text=b", &b),
                     make_job(&notes_add, "text=c", &b)};
    submit_group(n.app, jobs, 4);
    notes_let_go();
    await(&b, 4);
    SAME(jobs[1].status, DW_OK);
    SAME(jobs[2].status, DW_E_USED);
    SAME(jobs[3].status, DW_OK);
    SAME(notes_number(n.path, "SELECT count(*) AS count FROM note"
                              " WHERE text IN ('a', 'c')"),
         2);
    SAME(notes_number(n.path, count_notes), 2);
    SAME(notes_number(n.path, count_journal), 3);
    CHECK(notes_journal_holds(n.path));
    notes_stop(&n);
}

TEST(a_full_disk_fails_the_job_that_filled_it_and_no_other, LIMIT, "app.h")
{
    notes n;
    notes_start(&n);
    box b = BOX;
    SAME(notes_perform(n.app, &notes_limit, "bytes=400000").status, DW_OK);
    dw_job jobs[] = {make_job(&notes_hold, "", &b),
                     make_job(&notes_add, "text=a", &b),
                     make_job(&notes_fill, "bytes=9000000", &b),
                     make_job(&notes_add, "text=c", &b)};
    submit_group(n.app, jobs, 4);
    notes_let_go();
    await(&b, 4);
    SAME(jobs[1].status, DW_OK);
    SAME(jobs[2].status, DW_E_STORE);
    SAME_TEXT(jobs[2].err.sentence,
              "could not be stored: the disk is full; nothing was changed");
    SAME(jobs[3].status, DW_OK);
    SAME(notes_number(n.path, count_notes), 2);
    SAME(notes_number(n.path, count_journal), 4);
    CHECK(notes_journal_holds(n.path));
    notes_stop(&n);
}

typedef struct closing {
    dw_app *app;
    box b;
} closing;

/* While the writer is held, closing waits for it; once new jobs are turned
 * away, closing has begun. */
static void *let_go_once_closing(void *argument)
{
    closing *c = argument;
    for (int asked = 1;; asked++) {
        dw_job probe = make_job(&notes_echo, "text=probe", &c->b);
        dw_app_submit(c->app, &probe);
        await(&c->b, asked);
        if (probe.status == DW_E_BUSY)
            break;
        usleep(2000);
    }
    notes_let_go();
    return NULL;
}

TEST(closing_finishes_what_runs_and_answers_the_rest_busy, LIMIT, "app.h")
{
    notes n;
    notes_start(&n);
    box b = BOX;
    closing c = {n.app, BOX};
    dw_job jobs[] = {make_job(&notes_hold, "", &b),
                     make_job(&notes_add, "text=a", &b),
                     make_job(&notes_add, "text=b", &b)};
    submit_group(n.app, jobs, 3);
    pthread_t thread;
    NEED(pthread_create(&thread, NULL, let_go_once_closing, &c) == 0);
    dw_app_free(n.app);
    n.app = NULL;
    pthread_join(thread, NULL);
    SAME(b.answered, 3);
    SAME(jobs[0].status, DW_OK);
    SAME(jobs[1].status, DW_E_BUSY);
    SAME(jobs[2].status, DW_E_BUSY);
    SAME(notes_number(n.path, count_journal), 1);
    notes_stop(&n);
}

typedef struct seen {
    int times;
    char last[40];
} seen;

static void see(void *owner, const char *op)
{
    seen *s = owner;
    s->times++;
    snprintf(s->last, sizeof s->last, "%s", op);
}

TEST(the_watcher_hears_of_every_write_that_changed_something, LIMIT, "app.h")
{
    notes n;
    notes_start(&n);
    seen s = {0, ""};
    dw_app_watch(n.app, see, &s);
    notes_perform_keyed(n.app, &notes_add, "text=a", "t", "k");
    SAME(s.times, 1);
    SAME_TEXT(s.last, "note.add");
    notes_perform_keyed(n.app, &notes_add, "text=a", "t", "k"); /* replayed */
    notes_perform(n.app, &notes_refuse, "text=a");
    notes_perform(n.app, &notes_count, "");
    SAME(s.times, 1);
    notes_stop(&n);
}

TEST(a_job_that_needs_more_memory_than_there_is_fails_alone, LIMIT, "app.h")
{
    notes n;
    notes_make(&n);
    const dw_app_options options = {.path = n.path,
                                    .readers = 1,
                                    .codec = &notes_codec,
                                    .arena_bytes = 65536};
    NEED(dw_app_open(&options, &n.app, NULL) == DW_OK);
    SAME(notes_perform(n.app, &notes_fill, "bytes=200000").status, DW_E_ROOM);
    for (int i = 0; i < 40; i++) /* the arena is emptied after each */
        SAME(notes_perform(n.app, &notes_fill, "bytes=30000").status, DW_OK);
    SAME(notes_number(n.path, count_notes), 40);
    notes_stop(&n);
}
