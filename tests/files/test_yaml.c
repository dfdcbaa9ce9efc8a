#include "app/load.h"
#include "dw_test.h"
#include "files/yaml_file.h"

#include <stdlib.h>

enum { ROOM = 4 << 20 };

typedef struct desk {
    void *block;
    dw_arena arena;
    dw_err err;
} desk;

static void desk_set(desk *d)
{
    memset(d, 0, sizeof *d);
    d->block = malloc(ROOM);
    dw_arena_init(&d->arena, d->block, ROOM);
}

static const char formula_text[] =
    "name: Test dough\n"
    "style: pan\n"
    "dough_goal: 75.2 F\n"
    "lines:\n"
    "  - {material: flour, kind: flour, percent: 100 %}\n"
    "  - {material: water, kind: water, percent: 62.5}\n"
    "stages:\n"
    "  - name: poolish\n"
    "    kind: poolish\n"
    "    flour_percent: 20 %\n"
    "    lines:\n"
    "      - {material: flour, kind: flour, percent: 100 %}\n"
    "      - {material: water, kind: water, percent: 100 %}\n"
    "procedure: poolish\n";

TEST(a_formula_file_is_read_with_its_units, DERIVED,
     "worked by hand: 75.2 F is 24 C")
{
    desk d;
    dw_formula_file file;
    desk_set(&d);
    SAME(dw_yaml_read(&dw_formula_file_shape, "f.yaml", formula_text,
                      strlen(formula_text), &d.arena, &file, &d.err),
         DW_OK);
    SAME_TEXT(file.name, "Test dough");
    SAME_TEXT(dw_style_words[file.style], "pan");
    SAME(file.process, 0);
    NEAR(file.dough_goal_c, 24, 1e-9);
    NEED(file.formula.lines_count == 2 && file.formula.stages_count == 1);
    NEAR(file.formula.lines[1].percent, 62.5, 0);
    NEAR(file.formula.stages[0].flour_percent, 20, 0);
    SAME(file.formula.stages[0].lines_count, 2);
    CHECK(file.has_procedure && file.procedure == DW_TEMPLATE_POOLISH);
    CHECK(file.here);
    free(d.block);
}

/* The shop that the program carries: read, written, read again. */
static void round_trip(const char *path)
{
    static char text[1 << 16];
    desk d;
    dw_shop_file first, second;
    const char *written;
    size_t bytes;
    FILE *from = fopen(path, "rb");
    NEED(from != NULL);
    bytes = fread(text, 1, sizeof text, from);
    fclose(from);
    desk_set(&d);
    dw_status status = dw_yaml_read(&dw_shop_file_shape, "shop.yaml", text,
                                    bytes, &d.arena, &first, &d.err);
    if (status != DW_OK)
        dw_test_fail(__FILE__, __LINE__, "%s %s", d.err.field, d.err.value);
    NEED(status == DW_OK);
    NEED(dw_yaml_write(&dw_shop_file_shape, &first, &d.arena, &written, &bytes,
                       &d.err) == DW_OK);
    SAME(dw_yaml_read(&dw_shop_file_shape, "again", written, bytes, &d.arena,
                      &second, &d.err),
         DW_OK);
    CHECK(dw_shape_same(&dw_shop_file_shape, &first, &second));
    free(d.block);
}

TEST(the_examples_are_written_and_read_back_equal, LIMIT, "round trip")
{
    round_trip(DW_TEST_EXAMPLES "/commissary/shop.yaml");
    round_trip(DW_TEST_EXAMPLES "/corner_shop/shop.yaml");
}

TEST(any_number_of_a_file_is_written_and_read_back_equal, LIMIT, "round trip")
{
    unsigned long long seed = 7;
    desk d;
    desk_set(&d);
    for (int i = 0; i < 2000; i++) {
        dw_scale_row row = {.name = "scale", .here = true}, back;
        const char *text;
        size_t bytes;
        row.capacity_kg = dw_test_between(&seed, 0.01, 2000);
        row.division_kg = dw_test_between(&seed, 0.00001, 5);
        d.arena.used = 0;
        NEED(dw_yaml_write(&dw_scale_noun, &row, &d.arena, &text, &bytes,
                           &d.err) == DW_OK);
        NEED(dw_yaml_read(&dw_scale_noun, "scale", text, bytes, &d.arena, &back,
                          &d.err) == DW_OK);
        NEED(row.capacity_kg == back.capacity_kg);
        NEED(row.division_kg == back.division_kg);
    }
    free(d.block);
}

