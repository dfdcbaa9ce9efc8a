#include "doughwright/ferment.h"
#include "dw_test.h"

static const dw_ferment_dough plain = {
    .mass_g = 162.4, .water_g = 60, .salt_g = 2, .instant_g = 0.4};

static dw_ferment_model usual(void)
{
    dw_ferment_model model;
    dw_ferment_model_preset(&model);
    return model;
}

TEST(gas_against_temperature_follows_the_cardinal_curve, DERIVED,
     "f(T)/f(30) computed by an independent program from Rosso et al. 1993")
{
    const double f[][2] = {{0, .0015},  {2, .013},  {3, .023},  {4, .036},
                           {5, .052},   {8, .113},  {10, .167}, {15, .337},
                           {20, .548},  {25, .780}, {27, .872}, {35, 1.159},
                           {38, 1.193}, {42, 1.109}};
    dw_ferment_model model = usual();
    for (size_t i = 0; i < DW_COUNT(f); i++)
        NEAR(dw_ferment_gas_factor(&model, f[i][0]), f[i][1],
             i == 0 ? 0.00006 : 0.0006);
    NEAR(dw_ferment_gas_factor(&model, 30), 1, 1e-15);
}

TEST(growth_against_temperature_follows_the_cardinal_curve, DERIVED,
     "g(T) computed by an independent program from Salvado et al. 2011")
{
    const double g[][2] = {{5, .014},  {10, .135}, {20, .597},
                           {27, .904}, {30, .980}, {40, .702}};
    dw_ferment_model model = usual();
    for (size_t i = 0; i < DW_COUNT(g); i++)
        NEAR(dw_ferment_growth_factor(&model, g[i][0]), g[i][1], 0.0006);
    NEAR(dw_ferment_growth_factor(&model, 32.3), 1, 1e-14);
}

TEST(no_gas_at_the_ends_of_life_and_no_growth_in_the_cold, LIMIT,
     "T <= -1 or >= 50 degC: no gas; below 2.8 degC no growth")
{
    dw_ferment_model model = usual();
    CHECK(dw_ferment_gas_factor(&model, -1) == 0);
    CHECK(dw_ferment_gas_factor(&model, -20) == 0);
    CHECK(dw_ferment_gas_factor(&model, 50) == 0);
    CHECK(dw_ferment_gas_factor(&model, 90) == 0);
    CHECK(dw_ferment_growth_factor(&model, 2.8) == 0);
    CHECK(dw_ferment_growth_factor(&model, 46) == 0);
    for (double t = -0.9; t < 37.9; t += 0.1)
        CHECK(dw_ferment_gas_factor(&model, t) <
              dw_ferment_gas_factor(&model, t + 0.1));
}

TEST(gas_doubles_over_17_fahrenheit, PRACTICE,
     "common practice, no source: 80 against 63 degF, 1.8 to 2.2")
{
    dw_ferment_model model = usual();
    double ratio = dw_ferment_gas_factor(&model, (80 - 32) / 1.8) /
                   dw_ferment_gas_factor(&model, (63 - 32) / 1.8);
    NEAR(ratio, 2.0, 0.2);
}

TEST(carbon_dioxide_in_water_is_the_handbooks_table, PUBLISHED,
     "CRC Handbook, after Carroll 1991, 1000 x mole fraction at 100 kPa")
{
    const double x[][2] = {{0, 1.337}, {5, 1.123}, {10, .950},
                           {15, .814}, {20, .704}, {25, .614},
                           {30, .541}, {35, .481}, {40, .431}};
    for (size_t i = 0; i < DW_COUNT(x); i++)
        NEAR(dw_ferment_solubility(x[i][0]), x[i][1], 1e-6);
    for (double t = -3; t < 50; t += 0.5)
        CHECK(dw_ferment_solubility(t) > dw_ferment_solubility(t + 0.5));
}

