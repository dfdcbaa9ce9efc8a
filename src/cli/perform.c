#include "cli/cli.h"

#include "app/app.h"
#include "door/json.h"
#include "doughwright/say.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Make every folder on the way to `path`. */
static dw_status make_folders(char *path, dw_err *err)
{
    for (char *at = strchr(path + 1, '/'); at; at = strchr(at + 1, '/')) {
        *at = '\0';
        bool made = mkdir(path, 0700) == 0 || errno == EEXIST;
        if (!made)
            dw_fail(err, DW_E_IO, "data", path);
        *at = '/';
        if (!made)
            return DW_E_IO;
    }
    return DW_OK;
}

static char *own_path(dw_arena *arena)
{
    const char *folder = getenv("XDG_DATA_HOME");
    const char *home = getenv("HOME");
    if (folder && folder[0] == '/')
        return dw_arena_print(arena, "%.400s/doughwright/business.db", folder);
    if (home && home[0] == '/')
        return dw_arena_print(
            arena, "%.400s/.local/share/doughwright/business.db", home);
    return NULL;
}

dw_status dw_cli_data_path(const dw_args *args, dw_arena *arena,
                           const char **path, dw_err *err)
{
    const char *told = dw_args_value(args, "data");
    if (!told)
        told = getenv("DOUGHWRIGHT_DATA");
    if (told && *told) {
        *path = told;
        return DW_OK;
    }
    char *own = own_path(arena);
    if (!own)
        return dw_fail(err, DW_E_MISSING, "data", NULL);
    DW_TRY(make_folders(own, err));
    *path = own;
    return DW_OK;
}

static dw_status open_app(const dw_cli *cli, const dw_args *args,
                          const dw_op *op, dw_app **app, dw_err *err)
{
    dw_app_options options = {
        .readers = 1,
        .codec = &dw_json_codec,
        .dry = dw_args_value(args, "dry-run") != NULL,
    };
    if (!dw_op_is_pure(op))
        DW_TRY(dw_cli_data_path(args, cli->arena, &options.path, err));
    /* A mistyped name is not a new business. */
    if (op->kind == DW_OP_READ && access(options.path, F_OK) != 0)
        return dw_fail(err, DW_E_NOT_FOUND, "data", options.path);
    return dw_app_open(&options, app, err);
}

static dw_status keep_reply(const dw_job *job, dw_arena *arena,
                            const char **reply, size_t *bytes, dw_err *err)
{
    char *copy = dw_arena_take(arena, job->reply_bytes + 1);
    if (!copy)
        return dw_fail(err, DW_E_ROOM, job->op->name, NULL);
    memcpy(copy, job->reply, job->reply_bytes + 1);
    *reply = copy;
    *bytes = job->reply_bytes;
    return DW_OK;
}

dw_status dw_cli_perform_job(const dw_cli *cli, const dw_args *args,
                             dw_job *job, const char **reply,
                             size_t *reply_bytes, dw_err *err)
{
    dw_app *app;
    DW_TRY(open_app(cli, args, job->op, &app, err));
    job->device = "command line";
    job->key = dw_args_value(args, "key");
    job->lang = cli->lang;
    dw_status status = dw_app_perform(app, job);
    if (status == DW_OK)
        status = keep_reply(job, cli->arena, reply, reply_bytes, err);
    else
        *err = job->err;
    dw_app_free(app);
    return status;
}

dw_status dw_cli_perform(const dw_cli *cli, const dw_args *args,
                         const dw_op *op, const char *body, size_t bytes,
                         const char **reply, size_t *reply_bytes, dw_err *err)
{
    dw_job job = {.op = op, .body = body, .body_bytes = bytes};
    return dw_cli_perform_job(cli, args, &job, reply, reply_bytes, err);
}
