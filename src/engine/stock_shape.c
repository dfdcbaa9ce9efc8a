/* The shapes of stock.h. */
#include "doughwright/stock.h"

#define MOST_COST 1e12

const char *const dw_wanted_words[] = {"normal", "poisson", "lognormal",
                                       "probabilities", NULL};

#define F_PROBABILITIES(type, about)                                           \
    {                                                                          \
        "probabilities", DW_REALS, false, "", 0, 1, 0,                         \
            offsetof(type, probabilities), DW_NOWHERE,                         \
            offsetof(type, probabilities_count), NULL, NULL, about             \
    }

static const dw_field wanted_fields[] = {
    DW_F_CHOICE(dw_wanted, kind, dw_wanted_words, "its distribution"),
    DW_F_REAL_OPT(dw_wanted, mean, "", -12, 1e5,
                  "balls; of the logarithm when lognormal"),
    DW_F_REAL_OPT(dw_wanted, sd, "", 0, 1e5,
                  "standard deviation; of the logarithm when lognormal"),
    F_PROBABILITIES(dw_wanted, "of 0, 1, 2... balls; they sum to 1"),
};
const dw_shape dw_wanted_shape =
    DW_SHAPE("wanted", dw_wanted, wanted_fields, "a day's demand");

static const dw_field order_ask_fields[] = {
    DW_F_ONE(dw_order_ask, wanted, &dw_wanted_shape, "what may be wanted"),
    DW_F_REAL(dw_order_ask, over_cost, "", 0, MOST_COST, "of a ball left over"),
    DW_F_REAL(dw_order_ask, short_cost, "", 0, MOST_COST, "of a ball short"),
    DW_F_REAL_OPT(dw_order_ask, balls, "", 0, 1e6,
                  "tell of so many, instead of the best"),
};
const dw_shape dw_order_ask_shape =
    DW_SHAPE("stock_order_ask", dw_order_ask, order_ask_fields,
             "how many to have for one day");

static const dw_field order_reply_fields[] = {
    DW_F_REAL(dw_order_reply, critical_ratio, "", 0, 1,
              "how sure to be that they are enough"),
    DW_F_REAL(dw_order_reply, balls, "", -1e7, 1e7, "to have"),
    DW_F_REAL(dw_order_reply, expected_cost, "", 0, 1e20, "over and short"),
    DW_F_REAL(dw_order_reply, expected_over, "", 0, 1e9, "balls left over"),
    DW_F_REAL(dw_order_reply, expected_short, "", 0, 1e9, "balls short"),
    DW_F_REAL(dw_order_reply, enough, "", 0, 1, "probability of enough"),
};
const dw_shape dw_order_reply_shape =
    DW_SHAPE("stock_order", dw_order_reply, order_reply_fields,
             "how many to have, and what that costs");

static const dw_field perishable_ask_fields[] = {
    DW_F_REALS(dw_perishable_ask, probabilities, "", 0, 1,
               "of 0, 1, 2... wanted in a day; they sum to 1"),
    DW_F_WHOLE(dw_perishable_ask, life_days, "d", 1, DW_PERISHABLE_LIFE_MOST,
               "days a ball can be used"),
    DW_F_WHOLE(dw_perishable_ask, days, "d", 1, DW_PERISHABLE_DAYS_MOST,
               "to go, this one included"),
    DW_F_WHOLES_OPT(dw_perishable_ask, stock, "", 0, 10000,
                    "balls by days left, 1 first"),
    DW_F_REAL(dw_perishable_ask, make_cost, "", 0, MOST_COST, "of a ball made"),
    DW_F_REAL(dw_perishable_ask, short_cost, "", 0, MOST_COST,
              "of a ball short"),
    DW_F_REAL_PRESET(dw_perishable_ask, hold_cost, "", 0, MOST_COST, 0,
                     "of a ball kept to the next day"),
    DW_F_REAL_PRESET(dw_perishable_ask, waste_cost, "", 0, MOST_COST, 0,
                     "of a ball past its last day, besides making it"),
};
const dw_shape dw_perishable_ask_shape =
    DW_SHAPE("stock_perishable_ask", dw_perishable_ask, perishable_ask_fields,
             "how many to make of what keeps for some days");

static const dw_field perishable_reply_fields[] = {
    DW_F_WHOLE(dw_perishable_reply, order, "", 0, 1e9, "balls to make today"),
    DW_F_REAL(dw_perishable_reply, expected_cost, "", 0, 1e20,
              "of all the days to go"),
};
const dw_shape dw_perishable_reply_shape =
    DW_SHAPE("stock_perishable", dw_perishable_reply, perishable_reply_fields,
             "how many to make today");

static const dw_field age_fields[] = {
    DW_F_WHOLE(dw_age, days_left, "d", 0, 1000, "today is 1; 0: past"),
    DW_F_WHOLE(dw_age, balls, "", 0, 1e9, "there in the morning"),
    DW_F_WHOLE_PRESET(dw_age, used, "", 0, 1e9, 0, "taken; answered"),
    DW_F_WHOLE_PRESET(dw_age, wasted, "", 0, 1e9, 0, "past at night; answered"),
    DW_F_WHOLE_PRESET(dw_age, left, "", 0, 1e9, 0, "for tomorrow; answered"),
};
static const dw_shape age_shape =
    DW_SHAPE("stock_days_left", dw_age, age_fields, "balls of one age");

static const dw_field use_ask_fields[] = {
    DW_F_MANY(dw_use_ask, ages, &age_shape, 0, 1000, "what is there"),
    DW_F_WHOLE(dw_use_ask, wanted, "", 0, 1e9, "balls in the day"),
};
const dw_shape dw_use_ask_shape = DW_SHAPE(
    "stock_use_ask", dw_use_ask, use_ask_fields, "a day takes its balls");

static const dw_field use_reply_fields[] = {
    DW_F_MANY(dw_use_reply, ages, &age_shape, 0, 1000, "as they are used"),
    DW_F_WHOLE(dw_use_reply, used, "", 0, 1e12, "in all"),
    DW_F_WHOLE(dw_use_reply, wasted, "", 0, 1e12, "past at night"),
    DW_F_WHOLE(dw_use_reply, left, "", 0, 1e12, "for tomorrow"),
    DW_F_WHOLE(dw_use_reply, unserved, "", 0, 1e12, "wanted and not there"),
};
const dw_shape dw_use_reply_shape =
    DW_SHAPE("stock_use", dw_use_reply, use_reply_fields,
             "what a day leaves, oldest used first");
