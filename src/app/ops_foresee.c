/* If this happens: what becomes of the stacks that are there. Nothing is
 * stored. */
#include "app/stack_life.h"
#include "app/stacks.h"

#include "doughwright/mishap.h"

#include <math.h>

#define HOUR_MS 3600000.0
#define COLD_USUAL_C 3.3
#define RECOVER_USUAL_H 1

/* ---- what is asked and told ---------------------------------------------- */

typedef struct asked {
    dw_mishap mishap;
    int64_t stack_id;
    int64_t members;
} asked;
static const dw_field asked_fields[] = {
    DW_F_ONE(asked, mishap, &dw_mishap_shape, "what happens"),
    DW_F_ID(asked, stack_id, "to which stack; 0: to all"),
    DW_F_WHOLE_PRESET(asked, members, "", 0, 63, 0,
                      "lives in each band; 0: no bands"),
};
static const dw_shape asked_shape =
    DW_SHAPE("cold_foresee_ask", asked, asked_fields, "if this happens");

/* A window in the shop's time. */
typedef struct turns {
    dw_stack_moment ready, best, use_first, end;
    const char *end_reason;
} turns;
static const dw_field turns_fields[] = {
    DW_F_ONE(turns, ready, &dw_stack_moment_shape, "opens without tearing"),
    DW_F_ONE(turns, best, &dw_stack_moment_shape, "best from"),
    DW_F_ONE(turns, use_first, &dw_stack_moment_shape, "before all other"),
    DW_F_ONE(turns, end, &dw_stack_moment_shape, "past"),
    DW_F_TEXT_OPT(turns, end_reason, 20, "what ends it"),
};
static const dw_shape turns_shape =
    DW_SHAPE("stack_turns", turns, turns_fields, "moments of a window");

typedef struct fate {
    int64_t stack_id, product_id, mixing_day;
    bool touched, has_verdict, sure, has_no_life;
    int verdict, readiness, no_life;
    int64_t over_ms;
    double core_c;
    turns before, after;
} fate;
static const dw_field fate_fields[] = {
    DW_F_ID(fate, stack_id, "0: counted, of no known batch"),
    DW_F_ID(fate, product_id, "of what"),
    DW_F_WHOLE(fate, mixing_day, "d", 0, 84100, "day 0"),
    DW_F_YES(fate, touched, false, "it was there while it happened"),
    DW_F_CHOICE_OPT(fate, verdict, dw_fate_words,
                    "when it is over, now at the soonest"),
    DW_F_CHOICE_OPT(fate, no_life, dw_no_life_words, "why it has no verdict"),
    DW_F_YES(fate, sure, false, "early and late lives say the same"),
    DW_F_CHOICE(fate, readiness, dw_readiness_words, "then"),
    DW_F_MOMENT(fate, over_ms, "then"),
    DW_F_REAL(fate, core_c, "degC", -40, 60, "then"),
    DW_F_ONE(fate, before, &turns_shape, "as planned"),
    DW_F_ONE(fate, after, &turns_shape, "as it happened"),
};
static const dw_shape fate_shape =
    DW_SHAPE("cold_fate", fate, fate_fields, "what becomes of a stack");

typedef struct told {
    int64_t now_ms;
    fate *fates;
    size_t fates_count;
    int64_t saved_boxes, use_first_boxes, past_boxes, unknown_boxes;
} told;
static const dw_field told_fields[] = {
    DW_F_MOMENT(told, now_ms, "the server's clock"),
    DW_F_MANY_OPT(told, fates, &fate_shape, 100000, "one a stack"),
    DW_F_WHOLE(told, saved_boxes, "", 0, 1e9, "boxes saved"),
    DW_F_WHOLE(told, use_first_boxes, "", 0, 1e9, "boxes to use first"),
    DW_F_WHOLE(told, past_boxes, "", 0, 1e9, "boxes past"),
    DW_F_WHOLE(told, unknown_boxes, "", 0, 1e9,
               "boxes the model does not answer for"),
};
static const dw_shape told_shape =
    DW_SHAPE("cold_foresee", told, told_fields, "what becomes of the stacks");

/* ---- one stack ----------------------------------------------------------- */

typedef struct desk {
    dw_call *call;
    const asked *asked;
    dw_shop shop;
    dw_stack_lives lives;
} desk;

static turns turns_of(int64_t from_ms, const dw_window *w,
                      const dw_band_window *band)
{
    return (turns){
        dw_stack_moment_of(from_ms, w->has_ready_h, w->ready_h, &band->ready_h),
        dw_stack_moment_of(from_ms, w->has_best_from_h, w->best_from_h,
                           &band->best_from_h),
        dw_stack_moment_of(from_ms, w->has_use_first_h, w->use_first_h,
                           &band->use_first_h),
        dw_stack_moment_of(from_ms, w->has_end_h, w->end_h, &band->end_h),
        w->end_reason,
    };
}

/* The legs up to now, and what of them is still to come. The last one goes on;
 * when that is warm, as it was read, the room is meant to get cold again. */
