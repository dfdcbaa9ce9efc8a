#include "app/stack_life.h"

#include "app/life_kept.h"
#include "store/taught.h"

#define HOUR_MS 3600000.0
#define COLD_PAST_MS ((DW_LIFE_LONGEST_H + 24) * 3600000LL)
/* Coarser than a single ball's: a strip is read to the hour. */
#define SHELLS 12
#define BENCH_H_W_PER_M2_K 8
#define ROOM_USUAL_C 22
#define COLD_USUAL_C 3.3

const char *const dw_no_life_words[] = {"form", "dough", "times", "answer",
                                        NULL};

static const dw_field moment_fields[] = {
    DW_F_MOMENT(dw_stack_moment, at_ms, "0: not within 14 days"),
    DW_F_MOMENT(dw_stack_moment, early_ms, "one life in twenty is earlier"),
    DW_F_MOMENT(dw_stack_moment, late_ms, "one in twenty later"),
};
const dw_shape dw_stack_moment_shape =
    DW_SHAPE("stack_moment", dw_stack_moment, moment_fields, "of the window");

static const dw_field life_fields[] = {
    DW_F_REAL(dw_stack_life, piece_g, "g", 0, 20000, "weight of a ball"),
    DW_F_REAL(dw_stack_life, dough_c, "degC", -40, 60, "off the mixer"),
    DW_F_REAL(dw_stack_life, air_c, "degC", -40, 60, "of the cold room"),
    DW_F_YES(dw_stack_life, air_read, false, "in the last 18 hours"),
    DW_F_YES(dw_stack_life, air_learned, false,
             "what its log says it settles to; else the room's setting"),
    DW_F_YES(dw_stack_life, closed, false, "else when it is due, or now"),
    DW_F_REAL(dw_stack_life, bench_h, "h", 0, 1e6, "mixer to box"),
    DW_F_REAL(dw_stack_life, open_h, "h", 0, 1e6, "open in the cold"),
    DW_F_ONE(dw_stack_life, ready, &dw_stack_moment_shape,
             "opens without tearing"),
    DW_F_ONE(dw_stack_life, best, &dw_stack_moment_shape, "best from"),
    DW_F_ONE(dw_stack_life, use_first, &dw_stack_moment_shape,
             "before all other"),
    DW_F_ONE(dw_stack_life, end, &dw_stack_moment_shape, "past"),
    DW_F_TEXT_OPT(dw_stack_life, end_reason, 20, "what ends it"),
    DW_F_REAL(dw_stack_life, open_w_per_m2_k, "W/m2K", 0, 200,
              "heat transfer while open"),
    DW_F_REAL(dw_stack_life, closed_w_per_m2_k, "W/m2K", 0, 200, "closed"),
    DW_F_WHOLE(dw_stack_life, open_readings, "", 0, 1e9,
               "core probes behind it; 0: the shop's setting"),
    DW_F_WHOLE(dw_stack_life, closed_readings, "", 0, 1e9,
               "core probes behind it; 0: the trade's"),
    DW_F_REAL(dw_stack_life, activity, "-", 0, 10,
              "of its yeast against the usual"),
    DW_F_REAL(dw_stack_life, f_Tmin, "degC", -10, 10, "gas stops at this cold"),
    DW_F_WHOLE(dw_stack_life, yeast_readings, "", 0, 1e9,
               "cups and verdicts behind these two; 0: the usual"),
};
const dw_shape dw_stack_life_shape =
    DW_SHAPE("stack_life", dw_stack_life, life_fields,
             "from its own readings and times");

dw_status dw_stack_lives_begin(dw_call *call, const dw_shop *shop,
                               int64_t members, size_t batches,
                               dw_stack_lives *lives)
{
    *lives = (dw_stack_lives){
        .call = call,
        .shop = shop,
        .members = members,
        .block = dw_arena_take(call->arena, DW_STACK_LIFE_BYTES),
        .recipes = DW_NEW_ARRAY(call->arena, dw_recipe, batches ? batches : 1),
        .recipes_room = batches};
    if (!lives->block || !lives->recipes)
        return dw_fail(call->err, DW_E_ROOM, "stacks", NULL);
    DW_TRY(dw_store_cold_since(call->store, call->now_ms - COLD_PAST_MS,
                               call->arena, &lives->cold, &lives->cold_count,
                               call->err));
    return dw_taught_read(call, &lives->taught);
}

