#include "dw_test.h"

#include "client.h"
#include "fake_app.h"
#include "os/clock.h"

#include <stdlib.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#define POST_ECHO "POST /api/v1/test.echo HTTP/1.1\r\n"
#define JSON "Content-Type: application/json\r\n"
#define BODY "\r\n{\"text\":\"x\"}"

static const struct {
    int status; /* 0: any refusal, or just the end of the connection */
    const char *text;
} nasty[] = {
    /* another name for our address */
    {403,
     POST_ECHO "Host: evil.example\r\n" JSON "Content-Length: 12\r\n" BODY},
    {403, "GET /today HTTP/1.1\r\nHost: evil.example\r\n\r\n"},
    {0, POST_ECHO JSON "Content-Length: 12\r\n" BODY},
    {400, POST_ECHO "Host: localhost\r\nHost: evil.example\r\n" JSON
                    "Content-Length: 12\r\n" BODY},
    /* another site's page */
    {403, POST_ECHO "Host: localhost\r\nOrigin: http://evil.example\r\n" JSON
                    "Content-Length: 12\r\n" BODY},
    {403, POST_ECHO "Host: localhost\r\nOrigin: null\r\n" JSON
                    "Content-Length: 12\r\n" BODY},
    {403, POST_ECHO "Host: localhost\r\nSec-Fetch-Site: cross-site\r\n" JSON
                    "Content-Length: 12\r\n" BODY},
    {403, "GET /api/v1/events HTTP/1.1\r\nHost: localhost\r\n"
          "Sec-Fetch-Site: cross-site\r\n\r\n"},
    /* what a form can send */
    {415, POST_ECHO "Host: localhost\r\nContent-Type: text/plain\r\n"
                    "Content-Length: 12\r\n" BODY},
    {415, POST_ECHO "Host: localhost\r\nContent-Length: 12\r\n" BODY},
    /* two ends of one body */
    {400, POST_ECHO "Host: localhost\r\n" JSON
                    "Content-Length: 12\r\nContent-Length: 12\r\n" BODY},
    {400, POST_ECHO "Host: localhost\r\n" JSON
                    "Content-Length: 12\r\nContent-Length: 13\r\n" BODY},
    {400, POST_ECHO "Host: localhost\r\n" JSON "Content-Length: 12\r\n"
                    "Transfer-Encoding: chunked\r\n" BODY},
    {400, POST_ECHO "Host: localhost\r\n" JSON "Transfer-Encoding: chunked\r\n"
                    "Transfer-Encoding: identity\r\n" BODY},
    {0,
     POST_ECHO "Host: localhost\r\n" JSON "Transfer-Encoding: gzip\r\n" BODY},
    {0, POST_ECHO "Host: localhost\r\n" JSON "Content-Length: +12\r\n" BODY},
    {0, POST_ECHO "Host: localhost\r\n" JSON "Content-Length: -1\r\n" BODY},
    {0, POST_ECHO "Host: localhost\r\n" JSON "Content-Length: 0x0c\r\n" BODY},
    {0, POST_ECHO "Host: localhost\r\n" JSON "Content-Length: 12, 12\r\n" BODY},
    {400, POST_ECHO "Host: localhost\r\n" JSON
                    "Content-Length : 12\r\nContent-Length: 13\r\n" BODY},
    /* not HTTP */
    {0, "\x16\x03\x01\x02\x01\x01\r\n\r\n"},
    {0, "GET\r\n\r\n"},
    {0, "GET / HTTP/9.9\r\nHost: localhost\r\n\r\n"},
};

TEST(requests_that_lie_are_refused_and_reach_no_operation, DERIVED,
     "RFC 9112 section 6.3 and 11.2, request smuggling")
{
    bench b;
    NEED(bench_open(&b, NULL));
    for (size_t i = 0; i < DW_COUNT(nasty); i++) {
        answer a = client_ask(&b, nasty[i].text);
        bool refused = a.status == 0 || a.status >= 400;
        if (!refused || (nasty[i].status && a.status != nasty[i].status))
            dw_test_fail(__FILE__, __LINE__, "row %zu: %d %s", i, a.status,
                         a.body ? a.body : "");
        answer_free(&a);
    }
    SAME(fake_app_arrived(b.app), 0);
    answer a = client_request(&b, "POST", "/api/v1/test.echo", "",
                              "{\"text\":\"still here\"}");
    SAME(a.status, 200);
    answer_free(&a);
    bench_close(&b);
}

