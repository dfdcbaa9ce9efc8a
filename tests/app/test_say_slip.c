#include "app/say_slip.h"
#include "dw_test.h"

static unsigned char block[16384];
static dw_arena arena;

static void check_sentence(const char *english, const char *spanish)
{
    NEED(english && spanish);
    CHECK(strcmp(english, spanish) != 0);
    CHECK(!strchr(english, '{') && !strchr(spanish, '{'));
}

TEST(every_slip_is_a_whole_sentence_in_both_languages, LIMIT, "po/es")
{
    const dw_slip_basis basis = {DW_THIN, DW_SAME_DAY, NULL, &dw_yeast_usual};
    for (int code = 0; code < DW_SLIP_CODE_COUNT; code++) {
        const dw_slip slip = {code, DW_ASK, DW_SALT,  "salt", 0.175,
                              1.5,  3,      DW_SUGAR, "sugar"};
        dw_arena_init(&arena, block, sizeof block);
        check_sentence(dw_say_slip(&arena, "en", &slip, &basis),
                       dw_say_slip(&arena, "es", &slip, &basis));
    }
    for (int code = 0; code < DW_WEIGHED_COUNT; code++) {
        const dw_weighing w = {code, DW_ASK, 1};
        dw_arena_init(&arena, block, sizeof block);
        check_sentence(
            dw_say_weighing(&arena, "en", "salt", 1, 2, &w, DW_METRIC),
            dw_say_weighing(&arena, "es", "salt", 1, 2, &w, DW_METRIC));
    }
}

TEST(a_slip_names_what_it_is_held_against, DERIVED, "worked by hand")
{
    dw_slip_basis basis = {DW_THIN, DW_EMERGENCY, NULL, &dw_yeast_usual};
    const dw_slip slip = {DW_SLIP_TENTH, DW_WRONG, DW_YEAST_INSTANT,
                          "the red bag", 0.0375,   0.17,
                          0.5,           0,        NULL};
    dw_arena_init(&arena, block, sizeof block);
    SAME_TEXT(dw_say_slip(&arena, "en", &slip, &basis),
              "the red bag 0.0375 %: a tenth of what is usual for emergency "
              "dough. Usual here: 0.17–0.5 %");
    const dw_formula norm = {0};
    basis.norm = &norm;
    SAME_TEXT(dw_say_slip(&arena, "en", &slip, &basis),
              "the red bag 0.0375 %: a tenth of what is usual for your own "
              "formula. Usual here: 0.17–0.5 %");
    const dw_slip none = {
        DW_SLIP_MISSING, DW_WRONG, DW_SALT, NULL, 0, 1.5, 3, 0, NULL};
    SAME_TEXT(dw_say_slip(&arena, "es", &none, &basis),
              "falta sal. Lo usual aquí: 1.5–3 %");
}

TEST(a_slip_without_room_is_not_half_a_sentence, LIMIT, "base.h")
{
    const dw_slip_basis basis = {DW_THIN, DW_COLD, NULL, &dw_yeast_usual};
    const dw_slip slip = {DW_SLIP_HIGH, DW_ASK, DW_SALT, "salt", 4,
                          1.5,          3,      0,       NULL};
    dw_arena_init(&arena, block, 32);
    CHECK(dw_say_slip(&arena, "en", &slip, &basis) == NULL);
}
