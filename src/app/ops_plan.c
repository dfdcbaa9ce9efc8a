/* Batches for an order: looked at first, then kept; and read whole. */
#include "app/plan.h"

static const dw_field plan_piece_fields[] = {
    DW_F_WHOLE(dw_plan_piece, product_id, "", 1, 9007199254740991.0, "of what"),
    DW_F_WHOLE(dw_plan_piece, balls, "", 1, DW_PACK_BALLS, "how many"),
};
static const dw_shape plan_piece_shape = DW_SHAPE(
    "plan_piece", dw_plan_piece, plan_piece_fields, "balls of one product");

static const dw_field plan_request_fields[] = {
    DW_F_WHOLE_PRESET(dw_plan_request, day, "d", 0, 84000, 0,
                      "business day; 0: today"),
    DW_F_MANY(dw_plan_request, pieces, &plan_piece_shape, 1, 24,
              "what is wanted"),
    DW_F_CHOICE_PRESET(dw_plan_request, split, dw_pack_split_words, 0,
                       "the shop's standard batches, or equal ones"),
    DW_F_ID(dw_plan_request, mixer_id, "0: the shop's first"),
    DW_F_MOMENT(dw_plan_request, start_ms,
                "first mix; 0: now, or when the shop opens"),
    DW_F_CHOICE_PRESET(dw_plan_request, order, dw_run_order_words, 0,
                       "of batches and of sizes within one"),
    DW_F_YES(dw_plan_request, bag_of_minors, true,
             "take a bag of minors where one is made"),
};
const dw_shape dw_plan_request_shape =
    DW_SHAPE("plan_request", dw_plan_request, plan_request_fields,
             "balls that are wanted, to be made into batches");

static const dw_field takes_fields[] = {
    DW_F_CHOICE(dw_plan_takes, origin, dw_mixer_origin_words,
                "where the rating is from"),
    DW_F_REAL(dw_plan_takes, absorption_percent, "percent", 0, 1000,
              "water on flour"),
    DW_F_REAL(dw_plan_takes, derating, "", 0, 1, "factor on the rating"),
    DW_F_REAL_OPT(dw_plan_takes, rated_kg, "kg", 0, 5000,
                  "rating at this absorption"),
    DW_F_REAL_OPT(dw_plan_takes, max_dough_kg, "kg", 0, 5000, "most dough"),
    DW_F_REAL_OPT(dw_plan_takes, min_dough_kg, "kg", 0, 5000, "least dough"),
    DW_F_TEXT_OPT(dw_plan_takes, mixer, 60, "its name"),
    DW_F_TEXT_OPT(dw_plan_takes, note, 200, "where the rating was read"),
};
static const dw_shape takes_shape = DW_SHAPE(
    "plan_takes", dw_plan_takes, takes_fields, "what the mixer takes of it");

static const dw_field plan_batch_fields[] = {
    DW_F_ONE(dw_plan_batch, batch, &dw_batch_noun, "id 0 until it is kept"),
    DW_F_TEXT(dw_plan_batch, formula_name, 80, "its formula"),
    DW_F_TEXT_OPT(dw_plan_batch, standard, 60, "the shop's name for its size"),
    DW_F_REAL(dw_plan_batch, odd_kg, "kg", 0, 1e5, "dough left over"),
    DW_F_MANY_OPT(dw_plan_batch, pieces, &dw_card_cut_shape, 40,
                  "what it is cut into"),
    DW_F_MANY_OPT(dw_plan_batch, weighings, &dw_batch_weighing_noun, 400,
                  "what is weighed"),
    DW_F_REAL(dw_plan_batch, dough_out_min, "min", 0, 1e5,
              "from its first step to the mixer's stop"),
    DW_F_ONE(dw_plan_batch, takes, &takes_shape, "what the mixer takes of it"),
};
static const dw_shape plan_batch_shape = DW_SHAPE(
    "plan_batch", dw_plan_batch, plan_batch_fields, "a batch of the plan");

static const dw_field plan_account_fields[] = {
    DW_F_ID(dw_plan_account, product_id, "of what"),
    DW_F_TEXT(dw_plan_account, name, 60, "what people call it"),
    DW_F_WHOLE(dw_plan_account, ordered, "", 0, 1e9, "wanted"),
    DW_F_WHOLE(dw_plan_account, made, "", 0, 1e9, "made"),
    DW_F_WHOLE(dw_plan_account, surplus, "", 0, 1e9, "into stock"),
};
static const dw_shape plan_account_shape =
    DW_SHAPE("plan_account", dw_plan_account, plan_account_fields,
             "wanted and into stock make what is made");

static const dw_field plan_fields[] = {
    DW_F_WHOLE(dw_plan, day, "d", 0, 84000, "business day"),
    DW_F_MANY_OPT(dw_plan, batches, &plan_batch_shape, DW_RUN_BATCHES,
                  "in the order they were packed"),
    DW_F_MANY_OPT(dw_plan, account, &plan_account_shape, 24, "by product"),
    DW_F_YES(dw_plan, proved, false, "no other packing leaves less odd dough"),
    DW_F_ONE(dw_plan, run, &dw_run_reply_shape, "laid on mixer and bench"),
    DW_F_MANY_OPT(dw_plan, notes, &dw_note_shape, 200, "what to say"),
};
const dw_shape dw_plan_shape =
    DW_SHAPE("plan", dw_plan, plan_fields, "batches for an order");

static dw_status preview(dw_call *call, const void *request, void *reply)
{
    return dw_plan_make(call, request, reply);
}

static dw_status keep(dw_call *call, const void *request, void *reply)
{
    DW_TRY(dw_plan_make(call, request, reply));
    return dw_plan_keep(call, reply);
}

static dw_status get(dw_call *call, const void *request, void *reply)
{
    return dw_card_read(call, ((const dw_made *)request)->id, reply);
}

const dw_op dw_ops_plan[] = {
    {"batch.preview", DW_OP_READ, &dw_plan_request_shape, &dw_plan_shape,
     preview, "The batches for an order of balls, without keeping them."},
    {"batch.plan", DW_OP_WRITE, &dw_plan_request_shape, &dw_plan_shape, keep,
     "Make the batches for an order of balls."},
    {"batch.get", DW_OP_READ, &dw_made_request_shape, &dw_card_shape, get,
     "A batch, whole: weighings, steps, readings, today's water, clock."},
};
const size_t dw_ops_plan_count = DW_COUNT(dw_ops_plan);
