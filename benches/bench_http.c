/* What HTTP adds to an operation: formula.scale through our server against a
 * bare libmicrohttpd server that answers {} to the same request, both over
 * loopback with the same client, in turns. Also the time from starting the
 * program to its first answer, and its memory at rest.
 *
 * Criterion: an operation over HTTP <= 2 x the bare answer + its own work. */
#include "app/app.h"
#include "door/json.h"
#include "http/server.h"
#include "os/clock.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <microhttpd.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { CONNECTIONS = 16, ROUNDS = 7, REQUESTS = 20000, STARTS = 9 };

static const char body[] =
    "{\"formula\":{\"lines\":[{\"material\":\"strong flour\",\"kind\":"
    "\"flour\",\"percent\":100},{\"material\":\"water\",\"kind\":\"water\","
    "\"percent\":58},{\"material\":\"salt\",\"kind\":\"salt\",\"percent\":1.75}"
    ",{\"material\":\"oil\",\"kind\":\"fat\",\"percent\":2}]},\"target\":"
    "{\"flour_kg\":10}}";

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static double median(double *values, int count)
{
    for (int i = 1; i < count; i++)
        for (int j = i; j > 0 && values[j] < values[j - 1]; j--) {
            double kept = values[j];
            values[j] = values[j - 1];
            values[j - 1] = kept;
        }
    return values[count / 2];
}

/* --- the client ---------------------------------------------------------- */

static int connect_to(int port)
{
    int fd = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    struct sockaddr_in to = {.sin_family = AF_INET,
                             .sin_port = htons((uint16_t)port),
                             .sin_addr = {htonl(INADDR_LOOPBACK)}};
    if (connect(fd, (struct sockaddr *)&to, sizeof to) == 0)
        return fd;
    close(fd);
    return -1;
}

/* Send `request` and read one whole answer; false when it is not a 200. */
static bool send_all(int fd, const char *request)
{
    size_t bytes = strlen(request);
    return send(fd, request, bytes, MSG_NOSIGNAL) == (ssize_t)bytes;
}

static bool read_answer(int fd)
{
    char text[16384];
    size_t n = 0;
    for (;;) {
        ssize_t got = recv(fd, text + n, sizeof text - 1 - n, 0);
        if (got <= 0)
            return false;
        n += (size_t)got;
        text[n] = '\0';
        const char *end = strstr(text, "\r\n\r\n");
        const char *length = strstr(text, "Content-Length: ");
        if (!end || !length)
            continue;
        size_t whole =
            (size_t)(end + 4 - text) + strtoul(length + 16, NULL, 10);
        if (n >= whole)
            return strncmp(text, "HTTP/1.1 200", 12) == 0;
    }
}

/* Seconds for each of REQUESTS, CONNECTIONS of them under way at a time. */
static double measure(int port, const char *request)
{
    struct pollfd fds[CONNECTIONS];
    int sent = 0, answered = 0;
    double began = seconds();
    for (int i = 0; i < CONNECTIONS; i++, sent++) {
        fds[i] = (struct pollfd){connect_to(port), POLLIN, 0};
        send_all(fds[i].fd, request);
    }
    while (answered < REQUESTS) {
        poll(fds, CONNECTIONS, 5000);
        for (int i = 0; i < CONNECTIONS; i++) {
            if (!(fds[i].revents & POLLIN))
                continue;
            if (!read_answer(fds[i].fd)) {
                fprintf(stderr, "bench_http: a request failed\n");
                exit(1);
            }
            answered++;
            if (sent < REQUESTS && ++sent)
                send_all(fds[i].fd, request);
        }
    }
    double took = seconds() - began;
    for (int i = 0; i < CONNECTIONS; i++)
        close(fds[i].fd);
    return took / REQUESTS;
}

static void write_request(char *out, size_t room, const char *op)
{
    snprintf(out, room,
             "POST /api/v1/%s HTTP/1.1\r\nHost: 127.0.0.1\r\n"
             "Content-Type: application/json\r\nContent-Length: %zu\r\n\r\n%s",
             op, sizeof body - 1, body);
}

/* --- what is compared ---------------------------------------------------- */

static enum MHD_Result hello(void *memory, struct MHD_Connection *connection,
                             const char *url, const char *method,
                             const char *version, const char *upload,
                             size_t *bytes, void **kept)
{
    static char mark;
    (void)memory, (void)url, (void)method, (void)version, (void)upload;
    if (!*kept || *bytes > 0) {
        *kept = &mark;
        *bytes = 0;
        return MHD_YES;
    }
    struct MHD_Response *made = MHD_create_response_from_buffer(
        2, (void *)(uintptr_t) "{}", MHD_RESPMEM_PERSISTENT);
    enum MHD_Result sent = MHD_queue_response(connection, 200, made);
    MHD_destroy_response(made);
    return sent;
}

