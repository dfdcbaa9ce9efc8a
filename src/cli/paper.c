/* doughwright paper SHEET [ID]: sheets and labels as PDF. */
#include "cli/cli.h"
#include "cli/fields.h"
#include "doughwright/day.h"
#include "doughwright/say.h"
#include "os/file.h"
#include "paper/paper.h"

#include <inttypes.h>
#include <string.h>
#include <unistd.h>

enum { OUT, SIZE, UNITS, DAY, TARGET, FLAGS_OWN = 9 };
static const dw_flag flags[FLAGS_OWN] = {
    [OUT] = {"out", "FILE", DW_MSG("write it there; else to standard output"),
             false},
    [SIZE] = {"size", "a4|letter|label",
              DW_MSG("of the paper; else letter with US units, A4 with metric "
                     "ones, and labels one by one"),
              false},
    [UNITS] = {"units", "metric|us", DW_MSG("of the numbers, else the shop's"),
               false},
    [DAY] = {"day", "DATE",
             DW_MSG("of run, pull and drops, as 2026-11-24; else today"),
             false},
    [TARGET] = {"target", "JSON|@FILE",
                DW_MSG("of scale, as formula.scale takes it"), false},
    {"target.flour_kg", "QUANTITY", DW_MSG("of scale: so much flour"), false},
    {"target.dough_kg", "QUANTITY", DW_MSG("of scale: so much dough"), false},
    {"target.loss_percent", "QUANTITY",
     DW_MSG("of scale: dough that never becomes a piece"), false},
    {"data", "FILE", DW_MSG("the business's database"), false},
};

/* A date becomes the number of its day; what is none is left to the door. */
static void day_from_date(const dw_cli *cli, const dw_args *args)
{
    const char *typed = args->values[DAY];
    int year, month, date, end = 0;
    if (typed &&
        sscanf(typed, "%4d-%2d-%2d%n", &year, &month, &date, &end) == 3 &&
        !typed[end] && month >= 1 && month <= 12 && date >= 1 && date <= 31)
        args->values[DAY] = dw_arena_print(cli->arena, "%" PRId64,
                                           dw_day_from_date(year, month, date));
}

static dw_status read_operands(const dw_args *args, int *what, dw_err *err)
{
    *what = dw_words_find(dw_paper_words, args->operands[0]);
    if (*what < 0) {
        dw_fail(err, DW_E_CHOICE, "SHEET", args->operands[0]);
        err->words = dw_paper_words;
        return DW_E_CHOICE;
    }
    const char *id = args->operands_count > 1 ? args->operands[1] : "0";
    if (strspn(id, "0123456789") != strlen(id) || strlen(id) > 15)
        return dw_fail(err, DW_E_TYPE, "ID", id);
    return DW_OK;
}

static dw_status make_request(const dw_cli *cli, const dw_args *args,
                              const char **text, dw_err *err)
{
    int what;
    const char *rest;
    size_t bytes;
    DW_TRY(read_operands(args, &what, err));
    day_from_date(cli, args);
    DW_TRY(dw_fields_request(&dw_paper_request_shape, args, cli->arena, &rest,
                             &bytes, err));
    size_t room = bytes + 64;
    char *out = dw_arena_take(cli->arena, room);
    if (!out)
        return dw_fail(err, DW_E_ROOM, "paper", NULL);
    snprintf(out, room, "{\"what\":\"%s\",\"id\":%s%s%s", dw_paper_words[what],
             args->operands_count > 1 ? args->operands[1] : "0",
             bytes > 2 ? "," : "", rest + 1);
    *text = out;
    return DW_OK;
}

static dw_status write_out(const char *path, const char *pdf, size_t bytes,
                           dw_err *err)
{
    if (path)
        return dw_file_write(path, pdf, bytes, err);
    if (isatty(STDOUT_FILENO))
        return dw_fail_says(err, DW_E_MISSING, "out", NULL,
                            DW_MSG("is required: a terminal shows no PDF"));
    fwrite(pdf, 1, bytes, stdout);
    return DW_OK;
}

static int run(dw_cli *cli, const dw_args *args)
{
    dw_err err = {0};
    dw_job job = {.op = &dw_paper_op, .codec = &dw_paper_codec};
    const char *pdf;
    size_t bytes;
    if (make_request(cli, args, &job.body, &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    job.body_bytes = strlen(job.body);
    if (dw_cli_perform_job(cli, args, &job, &pdf, &bytes, &err) != DW_OK ||
        write_out(args->values[OUT], pdf, bytes, &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    return DW_EXIT_DONE;
}

extern const dw_command dw_command_paper;
const dw_command dw_command_paper = {
    .name = "paper",
    .operands = "SHEET [ID]",
    .least = 1,
    .most = 2,
    .flags = flags,
    .flags_count = FLAGS_OWN,
    .about = DW_MSG(
        "Print a sheet as PDF: batch ID, procedure FORMULA, scale "
        "FORMULA, run, day, handover, labels ID, pull, drops, or recall LOT."),
    .run = run,
};
