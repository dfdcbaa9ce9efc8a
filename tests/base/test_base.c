#include "doughwright/field.h"
#include "dw_test.h"

#include <float.h>
#include <stdlib.h>

typedef struct line {
    const char *material;
    int kind;
    double percent;
    bool has_moisture_percent;
    double moisture_percent;
} line;

typedef struct card {
    const char *title;
    line *lines;
    size_t lines_count;
    int64_t made_ms;
    bool cold;
} card;

static const char *const kinds[] = {"flour", "water", "salt", NULL};

static const dw_field line_fields[] = {
    DW_F_TEXT(line, material, 60, "what it is"),
    DW_F_CHOICE(line, kind, kinds, "what it does"),
    DW_F_REAL(line, percent, "percent", 0, 1000, "of total flour"),
    DW_F_REAL_OPT(line, moisture_percent, "percent", 0, 100, "its own water"),
};
static const dw_shape line_shape =
    DW_SHAPE("line", line, line_fields, "a line");
static const dw_field card_fields[] = {
    DW_F_TEXT(card, title, 20, "its name"),
    DW_F_MANY(card, lines, &line_shape, 1, 4, "what goes in"),
    DW_F_MOMENT(card, made_ms, "when"),
    DW_F_YES(card, cold, true, "is it held cold"),
};
static const dw_shape card_shape =
    DW_SHAPE("card", card, card_fields, "a card");

TEST(a_shape_gives_presets_and_zeroes_the_rest, LIMIT, "field.h")
{
    card c;
    memset(&c, 0x5a, sizeof c);
    dw_shape_preset(&card_shape, &c);
    CHECK(c.title == NULL && c.lines == NULL && c.lines_count == 0);
    CHECK(c.cold && c.made_ms == 0);
}

