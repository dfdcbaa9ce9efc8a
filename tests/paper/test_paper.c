#include "pdf.h"

#include "dw_test.h"

#include <stdlib.h>

/* The small shop with one batch of 80 balls of 14 oz: 22.68 kg of flour. */
static void plan_one(business *b)
{
    business_start(b);
    business_set_up(b);
    business_do(b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
}

TEST(the_batch_sheet_names_every_weight_its_rounding_and_the_sum_of_minors,
     DERIVED,
     "22.68 kg of flour at 60, 2, 2 and 0.3 %, scales of 20 g and 1 g, by hand")
{
    business b;
    pdf p;
    plan_one(&b);
    SAME(pdf_print(&b, "en", "{'what':'batch','id':1,'units':'metric'}", &p),
         DW_OK);
    CHECK(pdf_says(&p, "1 bag of 22.68 kg"));
    CHECK(pdf_says(&p, "13.60 kg")); /* 13.608 */
    CHECK(pdf_says(&p, "−8 g"));
    CHECK(pdf_says(&p, "454 g")); /* 453.6 */
    CHECK(pdf_says(&p, "+0.4 g"));
    CHECK(pdf_says(&p, "68 g"));  /* 68.04 */
    CHECK(pdf_says(&p, "522 g")); /* salt and yeast */
    CHECK(pdf_says(&p, "before the bowl"));
    CHECK(pdf_says(&p, "floor scale"));
    CHECK(pdf_says(&p, "Batch 1: White dough"));
    pdf_free(&p);
    business_stop(&b);
}

TEST(a_gram_scale_is_told_in_grams_in_a_shop_of_pounds, DERIVED,
     "22.68 kg of flour at 2 and 0.3 % on a scale of 1 g, by hand; the form "
     "that enters the sheet asks in the scale's unit")
{
    business b;
    pdf p;
    plan_one(&b);
    SAME(pdf_print(&b, "en", "{'what':'batch','id':1,'units':'us'}", &p),
         DW_OK);
    CHECK(pdf_says(&p, "454 g"));
    CHECK(pdf_says(&p, "+0.4 g"));
    CHECK(pdf_says(&p, "522 g"));
    CHECK(pdf_says(&p, "lb")); /* whole bags, and what adds up */
    pdf_free(&p);
    business_stop(&b);
}

TEST(the_batch_sheet_has_the_cautions_the_readings_and_the_dates, PRACTICE,
     "common practice, no source; mixing day is day 0")
{
    static const char *const sentences[] = {
        "Guard closed, hands and tools out of the bowl.",
        "keep hands and jug out of the bowl",
        "Power off before you reach in or scrape.",
        "Water poured",
        "rules of thumb about quality",
        "Food safety follows the local code.",
        "First step at",
        "Mixer stopped at",
        "First box",
        "Last box",
        "Stack closed at",
        "Core then",
        "Boxed by",
        "Closed by",
        "Fri 5 Jun day 0",
        "Sat 6 Jun day 1",
        "Balls",
        "+ scrap",
        "The last box is in the cold room",
        "something was forgotten or doubled",
        "Contains wheat.",
        "☐ driving",
        "Page 1 of 1",
        "Printed Fri 5 Jun, 08:00"};
    business b;
    pdf p;
    plan_one(&b);
    SAME(pdf_print(&b, "en", "{'what':'batch','id':1}", &p), DW_OK);
    for (size_t i = 0; i < DW_COUNT(sentences); i++)
        if (!pdf_says(&p, sentences[i]))
            dw_test_fail(__FILE__, __LINE__, "not said: %s", sentences[i]);
    pdf_free(&p);
    business_stop(&b);
}

/* Two sizes of ball from a dough with seven ingredients, the oil in late, the
 * yeast wetted beforehand; `steps_at` of the templates, `stages` of a formula.
 */
static void plan_delayed_oil(business *b, const char *steps_at,
                             const char *stages)
{
    business_start(b);
    business_set_up(b);
    business_do(b, "procedure.templates", "{}");
    char *steps = json_dumps(business_at(b, steps_at), 0);
    business_do(b, "recipe.save",
                "{'name':'Slow dough','dough_goal_c':26.5,'formula':{'lines':["
                "{'material':'strong flour','kind':'flour','percent':100},"
                "{'material':'water','kind':'water','percent':62},"
                "{'material':'salt','kind':'salt','percent':1.9},"
                "{'material':'cane sugar','kind':'sugar','percent':0.6},"
                "{'material':'dry malt','kind':'malt','percent':0.2},"
                "{'material':'sunflower oil','kind':'fat','percent':1.6},"
                "{'material':'active dry yeast','kind':'yeast_active_dry',"
                "'percent':0.42}],'stages':%s},'steps':%s}",
                stages, steps ? steps : "[]");
    free(steps);
    business_do(b, "product.save",
                "{'name':'Slice 21 oz','position':3,'formula_id':2,"
                "'box_type_id':1,'ball_kg':0.595,'balls_per_box':5}");
    business_do(b, "product.save",
                "{'name':'Round slice 14 oz','position':4,'formula_id':2,"
                "'box_type_id':1,'ball_kg':0.397,'balls_per_box':8}");
    business_do(b, "batch.plan",
                "{'pieces':[{'product_id':3,'balls':20},"
                "{'product_id':4,'balls':17}]}");
}

static const char *const sizes_and_units[] = {
    "'size':'a4','units':'metric'", "'size':'a4','units':'us'",
    "'size':'letter','units':'metric'", "'size':'letter','units':'us'"};

/* The most pages its sheet takes on either paper in either language. */
static int most_pages(business *b)
{
    int most = 0;
    for (size_t i = 0; i < DW_COUNT(sizes_and_units) * 2; i++) {
        pdf p;
        char body[120];
        snprintf(body, sizeof body, "{'what':'batch','id':1,%s}",
                 sizes_and_units[i / 2]);
        SAME(pdf_print(b, i % 2 ? "es" : "en", body, &p), DW_OK);
        most = p.pages > most ? p.pages : most;
        pdf_free(&p);
    }
    return most;
}

TEST(an_ordinary_batch_is_one_page_on_either_paper_in_either_language, LIMIT,
     "seven ingredients, the oil late, two sizes of ball")
{
    business b;
    plan_delayed_oil(&b, "templates.0.steps", "[]");
    SAME(most_pages(&b), 1);
    business_stop(&b);
}

TEST(a_batch_with_a_preferment_is_two_pages_at_most, LIMIT,
     "the same with a fifth of its flour in a poolish")
{
    business b;
    plan_delayed_oil(
        &b, "templates.3.steps",
        "[{'name':'Evening poolish','kind':'poolish','flour_percent':20,"
        "'lines':[{'material':'strong flour','kind':'flour',"
        "'percent':100},{'material':'water','kind':'water','percent':100},"
        "{'material':'active dry yeast','kind':'yeast_active_dry',"
        "'percent':0.1}]}]");
    CHECK(most_pages(&b) <= 2);
    business_stop(&b);
}

TEST(a_batch_sheet_in_spanish_has_no_english_sentence, LIMIT, "the catalogue")
{
    static const char *const english[] = {
        "Weigh",   "Guard",  "Mix on", "Page",           "Close the",
        "Printed", "Friday", "Until",  "before the bowl"};
    business b;
    pdf p;
    plan_one(&b);
    SAME(pdf_print(&b, "es", "{'what':'batch','id':1}", &p), DW_OK);
    CHECK(pdf_says(&p, "Viernes 5 de junio de 2026"));
    CHECK(pdf_says(&p, "Página 1 de"));
    for (size_t i = 0; i < DW_COUNT(english); i++)
        if (pdf_says(&p, english[i]))
            dw_test_fail(__FILE__, __LINE__, "English: %s", english[i]);
    pdf_free(&p);
    business_stop(&b);
}

TEST(a_paper_is_the_same_bytes_while_the_clock_stands, LIMIT,
     "printed twice, and a minute later")
{
    business b;
    pdf first, second, later;
    plan_one(&b);
    const char *body = "{'what':'batch','id':1}";
    SAME(pdf_print(&b, "en", body, &first), DW_OK);
    SAME(pdf_print(&b, "en", body, &second), DW_OK);
    SAME(first.count, second.count);
    CHECK(memcmp(first.bytes, second.bytes, first.count) == 0);
    business_wait(&b, 1);
    SAME(pdf_print(&b, "en", body, &later), DW_OK);
    CHECK(later.count != first.count ||
          memcmp(first.bytes, later.bytes, first.count) != 0);
    pdf_free(&first);
    pdf_free(&second);
    pdf_free(&later);
    business_stop(&b);
}

TEST(ten_boxes_are_ten_labels_with_dates_and_allergens, DERIVED,
     "80 balls, 8 in a box; days 0, 1 and 3 of 5 June 2026; by hand")
{
    business b;
    pdf p;
    plan_one(&b);
    business_do(&b, "batch.get", "{'id':1}");
    int boxes = (int)business_number(&b, "pieces.0.boxes");
    CHECK(boxes >= 10); /* what was ordered, and full boxes beyond it */
    SAME(pdf_print(&b, "en", "{'what':'labels','id':1,'units':'metric'}", &p),
         DW_OK);
    SAME(p.pages, boxes);
    NEAR(p.width, 100 / 25.4 * 72, 0.1);
    NEAR(p.height, 60 / 25.4 * 72, 0.1);
    CHECK(pdf_says(&p, "8 × 397 g = 3.175 kg"));
    CHECK(pdf_says(&p, "Made Fri 5 Jun day 0"));
    CHECK(pdf_says(&p, "Ready Sat 6 Jun day 1"));
    CHECK(pdf_says(&p, "Use by Mon 8 Jun day 3"));
    CHECK(pdf_says(&p, "Contains wheat."));
    CHECK(pdf_says(&p, "Batch 1. Mixing day is day 0."));
    pdf_free(&p);
    SAME(pdf_print(&b, "es", "{'what':'labels','id':1,'units':'metric'}", &p),
         DW_OK);
    CHECK(pdf_says(&p, "8 × 397 g = 3.175 kg"));
    CHECK(pdf_says(&p, "Contiene trigo."));
    pdf_free(&p);
    SAME(pdf_print(&b, "en", "{'what':'labels','id':1,'size':'a4'}", &p),
         DW_OK);
    SAME(p.pages, (boxes + 9) / 10);
    pdf_free(&p);
    business_stop(&b);
}

TEST(ten_pounds_of_flour_in_ounces, DERIVED, "160 oz times the percents")
{
    business b;
    pdf p;
    plan_one(&b);
    SAME(pdf_print(&b, "en",
                   "{'what':'scale','id':1,'units':'us',"
                   "'target':{'flour_kg':4.5359237}}",
                   &p),
         DW_OK);
    CHECK(pdf_says(&p, "10 lb of flour make 16 lb 6.9 oz of dough."));
    CHECK(pdf_says(&p, "Water 60 % 6 lb"));
    CHECK(pdf_says(&p, "3.2 oz")); /* salt */
    CHECK(pdf_says(&p, "0.3 % 0.48 oz"));
    NEAR(p.width, 612, 0.01); /* letter */
    pdf_free(&p);
    business_stop(&b);
}

TEST(the_run_the_day_and_the_handover_tell_the_open_batch, LIMIT,
     "planned at 08:00 in New York")
{
    business b;
    pdf p;
    plan_one(&b);
    SAME(pdf_print(&b, "en", "{'what':'run'}", &p), DW_OK);
    CHECK(pdf_says(&p, "1 White dough"));
    CHECK(pdf_says(&p, "08:00"));
    CHECK(pdf_says(&p, "The last person leaves at 22:00."));
    CHECK(!pdf_says(&p, "would close too late"));
    pdf_free(&p);
    SAME(pdf_print(&b, "en", "{'what':'day'}", &p), DW_OK);
    CHECK(pdf_says(&p, "Mix batch 1, White dough"));
    CHECK(pdf_says(&p, "Counted"));
    pdf_free(&p);
    SAME(pdf_print(&b, "en", "{'what':'handover'}", &p), DW_OK);
    CHECK(pdf_says(&p, "Batch 1 Fri 5 Jun planned"));
    CHECK(pdf_says(&p, "Batch 1: 92 × 14 oz ball"));
    pdf_free(&p);
    SAME(pdf_print(&b, "en", "{'what':'run','day':20000}", &p), DW_OK);
    CHECK(pdf_says(&p, "No batch is planned this day."));
    pdf_free(&p);
    business_stop(&b);
}

TEST(what_a_scale_does_not_take_at_once_is_told_in_loads, DERIVED,
     "13.608 kg of water, the largest scale takes 8 kg: 2 loads of 6.80 kg; "
     "by hand")
{
    business b;
    pdf p;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "scale.save",
                "{'id':1,'name':'floor scale','capacity_kg':8,"
                "'division_kg':0.02}");
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    SAME(pdf_print(&b, "en", "{'what':'batch','id':1,'units':'metric'}", &p),
         DW_OK);
    CHECK(pdf_says(&p, "2 × 6.80 kg"));
    pdf_free(&p);
    business_stop(&b);
}

