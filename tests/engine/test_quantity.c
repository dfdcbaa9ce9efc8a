#include "doughwright/quantity.h"
#include "dw_csv.h"
#include "dw_test.h"

#include <stdlib.h>

TEST(typed_quantities_read_as_the_shared_vectors_say, DERIVED,
     "quantity_vectors.csv, exact fractions by an independent program")
{
    FILE *file = fopen(dw_test_data("quantity_vectors.csv"), "r");
    NEED(file != NULL);
    dw_csv row;
    int rows = 0;
    for (dw_csv_row(file, &row); dw_csv_row(file, &row); rows++) {
        int dimension = -1;
        for (int i = 0; dw_dimension_words[i]; i++)
            if (strcmp(dw_dimension_words[i], row.cells[1]) == 0)
                dimension = i;
        NEED(dimension >= 0);
        double value = -12345;
        dw_err err;
        dw_status got = dw_quantity_parse(row.cells[0], (dw_dimension)dimension,
                                          row.cells[2], &value, &err);
        const char *want = row.cells[4][0] ? row.cells[4] : "ok";
        if (strcmp(dw_status_code(got), want) != 0)
            dw_test_fail(__FILE__, __LINE__, "\"%s\" is %s, not %s",
                         row.cells[0], dw_status_code(got), want);
        double wanted = got == DW_OK ? strtod(row.cells[3], NULL) : -12345;
        if (!(fabs(value - wanted) <= 1e-12 * (1 + fabs(wanted))))
            dw_test_fail(__FILE__, __LINE__, "\"%s\" is %.15g, not %.15g",
                         row.cells[0], value, wanted);
    }
    fclose(file);
    CHECK(rows > 100);
}

/* The names of the published table and ours; its SI unit in base units. */
static const struct {
    const char *published;
    dw_dimension dimension;
    const char *name;
} names[] = {
    {"avoirdupois pound", DW_MASS, "lb"},
    {"avoirdupois ounce", DW_MASS, "oz"},
    {"grain", DW_MASS, "grain"},
    {"short ton (2000 lb)", DW_MASS, "short ton"},
    {"stone (14 lb)", DW_MASS, "stone"},
    {"US gallon (231 in3)", DW_VOLUME, "gal"},
    {"US liquid quart", DW_VOLUME, "qt"},
    {"US liquid pint", DW_VOLUME, "pt"},
    {"US cup (8 fl oz)", DW_VOLUME, "cup"},
    {"US fluid ounce", DW_VOLUME, "fl oz"},
    {"US tablespoon (1/2 fl oz)", DW_VOLUME, "tbsp"},
    {"US teaspoon (1/6 fl oz)", DW_VOLUME, "tsp"},
    {"US label teaspoon (21 CFR 101.9(b)(5)(viii))", DW_VOLUME, "label tsp"},
    {"US label tablespoon", DW_VOLUME, "label tbsp"},
    {"US label cup", DW_VOLUME, "label cup"},
    {"US label fluid ounce", DW_VOLUME, "label fl oz"},
    {"US label ounce by weight", DW_MASS, "label oz"},
    {"imperial gallon", DW_VOLUME, "imp gal"},
    {"imperial fluid ounce", DW_VOLUME, "imp fl oz"},
    {"inch", DW_LENGTH, "in"},
    {"cubic inch", DW_VOLUME, "cu in"},
    {"Btu (IT)", DW_ENERGY, "Btu"},
    {"calorie (thermochemical)", DW_ENERGY, "cal th"},
    {"calorie (IT)", DW_ENERGY, "cal IT"},
    {"temperature C from F", DW_TEMPERATURE, "F"},
    {"standard atmosphere", DW_PRESSURE, "atm"},
    {"psi", DW_PRESSURE, "psi"},
    {"ton of refrigeration", DW_POWER, "ton of refrigeration"},
    {"horsepower (550 ft lbf/s)", DW_POWER, "hp"},
};

static double base_of_si(const char *si)
{
    if (strcmp(si, "g") == 0 || strcmp(si, "mL") == 0 || strcmp(si, "mm") == 0)
        return 1e-3;
    return strcmp(si, "mg") == 0 ? 1e-6 : 1;
}

TEST(every_exact_factor_of_the_published_table_holds, PUBLISHED,
     "NIST SP 811 and Handbook 44 app. C, 21 CFR 101.9, units_exact.csv")
{
    FILE *file = fopen(dw_test_data("units_exact.csv"), "r");
    NEED(file != NULL);
    dw_csv row;
    size_t rows = 0;
    for (dw_csv_row(file, &row); dw_csv_row(file, &row); rows++) {
        const dw_unit *unit = NULL;
        for (size_t i = 0; i < DW_COUNT(names); i++)
            if (strcmp(names[i].published, row.cells[0]) == 0)
                unit = dw_unit_find(names[i].dimension, names[i].name);
        if (!unit) {
            dw_test_fail(__FILE__, __LINE__, "no unit %s", row.cells[0]);
            continue;
        }
        if (unit->dimension == DW_TEMPERATURE) {
            SAME_TEXT(row.cells[2], "(F-32)/1.8");
            NEAR(dw_unit_to_base(unit, 50), (50 - 32) / 1.8, 1e-13);
            continue;
        }
        /* a ton of refrigeration is 12000 Btu(IT) an hour */
        double want = strtod(row.cells[2], NULL) * base_of_si(row.cells[1]);
        NEAR(dw_unit_to_base(unit, 1) / want, 1, 1e-9);
    }
    fclose(file);
    SAME(rows, DW_COUNT(names));
}