TEST(a_bad_member_deep_inside_is_named_by_its_path, LIMIT, "field.h")
{
    line lines[] = {{"strong flour", 0, 100, false, 0},
                    {"milk", 1, 20, true, 188}};
    card c = {"white", lines, 2, 0, true};
    dw_err err;
    SAME(dw_shape_check(&card_shape, &c, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "lines[1].moisture_percent");
    SAME_TEXT(err.value, "188");
    CHECK(err.ranged && err.low == 0 && err.high == 100);
    lines[1].has_moisture_percent = false;
    SAME(dw_shape_check(&card_shape, &c, &err), DW_OK);
}

TEST(not_a_number_never_passes_a_range, LIMIT, "DESIGN: NaN never leaves")
{
    dw_err err;
    SAME(dw_check_range(&err, "x", NAN, -DBL_MAX, DBL_MAX), DW_E_RANGE);
    SAME(dw_check_range(&err, "x", INFINITY, 0, DBL_MAX), DW_E_RANGE);
}

TEST(missing_text_long_text_and_wrong_words_are_refused, LIMIT, "field.h")
{
    line one = {"water", 7, 60, false, 0};
    card c = {NULL, &one, 1, 0, false};
    dw_err err;
    SAME(dw_shape_check(&card_shape, &c, &err), DW_E_MISSING);
    SAME_TEXT(err.field, "title");
    c.title = "a title of more than twenty bytes";
    SAME(dw_shape_check(&card_shape, &c, &err), DW_E_RANGE);
    c.title = "ok";
    SAME(dw_shape_check(&card_shape, &c, &err), DW_E_CHOICE);
    SAME_TEXT(err.field, "lines[0].kind");
    c.lines_count = 0;
    SAME(dw_shape_check(&card_shape, &c, &err), DW_E_MISSING);
}

TEST(utf8_is_judged_by_the_unicode_table, PUBLISHED,
     "The Unicode Standard, table 3-7, well-formed byte sequences")
{
    CHECK(dw_text_valid("levain \xc3\xa9", 9));
    CHECK(dw_text_valid("\xf0\x9f\x8d\x95", 4));
    CHECK(!dw_text_valid("\xc0\xaf", 2));         /* overlong */
    CHECK(!dw_text_valid("\xed\xa0\x80", 3));     /* surrogate */
    CHECK(!dw_text_valid("\xf4\x90\x80\x80", 4)); /* above U+10FFFF */
    CHECK(!dw_text_valid("\xc3", 1));             /* cut short */
}

TEST(an_arena_hands_out_zeroed_memory_until_it_is_full, LIMIT, "base.h")
{
    unsigned char block[256];
    memset(block, 0xff, sizeof block);
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    double *numbers = DW_NEW_ARRAY(&arena, double, 4);
    NEED(numbers != NULL);
    CHECK(numbers[0] == 0 && numbers[3] == 0);
    CHECK(dw_arena_take(&arena, 4096) == NULL);
    SAME_TEXT(dw_arena_text(&arena, "still room"), "still room");
}

TEST(numbers_print_short_and_without_exponents, DERIVED, "worked by hand")
{
    char text[32];
    dw_text_number(text, sizeof text, 0.375, 9);
    SAME_TEXT(text, "0.375");
    dw_text_number(text, sizeof text, 1234567, 9);
    SAME_TEXT(text, "1234567");
    dw_text_number(text, sizeof text, 1e-5, 9);
    SAME_TEXT(text, "0.00001");
    dw_text_number(text, sizeof text, 0, 9);
    SAME_TEXT(text, "0");
}

TEST(the_free_end_of_an_arena_can_be_written_to_and_kept, LIMIT, "base.h")
{
    unsigned char block[128];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    size_t room;
    char *free_end = dw_arena_rest(&arena, &room);
    CHECK(room > 64 && room <= sizeof block);
    strcpy(free_end, "kept");
    dw_arena_keep(&arena, 5);
    char *next = dw_arena_text(&arena, "next");
    NEED(next != NULL);
    CHECK(next >= free_end + 5);
    SAME_TEXT(free_end, "kept");
}

TEST(a_range_failure_tells_its_unit_and_a_choice_its_words, LIMIT, "field.h")
{
    line lines[] = {{"flour", 0, 2000, false, 0}};
    card c = {"white", lines, 1, 0, true};
    dw_err err;
    SAME(dw_shape_check(&card_shape, &c, &err), DW_E_RANGE);
    SAME_TEXT(err.unit, "percent");
    lines[0].percent = 100;
    lines[0].kind = 9;
    SAME(dw_shape_check(&card_shape, &c, &err), DW_E_CHOICE);
    CHECK(err.words == kinds && err.unit == NULL);
}

TEST(two_objects_are_the_same_when_every_member_is, LIMIT, "field.h")
{
    line left[] = {{"strong flour", 0, 100, false, 3}, {"water", 1, 60, 0, 0}};
    line right[] = {{"strong flour", 0, 100, false, 4}, {"water", 1, 60, 0, 0}};
    card a = {"white", left, 2, 5, true}, b = {"white", right, 2, 5, true};
    CHECK(dw_shape_same(&card_shape, &a, &b)); /* absent members hold nothing */
    right[1].percent = 61;
    CHECK(!dw_shape_same(&card_shape, &a, &b));
    right[1].percent = 60;
    b.lines_count = 1;
    CHECK(!dw_shape_same(&card_shape, &a, &b));
    b.lines_count = 2;
    b.title = NULL;
    CHECK(!dw_shape_same(&card_shape, &a, &b));
}

TEST(numbers_print_as_the_c_library_would_print_them_shortest, LIMIT,
     "held against printf and strtod, 20,000 numbers of up to nine digits")
{
    unsigned long long seed = 7;
    for (int i = 0; i < 20000; i++) {
        double size = dw_test_between(&seed, -6, 14);
        char text[40], got[40];
        snprintf(text, sizeof text, "%.*g", 1 + (int)(dw_test_bits(&seed) % 9),
                 pow(10, size) * (1 + dw_test_between(&seed, 0, 8)));
        double value = strtod(text, NULL);
        dw_text_number(got, sizeof got, value, 9);
        CHECK(strtod(got, NULL) == value);
        for (int n = 1; n <= 9; n++) {
            snprintf(text, sizeof text, "%.*g", n, value);
            if (strtod(text, NULL) == value)
                break;
        }
        if (!strchr(text, 'e'))
            SAME_TEXT(got, text);
    }
}

TEST(the_largest_and_the_smallest_numbers_print_too, PUBLISHED,
     "IEEE 754-2019, binary64: largest 1.797693e308, smallest normal "
     "2.225074e-308, smallest 4.940656e-324")
{
    static const struct {
        double value;
        const char *text;
    } ends[] = {{1.7976931348623157e308, "1.797693e+308"},
                {-1.7976931348623157e308, "-1.797693e+308"},
                {2.2250738585072014e-308, "2.225074e-308"},
                {4.9406564584124654e-324, "5e-324"}};
    for (size_t i = 0; i < DW_COUNT(ends); i++) {
        char text[40];
        dw_text_number(text, sizeof text, ends[i].value, 7);
        SAME_TEXT(text, ends[i].text);
    }
}

TEST(a_name_turns_nothing_around, PUBLISHED,
     "Unicode Standard Annex 9, 2: explicit directional formatting")
{
    static const char *const turning[] = {"\xE2\x80\xAE\x31\x32",
                                          "a\xE2\x80\xAA", "\xE2\x81\xA6",
                                          "\xE2\x81\xA9"};
    static const char *const plain[] = {"\xD7\xA4\xD7\x99\xD7\xA6\xD7\x94",
                                        "a \xE2\x80\x93 b", "\xE2\x81\x84"};
    line lines[] = {{"flour", 0, 100, false, 0}};
    dw_err err;
    for (size_t i = 0; i < DW_COUNT(turning); i++) {
        card c = {turning[i], lines, 1, 0, true};
        SAME(dw_shape_check(&card_shape, &c, &err), DW_E_SYNTAX);
        SAME_TEXT(err.field, "title");
    }
    for (size_t i = 0; i < DW_COUNT(plain); i++) {
        card c = {plain[i], lines, 1, 0, true};
        SAME(dw_shape_check(&card_shape, &c, &err), DW_OK);
    }
}
