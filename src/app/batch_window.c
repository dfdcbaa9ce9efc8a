/* What a batch that went otherwise makes of its window, told on its card before
 * there is a stack to look at. */
#include "app/stack_life.h"

#define HOUR_MS 3600000.0

static bool is_heaviest(const dw_card *card, size_t at)
{
    for (size_t i = 0; i < card->pieces_count; i++)
        if (card->pieces[i].piece.ball_kg > card->pieces[at].piece.ball_kg)
            return false;
    return true;
}

/* The heaviest piece, which has a life only when it is a ball. */
static dw_status find_ball(dw_call *call, const dw_card *card,
                           const dw_batch_piece **piece)
{
    dw_product product;
    *piece = NULL;
    for (size_t i = 0; i < card->pieces_count && !*piece; i++)
        if (is_heaviest(card, i))
            *piece = &card->pieces[i].piece;
    if (!*piece)
        return DW_OK;
    DW_TRY(dw_row_get(call, "product", &dw_product_noun, (*piece)->product_id,
                      "product_id", &product));
    if (product.form != DW_FORM_BALL)
        *piece = NULL;
    return DW_OK;
}

/* A stack of a batch that is not boxed yet, as the shop means to do it. */
static dw_status imagine(dw_call *call, const dw_shop *shop,
                         const dw_batch_row *batch, double ball_kg,
                         double dough_c, dw_stack *stack)
{
    dw_cold_close close = {.by_h = 0};
    bool known;
    DW_TRY(dw_close_hours(call, shop, ball_kg, dough_c, &close, &known));
    *stack = (dw_stack){.batch_id = batch->id};
    DW_TRY(dw_first_cold_room(call, &stack->cold_room_id));
    stack->opened_ms =
        batch->stopped_ms + (int64_t)(shop->bench_minutes * 60000);
    stack->closed_ms = stack->opened_ms + (int64_t)(close.by_h * HOUR_MS);
    return DW_OK;
}

static dw_status find_stack(dw_call *call, const dw_shop *shop,
                            const dw_card *card, const dw_batch_row *batch,
                            const dw_batch_piece *piece, double dough_c,
                            dw_stack *stack)
{
    for (size_t i = 0; i < card->stacks_count; i++) {
        *stack = card->stacks[i];
        if (stack->product_id == piece->product_id &&
            stack->opened_ms >= batch->stopped_ms)
            return DW_OK;
    }
    return imagine(call, shop, batch, piece->ball_kg, dough_c, stack);
}

dw_status dw_card_window_fill(dw_call *call, const dw_shop *shop,
                              const dw_bowl *bowl, dw_card *card)
{
    dw_stack stack;
    dw_stack_life life = {.dough_c = card->batch.dough_goal_c};
    dw_batch_row batch = card->batch;
    const dw_batch_piece *piece;
    bool read;
    if (batch.stopped_ms == 0)
        batch.stopped_ms = call->now_ms;
    DW_TRY(find_ball(call, card, &piece));
    if (!piece)
        return DW_OK;
    life.piece_g = piece->ball_kg * 1000;
    DW_TRY(
        dw_reading_newest(call, batch.id, DW_READ_DOUGH, &life.dough_c, &read));
    DW_TRY(find_stack(call, shop, card, &batch, piece, life.dough_c, &stack));
    dw_stack_lives lives = {.call = call, .shop = shop};
    DW_TRY(dw_taught_read(call, &lives.taught));
    dw_stack_story as_planned = {.formula = bowl->planned};
    DW_TRY(dw_stack_stand(&lives, &stack, &batch, &life, &as_planned));
    dw_stack_story as_is = as_planned;
    as_is.formula = bowl->now;
    /* on the arena's free end, for nothing of it is kept */
    size_t room;
    lives.block = dw_arena_rest(call->arena, &room);
    if (room < DW_STACK_LIFE_BYTES)
        return dw_fail(call->err, DW_E_ROOM, "window", NULL);
    dw_life_reply planned, in_bowl;
    card->has_window =
        dw_stack_story_live(&lives, &as_planned, &life, &planned) &&
        dw_stack_story_live(&lives, &as_is, &life, &in_bowl);
    if (card->has_window)
        card->window = (dw_card_window){planned.window, in_bowl.window};
    return DW_OK;
}
