/* The near end: start the solver's program, hand it the model, wait with an eye
 * on the clock, end it when its time is over. */
#include "solve/solve.h"

#include "solve/wire.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <stdio.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { LOOK_MS = 200, GRACE_MS = 2000 };

extern char **environ;

static int64_t clock_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (int64_t)t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

static void find_program(char *path, size_t room)
{
    static const char name[] = "doughwright-solve";
    ssize_t n = readlink("/proc/self/exe", path, room - sizeof name);
    if (n > 0) {
        path[n] = '\0';
        char *slash = strrchr(path, '/');
        memcpy(slash ? slash + 1 : path, name, sizeof name);
        if (access(path, X_OK) == 0)
            return;
    }
    snprintf(path, room, "%s", DW_SOLVE_PROGRAM);
}

/* A socket, so that writing to a program that died is an error and not a
 * signal; the other end is its standard input and output. */
static bool start(int *line, pid_t *pid)
{
    int ends[2];
    char path[4096];
    char *arguments[] = {path, NULL};
    posix_spawn_file_actions_t actions;
    if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends) != 0)
        return false;
    find_program(path, sizeof path);
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, ends[1], STDIN_FILENO);
    posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
    int failed = posix_spawn(pid, path, &actions, NULL, arguments, environ);
    posix_spawn_file_actions_destroy(&actions);
    close(ends[1]);
    *line = ends[0];
    if (failed)
        close(ends[0]);
    return !failed;
}

static bool put(int line, const void *from, size_t bytes)
{
    const char *at = from;
    while (bytes > 0) {
        ssize_t n = send(line, at, bytes, MSG_NOSIGNAL);
        if (n <= 0)
            return false;
        at += n;
        bytes -= (size_t)n;
    }
    return true;
}

static bool send_program(int line, const dw_program *p)
{
    size_t entries = (size_t)p->row_start[p->rows];
    const dw_solve__ask ask = {DW_SOLVE_MARK, p->start ? 1 : 0, p->columns,
                               p->rows,       entries,          p->seconds,
                               p->gap};
    size_t columns = p->columns * sizeof(double);
    size_t rows = p->rows * sizeof(double);
    return put(line, &ask, sizeof ask) && put(line, p->cost, columns) &&
           put(line, p->low, columns) && put(line, p->high, columns) &&
           put(line, p->whole, p->columns * sizeof(bool)) &&
           put(line, p->row_low, rows) && put(line, p->row_high, rows) &&
           put(line, p->row_start, (p->rows + 1) * sizeof(int32_t)) &&
           put(line, p->column, entries * sizeof(int32_t)) &&
           put(line, p->value, entries * sizeof(double)) &&
           (!p->start || put(line, p->start, columns));
}

typedef bool going(void *watcher, double cost, double bound);

/* Is there an answer before its time is over and nobody stops it? */
static bool wait_for(int line, double seconds, going *go_on, void *watcher)
{
    int64_t end = clock_ms() + (int64_t)(seconds * 1000) + GRACE_MS;
    while (clock_ms() < end) {
        struct pollfd look = {line, POLLIN, 0};
        int n = poll(&look, 1, LOOK_MS);
        if (n > 0)
            return true;
        if (n == 0 && go_on &&
            !go_on(watcher, DW_SOLVER_INFINITE, -DW_SOLVER_INFINITE))
            return false;
    }
    return false;
}

static void solve(void *owner, const dw_program *program, going *go_on,
                  void *watcher, dw_solved *solved)
{
    int line;
    pid_t pid;
    dw_solve__answer answer;
    int64_t began = clock_ms();
    (void)owner;
    solved->found = false;
    solved->seconds = 0;
    solved->bound = -DW_SOLVER_INFINITE;
    if (!start(&line, &pid))
        return;
    if (send_program(line, program) &&
        wait_for(line, program->seconds, go_on, watcher) &&
        dw_solve__read(line, &answer, sizeof answer) &&
        answer.mark == DW_SOLVE_MARK) {
        solved->bound = answer.bound;
        solved->cost = answer.cost;
        solved->found =
            answer.found &&
            dw_solve__read(line, solved->x, program->columns * sizeof(double));
    }
    close(line);
    kill(pid, SIGKILL);
    while (waitpid(pid, NULL, 0) < 0)
        continue;
    solved->seconds = (double)(clock_ms() - began) / 1000;
}

const dw_solver *dw_solve_apart(void)
{
    static const dw_solver apart = {solve, NULL};
    return &apart;
}
