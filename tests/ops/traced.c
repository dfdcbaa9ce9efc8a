#include "traced.h"

#include <stdio.h>
#include <string.h>

/* The clock starts on Friday 2026-06-05, 08:00 in New York, day 20609. */
#define FRIDAY 20609
#define HOUR_MS 3600000LL
#define MINUTE_MS 60000LL

const char *traced_at(business *b, const char *list, const char *key,
                      const char *text, const char *member, char path[80])
{
    for (size_t i = 0; i < business_size(b, list); i++) {
        snprintf(path, 80, "%s.%zu.%s", list, i, key);
        const char *found = business_text(b, path);
        if (!found || strcmp(found, text) != 0)
            continue;
        snprintf(path, 80, "%s.%zu.%s", list, i, member);
        return path;
    }
    path[0] = '\0';
    return path;
}

/* Plan 40 balls of a product and enter the batch as made: what it weighed is
 * what was planned, but for flour and old dough, each `kg` of a lot. */
typedef struct made {
    int number, product;
    double flour_kg, old_dough_kg;
    int flour_lot, old_dough_lot;
    double scrap_kg;
} made;

long traced_weighing_of(business *b, const char *material)
{
    char path[80];
    return (long)business_number(b,
                                 traced_at(b, "weighings", "weighing.material",
                                           material, "weighing.id", path));
}

static void make_batch(business *b, const made *one)
{
    long long stop = b->now_ms - 4 * HOUR_MS;
    char weighed[400];
    business_do(b, "batch.plan", "{'pieces':[{'product_id':%d,'balls':40}]}",
                one->product);
    business_do(b, "batch.get", "{'id':%d}", one->number);
    long piece = (long)business_number(b, "pieces.0.piece.id");
    int n = snprintf(weighed, sizeof weighed,
                     "{'weighing_id':%ld,'weighed_kg':%.9g,'lot_id':%d}",
                     traced_weighing_of(b, "bread flour"), one->flour_kg,
                     one->flour_lot);
    if (one->old_dough_kg > 0)
        snprintf(weighed + n, sizeof weighed - (size_t)n,
                 ",{'weighing_id':%ld,'weighed_kg':%.9g,'lot_id':%d}",
                 traced_weighing_of(b, "old dough"), one->old_dough_kg,
                 one->old_dough_lot);
    business_do(b, "batch.enter",
                "{'batch_id':%d,'room_c':23,'dough_c':25,'started_ms':%lld,"
                "'weighings':[%s],"
                "'stopped_ms':%lld,'pieces':[{'id':%ld,'balls_made':40}],"
                "'first_box_ms':%lld,'last_box_ms':%lld,'closed_ms':%lld,"
                "'scrap_kg':%.9g}",
                one->number, stop - 14 * MINUTE_MS, weighed, stop, piece,
                stop + 20 * MINUTE_MS, stop + 20 * MINUTE_MS,
                stop + 170 * MINUTE_MS, one->scrap_kg);
}

void traced_start(business *b)
{
    business_start(b);
    business_set_up(b);
    business_do(b, "material.save", "{'name':'old dough','kind':'dough'}");
    business_do(b, "recipe.save",
                "{'name':'Old way','dough_goal_c':25,'formula':{'lines':["
                "{'material':'bread flour','kind':'flour','percent':100},"
                "{'material':'water','kind':'water','percent':60},"
                "{'material':'salt','kind':'salt','percent':2},"
                "{'material':'old dough','kind':'dough','percent':5}]}}");
    business_do(b, "product.save",
                "{'name':'old way ball','position':3,'formula_id':2,"
                "'box_type_id':1,'ball_kg':0.3969,'balls_per_box':8}");
    business_do(b, "outlet.save", "{'name':'Mill'}");
    business_do(b, "outlet.save", "{'name':'Pond'}");
    business_wait(b, -24 * 60);
    business_do(b, "lot.receive",
                "{'material_id':1,'code':'A','supplier':'Stone mill',"
                "'packs':10,'received_c':21,'carrier':'own van'}");
    business_do(b, "lot.receive",
                "{'material_id':1,'code':'B','supplier':'Stone mill',"
                "'kg':100}");
    make_batch(b, &(made){1, 1, 10, 0, 1, 0, 0.6});
    make_batch(b, &(made){2, 1, 9.8, 0, 2, 0, 0});
    business_do(b, "lot.receive",
                "{'material_id':2,'source_batch_id':1,'kg':0.5}");
    make_batch(b, &(made){3, 3, 9.7, 0.5, 2, 3, 0});
}

void traced_ship(business *b)
{
    business_wait(b, 24 * 60);
    business_do(b, "drop_day.replace",
                "{'rows':[{'outlet_id':1,'weekday':4,'at_minute':840,"
                "'cutoff_minutes':240},{'outlet_id':2,'weekday':4,"
                "'at_minute':840,'cutoff_minutes':240}]}");
    business_do(b, "order.save",
                "{'outlet_id':1,'day':%d,'lines':[{'product_id':1,"
                "'balls':40}]}",
                FRIDAY);
    business_do(b, "order.save",
                "{'outlet_id':2,'day':%d,'lines':[{'product_id':3,"
                "'balls':40}]}",
                FRIDAY);
    business_do(b, "drop.load", "{'outlet_id':1}");
    business_do(b, "drop.load", "{'outlet_id':2}");
    business_do(b, "drop.arrive", "{'drop_id':2}");
}
