/* doughwright verify: was the record tampered with? */
#include "cli/cli.h"

#include "doughwright/say.h"

#include <jansson.h>

static void say(const dw_cli *cli, const json_t *reply)
{
    const char *hash = json_string_value(json_object_get(reply, "hash"));
    const dw_value values[] = {
        DW_VALUE_NUMBER(
            "rows", (double)json_integer_value(json_object_get(reply, "rows"))),
        DW_VALUE_TEXT("hash", hash ? hash : ""),
    };
    char line[300];
    dw_say(line, sizeof line, cli->lang,
           hash ? DW_MSG("The journal holds: {rows} rows. The last one is "
                         "{hash}. Write it down: a file that was exchanged "
                         "as a whole shows another.")
                : DW_MSG("The journal holds: it is empty."),
           values, DW_COUNT(values));
    puts(line);
}

static int run(dw_cli *cli, const dw_args *args)
{
    dw_err err = {0};
    const char *reply;
    size_t bytes;
    const dw_op *op = dw_op_find("journal.verify");
    if (dw_cli_perform(cli, args, op, "{}", 2, &reply, &bytes, &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    if (cli->json) {
        printf("%s\n", reply);
        return DW_EXIT_DONE;
    }
    json_t *root = json_loadb(reply, bytes, 0, NULL);
    say(cli, root);
    json_decref(root);
    return DW_EXIT_DONE;
}

extern const dw_command dw_command_verify;
const dw_command dw_command_verify = {
    .name = "verify",
    .operands = "",
    .flags = dw_flags_data,
    .flags_count = 1,
    .about = DW_MSG("Check that the database is whole and nothing in its "
                    "journal was edited, cut out or moved."),
    .run = run,
};
