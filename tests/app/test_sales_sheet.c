#include "dw_test.h"
#include "app/sales_sheet.h"

static unsigned char block[1 << 20];

static dw_status read_as(const char *text, int dates, dw_sales_sheet *sheet,
                         dw_err *err)
{
    static dw_arena arena;
    dw_sales_mapping mapping;
    dw_arena_init(&arena, block, sizeof block);
    DW_TRY(dw_sales_propose(text, strlen(text), &arena, &mapping, err));
    mapping.dates = dates;
    return dw_sales_read(text, strlen(text), &mapping, "en", &arena, sheet,
                         err);
}

static dw_status read_sheet(const char *text, dw_sales_sheet *sheet,
                            dw_err *err)
{
    return read_as(text, DW_DATES_FIND_OUT, sheet, err);
}

/* 2026-03-28 is day 20540: date -u -d 2026-03-28 +%s / 86400. */
enum { DAY = 20540 };

TEST(columns_are_found_by_their_names_in_any_order, DERIVED,
     "day numbers from date(1)")
{
    dw_sales_sheet sheet;
    dw_err err;
    NEED(read_sheet("Day,Sold Out,Qty,Shop,Weather,Item\n"
                    "2026-03-28,no,31,Mill,rain,Small\n"
                    "2026-03-29 21:40,yes,7,Mill,sun,\"Large, thin\"\n",
                    &sheet, &err) == DW_OK);
    SAME(sheet.mapping.separator, 0);
    SAME(sheet.mapping.decimal, 0);
    SAME(sheet.mapping.dates, DW_DATES_YEAR_FIRST);
    NEED(sheet.rows_count == 2 && sheet.refused_count == 0);
    SAME(sheet.rows[0].day, DAY);
    SAME(sheet.rows[0].balls, 31);
    CHECK(!sheet.rows[0].sold_out);
    SAME(sheet.rows[1].day, DAY + 1);
    CHECK(sheet.rows[1].sold_out);
    SAME_TEXT(sheet.rows[1].product, "Large, thin");
    SAME_TEXT(sheet.rows[1].outlet, "Mill");
    SAME(sheet.rows[1].line, 3);
}

TEST(a_spanish_file_with_semicolons_and_decimal_commas_is_read, DERIVED,
     "day numbers from date(1)")
{
    dw_sales_sheet sheet;
    dw_err err;
    NEED(read_sheet("Fecha;Tienda;Producto;Cantidad;Agotado\r\n"
                    "28/03/2026;Mill;Chica;12,0;s\xc3\xad\r\n"
                    "1/4/26;;Chica;3;no\r\n",
                    &sheet, &err) == DW_OK);
    SAME(sheet.mapping.separator, 1);
    SAME(sheet.mapping.decimal, 1);
    SAME(sheet.mapping.dates, DW_DATES_DAY_FIRST);
    NEED(sheet.rows_count == 2);
    SAME(sheet.rows[0].day, DAY);
    SAME(sheet.rows[0].balls, 12);
    CHECK(sheet.rows[0].sold_out);
    SAME(sheet.rows[1].day, DAY + 4);
    CHECK(sheet.rows[1].outlet == NULL);
}

TEST(the_order_of_dates_is_found_or_asked_for, DERIVED, "worked by hand")
{
    dw_sales_sheet sheet;
    dw_err err;
    NEED(read_sheet("product,day,balls\na,3/28/2026,1\na,4/1/2026,2\n", &sheet,
                    &err) == DW_OK);
    SAME(sheet.mapping.dates, DW_DATES_MONTH_FIRST);
    SAME(sheet.rows[1].day, DAY + 4);
    NEED(read_sheet("product,day,balls\na,1.4.2026,1\n", &sheet, &err) ==
         DW_OK);
    SAME(sheet.rows[0].day, DAY + 4);
    SAME(read_sheet("product,day,balls\na,3/4/2026,1\n", &sheet, &err),
         DW_E_CHOICE);
    SAME_TEXT(err.field, "day");
    NEED(read_as("product,day,balls\na,4/1/2026,1\n", DW_DATES_MONTH_FIRST,
                 &sheet, &err) == DW_OK);
    SAME(sheet.rows[0].day, DAY + 4);
    SAME(read_sheet("product,day,balls\na,28/3/2026,1\na,3/28/2026,1\n", &sheet,
                    &err),
         DW_E_CONFLICT);
}