/* Texts that YAML would take for something else. */
TEST(awkward_names_are_written_and_read_back_equal, LIMIT, "round trip")
{
    static const char *const names[] = {"null",
                                        "~",
                                        "yes",
                                        "12",
                                        "- dash",
                                        "a: b",
                                        "#1",
                                        "\"hm\"",
                                        "it's",
                                        ("Mart\xc3\xad"
                                         "n"),
                                        "*star",
                                        "&and",
                                        "x # y",
                                        "two\nlines",
                                        " blank ",
                                        "05:30",
                                        "=1+1"};
    desk d;
    desk_set(&d);
    for (size_t i = 0; i < DW_COUNT(names); i++) {
        dw_outlet row = {.name = names[i]}, back;
        const char *text;
        size_t bytes;
        d.arena.used = 0;
        NEED(dw_yaml_write(&dw_outlet_noun, &row, &d.arena, &text, &bytes,
                           &d.err) == DW_OK);
        SAME(dw_yaml_read(&dw_outlet_noun, "name", text, bytes, &d.arena, &back,
                          &d.err),
             DW_OK);
        SAME_TEXT(back.name, names[i]);
    }
    free(d.block);
}

/* ---- bad input ----------------------------------------------------------- */

static void refuse(const dw_shape *shape, const char *text, dw_status status,
                   const char *field)
{
    desk d;
    desk_set(&d);
    void *object = dw_arena_take(&d.arena, shape->bytes);
    dw_status got = dw_yaml_read(shape, "f.yaml", text, strlen(text), &d.arena,
                                 object, &d.err);
    if (got != status || strcmp(d.err.field, field) != 0)
        dw_test_fail(__FILE__, __LINE__, "%s: %s at \"%s\", not \"%s\"", text,
                     dw_status_code(got), d.err.field, field);
    SAME(d.err.status, got);
    free(d.block);
}

TEST(a_slip_in_a_formula_file_is_named_with_its_line, DERIVED,
     "lines counted by hand")
{
    static const char head[] = "name: A\nlines:\n";
    const struct {
        const char *line;
        dw_status status;
        const char *field;
    } slips[] = {
        {"- {material: salt, kind: salt, percent: -2 %}", DW_E_RANGE,
         "f.yaml:3: lines[0].percent"},
        {"- {material: salt, kind: salt, percent: 1e9 %}", DW_E_UNIT,
         "f.yaml:3: lines[0].percent"},
        {"- {material: salt, kind: salt, percent: 100000 %}", DW_E_RANGE,
         "f.yaml:3: lines[0].percent"},
        {"- {material: salt, kind: salt, percent: 2 kg}", DW_E_UNIT,
         "f.yaml:3: lines[0].percent"},
        {"- {material: salt, kind: salt, percent: nan}", DW_E_SYNTAX,
         "f.yaml:3: lines[0].percent"},
        {"- {material: salt, kind: slat, percent: 2}", DW_E_CHOICE,
         "f.yaml:3: lines[0].kind"},
        {"- {material: salt, kind: salt}", DW_E_MISSING,
         "f.yaml:3: lines[0].percent"},
        {"- {material: salt, kind: salt, percent: 2, weight: 3}",
         DW_E_UNKNOWN_FIELD, "f.yaml:3: lines[0].weight"},
        {"- {material: salt, material: salt, percent: 2}", DW_E_CONFLICT,
         "f.yaml:3: lines[0].material"},
        {"- salt", DW_E_TYPE, "f.yaml:3: lines[0]"},
        {"- {material: [salt], kind: salt, percent: 2}", DW_E_TYPE,
         "f.yaml:3: lines[0].material"},
        {"- {material: &a salt, kind: salt, percent: 2}", DW_E_SYNTAX,
         "f.yaml:3: lines[0].material"},
        {"- {material: salt, kind: salt, percent: 2", DW_E_SYNTAX,
         "f.yaml:4: lines[0]"},
        {"\t- {material: salt, kind: salt, percent: 2}", DW_E_SYNTAX,
         "f.yaml:3: lines"},
    };
    for (size_t i = 0; i < DW_COUNT(slips); i++) {
        char text[400];
        snprintf(text, sizeof text, "%s%s\n", head, slips[i].line);
        refuse(&dw_formula_file_shape, text, slips[i].status, slips[i].field);
    }
}

