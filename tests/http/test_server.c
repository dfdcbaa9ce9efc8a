#include "dw_test.h"

#include "client.h"
#include "fake_app.h"
#include "os/clock.h"

#include <stdlib.h>
#include <sys/socket.h>
#include <unistd.h>

#define ECHO "/api/v1/test.echo"

TEST(an_operation_answers_with_its_reply, DERIVED, "worked by hand")
{
    bench b;
    NEED(bench_open(&b, NULL));
    int64_t before = dw_clock_now_ms();
    answer a = client_request(&b, "POST", ECHO,
                              "Doughwright-Device: bench tablet\r\n"
                              "Idempotency-Key: k-1\r\n"
                              "Doughwright-Person: 7\r\n"
                              "Doughwright-Occurred: 1700000000123\r\n"
                              "Accept-Language: fr, es-MX;q=0.8, en\r\n",
                              "{\"text\":\"dough\"}");
    SAME(a.status, 200);
    SAME_TEXT(a.body, "{\"text\":\"dough\",\"device\":\"bench tablet\","
                      "\"key\":\"k-1\",\"lang\":\"es\",\"person_id\":7,"
                      "\"occurred_ms\":1700000000123}");
    const char *now = answer_header(&a, "Doughwright-Now");
    CHECK(now && strtoll(now, NULL, 10) >= before);
    SAME_TEXT(answer_header(&a, "Content-Type"), "application/json");
    SAME_TEXT(answer_header(&a, "Cache-Control"), "no-store");
    CHECK(!a.closes);
    answer_free(&a);
    bench_close(&b);
}

TEST(lang_in_the_address_wins_over_the_browsers, DERIVED, "worked by hand")
{
    bench b;
    NEED(bench_open(&b, NULL));
    answer a = client_request(&b, "POST", ECHO "?lang=en",
                              "Accept-Language: es\r\n", "{\"text\":\"x\"}");
    CHECK(a.body && strstr(a.body, "\"lang\":\"en\""));
    answer_free(&a);
    bench_close(&b);
}

TEST(text_goes_packed_to_a_browser_that_takes_gzip, PUBLISHED,
     "RFC 1952 section 2.3.1: gzip begins 1f 8b; RFC 9110 8.4.1, 12.5.3")
{
    bench b;
    NEED(bench_open(&b, NULL));
    answer plain = client_request(&b, "GET", "/app.js", "", NULL);
    SAME(plain.status, 200);
    CHECK(!answer_header(&plain, "Content-Encoding"));
    answer packed = client_request(&b, "GET", "/app.js",
                                   "Accept-Encoding: gzip, br\r\n", NULL);
    SAME_TEXT(answer_header(&packed, "Content-Encoding"), "gzip");
    SAME_TEXT(answer_header(&packed, "Vary"), "Accept-Encoding");
    CHECK(packed.body_bytes < plain.body_bytes);
    NEED(packed.body_bytes > 2);
    SAME((unsigned char)packed.body[0], 0x1f);
    SAME((unsigned char)packed.body[1], 0x8b);
    answer refused = client_request(&b, "GET", "/app.js",
                                    "Accept-Encoding: gzip;q=0\r\n", NULL);
    CHECK(!answer_header(&refused, "Content-Encoding"));
    answer_free(&plain);
    answer_free(&packed);
    answer_free(&refused);
    bench_close(&b);
}

TEST(a_kept_file_is_not_sent_again_packed_or_not, DERIVED,
     "RFC 9110 13.1.2: each representation by its own tag")
{
    bench b;
    NEED(bench_open(&b, NULL));
    static const char *const takes[] = {"", "Accept-Encoding: gzip\r\n"};
    char tags[2][64];
    for (size_t i = 0; i < DW_COUNT(takes); i++) {
        char lines[200];
        answer first = client_request(&b, "GET", "/app.js", takes[i], NULL);
        const char *tag = answer_header(&first, "ETag");
        NEED(tag);
        snprintf(tags[i], sizeof tags[i], "%s", tag);
        snprintf(lines, sizeof lines, "%sIf-None-Match: %s\r\n", takes[i],
                 tags[i]);
        answer again = client_request(&b, "GET", "/app.js", lines, NULL);
        SAME(again.status, 304);
        answer_free(&first);
        answer_free(&again);
    }
    CHECK(strcmp(tags[0], tags[1]) != 0);
    bench_close(&b);
}

