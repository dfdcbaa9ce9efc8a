#include "cli/fields.h"
#include "cli/program.h"
#include "cli/show.h"
#include "door/json.h"
#include "dw_temp.h"
#include "dw_test.h"

#include <stdlib.h>

static const char *const kinds[] = {"flour", "water", NULL};

typedef struct line {
    const char *material;
    double percent;
} line;

typedef struct oven {
    double floor_c, width_cm;
} oven;

typedef struct order {
    const char *title;
    int kind;
    double dough_kg, hydration_j_per_kg;
    bool cold;
    int64_t pieces, made_ms;
    oven in;
    line *lines;
    size_t lines_count;
    double *times_h, *core_c;
    size_t times_h_count, core_c_count;
    bool has_loss_percent;
    double loss_percent;
} order;

static const dw_field line_fields[] = {
    DW_F_TEXT(line, material, 60, "what it is"),
    DW_F_REAL(line, percent, "percent", 0, 1000, "of total flour"),
};
static const dw_shape line_shape =
    DW_SHAPE("line", line, line_fields, "a line");
static const dw_field oven_fields[] = {
    DW_F_REAL(oven, floor_c, "degC", 0, 600, "its floor"),
    DW_F_REAL_PRESET(oven, width_cm, "cm", 0, 500, 60, "its width"),
};
static const dw_shape oven_shape =
    DW_SHAPE("oven", oven, oven_fields, "an oven");
static const dw_field order_fields[] = {
    DW_F_TEXT(order, title, 40, "its name"),
    DW_F_CHOICE_PRESET(order, kind, kinds, 0, "what it is about"),
    DW_F_REAL(order, dough_kg, "kg", 0, 500, "all the dough"),
    DW_F_REAL_PRESET(order, hydration_j_per_kg, "j_per_kg", 0, 1e6, 9000,
                     "heat of wetting"),
    DW_F_YES(order, cold, false, "is it held cold"),
    DW_F_WHOLE(order, pieces, "", 0, 10000, "how many"),
    DW_F_MOMENT(order, made_ms, "when"),
    DW_F_ONE(order, in, &oven_shape, "where it is baked"),
    DW_F_MANY_OPT(order, lines, &line_shape, 10, "what goes in"),
    {"times_h", DW_REALS, false, "h", 0, 1000, 0, offsetof(order, times_h),
     DW_NOWHERE, offsetof(order, times_h_count), NULL, NULL, "moments"},
    {"core_c", DW_REALS, false, "degC", -80, 600, 0, offsetof(order, core_c),
     DW_NOWHERE, offsetof(order, core_c_count), NULL, NULL, "its core"},
    DW_F_REAL_OPT(order, loss_percent, "percent", 0, 50, "lost"),
};
static const dw_shape order_shape =
    DW_SHAPE("order", order, order_fields, "an order");

static unsigned char block[256 << 10];

/* The request that these words make, or the sentence of what is wrong. */
static const char *request(const char *const *words, int count)
{
    static dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    static dw_command command;
    command = (dw_command){.name = "order", .operands = ""};
    dw_flag *flags;
    dw_fields_flags(&order_shape, &arena, 0, &flags, &command.fields,
                    &command.flags_count);
    command.flags = flags;
    char *argv[32] = {(char *)(uintptr_t) "order"};
    for (int i = 0; i < count; i++)
        argv[i + 1] = dw_arena_text(&arena, words[i]);
    dw_args args;
    dw_err err = {0};
    const char *text = "";
    size_t bytes;
    dw_status status =
        dw_flags_parse(&command, count + 1, argv, &arena, &args, &err);
    if (status == DW_OK)
        status =
            dw_fields_request(&order_shape, &args, &arena, &text, &bytes, &err);
    return status == DW_OK ? text
                           : dw_arena_print(&arena, "%s: %s", err.field,
                                            dw_status_code(err.status));
}

#define REQUEST(...)                                                           \
    request((const char *const[]){__VA_ARGS__},                                \
            (int)(sizeof((const char *const[]){__VA_ARGS__}) /                 \
                  sizeof(const char *)))

TEST(fields_are_flags_with_units, DERIVED,
     "1 lb is 0.45359237 kg, 1 in is 2.54 cm, 80 F is 26.67 C")
{
    SAME_TEXT(REQUEST("--title", "a \"b\"", "--dough_kg", "1 lb"),
              "{\"title\":\"a \\\"b\\\"\",\"dough_kg\":0.45359237}");
    SAME_TEXT(REQUEST("--dough_kg=4.5"), "{\"dough_kg\":4.5}");
    SAME_TEXT(REQUEST("--in.floor_c", "500 F", "--in.width_cm", "10 in"),
              "{\"in\":{\"floor_c\":260.0,\"width_cm\":25.4}}");
    SAME_TEXT(REQUEST("--hydration_j_per_kg", "15100.5"),
              "{\"hydration_j_per_kg\":15100.5}");
    SAME_TEXT(REQUEST("--pieces", "24", "--kind", "water"),
              "{\"kind\":\"water\",\"pieces\":24}");
    SAME_TEXT(REQUEST("--cold"), "{\"cold\":true}");
    SAME_TEXT(REQUEST("--cold=no"), "{\"cold\":false}");
}