TEST(a_late_stack_is_told_with_what_to_do_instead, PRACTICE,
     "mixed an hour before the last person leaves; closing takes two hours")
{
    business b;
    pdf p;
    business_start(&b);
    business_set_up(&b);
    business_wait(&b, 13 * 60); /* 21:00 */
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    SAME(pdf_print(&b, "en", "{'what':'run'}", &p), DW_OK);
    CHECK(pdf_says(&p, "after the last one left"));
    CHECK(pdf_says(&p, "Before you mix: a stack would close too late"));
    CHECK(pdf_says(&p, "Start earlier. First mix at"));
    pdf_free(&p);
    business_stop(&b);
}

TEST(what_cannot_be_printed_is_refused_with_its_field, LIMIT, "bad input")
{
    business b;
    pdf p;
    plan_one(&b);
    SAME(pdf_print(&b, "en", "{'what':'batch'}", &p), DW_E_MISSING);
    SAME_TEXT(b.err.field, "id");
    SAME(pdf_print(&b, "en", "{'what':'batch','id':99}", &p), DW_E_NOT_FOUND);
    SAME(pdf_print(&b, "en", "{'what':'poster'}", &p), DW_E_CHOICE);
    SAME_TEXT(b.err.field, "what");
    SAME(pdf_print(&b, "en", "{'what':'day','size':'label'}", &p), DW_E_CHOICE);
    SAME_TEXT(b.err.field, "size");
    SAME(pdf_print(&b, "en", "{'what':'scale','id':1,'target':{}}", &p),
         DW_E_MISSING);
    business_stop(&b);
}

