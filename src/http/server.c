#include "http/inner.h"

#include "os/clock.h"

#include <arpa/inet.h>
#include <errno.h>
#include <poll.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

enum {
    CONNECTIONS = 512,
    PATIENCE_MS = 20000,
    IDLE_S = 30,    /* libmicrohttpd's own: not one byte either way */
    SWEEP_MS = 250, /* how often deadlines are looked at */
    QUIET_MS = 1000,
    FAREWELL_MS = 2000 /* at the end: for replies on their way */
};

/* --- connections --------------------------------------------------------- */

static void peer_came(dw_server *server, struct MHD_Connection *connection,
                      void **memory)
{
    dw_peer *peer = calloc(1, sizeof *peer);
    if (!peer)
        return; /* its requests are refused for want of a peer */
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    peer->socket = info->connect_fd;
    peer->deadline_ms = dw_clock_steady_ms() + server->options.patience_ms;
    peer->next = server->peers;
    peer->link = &server->peers;
    if (peer->next)
        peer->next->link = &peer->next;
    server->peers = peer;
    *memory = peer;
}

static void peer_left(void **memory)
{
    dw_peer *peer = *memory;
    if (!peer)
        return;
    *peer->link = peer->next;
    if (peer->next)
        peer->next->link = peer->link;
    free(peer);
    *memory = NULL;
}

static void on_connection(void *server, struct MHD_Connection *connection,
                          void **memory,
                          enum MHD_ConnectionNotificationCode code)
{
    if (code == MHD_CONNECTION_NOTIFY_STARTED)
        peer_came(server, connection, memory);
    else
        peer_left(memory);
}

/* libmicrohttpd sees the end of a shut-down socket and closes it: a client
 * that drips one byte now and then does not keep its place. */
static void sweep(dw_server *server, int64_t now_ms)
{
    if (now_ms - server->swept_ms < SWEEP_MS)
        return;
    server->swept_ms = now_ms;
    for (dw_peer *peer = server->peers; peer; peer = peer->next)
        if (peer->deadline_ms <= now_ms)
            shutdown(peer->socket, SHUT_RDWR);
}

/* --- the network thread -------------------------------------------------- */

/* Never for ever: when the last place was taken, libmicrohttpd listens again
 * only on the turn after one was given back. */
static int wait_ms(dw_server *server)
{
    MHD_UNSIGNED_LONG_LONG wanted;
    bool quiet = !server->peers && !atomic_load(&server->stopping);
    int most = quiet ? QUIET_MS : SWEEP_MS;
    if (MHD_get_timeout(server->daemon, &wanted) != MHD_YES)
        return most;
    return wanted < (unsigned)most ? (int)wanted : most;
}

static void turn(dw_server *server)
{
    const union MHD_DaemonInfo *info =
        MHD_get_daemon_info(server->daemon, MHD_DAEMON_INFO_EPOLL_FD);
    struct pollfd fds[] = {{info->epoll_fd, POLLIN, 0},
                           {server->mail.bell, POLLIN, 0}};
    poll(fds, DW_COUNT(fds), wait_ms(server));
    int64_t now_ms = dw_clock_steady_ms();
    dw_http__mail_read(&server->mail);
    dw_http__events_tell(server, now_ms);
    MHD_run(server->daemon);
    sweep(server, now_ms);
}

/* Workers hold pointers to sleeping requests, so those are waited for as long
 * as it takes; a client that does not read its reply is not. */
static void *run(void *memory)
{
    dw_server *server = memory;
    while (!atomic_load(&server->stopping))
        turn(server);
    close(MHD_quiesce_daemon(server->daemon));
    dw_http__events_close(server);
    int64_t until_ms = dw_clock_steady_ms() + FAREWELL_MS;
    while (server->asleep > 0 ||
           (server->active > 0 && dw_clock_steady_ms() < until_ms))
        turn(server);
    MHD_stop_daemon(server->daemon);
    return NULL;
}

/* A path with a NUL in it would be read only up to there: nobody means one. */
static size_t unescape(void *memory, struct MHD_Connection *connection,
                       char *text)
{
    (void)memory;
    (void)connection;
    if (strstr(text, "%00"))
        text[0] = '\0';
    return MHD_http_unescape(text);
}

/* --- open and close ------------------------------------------------------ */

typedef union address {
    struct sockaddr any;
    struct sockaddr_in v4;
    struct sockaddr_in6 v6;
} address;

static bool read_address(const char *text, int port, address *out,
                         socklen_t *bytes)
{
    memset(out, 0, sizeof *out);
    if (inet_pton(AF_INET, text, &out->v4.sin_addr) == 1) {
        out->v4.sin_family = AF_INET;
        out->v4.sin_port = htons((uint16_t)port);
        *bytes = sizeof out->v4;
        return true;
    }
    if (inet_pton(AF_INET6, text, &out->v6.sin6_addr) == 1) {
        out->v6.sin6_family = AF_INET6;
        out->v6.sin6_port = htons((uint16_t)port);
        *bytes = sizeof out->v6;
        return true;
    }
    return false;
}