/* status, method, path, header lines, body, what the error says */
static const struct {
    int status;
    const char *method, *path, *lines, *body, *says;
} refusals[] = {
    {400, "POST", ECHO, "", "{\"text\":", "not_understood"},
    {400, "POST", ECHO, "", "", "not_understood"},
    {400, "POST", ECHO, "", "{\"text\":\"\xc3\x28\"}", "not_understood"},
    {400, "POST", ECHO, "", "{\"text\":\"a\",\"tekst\":1}",
     "\"field\":\"tekst\""},
    {400, "POST", ECHO, "", "{\"text\":5}", "\"field\":\"text\""},
    {422, "POST", ECHO, "", "{}", "\"field\":\"text\""},
    {422, "POST", "/api/v1/test.refuse", "", "{\"text\":\"x\"}",
     "\"high\":100"},
    {404, "POST", "/api/v1/test.nothing", "", "{}", "test.nothing"},
    {404, "GET", "/api/v2/x", "", NULL, "\"field\":\"path\""},
    {404, "GET", "/nothing.js", "", NULL, "nothing.js"},
    {405, "GET", ECHO, "", NULL, "wrong_method"},
    {405, "DELETE", "/today", "", NULL, "wrong_method"},
    {422, "POST", ECHO, "Doughwright-Person: 99999999999999999999\r\n", "{}",
     "Doughwright-Person"},
    {400, "POST", ECHO, "Doughwright-Occurred: -5\r\n", "{}",
     "Doughwright-Occurred"},
    {400, "POST", ECHO, "Doughwright-Device: \xff\xfe\r\n", "{}",
     "Doughwright-Device"},
    {404, "POST", "/api/login", "", "{\"password\":\"x\"}", "password"},
    {404, "GET", "/shop-certificate.pem", "", NULL, "path"},
};

TEST(bad_input_gets_one_clear_error, DERIVED, "DESIGN: one list of statuses")
{
    bench b;
    NEED(bench_open(&b, NULL));
    for (size_t i = 0; i < DW_COUNT(refusals); i++) {
        answer a = client_request(&b, refusals[i].method, refusals[i].path,
                                  refusals[i].lines, refusals[i].body);
        if (a.status != refusals[i].status || !a.body ||
            !strstr(a.body, refusals[i].says) ||
            strncmp(a.body, "{\"error\":{\"code\":", 17) != 0)
            dw_test_fail(__FILE__, __LINE__, "row %zu: %d %s", i, a.status,
                         a.body ? a.body : "");
        answer_free(&a);
    }
    bench_close(&b);
}

TEST(a_wrong_method_is_told_the_right_one, PUBLISHED,
     "RFC 9110 section 15.5.6, 405 must carry Allow")
{
    bench b;
    NEED(bench_open(&b, NULL));
    answer a = client_request(&b, "GET", ECHO, "", NULL);
    SAME_TEXT(answer_header(&a, "Allow"), "POST");
    answer_free(&a);
    bench_close(&b);
}

TEST(ten_megabytes_are_refused_and_the_connection_lives_on, DERIVED,
     "the limit is 8 MiB")
{
    bench b;
    NEED(bench_open(&b, NULL));
    int fd = client_connect(&b);
    size_t bytes = 10000000;
    char *body = malloc(bytes);
    memset(body, 'a', bytes);
    client_say(fd, "POST " ECHO " HTTP/1.1\r\nHost: localhost\r\n"
                   "Content-Type: application/json\r\n"
                   "Content-Length: 10000000\r\n\r\n");
    CHECK(client_send(fd, body, bytes));
    answer a = client_read(fd);
    SAME(a.status, 413);
    CHECK(a.body && strstr(a.body, "\"high\":8388608"));
    answer_free(&a);
    client_say(fd, "GET /icon.svg HTTP/1.1\r\nHost: localhost\r\n\r\n");
    a = client_read(fd);
    SAME(a.status, 200);
    answer_free(&a);
    close(fd);
    SAME(fake_app_arrived(b.app), 0);
    free(body);
    bench_close(&b);
}

TEST(a_body_without_end_is_cut_off, DERIVED, "drained up to 32 MiB")
{
    bench b;
    NEED(bench_open(&b, NULL));
    answer a = client_ask(&b, "POST " ECHO " HTTP/1.1\r\nHost: localhost\r\n"
                              "Content-Type: application/json\r\n"
                              "Content-Length: 99000000000\r\n\r\n");
    SAME(a.status, 413);
    CHECK(a.closes);
    answer_free(&a);
    int fd = client_connect(&b);
    client_say(fd, "POST " ECHO " HTTP/1.1\r\nHost: localhost\r\n"
                   "Content-Type: application/json\r\n"
                   "Transfer-Encoding: chunked\r\n\r\n");
    static char chunk[65536 + 32];
    int head = snprintf(chunk, sizeof chunk, "10000\r\n");
    memset(chunk + head, 'a', 65536);
    memcpy(chunk + head + 65536, "\r\n", 2);
    int sent = 0;
    while (sent < 2000 && client_send(fd, chunk, (size_t)head + 65538))
        sent++;
    CHECK(sent < 1000); /* 62 MiB, sockets' own room included */
    close(fd);
    bench_close(&b);
}

TEST(a_chunked_body_is_taken_whole, DERIVED, "RFC 9112 section 7.1")
{
    bench b;
    NEED(bench_open(&b, NULL));
    answer a = client_ask(&b, "POST " ECHO " HTTP/1.1\r\nHost: localhost\r\n"
                              "Content-Type: application/json\r\n"
                              "Transfer-Encoding: chunked\r\n\r\n"
                              "5\r\n{\"tex\r\n8\r\nt\":\"ok\"}\r\n0\r\n\r\n");
    SAME(a.status, 200);
    CHECK(a.body && strstr(a.body, "\"text\":\"ok\""));
    answer_free(&a);
    bench_close(&b);
}

