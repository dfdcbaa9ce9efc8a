#include "doughwright/day.h"
#include "doughwright/gs1.h"
#include "dw_csv.h"
#include "dw_test.h"

#include <stdlib.h>

enum { BLOCK = 16384 };

typedef struct desk {
    void *block;
    dw_arena arena;
    dw_err err;
} desk;

static desk desk_new(void)
{
    desk d = {.block = malloc(BLOCK)};
    dw_arena_init(&d.arena, d.block, BLOCK);
    return d;
}

static void look_at_key(const dw_csv *row)
{
    SAME(dw_gs1_key_valid(row->cells[0]), strcmp(row->cells[1], "valid") == 0);
}

TEST(check_digits_are_those_of_the_dictionary, PUBLISHED,
     "GS1 Barcode Syntax Dictionary tests and GS1 India: gs1_check_digit.csv; "
     "629104150021 has 3 (GS1)")
{
    SAME(dw_csv_each("gs1_check_digit.csv", look_at_key), 8);
    SAME(dw_gs1_check_digit("629104150021", 12), 3);
    CHECK(dw_gs1_key_valid("6291041500213"));
    CHECK(!dw_gs1_key_valid("629104150021x"));
    CHECK(!dw_gs1_key_valid(""));
}

static void look_at_date(const dw_csv *row)
{
    int64_t day = 0, today = dw_day_from_date(2026, 11, 25);
    SAME(dw_gs1_date_read(row->cells[0], today, &day),
         strcmp(row->cells[1], "yes") == 0);
}

TEST(dates_are_those_of_the_dictionary, PUBLISHED,
     "GS1 Barcode Syntax Dictionary tests: gs1_dates.csv")
{
    SAME(dw_csv_each("gs1_dates.csv", look_at_date), 12);
}

TEST(a_date_lies_within_fifty_years_and_day_00_is_the_months_end, PUBLISHED,
     "GS1 General Specifications 7.12, from memory")
{
    int64_t day = 0, today = dw_day_from_date(2026, 11, 25);
    CHECK(dw_gs1_date_read("270200", today, &day));
    SAME(day, dw_day_from_date(2027, 2, 28));
    CHECK(dw_gs1_date_read("760101", today, &day)); /* 50 ahead */
    SAME(day, dw_day_from_date(2076, 1, 1));
    CHECK(dw_gs1_date_read("770101", today, &day)); /* 51 ahead */
    SAME(day, dw_day_from_date(1977, 1, 1));
    today = dw_day_from_date(2080, 1, 1);
    CHECK(dw_gs1_date_read("300615", today, &day)); /* 50 behind */
    SAME(day, dw_day_from_date(2130, 6, 15));
}

static void look_at_closing(const dw_csv *row)
{
    char code[8];
    snprintf(code, sizeof code, "%s", row->cells[0]);
    size_t last = strlen(code) - 1;
    if (code[last] == 'n')
        code[last] = '3';
    /* those of hours, temperatures and harvests are not known here */
    if (strlen(code) == 4 && strchr("4780", code[0]))
        return;
    SAME(dw_gs1_needs_closing(code), strcmp(row->cells[3], "yes") == 0);
}

TEST(elements_without_a_predefined_length_are_closed, PUBLISHED,
     "GS1 Barcode Syntax Dictionary: gs1_ai.csv")
{
    SAME(dw_csv_each("gs1_ai.csv", look_at_closing), 25);
}

static dw_gs1_write_request box(void)
{
    return (dw_gs1_write_request){.gtin = "6291041500213",
                                  .lot = "58-3/A",
                                  .has_made_day = true,
                                  .made_day = dw_day_from_date(2026, 11, 25),
                                  .has_use_by_day = true,
                                  .use_by_day = dw_day_from_date(2026, 11, 29),
                                  .has_net_kg = true,
                                  .net_kg = 5.1,
                                  .has_count = true,
                                  .count = 12};
}

TEST(a_box_is_written_as_its_elements, DERIVED,
     "by hand: GTIN filled to fourteen digits, dates YYMMDD, 5.1 kg as 3103 "
     "005100 (GS1 syntax dictionary), the variable ones last; path order 01, "
     "10")
{
    desk d = desk_new();
    dw_gs1_write_request request = box();
    dw_gs1_write_reply reply;
    NEED(dw_gs1_write(&request, &d.arena, &d.err, &reply) == DW_OK);
    SAME_TEXT(reply.text, "(01)06291041500213(11)261125(17)261129(3103)005100"
                          "(10)58-3/A(30)12");
    SAME_TEXT(reply.path, "/01/06291041500213/10/58-3%2FA?11=261125&17=261129"
                          "&3103=005100&30=12");
    free(d.block);
}

