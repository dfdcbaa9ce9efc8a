/* doughwright sale load FILE: a cash register's CSV file. */
#include "cli/cli.h"

#include "door/json.h"
#include "doughwright/say.h"
#include "files/csv.h"
#include "app/sales_sheet.h"
#include "os/file.h"

#include <string.h>

enum { OWN_FLAGS = 2 };
static const dw_flag flags[OWN_FLAGS + DW_FLAGS_DATA] = {
    {"dates", "year|day|month", DW_MSG("what comes first in a date"), false},
    {"aside", "FILE", DW_MSG("write the rows that are refused there, as CSV"),
     false},
    {"data", "FILE", DW_MSG("the business's database"), false},
    {"dry-run", NULL, DW_MSG("do it, answer, and change nothing"), false},
    {"key", "TEXT",
     DW_MSG("the same key again gives the same answer, done once"), false},
};

static dw_status take_dates(const dw_args *args, int *dates, dw_err *err)
{
    const char *word = dw_args_value(args, "dates");
    *dates = DW_DATES_FIND_OUT;
    if (!word)
        return DW_OK;
    *dates = dw_words_find(dw_date_order_words, word);
    if (*dates >= 0 && *dates < DW_DATES_FIND_OUT)
        return DW_OK;
    dw_fail(err, DW_E_CHOICE, "dates", word);
    err->words = dw_date_order_words;
    return DW_E_CHOICE;
}

/* The good rows through the door; what it refuses joins the unreadable. */
static dw_status take(dw_cli *cli, const dw_args *args,
                      const dw_sales_sheet *sheet, dw_sales_taken *all,
                      dw_err *err)
{
    const dw_sales_given given = {sheet->rows, sheet->rows_count,
                                  sheet->mapping.add_up};
    dw_sales_taken taken = {.added = 0};
    const char *body, *reply;
    size_t bytes, reply_bytes;
    if (sheet->rows_count > 0) {
        DW_TRY(dw_json_encode(&dw_sales_given_shape, &given, cli->arena, &body,
                              &bytes));
        DW_TRY(dw_cli_perform(cli, args, dw_op_find("sale.load"), body, bytes,
                              &reply, &reply_bytes, err));
        DW_TRY(dw_json_decode(&dw_sales_taken_shape, reply, reply_bytes,
                              cli->arena, &taken, err));
    }
    size_t n = sheet->refused_count;
    *all = taken;
    all->refused_count = n + taken.refused_count;
    all->refused =
        DW_NEW_ARRAY(cli->arena, dw_sale_refused, all->refused_count);
    if (!all->refused)
        return dw_fail(err, DW_E_ROOM, "file", NULL);
    if (n > 0)
        memcpy(all->refused, sheet->refused, n * sizeof *all->refused);
    if (taken.refused_count > 0)
        memcpy(all->refused + n, taken.refused,
               taken.refused_count * sizeof *all->refused);
    return DW_OK;
}

static void tell_sheet(const dw_cli *cli, const dw_sales_sheet *sheet)
{
    static const char *const marks[] = {DW_MSG("comma"), DW_MSG("semicolon"),
                                        DW_MSG("tab")};
    static const char *const orders[] = {
        DW_MSG("year first"), DW_MSG("day first"), DW_MSG("month first")};
    const char *mark = marks[sheet->mapping.separator];
    const dw_value values[] = {
        DW_VALUE_TEXT("separator", dw_say_sentence(cli->lang, mark)),
        DW_VALUE_TEXT(
            "dates", dw_say_sentence(cli->lang, orders[sheet->mapping.dates]))};
    char said[300];
    dw_say(said, sizeof said, cli->lang,
           DW_MSG("Separator: {separator}. Dates: {dates}."), values,
           DW_COUNT(values));
    puts(said);
}

static void tell(const dw_cli *cli, const dw_sales_taken *taken)
{
    const dw_value values[] = {
        DW_VALUE_NUMBER("added", (double)taken->added),
        DW_VALUE_NUMBER("changed", (double)taken->changed),
        DW_VALUE_NUMBER("same", (double)taken->same),
        DW_VALUE_NUMBER("refused", (double)taken->refused_count)};
    char said[1200];
    dw_say(said, sizeof said, cli->lang,
           DW_MSG("{added} rows are new, {changed} have another number, {same} "
                  "are as they were, {refused} were kept aside."),
           values, DW_COUNT(values));
    puts(said);
    for (size_t i = 0; i < taken->refused_count; i++) {
        const dw_sale_refused *row = &taken->refused[i];
        const dw_value parts[] = {
            DW_VALUE_NUMBER("line", (double)row->line),
            DW_VALUE_TEXT("field", row->field),
            DW_VALUE_TEXT("value", row->value ? row->value : ""),
            DW_VALUE_TEXT("message", row->message)};
        dw_say(said, sizeof said, cli->lang,
               DW_MSG("line {line}: {field} \"{value}\" {message}"), parts,
               DW_COUNT(parts));
        puts(said);
    }
}

static dw_status keep_aside(dw_cli *cli, const char *path,
                            const dw_sales_taken *taken, dw_err *err)
{
    const char *text;
    size_t bytes;
    if (!path)
        return DW_OK;
    DW_TRY(dw_csv_write(&dw_sales_taken_shape, taken, cli->arena, &text, &bytes,
                        err));
    return dw_file_write(path, text, bytes, err);
}

static dw_status read_as(const dw_cli *cli, const char *text, size_t bytes,
                         int dates, dw_sales_sheet *sheet, dw_err *err)
{
    dw_sales_mapping mapping;
    DW_TRY(dw_sales_propose(text, bytes, cli->arena, &mapping, err));
    mapping.dates = dates;
    return dw_sales_read(text, bytes, &mapping, cli->lang, cli->arena, sheet,
                         err);
}

static int sale_load(dw_cli *cli, const dw_args *args)
{
    dw_err err = {0};
    dw_sales_sheet sheet;
    dw_sales_taken taken;
    const char *text, *json = "";
    size_t bytes;
    int dates;
    if (take_dates(args, &dates, &err) != DW_OK ||
        dw_file_read(args->operands[0], DW_CSV_MOST, cli->arena, &text, &bytes,
                     &err) != DW_OK ||
        read_as(cli, text, bytes, dates, &sheet, &err) != DW_OK ||
        take(cli, args, &sheet, &taken, &err) != DW_OK ||
        keep_aside(cli, dw_args_value(args, "aside"), &taken, &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    if (!cli->json) {
        tell_sheet(cli, &sheet);
        tell(cli, &taken);
        return DW_EXIT_DONE;
    }
    if (dw_json_encode(&dw_sales_taken_shape, &taken, cli->arena, &json,
                       &bytes) != DW_OK) {
        dw_fail(&err, DW_E_ROOM, "file", NULL);
        return dw_cli_refuse(cli, &err);
    }
    puts(json);
    return DW_EXIT_DONE;
}

extern const dw_command dw_command_sale_load;
const dw_command dw_command_sale_load = {
    .name = "sale load",
    .operands = "FILE",
    .least = 1,
    .most = 1,
    .flags = flags,
    .flags_count = DW_COUNT(flags),
    .about = DW_MSG("Read the sales of a CSV file: product, outlet, day, "
                    "balls, sold_out."),
    .run = sale_load,
};
