/* The command line: a table of commands over getopt_long.
 *
 * A command is one dw_command row, named in the table of commands.c, usually in
 * a file of its own. Besides these, every operation of the door is a command
 * NOUN VERB whose flags are the fields of its request. Help, the manual page
 * and the completion are generated from the same rows.
 *
 * Exit status: 0 done; 2 refused or failed, with the reason on standard error.
 */
#ifndef DW_CLI_CLI_H
#define DW_CLI_CLI_H

#include "app/app.h"

#include <stdio.h>

enum { DW_EXIT_DONE = 0, DW_EXIT_REFUSED = 2 };

typedef struct dw_flag {
    const char *name;  /* without the dashes */
    const char *value; /* what it takes, "FILE"; NULL: nothing */
    const char *about;
    bool value_optional; /* --name=VALUE or --name alone */
} dw_flag;

typedef struct dw_command dw_command;

/* What was typed. Borrowed from argv and the arena. */
typedef struct dw_args {
    const dw_command *command;
    const char **values; /* one for each flag; NULL when not given */
    const char *const *operands;
    size_t operands_count;
} dw_args;

/* What every command may use. */
typedef struct dw_cli {
    dw_arena *arena;
    const char *lang; /* "en" or "es" */
    bool json;        /* answers and failures are JSON */
} dw_cli;

struct dw_command {
    const char *name;     /* "call", "formula scale" */
    const char *operands; /* as in the synopsis, "OP", or "" */
    size_t least, most;   /* operands */
    const dw_flag *flags; /* its own; the common ones come with each command */
    size_t flags_count;
    const dw_field *const *fields; /* of the first flags, for an operation */
    size_t fields_count;
    const char *about; /* one sentence */
    int (*run)(dw_cli *cli, const dw_args *args);
    const dw_op *op; /* the operation it runs, or NULL */
    bool json;       /* speaks JSON without being asked */
};

/* All commands with a row of their own. */
const dw_command *const *dw_commands(size_t *count);
/* The command of the operation NOUN.VERB, in the arena; NULL when full. */
const dw_command *dw_command_of_op(const dw_op *op, dw_arena *arena);

/* Every command takes --help, --json and --lang, if it has no flag of its own
 * of that name. */
const dw_flag *dw_flags_common(size_t *count);
bool dw_command_has_flag(const dw_command *command, const char *name);
/* Commands that run operations take these as well: --data, --dry-run, --key. */
enum { DW_FLAGS_DATA = 3 };
extern const dw_flag dw_flags_data[DW_FLAGS_DATA];

/* Read argv (argv[0] is not looked at). */
dw_status dw_flags_parse(const dw_command *command, int argc, char **argv,
                         dw_arena *arena, dw_args *args, dw_err *err);
/* The value of a flag, "" when it takes none; NULL when not given. */
const char *dw_args_value(const dw_args *args, const char *name);

/* Run argv. Returns the exit status. */
int dw_cli_run(int argc, char **argv);

/* Say why it failed on standard error: a sentence, or the error as JSON.
 * Returns the exit status. */
int dw_cli_refuse(const dw_cli *cli, const dw_err *err);
/* Close standard output; what could not be written is a failure. */
int dw_cli_close(const dw_cli *cli);

/* All of a stream, NUL-terminated, at most the door's limit and a little more
 * (the door then says that it is too large). Yours: free it. */
dw_status dw_cli_read(FILE *from, const char *name, char **text, size_t *bytes,
                      dw_err *err);
/* The text of a value given as @FILE, or the value itself. In the arena. */
dw_status dw_cli_value_text(const char *value, dw_arena *arena,
                            const char **text, dw_err *err);

/* The business's database: --data, else $DOUGHWRIGHT_DATA, else business.db in
 * the person's data folder (XDG Base Directory Specification), which is made if
 * it is not there. In the arena. */
dw_status dw_cli_data_path(const dw_args *args, dw_arena *arena,
                           const char **path, dw_err *err);

/* Run one operation on a JSON request; the reply is JSON in the arena. Pure
 * operations open no database. */
dw_status dw_cli_perform(const dw_cli *cli, const dw_args *args,
                         const dw_op *op, const char *body, size_t bytes,
                         const char **reply, size_t *reply_bytes, dw_err *err);

/* The same for a job of another kind: its op, body and codec are set. */
dw_status dw_cli_perform_job(const dw_cli *cli, const dw_args *args,
                             dw_job *job, const char **reply,
                             size_t *reply_bytes, dw_err *err);

/* Help for people. */
void dw_help_all(const dw_cli *cli, FILE *to);
void dw_help_noun(const dw_cli *cli, const char *noun, FILE *to);
void dw_help_command(const dw_cli *cli, const dw_command *command, FILE *to);
/* "--data FILE", "--cold[=yes|no]" */
void dw_flag_print(const dw_flag *flag, char *out, size_t room);
/* "0 to 60 °C; required" of the command's i-th flag; "" when there is nothing
 * to say. */
void dw_flag_limits(const dw_cli *cli, const dw_command *command, size_t i,
                    char *out, size_t room);
/* "call [FLAGS] OP" */
void dw_command_synopsis(const dw_command *command, char *out, size_t room);

#endif
