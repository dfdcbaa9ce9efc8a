#include "door/json.h"
#include "dw_test.h"

#include <float.h>
#include <stdlib.h>

static const char *const kinds[] = {"flour", "water", "salt", NULL};

typedef struct line {
    const char *material;
    int kind;
    double percent;
    bool has_water_percent;
    double water_percent;
} line;

typedef struct card {
    const char *title, *note;
    line *lines;
    size_t lines_count;
    line first;
    bool has_first;
    double *temps_c;
    size_t temps_c_count;
    int64_t *ids;
    size_t ids_count;
    int64_t made_ms, boxes;
    bool has_boxes, cold;
    double anything;
} card;

static const dw_field line_fields[] = {
    DW_F_TEXT(line, material, 60, "what it is"),
    DW_F_CHOICE(line, kind, kinds, "what it does"),
    DW_F_REAL(line, percent, "percent", 0, 1000, "of total flour"),
    DW_F_REAL_OPT(line, water_percent, "percent", 0, 100, "its own water"),
};
static const dw_shape line_shape =
    DW_SHAPE("line", line, line_fields, "a line");
static const dw_field card_fields[] = {
    DW_F_TEXT(card, title, 20, "its name"),
    DW_F_TEXT_OPT(card, note, 200, "anything else"),
    DW_F_MANY_OPT(card, lines, &line_shape, 4, "what goes in"),
    DW_F_ONE_OPT(card, first, &line_shape, "what goes in first"),
    {"temps_c", DW_REALS, false, "degC", -80, 400, 0, offsetof(card, temps_c),
     DW_NOWHERE, offsetof(card, temps_c_count), NULL, NULL, "readings"},
    DW_F_WHOLES_OPT(card, ids, "", 1, 9007199254740991.0, "rows"),
    DW_F_MOMENT(card, made_ms, "when"),
    DW_F_WHOLE_OPT(card, boxes, "", 0, 60, "how many"),
    DW_F_YES(card, cold, true, "is it held cold"),
    DW_F_REAL_PRESET(card, anything, "", -DBL_MAX, DBL_MAX, 2.5, "a number"),
};
static const dw_shape card_shape =
    DW_SHAPE("card", card, card_fields, "a card");

static unsigned char block[64 << 10];

static dw_status decode_bytes(const char *text, size_t bytes, card *c,
                              dw_err *err)
{
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    return dw_json_decode(&card_shape, text, bytes, &arena, c, err);
}

static dw_status decode(const char *text, card *c, dw_err *err)
{
    return decode_bytes(text, strlen(text), c, err);
}

static const char *message(const dw_err *err, const char *lang)
{
    static unsigned char room[4096];
    dw_arena arena;
    dw_arena_init(&arena, room, sizeof room);
    const char *text = "(no room)";
    size_t bytes;
    dw_json_error(err, lang, &arena, &text, &bytes);
    return text;
}

TEST(every_kind_is_read, DERIVED, "written by hand")
{
    card c;
    dw_err err;
    NEED(decode("{\"title\":\"white \\u00e9\",\"note\":\"n\","
                "\"lines\":[{\"material\":\"a\",\"kind\":\"flour\","
                "\"percent\":100},{\"material\":\"b\",\"kind\":\"salt\","
                "\"percent\":1.75,\"water_percent\":0.5}],"
                "\"first\":{\"material\":\"w\",\"kind\":\"water\","
                "\"percent\":58},\"temps_c\":[21,22.5],\"ids\":[7,8],"
                "\"made_ms\":1700000000000,\"boxes\":6,\"cold\":false,"
                "\"anything\":-1e300}",
                &c, &err) == DW_OK);
    SAME_TEXT(c.title, "white \xc3\xa9");
    SAME_TEXT(c.note, "n");
    SAME(c.lines_count, 2);
    SAME_TEXT(c.lines[1].material, "b");
    SAME(c.lines[1].kind, 2);
    NEAR(c.lines[1].percent, 1.75, 0);
    CHECK(c.lines[1].has_water_percent && !c.lines[0].has_water_percent);
    NEAR(c.lines[1].water_percent, 0.5, 0);
    CHECK(c.has_first);
    NEAR(c.first.percent, 58, 0);
    SAME(c.temps_c_count, 2);
    NEAR(c.temps_c[1], 22.5, 0);
    SAME(c.ids_count, 2);
    SAME(c.ids[1], 8);
    SAME(c.made_ms, 1700000000000);
    CHECK(c.has_boxes && c.boxes == 6 && !c.cold);
    NEAR(c.anything, -1e300, 0);
}

