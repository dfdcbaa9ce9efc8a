#include "doughwright/week.h"

const char *const dw_week_change_words[] = {"added", "dropped", "more", "fewer",
                                            NULL};
const char *const dw_week_bound_words[] = {"simple", "solver", NULL};

#define MONEY_MOST 1e12
#define MINUTES_MOST 1e5

static const dw_field day_fields[] = {
    DW_F_YES(dw_week_day, locked, false, "nothing new is mixed"),
    DW_F_REAL_OPT(dw_week_day, hands_minutes, "min", 0, MINUTES_MOST,
                  "of all people together, for dough"),
    DW_F_REAL_PRESET(dw_week_day, overtime_minutes, "min", 0, MINUTES_MOST, 0,
                     "most beyond hands_minutes"),
    DW_F_REAL_OPT(dw_week_day, window_minutes, "min", 0, 2880,
                  "first mix to the last person's leaving"),
};
static const dw_shape day_shape =
    DW_SHAPE("week_day", dw_week_day, day_fields, "one day of the plan");

static const dw_field mixer_fields[] = {
    DW_F_TEXT(dw_week_mixer, name, 120, "which"),
    DW_F_REALS_OPT(dw_week_mixer, minutes, "min", 0, MINUTES_MOST,
                   "by day; none: not limited"),
};
static const dw_shape mixer_shape =
    DW_SHAPE("week_mixer", dw_week_mixer, mixer_fields, "a mixer");

static const dw_field bowl_fields[] = {
    DW_F_TEXT(dw_week_bowl, mixer, 120, "which"),
    DW_F_REAL_PRESET(dw_week_bowl, least_kg, "kg", 0, 1e5, 0,
                     "dough of one batch"),
    DW_F_REAL(dw_week_bowl, most_kg, "kg", 0.01, 1e5, "dough of one batch"),
    DW_F_REAL_PRESET(dw_week_bowl, minutes, "min", 0, 1440, 0,
                     "of the mixer for one batch"),
};
static const dw_shape bowl_shape =
    DW_SHAPE("week_bowl", dw_week_bowl, bowl_fields, "a formula in a mixer");

static const dw_field formula_fields[] = {
    DW_F_TEXT(dw_week_formula, name, 120, "which"),
    DW_F_MANY(dw_week_formula, bowls, &bowl_shape, 1, DW_WEEK_MIXERS,
              "mixers that may make it"),
    DW_F_REAL_PRESET(dw_week_formula, loss_percent, "percent", 0, 50, 0,
                     "dough that never becomes a ball"),
    DW_F_REALS_OPT(dw_week_formula, sizes_kg, "kg", 0.01, 1e5,
                   "dough of whole bags and the like; none: any"),
    DW_F_REAL_PRESET(dw_week_formula, start_cost, "minor", 0, MONEY_MOST, 0,
                     "start-up and cleaning of each batch"),
    DW_F_REALS_OPT(dw_week_formula, start_costs, "minor", 0, MONEY_MOST,
                   "by day, instead of start_cost"),
    DW_F_REAL_PRESET(dw_week_formula, odd_cost, "minor", 0, MONEY_MOST, 0,
                     "more for a batch of none of sizes_kg"),
    DW_F_REAL_PRESET(dw_week_formula, spare_cost_per_kg, "minor/kg", 0,
                     MONEY_MOST, 0, "dough of a whole size that is not used"),
    DW_F_REAL_PRESET(dw_week_formula, hands_minutes, "min", 0, 1440, 0,
                     "of people for one batch, balls not counted"),
    DW_F_REAL_PRESET(dw_week_formula, close_minutes, "min", 0, 2880, 0,
                     "last box to closed stack"),
    DW_F_WHOLE_PRESET(dw_week_formula, bench_balls, "", 0, 100000, 0,
                      "most balls from one batch; 0: not limited"),
};
static const dw_shape formula_shape =
    DW_SHAPE("week_formula", dw_week_formula, formula_fields, "a formula");

static const dw_field wanted_fields[] = {
    DW_F_ONE_OPT(dw_week_wanted, spread, &dw_spread_shape,
                 "mean and size of it"),
    DW_F_WHOLES_OPT(dw_week_wanted, counts, "", 0, DW_WEEK_BALLS,
                    "instead of a spread; one: exactly so many"),
    DW_F_REALS_OPT(dw_week_wanted, chances, "", 0, 1, "of the counts"),
};
static const dw_shape wanted_shape = DW_SHAPE(
    "week_wanted", dw_week_wanted, wanted_fields, "balls wanted on a day");

