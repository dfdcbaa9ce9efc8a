/* A raw HTTP client for tests: bytes out, bytes in. */
#ifndef CLIENT_H
#define CLIENT_H

#include "http/server.h"

/* A server over the fake application on a free port of loopback. */
typedef struct bench {
    dw_app *app;
    dw_server *server;
    int port;
} bench;

/* `change`, when not NULL, alters the options first. False: it did not open. */
bool bench_open(bench *b, void (*change)(dw_server_options *options));
void bench_close(bench *b);

/* A connected socket; reads give up after 5 s. */
int client_connect(const bench *b);
bool client_send(int fd, const char *bytes, size_t count);
bool client_say(int fd, const char *text);

typedef struct answer {
    int status;      /* 0: the connection ended before an answer */
    char head[4096]; /* with its status line */
    char *body;      /* yours: answer_free */
    size_t body_bytes;
    bool closes; /* says Connection: close */
} answer;

/* One whole answer by its Content-Length. */
answer client_read(int fd);
void answer_free(answer *a);
/* The value of a header of the answer, or NULL. Static, overwritten. */
const char *answer_header(const answer *a, const char *name);

/* Connect, send `text`, read one answer, close. */
answer client_ask(const bench *b, const char *text);
/* The same for a well-formed request with these further header lines, each
 * ended by \r\n; body NULL for none. */
answer client_request(const bench *b, const char *method, const char *path,
                      const char *lines, const char *body);
/* Does the server close this connection within `ms`? */
bool client_sees_end(int fd, int ms);

#endif
