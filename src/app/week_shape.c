#include "app/week.h"

#define ID_MOST 9007199254740991.0

static const dw_field ask_fields[] = {
    DW_F_WHOLE_PRESET(dw_week_ask, first_day, "d", 0, 84000, 0, "0: today"),
    DW_F_WHOLE_PRESET(dw_week_ask, days, "d", 1, DW_WEEK_DAYS, 14, "to plan"),
    DW_F_REAL_PRESET(dw_week_ask, dough_cost_per_kg, "minor/kg", 0, 1e9, 100,
                     "what a ball is worth that is thrown away"),
    DW_F_REAL_PRESET(dw_week_ask, labour_cost_per_h, "minor/h", 0, 1e9, 1800,
                     "of one person"),
    DW_F_REAL_PRESET(dw_week_ask, start_cost, "minor", 0, 1e9, 300,
                     "start-up and cleaning of a batch, beside its labour"),
    DW_F_REAL_PRESET(dw_week_ask, batch_minutes, "min", 1, 600, 30,
                     "of mixer and dough maker for one batch"),
    DW_F_REAL_PRESET(dw_week_ask, close_minutes, "min", 0, 1440, 120,
                     "last box to closed stack"),
    DW_F_REAL_PRESET(dw_week_ask, seconds, "s", 0, 300, 0,
                     "of the solver at most; 0: without it"),
    DW_F_WHOLE_PRESET(dw_week_ask, effort, "", 0, 1000000, 12000,
                      "exchanges tried"),
    DW_F_YES(dw_week_ask, worths, false, "say what more of each limit saves"),
    DW_F_MANY_OPT(dw_week_ask, batches, &dw_week_batch_shape, DW_WEEK_BATCHES,
                  "a plan to be looked at; what is kept already is added"),
    DW_F_YES(dw_week_ask, only_these, false, "nothing is added to them"),
    DW_F_MANY_OPT(dw_week_ask, before, &dw_week_batch_shape, DW_WEEK_BATCHES,
                  "the plan that people know"),
    DW_F_REAL_PRESET(dw_week_ask, change_cost, "minor", 0, 1e9, 500,
                     "of each batch more or less than before"),
};
const dw_shape dw_week_ask_shape =
    DW_SHAPE("week_ask", dw_week_ask, ask_fields, "the shop's next days");

static const dw_field product_fields[] = {
    DW_F_ID(dw_week_product_row, product_id, "which"),
    DW_F_ID(dw_week_product_row, formula_id, "of which formula"),
    DW_F_TEXT(dw_week_product_row, name, 120, "what people call it"),
    DW_F_YES(dw_week_product_row, known, false, "there is a forecast"),
};
static const dw_shape product_shape =
    DW_SHAPE("week_product_row", dw_week_product_row, product_fields,
             "a product of the plan");

static const dw_field day_fields[] = {
    DW_F_WHOLE(dw_week_room_day, day, "d", 0, ID_MOST, "civil day"),
    DW_F_YES(dw_week_room_day, open, true, "somebody is there"),
    DW_F_REAL(dw_week_room_day, hands_minutes, "min", 0, 1e6,
              "of all people; 0: not limited"),
    DW_F_REAL(dw_week_room_day, window_minutes, "min", 0, 1e6,
              "first in to last out; 0: not limited"),
};
static const dw_shape day_shape = DW_SHAPE("week_room_day", dw_week_room_day,
                                           day_fields, "a day of the plan");

static const dw_field shop_fields[] = {
    DW_F_WHOLE(dw_week_shop, first_day, "d", 0, 84000, "day 0 of the plan"),
    DW_F_REAL(dw_week_shop, lost_to_thrown, "", 0, 1e9,
              "a lost sale costs so many balls, by the shop"),
    DW_F_YES(dw_week_shop, has_boxes, false, "the shop says how many"),
    DW_F_YES(dw_week_shop, has_slots, false, "the shop says how many"),
    DW_F_REAL(dw_week_shop, boxes, "", 0, 1e9, "owned"),
    DW_F_REAL(dw_week_shop, slots, "", 0, 1e9, "of the cold rooms"),
    DW_F_MANY(dw_week_shop, products, &product_shape, 0, DW_WEEK_PRODUCTS,
              "as in plan.products"),
    DW_F_MANY(dw_week_shop, days, &day_shape, 0, DW_WEEK_DAYS,
              "as in plan.days"),
    DW_F_TEXT_OPT(dw_week_shop, currency, 8, "of the costs"),
    DW_F_ONE(dw_week_shop, plan, &dw_week_reply_shape, "the plan"),
};
const dw_shape dw_week_shop_shape = DW_SHAPE(
    "week_shop", dw_week_shop, shop_fields, "the plan of the shop's next days");
