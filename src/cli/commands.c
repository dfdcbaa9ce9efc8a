#include "cli/cli.h"
#include "doughwright/say.h"

#include <stdlib.h>
#include <string.h>

/* One line for each command, in the order of the help. */
extern const dw_command dw_command_serve, dw_command_password, dw_command_paper,
    dw_command_call, dw_command_demo, dw_command_ops, dw_command_api,
    dw_command_verify, dw_command_help, dw_command_man, dw_command_completion;

static const dw_command *const commands[] = {
    &dw_command_serve, &dw_command_password,   &dw_command_paper,
    &dw_command_call,  &dw_command_demo,       &dw_command_ops,
    &dw_command_api,   &dw_command_verify,     &dw_command_help,
    &dw_command_man,   &dw_command_completion,
};

const dw_command *const *dw_commands(size_t *count)
{
    *count = DW_COUNT(commands);
    return commands;
}

static const dw_command *find_command(const char *name)
{
    for (size_t i = 0; i < DW_COUNT(commands); i++)
        if (strcmp(commands[i]->name, name) == 0)
            return commands[i];
    return NULL;
}

static bool is_noun(const char *name)
{
    size_t count, bytes = strlen(name);
    const dw_op *ops = dw_ops(&count);
    for (size_t i = 0; i < count; i++)
        if (strncmp(ops[i].name, name, bytes) == 0 && ops[i].name[bytes] == '.')
            return true;
    return false;
}

static const dw_op *find_op(const char *noun, const char *verb)
{
    char name[96];
    snprintf(name, sizeof name, "%s.%s", noun, verb);
    return dw_op_find(name);
}

/* Spanish when the environment says so, English otherwise. */
static const char *environment_lang(void)
{
    static const char *const names[] = {"LC_ALL", "LC_MESSAGES", "LANG"};
    for (size_t i = 0; i < DW_COUNT(names); i++) {
        const char *value = getenv(names[i]);
        if (value && *value)
            return strncmp(value, "es", 2) == 0 ? "es" : "en";
    }
    return "en";
}

static dw_status take_lang(dw_cli *cli, const dw_args *args, dw_err *err)
{
    static const char *const langs[] = {"en", "es", NULL};
    const char *lang = dw_args_value(args, "lang");
    if (!lang)
        return DW_OK;
    int i = dw_words_find(langs, lang);
    if (i < 0) {
        dw_fail(err, DW_E_CHOICE, "lang", lang);
        err->words = langs;
        return DW_E_CHOICE;
    }
    cli->lang = langs[i];
    return DW_OK;
}

/* Looked for before the flags are read, since reading them may fail. */
static bool json_wanted(const dw_command *command, int argc, char **argv)
{
    bool wanted = command && command->json;
    for (int i = 1; i < argc; i++)
        wanted = wanted || strcmp(argv[i], "--json") == 0;
    return wanted;
}

static int run_command(dw_cli *cli, const dw_command *command, int argc,
                       char **argv)
{
    dw_err err = {0};
    dw_args args;
    cli->json = json_wanted(command, argc, argv);
    if (!command) {
        dw_fail(&err, DW_E_ROOM, argv[0], NULL);
        return dw_cli_refuse(cli, &err);
    }
    if (dw_flags_parse(command, argc, argv, cli->arena, &args, &err) != DW_OK ||
        take_lang(cli, &args, &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    if (!dw_args_value(&args, "help"))
        return command->run(cli, &args);
    dw_help_command(cli, command, stdout);
    return DW_EXIT_DONE;
}

static int refuse_command(const dw_cli *cli, const char *name)
{
    dw_err err;
    dw_fail_says(&err, DW_E_NOT_FOUND, name, NULL,
                 DW_MSG("is not a command; see doughwright help"));
    return dw_cli_refuse(cli, &err);
}

/* argv[0] is a noun. */
static int run_noun(dw_cli *cli, int argc, char **argv)
{
    if (argc < 2 || argv[1][0] == '-') {
        dw_help_noun(cli, argv[0], stdout);
        return DW_EXIT_DONE;
    }
    const dw_op *op = find_op(argv[0], argv[1]);
    if (!op)
        return refuse_command(cli, argv[1]);
    return run_command(cli, dw_command_of_op(op, cli->arena), argc - 1,
                       argv + 1);
}

static int dispatch(dw_cli *cli, int argc, char **argv)
{
    if (argc < 2 || strcmp(argv[1], "--help") == 0 ||
        strcmp(argv[1], "-h") == 0) {
        dw_help_all(cli, stdout);
        return DW_EXIT_DONE;
    }
    if (strcmp(argv[1], "--version") == 0) {
        printf("doughwright %s\n", DW_VERSION);
        return DW_EXIT_DONE;
    }
    const dw_command *command = find_command(argv[1]);
    if (command)
        return run_command(cli, command, argc - 1, argv + 1);
    if (is_noun(argv[1]))
        return run_noun(cli, argc - 1, argv + 1);
    return refuse_command(cli, argv[1]);
}

int dw_cli_run(int argc, char **argv)
{
    enum { ARENA_BYTES = 32 << 20 };
    void *block = malloc(ARENA_BYTES);
    if (!block) {
        fprintf(stderr, "doughwright: out of memory\n");
        return DW_EXIT_REFUSED;
    }
    dw_arena arena;
    dw_arena_init(&arena, block, ARENA_BYTES);
    dw_cli cli = {&arena, environment_lang(), false};
    int status = dispatch(&cli, argc, argv);
    if (status == DW_EXIT_DONE)
        status = dw_cli_close(&cli);
    free(block);
    return status;
}

/* doughwright help [COMMAND], doughwright help NOUN VERB */
static int run_help(dw_cli *cli, const dw_args *args)
{
    if (args->operands_count == 0) {
        dw_help_all(cli, stdout);
        return DW_EXIT_DONE;
    }
    const char *name = args->operands[0];
    const dw_command *command = find_command(name);
    if (!command && args->operands_count == 2) {
        const dw_op *op = find_op(name, args->operands[1]);
        if (!op)
            return refuse_command(cli, args->operands[1]);
        command = dw_command_of_op(op, cli->arena);
    }
    if (command)
        dw_help_command(cli, command, stdout);
    else if (is_noun(name))
        dw_help_noun(cli, name, stdout);
    else
        return refuse_command(cli, name);
    return DW_EXIT_DONE;
}

const dw_command dw_command_help = {
    .name = "help",
    .operands = "[COMMAND]",
    .most = 2,
    .about = DW_MSG("Say what a command does."),
    .run = run_help,
};