TEST(dough_warmed_under_a_lid_lets_dissolved_gas_out, DERIVED,
     "independent program: 74 g water, 1.75 % salt, 100 kPa pure CO2; and at "
     "150 mL of gas, 4 to 22 degC")
{
    dw_ferment_model model = usual();
    dw_ferment_dough dough = {.mass_g = 162.15, .water_g = 60, .salt_g = 1.75};
    double cold = dw_ferment_capacity_mmol(&model, &dough, 4, 100);
    double warm = dw_ferment_capacity_mmol(&model, &dough, 22, 100);
    NEAR(cold, 3.70, 0.005);
    NEAR(warm, 2.12, 0.005);
    double air = dw_ferment_air_mmol(&model, &dough, 26, 101.325);
    double total = 150 / DW_ML_PER_MMOL;
    double at[2], temp_c[2] = {4, 22}, volume[2];
    for (int i = 0; i < 2; i++) {
        double held = dw_ferment_free_mmol(
            total, dw_ferment_capacity_mmol(&model, &dough, temp_c[i], 101.325),
            air);
        at[i] = total - held;
        volume[i] = dw_ferment_volume_ml(&model, &dough, held + air, temp_c[i],
                                         101.325);
    }
    NEAR(at[0], 3.26, 0.03);
    NEAR(at[1], 1.95, 0.03);
    NEAR(volume[1] - volume[0], 36.8, 1.5);
}

TEST(salt_slows_yeast, PUBLISHED,
     "quoted from gas measurements, initial rate: 3 % -16 %, 1.5 % -9 %")
{
    dw_ferment_model model = usual();
    dw_ferment_dough salty = plain;
    salty.salt_g = 3;
    NEAR(100 * (1 - dw_ferment_salt_factor(&model, &salty)), 16, 2);
    salty.salt_g = 1.5;
    NEAR(100 * (1 - dw_ferment_salt_factor(&model, &salty)), 9, 2);
    salty.salt_g = 19;
    CHECK(dw_ferment_salt_factor(&model, &salty) == 0);
}

TEST(much_sugar_slows_yeast_and_a_little_does_not, DERIVED,
     "1 / (1 + (g / 10)^4) worked by hand")
{
    dw_ferment_model model = usual();
    dw_ferment_dough sweet = plain;
    sweet.sugar_g = 2;
    NEAR(dw_ferment_sugar_factor(&model, &sweet), 1 / 1.0016, 1e-12);
    sweet.sugar_g = 10;
    NEAR(dw_ferment_sugar_factor(&model, &sweet), 0.5, 1e-12);
    sweet.sugar_g = 20;
    NEAR(dw_ferment_sugar_factor(&model, &sweet), 1.0 / 17, 1e-12);
}

TEST(yeast_types_exchange_as_baking_texts_say, PUBLISHED,
     "baking texts: fresh 1, active dry 0.45 (0.40-0.50), instant 0.35 "
     "(0.30-0.40)")
{
    dw_ferment_model model = usual();
    dw_ferment_dough fresh = {.mass_g = 161, .water_g = 60, .fresh_g = 1};
    dw_ferment_dough dry = {.mass_g = 161, .water_g = 60, .active_dry_g = .45};
    dw_ferment_dough instant = {.mass_g = 161, .water_g = 60, .instant_g = .35};
    double whole = dw_ferment_yeast_g(&model, &fresh);
    NEAR(whole, 0.30, 1e-12);
    NEAR(dw_ferment_yeast_g(&model, &dry) / whole, 1, 0.12);
    NEAR(dw_ferment_yeast_g(&model, &instant) / whole, 1, 0.15);
    NEAR(dw_ferment_yeast_g(&model, &dry) / whole, 1, 0.01);
    NEAR(dw_ferment_yeast_g(&model, &instant) / whole, 1, 0.01);
}

