/* doughwright demo: an invented commissary with a past, to look around in. */
#include "cli/cli.h"

#include "app/demo.h"
#include "door/json.h"
#include "doughwright/day.h"
#include "doughwright/say.h"
#include "files/commissary.h"
#include "files/yaml_file.h"
#include "os/zone.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const dw_flag flags[] = {
    {"seed", "NUMBER", DW_MSG("the same number, the same business"), false},
    {"data", "FILE", DW_MSG("the database to make; it must not be there"),
     false},
    {"today", "YYYY-MM-DD", DW_MSG("the day it is in the demo, half past nine"),
     false},
};

static dw_status take_seed(const dw_args *args, dw_demo_request *request,
                           dw_err *err)
{
    const char *typed = dw_args_value(args, "seed");
    char *end = NULL;
    if (!typed)
        return DW_OK;
    errno = 0;
    long long seed = strtoll(typed, &end, 10);
    if (end == typed || *end || errno)
        return dw_fail_says(err, DW_E_TYPE, "seed", typed,
                            DW_MSG("must be a whole number"));
    request->seed = seed;
    return DW_OK;
}

static dw_status take_today(const dw_args *args, dw_arena *arena,
                            dw_demo_request *request, dw_err *err)
{
    const char *typed = dw_args_value(args, "today");
    int year, month, date, length = 0;
    if (!typed)
        return DW_OK;
    int read = sscanf(typed, "%4d-%2d-%2d%n", &year, &month, &date, &length);
    int64_t day = 0, back_year = 0;
    int back_month = 0, back_date = 0;
    if (read == 3 && month >= 1 && month <= 12 && date >= 1 && date <= 31) {
        day = dw_day_from_date(year, month, date);
        dw_day_to_date(day, &back_year, &back_month, &back_date);
    }
    if (!typed[0] || typed[length] || back_date != date || year < 1972 ||
        year > 2190)
        return dw_fail_says(err, DW_E_SYNTAX, "today", typed,
                            DW_MSG("must be a date such as 2026-03-28"));
    const dw_zone *zone;
    DW_TRY(dw_zone_load(request->shop.shop.zone, arena, &zone, err));
    request->now_ms =
        dw_zone_utc_ms(zone, day * 86400000 + (9 * 60 + 30) * 60000LL);
    return DW_OK;
}

/* Made beside it and named when it is whole: a demo that was cut off leaves no
 * half database. */
static dw_status make_at(dw_cli *cli, const char *path, const char *body,
                         size_t bytes, const char **reply, size_t *reply_bytes,
                         dw_err *err)
{
    char *half = dw_arena_print(cli->arena, "%.480s.making", path);
    if (!half)
        return dw_fail(err, DW_E_ROOM, "data", path);
    unlink(half);
    dw_app *app;
    dw_app_options options = {
        .path = half, .readers = 1, .codec = &dw_json_codec};
    DW_TRY(dw_app_open(&options, &app, err));
    dw_job job = {.op = dw_op_find("demo.make"),
                  .body = body,
                  .body_bytes = bytes,
                  .device = "command line",
                  .lang = cli->lang};
    dw_status status = dw_app_perform(app, &job);
    *err = job.err;
    *reply = status == DW_OK ? dw_arena_text(cli->arena, job.reply) : NULL;
    *reply_bytes = job.reply_bytes;
    dw_app_free(app);
    if (status == DW_OK && link(half, path) != 0)
        status = dw_fail(err, errno == EEXIST ? DW_E_CONFLICT : DW_E_IO, "data",
                         path);
    unlink(half);
    return status;
}

static dw_status make(dw_cli *cli, const dw_args *args, const char **path,
                      const char **reply, size_t *reply_bytes, dw_err *err)
{
    dw_demo_request request;
    const char *body;
    size_t bytes;
    DW_TRY(dw_cli_data_path(args, cli->arena, path, err));
    if (access(*path, F_OK) == 0)
        return dw_fail_says(err, DW_E_CONFLICT, "data", *path,
                            DW_MSG("is there already; the demo touches no "
                                   "database that is there"));
    dw_shape_preset(&dw_demo_request_shape, &request);
    DW_TRY(dw_yaml_read(&dw_shop_file_shape, "commissary.yaml",
                        dw_commissary_yaml, dw_commissary_yaml_bytes,
                        cli->arena, &request.shop, err));
    DW_TRY(take_seed(args, &request, err));
    DW_TRY(take_today(args, cli->arena, &request, err));
    if (dw_shape_check(&dw_demo_request_shape, &request, err) != DW_OK)
        return err->status;
    DW_TRY(dw_json_encode(&dw_demo_request_shape, &request, cli->arena, &body,
                          &bytes));
    return make_at(cli, *path, body, bytes, reply, reply_bytes, err);
}

static int run(dw_cli *cli, const dw_args *args)
{
    const char *path, *reply = "";
    size_t bytes = 0;
    dw_err err = {0};
    dw_demo_reply made;
    if (make(cli, args, &path, &reply, &bytes, &err) != DW_OK ||
        dw_json_decode(&dw_demo_reply_shape, reply, bytes, cli->arena, &made,
                       &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    if (cli->json) {
        puts(reply);
        return DW_EXIT_DONE;
    }
    char said[512];
    const dw_value values[] = {
        DW_VALUE_TEXT("name", made.name), DW_VALUE_TEXT("file", path),
        DW_VALUE_NUMBER("sales", (double)made.sales),
        DW_VALUE_NUMBER("batches", (double)made.batches)};
    dw_say(said, sizeof said, cli->lang,
           DW_MSG("{name}, an invented business, is in {file}: {sales} rows of "
                  "sales and {batches} batches."),
           values, DW_COUNT(values));
    puts(said);
    return DW_EXIT_DONE;
}

extern const dw_command dw_command_demo;
const dw_command dw_command_demo = {
    .name = "demo",
    .operands = "",
    .flags = flags,
    .flags_count = DW_COUNT(flags),
    .about =
        DW_MSG("Make a database with an invented commissary and its past."),
    .run = run,
};
