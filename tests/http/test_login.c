#include "dw_test.h"

#include "client.h"
#include "dw_temp.h"
#include "http/password.h"
#include "os/clock.h"

#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#define ECHO "/api/v1/test.echo"
#define RIGHT "{\"password\":\"floury hands\"}"
#define WRONG "{\"password\":\"flowery hands\"}"

/* Made by the command-line tool argon2 (0~20171227, the reference
 * implementation):
 *   printf 'floury hands' | argon2 somesaltsomesalt -id -t 2 -k 19456 -p 1 -e
 */
static const dw_password_hash reference = {
    "$argon2id$v=19$m=19456,t=2,p=1$c29tZXNhbHRzb21lc2FsdA$"
    "53+2/Q3p6I2Ua6RYNIgqasylrzwrT6BEYojYoXrlBTU"};

static void guarded(dw_server_options *options)
{
    options->password = &reference;
}

/* The cookie to send back, as a header line. Static, overwritten. */
static const char *cookie_line(const answer *a)
{
    static char line[256];
    const char *cookie = answer_header(a, "Set-Cookie");
    snprintf(line, sizeof line, "Cookie: %.*s\r\n",
             cookie ? (int)strcspn(cookie, ";") : 0, cookie ? cookie : "");
    return line;
}

TEST(without_the_password_only_the_door_is_shown, DERIVED,
     "RFC 9110 section 15.5.2, 401")
{
    bench b;
    NEED(bench_open(&b, guarded));
    answer a = client_request(&b, "POST", ECHO, "", "{\"text\":\"x\"}");
    SAME(a.status, 401);
    CHECK(a.body && strstr(a.body, "login_needed"));
    answer_free(&a);
    a = client_request(&b, "GET", "/api/v1/events", "", NULL);
    SAME(a.status, 401);
    answer_free(&a);
    a = client_request(&b, "GET", "/today", "", NULL);
    SAME(a.status, 303);
    SAME_TEXT(answer_header(&a, "Location"), "/login#/today");
    answer_free(&a);
    a = client_request(&b, "GET", "/mix/9%20%22", "", NULL);
    SAME_TEXT(answer_header(&a, "Location"), "/login#/mix/9%20%22");
    answer_free(&a);
    a = client_request(&b, "GET", "/login", "", NULL);
    SAME(a.status, 200);
    CHECK(a.body && strstr(a.body, "type=\"password\""));
    answer_free(&a);
    a = client_request(&b, "GET", "/style.css", "", NULL);
    SAME(a.status, 200);
    answer_free(&a);
    bench_close(&b);
}

TEST(the_right_password_opens_and_a_changed_cookie_does_not, DERIVED,
     "RFC 6265; a hash by the argon2 reference implementation")
{
    bench b;
    NEED(bench_open(&b, guarded));
    answer a = client_request(&b, "POST", "/api/login", "", RIGHT);
    SAME(a.status, 200);
    const char *cookie = answer_header(&a, "Set-Cookie");
    CHECK(cookie && strstr(cookie, "; HttpOnly") &&
          strstr(cookie, "; SameSite=Strict") && !strstr(cookie, "Secure"));
    char line[256];
    snprintf(line, sizeof line, "%s", cookie_line(&a));
    answer_free(&a);
    a = client_request(&b, "POST", ECHO, line, "{\"text\":\"x\"}");
    SAME(a.status, 200);
    answer_free(&a);
    a = client_request(&b, "GET", "/today", line, NULL);
    SAME(a.status, 200);
    answer_free(&a);
    char *digit = strchr(line, '.') - 1; /* a later end, the same seal */
    *digit = *digit == '9' ? '8' : (char)(*digit + 1);
    a = client_request(&b, "POST", ECHO, line, "{\"text\":\"x\"}");
    SAME(a.status, 401);
    answer_free(&a);
    bench_close(&b);
}