TEST(what_is_null_or_absent_keeps_its_preset, LIMIT, "field.h")
{
    card c;
    dw_err err;
    NEED(decode("{\"title\":\"t\",\"boxes\":null,\"first\":null,\"cold\":null,"
                "\"lines\":null}",
                &c, &err) == DW_OK);
    CHECK(!c.has_boxes && !c.has_first && c.cold);
    CHECK(c.note == NULL && c.lines_count == 0 && c.lines == NULL);
    NEAR(c.anything, 2.5, 0);
}

/* status, field and the whole error text of one bad body */
typedef struct refusal {
    const char *body;
    dw_status status;
    const char *field, *error;
} refusal;

static const refusal refusals[] = {
    {"{\"title\":\"t\",\"lines\":[{\"material\":\"a\",\"kind\":\"flour\","
     "\"percent\":2000}]}",
     DW_E_RANGE, "lines[0].percent",
     "{\"error\":{\"code\":\"out_of_range\",\"field\":\"lines[0].percent\","
     "\"message\":\"lines[0].percent is 2000; allowed 0 to 1000 percent\","
     "\"low\":0,\"high\":1000}}"},
    {"{\"title\":\"t\",\"lines\":[{\"material\":\"a\",\"kind\":\"flour\","
     "\"percent\":1,\"weight\":3}]}",
     DW_E_UNKNOWN_FIELD, "lines[0].weight",
     "{\"error\":{\"code\":\"unknown_field\",\"field\":\"lines[0].weight\","
     "\"message\":\"lines[0].weight is not a field here\","
     "\"low\":null,\"high\":null}}"},
    {"{\"title\":\"t\",\"lines\":[{\"material\":\"a\",\"kind\":\"clay\","
     "\"percent\":1}]}",
     DW_E_CHOICE, "lines[0].kind",
     "{\"error\":{\"code\":\"not_a_choice\",\"field\":\"lines[0].kind\","
     "\"message\":\"lines[0].kind (clay) is not one of the allowed words: "
     "flour, water, salt\",\"low\":null,\"high\":null}}"},
    {"{\"title\":\"t\",\"temps_c\":[20,\"warm\"]}", DW_E_TYPE, "temps_c[1]",
     "{\"error\":{\"code\":\"wrong_type\",\"field\":\"temps_c[1]\","
     "\"message\":\"temps_c[1] (warm) must be a number\","
     "\"low\":null,\"high\":null}}"},
    {"{\"title\":\"t\",\"temps_c\":[20,500]}", DW_E_RANGE, "temps_c[1]",
     "{\"error\":{\"code\":\"out_of_range\",\"field\":\"temps_c[1]\","
     "\"message\":\"temps_c[1] is 500; allowed -80 to 400 \xc2\xb0"
     "C\","
     "\"low\":-80,\"high\":400}}"},
    {"{\"title\":\"this title is far too long\"}", DW_E_RANGE, "title",
     "{\"error\":{\"code\":\"out_of_range\",\"field\":\"title\","
     "\"message\":\"title is 26; allowed 1 to 20 bytes\","
     "\"low\":1,\"high\":20}}"},
    {"{\"lines\":[]}", DW_E_MISSING, "title",
     "{\"error\":{\"code\":\"missing\",\"field\":\"title\","
     "\"message\":\"title is required\",\"low\":null,\"high\":null}}"},
    {"{\"title\":null}", DW_E_MISSING, "title",
     "{\"error\":{\"code\":\"missing\",\"field\":\"title\","
     "\"message\":\"title is required\",\"low\":null,\"high\":null}}"},
    {"{\"title\":\"t\",\"first\":{\"material\":\"a\",\"kind\":\"flour\"}}",
     DW_E_MISSING, "first.percent",
     "{\"error\":{\"code\":\"missing\",\"field\":\"first.percent\","
     "\"message\":\"first.percent is required\",\"low\":null,\"high\":null}}"},
    {"{\"title\":\"t\",\"title\":\"u\"}", DW_E_SYNTAX, "",
     "{\"error\":{\"code\":\"not_understood\",\"field\":\"\","
     "\"message\":\"the request (line 1, column 20) gives the same field "
     "twice\",\"low\":null,\"high\":null}}"},
    {"", DW_E_SYNTAX, "",
     "{\"error\":{\"code\":\"not_understood\",\"field\":\"\","
     "\"message\":\"the request (line 1, column 0) is not well-formed JSON\","
     "\"low\":null,\"high\":null}}"},
};

