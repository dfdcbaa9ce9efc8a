#include "door/asked.h"
#include "dw_test.h"

/* Reference batch R1 and, before the closing brace, what a test adds. */
#define R1                                                                     \
    "\"water_kg\":15,\"flour_kg\":25,\"parts\":[{\"kg\":25,"                   \
    "\"cp_j_per_kg_k\":1850,\"temp_c\":22},{\"kg\":0.5,\"cp_j_per_kg_k\":880," \
    "\"temp_c\":22},{\"kg\":0.5,\"cp_j_per_kg_k\":2000,\"temp_c\":22}],"       \
    "\"bowl_kg\":20,\"bowl_cp_j_per_kg_k\":500,\"bowl_c\":22,"                 \
    "\"hydration_j_per_kg_flour\":15120"

TEST(heat_water_answers_the_reference_batch, DERIVED,
     "reference batch R1, two independent programs")
{
    const asked *a = dw_test_ask(
        "heat.water", "en",
        "{" R1 ",\"goal_c\":26,\"work_j_per_kg_dough\":13000,\"tap_c\":20,"
        "\"room_c\":22,\"flour_c\":22}");
    SAME(a->status, DW_OK);
    NEAR(dw_test_number(a, "water_c", 0), 15.1509, 6e-5);
    NEAR(dw_test_number(a, "ice_kg", 0), 0.7289, 6e-5);
    NEAR(dw_test_number(a, "liquid_c", 0), 20, 0);
    NEAR(dw_test_number(a, "friction_c", 0) * 1.8, 33.93, 0.006);
    CHECK(strstr(a->text, "agree today."));
}

TEST(heat_water_has_no_rule_without_room_and_flour, DERIVED, "DESIGN 4")
{
    const asked *a = dw_test_ask(
        "heat.water", "es",
        "{" R1 ",\"goal_c\":26,\"work_j_per_kg_dough\":13000,\"tap_c\":20,"
        "\"flour_c\":22}");
    SAME(a->status, DW_OK);
    CHECK(strstr(a->text, "\"rule\":null"));
    CHECK(strstr(a->text, "\"why\":null"));
    CHECK(strstr(a->text, "El agua est\xc3\xa1 fr\xc3\xad"
                          "a: ponga la levadura"));
}

TEST(heat_learn_gives_the_work_of_a_warm_batch, DERIVED,
     "reference batch R1: 27.4 degC observed gives 17.111 kJ/kg")
{
    const asked *a =
        dw_test_ask("heat.learn", "en",
                    "{" R1 ",\"observed_dough_c\":27.4,\"water_c\":15.1509,"
                    "\"tap_c\":20,\"work_j_per_kg_dough\":13000}");
    SAME(a->status, DW_OK);
    NEAR(dw_test_number(a, "work_j_per_kg_dough", 0), 17111, 1);
}

TEST(the_trades_rules_answer_in_json, PUBLISHED,
     "New Scientist, 19 July 1997; Italian mill, quoted")
{
    const asked *a =
        dw_test_ask("heat.base", "en", "{\"base_c\":80,\"temps_c\":[25,30]}");
    NEAR(dw_test_number(a, "water_c", 0), 25, 1e-12);
    a = dw_test_ask("heat.friction", "en",
                    "{\"dough_c\":27,\"temps_c\":[25,15,15],\"added_c\":20}");
    NEAR(dw_test_number(a, "friction_c", 0), 26, 1e-12);
    NEAR(dw_test_number(a, "friction_with_added_c", 0), 33, 1e-12);
    a = dw_test_ask("heat.rule", "en",
                    "{\"goal_c\":27,\"temps_c\":[25,15],\"friction_c\":26}");
    NEAR(dw_test_number(a, "water_c", 0), 15, 1e-12);
}