static const dw_field product_fields[] = {
    DW_F_TEXT(dw_week_product, name, 120, "whose balls"),
    DW_F_TEXT(dw_week_product, formula, 120, "of which formula"),
    DW_F_REAL(dw_week_product, ball_kg, "kg", 0.005, 100, "one ball"),
    DW_F_WHOLE_PRESET(dw_week_product, earliest_days, "d", 0, DW_WEEK_LIFE - 1,
                      1, "from making to first use"),
    DW_F_WHOLE_PRESET(dw_week_product, latest_days, "d", 0, DW_WEEK_LIFE - 1, 3,
                      "from making to last use"),
    DW_F_REAL_PRESET(dw_week_product, per_box, "", 0, 1000, 0,
                     "balls in a box; 0: takes none"),
    DW_F_REAL(dw_week_product, lost_cost, "minor", 0, MONEY_MOST,
              "of a ball that is wanted and not there"),
    DW_F_REAL_PRESET(dw_week_product, thrown_cost, "minor", 0, MONEY_MOST, 0,
                     "of a ball that is past"),
    DW_F_REAL_PRESET(dw_week_product, holding_cost, "minor", 0, MONEY_MOST, 0,
                     "of a ball for a night"),
    DW_F_REALS_OPT(dw_week_product, make_costs, "minor", 0, MONEY_MOST,
                   "of a ball, by day; none: 0"),
    DW_F_MANY(dw_week_product, wanted, &wanted_shape, 1, DW_WEEK_DAYS,
              "by day"),
};
static const dw_shape product_shape =
    DW_SHAPE("week_product", dw_week_product, product_fields, "balls to sell");

static const dw_field stock_fields[] = {
    DW_F_TEXT(dw_week_stock, product, 120, "whose balls"),
    DW_F_WHOLE(dw_week_stock, age_days, "d", 1, 365, "1: made yesterday"),
    DW_F_WHOLE(dw_week_stock, balls, "", 0, DW_WEEK_BALLS, "how many"),
};
static const dw_shape stock_shape =
    DW_SHAPE("week_stock", dw_week_stock, stock_fields, "balls that are there");

static const dw_field piece_fields[] = {
    DW_F_TEXT(dw_week_piece, product, 120, "whose balls"),
    DW_F_WHOLE(dw_week_piece, balls, "", 0, DW_WEEK_BALLS, "how many"),
};
static const dw_shape piece_shape =
    DW_SHAPE("week_piece", dw_week_piece, piece_fields, "balls of a batch");

static const dw_field batch_fields[] = {
    DW_F_WHOLE(dw_week_batch, day, "d", 0, DW_WEEK_DAYS - 1,
               "0: the plan's first"),
    DW_F_TEXT(dw_week_batch, formula, 120, "which"),
    DW_F_TEXT(dw_week_batch, mixer, 120, "which"),
    DW_F_REAL_PRESET(dw_week_batch, dough_kg, "kg", 0, 1e5, 0, "mixed"),
    DW_F_REAL_PRESET(dw_week_batch, spare_kg, "kg", 0, 1e5, 0,
                     "mixed but not made to balls"),
    DW_F_YES(dw_week_batch, fixed, false, "was mixed or started already"),
    DW_F_MANY_OPT(dw_week_batch, pieces, &piece_shape, DW_WEEK_PRODUCTS,
                  "what it is cut into"),
};
const dw_shape dw_week_batch_shape =
    DW_SHAPE("week_batch", dw_week_batch, batch_fields, "a batch");

