#include "http/inner.h"

#include "door/json.h"
#include "http/password.h"
#include "os/clock.h"

#include <arpa/inet.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const int64_t SESSION_S = 30LL * 24 * 3600;
#define COOKIE "doughwright_session"

/* --- sessions ------------------------------------------------------------ */

bool dw_http__signed_in(dw_request *request)
{
    const dw_server_options *o = &request->server->options;
    if (!o->password)
        return true;
    const char *cookie = MHD_lookup_connection_value(request->connection,
                                                     MHD_COOKIE_KIND, COOKIE);
    return cookie &&
           dw_session_holds(o->password, o->now_ms(), cookie, strlen(cookie));
}

static enum MHD_Result send_cookie(dw_request *request, const char *session,
                                   int64_t seconds)
{
    char cookie[DW_SESSION_BYTES + 128];
    bool tls = request->server->options.certificate_pem != NULL;
    snprintf(cookie, sizeof cookie,
             COOKIE "=%s; Path=/; Max-Age=%lld; HttpOnly; SameSite=Strict%s",
             session, (long long)seconds, tls ? "; Secure" : "");
    dw_reply reply = {.status = MHD_HTTP_OK,
                      .type = "application/json",
                      .bytes = "{}",
                      .count = 2,
                      .kept = true,
                      .cookie = cookie};
    return dw_http__send(request, &reply);
}

enum MHD_Result dw_http__logout(dw_request *request)
{
    return send_cookie(request, "", 0);
}

/* --- signing in ---------------------------------------------------------- */

typedef struct login {
    const char *password;
} login;

static const dw_field login_fields[] = {
    DW_F_TEXT(login, password, DW_PASSWORD_LONGEST, "the shop's password"),
};
static const dw_shape login_shape =
    DW_SHAPE("login", login, login_fields, "signing in");

static dw_status read_password(dw_request *request, char *out, size_t room)
{
    unsigned char block[4096];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    login given;
    if (request->body_bytes > sizeof block / 4)
        return dw_fail(&request->refusal, DW_E_TOO_LARGE, "body", NULL);
    DW_TRY(dw_json_decode(&login_shape, request->body ? request->body : "",
                          request->body_bytes, &arena, &given,
                          &request->refusal));
    snprintf(out, room, "%s", given.password);
    memset(block, 0, sizeof block);
    return DW_OK;
}

/* libsodium takes its time and 19 MiB: on a thread of its own, one at a time.
 */
static void *verify(void *memory)
{
    dw_request *request = memory;
    request->matches =
        dw_password_fits(request->server->options.password, request->password);
    dw_http__wake(request);
    return NULL;
}

static void sender(dw_request *request, char *out, size_t room)
{
    const union MHD_ConnectionInfo *info = MHD_get_connection_info(
        request->connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
    const struct sockaddr *from = info->client_addr;
    const void *bytes =
        from->sa_family == AF_INET6
            ? (const void *)&((const struct sockaddr_in6 *)from)->sin6_addr
            : (const void *)&((const struct sockaddr_in *)from)->sin_addr;
    if (!inet_ntop(from->sa_family, bytes, out, (socklen_t)room))
        out[0] = '\0';
}

static enum MHD_Result ask_to_wait(dw_request *request, int64_t ms)
{
    double seconds = ceil((double)ms / 1000);
    dw_fail(&request->refusal, DW_E_WAIT, "password", NULL);
    request->refusal.ranged = true;
    request->refusal.low = seconds;
    request->refusal.high = seconds;
    return dw_http__send_error(request, &request->refusal);
}

static enum MHD_Result begin(dw_request *request)
{
    dw_server *server = request->server;
    char from[64];
    sender(request, from, sizeof from);
    int64_t wait_ms =
        dw_lockout_wait_ms(&server->lockout, from, dw_clock_steady_ms());
    if (wait_ms > 0)
        return ask_to_wait(request, wait_ms);
    if (server->verified)
        dw_fail(&request->refusal, DW_E_BUSY, "password", NULL);
    else
        read_password(request, request->password, sizeof request->password);
    if (request->refusal.status != DW_OK)
        return dw_http__send_error(request, &request->refusal);
    dw_http__sleep(request);
    if (pthread_create(&server->verifier, NULL, verify, request) != 0) {
        dw_fail(&request->refusal, DW_E_BUSY, "password", NULL);
        dw_http__wake(request);
        return MHD_YES;
    }
    request->asked = true;
    server->verified = request;
    return MHD_YES;
}

void dw_http__login_over(dw_request *request)
{
    dw_server *server = request->server;
    if (server->verified != request)
        return;
    pthread_join(server->verifier, NULL);
    server->verified = NULL;
}

static enum MHD_Result finish(dw_request *request)
{
    dw_server *server = request->server;
    dw_http__login_over(request);
    char from[64], session[DW_SESSION_BYTES];
    sender(request, from, sizeof from);
    memset(request->password, 0, sizeof request->password);
    if (!request->matches) {
        dw_lockout_failed(&server->lockout, from, dw_clock_steady_ms());
        dw_fail_says(&request->refusal, DW_E_LOGIN, "password", NULL,
                     "is not the shop's password");
        return dw_http__send_error(request, &request->refusal);
    }
    dw_lockout_forgive(&server->lockout, from);
    dw_session_make(server->options.password,
                    server->options.now_ms() + SESSION_S * 1000, session);
    return send_cookie(request, session, SESSION_S);
}

enum MHD_Result dw_http__login(dw_request *request)
{
    if (!request->server->options.password) {
        dw_fail_says(&request->refusal, DW_E_NOT_FOUND, "password", NULL,
                     "is not set here; nobody needs to sign in");
        return dw_http__send_error(request, &request->refusal);
    }
    return request->asked ? finish(request) : begin(request);
}
