/* The program itself, as a person starts it. */
#include "dw_test.h"

#include "client.h"
#include "dw_temp.h"
#include "os/clock.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

typedef struct program {
    pid_t pid;
    int out;
    char said[4096];
} program;

/* Start the program with these words; what it says comes through a pipe. Its
 * standard input is `typed`. */
static void program_start(program *p, const char *words, const char *data,
                          const char *typed)
{
    int ends[2];
    char line[1024];
    snprintf(line, sizeof line,
             "exec " DW_PROGRAM " %s --data %s 2>&1 <<END\n%sEND\n", words,
             data, typed);
    memset(p, 0, sizeof *p);
    if (pipe2(ends, O_CLOEXEC) != 0)
        return;
    p->pid = fork();
    if (p->pid == 0) {
        dup2(ends[1], 1);
        setenv("LC_ALL", "C", 1);
        execl("/bin/sh", "sh", "-c", line, (char *)NULL);
        _exit(127);
    }
    close(ends[1]);
    p->out = ends[0];
}

/* Until it has said `part`, has ended, or 10 s. */
static bool program_says(program *p, const char *part)
{
    size_t n = strlen(p->said);
    int64_t until_ms = dw_clock_steady_ms() + 10000;
    while (!strstr(p->said, part)) {
        struct pollfd wait = {p->out, POLLIN, 0};
        int left = (int)(until_ms - dw_clock_steady_ms());
        if (left <= 0 || poll(&wait, 1, left) <= 0)
            return false;
        ssize_t got = read(p->out, p->said + n, sizeof p->said - 1 - n);
        if (got <= 0)
            return false;
        n += (size_t)got;
    }
    return true;
}

static int program_end(program *p, int signal_number)
{
    int status;
    if (signal_number)
        kill(p->pid, signal_number);
    waitpid(p->pid, &status, 0);
    close(p->out);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST(serve_says_where_it_is_and_ends_when_asked, DERIVED, "worked by hand")
{
    static const int ends[] = {SIGTERM, SIGINT};
    for (size_t i = 0; i < DW_COUNT(ends); i++) {
        dw_temp temp;
        dw_temp_make(&temp);
        program p;
        program_start(&p, "serve --port 0", dw_temp_path(&temp, "a.db"), "");
        CHECK(program_says(&p, "nobody needs a password"));
        int port = 0;
        SAME(sscanf(p.said, "Doughwright is at http://127.0.0.1:%d/", &port),
             1);
        CHECK(port > 0);
        SAME(program_end(&p, ends[i]), 0);
        CHECK(access(dw_temp_path(&temp, "a.db-wal"), F_OK) != 0);
        dw_temp_remove(&temp);
    }
}

/* Everything up to `part`, or 5 s of silence. */
static bool socket_says(int fd, const char *part)
{
    char text[8192];
    size_t n = 0;
    ssize_t got;
    while (n + 1 < sizeof text &&
           (got = recv(fd, text + n, sizeof text - 1 - n, 0)) > 0) {
        n += (size_t)got;
        text[n] = '\0';
        if (strstr(text, part))
            return true;
    }
    return false;
}

TEST(a_write_is_done_once_and_told_to_the_other_tablets, DERIVED,
     "DESIGN: one key, one write; another body under it is a 409")
{
    static const char lines[] = "Doughwright-Device: bench\r\n"
                                "Idempotency-Key: tap-1\r\n";
    dw_temp temp;
    program p;
    bench b = {0};
    dw_temp_make(&temp);
    program_start(&p, "serve --port 0", dw_temp_path(&temp, "a.db"), "");
    NEED(program_says(&p, "nobody"));
    sscanf(p.said, "Doughwright is at http://127.0.0.1:%d/", &b.port);
    int listener = client_connect(&b);
    client_say(listener, "GET /api/v1/events HTTP/1.1\r\n"
                         "Host: localhost\r\n\r\n");
    CHECK(socket_says(listener, "retry"));
    answer a = client_request(&b, "POST", "/api/v1/person.save", lines,
                              "{\"name\":\"Ines\"}");
    SAME(a.status, 200);
    CHECK(socket_says(listener, "data: {\"op\":\"person.save\"}"));
    answer again = client_request(&b, "POST", "/api/v1/person.save", lines,
                                  "{\"name\":\"Ines\"}");
    SAME(again.status, 200);
    SAME_TEXT(again.body, a.body);
    answer_free(&again);
    again = client_request(&b, "POST", "/api/v1/person.save", lines,
                           "{\"name\":\"Omar\"}");
    SAME(again.status, 409);
    answer_free(&again);
    answer_free(&a);
    close(listener);
    SAME(program_end(&p, SIGTERM), 0);
    dw_temp_remove(&temp);
}

TEST(a_network_is_served_only_with_a_password_and_over_https, DERIVED,
     "worked by hand")
{
    dw_temp temp;
    dw_temp_make(&temp);
    const char *data = dw_temp_path(&temp, "a.db");
    program p;
    program_start(&p, "serve --port 0 --listen 0.0.0.0", data, "");
    CHECK(program_says(&p, "doughwright password"));
    SAME(program_end(&p, 0), 2);
    program_start(&p, "password", data, "short\n");
    CHECK(program_says(&p, "8 to 128"));
    SAME(program_end(&p, 0), 2);
    program_start(&p, "password", data, "floury hands\n");
    CHECK(program_says(&p, "is set"));
    SAME(program_end(&p, 0), 0);
    program_start(&p, "serve --port 0 --listen 0.0.0.0", data, "");
    CHECK(program_says(&p, "Doughwright is at https://"));
    CHECK(!strstr(p.said, "nobody"));
    SAME(program_end(&p, SIGTERM), 0);
    dw_temp_remove(&temp);
}

static const struct {
    const char *words, *says;
} mistakes[] = {
    {"serve --port 70000", "port"},
    {"serve --port many", "port"},
    {"serve --listen kitchen", "listen"},
    {"serve --cert /nowhere.pem --key /nowhere.pem", "nowhere.pem"},
    {"serve --password-file /nowhere", "nowhere"},
};

TEST(mistakes_in_the_flags_of_serve_are_named, DERIVED, "worked by hand")
{
    dw_temp temp;
    dw_temp_make(&temp);
    for (size_t i = 0; i < DW_COUNT(mistakes); i++) {
        program p;
        program_start(&p, mistakes[i].words, dw_temp_path(&temp, "a.db"), "");
        if (!program_says(&p, mistakes[i].says))
            dw_test_fail(__FILE__, __LINE__, "%s: %s", mistakes[i].words,
                         p.said);
        SAME(program_end(&p, 0), 2);
    }
    dw_temp_remove(&temp);
}