static const dw_field request_fields[] = {
    DW_F_WHOLE(dw_week_request, days, "d", 1, DW_WEEK_DAYS, "to plan"),
    DW_F_MANY_OPT(dw_week_request, each_day, &day_shape, DW_WEEK_DAYS,
                  "one for each day, or none"),
    DW_F_MANY(dw_week_request, mixers, &mixer_shape, 1, DW_WEEK_MIXERS,
              "that are there"),
    DW_F_MANY(dw_week_request, formulas, &formula_shape, 1, DW_WEEK_FORMULAS,
              "that may be made"),
    DW_F_MANY(dw_week_request, products, &product_shape, 1, DW_WEEK_PRODUCTS,
              "that are sold"),
    DW_F_MANY_OPT(dw_week_request, stock, &stock_shape, DW_WEEK_STOCK,
                  "balls that are there, by age"),
    DW_F_MANY_OPT(dw_week_request, fixed, &dw_week_batch_shape, 200,
                  "mixed or started: kept as they are"),
    DW_F_MANY_OPT(dw_week_request, before, &dw_week_batch_shape,
                  DW_WEEK_BATCHES, "the plan as it was"),
    DW_F_REAL_OPT(dw_week_request, boxes, "", 0, 1e6, "owned"),
    DW_F_REAL_OPT(dw_week_request, slots, "", 0, 1e6,
                  "boxes the cold room holds, closed"),
    DW_F_REAL_PRESET(dw_week_request, open_factor, "", 1, 3, 1.44,
                     "floor of open, offset stacks against closed ones"),
    DW_F_REAL_PRESET(dw_week_request, balls_per_minute, "1/min", 0.1, 1e6, 4,
                     "of one pair of hands"),
    DW_F_REAL_PRESET(dw_week_request, labour_cost_per_h, "minor/h", 0,
                     MONEY_MOST, 0, "of one person"),
    DW_F_REAL_PRESET(dw_week_request, overtime_cost_per_h, "minor/h", 0,
                     MONEY_MOST, 0, "of one person, instead"),
    DW_F_REAL_PRESET(dw_week_request, change_cost, "minor", 0, MONEY_MOST, 0,
                     "of each batch more or less than before"),
    DW_F_WHOLE_PRESET(dw_week_request, effort, "", 0, 10000000, 20000,
                      "exchanges tried"),
    DW_F_REAL_PRESET(dw_week_request, seconds, "s", 0, 600, 0,
                     "of the solver at most; 0: without it"),
    DW_F_REAL_PRESET(dw_week_request, gap_percent, "percent", 0, 50, 0.5,
                     "good enough for the solver"),
    DW_F_YES(dw_week_request, worths, false,
             "say what one more of each limit is worth"),
};
const dw_shape dw_week_request_shape =
    DW_SHAPE("week_request", dw_week_request, request_fields,
             "what is wanted on the next days, and with what it can be made");

/* ---- reply --------------------------------------------------------------- */

static const dw_field product_day_fields[] = {
    DW_F_WHOLE(dw_week_product_day, day, "d", 0, DW_WEEK_DAYS, "from 0"),
    DW_F_REAL(dw_week_product_day, wanted, "", 0, 1e9, "mean"),
    DW_F_WHOLE(dw_week_product_day, wanted_low, "", 0, 1e9, "10 %"),
    DW_F_WHOLE(dw_week_product_day, wanted_high, "", 0, 1e9, "90 %"),
    DW_F_WHOLE(dw_week_product_day, made, "", 0, 1e9, "this day"),
    DW_F_REAL(dw_week_product_day, ready, "", 0, 1e9, "usable, on average"),
    DW_F_REAL(dw_week_product_day, lost, "", 0, 1e9,
              "wanted and not there, on average"),
    DW_F_REAL(dw_week_product_day, thrown, "", 0, 1e9, "past, on average"),
    DW_F_REAL(dw_week_product_day, left, "", 0, 1e9,
              "in stock for the night, on average"),
    DW_F_REALS(dw_week_product_day, by_age, "", 0, 1e9,
               "left, by age in days from 0"),
};
static const dw_shape product_day_shape =
    DW_SHAPE("week_product_day", dw_week_product_day, product_day_fields,
             "one product on one day");

static const dw_field product_plan_fields[] = {
    DW_F_TEXT(dw_week_product_plan, name, 120, "whose balls"),
    DW_F_REAL(dw_week_product_plan, lost_to_thrown, "", 0, 1e15,
              "cost of a lost sale in thrown balls"),
    DW_F_REAL(dw_week_product_plan, service_percent, "percent", 0, 100,
              "of what is wanted"),
    DW_F_MANY(dw_week_product_plan, days, &product_day_shape, 0, DW_WEEK_DAYS,
              "by day"),
};
static const dw_shape product_plan_shape =
    DW_SHAPE("week_product_plan", dw_week_product_plan, product_plan_fields,
             "one product");

static const dw_field mixer_day_fields[] = {
    DW_F_TEXT(dw_week_mixer_day, mixer, 120, "which"),
    DW_F_REAL(dw_week_mixer_day, minutes, "min", 0, 1e9, "in use"),
    DW_F_REAL_OPT(dw_week_mixer_day, limit, "min", 0, 1e9, "there are"),
};
static const dw_shape mixer_day_shape =
    DW_SHAPE("week_mixer_day", dw_week_mixer_day, mixer_day_fields,
             "one mixer on one day");