/* The operation's own work: decode, run, encode, on one thread. */
static double own_work(const dw_op *op)
{
    enum { TIMES = 20000, ROOM = 1 << 20 };
    void *block = malloc(ROOM);
    double began = seconds();
    for (int i = 0; i < TIMES; i++) {
        dw_arena arena;
        dw_err err;
        const char *text;
        size_t bytes;
        dw_arena_init(&arena, block, ROOM);
        void *request = dw_arena_take(&arena, op->request->bytes);
        void *reply = dw_arena_take(&arena, op->reply->bytes);
        dw_call call = {.arena = &arena, .err = &err, .lang = "en"};
        if (dw_json_decode(op->request, body, sizeof body - 1, &arena, request,
                           &err) != DW_OK ||
            op->run(&call, request, reply) != DW_OK ||
            dw_json_encode(op->reply, reply, &arena, &text, &bytes) != DW_OK) {
            fprintf(stderr, "bench_http: %s failed\n", op->name);
            exit(1);
        }
    }
    free(block);
    return (seconds() - began) / TIMES;
}

static void bench_op(void)
{
    static const char name[] = "formula.scale";
    dw_app_options app_options = {.readers = 2, .codec = &dw_json_codec};
    dw_server_options options = {.address = "127.0.0.1",
                                 .now_ms = dw_clock_now_ms};
    dw_server *server;
    struct MHD_Daemon *bare =
        MHD_start_daemon(MHD_USE_EPOLL_INTERNAL_THREAD, 0, NULL, NULL, hello,
                         NULL, MHD_OPTION_END);
    if (!bare || dw_app_open(&app_options, &options.app, NULL) != DW_OK ||
        dw_server_open(&options, &server, NULL) != DW_OK) {
        fprintf(stderr, "bench_http: no server\n");
        exit(1);
    }
    int bare_port = MHD_get_daemon_info(bare, MHD_DAEMON_INFO_BIND_PORT)->port;
    char request[2048];
    write_request(request, sizeof request, name);
    double ours[ROUNDS], bares[ROUNDS], own[ROUNDS];
    for (int i = 0; i < ROUNDS; i++) {
        bares[i] = measure(bare_port, request);
        ours[i] = measure(dw_server_port(server), request);
        own[i] = own_work(dw_op_find(name));
    }
    dw_server_free(server);
    dw_app_free(options.app);
    MHD_stop_daemon(bare);
    double o = median(ours, ROUNDS), b = median(bares, ROUNDS),
           w = median(own, ROUNDS);
    printf("{\"bench\":\"http\",\"what\":\"%s\",\"us\":%.2f,\"bare_us\":%.2f,"
           "\"own_work_us\":%.2f,\"ratio_to_twice_bare_and_own_work\":%.3f}\n",
           name, o * 1e6, b * 1e6, w * 1e6, o / (2 * b + w));
}

/* --- the program --------------------------------------------------------- */

static pid_t start_program(const char *data, int port)
{
    char number[16];
    snprintf(number, sizeof number, "%d", port);
    pid_t pid = fork();
    if (pid == 0) {
        dup2(open("/dev/null", O_WRONLY | O_CLOEXEC), 1);
        execl(DW_PROGRAM, DW_PROGRAM, "serve", "--data", data, "--port", number,
              (char *)NULL);
        _exit(127);
    }
    return pid;
}

static long resident_kb(pid_t pid)
{
    char path[64], line[256];
    long kb = 0;
    snprintf(path, sizeof path, "/proc/%d/status", (int)pid);
    FILE *file = fopen(path, "re");
    while (file && fgets(line, sizeof line, file))
        if (sscanf(line, "VmRSS: %ld", &kb) == 1)
            break;
    if (file)
        fclose(file);
    return kb;
}

static bool first_answer(int port)
{
    static const char request[] =
        "GET /today HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n";
    for (int i = 0; i < 5000; i++) {
        int fd = connect_to(port);
        if (fd >= 0) {
            bool answered = send_all(fd, request) && read_answer(fd);
            close(fd);
            return answered;
        }
        usleep(500);
    }
    return false;
}

static void bench_start(void)
{
    char folder[] = "/tmp/bench_httpXXXXXX", data[64];
    double took[STARTS];
    long kb = 0;
    const int port = 18317;
    if (!mkdtemp(folder))
        exit(1);
    snprintf(data, sizeof data, "%s/a.db", folder);
    for (int i = 0; i < STARTS; i++) {
        double began = seconds();
        pid_t pid = start_program(data, port);
        if (!first_answer(port)) {
            fprintf(stderr, "bench_http: the program does not answer\n");
            exit(1);
        }
        took[i] = seconds() - began;
        kb = resident_kb(pid);
        kill(pid, SIGTERM);
        waitpid(pid, NULL, 0);
    }
    unlink(data);
    rmdir(folder);
    printf("{\"bench\":\"http\",\"what\":\"start to first answer\","
           "\"ms\":%.1f,\"resident_mb\":%.1f}\n",
           median(took, STARTS) * 1e3, (double)kb / 1024);
}

int main(void)
{
    bench_op();
    bench_start();
    return 0;
}
