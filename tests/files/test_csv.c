#include "app/sales.h"
#include "dw_test.h"
#include "files/csv.h"

static unsigned char block[1 << 20];

static dw_status open_text(dw_csv *csv, dw_arena *arena, const char *text,
                           dw_err *err)
{
    dw_arena_init(arena, block, sizeof block);
    return dw_csv_open(text, strlen(text), arena, csv, err);
}

/* Records as fields in brackets, "[a][b]|[c]". */
static const char *all_of(const char *text)
{
    static char out[2000];
    dw_csv csv;
    dw_arena arena;
    dw_csv_record record;
    dw_err err;
    bool more = true;
    out[0] = '\0';
    if (open_text(&csv, &arena, text, &err) != DW_OK)
        return "cannot be opened";
    while (dw_csv_next(&csv, &record, &more, &err) == DW_OK && more) {
        strcat(out, *out ? "|" : "");
        for (size_t i = 0; i < record.count; i++) {
            strcat(out, "[");
            strcat(out, record.fields[i]);
            strcat(out, "]");
        }
    }
    return out;
}

TEST(records_follow_the_rules_of_the_standard, PUBLISHED,
     "RFC 4180 section 2, rules 1 to 7")
{
    SAME_TEXT(all_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"),
              "[aaa][bbb][ccc]|[zzz][yyy][xxx]");
    SAME_TEXT(all_of("aaa,bbb,ccc\r\nzzz,yyy,xxx"),
              "[aaa][bbb][ccc]|[zzz][yyy][xxx]");
    SAME_TEXT(all_of("\"aaa\",\"b \r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
              "[aaa][b \r\nbb][ccc]|[zzz][yyy][xxx]");
    SAME_TEXT(all_of("\"aaa\",\"b\"\"bb\",\"ccc\""), "[aaa][b\"bb][ccc]");
    SAME_TEXT(all_of("\"a,b\",\"\",c\n"), "[a,b][][c]");
}

TEST(files_that_differ_are_read_all_the_same, PRACTICE,
     "common practice, no source")
{
    SAME_TEXT(all_of("a;b\n1,5;2\n"), "[a][b]|[1,5][2]");
    SAME_TEXT(all_of("a\tb\r1\t2\r"), "[a][b]|[1][2]");
    SAME_TEXT(all_of("\xef\xbb\xbf"
                     "a,b\n\n\n1,2\n"),
              "[a][b]|[1][2]");
    SAME_TEXT(all_of("\"x;y;z\",b\n"), "[x;y;z][b]");
    SAME_TEXT(all_of(" a , b b \n,\n"), "[a][b b]|[][]");
    SAME_TEXT(all_of(""), "");
}

static void refuse(const char *text, const char *field)
{
    dw_csv csv;
    dw_arena arena;
    dw_csv_record record;
    dw_err err = {.status = DW_OK};
    bool more = true;
    dw_status status = open_text(&csv, &arena, text, &err);
    while (status == DW_OK && more)
        status = dw_csv_next(&csv, &record, &more, &err);
    CHECK(status != DW_OK);
    SAME_TEXT(err.field, field);
}

TEST(what_cannot_be_read_is_refused_with_its_line, DERIVED,
     "lines counted by hand")
{
    refuse("a,b\n1,\"2\n3\n", "line 2");
    refuse("a,b\n\"1\"x,2\n", "line 2");
    refuse("a,b\n\"x\ny\"z,2\n", "line 3");
    refuse("a,\xff\n", "file");
    char wide[400] = "a,b\n";
    memset(wide + 4, ',', 100);
    refuse(wide, "line 2");
}

TEST(a_cell_that_a_spreadsheet_would_run_is_guarded, PRACTICE,
     "common practice: an apostrophe before = + - @")
{
    static const struct {
        const char *text, *cell;
    } cells[] = {
        {"plain", "plain"},
        {"=1+1", "\"'=1+1\""},
        {"+a", "\"'+a\""},
        {"-3", "\"'-3\""},
        {"@x", "\"'@x\""},
        {"\tx", "\"'\tx\""},
        {"a,b", "\"a,b\""},
        {"say \"no\"", "\"say \"\"no\"\"\""},
        {"two\nlines", "\"two\nlines\""},
        {"", ""},
        {" x", "\" x\""},
    };
    char out[100];
    for (size_t i = 0; i < DW_COUNT(cells); i++) {
        dw_csv_guard(out, sizeof out, cells[i].text);
        SAME_TEXT(out, cells[i].cell);
    }
}

TEST(rows_of_a_reply_are_written_and_can_be_read, LIMIT, "round trip")
{
    dw_sale_refused rows[] = {{3, "balls", "-3", "must be, well, whole"},
                              {4, "day", NULL, "=cmd"}};
    dw_sales_taken taken = {.refused = rows, .refused_count = 2};
    static unsigned char more_block[4096];
    dw_arena arena;
    const char *text;
    size_t bytes;
    dw_arena_init(&arena, more_block, sizeof more_block);
    NEED(dw_csv_write(&dw_sales_taken_shape, &taken, &arena, &text, &bytes,
                      NULL) == DW_OK);
    SAME_TEXT(all_of(text), "[line][field][value][message]|"
                            "[3][balls]['-3][must be, well, whole]|"
                            "[4][day][]['=cmd]");
    SAME(bytes, strlen(text));
    dw_arena_init(&arena, more_block, 40);
    SAME(dw_csv_write(&dw_sales_taken_shape, &taken, &arena, &text, &bytes,
                      NULL),
         DW_E_ROOM);
    SAME(
        dw_csv_write(&dw_sale_refused_shape, rows, &arena, &text, &bytes, NULL),
        DW_E_TYPE);
}