static const dw_field day_plan_fields[] = {
    DW_F_WHOLE(dw_week_day_plan, day, "d", 0, DW_WEEK_DAYS, "from 0"),
    DW_F_REAL(dw_week_day_plan, lost_cost, "minor", 0, 1e15, "on average"),
    DW_F_REAL(dw_week_day_plan, thrown_cost, "minor", 0, 1e15, "on average"),
    DW_F_REAL(dw_week_day_plan, holding_cost, "minor", 0, 1e15, "on average"),
    DW_F_REAL(dw_week_day_plan, make_cost, "minor", 0, 1e15, "of balls"),
    DW_F_REAL(dw_week_day_plan, start_cost, "minor", 0, 1e15,
              "of batches, odd sizes and spare dough included"),
    DW_F_REAL(dw_week_day_plan, labour_cost, "minor", 0, 1e15,
              "within the hours"),
    DW_F_REAL(dw_week_day_plan, overtime_cost, "minor", 0, 1e15, "beyond"),
    DW_F_REAL(dw_week_day_plan, hands_minutes, "min", 0, 1e9, "of people"),
    DW_F_REAL(dw_week_day_plan, overtime_minutes, "min", 0, 1e9,
              "part of hands_minutes"),
    DW_F_REAL(dw_week_day_plan, boxes, "", 0, 1e9, "in use, on average"),
    DW_F_REAL(dw_week_day_plan, slots, "", 0, 1e9,
              "of the cold room, on average"),
    DW_F_MANY(dw_week_day_plan, mixers, &mixer_day_shape, 0, DW_WEEK_MIXERS,
              "by mixer"),
};
static const dw_shape day_plan_shape = DW_SHAPE(
    "week_day_plan", dw_week_day_plan, day_plan_fields, "costs of a day");

static const dw_field limit_fields[] = {
    DW_F_TEXT(dw_week_limit, limit, 20, "boxes, slots, hands or mixer"),
    DW_F_TEXT_OPT(dw_week_limit, mixer, 120, "which"),
    DW_F_WHOLES_OPT(dw_week_limit, days, "d", 0, DW_WEEK_DAYS, "when it binds"),
    DW_F_REAL(dw_week_limit, more, "", 0, 1e6,
              "a box, a slot or minutes on each day"),
    DW_F_REAL(dw_week_limit, saves, "minor", 0, 1e15, "with so much more"),
};
static const dw_shape limit_shape =
    DW_SHAPE("week_limit", dw_week_limit, limit_fields, "a limit that binds");

static const dw_field change_fields[] = {
    DW_F_CHOICE(dw_week_change, kind, dw_week_change_words, "what"),
    DW_F_WHOLE(dw_week_change, day, "d", 0, DW_WEEK_DAYS, "from 0"),
    DW_F_TEXT_OPT(dw_week_change, formula, 120, "of batches"),
    DW_F_TEXT_OPT(dw_week_change, mixer, 120, "of batches"),
    DW_F_TEXT_OPT(dw_week_change, product, 120, "of balls"),
    DW_F_WHOLE(dw_week_change, count, "", 0, 1e9, "batches or balls"),
    DW_F_TEXT_OPT(dw_week_change, message, 1000, "the same as a sentence"),
};
static const dw_shape change_shape = DW_SHAPE(
    "week_change", dw_week_change, change_fields, "unlike the plan before");

static const dw_field reply_fields[] = {
    DW_F_MANY(dw_week_reply, batches, &dw_week_batch_shape, 0,
              2 * DW_WEEK_BATCHES, "by day"),
    DW_F_MANY(dw_week_reply, products, &product_plan_shape, 0, DW_WEEK_PRODUCTS,
              "by product"),
    DW_F_MANY(dw_week_reply, days, &day_plan_shape, 0, DW_WEEK_DAYS, "by day"),
    DW_F_REAL(dw_week_reply, cost, "minor", 0, 1e15, "expected, of all"),
    DW_F_REAL(dw_week_reply, bound_cost, "minor", 0, 1e15,
              "no plan costs less"),
    DW_F_REAL(dw_week_reply, gap_percent, "percent", 0, 100, "of cost"),
    DW_F_CHOICE(dw_week_reply, bound_by, dw_week_bound_words, "who says so"),
    DW_F_REAL(dw_week_reply, change_cost, "minor", 0, 1e15, "part of cost"),
    DW_F_MANY(dw_week_reply, limits, &limit_shape, 0, 20, "that bind"),
    DW_F_MANY(dw_week_reply, changes, &change_shape, 0, 2000,
              "unlike the plan before"),
    DW_F_MANY(dw_week_reply, notes, &dw_note_shape, 0, 600, "what to say"),
};
const dw_shape dw_week_reply_shape =
    DW_SHAPE("week_reply", dw_week_reply, reply_fields, "the plan");
