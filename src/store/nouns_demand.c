#include "store/nouns.h"

enum { DAY_LAST = 84000 };

const char *const dw_sales_name_words[] = {"product", "outlet", NULL};

#define NOUN(table, type, about)                                               \
    const dw_shape dw_##table##_noun =                                         \
        DW_SHAPE(#table, type, table##_fields, about)

static const dw_field sale_hour_fields[] = {
    DW_F_ID(dw_sale_hour, id, "row"),
    DW_F_ID(dw_sale_hour, outlet_id, "where"),
    DW_F_ID(dw_sale_hour, product_id, "of what"),
    DW_F_WHOLE(dw_sale_hour, day, "d", 0, DAY_LAST, "business day"),
    DW_F_WHOLE(dw_sale_hour, hour, "h", 0, 23, "of the shop's clock"),
    DW_F_WHOLE(dw_sale_hour, balls, "", 0, 100000, "how many"),
};
NOUN(sale_hour, dw_sale_hour, "balls used in an hour");

static const dw_field demand_mark_fields[] = {
    DW_F_ID(dw_demand_mark, id, "row"),
    DW_F_ID(dw_demand_mark, outlet_id, "where; 0: the only outlet, or none"),
    DW_F_ID(dw_demand_mark, product_id, "of what"),
    DW_F_WHOLE(dw_demand_mark, day, "d", 0, DAY_LAST, "business day"),
    DW_F_YES(dw_demand_mark, sold_out, false,
             "more was wanted, nobody knows how much"),
    DW_F_WHOLE_PRESET(dw_demand_mark, lost_balls, "", 0, 100000, 0,
                      "more was wanted, counted"),
    DW_F_TEXT_OPT(dw_demand_mark, note, 200, "in words"),
    DW_F_ID(dw_demand_mark, person_id, "by whom"),
};
NOUN(demand_mark, dw_demand_mark, "what somebody knows of a day's demand");

static const dw_field demand_event_fields[] = {
    DW_F_ID(dw_demand_event, id, "which event"),
    DW_F_ONE(dw_demand_event, event, &dw_event_shape, "when, and what of it"),
};
NOUN(demand_event, dw_demand_event, "a day that is unlike its weekday");

static const dw_field demand_override_fields[] = {
    DW_F_ID(dw_demand_override, id, "which override"),
    DW_F_ID(dw_demand_override, outlet_id, "0: all outlets together"),
    DW_F_ID(dw_demand_override, product_id, "of what"),
    DW_F_ONE(dw_demand_override, change, &dw_override_shape,
             "from when to when, what instead, and why"),
    DW_F_ID(dw_demand_override, person_id, "by whom"),
    DW_F_MOMENT(dw_demand_override, made_ms, "when"),
};
NOUN(demand_override, dw_demand_override, "somebody knows better");

static const dw_field product_like_fields[] = {
    DW_F_ID(dw_product_like, id, "row"),
    DW_F_ID(dw_product_like, product_id, "the new product"),
    DW_F_ID(dw_product_like, like_id, "one it is like; 0: none"),
};
NOUN(product_like, dw_product_like, "what a new product is like");

static const dw_field sales_name_fields[] = {
    DW_F_ID(dw_sales_name, id, "row"),
    DW_F_CHOICE(dw_sales_name, kind, dw_sales_name_words, "of what"),
    DW_F_TEXT(dw_sales_name, written, 120, "as the file has it"),
    DW_F_ID(dw_sales_name, product_id, "0: not known"),
    DW_F_ID(dw_sales_name, outlet_id, "0: not known"),
    DW_F_WHOLE_PRESET(dw_sales_name, balls_each, "", 1, 100, 1,
                      "balls in one of what the file counts"),
    DW_F_YES(dw_sales_name, passed_over, false, "not made of our dough"),
};
NOUN(sales_name, dw_sales_name, "a name in a register's file");