TEST(what_is_refused_is_said_once_with_field_value_and_range, DERIVED,
     "sentences written by hand")
{
    for (size_t i = 0; i < DW_COUNT(refusals); i++) {
        card c;
        dw_err err = {0};
        SAME(decode(refusals[i].body, &c, &err), refusals[i].status);
        SAME_TEXT(err.field, refusals[i].field);
        SAME_TEXT(message(&err, "en"), refusals[i].error);
    }
}

TEST(the_same_error_in_spanish, DERIVED, "translated by hand")
{
    card c;
    dw_err err;
    decode("{\"title\":\"t\",\"boxes\":61}", &c, &err);
    SAME_TEXT(message(&err, "es"),
              "{\"error\":{\"code\":\"out_of_range\",\"field\":\"boxes\","
              "\"message\":\"boxes es 61; se permite de 0 a 60\","
              "\"low\":0,\"high\":60}}");
}

TEST(wrong_types_name_what_is_wanted, DERIVED, "written by hand")
{
    static const char *const cases[][2] = {
        {"{\"title\":5}", "title (5) must be text"},
        {"{\"title\":\"t\",\"lines\":{}}", "lines ({...}) must be a list"},
        {"{\"title\":\"t\",\"lines\":[5]}", "lines[0] (5) must be an object"},
        {"{\"title\":\"t\",\"first\":[]}", "first ([...]) must be an object"},
        {"{\"title\":\"t\",\"boxes\":1.5}",
         "boxes (1.5) must be a whole number"},
        {"{\"title\":\"t\",\"ids\":[1e300]}",
         "ids[0] (1e+300) must be a whole number"},
        {"{\"title\":\"t\",\"ids\":[null]}",
         "ids[0] (null) must be a whole number"},
        {"{\"title\":\"t\",\"cold\":\"yes\"}",
         "cold (yes) must be true or false"},
        {"{\"title\":\"t\",\"anything\":true}",
         "anything (true) must be a number"},
        {"[]", "the request ([...]) must be an object"},
    };
    for (size_t i = 0; i < DW_COUNT(cases); i++) {
        card c;
        dw_err err = {0};
        SAME(decode(cases[i][0], &c, &err), DW_E_TYPE);
        const char *text = message(&err, "en");
        if (!strstr(text, cases[i][1]))
            SAME_TEXT(text, cases[i][1]);
    }
}