TEST(heat_ice_and_wetting_answer_in_json, DERIVED,
     "R1 ice by two programs; 5 times the yeast")
{
    const asked *a = dw_test_ask("heat.ice", "en",
                                 "{\"water_kg\":15,\"tap_c\":20,"
                                 "\"wanted_c\":15.1509,\"ice_c\":-5}");
    NEAR(dw_test_number(a, "ice_kg", 0), 0.7114, 6e-5);
    a = dw_test_ask("heat.wetting", "en",
                    "{\"active_dry_kg\":0.1,\"water_kg\":15}");
    NEAR(dw_test_number(a, "kg", 0), 0.5, 1e-12);
    a = dw_test_ask("heat.wetting", "en",
                    "{\"active_dry_kg\":9,\"water_kg\":15}");
    SAME(a->status, DW_E_RANGE);
    SAME_TEXT(a->err.field, "active_dry_kg");
}

TEST(absurd_heat_is_refused_by_field, LIMIT, "DESIGN 4")
{
    static const char *const cases[][3] = {
        {"heat.rule", "{\"goal_c\":900,\"temps_c\":[20],\"friction_c\":1}",
         "goal_c"},
        {"heat.rule", "{\"goal_c\":20,\"temps_c\":[],\"friction_c\":1}",
         "temps_c"},
        {"heat.rule", "{\"goal_c\":20,\"temps_c\":[20,-90],\"friction_c\":1}",
         "temps_c[1]"},
        {"heat.ice", "{\"water_kg\":1,\"tap_c\":20,\"wanted_c\":-50}",
         "wanted_c"},
        {"heat.ice", "{\"water_kg\":-1,\"tap_c\":20,\"wanted_c\":0}",
         "water_kg"},
        {"heat.water", "{" R1 ",\"goal_c\":26,\"tap_c\":20}",
         "work_j_per_kg_dough"},
        {"heat.water",
         "{" R1 ",\"goal_c\":26,\"tap_c\":20,\"work_j_per_kg_dough\":1,"
         "\"salt\":1}",
         "salt"},
        {"heat.learn",
         "{" R1 ",\"observed_dough_c\":26,\"water_c\":15,\"ice_kg\":16}",
         "ice_kg"},
        {"learn.work",
         "{\"readings\":[{\"work_j_per_kg_dough\":1,"
         "\"sd_j_per_kg\":0}]}",
         "readings[0].sd_j_per_kg"},
    };
    for (size_t i = 0; i < DW_COUNT(cases); i++) {
        const asked *a = dw_test_ask(cases[i][0], "en", cases[i][1]);
        CHECK(a->status != DW_OK && a->status != DW_E_NOT_FOUND);
        SAME_TEXT(a->err.field, cases[i][2]);
    }
}

TEST(learn_work_falls_back_to_mixer_and_trade, DERIVED,
     "13 kJ/kg of the trade; readings that agree")
{
    const asked *a = dw_test_ask("learn.work", "en", "{}");
    NEAR(dw_test_number(a, "work_j_per_kg_dough", 0), 13000, 1);
    CHECK(strstr(a->text, "\"level\":\"prior\""));
    a = dw_test_ask("learn.work", "en",
                    "{\"mixer_readings\":[{\"work_j_per_kg_dough\":15000,"
                    "\"sd_j_per_kg\":1000}]}");
    CHECK(strstr(a->text, "\"level\":\"mixer\""));
    double work = dw_test_number(a, "work_j_per_kg_dough", 0);
    CHECK(work > 14000 && work < 15000);
    a = dw_test_ask("learn.lot_water", "en", "{\"percent\":[1,1.5,0.5,12,1]}");
    NEAR(dw_test_number(a, "percent", 0), 1, 1e-12);
}