/* The port that was given when `any` was asked for. */
static int port_of(int socket_fd)
{
    address bound = {0};
    socklen_t bytes = sizeof bound;
    if (getsockname(socket_fd, &bound.any, &bytes) != 0)
        return 0;
    return ntohs(bound.any.sa_family == AF_INET ? bound.v4.sin_port
                                                : bound.v6.sin6_port);
}

static dw_status listen_on(dw_server *server, int *listening, dw_err *err)
{
    address to;
    socklen_t bytes;
    const char *text = server->options.address;
    if (!read_address(text, server->options.port, &to, &bytes))
        return dw_fail(err, DW_E_SYNTAX, "listen", text);
    int fd =
        socket(to.any.sa_family, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0);
    if (fd < 0)
        return dw_fail(err, DW_E_IO, "listen", strerror(errno));
    int yes = 1;
    setsockopt(fd, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    if (bind(fd, &to.any, bytes) != 0 || listen(fd, SOMAXCONN) != 0) {
        dw_fail_says(err, DW_E_IO, "listen", strerror(errno),
                     "is not an address and port free to listen on");
        close(fd);
        return DW_E_IO;
    }
    *listening = fd;
    server->port = port_of(fd);
    return DW_OK;
}

static dw_status start_daemon(dw_server *server, int listening, dw_err *err)
{
    const dw_server_options *o = &server->options;
    bool tls = o->certificate_pem != NULL;
    struct MHD_OptionItem secure[] = {
        {MHD_OPTION_HTTPS_MEM_CERT, 0, (void *)(uintptr_t)o->certificate_pem},
        {MHD_OPTION_HTTPS_MEM_KEY, 0, (void *)(uintptr_t)o->key_pem},
        {MHD_OPTION_HTTPS_PRIORITIES, 0,
         (void *)(uintptr_t) "SECURE128:-VERS-ALL:+VERS-TLS1.2:+VERS-TLS1.3"},
        {MHD_OPTION_END, 0, NULL}};
    if (!tls)
        secure[0] = secure[3];
    server->daemon = MHD_start_daemon(
        MHD_USE_EPOLL | MHD_ALLOW_SUSPEND_RESUME | (tls ? MHD_USE_TLS : 0U), 0,
        NULL, NULL, dw_http__on_request, server, MHD_OPTION_LISTEN_SOCKET,
        listening, MHD_OPTION_CONNECTION_LIMIT, (unsigned)o->connections,
        MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)IDLE_S,
        MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_NOTIFY_COMPLETED,
        dw_http__on_completed, server, MHD_OPTION_NOTIFY_CONNECTION,
        on_connection, server, MHD_OPTION_UNESCAPE_CALLBACK, unescape, NULL,
        MHD_OPTION_ARRAY, secure, MHD_OPTION_END);
    if (!server->daemon)
        return dw_fail_says(err, DW_E_IO, tls ? "certificate" : "listen", NULL,
                            "cannot be served with");
    return DW_OK;
}

static void release(dw_server *server)
{
    dw_http__mail_close(&server->mail);
    free(server);
}

static dw_status start(dw_server *server, dw_err *err)
{
    DW_TRY(dw_http__mail_open(&server->mail, err));
    int listening = -1;
    DW_TRY(listen_on(server, &listening, err));
    if (start_daemon(server, listening, err) != DW_OK) {
        close(listening);
        return DW_E_IO;
    }
    if (pthread_create(&server->thread, NULL, run, server) != 0) {
        MHD_stop_daemon(server->daemon);
        return dw_fail(err, DW_E_ROOM, "listen", NULL);
    }
    dw_app_watch(server->options.app, dw_http__events_changed, server);
    return DW_OK;
}

dw_status dw_server_open(const dw_server_options *options, dw_server **server,
                         dw_err *err)
{
    dw_server *made = calloc(1, sizeof *made);
    if (!made)
        return dw_fail(err, DW_E_ROOM, "listen", NULL);
    made->options = *options;
    if (made->options.connections == 0)
        made->options.connections = CONNECTIONS;
    if (made->options.patience_ms == 0)
        made->options.patience_ms = PATIENCE_MS;
    made->alive_ms = dw_clock_steady_ms();
    dw_status status = start(made, err);
    if (status != DW_OK) {
        release(made);
        return status;
    }
    *server = made;
    return DW_OK;
}

int dw_server_port(const dw_server *server)
{
    return server->port;
}

void dw_server_free(dw_server *server)
{
    if (!server)
        return;
    dw_app_watch(server->options.app, NULL, NULL);
    atomic_store(&server->stopping, true);
    dw_http__mail_ring(&server->mail);
    pthread_join(server->thread, NULL);
    release(server);
}