TEST(a_weight_or_temperature_without_its_unit_is_refused, DERIVED,
     "the file's rule: a key without a unit wants one in the text")
{
    refuse(&dw_scale_noun, "{name: s, capacity: 10, division: 1 g}", DW_E_UNIT,
           "f.yaml:1: capacity");
    refuse(&dw_scale_noun, "{name: s, capacity: 10 F, division: 1 g}",
           DW_E_UNIT, "f.yaml:1: capacity");
    refuse(&dw_scale_noun, "{name: s, capacity: 9000 kg, division: 1 g}",
           DW_E_RANGE, "f.yaml:1: capacity");
    refuse(&dw_scale_noun, "{name: s, capacity_kg: 10 kg, division: 1 g}",
           DW_E_UNKNOWN_FIELD, "f.yaml:1: capacity_kg");
    refuse(&dw_scale_noun, "{id: 3, name: s}", DW_E_UNKNOWN_FIELD,
           "f.yaml:1: id");
    refuse(&dw_shop_file_shape,
           "name: x\nzone: Europe/Rome\ncurrency: EUR\n"
           "openings:\n- {weekday: monday, opens: 25 h, leaves: 20:00}\n",
           DW_E_SYNTAX, "f.yaml:5: openings[0].opens");
}

TEST(what_is_no_yaml_file_of_ours_is_refused, LIMIT, "nothing is guessed")
{
    refuse(&dw_outlet_noun, "", DW_E_SYNTAX, "f.yaml:1");
    refuse(&dw_outlet_noun, "# nothing\n", DW_E_SYNTAX, "f.yaml:2");
    refuse(&dw_outlet_noun, "name: a\n---\nname: b\n", DW_E_SYNTAX, "f.yaml:2");
    refuse(&dw_outlet_noun, "name: \"a\\0b\"\n", DW_E_SYNTAX, "f.yaml:1: name");
    refuse(&dw_outlet_noun, "name: \xff\xfe\n", DW_E_SYNTAX, "f.yaml");
    refuse(&dw_outlet_noun, "name:\n", DW_E_MISSING, "f.yaml:1: name");
    refuse(&dw_outlet_noun, "[[[[[[[[", DW_E_TYPE, "f.yaml:1");
    refuse(&dw_outlet_noun, "name: *x\n", DW_E_SYNTAX, "f.yaml:1: name");
}

TEST(a_huge_file_is_refused_before_it_is_read, DERIVED, "one MiB is the most")
{
    size_t bytes = DW_YAML_MOST + 1;
    char *text = malloc(bytes);
    desk d;
    dw_outlet row;
    NEED(text != NULL);
    memset(text, ' ', bytes);
    desk_set(&d);
    SAME(dw_yaml_read(&dw_outlet_noun, "big", text, bytes, &d.arena, &row,
                      &d.err),
         DW_E_TOO_LARGE);
    NEAR(d.err.high, 1048576, 0);
    free(text);
    free(d.block);
}

TEST(a_list_beyond_its_length_or_the_memory_is_refused, LIMIT,
     "a bounded reader")
{
    static char text[400000] = "name: A\nlines:\n";
    unsigned char small[2048];
    dw_arena arena;
    dw_formula_file file;
    dw_err err;
    for (int i = 0; i < 3000; i++)
        strcat(text, "- {material: s, kind: salt, percent: 0.001}\n");
    desk d;
    desk_set(&d);
    dw_status most = dw_yaml_read(&dw_formula_file_shape, "f", text,
                                  strlen(text), &d.arena, &file, &d.err);
    SAME(most, DW_E_RANGE);
    SAME_TEXT(strchr(d.err.field, ' '), " lines");
    dw_arena_init(&arena, small, sizeof small);
    SAME(dw_yaml_read(&dw_formula_file_shape, "f", text, strlen(text), &arena,
                      &file, &err),
         DW_E_ROOM);
    free(d.block);
}