/* Long names, no space in the longest word. */
static void plan_long(business *b)
{
    business_start(b);
    business_set_up(b);
    business_do(b, "procedure.templates", "{}");
    char *steps = json_dumps(business_at(b, "templates.3.steps"), 0);
    business_do(
        b, "recipe.save",
        "{'name':'Masa integral extraordinariamente fermentada del obrador',"
        "'dough_goal_c':25,'formula':{'lines':["
        "{'material':'harinapanificabledetrigoduroextraordinariamentelarga',"
        "'kind':'flour','percent':100},"
        "{'material':'agua','kind':'water','percent':60},"
        "{'material':'sal marina de las salinas del norte de la provincia',"
        "'kind':'salt','percent':2},"
        "{'material':'aceite','kind':'fat','percent':2},"
        "{'material':'levadura','kind':'yeast_instant','percent':0.3}],"
        "'stages':[{'name':'Esponja nocturna larguísima de la casa',"
        "'kind':'poolish','flour_percent':20,'lines':["
        "{'material':'harinapanificabledetrigoduroextraordinariamentelarga',"
        "'kind':'flour','percent':100},"
        "{'material':'agua','kind':'water','percent':100},"
        "{'material':'levadura','kind':'yeast_instant','percent':0.1}]}]},"
        "'steps':%s}",
        steps ? steps : "[]");
    free(steps);
    business_do(b, "product.save",
                "{'name':'Boladeochoonzasparalapizzamediterránea grande',"
                "'position':3,'formula_id':2,'box_type_id':1,'ball_kg':0.3,"
                "'balls_per_box':9}");
    business_do(b, "batch.plan",
                "{'pieces':[{'product_id':3,'balls':70},"
                "{'product_id':1,'balls':40}]}");
}