TEST(pages_come_with_type_tag_and_strict_headers, DERIVED,
     "Content Security Policy Level 3; RFC 9110 section 8.8.3")
{
    bench b;
    NEED(bench_open(&b, NULL));
    answer a = client_request(&b, "GET", "/login.html", "", NULL);
    SAME(a.status, 200);
    SAME_TEXT(answer_header(&a, "Content-Type"), "text/html; charset=utf-8");
    SAME_TEXT(answer_header(&a, "Cache-Control"), "no-cache");
    SAME_TEXT(answer_header(&a, "X-Content-Type-Options"), "nosniff");
    SAME_TEXT(answer_header(&a, "Referrer-Policy"), "no-referrer");
    const char *policy = answer_header(&a, "Content-Security-Policy");
    CHECK(policy && strstr(policy, "default-src 'self'") &&
          strstr(policy, "frame-ancestors 'none'") &&
          !strstr(policy, "unsafe"));
    char line[128];
    const char *tag = answer_header(&a, "ETag");
    NEED(tag != NULL);
    snprintf(line, sizeof line, "If-None-Match: %s\r\n", tag);
    answer again = client_request(&b, "GET", "/login.html", line, NULL);
    SAME(again.status, 304);
    SAME(again.body_bytes, 0);
    answer_free(&again);
    answer_free(&a);
    bench_close(&b);
}

TEST(a_head_request_gets_the_head_alone, PUBLISHED,
     "RFC 9110 section 9.3.2, HEAD")
{
    bench b;
    NEED(bench_open(&b, NULL));
    int fd = client_connect(&b);
    client_say(fd, "HEAD /login.html HTTP/1.1\r\nHost: localhost\r\n"
                   "Connection: close\r\n\r\n");
    char text[8192];
    size_t n = 0;
    ssize_t got;
    while ((got = recv(fd, text + n, sizeof text - 1 - n, 0)) > 0)
        n += (size_t)got;
    text[n] = '\0';
    CHECK(strncmp(text, "HTTP/1.1 200", 12) == 0);
    SAME_TEXT(strstr(text, "\r\n\r\n"), "\r\n\r\n");
    close(fd);
    bench_close(&b);
}

static void from_disk(dw_server_options *options)
{
    options->web_dir = DW_TEST_DATA "/..";
}

TEST(pages_from_a_folder_stay_inside_it, DERIVED, "worked by hand")
{
    bench b;
    NEED(bench_open(&b, from_disk));
    answer a = client_request(&b, "GET", "/dw_test.h", "", NULL);
    SAME(a.status, 200);
    answer_free(&a);
    static const char *const climbs[] = {
        "/../meson.build",         "/%2e%2e/meson.build",
        "/data/../../meson.build", "/data%2f..%2f..%2fmeson.build",
        "/..%5cmeson.build",       "//etc/hostname",

        "/dw_test.h%00.js/..",     "/./dw_test.h"};
    for (size_t i = 0; i < DW_COUNT(climbs); i++) {
        a = client_request(&b, "GET", climbs[i], "", NULL);
        if (a.status != 404 && a.status != 400)
            dw_test_fail(__FILE__, __LINE__, "%s: %d", climbs[i], a.status);
        answer_free(&a);
    }
    bench_close(&b);
}

TEST(an_address_that_is_not_one_or_is_taken_is_an_error, DERIVED, "server.h")
{
    bench b;
    NEED(bench_open(&b, NULL));
    dw_server_options options = {.app = b.app,
                                 .address = "127.0.0.1",
                                 .port = dw_server_port(b.server),
                                 .now_ms = dw_clock_now_ms};
    dw_server *other = NULL;
    dw_err err;
    SAME(dw_server_open(&options, &other, &err), DW_E_IO);
    SAME_TEXT(err.field, "listen");
    options.address = "not-an-address";
    SAME(dw_server_open(&options, &other, &err), DW_E_SYNTAX);
    CHECK(other == NULL);
    bench_close(&b);
}

TEST(sleeping_requests_are_answered_before_the_server_ends, DERIVED,
     "LIBRARIES: resume every suspended connection before stopping")
{
    bench b;
    NEED(bench_open(&b, NULL));
    fake_app_hold(b.app, true);
    int fds[8];
    for (size_t i = 0; i < DW_COUNT(fds); i++) {
        fds[i] = client_connect(&b);
        client_say(fds[i], "POST " ECHO " HTTP/1.1\r\nHost: localhost\r\n"
                           "Content-Type: application/json\r\n"
                           "Content-Length: 12\r\n\r\n{\"text\":\"x\"}");
    }
    for (int i = 0; i < 500 && fake_app_arrived(b.app) < 8; i++)
        usleep(10000);
    SAME(fake_app_arrived(b.app), 8);
    close(fds[0]); /* one of them has gone meanwhile */
    fake_app_hold(b.app, false);
    dw_server_free(b.server);
    for (size_t i = 1; i < DW_COUNT(fds); i++) {
        answer a = client_read(fds[i]);
        SAME(a.status, 200);
        answer_free(&a);
        close(fds[i]);
    }
    fake_app_free(b.app);
}
