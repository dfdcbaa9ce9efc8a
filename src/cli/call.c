/* doughwright call OP < in.json > out.json: the door itself, for programs. */
#include "cli/cli.h"
#include "doughwright/say.h"

#include <stdlib.h>

static int run(dw_cli *cli, const dw_args *args)
{
    dw_err err = {0};
    const dw_op *op = dw_op_find(args->operands[0]);
    if (!op) {
        dw_fail_says(&err, DW_E_NOT_FOUND, "op", args->operands[0],
                     DW_MSG("is not an operation; see doughwright ops"));
        return dw_cli_refuse(cli, &err);
    }
    char *body;
    size_t bytes, reply_bytes;
    const char *reply;
    if (dw_cli_read(stdin, "standard input", &body, &bytes, &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    dw_status status =
        dw_cli_perform(cli, args, op, body, bytes, &reply, &reply_bytes, &err);
    free(body);
    if (status != DW_OK)
        return dw_cli_refuse(cli, &err);
    fwrite(reply, 1, reply_bytes, stdout);
    putchar('\n');
    return DW_EXIT_DONE;
}

extern const dw_command dw_command_call;
const dw_command dw_command_call = {
    .name = "call",
    .operands = "OP",
    .least = 1,
    .most = 1,
    .flags = dw_flags_data,
    .flags_count = DW_FLAGS_DATA,
    .about = DW_MSG("Run operation OP on the JSON request of standard input."),
    .run = run,
    .json = true,
};