TEST(a_unit_goes_there_and_back, LIMIT, "round trip over all units")
{
    size_t count;
    const dw_unit *units = dw_units(&count);
    for (size_t i = 0; i < count; i++)
        NEAR(dw_unit_from_base(&units[i], dw_unit_to_base(&units[i], 37.5)),
             37.5, 1e-11);
}

static const char *printed(double value, dw_dimension dimension,
                           dw_units_choice units)
{
    static char text[48];
    dw_quantity_print(text, sizeof text, value, dimension, units);
    return text;
}

TEST(quantities_print_in_the_units_of_the_person, DERIVED, "worked by hand")
{
    SAME_TEXT(printed(0.567, DW_MASS, DW_METRIC), "567 g");
    SAME_TEXT(printed(0.567, DW_MASS, DW_US), "1 lb 4 oz");
    SAME_TEXT(printed(0.017, DW_MASS, DW_METRIC), "17 g");
    SAME_TEXT(printed(0.01701, DW_MASS, DW_US), "0.6 oz");
    SAME_TEXT(printed(0.0004536, DW_MASS, DW_METRIC), "0.45 g");
    SAME_TEXT(printed(4.5, DW_MASS, DW_METRIC), "4.5 kg");
    SAME_TEXT(printed(37.1947, DW_MASS, DW_METRIC), "37.19 kg");
    SAME_TEXT(printed(37.1947, DW_MASS, DW_US), "82 lb");
    SAME_TEXT(printed(68.0389, DW_MASS, DW_US), "150 lb");
    SAME_TEXT(printed(0.4529, DW_MASS, DW_US), "1 lb");
    SAME_TEXT(printed(26.5, DW_TEMPERATURE, DW_METRIC), "26.5 C");
    SAME_TEXT(printed(26.6666667, DW_TEMPERATURE, DW_US), "80 F");
    SAME_TEXT(printed(15, DW_DIFFERENCE, DW_METRIC), "15 C");
    SAME_TEXT(printed(15, DW_DIFFERENCE, DW_US), "27 F");
    SAME_TEXT(printed(-5, DW_DIFFERENCE, DW_US), "-9 F");
    SAME_TEXT(printed(0.375, DW_PERCENT, DW_METRIC), "0.375 %");
    SAME_TEXT(printed(0.0375, DW_PERCENT, DW_US), "0.0375 %");
    SAME_TEXT(printed(58, DW_PERCENT, DW_US), "58 %");
    SAME_TEXT(printed(0.3048, DW_LENGTH, DW_US), "12 in");
    SAME_TEXT(printed(0.3048, DW_LENGTH, DW_METRIC), "30.5 cm");
    SAME_TEXT(printed(1.5, DW_TIME, DW_METRIC), "1 h 30 min");
    SAME_TEXT(printed(72, DW_TIME, DW_US), "72 h");
    SAME_TEXT(printed(0.0125, DW_TIME, DW_US), "45 s");
    SAME_TEXT(printed(0.005, DW_TIME, DW_US), "18 s");
    SAME_TEXT(printed(96, DW_NUMBER, DW_US), "96");
    SAME_TEXT(printed(3.785411784, DW_VOLUME, DW_US), "4 qt");
}

TEST(what_is_printed_reads_back_within_half_a_digit, LIMIT,
     "print then parse, masses of 1 g to 500 kg in both units")
{
    unsigned long long seed = 7;
    for (int i = 0; i < 2000; i++) {
        double kg = pow(10, dw_test_between(&seed, -3, 2.7));
        for (int us = 0; us <= 1; us++) {
            double back = 0;
            const char *text = printed(kg, DW_MASS, (dw_units_choice)us);
            SAME(dw_quantity_parse(text, DW_MASS, "kg", &back, NULL), DW_OK);
            NEAR(back / kg, 1, 0.02);
        }
    }
}

TEST(an_error_says_the_text_and_the_range, LIMIT, "DESIGN: said once")
{
    double kg = 1;
    dw_err err;
    SAME(dw_quantity_parse("-3 lb", DW_MASS, "kg", &kg, &err), DW_E_RANGE);
    CHECK(err.ranged && err.low == 0 && err.high == 100000);
    dw_err_within(&err, "water_kg");
    SAME_TEXT(err.field, "water_kg");
    SAME(dw_quantity_parse("5 lb 4", DW_MASS, "kg", &kg, &err), DW_E_SYNTAX);
    SAME_TEXT(err.value, "5 lb 4");
    SAME_TEXT(err.sentence, "needs a unit after each number");
    CHECK(kg == 1);
}

TEST(whatever_is_typed_gives_a_finite_value_or_one_error, LIMIT,
     "200,000 random texts of the parser's own letters")
{
    static const char *const letters[] = {
        "0", "1",  "7",  "9", ".", ",", "/", " ", "-", "lb",       "oz",
        "g", "kg", "in", "F", "C", "%", "h", "m", "e", "\xc2\xbd", "\xc2"};
    unsigned long long seed = 99;
    int read = 0;
    for (int n = 0; n < 200000; n++) {
        char text[40] = "";
        size_t parts = dw_test_bits(&seed) % 9;
        for (size_t i = 0; i < parts; i++)
            strcat(text, letters[dw_test_bits(&seed) % DW_COUNT(letters)]);
        double value = NAN;
        dw_err err = {.status = DW_OK};
        dw_status got = dw_quantity_parse(text, DW_MASS, "kg", &value, &err);
        if (got == DW_OK ? !(value >= 0 && value <= 100000)
                         : !isnan(value) || err.status != got)
            dw_test_fail(__FILE__, __LINE__, "\"%s\" gives %g and %s", text,
                         value, dw_status_code(got));
        read += got == DW_OK;
    }
    CHECK(read > 1000);
}
