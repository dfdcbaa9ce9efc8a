#include "client.h"

#include "fake_app.h"
#include "os/clock.h"

#include <arpa/inet.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

bool bench_open(bench *b, void (*change)(dw_server_options *options))
{
    b->app = fake_app_new();
    dw_server_options options = {
        .app = b->app, .address = "127.0.0.1", .now_ms = dw_clock_now_ms};
    if (change)
        change(&options);
    dw_err err;
    if (dw_server_open(&options, &b->server, &err) == DW_OK) {
        b->port = dw_server_port(b->server);
        return true;
    }
    printf("  %s %s\n", err.field, err.value);
    fake_app_free(b->app);
    return false;
}

void bench_close(bench *b)
{
    dw_server_free(b->server);
    fake_app_free(b->app);
}

int client_connect(const bench *b)
{
    int fd = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    struct timeval patience = {5, 0};
    setsockopt(fd, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    struct sockaddr_in to = {.sin_family = AF_INET,
                             .sin_port = htons((uint16_t)b->port),
                             .sin_addr = {htonl(INADDR_LOOPBACK)}};
    if (connect(fd, (struct sockaddr *)&to, sizeof to) != 0) {
        close(fd);
        return -1;
    }
    return fd;
}

bool client_send(int fd, const char *bytes, size_t count)
{
    while (count > 0) {
        ssize_t n = send(fd, bytes, count, MSG_NOSIGNAL);
        if (n <= 0)
            return false;
        bytes += n;
        count -= (size_t)n;
    }
    return true;
}

bool client_say(int fd, const char *text)
{
    return client_send(fd, text, strlen(text));
}

/* Byte by byte up to the empty line: the body stays in the socket. */
static bool read_head(int fd, char *head, size_t room)
{
    size_t n = 0;
    while (n + 1 < room && recv(fd, head + n, 1, 0) == 1) {
        head[++n] = '\0';
        if (n >= 4 && memcmp(head + n - 4, "\r\n\r\n", 4) == 0)
            return true;
    }
    return false;
}

const char *answer_header(const answer *a, const char *name)
{
    static char value[1024];
    size_t n = strlen(name);
    for (const char *at = strstr(a->head, "\r\n"); at && at[2];
         at = strstr(at + 2, "\r\n")) {
        const char *line = at + 2;
        if (strncasecmp(line, name, n) != 0 || line[n] != ':')
            continue;
        line += n + 1 + strspn(line + n + 1, " ");
        snprintf(value, sizeof value, "%.*s", (int)strcspn(line, "\r"), line);
        return value;
    }
    return NULL;
}

answer client_read(int fd)
{
    answer a = {0};
    do { /* past 100 Continue */
        if (!read_head(fd, a.head, sizeof a.head) ||
            sscanf(a.head, "HTTP/1.1 %d", &a.status) != 1)
            return a;
    } while (a.status == 100);
    const char *close_told = answer_header(&a, "Connection");
    a.closes = close_told && strcasecmp(close_told, "close") == 0;
    const char *length = answer_header(&a, "Content-Length");
    size_t wanted = length ? strtoul(length, NULL, 10) : 0;
    a.body = calloc(1, wanted + 1);
    while (a.body_bytes < wanted) {
        ssize_t n = recv(fd, a.body + a.body_bytes, wanted - a.body_bytes, 0);
        if (n <= 0)
            break;
        a.body_bytes += (size_t)n;
    }
    return a;
}

void answer_free(answer *a)
{
    free(a->body);
    a->body = NULL;
}

answer client_ask(const bench *b, const char *text)
{
    int fd = client_connect(b);
    client_say(fd, text);
    answer a = client_read(fd);
    close(fd);
    return a;
}

answer client_request(const bench *b, const char *method, const char *path,
                      const char *lines, const char *body)
{
    char *text = NULL;
    int n = body
                ? asprintf(&text,
                           "%s %s HTTP/1.1\r\nHost: localhost\r\n"
                           "Content-Type: application/json\r\n"
                           "Content-Length: %zu\r\n%s\r\n%s",
                           method, path, strlen(body), lines, body)
                : asprintf(&text, "%s %s HTTP/1.1\r\nHost: localhost\r\n%s\r\n",
                           method, path, lines);
    answer a = {0};
    if (n >= 0)
        a = client_ask(b, text);
    free(text);
    return a;
}

bool client_sees_end(int fd, int ms)
{
    int64_t until_ms = dw_clock_steady_ms() + ms;
    char byte[256];
    for (;;) {
        int left = (int)(until_ms - dw_clock_steady_ms());
        struct pollfd wait = {fd, POLLIN, 0};
        if (left <= 0 || poll(&wait, 1, left) <= 0)
            return false;
        if (recv(fd, byte, sizeof byte, 0) <= 0)
            return true;
    }
}
