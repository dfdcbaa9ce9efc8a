#include "dw_test.h"

#include "client.h"
#include "fake_app.h"

#include <stdlib.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

enum { LISTENERS = 50 };

static int listen_to(const bench *b)
{
    int fd = client_connect(b);
    client_say(fd, "GET /api/v1/events HTTP/1.1\r\nHost: localhost\r\n\r\n");
    return fd;
}

/* Read until `wanted` has come, or the connection is silent for 5 s. */
static bool hears(int fd, const char *wanted)
{
    char text[32768];
    size_t n = 0;
    ssize_t got;
    while (n + 1 < sizeof text &&
           (got = recv(fd, text + n, sizeof text - 1 - n, 0)) > 0) {
        n += (size_t)got;
        text[n] = '\0';
        if (strstr(text, wanted))
            return true;
    }
    return false;
}

/* The same, however much comes before. */
static bool hears_through(int fd, const char *wanted)
{
    char text[8192];
    size_t kept = 0, tail = strlen(wanted) - 1;
    ssize_t got;
    while ((got = recv(fd, text + kept, sizeof text - 1 - kept, 0)) > 0) {
        size_t n = kept + (size_t)got;
        text[n] = '\0';
        if (strstr(text, wanted))
            return true;
        kept = n < tail ? n : tail;
        memmove(text, text + n - kept, kept);
    }
    return false;
}

TEST(fifty_listeners_hear_of_every_write, DERIVED,
     "HTML Standard, server-sent events: event and data lines")
{
    bench b;
    NEED(bench_open(&b, NULL));
    int fds[LISTENERS];
    for (int i = 0; i < LISTENERS; i++) {
        fds[i] = listen_to(&b);
        CHECK(hears(fds[i], "retry: 3000\n\n"));
    }
    fake_app_wrote(b.app, "batch.reading");
    for (int i = 0; i < LISTENERS; i++)
        CHECK(hears(fds[i],
                    "event: changed\ndata: {\"op\":\"batch.reading\"}\n\n"));
    for (int i = 0; i < 20; i++)
        fake_app_wrote(b.app, i < 19 ? "count.add" : "stack.move");
    for (int i = 0; i < LISTENERS; i++)
        CHECK(hears(fds[i], "stack.move"));
    for (int i = 0; i < LISTENERS; i++)
        close(fds[i]);
    bench_close(&b);
}

TEST(a_stream_is_of_the_right_type_and_never_kept, PUBLISHED,
     "HTML Standard section 9.2, text/event-stream")
{
    bench b;
    NEED(bench_open(&b, NULL));
    int fd = listen_to(&b);
    answer a = client_read(fd); /* no length: the head alone */
    SAME(a.status, 200);
    SAME_TEXT(answer_header(&a, "Content-Type"), "text/event-stream");
    SAME_TEXT(answer_header(&a, "Cache-Control"), "no-store");
    answer_free(&a);
    close(fd);
    bench_close(&b);
}

TEST(a_listener_that_fell_behind_is_told_that_anything_changed, DERIVED,
     "the ring holds 64")
{
    bench b;
    NEED(bench_open(&b, NULL));
    int fd = listen_to(&b);
    CHECK(hears(fd, "retry"));
    fake_app_wrote(b.app, "count.add");
    CHECK(hears(fd, "count.add"));
    /* Far more than the sockets and the ring can hold for one that does not
     * read; how much of it is sent before the ring turns is up to the machine.
     */
    for (int i = 0; i < 200000; i++)
        fake_app_wrote(b.app, "count.add");
    CHECK(hears_through(fd, "{\"op\":\"\"}"));
    close(fd);
    bench_close(&b);
}

TEST(listeners_are_let_go_when_the_server_ends, DERIVED,
     "LIBRARIES: resume every suspended connection before stopping")
{
    bench b;
    NEED(bench_open(&b, NULL));
    int fds[4];
    for (int i = 0; i < 4; i++) {
        fds[i] = listen_to(&b);
        CHECK(hears(fds[i], "retry"));
    }
    dw_server_free(b.server);
    for (int i = 0; i < 4; i++) {
        CHECK(client_sees_end(fds[i], 3000));
        close(fds[i]);
    }
    fake_app_free(b.app);
}

TEST(long_a_quiet_stream_shows_that_it_is_alive, DERIVED,
     "a comment every 15 s")
{
    bench b;
    NEED(bench_open(&b, NULL));
    int fd = listen_to(&b);
    struct timeval patience = {20, 0};
    setsockopt(fd, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    CHECK(hears(fd, ": here\n\n"));
    CHECK(hears(fd, ": here\n\n"));
    CHECK(hears(fd, ": here\n\n"));
    close(fd);
    bench_close(&b);
}