TEST(piece_cool_answers_the_reference_ball, DERIVED,
     "exact series by an independent program, R 0.0456 m, h 8")
{
    /* 448.8067 g is R 0.0456 m at 1130 kg/m3 */
    const asked *a = dw_test_ask(
        "piece.cool", "en",
        "{\"piece_g\":448.8067,\"density_kg_m3\":1130,\"cp_j_per_kg_k\":2750,"
        "\"k_w_per_m_k\":0.37,\"start_c\":27,\"air_c\":3,\"h_w_per_m2_k\":8,"
        "\"times_h\":[0,0.5,4]}");
    SAME(a->status, DW_OK);
    NEAR(dw_test_number(a, "core_c", 0), 27, 1e-12);
    NEAR(dw_test_number(a, "core_c", 1), 25.6895, 6e-5);
    NEAR(dw_test_number(a, "skin_c", 1), 18.3936, 6e-5);
    NEAR(dw_test_number(a, "mean_c", 2), 6.1663, 6e-5);
    NEAR(dw_test_number(a, "radius_m", 0), 0.0456, 1e-7);
    a = dw_test_ask(
        "piece.cool", "en",
        "{\"piece_g\":450,\"density_kg_m3\":1130,\"cp_j_per_kg_k\":2750,"
        "\"k_w_per_m_k\":0,\"start_c\":27,\"air_c\":3,\"h_w_per_m2_k\":8,"
        "\"times_h\":[1]}");
    SAME(a->status, DW_E_RANGE);
    SAME_TEXT(a->err.field, "k_w_per_m_k");
}

TEST(piece_properties_answers_for_a_formula, DERIVED,
     "Choi & Okos by an independent program: cp 2.765, 1134, 0.368")
{
    const asked *a = dw_test_ask(
        "piece.properties", "en",
        "{\"formula\":{\"lines\":["
        "{\"material\":\"flour\",\"kind\":\"flour\",\"percent\":100},"
        "{\"material\":\"water\",\"kind\":\"water\",\"percent\":60},"
        "{\"material\":\"salt\",\"kind\":\"salt\",\"percent\":2},"
        "{\"material\":\"oil\",\"kind\":\"fat\",\"percent\":2}]}}");
    SAME(a->status, DW_OK);
    NEAR(dw_test_number(a, "cp_j_per_kg_k", 0), 2765, 10);
    NEAR(dw_test_number(a, "density_kg_m3", 0), 1134, 5);
}

TEST(the_cold_room_answers_in_json, DERIVED,
     "exact series and by hand: 104 and 136 min; 12,696 kJ; day 2 is best")
{
    const asked *a = dw_test_ask("cold.close", "en",
                                 "{\"piece_g\":250,\"dough_c\":27,\"air_c\":3,"
                                 "\"close_from_core_c\":12.8}");
    NEAR(dw_test_number(a, "from_h", 0) * 60, 104, 1);
    NEAR(dw_test_number(a, "by_h", 0) * 60, 136, 1);
    CHECK(strstr(a->text, "\"rule_of_thumb\":true"));
    a = dw_test_ask("cold.load", "en",
                    "{\"dough_kg\":200,\"start_c\":27,\"end_c\":4,"
                    "\"over_h\":3}");
    NEAR(dw_test_number(a, "heat_j", 0), 12696000, 1e-3);
    a = dw_test_ask("cold.days", "en", "{\"age_days\":2}");
    SAME_TEXT(a->text, "{\"readiness\":\"best\"}");
    a = dw_test_ask("cold.days", "en",
                    "{\"age_days\":2,\"days\":{\"best_day\":5}}");
    SAME(a->status, DW_E_RANGE);
    SAME_TEXT(a->err.field, "days.use_first_day");
    a = dw_test_ask("cold.temper", "en",
                    "{\"piece_g\":400,\"core_c\":12,\"room_c\":24}");
    NEAR(dw_test_number(a, "usable_from_h", 0), 0, 0);
}

TEST(the_constants_tell_how_they_are_known, LIMIT, "constants.h")
{
    const asked *a = dw_test_ask("program.constants", "en", "{}");
    SAME(a->status, DW_OK);
    CHECK(strstr(a->text, "\"symbol\":\"FLOUR_CP\",\"value\":1850,"
                          "\"unit\":\"J/kgK\",\"low\":1800,\"high\":1880,"
                          "\"source\":\"geankoplis-a4\",\"mark\":\"read\""));
}
