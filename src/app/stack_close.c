/* When a stack is to be closed, by the life of its balls: what they were when
 * the boxes went in, and the heat they go on making (docs/models/answers.md).
 * The trade's clock beside it knows neither. */
#include "app/stack_life.h"

#include "doughwright/answers.h"

#define HOUR_MS 3600000.0

static int64_t ms_after(int64_t from_ms, double hours)
{
    return from_ms + (int64_t)(hours * HOUR_MS);
}

/* How far the open stack may be from what is told: as the shop's own probes
 * leave open, else as the trade does. */
static void narrow(const dw_taught *taught, dw_answer_air *air)
{
    const dw_taught_row *own = dw_taught_find(taught, DW_TAUGHT_OFFSET_H);
    if (own)
        *air = (dw_answer_air){own->low / own->mean, own->high / own->mean};
}

dw_status dw_stack_close_of(dw_stack_lives *lives, const dw_stack *stack,
                            const dw_batch_row *batch,
                            const dw_product *product, dw_stack_close *close,
                            bool *known, int *none)
{
    dw_stack_life life;
    dw_stack_story story;
    DW_TRY(dw_stack_story_of(lives, stack, batch, product, &life, &story, known,
                             none));
    if (!*known)
        return DW_OK;
    *none = DW_NO_LIFE_ANSWER;
    dw_close_ask ask;
    dw_shape_preset(&dw_close_ask_shape, &ask);
    ask.life.formula = story.formula;
    ask.life.piece_g = life.piece_g;
    ask.life.has_dough_c = true;
    ask.life.dough_c = life.dough_c;
    ask.life.legs = story.legs;
    ask.life.legs_count = 2; /* the bench, then open in the cold */
    ask.life.members = 0;
    ask.life.model = story.yeast.model;
    narrow(&lives->taught, &ask.air);
    ask.close_from_core_c = lives->shop->close_core_high_c;
    ask.close_by_core_c = lives->shop->close_core_low_c;
    dw_arena arena;
    dw_arena_init(&arena, lives->block, DW_STACK_LIFE_BYTES);
    dw_close_reply reply;
    dw_err refused; /* a room too warm for it: no time to tell */
    *known = dw_shape_check(&dw_close_ask_shape, &ask, &refused) == DW_OK &&
             dw_answer_close(&ask, &arena, &reply, &refused) == DW_OK;
    if (!*known)
        return DW_OK;
    *close = (dw_stack_close){
        .from_ms = ms_after(batch->stopped_ms, reply.from_h.at_h),
        .by_ms = ms_after(batch->stopped_ms, reply.by_h.at_h),
        .by_early_ms = ms_after(batch->stopped_ms, reply.by_h.early_h),
        .by_late_ms = ms_after(batch->stopped_ms, reply.by_h.late_h),
        .dough_c = life.dough_c,
        .room_c = story.legs[0].air_c,
        .air_c = life.air_c,
        .bench_h = life.bench_h,
        .piece_g = life.piece_g,
        .open_w_per_m2_k = life.open_w_per_m2_k,
        .open_readings = life.open_readings};
    return DW_OK;
}

static const dw_field close_fields[] = {
    DW_F_MOMENT(dw_stack_close, from_ms, "core cold enough to close"),
    DW_F_MOMENT(dw_stack_close, by_ms, "close it by then"),
    DW_F_MOMENT(dw_stack_close, by_early_ms, "if the air takes heat better"),
    DW_F_MOMENT(dw_stack_close, by_late_ms, "and worse than told"),
    DW_F_REAL(dw_stack_close, dough_c, "degC", -40, 60, "off the mixer"),
    DW_F_REAL(dw_stack_close, room_c, "degC", -40, 60, "on the bench"),
    DW_F_REAL(dw_stack_close, air_c, "degC", -40, 60, "of the cold room"),
    DW_F_REAL(dw_stack_close, bench_h, "h", 0, 1e6, "mixer to last box"),
    DW_F_REAL(dw_stack_close, piece_g, "g", 0, 20000, "the heaviest ball"),
    DW_F_REAL(dw_stack_close, open_w_per_m2_k, "W/m2K", 0, 2000,
              "how fast the open stack gives up its heat"),
    DW_F_WHOLE(dw_stack_close, open_readings, "", 0, 1e9,
               "core probes it was learned from; 0: the shop's setting"),
};
const dw_shape dw_stack_close_shape = DW_SHAPE(
    "stack_close", dw_stack_close, close_fields, "by the life of its balls");

dw_status dw_card_close_fill(dw_call *call, const dw_shop *shop, dw_card *card)
{
    double heaviest_kg = 0;
    dw_stack_lives lives;
    size_t used = call->arena->used; /* nothing of it is kept */
    if (card->stacks_count == 0)
        return DW_OK;
    DW_TRY(dw_stack_lives_begin(call, shop, 0, 1, &lives));
    for (size_t i = 0; i < card->stacks_count; i++) {
        dw_product product;
        bool known;
        DW_TRY(dw_row_get(call, "product", &dw_product_noun,
                          card->stacks[i].product_id, "product_id", &product));
        if (product.ball_kg <= heaviest_kg)
            continue;
        heaviest_kg = product.ball_kg;
        DW_TRY(dw_stack_close_of(&lives, &card->stacks[i], &card->batch,
                                 &product, &card->clock.life, &known,
                                 &card->clock.no_life));
        card->clock.has_life = known;
        card->clock.has_no_life = !known;
    }
    call->arena->used = used;
    return DW_OK;
}