TEST(the_minors_on_the_scale_are_the_doughs_own, DERIVED,
     "22.68 kg of flour: salt 453.6 g, yeast 0.3 less 20 percent of 0.1 "
     "percent: 63.5 g; the sponge's went in the night before; by hand")
{
    business b;
    pdf p;
    plan_long(&b);
    SAME(pdf_print(&b, "en", "{'what':'batch','id':1,'units':'metric'}", &p),
         DW_OK);
    CHECK(pdf_says(&p, "518 g"));
    CHECK(pdf_says(&p, "For the dough"));
    pdf_free(&p);
    business_stop(&b);
}

TEST(no_word_leaves_its_page_or_lies_on_another, LIMIT,
     "every paper, both languages, both sizes and units, long names")
{
    static const char *const what[] = {"'what':'batch','id':1",
                                       "'what':'batch','id':2",
                                       "'what':'procedure','id':2",
                                       "'what':'scale','id':2",
                                       "'what':'run'",
                                       "'what':'day'",
                                       "'what':'handover'",
                                       "'what':'labels','id':1",
                                       "'what':'labels','id':2"};
    static const char *const ways[] = {"'size':'a4','units':'metric'",
                                       "'size':'letter','units':'us'"};
    business b;
    plan_long(&b);
    for (size_t i = 0; i < DW_COUNT(what) * 4; i++) {
        pdf p;
        char body[160];
        snprintf(body, sizeof body, "{%s,%s}", what[i / 4], ways[i / 2 % 2]);
        SAME(pdf_print(&b, i % 2 ? "es" : "en", body, &p), DW_OK);
        CHECK(p.words_count > 10);
        pdf_check_layout(&p, body);
        pdf_free(&p);
    }
    business_stop(&b);
}

