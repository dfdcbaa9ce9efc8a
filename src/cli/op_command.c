/* doughwright NOUN VERB --field value: an operation for people. */
#include "cli/cli.h"
#include "cli/fields.h"
#include "cli/show.h"
#include "door/json.h"
#include "doughwright/say.h"
#include "files/csv.h"

#include <string.h>

static const dw_flag units_flag = {"units", "metric|us",
                                   DW_MSG("the units of the answer"), false};
static const dw_flag csv_flag = {
    "csv", NULL, DW_MSG("the rows of the answer as CSV, for a spreadsheet"),
    false};

/* The reply's rows, as CSV. */
static int put_csv(dw_cli *cli, const dw_shape *shape, const char *reply,
                   size_t bytes)
{
    dw_err err = {0};
    const char *text;
    size_t length;
    void *object = dw_arena_take(cli->arena, shape->bytes);
    if (!object)
        dw_fail(&err, DW_E_ROOM, "csv", NULL);
    if (!object ||
        dw_json_decode(shape, reply, bytes, cli->arena, object, &err) !=
            DW_OK ||
        dw_csv_write(shape, object, cli->arena, &text, &length, &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    fwrite(text, 1, length, stdout);
    return DW_EXIT_DONE;
}

static dw_status units_of(const dw_args *args, dw_units_choice *units,
                          dw_err *err)
{
    const char *word = dw_args_value(args, "units");
    int i = word ? dw_words_find(dw_units_words, word) : DW_METRIC;
    if (i < 0) {
        dw_fail(err, DW_E_CHOICE, "units", word);
        err->words = dw_units_words;
        return DW_E_CHOICE;
    }
    *units = (dw_units_choice)i;
    return DW_OK;
}

static int run(dw_cli *cli, const dw_args *args)
{
    const dw_op *op = args->command->op;
    dw_err err = {0};
    const char *body, *reply;
    size_t bytes, reply_bytes;
    dw_units_choice units;
    if (units_of(args, &units, &err) != DW_OK ||
        dw_fields_request(op->request, args, cli->arena, &body, &bytes, &err) !=
            DW_OK ||
        dw_cli_perform(cli, args, op, body, bytes, &reply, &reply_bytes,
                       &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    if (dw_args_value(args, "csv"))
        return put_csv(cli, op->reply, reply, reply_bytes);
    if (cli->json)
        printf("%s\n", reply);
    else
        dw_show(op->reply, reply, reply_bytes, units, stdout);
    return DW_EXIT_DONE;
}

static char *spaced(const char *op_name, dw_arena *arena)
{
    char *name = dw_arena_text(arena, op_name);
    char *dot = name ? strchr(name, '.') : NULL;
    if (dot)
        *dot = ' ';
    return name;
}

/* The fields, then what every operation takes. */
static dw_status put_flags(const dw_op *op, dw_arena *arena,
                           dw_command *command)
{
    size_t data = dw_op_is_pure(op) ? 0 : DW_FLAGS_DATA;
    dw_flag *flags;
    DW_TRY(dw_fields_flags(op->request, arena, data + 2, &flags,
                           &command->fields, &command->fields_count));
    size_t n = command->fields_count;
    memcpy(flags + n, dw_flags_data, data * sizeof *flags);
    n += data;
    /* Who saves units for others sees them at once. */
    if (!dw_shape_find(op->request, units_flag.name))
        flags[n++] = units_flag;
    flags[n++] = csv_flag;
    command->flags = flags;
    command->flags_count = n;
    return DW_OK;
}

/* Operations whose request is a file have a command of their own. */
extern const dw_command dw_command_formula_load, dw_command_formula_show,
    dw_command_sale_load, dw_command_shop_load, dw_command_shop_show;
static const struct {
    const char *op;
    const dw_command *command;
} own[] = {
    {"formula.load", &dw_command_formula_load},
    {"formula.show", &dw_command_formula_show},
    {"sale.load", &dw_command_sale_load},
    {"shop.load", &dw_command_shop_load},
    {"shop.show", &dw_command_shop_show},
};

const dw_command *dw_command_of_op(const dw_op *op, dw_arena *arena)
{
    for (size_t i = 0; i < DW_COUNT(own); i++)
        if (strcmp(own[i].op, op->name) == 0)
            return own[i].command;
    dw_command *command = DW_NEW(arena, dw_command);
    if (!command)
        return NULL;
    *command = (dw_command){.name = spaced(op->name, arena),
                            .operands = "",
                            .about = op->about,
                            .run = run,
                            .op = op};
    bool whole = command->name && put_flags(op, arena, command) == DW_OK;
    return whole ? command : NULL;
}
