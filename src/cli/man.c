/* doughwright man: the manual page, from the tables. */
#include "cli/cli.h"
#include "doughwright/say.h"

#include <string.h>

/* roff takes '-' for a hyphen and '\' for an escape, and a '.' or a quote at
 * the start of a line for a request. */
static void put_text(const char *text)
{
    if (*text == '.' || *text == '\'')
        fputs("\\&", stdout);
    for (; *text; text++) {
        if (*text == '-')
            fputs("\\-", stdout);
        else if (*text == '\\')
            fputs("\\e", stdout);
        else
            putchar(*text);
    }
}

static void put_line(const char *text)
{
    put_text(text);
    putchar('\n');
}

static void put_flag(const dw_flag *flag, const char *limits)
{
    char left[160];
    dw_flag_print(flag, left, sizeof left);
    fputs(".TP\n.B ", stdout);
    put_line(left);
    put_line(flag->about);
    if (*limits) {
        putchar('(');
        put_text(limits);
        puts(")");
    }
}

static void put_command(const dw_cli *cli, const dw_command *command)
{
    char synopsis[160], limits[400];
    dw_command_synopsis(command, synopsis, sizeof synopsis);
    fputs(".SS ", stdout);
    put_line(synopsis);
    put_line(command->about);
    for (size_t i = 0; i < command->flags_count; i++) {
        dw_flag_limits(cli, command, i, limits, sizeof limits);
        put_flag(&command->flags[i], limits);
    }
}

static const char head[] =
    ".TH DOUGHWRIGHT 1 2026-11-24 \"doughwright " DW_VERSION "\" "
    "\"User Commands\"\n"
    ".SH NAME\n"
    "doughwright \\- runs the dough of a pizza shop or a commissary\n"
    ".SH SYNOPSIS\n"
    ".B doughwright\n"
    ".I COMMAND\n"
    "[\\fIFLAGS\\fR]\n"
    ".br\n"
    ".B doughwright call\n"
    ".I OP\n"
    "< in.json > out.json\n"
    ".br\n"
    ".B doughwright\n"
    ".I NOUN VERB\n"
    "[\\fB\\-\\-field\\fR \\fIVALUE\\fR]...\n"
    ".SH DESCRIPTION\n"
    "Every operation is reached by its name with a JSON request\n"
    "(\\fBcall\\fR), and as a command of a noun and a verb whose flags are\n"
    "the fields of the request.\n"
    "Numbers may carry units (\\(dq10 lb\\(dq, \\(dq1 lb 4 oz\\(dq, "
    "\\(dq80 F\\(dq, \\(dq26C\\(dq,\n"
    "\\(dq0.375%\\(dq); without one they are in the unit named in the field.\n"
    "Lists and objects are given as JSON text, or as @FILE.\n";

static const char tail[] =
    ".SH EXIT STATUS\n"
    ".TP\n.B 0\nDone.\n"
    ".TP\n.B 2\n"
    "Refused or failed: one sentence on standard error, or with\n"
    "\\fBcall\\fR and \\fB\\-\\-json\\fR the error as JSON\n"
    "(code, field, message, low, high).\n"
    "Nothing was changed.\n"
    ".SH EXAMPLES\n"
    ".nf\n"
    "doughwright ops\n"
    "doughwright program about \\-\\-json\n"
    "echo {} | doughwright call program.about\n"
    ".fi\n"
    ".SH CAUTIONS\n"
    "The windows it tells are about quality, not a safety clearance;\n"
    "cold\\-room temperatures and dates follow the local code and the "
    "authority.\n"
    "Keep the mixer's guard closed and hands out of it.\n";

static int run(dw_cli *cli, const dw_args *args)
{
    size_t count, ops_count, common_count;
    const dw_command *const *commands = dw_commands(&count);
    const dw_flag *common = dw_flags_common(&common_count);
    const dw_op *ops = dw_ops(&ops_count);
    fputs(head, stdout);
    puts(".SH FLAGS OF EVERY COMMAND");
    for (size_t i = 0; i < common_count; i++)
        put_flag(&common[i], "");
    puts(".SH COMMANDS");
    for (size_t i = 0; i < count; i++)
        put_command(cli, commands[i]);
    puts(".SH OPERATIONS");
    for (size_t i = 0; i < ops_count; i++) {
        size_t mark = cli->arena->used;
        const dw_command *command = dw_command_of_op(&ops[i], cli->arena);
        if (command)
            put_command(cli, command);
        cli->arena->used = mark; /* one operation at a time */
    }
    fputs(tail, stdout);
    return DW_EXIT_DONE;
}

extern const dw_command dw_command_man;
const dw_command dw_command_man = {
    .name = "man",
    .operands = "",
    .about = DW_MSG("Print the manual page, for man -l -."),
    .run = run,
};
