/* The HTTP door: the pages, the operations and the news of changes.
 *
 * One network thread of our own drives libmicrohttpd; it never runs an
 * operation and never touches the database. A POST is handed to the application
 * (app/app.h), its connection sleeps, and the worker's `done` wakes it.
 *
 *   POST /api/v1/OP              an operation, JSON in and out
 *   GET  /api/v1/events          server-sent events: one for each write
 *   GET  /api/v1/openapi.json    what the operations are
 *   GET  /paper/WHAT.pdf         a paper (paper/paper.h); the query holds the
 *                                members of its request
 *   POST /api/login              the shop's password for a session cookie
 *   GET  /shop-certificate.pem   what a tablet installs to trust this server
 *   GET  anything else           the pages (assets.h)
 *
 * Every reply carries `Doughwright-Now`, the server's clock in ms UTC, except
 * the pages' files: a browser keeps them, and a kept clock is wrong.
 */
#ifndef DW_HTTP_SERVER_H
#define DW_HTTP_SERVER_H

#include "app/app.h"
#include "http/password.h"

typedef struct dw_server dw_server;

/* Everything is borrowed and must outlive the server. */
typedef struct dw_server_options {
    dw_app *app;
    const char *address; /* numeric IPv4 or IPv6, "127.0.0.1" */
    int port;            /* 0..65535; 0: any free one */
    /* Host names and addresses that requests may name besides loopback. */
    const char *const *names;
    size_t names_count;
    const char *web_dir; /* pages from this folder; NULL: built in */
    const dw_password_hash *password; /* NULL: nobody signs in */
    /* PEM texts; all NULL: plain HTTP. ca_pem is what tablets install. */
    const char *certificate_pem, *key_pem, *ca_pem;
    int64_t (*now_ms)(void); /* UTC */
    int connections;         /* at most, 1..4096; 0: 512 */
    int patience_ms;         /* for a request's head; 0: 20 s. Its body and its
                                reply may take six times as long. */
} dw_server_options;

/* Listen and serve. The handle is yours. Failures: DW_E_IO with field "listen"
 * (the address is taken or not ours) or "certificate", DW_E_SYNTAX for an
 * address that is not numeric. */
dw_status dw_server_open(const dw_server_options *options, dw_server **server,
                         dw_err *err);
int dw_server_port(const dw_server *server);
/* Stop listening, wait for running operations, answer them, close. */
void dw_server_free(dw_server *server);

#endif
