#include "doughwright/say.h"
#include "dw_test.h"

TEST(values_go_into_the_sentence_by_name, DERIVED, "written by hand")
{
    char out[80];
    const dw_value values[] = {DW_VALUE_NUMBER("percent", 0.0375),
                               DW_VALUE_TEXT("material", "yeast")};
    size_t n = dw_say(out, sizeof out, "en",
                      "{material} at {percent}; {nobody} {open", values, 2);
    SAME_TEXT(out, "yeast at 0.0375; {nobody} {open");
    SAME(n, strlen(out));
}

TEST(spanish_is_said_when_asked_and_english_when_it_is_not_there, DERIVED,
     "translated by hand")
{
    char out[80];
    dw_say(out, sizeof out, "es-MX", "is required", NULL, 0);
    SAME_TEXT(out, "es obligatorio");
    dw_say(out, sizeof out, NULL, "is required", NULL, 0);
    SAME_TEXT(out, "is required");
    dw_say(out, sizeof out, "es", "a sentence nobody wrote", NULL, 0);
    SAME_TEXT(out, "a sentence nobody wrote");
    SAME_TEXT(dw_say_sentence("es", ""), "");
}

TEST(a_number_has_a_decimal_point_in_either_language, PRACTICE,
     "common practice, no source: kitchens and scales of the United States and "
     "Mexico show a point")
{
    char out[80];
    const dw_value values[] = {DW_VALUE_NUMBER("a", 0.375),
                               DW_VALUE_NUMBER("b", 60),
                               DW_VALUE_TEXT("c", "v1.2")};
    dw_say(out, sizeof out, "es", "{a}. {b} {c}.", values, DW_COUNT(values));
    SAME_TEXT(out, "0.375. 60 v1.2.");
    dw_say(out, sizeof out, "en", "{a}.", values, DW_COUNT(values));
    SAME_TEXT(out, "0.375.");
}

TEST(every_status_has_a_spanish_sentence, LIMIT, "po/es")
{
    for (int i = 0; i < DW_STATUS_COUNT; i++) {
        const char *english = dw_status_sentence((dw_status)i);
        const char *spanish = dw_say_sentence("es", english);
        if (spanish == english)
            dw_test_fail(__FILE__, __LINE__, "not translated: %s", english);
    }
}

TEST(what_does_not_fit_is_cut_between_characters, LIMIT, "say.h")
{
    char out[8];
    const dw_value value = DW_VALUE_TEXT("x", "ab\xc3\xa9");
    size_t n = dw_say(out, 4, "en", "{x} and more", &value, 1);
    SAME_TEXT(out, "ab");
    SAME(n, 2);
    n = dw_say(out, 5, "en", "{x} and more", &value, 1);
    SAME_TEXT(out, "ab\xc3\xa9");
    SAME(n, 4);
    n = dw_say(out, 1, "en", "{x}", &value, 1);
    SAME(n, 0);
}

TEST(a_sentence_goes_into_an_arena, LIMIT, "say.h")
{
    unsigned char block[64];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    SAME_TEXT(dw_say_in(&arena, "es", "hours", NULL, 0), "horas");
    while (dw_arena_take(&arena, 16)) {
    }
    CHECK(dw_say_in(&arena, "es", "could not be read", NULL, 0) == NULL);
}
