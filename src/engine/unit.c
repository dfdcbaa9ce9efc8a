#include "doughwright/quantity.h"

#include "engine/text_case.h"

#include <string.h>

const char *const dw_dimension_words[] = {
#define WORD(symbol, word, base, low, high) word,
    DW_DIMENSION_LIST(WORD)
#undef WORD
        NULL};

const char *const dw_units_words[] = {"metric", "us", NULL};

/* Rational factors, so that 212 F is 100 C and not 100.00000000000001. */
static const dw_unit units[] = {
    {DW_MASS, "kg|kgs|kilo|kilos|kilogram|kilograms", 0, 1, 1},
    {DW_MASS, "g|gr|gm|gms|gram|grams", 0, 1, 1000},
    {DW_MASS, "mg|milligram|milligrams", 0, 1, 1e6},
    {DW_MASS, "t|tonne|tonnes", 0, 1000, 1},
    {DW_MASS, "lb|lbs|pound|pounds|#", 0, 0.45359237, 1},
    {DW_MASS, "oz|ozs|ounce|ounces", 0, 0.45359237, 16},
    {DW_MASS, "grain|grains", 0, 0.45359237, 7000},
    {DW_MASS, "short ton|short tons", 0, 907.18474, 1},
    {DW_MASS, "stone", 0, 6.35029318, 1},
    {DW_MASS, "label oz", 0, 28, 1000},
    {DW_TEMPERATURE,
     "C|\xc2\xb0"
     "C|\xc2\xba"
     "C|degC|deg C|degrees C|celsius",
     0, 1, 1},
    {DW_TEMPERATURE,
     "F|\xc2\xb0"
     "F|\xc2\xba"
     "F|degF|deg F|degrees F|fahrenheit",
     -32, 5, 9},
    {DW_DIFFERENCE,
     "K|kelvin|C|\xc2\xb0"
     "C|\xc2\xba"
     "C|degC|deg C|degrees C|celsius",
     0, 1, 1},
    {DW_DIFFERENCE,
     "F|\xc2\xb0"
     "F|\xc2\xba"
     "F|degF|deg F|degrees F|fahrenheit",
     0, 5, 9},
    {DW_PERCENT, "%|percent|per cent|pct", 0, 1, 1},
    {DW_LENGTH, "m|metre|metres|meter|meters", 0, 1, 1},
    {DW_LENGTH, "cm|centimetre|centimetres|centimeter|centimeters", 0, 1, 100},
    {DW_LENGTH, "mm|millimetre|millimetres|millimeter|millimeters", 0, 1, 1000},
    {DW_LENGTH, "in|inch|inches|\"|\xe2\x80\xb3", 0, 0.0254, 1},
    {DW_LENGTH, "ft|foot|feet|'|\xe2\x80\xb2", 0, 0.3048, 1},
    {DW_TIME, "h|hr|hrs|hour|hours", 0, 1, 1},
    {DW_TIME, "min|mins|minute|minutes|m", 0, 1, 60},
    {DW_TIME, "s|sec|secs|second|seconds", 0, 1, 3600},
    {DW_TIME, "d|day|days", 0, 24, 1},
    {DW_NUMBER, "count|pieces|piece|pcs|pc|balls|ball|x", 0, 1, 1},
    {DW_VOLUME, "L|litre|litres|liter|liters", 0, 1, 1},
    {DW_VOLUME, "ml|millilitre|millilitres|milliliter|milliliters|cc", 0, 1,
     1000},
    {DW_VOLUME, "gal|gallon|gallons", 0, 3.785411784, 1},
    {DW_VOLUME, "qt|qts|quart|quarts", 0, 3.785411784, 4},
    {DW_VOLUME, "pt|pts|pint|pints", 0, 3.785411784, 8},
    {DW_VOLUME, "cup|cups", 0, 3.785411784, 16},
    {DW_VOLUME, "fl oz|fluid ounce|fluid ounces", 0, 3.785411784, 128},
    {DW_VOLUME, "tbsp|tablespoon|tablespoons", 0, 3.785411784, 256},
    {DW_VOLUME, "tsp|teaspoon|teaspoons", 0, 3.785411784, 768},
    {DW_VOLUME, "label tsp", 0, 5, 1000},
    {DW_VOLUME, "label tbsp", 0, 15, 1000},
    {DW_VOLUME, "label cup", 0, 240, 1000},
    {DW_VOLUME, "label fl oz", 0, 30, 1000},
    {DW_VOLUME, "imp gal|imperial gallon|imperial gallons", 0, 4.54609, 1},
    {DW_VOLUME, "imp fl oz|imperial fluid ounce", 0, 4.54609, 160},
    {DW_VOLUME, "cu in|cubic inch|cubic inches|in3", 0, 0.016387064, 1},
    {DW_ENERGY, "J|joule|joules", 0, 1, 1},
    {DW_ENERGY, "kJ", 0, 1000, 1},
    {DW_ENERGY, "Btu", 0, 1055.05585262, 1},
    {DW_ENERGY, "cal th|calorie", 0, 4.184, 1},
    {DW_ENERGY, "cal IT", 0, 4.1868, 1},
    {DW_PRESSURE, "Pa", 0, 1, 1},
    {DW_PRESSURE, "kPa", 0, 1000, 1},
    {DW_PRESSURE, "atm", 0, 101325, 1},
    /* pound force (0.45359237 kg at 9.80665 m/s2) on a square inch */
    {DW_PRESSURE, "psi", 0, 4.4482216152605, 0.00064516},
    {DW_POWER, "W|watt|watts", 0, 1, 1},
    {DW_POWER, "kW", 0, 1000, 1},
    /* 12,000 Btu an hour */
    {DW_POWER, "ton of refrigeration|tons of refrigeration", 0, 12660670.23144,
     3600},
    /* 550 foot pounds-force a second */
    {DW_POWER, "hp|horsepower", 0, 745.69987158227022, 1},
};

const dw_unit *dw_units(size_t *count)
{
    *count = DW_COUNT(units);
    return units;
}

static bool has_name(const char *names, const char *name)
{
    size_t bytes = strlen(name);
    for (const char *at = names;; at++) {
        size_t n = strcspn(at, "|");
        if (n == bytes && dw_text__same_start(at, name, n))
            return true;
        at += n;
        if (!*at)
            return false;
    }
}

const dw_unit *dw_unit_find(dw_dimension dimension, const char *name)
{
    for (size_t i = 0; i < DW_COUNT(units); i++)
        if (units[i].dimension == dimension && has_name(units[i].names, name))
            return &units[i];
    return NULL;
}

double dw_unit_to_base(const dw_unit *unit, double typed)
{
    return (typed + unit->add) * unit->times / unit->over;
}

double dw_unit_from_base(const dw_unit *unit, double value)
{
    return value * unit->over / unit->times - unit->add;
}