static dw_status split(desk *d, const dw_life_request *life, double age_h,
                       double cold_c, dw_mishap_stack *stack)
{
    size_t n = life->legs_count;
    double time_h = 0;
    stack->legs = DW_NEW_ARRAY(d->call->arena, dw_leg, n + 1);
    stack->coming = DW_NEW_ARRAY(d->call->arena, dw_leg, n + 1);
    if (!stack->legs || !stack->coming)
        return dw_fail(d->call->err, DW_E_ROOM, "fates", NULL);
    stack->then = life->legs[n - 1];
    for (size_t i = 0; i < n; i++) {
        bool last = i == n - 1;
        dw_leg leg = life->legs[i];
        double past_h = last ? age_h - time_h : fmin(leg.hours, age_h - time_h);
        double rest_h = last ? 0 : leg.hours - fmax(past_h, 0);
        if (past_h > 0) {
            stack->legs[stack->legs_count] = leg;
            stack->legs[stack->legs_count++].hours = past_h;
        }
        if (rest_h > 0) {
            stack->coming[stack->coming_count] = leg;
            stack->coming[stack->coming_count++].hours = rest_h;
        }
        time_h += leg.hours;
    }
    if (stack->then.air_c < DW_LIFE_COLD_C)
        return DW_OK;
    stack->then.air_c = cold_c;
    for (size_t i = 0; i < stack->coming_count; i++)
        if (stack->coming[i].air_c >= DW_LIFE_COLD_C)
            stack->coming[i].air_c = cold_c;
    return DW_OK;
}

/* A room whose air comes back slowly after a door comes back slowly after a
 * power cut. A quick one does not come back sooner than is usual, because a cut
 * warms its walls and its dough too. */
static void set_recovery(const desk *d, dw_mishap *mishap)
{
    const dw_taught_row *back =
        dw_taught_find(&d->lives.taught, DW_TAUGHT_TIME_CONSTANT);
    if (mishap->has_recover_h || !back || back->mean <= RECOVER_USUAL_H)
        return;
    mishap->has_recover_h = true;
    mishap->recover_h = back->mean;
}

/* What happens to this stack: what was asked, or nothing, which is a room as
 * cold as ever. */
static dw_mishap happens_to(const desk *d, const dw_mishap_stack *stack,
                            double age_h, fate *out)
{
    dw_mishap mishap = d->asked->mishap;
    set_recovery(d, &mishap);
    bool over = age_h + mishap.from_h + mishap.hours <= 0;
    out->touched = !over && (d->asked->stack_id == 0 ||
                             d->asked->stack_id == out->stack_id);
    if (out->touched)
        return mishap;
    mishap.kind = DW_MISHAP_WARM_ROOM;
    mishap.has_air_c = true;
    mishap.air_c = stack->then.air_c;
    mishap.has_h_w_per_m2_k = false;
    if (over)
        mishap.from_h = 0;
    return mishap;
}

/* What goes on as planned is told by the strip it has in the cold room. */
static void take_fate(const dw_stack_tale *tale, const dw_mishap_fate *in,
                      fate *out)
{
    static const dw_band_window none = {0};
    const dw_stack_life *life = &tale->life;
    int64_t stopped_ms = tale->stopped_ms;
    out->has_verdict = true;
    out->verdict = in->verdict;
    out->sure = in->sure;
    out->readiness = in->readiness;
    out->over_ms = stopped_ms + (int64_t)(in->age_h * HOUR_MS);
    out->core_c = in->core_c;
    out->before = (turns){life->ready, life->best, life->use_first, life->end,
                          life->end_reason};
    out->after = out->before;
    if (out->touched)
        out->after =
            turns_of(stopped_ms, &in->now, in->has_band ? &in->band : &none);
}

/* What the engine refuses of this one stack leaves it without a verdict. */
static dw_status foresee(desk *d, const dw_stack_tale *tale, double cold_c,
                         fate *out)
{
    double age_h = (double)(d->call->now_ms - tale->stopped_ms) / HOUR_MS;
    dw_mishap_stack stack = {.name = "stack",
                             .boxes = 1,
                             .formula = tale->story.formula,
                             .piece_g = tale->life.piece_g,
                             .dough_c = tale->life.dough_c};
    DW_TRY(split(d, &tale->request, age_h, cold_c, &stack));
    dw_mishap_ask ask;
    dw_shape_preset(&dw_mishap_ask_shape, &ask);
    ask.mishap = happens_to(d, &stack, age_h, out);
    ask.stacks = &stack;
    ask.stacks_count = 1;
    ask.elevation_m = tale->request.elevation_m;
    ask.earliest_cold_use_h = tale->request.earliest_cold_use_h;
    ask.members = out->touched ? tale->request.members : 0;
    ask.shells = tale->request.shells;
    ask.model = tale->request.model;
    ask.ranges = tale->request.ranges;
    ask.ranges_count = tale->request.ranges_count;
    dw_arena arena;
    dw_arena_init(&arena, d->lives.block, DW_STACK_LIFE_BYTES);
    dw_mishap_reply reply;
    dw_err refused;
    if (dw_shape_check(&dw_mishap_ask_shape, &ask, &refused) == DW_OK &&
        dw_mishap_foresee(&ask, &arena, &reply, &refused) == DW_OK)
        take_fate(tale, &reply.fates[0], out);
    return DW_OK;
}