static dw_status recipe_of(dw_stack_lives *lives, int64_t version_id,
                           const dw_recipe **recipe)
{
    for (size_t i = 0; i < lives->recipes_count; i++) {
        *recipe = &lives->recipes[i];
        if ((*recipe)->version_id == version_id)
            return DW_OK;
    }
    DW_ASSERT(lives->recipes_count < lives->recipes_room);
    dw_recipe *next = &lives->recipes[lives->recipes_count];
    DW_TRY(dw_recipe_read(lives->call, version_id, next));
    lives->recipes_count++;
    *recipe = next;
    return DW_OK;
}

/* What the cold room's air settles to by its log, or is set to. */
static dw_status usual_air(const dw_stack_lives *lives, const dw_stack *stack,
                           double *air_c, bool *learned)
{
    const dw_taught_row *settles =
        dw_taught_find(&lives->taught, DW_TAUGHT_AIR);
    dw_cold_room room = {.air_c = COLD_USUAL_C};
    if (stack->cold_room_id != 0)
        DW_TRY(dw_row_get(lives->call, "cold_room", &dw_cold_room_noun,
                          stack->cold_room_id, "cold_room_id", &room));
    *air_c = settles ? settles->mean : room.air_c;
    *learned = settles != NULL;
    return DW_OK;
}

/* Air of the cold room: the batch's own reading, the newest of the shop, or
 * the usual. */
static dw_status read_air(dw_stack_lives *lives, const dw_stack *stack,
                          dw_stack_life *life)
{
    double usual_c;
    bool learned;
    DW_TRY(usual_air(lives, stack, &usual_c, &learned));
    DW_TRY(dw_reading_or(lives->call, stack->batch_id, DW_READ_COLD, usual_c,
                         &life->air_c, &life->air_read));
    life->air_learned = !life->air_read && learned;
    return DW_OK;
}

static double hours_between(int64_t from_ms, int64_t to_ms)
{
    double hours = (double)(to_ms - from_ms) / HOUR_MS;
    return hours > 1 / 60.0 ? hours : 1 / 60.0;
}

/* An open stack is closed when it is due; overdue, it is open until now. */
static int64_t closing_ms(const dw_stack *stack, int64_t now_ms)
{
    if (stack->closed_ms != 0)
        return stack->closed_ms;
    return stack->close_due_ms > now_ms ? stack->close_due_ms : now_ms;
}

static int64_t readings_of(const dw_taught_row *row)
{
    return row ? row->used + row->doubted : 0;
}

/* How fast its stack cools and how its yeast works: learned where it is. */
static dw_status fill_taught(dw_stack_lives *lives, const dw_batch_row *batch,
                             const dw_formula *formula, dw_stack_life *life,
                             dw_taught_model *yeast)
{
    const dw_taught *taught = &lives->taught;
    dw_stack_h h = dw_taught_h(taught, lives->shop);
    life->open_w_per_m2_k = h.open_w_per_m2_k;
    life->closed_w_per_m2_k = h.closed_w_per_m2_k;
    life->open_readings =
        readings_of(dw_taught_find(taught, DW_TAUGHT_OFFSET_H));
    life->closed_readings =
        readings_of(dw_taught_find(taught, DW_TAUGHT_CLOSED_H));
    dw_yeast_key key = {.yeast = -1};
    if (taught->count > 0 && dw_formula_yeast(formula, &key.yeast))
        DW_TRY(dw_batch_yeast_key(lives->call, batch, &key));
    dw_taught_model_of(taught, &key, yeast);
    life->activity = yeast->activity ? yeast->activity->mean : 1;
    life->f_Tmin = yeast->model.f_Tmin;
    life->yeast_readings = readings_of(yeast->activity);
    return DW_OK;
}

static void fill_legs(const dw_stack_life *life, double room_c, dw_leg legs[3])
{
    legs[0] = (dw_leg){life->bench_h, room_c, BENCH_H_W_PER_M2_K};
    legs[1] = (dw_leg){life->open_h, life->air_c, life->open_w_per_m2_k};
    legs[2] = (dw_leg){1, life->air_c, life->closed_w_per_m2_k};
}

static int64_t ms_of(int64_t from_ms, bool has, double hours)
{
    return has ? from_ms + (int64_t)(hours * HOUR_MS) : 0;
}

dw_stack_moment dw_stack_moment_of(int64_t from_ms, bool has, double hours,
                                   const dw_band_moment *band)
{
    return (dw_stack_moment){ms_of(from_ms, has, hours),
                             ms_of(from_ms, band->has_p05, band->p05),
                             ms_of(from_ms, band->has_p95, band->p95)};
}

