#include "../ops/traced.h"
#include "dw_test.h"
#include "pdf.h"

#include <math.h>
#include <string.h>

static void check_says(const pdf *p, const char *const *sentences, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!pdf_says(p, sentences[i]))
            dw_test_fail(__FILE__, __LINE__, "not said: %s", sentences[i]);
}

/* Do two words stand in one row of a table? */
static bool in_one_row(const pdf *p, const char *a, const char *b)
{
    for (size_t i = 0; i < p->words_count; i++)
        for (size_t j = 0; j < p->words_count; j++)
            if (p->words[i].page == p->words[j].page &&
                fabs(p->words[i].top - p->words[j].top) < 3 &&
                strcmp(p->words[i].text, a) == 0 &&
                strcmp(p->words[j].text, b) == 0)
                return true;
    return false;
}

TEST(the_report_on_a_lot_names_its_batches_scrap_stacks_and_shops, DERIVED,
     "by hand: 10 kg of lot A, of 10 bags of 22.68 kg, are in batch 1; its "
     "scrap is in batch 3; Mill got 1 and Pond 3; batch 2 is of lot B")
{
    static const char *const sentences[] = {
        "Stone mill",
        "own van",
        "226.8 kg",
        "White dough 1",
        "weighed in",
        "Old way 3",
        "carried on with old dough B1",
        "old dough B1, kept",
        "Mill",
        "Pond",
        "14 oz ball: batch 1",
        "old way ball: batch 3",
        "Of the lot itself 216.8 kg should be left.",
        "for the law of your place",
        "Begun Fri 5 Jun, 08:00, all found at 08:12: 12 min. label hard",
        "Printed Fri 5 Jun, 08:12"};
    business b;
    pdf p;
    traced_start(&b);
    traced_ship(&b);
    business_do(&b, "recall.start", "{'lot_id':1}");
    business_wait(&b, 12);
    business_do(&b, "recall.stop", "{'id':1,'note':'label hard to read'}");
    SAME(pdf_print(&b, "en", "{'what':'recall','id':1,'units':'metric'}", &p),
         DW_OK);
    check_says(&p, sentences, DW_COUNT(sentences));
    CHECK(in_one_row(&p, "Mill", "14") && in_one_row(&p, "Mill", "40"));
    CHECK(in_one_row(&p, "Pond", "way") && in_one_row(&p, "Pond", "40"));
    CHECK(!pdf_says(&p, "White dough 2"));
    pdf_free(&p);
    business_stop(&b);
}

static double top_of(const pdf *p, const char *word)
{
    for (size_t i = 0; i < p->words_count; i++)
        if (strcmp(p->words[i].text, word) == 0)
            return p->words[i].top;
    return (double)NAN;
}

TEST(stacks_that_are_still_here_stand_above_those_that_are_gone, PRACTICE,
     "common practice, no source: what is here is set aside first")
{
    business b;
    pdf p;
    traced_start(&b);
    business_do(&b, "stack.move", "{'stack_id':1,'kind':'use','balls':40}");
    SAME(pdf_print(&b, "en", "{'what':'recall','id':1}", &p), DW_OK);
    /* "old way ball" of batch 3 is here, "14 oz ball" of batch 1 is gone */
    CHECK(top_of(&p, "way") < top_of(&p, "14"));
    pdf_free(&p);
    business_stop(&b);
}

TEST(a_lot_that_went_nowhere_says_so, LIMIT, "no batch, no drop, no drill")
{
    static const char *const sentences[] = {
        "In no batch yet.", "No drop with any of it went out.",
        "is left is not known: look.", "a weight was not written down"};
    business b;
    pdf p;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "lot.receive", "{'material_id':1,'code':'Q9'}");
    SAME(pdf_print(&b, "en", "{'what':'recall','id':1}", &p), DW_OK);
    check_says(&p, sentences, DW_COUNT(sentences));
    CHECK(!pdf_says(&p, "Drills on this lot"));
    pdf_free(&p);
    SAME(pdf_print(&b, "en", "{'what':'recall','id':2}", &p), DW_E_NOT_FOUND);
    SAME_TEXT(b.err.field, "id");
    SAME(pdf_print(&b, "en", "{'what':'recall'}", &p), DW_E_MISSING);
    business_stop(&b);
}

TEST(no_word_of_the_report_leaves_its_page_or_lies_on_another, LIMIT,
     "both languages, both sizes and units")
{
    static const char *const ways[] = {"'size':'a4','units':'metric'",
                                       "'size':'letter','units':'us'"};
    business b;
    traced_start(&b);
    traced_ship(&b);
    for (size_t i = 0; i < DW_COUNT(ways) * 2; i++) {
        pdf p;
        char body[120];
        snprintf(body, sizeof body, "{'what':'recall','id':1,%s}", ways[i / 2]);
        SAME(pdf_print(&b, i % 2 ? "es" : "en", body, &p), DW_OK);
        pdf_check_layout(&p, body);
        pdf_free(&p);
    }
    business_stop(&b);
}