static const char *element(const dw_gs1_read_reply *reply, const char *code)
{
    for (size_t i = 0; i < reply->elements_count; i++)
        if (strcmp(reply->elements[i].identifier, code) == 0)
            return reply->elements[i].value;
    return NULL;
}

TEST(what_was_written_is_read_back_from_brackets_and_from_a_scanner, LIMIT,
     "round trip")
{
    const char *const texts[] = {
        "(01)06291041500213(11)261125(17)261129(3103)005100(10)58-3/A(30)12",
        "]C10106291041500213112611251726112931030051001058-3/A\x1d"
        "3012",
        "\x1d"
        "0106291041500213"
        "1058-3/A\x1d"
        "11261125"
        "3012\x1d"
        "172611293103005100"};
    for (size_t i = 0; i < DW_COUNT(texts); i++) {
        desk d = desk_new();
        dw_gs1_read_request request = {texts[i],
                                       dw_day_from_date(2026, 11, 25)};
        dw_gs1_read_reply reply;
        NEED(dw_gs1_read(&request, &d.arena, &d.err, &reply) == DW_OK);
        SAME(reply.elements_count, 6);
        SAME_TEXT(element(&reply, "01"), "06291041500213");
        SAME_TEXT(element(&reply, "10"), "58-3/A");
        SAME_TEXT(element(&reply, "30"), "12");
        for (size_t j = 0; j < reply.elements_count; j++) {
            const dw_gs1_element *e = &reply.elements[j];
            if (strcmp(e->identifier, "3103") == 0)
                NEAR(e->amount, 5.1, 1e-12);
            if (strcmp(e->identifier, "17") == 0)
                SAME(e->day, dw_day_from_date(2026, 11, 29));
        }
        free(d.block);
    }
}

TEST(a_lot_may_hold_brackets_of_its_own, LIMIT, "round trip")
{
    desk d = desk_new();
    dw_gs1_read_request request = {"(01)06291041500213(10)a(b)c", 20000};
    dw_gs1_read_reply reply;
    NEED(dw_gs1_read(&request, &d.arena, &d.err, &reply) == DW_OK);
    SAME_TEXT(element(&reply, "10"), "a(b)c");
    free(d.block);
}

static void refuse_write(dw_gs1_write_request request, dw_status status,
                         const char *field)
{
    desk d = desk_new();
    dw_gs1_write_reply reply;
    SAME(dw_gs1_write(&request, &d.arena, &d.err, &reply), status);
    SAME_TEXT(d.err.field, field);
    free(d.block);
}

static void refuse_read(const char *text, dw_status status)
{
    desk d = desk_new();
    dw_gs1_read_request request = {text, 20000};
    dw_gs1_read_reply reply;
    SAME(dw_gs1_read(&request, &d.arena, &d.err, &reply), status);
    SAME_TEXT(d.err.field, "text");
    free(d.block);
}

TEST(a_symbol_that_would_be_wrong_is_refused, PUBLISHED,
     "GS1 General Specifications: check digits, character set 82, a lot needs "
     "its goods")
{
    dw_gs1_write_request request = box();
    request.gtin = "6291041500214";
    refuse_write(request, DW_E_SUM, "gtin");
    request.gtin = "62910415002";
    refuse_write(request, DW_E_SYNTAX, "gtin");
    request = box();
    request.lot = "58 3";
    refuse_write(request, DW_E_SYNTAX, "lot");
    request = box();
    request.use_by_day = dw_day_from_date(2100, 1, 1);
    refuse_write(request, DW_E_RANGE, "use_by_day");
    request = box();
    request.net_kg = 0.0001;
    refuse_write(request, DW_E_RANGE, "net_kg");
    refuse_read("(10)58", DW_E_MISSING);
    refuse_read("(01)06291041500214", DW_E_SUM);
    refuse_read("(01)0629104150021", DW_E_SYNTAX);
    refuse_read("(01)06291041500213(17)261340", DW_E_SYNTAX);
    refuse_read("", DW_E_SYNTAX);
    refuse_read("dough", DW_E_SYNTAX);
}