TEST(lists_and_objects_are_json_or_a_file, DERIVED, "written by hand")
{
    SAME_TEXT(REQUEST("--times_h", "[0, 1.5]"), "{\"times_h\":[0,1.5]}");
    SAME_TEXT(REQUEST("--in", "{\"floor_c\":300}"),
              "{\"in\":{\"floor_c\":300}}");
    dw_temp temp;
    dw_temp_make(&temp);
    FILE *to = fopen(dw_temp_path(&temp, "lines.json"), "wb");
    NEED(to != NULL);
    fputs("[{\"material\":\"w\",\"percent\":58}]\n", to);
    fclose(to);
    char value[200];
    snprintf(value, sizeof value, "@%s", temp.path);
    SAME_TEXT(REQUEST("--lines", value),
              "{\"lines\":[{\"material\":\"w\",\"percent\":58}]}");
    dw_temp_remove(&temp);
    SAME_TEXT(REQUEST("--lines", value), "lines: io_failed");
}

TEST(an_absurd_quantity_is_told_with_its_unit, DERIVED, "10 lb is 4.5359237 kg")
{
    const ran *r = dw_test_program(
        "formula scale --formula.lines '[]' --target.flour_kg '-10 lb'", "");
    SAME(r->status, 2);
    SAME_TEXT(r->err, "doughwright: target.flour_kg is -4.5359237; allowed 0 "
                      "to 100000 kg\n");
}

TEST(what_cannot_be_read_names_its_flag, DERIVED, "written by hand")
{
    SAME_TEXT(REQUEST("--dough_kg", "10 F"), "dough_kg: wrong_unit");
    SAME_TEXT(REQUEST("--dough_kg", "lots"), "dough_kg: not_understood");
    SAME_TEXT(REQUEST("--in.floor_c", "warm"), "in.floor_c: not_understood");
    SAME_TEXT(REQUEST("--cold=perhaps"), "cold: not_a_choice");
    SAME_TEXT(REQUEST("--lines", "[1,"), "lines: not_understood");
    SAME_TEXT(REQUEST("--pieces", "many"), "pieces: not_understood");
    SAME_TEXT(REQUEST("--hydration_j_per_kg", "9 J"),
              "hydration_j_per_kg: wrong_type");
    SAME_TEXT(REQUEST("--title", "\xff"), "title: not_understood");
    SAME_TEXT(REQUEST("--flavour", "x"), "--flavour: unknown_field");
}

static void show(char *out, size_t room, dw_units_choice units)
{
    line lines[] = {{"strong flour", 100}, {"water", 58}};
    double times[] = {0, 1, 2}, core[] = {26.5, 24, 21.25};
    order o;
    dw_shape_preset(&order_shape, &o);
    o.title = "Friday";
    o.dough_kg = 4.5359237;
    o.cold = true;
    o.pieces = 24;
    o.made_ms = 1700000000000; /* 2023-11-14 22:13:20 UTC */
    o.in.floor_c = 300;
    o.lines = lines;
    o.lines_count = 2;
    o.times_h = times;
    o.core_c = core;
    o.times_h_count = o.core_c_count = 3;
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    const char *text;
    size_t bytes;
    FILE *to = fmemopen(out, room, "w");
    NEED(to != NULL);
    NEED(dw_json_encode(&order_shape, &o, &arena, &text, &bytes) == DW_OK);
    SAME(dw_show(&order_shape, text, bytes, units, to), DW_OK);
    fclose(to);
}

TEST(a_reply_is_shown_with_units_and_tables, DERIVED, "laid out by hand")
{
    char out[2048];
    show(out, sizeof out, DW_METRIC);
    SAME_TEXT(out, "title               Friday\n"
                   "kind                flour\n"
                   "dough               4.536 kg\n"
                   "hydration j per kg  9000\n"
                   "cold                yes\n"
                   "pieces              24\n"
                   "made                2023-11-14 22:13Z\n"
                   "loss                -\n"
                   "in\n"
                   "  floor  300 C\n"
                   "  width  60 cm\n"
                   "lines\n"
                   "  material      percent\n"
                   "  strong flour    100 %\n"
                   "  water            58 %\n"
                   "times    core\n"
                   "0 min  26.5 C\n"
                   "  1 h    24 C\n"
                   "  2 h  21.3 C\n");
    show(out, sizeof out, DW_US);
    CHECK(strstr(out, "dough               10 lb\n") != NULL);
    CHECK(strstr(out, "  floor  572 F\n") != NULL);
}