TEST(not_a_number_infinity_comments_and_tails_are_not_json, PUBLISHED,
     "RFC 8259, The JavaScript Object Notation (JSON) Data Interchange Format")
{
    static const char *const bodies[] = {
        "{\"title\":\"t\",\"anything\":NaN}",
        "{\"title\":\"t\",\"anything\":Infinity}",
        "{\"title\":\"t\",\"anything\":-Infinity}",
        "{\"title\":\"t\",\"anything\":1e999}",
        "{\"title\":\"t\",\"anything\":.5}",
        "{\"title\":\"t\",\"anything\":05}",
        "{\"title\":\"t\",\"anything\":99999999999999999999}",
        "{\"title\":\"t\"} {}",
        "{\"title\":\"t\",}",
        "{'title':'t'}",
        "/* */{\"title\":\"t\"}",
        "{\"title\":\"a\\u0000b\"}",
        "{\"title\":\"\\ud800\"}",
        "{\"title\":\"t\"",
        "nothing",
    };
    for (size_t i = 0; i < DW_COUNT(bodies); i++) {
        card c;
        dw_err err = {0};
        if (decode(bodies[i], &c, &err) != DW_E_SYNTAX)
            dw_test_fail(__FILE__, __LINE__, "taken: %s", bodies[i]);
    }
}

TEST(broken_utf8_is_refused, PUBLISHED,
     "The Unicode Standard, table 3-7, well-formed byte sequences")
{
    static const char *const titles[] = {"\xc0\xaf", "\xed\xa0\x80",
                                         "\xf4\x90\x80\x80", "\xc3", "\xff"};
    for (size_t i = 0; i < DW_COUNT(titles); i++) {
        char body[64];
        snprintf(body, sizeof body, "{\"title\":\"%s\"}", titles[i]);
        card c;
        dw_err err = {0};
        SAME(decode(body, &c, &err), DW_E_SYNTAX);
        CHECK(strstr(message(&err, "en"), "UTF-8") != NULL);
    }
}

TEST(a_body_of_ten_megabytes_is_too_large, LIMIT, "json.h: 8 MiB")
{
    size_t bytes = 10 << 20;
    char *body = malloc(bytes);
    NEED(body != NULL);
    memset(body, ' ', bytes);
    memcpy(body, "{\"title\":\"t\"}", 13);
    card c;
    dw_err err = {0};
    SAME(decode_bytes(body, bytes, &c, &err), DW_E_TOO_LARGE);
    CHECK(strstr(message(&err, "en"), "is larger than 8 MiB") != NULL);
    SAME(decode_bytes(body, 8 << 20, &c, &err), DW_OK);
    free(body);
}

TEST(deep_and_crowded_bodies_are_refused_before_they_cost, LIMIT, "json.h")
{
    char deep[2 * 40 + 32] = "{\"title\":";
    size_t n = strlen(deep);
    for (int i = 0; i < 40; i++) {
        deep[n + (size_t)i] = '[';
        deep[n + 79 - (size_t)i] = ']';
    }
    card c;
    dw_err err = {0};
    SAME(decode(deep, &c, &err), DW_E_SYNTAX);
    CHECK(strstr(message(&err, "en"), "nested too deeply") != NULL);
    SAME(decode("{\"title\":\"[[[[[[[[[[\\\"[[[[[[\"}", &c, &err), DW_OK);

    size_t bytes = 1400000;
    char *body = malloc(bytes);
    NEED(body != NULL);
    memcpy(body, "{\"ids\":[", 8);
    for (size_t i = 8; i < bytes; i += 2)
        memcpy(body + i, "1,", 2);
    SAME(decode_bytes(body, bytes, &c, &err), DW_E_TOO_LARGE);
    free(body);
}

TEST(a_list_that_does_not_fit_the_arena_says_so, LIMIT, "base.h")
{
    unsigned char small[64];
    dw_arena arena;
    dw_arena_init(&arena, small, sizeof small);
    const char *body = "{\"title\":\"t\",\"temps_c\":[1,2,3,4,5,6,7,8,9]}";
    card c;
    dw_err err = {0};
    SAME(dw_json_decode(&card_shape, body, strlen(body), &arena, &c, &err),
         DW_E_ROOM);
    SAME_TEXT(err.field, "temps_c");
}

