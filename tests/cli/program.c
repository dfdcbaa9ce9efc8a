#include "cli/program.h"

#include "dw_temp.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>

static void read_all(const char *path, char *out, size_t room)
{
    FILE *from = fopen(path, "rb");
    size_t n = from ? fread(out, 1, room - 1, from) : 0;
    out[n] = '\0';
    if (from)
        fclose(from);
}

static void write_all(const char *path, const char *text)
{
    FILE *to = fopen(path, "wb");
    if (to) {
        fputs(text, to);
        fclose(to);
    }
}

const ran *dw_test_shell(const char *line, const char *input)
{
    static ran result;
    dw_temp temp;
    char whole[16384], in[128], out[128], err[128];
    dw_temp_make(&temp);
    snprintf(in, sizeof in, "%s", dw_temp_path(&temp, "in"));
    write_all(in, input);
    snprintf(out, sizeof out, "%s", dw_temp_path(&temp, "out"));
    snprintf(err, sizeof err, "%s", dw_temp_path(&temp, "err"));
    snprintf(whole, sizeof whole,
             "unset HOME XDG_DATA_HOME DOUGHWRIGHT_DATA; export LC_ALL=C; "
             "doughwright() { %s \"$@\"; }; { %s\n} <%s >%s 2>%s",
             DW_PROGRAM, line, in, out, err);
    int status = system(whole);
    result.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    read_all(out, result.out, sizeof result.out);
    read_all(err, result.err, sizeof result.err);
    dw_temp_remove(&temp);
    return &result;
}

const ran *dw_test_program(const char *words, const char *input)
{
    char line[4096];
    snprintf(line, sizeof line, "doughwright %s", words);
    return dw_test_shell(line, input);
}
