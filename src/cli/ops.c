/* doughwright ops: the operations of the door. */
#include "cli/cli.h"
#include "doughwright/say.h"

static int run(dw_cli *cli, const dw_args *args)
{
    dw_err err = {0};
    const char *reply;
    size_t bytes;
    if (cli->json) {
        if (dw_cli_perform(cli, args, dw_op_find("program.about"), "{}", 2,
                           &reply, &bytes, &err) != DW_OK)
            return dw_cli_refuse(cli, &err);
        printf("%s\n", reply);
        return DW_EXIT_DONE;
    }
    size_t count;
    const dw_op *ops = dw_ops(&count);
    for (size_t i = 0; i < count; i++)
        printf("%-24s %s\n", ops[i].name,
               dw_say_sentence(cli->lang, ops[i].about));
    return DW_EXIT_DONE;
}

extern const dw_command dw_command_ops;
const dw_command dw_command_ops = {
    .name = "ops",
    .operands = "",
    .about = DW_MSG("List the operations that call, the server and the pages "
                    "share."),
    .run = run,
};