TEST(a_request_with_two_ends_loses_its_connection, DERIVED,
     "RFC 9112 section 6.3: the server must close it")
{
    bench b;
    NEED(bench_open(&b, NULL));
    int fd = client_connect(&b);
    client_say(fd, POST_ECHO "Host: localhost\r\n" JSON
                             "Content-Length: 4\r\nTransfer-Encoding: chunked"
                             "\r\n\r\n0\r\n\r\n"
                             "GET /icon.svg HTTP/1.1\r\n"
                             "Host: localhost\r\n\r\n");
    answer a = client_read(fd);
    SAME(a.status, 400);
    CHECK(a.closes);
    answer_free(&a);
    CHECK(client_sees_end(fd, 3000));
    close(fd);
    bench_close(&b);
}

static void impatient(dw_server_options *options)
{
    options->patience_ms = 400;
}

TEST(a_client_that_drips_its_head_loses_its_place, DERIVED,
     "patience 0.4 s; a byte every 0.1 s")
{
    bench b;
    NEED(bench_open(&b, impatient));
    int fd = client_connect(&b);
    client_say(fd, "GET / HTTP/1.1\r\nHost: localhost\r\nX: ");
    int64_t began = dw_clock_steady_ms();
    int dripped = 0;
    while (dripped < 40 && client_say(fd, "a") && !client_sees_end(fd, 100))
        dripped++;
    int64_t took = dw_clock_steady_ms() - began;
    CHECK(dripped >= 2 && took >= 300 && took < 2000);
    close(fd);
    bench_close(&b);
}

TEST(long_a_client_that_drips_its_body_loses_its_place, DERIVED,
     "six times the patience of 0.4 s")
{
    bench b;
    NEED(bench_open(&b, impatient));
    int fd = client_connect(&b);
    client_say(fd, POST_ECHO "Host: localhost\r\n" JSON
                             "Content-Length: 1000\r\n\r\n{");
    int64_t began = dw_clock_steady_ms();
    int dripped = 0;
    while (dripped < 60 && client_say(fd, " ") && !client_sees_end(fd, 100))
        dripped++;
    int64_t took = dw_clock_steady_ms() - began;
    CHECK(took >= 2000 && took < 4500);
    close(fd);
    bench_close(&b);
}

static void small(dw_server_options *options)
{
    options->connections = 4;
}

TEST(connections_beyond_the_limit_wait_for_a_place, DERIVED, "4 places")
{
    bench b;
    NEED(bench_open(&b, small));
    int fds[6];
    int served = 0;
    for (size_t i = 0; i < DW_COUNT(fds); i++) {
        fds[i] = client_connect(&b);
        struct timeval patience = {0, i < 4 ? 900000 : 200000};
        setsockopt(fds[i], SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
        client_say(fds[i], "GET /icon.svg HTTP/1.1\r\n"
                           "Host: localhost\r\n\r\n");
        answer a = client_read(fds[i]);
        served += a.status == 200;
        answer_free(&a);
    }
    SAME(served, 4);
    for (size_t i = 0; i < DW_COUNT(fds); i++)
        close(fds[i]);
    answer a = client_request(&b, "GET", "/icon.svg", "", NULL);
    SAME(a.status, 200);
    answer_free(&a);
    bench_close(&b);
}

TEST(random_bytes_do_no_harm, LIMIT, "splitmix64, seed 7")
{
    bench b;
    NEED(bench_open(&b, NULL));
    unsigned long long seed = 7;
    for (int i = 0; i < 200; i++) {
        char text[600] = "POST /api/v1/test.echo HTTP/1.1\r\n";
        size_t n = i % 2 ? strlen(text) : 0;
        while (n < sizeof text)
            text[n++] = (char)dw_test_bits(&seed);
        int fd = client_connect(&b);
        client_send(fd, text, sizeof text);
        close(fd);
    }
    answer a = client_request(&b, "GET", "/icon.svg", "", NULL);
    SAME(a.status, 200);
    SAME(fake_app_arrived(b.app), 0);
    answer_free(&a);
    bench_close(&b);
}