/* What the cold room is set to, for when it is mended. */
static dw_status set_air(dw_call *call, const dw_stack *stack, double *air_c)
{
    dw_cold_room room = {.air_c = COLD_USUAL_C};
    if (stack->cold_room_id != 0)
        DW_TRY(dw_row_get(call, "cold_room", &dw_cold_room_noun,
                          stack->cold_room_id, "cold_room_id", &room));
    *air_c = room.air_c;
    return DW_OK;
}

static dw_status tell(desk *d, const dw_stack *stack, fate *out,
                      dw_stack_tale *tale)
{
    *tale = (dw_stack_tale){.none = DW_NO_LIFE_TIMES};
    *out = (fate){.stack_id = stack->id,
                  .product_id = stack->product_id,
                  .mixing_day = stack->mixing_day};
    if (stack->batch_id == 0)
        return DW_OK;
    dw_batch_row batch;
    dw_product product;
    DW_TRY(dw_row_get(d->call, "batch", &dw_batch_noun, stack->batch_id,
                      "batch_id", &batch));
    DW_TRY(dw_row_get(d->call, "product", &dw_product_noun, stack->product_id,
                      "product_id", &product));
    return dw_stack_tale_of(&d->lives, stack, &batch, &product, tale);
}

/* Once all tales are lived. */
static dw_status fill_fate(desk *d, const dw_stack *stack,
                           const dw_stack_tale *tale, fate *out)
{
    double cold_c;
    out->has_no_life = true;
    out->no_life = tale->none;
    if (!tale->has_life)
        return DW_OK;
    DW_TRY(set_air(d->call, stack, &cold_c));
    out->no_life = DW_NO_LIFE_ANSWER;
    DW_TRY(foresee(d, tale, cold_c, out));
    out->has_no_life = !out->has_verdict;
    return DW_OK;
}

/* ---- all of them --------------------------------------------------------- */

static void count_boxes(const fate *one, int64_t boxes, told *out)
{
    if (!one->has_verdict) {
        out->unknown_boxes += boxes;
        return;
    }
    switch ((dw_fate_verdict)one->verdict) {
    case DW_FATE_SAVED: out->saved_boxes += boxes; break;
    case DW_FATE_USE_FIRST: out->use_first_boxes += boxes; break;
    case DW_FATE_PAST: out->past_boxes += boxes; break;
    }
}

static dw_status boxes_of(dw_call *call, const dw_stack_left *left,
                          int64_t *boxes)
{
    dw_product product;
    DW_TRY(dw_row_get(call, "product", &dw_product_noun, left->stack.product_id,
                      "product_id", &product));
    *boxes = (left->left + product.balls_per_box - 1) / product.balls_per_box;
    return DW_OK;
}

static bool is_there(const dw_stack_left *left, size_t count, int64_t id)
{
    for (size_t i = 0; i < count; i++)
        if (left[i].stack.id == id)
            return true;
    return id == 0;
}

static dw_status foresee_run(dw_call *call, const void *request, void *reply)
{
    desk d = {.call = call, .asked = request};
    told *out = reply;
    dw_stack_left *left;
    size_t n;
    DW_TRY(dw_mishap_check(&d.asked->mishap, call->err));
    DW_TRY(dw_shop_get(call, &d.shop));
    DW_TRY(dw_stacks_left(call, &left, &n));
    if (!is_there(left, n, d.asked->stack_id))
        return dw_fail(call->err, DW_E_NOT_FOUND, "stack_id", NULL);
    DW_TRY(dw_stack_lives_begin(call, &d.shop, d.asked->members, n, &d.lives));
    *out = (told){.now_ms = call->now_ms, .fates_count = n};
    out->fates = DW_NEW_ARRAY(call->arena, fate, n ? n : 1);
    dw_stack_tale *tales = DW_NEW_ARRAY(call->arena, dw_stack_tale, n ? n : 1);
    if (!out->fates || !tales)
        return dw_fail(call->err, DW_E_ROOM, "fates", NULL);
    for (size_t i = 0; i < n; i++)
        DW_TRY(tell(&d, &left[i].stack, &out->fates[i], &tales[i]));
    DW_TRY(dw_stack_tales_live(&d.lives, tales, n));
    for (size_t i = 0; i < n; i++) {
        int64_t boxes;
        DW_TRY(fill_fate(&d, &left[i].stack, &tales[i], &out->fates[i]));
        DW_TRY(boxes_of(call, &left[i], &boxes));
        count_boxes(&out->fates[i], boxes, out);
    }
    return DW_OK;
}

const dw_op dw_ops_foresee[] = {
    {"cold.foresee", DW_OP_READ, &asked_shape, &told_shape, foresee_run,
     "If this happens: what of the cold room is saved, used first, past."},
};
const size_t dw_ops_foresee_count = DW_COUNT(dw_ops_foresee);
