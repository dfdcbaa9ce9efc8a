/* doughwright formula load FILE, formula show NAME, shop load FILE, shop show:
 * what people keep in files of their own. */
#include "cli/cli.h"
#include "door/json.h"
#include "doughwright/say.h"
#include "files/yaml_file.h"
#include "os/file.h"

#include <string.h>

static const char *last_part(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

/* The file as the operation's request, in JSON for the door. */
static dw_status read_request(const dw_cli *cli, const dw_op *op,
                              const char *path, const char **body,
                              size_t *bytes, dw_err *err)
{
    const char *text;
    size_t length;
    void *request = dw_arena_take(cli->arena, op->request->bytes);
    if (!request)
        return dw_fail(err, DW_E_ROOM, path, NULL);
    DW_TRY(dw_file_read(path, DW_YAML_MOST, cli->arena, &text, &length, err));
    DW_TRY(dw_yaml_read(op->request, last_part(path), text, length, cli->arena,
                        request, err));
    return dw_json_encode(op->request, request, cli->arena, body, bytes);
}

static int load(dw_cli *cli, const dw_args *args, const char *op_name)
{
    const dw_op *op = dw_op_find(op_name);
    const char *path = args->operands[0], *body, *reply;
    size_t bytes, reply_bytes;
    dw_err err = {0};
    if (read_request(cli, op, path, &body, &bytes, &err) != DW_OK ||
        dw_cli_perform(cli, args, op, body, bytes, &reply, &reply_bytes,
                       &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    char said[512];
    const dw_value values[] = {DW_VALUE_TEXT("file", path)};
    dw_say(said, sizeof said, cli->lang,
           dw_args_value(args, "dry-run") ? DW_MSG("{file} can be loaded.")
                                          : DW_MSG("{file} is loaded."),
           values, DW_COUNT(values));
    puts(cli->json ? reply : said);
    return DW_EXIT_DONE;
}

static int show(dw_cli *cli, const dw_args *args, const char *op_name,
                const char *body)
{
    const dw_op *op = dw_op_find(op_name);
    const char *reply, *text;
    size_t bytes, reply_bytes;
    dw_err err = {0};
    void *object = dw_arena_take(cli->arena, op->reply->bytes);
    if (!object)
        dw_fail(&err, DW_E_ROOM, op_name, NULL);
    if (!object ||
        dw_cli_perform(cli, args, op, body, strlen(body), &reply, &reply_bytes,
                       &err) != DW_OK ||
        dw_json_decode(op->reply, reply, reply_bytes, cli->arena, object,
                       &err) != DW_OK ||
        dw_yaml_write(op->reply, object, cli->arena, &text, &bytes, &err) !=
            DW_OK)
        return dw_cli_refuse(cli, &err);
    fputs(cli->json ? reply : text, stdout);
    if (cli->json)
        putchar('\n');
    return DW_EXIT_DONE;
}

static int formula_load(dw_cli *cli, const dw_args *args)
{
    return load(cli, args, "formula.load");
}

static int shop_load(dw_cli *cli, const dw_args *args)
{
    return load(cli, args, "shop.load");
}

static int shop_show(dw_cli *cli, const dw_args *args)
{
    return show(cli, args, "shop.show", "{}");
}

static int formula_show(dw_cli *cli, const dw_args *args)
{
    const dw_op *op = dw_op_find("formula.show");
    const struct named {
        const char *name;
    } named = {args->operands[0]};
    const char *body;
    size_t bytes;
    dw_err err = {0};
    DW_ASSERT(op->request->bytes == sizeof named);
    if (dw_shape_check(op->request, &named, &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    if (dw_json_encode(op->request, &named, cli->arena, &body, &bytes) != DW_OK)
        return dw_cli_refuse(cli, &err);
    return show(cli, args, "formula.show", body);
}

#define FILE_COMMAND(id, words, what, count, says)                             \
    extern const dw_command dw_command_##id;                                   \
    const dw_command dw_command_##id = {.name = words,                         \
                                        .operands = what,                      \
                                        .least = count,                        \
                                        .most = count,                         \
                                        .flags = dw_flags_data,                \
                                        .flags_count = DW_FLAGS_DATA,          \
                                        .about = says,                         \
                                        .run = id}
FILE_COMMAND(formula_load, "formula load", "FILE", 1,
             DW_MSG("Save the formula of a YAML file, by its name."));
FILE_COMMAND(formula_show, "formula show", "NAME", 1,
             DW_MSG("Print a formula as a YAML file."));
FILE_COMMAND(shop_load, "shop load", "FILE", 1,
             DW_MSG("Save the whole shop of a YAML file: all or nothing."));
FILE_COMMAND(shop_show, "shop show", "", 0,
             DW_MSG("Print the whole shop as a YAML file."));