TEST(the_air_thins_as_the_standard_atmosphere_says, PUBLISHED,
     "ISO 2533 standard atmosphere, table: 0, 1000, 2000, 3000 m")
{
    NEAR(dw_ferment_pressure_kpa(0), 101.325, 1e-9);
    NEAR(dw_ferment_pressure_kpa(1000), 89.8746, 0.01);
    NEAR(dw_ferment_pressure_kpa(2000), 79.4952, 0.01);
    NEAR(dw_ferment_pressure_kpa(3000), 70.1085, 0.01);
}

TEST(age_counts_hours_at_25_degrees, DERIVED,
     "Arrhenius, 58 kJ/mol, worked with an independent program")
{
    dw_ferment_model model = usual();
    NEAR(dw_ferment_age_factor(&model, 25), 1, 1e-14);
    NEAR(dw_ferment_age_factor(&model, 3),
         exp(-58000 / 8.314462618 * (1 / 276.15 - 1 / 298.15)), 1e-12);
}

TEST(a_formula_gives_yeast_its_water_salt_and_sugar, DERIVED,
     "worked by hand: milk brings 20 x 0.88 g of water")
{
    dw_line lines[] = {
        {"flour", DW_FLOUR, 80, false, 0, false, 0},
        {"wholemeal", DW_FLOUR, 20, true, 13, false, 0},
        {"water", DW_WATER, 40, false, 0, false, 0},
        {"milk", DW_DAIRY, 20, true, 88, false, 0},
        {"salt", DW_SALT, 2, false, 0, false, 0},
        {"sugar", DW_SUGAR, 3, false, 0, false, 0},
        {"yeast", DW_YEAST_FRESH, 1, true, 70, false, 0},
    };
    dw_formula formula = {lines, DW_COUNT(lines), NULL, 0};
    dw_ferment_dough dough;
    dw_err err;
    SAME(dw_ferment_dough_of(&formula, &dough, &err), DW_OK);
    NEAR(dough.mass_g, 166, 1e-12);
    NEAR(dough.water_g, 40 + 17.6 + 0.7, 1e-12);
    NEAR(dough.salt_g, 2, 0);
    NEAR(dough.sugar_g, 3, 0);
    NEAR(dough.fresh_g, 1, 0);
    lines[1].percent = 10;
    SAME(dw_ferment_dough_of(&formula, &dough, &err), DW_E_RANGE);
    lines[0].kind = lines[1].kind = DW_OTHER;
    SAME(dw_ferment_dough_of(&formula, &dough, &err), DW_E_NO_FLOUR);
}

TEST(a_model_with_a_bent_temperature_curve_is_refused, LIMIT,
     "the curve has one top only above the middle of its range")
{
    dw_ferment_model model = usual();
    dw_err err;
    SAME(dw_ferment_model_check(&model, &err), DW_OK);
    model.g_Topt = 25;
    model.g_Tmin = 10;
    SAME(dw_ferment_model_check(&model, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "g_Topt");
    model = usual();
    model.q30 = 500;
    SAME(dw_ferment_model_check(&model, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "q30");
}

TEST(every_parameter_lies_in_its_range_and_names_a_source, LIMIT,
     "ferment.h, the table of parameters")
{
    size_t count;
    const dw_ferment_source *sources = dw_ferment_sources(&count);
    SAME(dw_ferment_model_shape.count, DW_FERMENT_PARAMETER_COUNT);
    for (size_t i = 0; i < DW_FERMENT_PARAMETER_COUNT; i++) {
        const dw_field *field = &dw_ferment_model_shape.fields[i];
        const dw_ferment_parameter *range = &dw_ferment_parameters[i];
        CHECK(field->low <= range->low && range->low <= field->preset);
        CHECK(field->preset <= range->high && range->high <= field->high);
        bool known = false;
        for (size_t s = 0; s < count; s++)
            known = known || strcmp(sources[s].key, range->source) == 0;
        CHECK(known);
    }
}
