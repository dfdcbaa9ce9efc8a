#include "doughwright/runsheet.h"

const char *const dw_run_order_words[] = {"given", "small_first", "large_first",
                                          NULL};

static const dw_field piece_fields[] = {
    DW_F_TEXT(dw_run_piece, product, 120, "whose ball it is"),
    DW_F_REAL(dw_run_piece, piece_g, "g", 5, 20000, "weight of a ball"),
    DW_F_WHOLE(dw_run_piece, count, "", 1, 100000, "balls"),
    DW_F_REAL(dw_run_piece, close_minutes, "min", 0, 2880,
              "from its last box until its stack closes"),
};
static const dw_shape piece_shape =
    DW_SHAPE("run_piece", dw_run_piece, piece_fields, "balls of one size");

static const dw_field batch_fields[] = {
    DW_F_TEXT(dw_run_batch, name, 120, "which batch"),
    DW_F_REAL(dw_run_batch, mix_minutes, "min", 0.5, 600,
              "first ingredient to dough out"),
    DW_F_MANY(dw_run_batch, pieces, &piece_shape, 1, DW_RUN_PIECES,
              "what it is cut into"),
};
static const dw_shape batch_shape =
    DW_SHAPE("run_batch", dw_run_batch, batch_fields, "one batch");

static const dw_field person_fields[] = {
    DW_F_TEXT(dw_run_person, name, 120, "who"),
};
static const dw_shape person_shape =
    DW_SHAPE("run_person", dw_run_person, person_fields, "one of the crew");

#define MOMENT_MOST 9007199254740991.0

static const dw_field request_fields[] = {
    DW_F_MANY(dw_run_request, batches, &batch_shape, 1, DW_RUN_BATCHES,
              "to be mixed"),
    DW_F_CHOICE_PRESET(dw_run_request, order, dw_run_order_words, 0,
                       "of batches, and of sizes within one"),
    DW_F_WHOLE_OPT(dw_run_request, start_ms, "ms", 0, MOMENT_MOST, "first mix"),
    DW_F_WHOLE_OPT(dw_run_request, boxed_by_ms, "ms", 0, MOMENT_MOST,
                   "last box, instead of start_ms"),
    DW_F_WHOLE_OPT(dw_run_request, earliest_ms, "ms", 0, MOMENT_MOST,
                   "nobody is there before"),
    DW_F_WHOLE_OPT(dw_run_request, last_leaves_ms, "ms", 0, MOMENT_MOST,
                   "the last person leaves"),
    DW_F_REAL(dw_run_request, hands, "", 0.25, 100, "people at the bench"),
    DW_F_REAL_PRESET(dw_run_request, balls_per_minute, "1/min", 0.1, 60, 4,
                     "of one pair of hands"),
    DW_F_REAL_PRESET(dw_run_request, bench_minutes, "min", 1, 120, 20,
                     "allowed from dough out to last box"),
    DW_F_REAL_PRESET(dw_run_request, turn_minutes, "min", 0, 120, 5,
                     "to scrape and load the bowl"),
    DW_F_REAL_OPT(dw_run_request, room_c, "degC", -10, 60, "room"),
    DW_F_REAL_OPT(dw_run_request, dough_c, "degC", 0, 60,
                  "dough off the mixer"),
    DW_F_REAL_OPT(dw_run_request, bowl_c, "degC", -20, 60,
                  "bowl before the first batch"),
    DW_F_REAL_PRESET(dw_run_request, bowl_minutes, "min", 1, 600,
                     DW_RUN_BOWL_MINUTES,
                     "in which the bowl loses 63 % of its warmth; no source"),
    DW_F_MANY_OPT(dw_run_request, people, &person_shape, 12,
                  "the first mixes, the others ball"),
};
const dw_shape dw_run_request_shape =
    DW_SHAPE("run_request", dw_run_request, request_fields,
             "batches to be mixed one after the other");

static const dw_field stack_fields[] = {
    DW_F_TEXT(dw_run_stack, product, 120, "whose balls"),
    DW_F_REAL(dw_run_stack, piece_g, "g", 5, 20000, "weight of a ball"),
    DW_F_WHOLE(dw_run_stack, count, "", 0, 1e9, "balls"),
    DW_F_MOMENT(dw_run_stack, boxed_ms, "last box"),
    DW_F_MOMENT(dw_run_stack, close_ms, "to be closed"),
    DW_F_YES(dw_run_stack, late, false, "after the last person leaves"),
};
static const dw_shape stack_shape =
    DW_SHAPE("run_stack", dw_run_stack, stack_fields, "boxes of one size");

static const dw_field line_fields[] = {
    DW_F_TEXT(dw_run_line, name, 120, "which batch"),
    DW_F_MOMENT(dw_run_line, mix_start_ms, "first ingredient"),
    DW_F_MOMENT(dw_run_line, dough_out_ms, "mixer stops"),
    DW_F_MOMENT(dw_run_line, boxed_ms, "last box"),
    DW_F_REAL(dw_run_line, bench_minutes, "min", 0, 1e6,
              "from dough out to last box"),
    DW_F_WHOLE(dw_run_line, balls, "", 0, 1e9, "balls"),
    DW_F_REAL_OPT(dw_run_line, bowl_c, "degC", -50, 100,
                  "bowl when its water goes in"),
    DW_F_TEXT_OPT(dw_run_line, mixed_by, 120, "who mixes"),
    DW_F_TEXT_OPT(dw_run_line, balled_by, 1500, "who balls"),
    DW_F_MANY(dw_run_line, stacks, &stack_shape, 0, DW_RUN_PIECES,
              "in the order they are balled"),
};
static const dw_shape line_shape =
    DW_SHAPE("run_line", dw_run_line, line_fields, "one batch of the run");

static const dw_field advice_fields[] = {
    DW_F_TEXT(dw_run_advice, code, 60, "message code"),
    DW_F_TEXT_OPT(dw_run_advice, batch, 120, "which batch"),
    DW_F_TEXT_OPT(dw_run_advice, product, 120, "which balls"),
    DW_F_WHOLE_OPT(dw_run_advice, start_ms, "ms", -MOMENT_MOST, MOMENT_MOST,
                   "first mix"),
    DW_F_MOMENT(dw_run_advice, done_ms, "when the last of it is done"),
    DW_F_YES(dw_run_advice, enough, false,
             "all is done before the last person leaves"),
    DW_F_TEXT_OPT(dw_run_advice, message, 1000, "the code as a sentence"),
};
static const dw_shape advice_shape =
    DW_SHAPE("run_advice", dw_run_advice, advice_fields, "what to do instead");

static const dw_field reply_fields[] = {
    DW_F_MANY(dw_run_reply, batches, &line_shape, 0, DW_RUN_BATCHES,
              "in the order they are mixed"),
    DW_F_MOMENT(dw_run_reply, start_ms, "first mix"),
    DW_F_MOMENT(dw_run_reply, boxed_ms, "last box"),
    DW_F_MOMENT(dw_run_reply, last_close_ms, "last stack closed"),
    DW_F_WHOLE_OPT(dw_run_reply, latest_start_ms, "ms", -MOMENT_MOST,
                   MOMENT_MOST, "first mix at the latest"),
    DW_F_MANY_OPT(dw_run_reply, advice, &advice_shape, 200,
                  "what to do instead"),
    DW_F_MANY_OPT(dw_run_reply, notes, &dw_note_shape, 200, "what to say"),
};
const dw_shape dw_run_reply_shape =
    DW_SHAPE("run_reply", dw_run_reply, reply_fields, "the run sheet");
