#include "cli/cli.h"

#include "doughwright/say.h"

#include <getopt.h>
#include <string.h>

static const dw_flag common[] = {
    {"help", NULL, DW_MSG("say what the command does and stop"), false},
    {"json", NULL, DW_MSG("answer and fail in JSON"), false},
    {"lang", "en|es", DW_MSG("language; otherwise that of the environment"),
     false},
};

const dw_flag dw_flags_data[DW_FLAGS_DATA] = {
    {"data", "FILE", DW_MSG("the business's database"), false},
    {"dry-run", NULL, DW_MSG("do it, answer, and change nothing"), false},
    {"key", "TEXT",
     DW_MSG("the same key again gives the same answer, done once"), false},
};

const dw_flag *dw_flags_common(size_t *count)
{
    *count = DW_COUNT(common);
    return common;
}

bool dw_command_has_flag(const dw_command *command, const char *name)
{
    for (size_t i = 0; i < command->flags_count; i++)
        if (strcmp(command->flags[i].name, name) == 0)
            return true;
    return false;
}

/* Flag i of a command, its own first, then the common ones. */
static const dw_flag *flag_at(const dw_command *command, size_t i)
{
    return i < command->flags_count ? &command->flags[i]
                                    : &common[i - command->flags_count];
}

static size_t flags_of(const dw_command *command)
{
    return command->flags_count + DW_COUNT(common);
}

/* getopt answers with this plus the number of the flag. */
enum { FIRST_FLAG = 256 };

static struct option *options_of(const dw_command *command, dw_arena *arena)
{
    size_t n = flags_of(command);
    struct option *options = DW_NEW_ARRAY(arena, struct option, n + 1);
    for (size_t i = 0; options && i < n; i++) {
        const dw_flag *flag = flag_at(command, i);
        options[i] = (struct option){
            .name = flag->name,
            .has_arg = !flag->value           ? no_argument
                       : flag->value_optional ? optional_argument
                                              : required_argument,
            .val = FIRST_FLAG + (int)i,
        };
    }
    return options;
}

static dw_status take_flags(const dw_command *command, int argc, char **argv,
                            const struct option *options, dw_args *args,
                            dw_err *err)
{
    optind = 0; /* begin anew */
    opterr = 0;
    int found;
    while ((found = getopt_long(argc, argv, ":h", options, NULL)) != -1) {
        const char *typed = argv[optind - 1];
        if (found == ':')
            return dw_fail_says(err, DW_E_MISSING, typed, NULL,
                                DW_MSG("needs a value"));
        if (found == '?')
            return dw_fail_says(err, DW_E_UNKNOWN_FIELD, typed, NULL,
                                DW_MSG("is not a flag of this command"));
        size_t i =
            found == 'h' ? command->flags_count : (size_t)(found - FIRST_FLAG);
        args->values[i] = optarg ? optarg : "";
    }
    return DW_OK;
}

dw_status dw_flags_parse(const dw_command *command, int argc, char **argv,
                         dw_arena *arena, dw_args *args, dw_err *err)
{
    const struct option *options = options_of(command, arena);
    args->command = command;
    args->values = DW_NEW_ARRAY(arena, const char *, flags_of(command));
    if (!options || !args->values)
        return dw_fail(err, DW_E_ROOM, command->name, NULL);
    DW_TRY(take_flags(command, argc, argv, options, args, err));
    args->operands = (const char *const *)argv + optind;
    args->operands_count = (size_t)(argc - optind);
    if (dw_args_value(args, "help"))
        return DW_OK;
    if (args->operands_count < command->least)
        return dw_fail(err, DW_E_MISSING, command->operands, NULL);
    if (args->operands_count > command->most)
        return dw_fail_says(err, DW_E_UNKNOWN_FIELD,
                            args->operands[command->most], NULL,
                            DW_MSG("is more than this command takes"));
    return DW_OK;
}

const char *dw_args_value(const dw_args *args, const char *name)
{
    for (size_t i = 0; i < flags_of(args->command); i++)
        if (strcmp(flag_at(args->command, i)->name, name) == 0)
            return args->values[i];
    return NULL;
}
