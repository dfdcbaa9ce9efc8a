/* doughwright completion bash: words to complete, from the tables. */
#include "cli/cli.h"
#include "doughwright/say.h"

#include <string.h>

static void put_flags(const dw_command *command)
{
    size_t count;
    const dw_flag *common = dw_flags_common(&count);
    for (size_t i = 0; i < command->flags_count; i++)
        printf(" --%s", command->flags[i].name);
    for (size_t i = 0; i < count; i++)
        if (!dw_command_has_flag(command, common[i].name))
            printf(" --%s", common[i].name);
}

/* One line: after `words`, these may follow. */
static void put_case(const dw_command *command)
{
    printf("    '%s') follow='", command->name);
    put_flags(command);
    puts("' ;;");
}

static void put_op_names(const dw_op *ops, size_t count)
{
    for (size_t i = 0; i < count; i++)
        printf(" %s", ops[i].name);
}

static size_t noun_bytes(const dw_op *op)
{
    return strcspn(op->name, ".") + 1; /* with its dot */
}

static bool same_noun(const dw_op *a, const dw_op *b)
{
    return strncmp(a->name, b->name, noun_bytes(a)) == 0;
}

/* Operations are sorted, so those of one noun stand together. */
static void put_nouns(const dw_op *ops, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (i == 0 || !same_noun(&ops[i - 1], &ops[i]))
            printf(" %.*s", (int)noun_bytes(&ops[i]) - 1, ops[i].name);
}

static void put_verbs(const dw_op *ops, size_t count)
{
    for (size_t i = 0; i < count;) {
        size_t from = i, noun = noun_bytes(&ops[from]);
        printf("    '%.*s') follow='", (int)noun - 1, ops[from].name);
        for (; i < count && same_noun(&ops[from], &ops[i]); i++)
            printf(" %s", ops[i].name + noun);
        puts("' ;;");
    }
}

static void put_first_words(const dw_op *ops, size_t count)
{
    size_t commands_count;
    const dw_command *const *commands = dw_commands(&commands_count);
    printf("    '') follow='--help --version");
    for (size_t i = 0; i < commands_count; i++)
        printf(" %s", commands[i]->name);
    put_nouns(ops, count);
    puts("' ;;");
}

static void put_commands(const dw_op *ops, size_t count)
{
    size_t commands_count;
    const dw_command *const *commands = dw_commands(&commands_count);
    for (size_t i = 0; i < commands_count; i++) {
        printf("    '%s') follow='", commands[i]->name);
        put_flags(commands[i]);
        if (strcmp(commands[i]->name, "call") == 0)
            put_op_names(ops, count);
        if (strcmp(commands[i]->name, "completion") == 0)
            printf(" bash");
        puts("' ;;");
    }
}

static const char head[] =
    "# bash completion for doughwright; use: "
    "source <(doughwright completion bash)\n"
    "_doughwright()\n"
    "{\n"
    "    local current=${COMP_WORDS[COMP_CWORD]} said='' follow='' word\n"
    "    for word in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do\n"
    "        [[ $word == -* ]] && break\n"
    "        said+=${said:+ }$word\n"
    "    done\n"
    "    case $said in\n";

static const char tail[] =
    "    esac\n"
    "    mapfile -t COMPREPLY < <(compgen -W \"$follow\" -- \"$current\")\n"
    "}\n"
    "complete -o default -F _doughwright doughwright\n";

static int run(dw_cli *cli, const dw_args *args)
{
    if (strcmp(args->operands[0], "bash") != 0) {
        dw_err err;
        dw_fail_says(&err, DW_E_CHOICE, "SHELL", args->operands[0],
                     DW_MSG("is not a shell it completes for; try bash"));
        return dw_cli_refuse(cli, &err);
    }
    size_t count;
    const dw_op *ops = dw_ops(&count);
    fputs(head, stdout);
    put_first_words(ops, count);
    put_commands(ops, count);
    put_verbs(ops, count);
    for (size_t i = 0; i < count; i++) {
        size_t mark = cli->arena->used;
        const dw_command *command = dw_command_of_op(&ops[i], cli->arena);
        if (command)
            put_case(command);
        cli->arena->used = mark; /* one operation at a time */
    }
    fputs(tail, stdout);
    return DW_EXIT_DONE;
}

extern const dw_command dw_command_completion;
const dw_command dw_command_completion = {
    .name = "completion",
    .operands = "SHELL",
    .least = 1,
    .most = 1,
    .about = DW_MSG("Print the completion of a shell: bash."),
    .run = run,
};