TEST(the_pull_sheet_and_the_loading_lists_are_enough_to_work_by, LIMIT,
     "what a person needs beside the boxes")
{
    business b;
    pdf p;
    plan_one(&b);
    business_do(&b, "build_to.replace",
                "{'rows':[{'product_id':1,'weekday':4,'balls':60}]}");
    SAME(pdf_print(&b, "en", "{'what':'pull'}", &p), DW_OK);
    CHECK(pdf_says(&p, "About 60 balls wanted."));
    CHECK(pdf_says(&p, "The cold room runs out"));
    CHECK(pdf_says(&p, "fill up to the number with whole boxes"));
    pdf_free(&p);
    business_do(&b, "outlet.save", "{'name':'Mill'}");
    business_do(&b, "drop_day.replace",
                "{'rows':[{'outlet_id':1,'weekday':4,'at_minute':840}]}");
    business_do(&b, "order.save",
                "{'outlet_id':1,'day':20609,'lines':[{'product_id':1,"
                "'balls':12}],'note':'back door'}");
    SAME(pdf_print(&b, "en", "{'what':'drops'}", &p), DW_OK);
    CHECK(pdf_says(&p, "Drop at 14:00."));
    CHECK(pdf_says(&p, "14 oz ball: short of 12 of 12 balls."));
    CHECK(pdf_says(&p, "back door"));
    CHECK(pdf_says(&p, "Ordered after the cut-off."));
    CHECK(pdf_says(&p, "Dough at the door"));
    pdf_free(&p);
    business_stop(&b);
}
