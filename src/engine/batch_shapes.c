#include "doughwright/batch.h"

const char *const dw_pack_split_words[] = {"standard", "equal", NULL};

static const dw_field size_fields[] = {
    DW_F_TEXT(dw_pack_size, product, 120, "whose ball it is"),
    DW_F_REAL(dw_pack_size, piece_g, "g", 5, 20000, "weight of a ball"),
    DW_F_WHOLE(dw_pack_size, count, "", 1, DW_PACK_BALLS, "balls ordered"),
    DW_F_WHOLE_PRESET(dw_pack_size, per_box, "", 0, 200, 0, "balls in a box"),
};
static const dw_shape size_shape =
    DW_SHAPE("pack_size", dw_pack_size, size_fields, "balls of one size");

static const dw_field standard_fields[] = {
    DW_F_TEXT(dw_pack_standard, name, 60, "what the shop calls it"),
    DW_F_REAL(dw_pack_standard, flour_kg, "kg", 0.1, 2000, "its flour"),
};
static const dw_shape standard_shape =
    DW_SHAPE("pack_standard", dw_pack_standard, standard_fields,
             "a batch the shop is used to");

static const dw_field bench_fields[] = {
    DW_F_REAL(dw_pack_bench, hands, "", 0.25, 100, "people at the bench"),
    DW_F_REAL_PRESET(dw_pack_bench, balls_per_minute, "1/min", 0.1, 60, 4,
                     "of one pair of hands"),
    DW_F_REAL_PRESET(dw_pack_bench, minutes, "min", 1, 120, 20,
                     "from dough out to last box"),
};
static const dw_shape bench_shape =
    DW_SHAPE("pack_bench", dw_pack_bench, bench_fields, "what the bench takes");

static const dw_field request_fields[] = {
    DW_F_MANY(dw_pack_request, sizes, &size_shape, 1, DW_PACK_SIZES,
              "the order"),
    DW_F_REAL(dw_pack_request, total_percent, "percent", 100, 2000,
              "of the formula"),
    DW_F_REAL_PRESET(dw_pack_request, loss_percent, "percent", 0, 50, 0,
                     "dough that never becomes a ball"),
    DW_F_MANY_OPT(dw_pack_request, standards, &standard_shape,
                  DW_PACK_STANDARDS, "batches the shop is used to"),
    DW_F_CHOICE_PRESET(dw_pack_request, split, dw_pack_split_words, 0,
                       "standard batches first, or all equal"),
    DW_F_REAL_PRESET(dw_pack_request, part_box_g, "g", 0, 20000, 1,
                     "odd dough worth leaving to avoid a part box"),
    DW_F_REAL_OPT(dw_pack_request, max_dough_kg, "kg", 0.1, 5000,
                  "most dough the mixer takes"),
    DW_F_REAL_OPT(dw_pack_request, min_dough_kg, "kg", 0, 5000,
                  "least dough the mixer takes"),
    DW_F_ONE_OPT(dw_pack_request, bench, &bench_shape, "what the bench takes"),
};
const dw_shape dw_pack_request_shape =
    DW_SHAPE("pack_request", dw_pack_request, request_fields,
             "an order to be made into batches");

static const dw_field balls_fields[] = {
    DW_F_TEXT(dw_pack_balls, product, 120, "whose ball it is"),
    DW_F_REAL(dw_pack_balls, piece_g, "g", 5, 20000, "weight of a ball"),
    DW_F_WHOLE(dw_pack_balls, count, "", 0, 1e9, "balls"),
    DW_F_WHOLE(dw_pack_balls, boxes, "", 0, 1e9, "full and part boxes"),
    DW_F_WHOLE(dw_pack_balls, in_part_box, "", 0, 200, "balls in the part box"),
};
static const dw_shape balls_shape =
    DW_SHAPE("pack_balls", dw_pack_balls, balls_fields, "balls in a batch");

static const dw_field batch_fields[] = {
    DW_F_TEXT_OPT(dw_pack_batch, standard, 60, "the shop's name for it"),
    DW_F_REAL(dw_pack_batch, flour_kg, "kg", 0, 1e6, "flour"),
    DW_F_REAL(dw_pack_batch, dough_kg, "kg", 0, 1e6, "dough"),
    DW_F_REAL(dw_pack_batch, usable_kg, "kg", 0, 1e6, "dough for balls"),
    DW_F_REAL(dw_pack_batch, odd_kg, "kg", 0, 1e6, "dough left over"),
    DW_F_WHOLE(dw_pack_batch, balls, "", 0, 1e9, "balls"),
    DW_F_MANY(dw_pack_batch, sizes, &balls_shape, 0, DW_PACK_SIZES,
              "balls by size"),
};
static const dw_shape batch_shape =
    DW_SHAPE("pack_batch", dw_pack_batch, batch_fields, "one batch");

static const dw_field account_fields[] = {
    DW_F_TEXT(dw_pack_account, product, 120, "whose ball it is"),
    DW_F_REAL(dw_pack_account, piece_g, "g", 5, 20000, "weight of a ball"),
    DW_F_WHOLE(dw_pack_account, ordered, "", 0, 1e9, "balls ordered"),
    DW_F_WHOLE(dw_pack_account, made, "", 0, 1e9, "balls made"),
    DW_F_WHOLE(dw_pack_account, surplus, "", 0, 1e9, "balls into stock"),
};
static const dw_shape account_shape =
    DW_SHAPE("pack_account", dw_pack_account, account_fields,
             "ordered and surplus make what is made");

static const dw_field reply_fields[] = {
    DW_F_MANY(dw_pack_reply, batches, &batch_shape, 0, DW_PACK_BATCHES,
              "batches"),
    DW_F_MANY(dw_pack_reply, account, &account_shape, 0, DW_PACK_SIZES,
              "by size, in the order given"),
    DW_F_REAL(dw_pack_reply, flour_kg, "kg", 0, 1e6, "flour in all"),
    DW_F_REAL(dw_pack_reply, dough_kg, "kg", 0, 1e6, "dough in all"),
    DW_F_REAL(dw_pack_reply, odd_kg, "kg", 0, 1e6, "odd dough in all"),
    DW_F_REAL(dw_pack_reply, bound_kg, "kg", 0, 1e6,
              "no packing of these batches costs less"),
    DW_F_REAL(dw_pack_reply, cost_kg, "kg", 0, 1e6,
              "odd dough and what part boxes count"),
    DW_F_YES(dw_pack_reply, proved, false, "is it the least, to 0.1 g"),
    DW_F_WHOLE_OPT(dw_pack_reply, bench_balls, "", 0, 1e9,
                   "most balls of a batch"),
    DW_F_MANY_OPT(dw_pack_reply, notes, &dw_note_shape, 64, "what to say"),
};
const dw_shape dw_pack_reply_shape = DW_SHAPE(
    "pack_reply", dw_pack_reply, reply_fields, "batches, and the account");
