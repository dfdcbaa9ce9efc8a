/* Papers as a page gets them: over HTTP, drawn by the application. */
#include "pdf.h"

#include "dw_test.h"
#include "http/server.h"
#include "os/clock.h"

#include <arpa/inet.h>
#include <stdlib.h>
#include <sys/socket.h>
#include <unistd.h>

/* The whole answer to one GET, head and body. Static, overwritten. */
static const char *get(int port, const char *path)
{
    static char answer[1 << 18];
    char asked[512];
    struct sockaddr_in at = {.sin_family = AF_INET,
                             .sin_port = htons((uint16_t)port)};
    size_t n = 0;
    int fd = socket(AF_INET, SOCK_STREAM, 0);
    at.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    snprintf(asked, sizeof asked,
             "GET %s HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n",
             path);
    if (connect(fd, (struct sockaddr *)&at, sizeof at) == 0 &&
        write(fd, asked, strlen(asked)) == (ssize_t)strlen(asked))
        for (ssize_t got;
             n < sizeof answer - 1 &&
             (got = read(fd, answer + n, sizeof answer - 1 - n)) > 0;)
            n += (size_t)got;
    answer[n] = '\0';
    close(fd);
    return answer;
}

static bool begins(const char *answer, const char *status, const char *type)
{
    const char *body = strstr(answer, "\r\n\r\n");
    return strncmp(answer, status, strlen(status)) == 0 && body &&
           strstr(answer, type) && strstr(answer, type) < body;
}

TEST(a_page_gets_its_papers_by_their_address, DERIVED, "written by hand")
{
    business b;
    dw_server *server;
    dw_err err;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    dw_server_options options = {
        .app = b.app, .address = "127.0.0.1", .now_ms = dw_clock_now_ms};
    NEED(dw_server_open(&options, &server, &err) == DW_OK);
    int port = dw_server_port(server);
    const char *is_pdf = "Content-Type: application/pdf";
    const char *is_json = "Content-Type: application/json";
    const char *a = get(port, "/paper/batch.pdf?id=1&size=letter&lang=es");
    CHECK(begins(a, "HTTP/1.1 200", is_pdf));
    CHECK(strncmp(strstr(a, "\r\n\r\n") + 4, "%PDF-", 5) == 0);
    a = get(port, "/paper/scale.pdf?id=1&target=%7B%22dough_kg%22%3A12%7D");
    CHECK(begins(a, "HTTP/1.1 200", is_pdf));
    a = get(port, "/paper/batch.pdf");
    CHECK(begins(a, "HTTP/1.1 422", is_json) && strstr(a, "\"field\":\"id\""));
    a = get(port, "/paper/batch.pdf?id=1&colour=red");
    CHECK(begins(a, "HTTP/1.1 400", is_json) &&
          strstr(a, "\"field\":\"colour\""));
    a = get(port, "/paper/batch.pdf?id=77");
    CHECK(begins(a, "HTTP/1.1 404", is_json));
    a = get(port, "/paper/poster.pdf?id=1");
    CHECK(begins(a, "HTTP/1.1 404", is_json));
    dw_server_free(server);
    business_stop(&b);
}

TEST(a_calendar_is_subscribed_to_by_its_key_alone, DERIVED, "written by hand")
{
    business b;
    dw_server *server;
    dw_err err;
    char path[96];
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "batch.plan",
                "{'day':20612,'pieces':[{'product_id':1,'balls':80}]}");
    business_do(&b, "calendar.share", "{}");
    snprintf(path, sizeof path, "/calendar/%s.ics", business_text(&b, "key"));
    dw_server_options options = {
        .app = b.app, .address = "127.0.0.1", .now_ms = dw_clock_now_ms};
    NEED(dw_server_open(&options, &server, &err) == DW_OK);
    int port = dw_server_port(server);
    const char *a = get(port, path);
    CHECK(begins(a, "HTTP/1.1 200", "Content-Type: text/calendar"));
    CHECK(strstr(a, "\r\n\r\nBEGIN:VCALENDAR\r\n"));
    CHECK(strstr(a, "SUMMARY:Mix batch 1: White dough\r\n"));
    path[10] = path[10] == '0' ? '1' : '0';
    CHECK(strncmp(get(port, path), "HTTP/1.1 404", 12) == 0);
    CHECK(strncmp(get(port, "/calendar/a.ics"), "HTTP/1.1 404", 12) == 0);
    dw_server_free(server);
    business_stop(&b);
}