TEST(absent_members_are_written_as_null_and_numbers_short, DERIVED,
     "written by hand")
{
    double temps[] = {0.1, -40, 1e-7, 123456789012345678.0};
    card c;
    dw_shape_preset(&card_shape, &c);
    c.title = "a \"b\"\n\x01";
    c.temps_c = temps;
    c.temps_c_count = DW_COUNT(temps);
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    const char *text;
    size_t bytes;
    NEED(dw_json_encode(&card_shape, &c, &arena, &text, &bytes) == DW_OK);
    SAME_TEXT(text,
              "{\"title\":\"a \\\"b\\\"\\n\\u0001\",\"note\":null,\"lines\":[],"
              "\"first\":null,\"temps_c\":[0.1,-40,1e-07,"
              "1.2345678901234568e+17],\"ids\":[],\"made_ms\":0,"
              "\"boxes\":null,\"cold\":true,\"anything\":2.5}");
    SAME(bytes, strlen(text));
}

TEST(not_a_number_never_leaves, LIMIT, "DESIGN: NaN never leaves a function")
{
    double temps[] = {NAN};
    card c;
    dw_shape_preset(&card_shape, &c);
    c.temps_c = temps;
    c.temps_c_count = 1;
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    const char *text;
    size_t bytes;
    SAME(dw_json_encode(&card_shape, &c, &arena, &text, &bytes), DW_E_RANGE);
    c.temps_c_count = 0;
    c.anything = INFINITY;
    SAME(dw_json_encode(&card_shape, &c, &arena, &text, &bytes), DW_E_RANGE);
    unsigned char small[48];
    dw_arena_init(&arena, small, sizeof small);
    c.anything = 1;
    SAME(dw_json_encode(&card_shape, &c, &arena, &text, &bytes), DW_E_ROOM);
}

/* Any finite double: random bits, so every exponent is met. */
static double any_double(unsigned long long *seed)
{
    for (;;) {
        unsigned long long bits = dw_test_bits(seed);
        double value;
        memcpy(&value, &bits, sizeof value);
        if (isfinite(value))
            return value;
    }
}

static void fill(card *c, line *lines, int64_t *ids, unsigned long long *seed)
{
    dw_shape_preset(&card_shape, c);
    c->title = "caf\xc3\xa9 \\ \"x\" \t/";
    c->lines = lines;
    c->lines_count = 2;
    for (int i = 0; i < 2; i++) {
        lines[i].material = i ? "salt" : "\xf0\x9f\x8d\x95";
        lines[i].kind = (int)(dw_test_bits(seed) % 3);
        lines[i].percent = dw_test_between(seed, 0, 1000);
        lines[i].has_water_percent = i == 1;
        lines[i].water_percent = dw_test_between(seed, 0, 100);
    }
    ids[0] = (int64_t)(dw_test_bits(seed) >> 11) + 1;
    c->ids = ids;
    c->ids_count = 1;
    c->anything = any_double(seed);
    c->cold = dw_test_bits(seed) % 2;
}

TEST(whatever_is_written_reads_back_equal, LIMIT, "round trip, 20000 cards")
{
    static unsigned char room[16 << 10];
    unsigned long long seed = 11;
    for (int i = 0; i < 20000; i++) {
        line lines[2];
        int64_t ids[1];
        card c, back;
        fill(&c, lines, ids, &seed);
        dw_arena arena;
        dw_arena_init(&arena, room, sizeof room);
        const char *text;
        size_t bytes;
        dw_err err;
        NEED(dw_json_encode(&card_shape, &c, &arena, &text, &bytes) == DW_OK);
        NEED(dw_json_decode(&card_shape, text, bytes, &arena, &back, &err) ==
             DW_OK);
        SAME_TEXT(back.title, c.title);
        SAME_TEXT(back.lines[0].material, lines[0].material);
        CHECK(back.anything == c.anything);
        CHECK(back.lines[0].percent == lines[0].percent);
        CHECK(back.lines[1].water_percent == lines[1].water_percent);
        CHECK(!back.lines[0].has_water_percent);
        CHECK(back.ids[0] == ids[0] && back.cold == c.cold);
        SAME(back.lines[1].kind, lines[1].kind);
    }
}