TEST(after_three_mistakes_even_the_right_password_waits, DERIVED,
     "lockout.h: the third mistake costs 1 s")
{
    bench b;
    NEED(bench_open(&b, guarded));
    answer a;
    for (int i = 0; i < 3; i++) {
        a = client_request(&b, "POST", "/api/login", "", WRONG);
        SAME(a.status, 401);
        answer_free(&a);
    }
    a = client_request(&b, "POST", "/api/login", "", RIGHT);
    SAME(a.status, 429);
    SAME_TEXT(answer_header(&a, "Retry-After"), "1");
    answer_free(&a);
    usleep(1100000);
    a = client_request(&b, "POST", "/api/login", "", RIGHT);
    SAME(a.status, 200);
    answer_free(&a);
    bench_close(&b);
}

TEST(passwords_are_tried_one_at_a_time, DERIVED, "19 MiB each")
{
    bench b;
    NEED(bench_open(&b, guarded));
    int fds[12], served = 0, busy = 0, waiting = 0;
    for (size_t i = 0; i < DW_COUNT(fds); i++) {
        fds[i] = client_connect(&b);
        client_say(fds[i], "POST /api/login HTTP/1.1\r\nHost: localhost\r\n"
                           "Content-Type: application/json\r\n"
                           "Content-Length: 27\r\n\r\n" RIGHT);
    }
    for (size_t i = 0; i < DW_COUNT(fds); i++) {
        answer a = client_read(fds[i]);
        served += a.status == 200;
        busy += a.status == 503;
        waiting += a.status != 200 && a.status != 503;
        answer_free(&a);
        close(fds[i]);
    }
    CHECK(served >= 1 && busy >= 1);
    SAME(waiting, 0);
    bench_close(&b);
}

TEST(a_client_that_leaves_while_its_password_is_tried_blocks_nobody, DERIVED,
     "worked by hand")
{
    bench b;
    NEED(bench_open(&b, guarded));
    int fd = client_connect(&b);
    client_say(fd, "POST /api/login HTTP/1.1\r\nHost: localhost\r\n"
                   "Content-Type: application/json\r\n"
                   "Content-Length: 27\r\n\r\n" RIGHT);
    usleep(5000);
    close(fd);
    usleep(400000);
    answer a = client_request(&b, "POST", "/api/login", "", RIGHT);
    SAME(a.status, 200);
    answer_free(&a);
    bench_close(&b);
}

TEST(a_password_of_seven_bytes_is_too_short, DERIVED, "password.h")
{
    dw_password_hash hash;
    dw_err err;
    SAME(dw_password_make("1234567", &hash, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "password");
}

TEST(a_password_file_holds_a_hash_or_the_password_itself, DERIVED,
     "password.h; only the owner may read it")
{
    dw_temp temp;
    dw_temp_make(&temp);
    dw_password_hash hash;
    dw_err err;
    struct stat about;
    const char *path = dw_temp_path(&temp, "p");
    SAME(dw_password_read(path, &hash, &err), DW_E_NOT_FOUND);
    SAME(dw_password_write(path, &reference, &err), DW_OK);
    NEED(stat(path, &about) == 0);
    SAME(about.st_mode & 0777, 0600);
    SAME(dw_password_read(path, &hash, &err), DW_OK);
    SAME_TEXT(hash.text, reference.text);
    FILE *file = fopen(path, "w");
    fputs("floury hands\n", file);
    fclose(file);
    SAME(dw_password_read(path, &hash, &err), DW_OK);
    CHECK(strcmp(hash.text, reference.text) != 0);
    CHECK(dw_password_fits(&hash, "floury hands"));
    CHECK(!dw_password_fits(&hash, "floury hand"));
    dw_temp_remove(&temp);
}

TEST(a_session_ends_with_its_time_and_with_the_password, LIMIT, "password.h")
{
    static const dw_password_hash other = {"another"};
    char session[DW_SESSION_BYTES];
    dw_session_make(&reference, 1000, session);
    size_t n = strlen(session);
    CHECK(dw_session_holds(&reference, 999, session, n));
    CHECK(!dw_session_holds(&reference, 1000, session, n));
    CHECK(!dw_session_holds(&other, 999, session, n));
    CHECK(!dw_session_holds(&reference, 999, session, n - 1));
    CHECK(!dw_session_holds(&reference, 999, "", 0));
}