static void take_window(int64_t from_ms, const dw_life_reply *reply,
                        dw_stack_life *life)
{
    const dw_window *w = &reply->window;
    const dw_band_window none = {0};
    const dw_band_window *band = reply->has_band ? &reply->band.window : &none;
#define TAKE(member, name)                                                     \
    life->member =                                                             \
        dw_stack_moment_of(from_ms, w->has_##name, w->name, &band->name)
    TAKE(ready, ready_h);
    TAKE(best, best_from_h);
    TAKE(use_first, use_first_h);
    TAKE(end, end_h);
#undef TAKE
    life->end_reason = w->end_reason;
}

dw_life_limits dw_stack_life_limits(void)
{
    dw_life_request usual;
    dw_shape_preset(&dw_life_request_shape, &usual);
    return dw_life_limits_of(&usual);
}

void dw_stack_story_request(const dw_stack_lives *lives, dw_stack_story *story,
                            const dw_stack_life *life, dw_life_request *request)
{
    dw_shape_preset(&dw_life_request_shape, request);
    request->formula = story->formula;
    request->piece_g = life->piece_g;
    request->has_dough_c = true;
    request->dough_c = life->dough_c;
    request->legs = story->legs;
    request->legs_count = DW_COUNT(story->legs);
    request->members = lives->members;
    request->model = story->yeast.model;
    request->ranges = story->yeast.ranges;
    request->ranges_count = story->yeast.ranges_count;
    request->shells = SHELLS;
    request->report_every_h = DW_LIFE_LONGEST_H;
}

bool dw_stack_story_live(dw_stack_lives *lives, dw_stack_story *story,
                         const dw_stack_life *life, dw_life_reply *reply)
{
    dw_life_request request;
    dw_stack_story_request(lives, story, life, &request);
    dw_arena arena;
    dw_arena_init(&arena, lives->block, DW_STACK_LIFE_BYTES);
    dw_err refused;
    return dw_shape_check(&dw_life_request_shape, &request, &refused) ==
               DW_OK &&
           dw_life_run(&request, &arena, reply, &refused) == DW_OK;
}

dw_status dw_stack_stand(dw_stack_lives *lives, const dw_stack *stack,
                         const dw_batch_row *batch, dw_stack_life *life,
                         dw_stack_story *story)
{
    dw_call *call = lives->call;
    bool read;
    double room_c;
    DW_TRY(dw_reading_or(call, batch->id, DW_READ_ROOM, ROOM_USUAL_C, &room_c,
                         &read));
    DW_TRY(read_air(lives, stack, life));
    life->closed = stack->closed_ms != 0;
    life->bench_h = hours_between(batch->stopped_ms, stack->opened_ms);
    life->open_h =
        hours_between(stack->opened_ms, closing_ms(stack, call->now_ms));
    DW_TRY(fill_taught(lives, batch, &story->formula, life, &story->yeast));
    fill_legs(life, room_c, story->legs);
    return DW_OK;
}

/* The rooms, the weight and the times of a stack that can be told, and its
 * dough as it was in the bowl. */
static dw_status tell(dw_stack_lives *lives, const dw_stack *stack,
                      const dw_batch_row *batch, const dw_product *product,
                      dw_stack_life *life, dw_stack_story *story)
{
    dw_call *call = lives->call;
    life->piece_g = product->ball_kg * 1000;
    const dw_recipe *recipe;
    DW_TRY(recipe_of(lives, batch->version_id, &recipe));
    dw_bowl bowl;
    DW_TRY(dw_bowl_read(call, lives->shop, batch, &recipe->formula, &bowl));
    story->formula = bowl.now;
    return dw_stack_stand(lives, stack, batch, life, story);
}

dw_status dw_stack_story_of(dw_stack_lives *lives, const dw_stack *stack,
                            const dw_batch_row *batch,
                            const dw_product *product, dw_stack_life *life,
                            dw_stack_story *story, bool *told, int *none)
{
    bool read;
    *told = false;
    *none = DW_NO_LIFE_FORM;
    if (product->form != DW_FORM_BALL)
        return DW_OK;
    *none = DW_NO_LIFE_TIMES;
    if (batch->stopped_ms == 0 || stack->opened_ms < batch->stopped_ms)
        return DW_OK;
    *none = DW_NO_LIFE_DOUGH;
    DW_TRY(dw_reading_newest(lives->call, batch->id, DW_READ_DOUGH,
                             &life->dough_c, &read));
    if (!read)
        return DW_OK;
    DW_TRY(tell(lives, stack, batch, product, life, story));
    *told = true;
    return DW_OK;
}

/* Legs with the air as it was read while the stack stood in it. */
static dw_status tell_air(dw_stack_lives *lives, const dw_stack *stack,
                          const dw_batch_row *batch,
                          const dw_stack_story *story, dw_stack_life *life,
                          dw_stack_legs *legs)
{
    int64_t now_ms = lives->call->now_ms;
    dw_stack_air air = {.readings = lives->cold,
                        .readings_count = lives->cold_count,
                        .batch_id = stack->batch_id};
    dw_stack_times times = {batch->stopped_ms, stack->opened_ms,
                            closing_ms(stack, now_ms), now_ms, life->closed};
    bool learned;
    DW_TRY(usual_air(lives, stack, &air.usual_c, &learned));
    if (!dw_stack_air_legs(&air, &times, story->legs, lives->call->arena, legs))
        return dw_fail(lives->call->err, DW_E_ROOM, "stacks", NULL);
    life->air_c = legs->air_c;
    life->air_read = legs->air_read;
    life->air_learned = !legs->air_read && learned;
    return DW_OK;
}

dw_status dw_stack_tale_of(dw_stack_lives *lives, const dw_stack *stack,
                           const dw_batch_row *batch, const dw_product *product,
                           dw_stack_tale *tale)
{
    dw_stack_legs legs;
    *tale =
        (dw_stack_tale){.stack_id = stack->id, .stopped_ms = batch->stopped_ms};
    DW_TRY(dw_stack_story_of(lives, stack, batch, product, &tale->life,
                             &tale->story, &tale->has_life, &tale->none));
    if (!tale->has_life)
        return DW_OK;
    DW_TRY(tell_air(lives, stack, batch, &tale->story, &tale->life, &legs));
    dw_stack_story_request(lives, &tale->story, &tale->life, &tale->request);
    tale->request.legs = legs.legs;
    tale->request.legs_count = legs.count;
    tale->over = legs.over;
    return DW_OK;
}

typedef struct crew {
    dw_stack_lives *lives;
    dw_stack_tale *tales;
    unsigned char *blocks; /* one for each hand */
} crew;

static void live_one(void *owner, size_t hand, size_t index)
{
    const crew *c = owner;
    dw_stack_tale *tale = &c->tales[index];
    dw_arena arena;
    dw_life_reply reply;
    dw_err refused;
    dw_arena_init(&arena, c->blocks + hand * DW_STACK_LIFE_BYTES,
                  DW_STACK_LIFE_BYTES);
    if (!tale->has_life)
        return;
    tale->none = DW_NO_LIFE_ANSWER;
    tale->has_life =
        dw_shape_check(&dw_life_request_shape, &tale->request, &refused) ==
            DW_OK &&
        dw_life_kept_run(c->lives->call->kept, tale->stack_id, &tale->request,
                         tale->over, &arena, &reply, &refused) == DW_OK;
    if (tale->has_life)
        take_window(tale->stopped_ms, &reply, &tale->life);
}

dw_status dw_stack_tales_live(dw_stack_lives *lives, dw_stack_tale *tales,
                              size_t count)
{
    const dw_hands *hands = count > 1 ? lives->call->hands : NULL;
    crew c = {lives, tales, lives->block};
    if (hands)
        c.blocks = dw_arena_take(lives->call->arena,
                                 hands->count * DW_STACK_LIFE_BYTES);
    if (!c.blocks)
        return dw_fail(lives->call->err, DW_E_ROOM, "stacks", NULL);
    if (hands)
        hands->share(hands->crew, count, live_one, &c);
    for (size_t i = 0; !hands && i < count; i++)
        live_one(&c, 0, i);
    return DW_OK;
}

dw_status dw_stack_life_of(dw_stack_lives *lives, const dw_stack *stack,
                           const dw_batch_row *batch, const dw_product *product,
                           dw_stack_life *life, bool *has_life, int *none)
{
    dw_stack_tale tale;
    DW_TRY(dw_stack_tale_of(lives, stack, batch, product, &tale));
    DW_TRY(dw_stack_tales_live(lives, &tale, 1));
    *life = tale.life;
    *has_life = tale.has_life;
    *none = tale.none;
    return DW_OK;
}
