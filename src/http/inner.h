/* Inside the server: what its files share. All of it belongs to the network
 * thread, except where a comment says otherwise.
 *
 * The life of a request: first() looks at its head and may refuse it; its body
 * is gathered; its route answers. A route that must wait suspends the
 * connection (dw_http__sleep) and is called once more when it wakes. libmicro-
 * httpd closes a connection that is answered on the first call, so even a page
 * is answered on the second.
 */
#ifndef DW_HTTP_INNER_H
#define DW_HTTP_INNER_H

#include "http/lockout.h"
#include "http/password.h"
#include "http/server.h"

#include <microhttpd.h>
#include <pthread.h>
#include <stdatomic.h>

typedef struct dw_request dw_request;
typedef enum MHD_Result dw_http_answer(dw_request *request);

typedef struct dw_route {
    const char *method; /* GET answers HEAD as well */
    const char *path;   /* exact, or a prefix when it ends in '*' */
    bool session;       /* where a password is set: only for who signed in */
    dw_http_answer *answer;
} dw_route;

/* A TCP connection. It is shut down when its deadline passes. */
typedef struct dw_peer {
    struct dw_peer *next, **link;
    int socket;
    int64_t deadline_ms; /* steady clock; INT64_MAX: none */
} dw_peer;

/* One request, from its head to its last byte. */
struct dw_request {
    dw_server *server;
    struct MHD_Connection *connection;
    dw_peer *peer;
    const char *path; /* decoded; libmicrohttpd's, lives as long as we do */
    const char *lang;
    const dw_route *route;
    dw_err refusal;    /* status DW_OK: none */
    const char *allow; /* the method a refused one should have been */
    char *body;
    size_t body_bytes, body_room;
    size_t drained; /* bytes of a refused body */
    bool asked;     /* the route has been called and waits for its outcome */
    bool asleep;
    dw_request *next_awake; /* the mail's */
    dw_job job;  /* its outcome is written by a worker while we sleep */
    char *reply; /* as job */
    char password[DW_PASSWORD_LONGEST + 1];
    bool matches; /* as job: the password fits */
};

enum {
    DW_HTTP_NEWS = 64,      /* writes a slow listener may lag behind */
    DW_HTTP_NEWS_BYTES = 64 /* an operation's name */
};

typedef struct dw_stream dw_stream;

/* What other threads leave for the network thread. They ring its bell. */
typedef struct dw_mail {
    pthread_mutex_t lock;
    int bell;                                    /* eventfd */
    bool rung;                                   /* and not yet heard */
    dw_request *awake;                           /* their outcome is there */
    char news[DW_HTTP_NEWS][DW_HTTP_NEWS_BYTES]; /* of writes, a ring */
    uint64_t news_count;                         /* since the start */
} dw_mail;

struct dw_server {
    dw_server_options options;
    struct MHD_Daemon *daemon;
    int port;
    dw_mail mail;
    atomic_bool stopping;
    pthread_t thread;
    dw_peer *peers;
    int64_t swept_ms;
    size_t body_bytes;  /* bodies in memory, all requests together */
    int active;         /* requests not yet completed */
    int asleep;         /* those among them that a worker has */
    dw_stream *streams; /* who listens to the news */
    uint64_t told;      /* news they were woken for */
    int64_t alive_ms;   /* when they last got a sign of life, steady clock */
    dw_lockout lockout;
    pthread_t verifier; /* runs while there is a request to verify */
    dw_request *verified;
};

/* What to send. Bytes are copied unless `kept`, when they outlive the reply. */
typedef struct dw_reply {
    unsigned status;
    const char *type;
    const void *bytes;
    size_t count;
    bool kept;
    const char *cache;           /* NULL: no-store */
    const char *encoding, *vary; /* or NULL */
    const char *tag, *location, *cookie, *allow, *retry_after; /* or NULL */
} dw_reply;

enum MHD_Result dw_http__send(dw_request *request, const dw_reply *reply);
/* A response of another making (a stream, a file) with our headers; taken. */
enum MHD_Result dw_http__send_made(dw_request *request, const dw_reply *reply,
                                   struct MHD_Response *made);
enum MHD_Result dw_http__send_json(dw_request *request, unsigned status,
                                   const char *text, size_t bytes);
/* An error as JSON, with its status. */
enum MHD_Result dw_http__send_error(dw_request *request, const dw_err *err);
/* A header, or NULL. */
const char *dw_http__header(dw_request *request, const char *name);

/* Until dw_http__wake, from any thread, the connection takes no part. Who wakes
 * it touches it no more. */
void dw_http__sleep(dw_request *request);
void dw_http__wake(dw_request *request);
/* Give the peer this long from now, or for ever. */
void dw_http__allow(dw_request *request, int64_t ms);

/* The callbacks of libmicrohttpd (request.c). */
enum MHD_Result dw_http__on_request(void *memory,
                                    struct MHD_Connection *connection,
                                    const char *url, const char *method,
                                    const char *version, const char *upload,
                                    size_t *upload_bytes, void **kept);
void dw_http__on_completed(void *memory, struct MHD_Connection *connection,
                           void **kept, enum MHD_RequestTerminationCode code);

/* The route for a method and path. When the path is known and the method is
 * not: NULL, and *allow is the method it takes. */
const dw_route *dw_http__route(const char *method, const char *path,
                               const char **allow);

/* The answers, by the file that has them. */
enum MHD_Result dw_http__call(dw_request *request);    /* call.c */
enum MHD_Result dw_http__openapi(dw_request *request); /* call.c */
enum MHD_Result dw_http__events(dw_request *request);  /* events.c */
enum MHD_Result dw_http__login(dw_request *request);   /* login.c */
enum MHD_Result dw_http__logout(dw_request *request);  /* login.c */
/* A file that an operation makes: the first time its body is written and the
 * job begun, the second time what came is sent. reply.c */
typedef struct dw_http__file {
    const dw_op *op;
    const dw_codec *codec;
    const char *type;
    dw_status (*write_body)(dw_request *request); /* or request->refusal */
} dw_http__file;
enum MHD_Result dw_http__send_file(dw_request *request,
                                   const dw_http__file *file);
enum MHD_Result dw_http__paper(dw_request *request);       /* paper.c */
enum MHD_Result dw_http__calendar(dw_request *request);    /* calendar.c */
enum MHD_Result dw_http__login_page(dw_request *request);  /* pages.c */
enum MHD_Result dw_http__page(dw_request *request);        /* pages.c */
enum MHD_Result dw_http__certificate(dw_request *request); /* pages.c */

/* call.c: hand the request's job, its op and codec set, to the application with
 * its body; the route is called again with the outcome. */
enum MHD_Result dw_http__submit(dw_request *request);

/* login.c: did this request's sender sign in (or need nobody to)? */
bool dw_http__signed_in(dw_request *request);
/* This request is over, whether its password was answered or not. */
void dw_http__login_over(dw_request *request);

/* mail.c: from any thread, a request's outcome or a write; then, on the network
 * thread, the sleepers are woken. */
dw_status dw_http__mail_open(dw_mail *mail, dw_err *err);
void dw_http__mail_ring(dw_mail *mail);
void dw_http__mail_read(dw_mail *mail);
void dw_http__mail_close(dw_mail *mail);

/* events.c: hear of a write (writer thread), wake listeners, end them. */
void dw_http__events_changed(void *server, const char *op);
void dw_http__events_tell(dw_server *server, int64_t steady_ms);
void dw_http__events_close(dw_server *server);

#endif