TEST(bad_rows_are_kept_aside_and_the_good_ones_stay, DERIVED,
     "lines counted by hand")
{
    static const char *const fields[] = {"product", "balls", "balls",
                                         "balls",   "balls", "sold_out",
                                         "day",     "day",   "day"};
    dw_sales_sheet sheet;
    dw_err err;
    NEED(read_sheet("product,day,balls,sold_out\n"
                    "a,2026-03-28,5,\n"
                    ",2026-03-28,5,\n"
                    "a,2026-03-28,-5,\n"
                    "a,2026-03-28,many,\n"
                    "a,2026-03-28,5.5,\n"
                    "a,2026-03-28,999999,\n"
                    "a,2026-03-28,5,maybe\n"
                    "a,2026-02-30,5,\n"
                    "a,yesterday,5,\n"
                    "a,,5,\n"
                    "b,2026-03-28,6,\n",
                    &sheet, &err) == DW_OK);
    SAME(sheet.rows_count, 2);
    SAME_TEXT(sheet.rows[1].product, "b");
    NEED(sheet.refused_count == DW_COUNT(fields));
    for (size_t i = 0; i < DW_COUNT(fields); i++) {
        SAME_TEXT(sheet.refused[i].field, fields[i]);
        SAME(sheet.refused[i].line, i + 3);
        CHECK(sheet.refused[i].message != NULL);
    }
    SAME_TEXT(sheet.refused[6].value, "2026-02-30");
}

TEST(a_file_without_its_columns_is_refused_as_a_whole, DERIVED,
     "the columns that must be there")
{
    dw_sales_sheet sheet;
    dw_err err;
    SAME(read_sheet("", &sheet, &err), DW_E_MISSING);
    SAME(read_sheet("product,day\na,2026-03-28\n", &sheet, &err), DW_E_MISSING);
    SAME_TEXT(err.field, "balls");
    SAME(read_sheet("product,item,day,balls\n", &sheet, &err), DW_E_CONFLICT);
    SAME_TEXT(err.field, "product");
    NEED(read_sheet("product,day,balls\n", &sheet, &err) == DW_OK);
    SAME(sheet.rows_count, 0);
}

TEST(an_hour_is_read_from_its_own_column_or_behind_the_date, DERIVED,
     "worked by hand")
{
    dw_sales_sheet sheet;
    dw_err err;
    NEED(read_sheet("product,day,balls,hour\na,2026-03-28,5,21:40\n"
                    "a,2026-03-28,2,7\na,2026-03-28,2,27\n",
                    &sheet, &err) == DW_OK);
    NEED(sheet.rows_count == 2 && sheet.refused_count == 1);
    CHECK(sheet.mapping.add_up && sheet.rows[0].has_hour);
    SAME(sheet.rows[0].hour, 21);
    SAME(sheet.rows[1].hour, 7);
    SAME_TEXT(sheet.refused[0].field, "hour");
    NEED(read_sheet("product,day,balls\na,2026-03-28 18:05,5\n", &sheet,
                    &err) == DW_OK);
    SAME(sheet.rows[0].day, DAY);
    SAME(sheet.rows[0].hour, 18);
    NEED(read_sheet("product,day,balls\na,2026-03-28,5\n", &sheet, &err) ==
         DW_OK);
    CHECK(!sheet.rows[0].has_hour && !sheet.mapping.add_up);
}

TEST(columns_without_known_names_are_given_by_number, DERIVED, "worked by hand")
{
    static const char text[] = "what;when;n\na;28/03/2026;5\n";
    static dw_arena arena;
    dw_sales_mapping mapping;
    dw_sales_sheet sheet;
    dw_err err;
    dw_arena_init(&arena, block, sizeof block);
    NEED(dw_sales_propose(text, strlen(text), &arena, &mapping, &err) == DW_OK);
    SAME(mapping.product_column, 0);
    SAME(
        dw_sales_read(text, strlen(text), &mapping, "en", &arena, &sheet, &err),
        DW_E_MISSING);
    mapping.product_column = 1;
    mapping.day_column = 2;
    mapping.balls_column = 3;
    NEED(dw_sales_read(text, strlen(text), &mapping, "en", &arena, &sheet,
                       &err) == DW_OK);
    NEED(sheet.rows_count == 1);
    SAME(sheet.rows[0].day, DAY);
    SAME(sheet.rows[0].balls, 5);
}
