/* doughwright api: the OpenAPI page of the door. */
#include "cli/cli.h"
#include "door/openapi.h"
#include "doughwright/say.h"

static int run(dw_cli *cli, const dw_args *args)
{
    const char *text;
    size_t bytes;
    dw_status status = dw_openapi(cli->arena, &text, &bytes);
    if (status != DW_OK) {
        dw_err err;
        dw_fail(&err, status, args->command->name, NULL);
        return dw_cli_refuse(cli, &err);
    }
    printf("%s\n", text);
    return DW_EXIT_DONE;
}

extern const dw_command dw_command_api;
const dw_command dw_command_api = {
    .name = "api",
    .operands = "",
    .about = DW_MSG("Print the OpenAPI 3.1 page of the operations."),
    .run = run,
};
