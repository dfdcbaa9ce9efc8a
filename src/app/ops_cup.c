/* The witness cup: dough in a marked cup tells within the hour whether its
 * yeast works, and then how strong it is. */
#include "app/card.h"
#include "app/taught.h"

#include "doughwright/say.h"

#include <math.h>

#define ID_LAST 9007199254740991.0
#define YEAST_BYTES ((size_t)6 << 20)
/* Probabilities from which it is said (our choice). */
#define NO_YEAST 0.9
#define DOUBTFUL 0.2
/* Before that much dough has risen nothing can be told from it. */
#define TOO_SOON 1.1

/* ---- what is told -------------------------------------------------------- */

static const char *const found_words[] = {"not_told", "too_soon",   "works",
                                          "doubtful", "look_again", "no_yeast",
                                          NULL};
enum { NOT_TOLD, SOON, WORKS, LOOKED_WRONG, LOOK_AGAIN, DEAD };

typedef struct cup_told {
    dw_cup cup;
    dw_cup_reading *readings;
    size_t readings_count;
    int found;
    double minutes; /* since the mixer, of the newest look */
    double volume_ratio;
    bool has_expected_ratio;
    double expected_ratio;
    double no_yeast_probability;
    const char *message;
} cup_told;
static const dw_field cup_told_fields[] = {
    DW_F_ONE(cup_told, cup, &dw_cup_noun, "the cup"),
    DW_F_MANY_OPT(cup_told, readings, &dw_cup_reading_noun, 100,
                  "the looks at it"),
    DW_F_CHOICE(cup_told, found, found_words, "what the newest look says"),
    DW_F_REAL(cup_told, minutes, "min", -1e9, 1e9, "since the mixer, then"),
    DW_F_REAL(cup_told, volume_ratio, "-", 0, 1e4, "against the first, then"),
    DW_F_REAL_OPT(cup_told, expected_ratio, "-", 0, 1e4,
                  "by what is known of this yeast"),
    DW_F_REAL(cup_told, no_yeast_probability, "-", 0, 1,
              "that yeast was forgotten or is dead"),
    DW_F_TEXT_OPT(cup_told, message, 1000, "the same in words"),
};
static const dw_shape cup_told_shape =
    DW_SHAPE("cup_told", cup_told, cup_told_fields, "a cup and what it says");

/* ---- the lesson of its yeast --------------------------------------------- */

/* The cup's place in the lesson of its yeast. */
typedef struct place {
    size_t index; /* of the ask's cups */
    dw_teach_yeast reply;
} place;

static dw_status find_place(dw_call *call, const cup_told *told, int yeast,
                            place *at, bool *found)
{
    dw_left_outs outs;
    dw_teach_yeast_ask ask;
    dw_case cups, verdicts;
    dw_taught taught;
    dw_shop shop;
    dw_arena arena;
    void *block = dw_arena_take(call->arena, YEAST_BYTES);
    *found = false;
    if (!block)
        return dw_fail(call->err, DW_E_ROOM, "cup", NULL);
    dw_arena_init(&arena, block, YEAST_BYTES);
    DW_TRY(dw_shop_get(call, &shop));
    DW_TRY(dw_taught_read(call, &taught));
    DW_TRY(dw_left_outs_read(call, &outs));
    dw_stack_h h = dw_taught_h(&taught, &shop);
    dw_yeast_key key = {.yeast = yeast};
    DW_TRY(dw_evidence_yeast(call, &h, &outs, &key, &ask, &cups, &verdicts));
    DW_TRY(dw_teach_yeast_run(&ask, &arena, &at->reply, call->err));
    for (size_t i = 0; i < ask.cups_count && !*found; i++) {
        at->index = i;
        *found = cups.entries[cups.entry_of[i]].of_id == told->readings[0].id;
    }
    return DW_OK;
}

/* ---- in words ------------------------------------------------------------ */

static const char *sentence_of(int found)
{
    switch (found) {
    case SOON:
        return DW_MSG("Too soon to tell after {minutes} min at {c} °C ({f} "
                      "°F): look again in 15 minutes.");
    case WORKS:
        return DW_MSG("The yeast works: {ratio} times its volume after "
                      "{minutes} min, {expected} expected.");
    case LOOKED_WRONG:
        return DW_MSG("{ratio} times its volume after {minutes} min is unlike "
                      "the other looks, or cannot be. Look again.");
    case LOOK_AGAIN:
        return DW_MSG("Hardly any rise after {minutes} min at {c} °C ({f} °F): "
                      "yeast may be forgotten or dead. Look again in 15 "
                      "minutes.");
    case DEAD:
        return DW_MSG("No rise after {minutes} min at {c} °C ({f} °F): yeast "
                      "forgotten or dead. {expected} times its volume was "
                      "expected.");
    default: return DW_MSG("Nothing can be told from this cup.");
    }
}

static double tenths(double value)
{
    return round(value * 10) / 10;
}

/* Where it stood until the newest look. */
static double stood_c(const cup_told *told)
{
    return told->readings_count > 1
               ? told->readings[told->readings_count - 2].place_c
               : told->cup.place_c;
}

static dw_status say(dw_call *call, cup_told *told)
{
    double c = stood_c(told);
    const dw_value values[] = {
        DW_VALUE_NUMBER("minutes", round(told->minutes)),
        DW_VALUE_NUMBER("c", tenths(c)),
        DW_VALUE_NUMBER("f", round(c * 1.8 + 32)),
        DW_VALUE_NUMBER("ratio", tenths(told->volume_ratio)),
        DW_VALUE_NUMBER("expected", tenths(told->expected_ratio))};
    told->message = dw_say_in(call->arena, call->lang, sentence_of(told->found),
                              values, DW_COUNT(values));
    return told->message ? DW_OK
                         : dw_fail(call->err, DW_E_ROOM, "message", NULL);
}

static int found_of(const cup_told *told, const dw_teach_mark *mark)
{
    if (told->no_yeast_probability >= NO_YEAST)
        return DEAD;
    if (told->no_yeast_probability >= DOUBTFUL)
        return LOOK_AGAIN;
    if (mark->use != DW_TEACH_USED)
        return LOOKED_WRONG;
    bool soon = told->has_expected_ratio && told->expected_ratio < TOO_SOON;
    return soon && told->volume_ratio < TOO_SOON ? SOON : WORKS;
}

/* ---- telling ------------------------------------------------------------- */

static dw_status tell_newest(dw_call *call, const dw_batch_row *batch,
                             cup_told *told)
{
    const dw_cup_reading *newest = &told->readings[told->readings_count - 1];
    int64_t from_ms =
        batch->stopped_ms != 0 && batch->stopped_ms < told->cup.occurred_ms
            ? batch->stopped_ms
            : told->cup.occurred_ms;
    told->minutes = (double)(newest->occurred_ms - from_ms) / 60000;
    told->volume_ratio = newest->volume_ml / told->cup.start_ml;
    dw_recipe recipe;
    int yeast;
    place at;
    bool found = false;
    DW_TRY(dw_recipe_read(call, batch->version_id, &recipe));
    if (dw_formula_yeast(&recipe.formula, &yeast))
        DW_TRY(find_place(call, told, yeast, &at, &found));
    if (!found)
        return DW_OK;
    const dw_teach_cup_found *cup = &at.reply.cups[at.index];
    size_t last = cup->marks_count < told->readings_count
                      ? cup->marks_count - 1
                      : told->readings_count - 1;
    const dw_teach_mark *mark = &cup->marks[last];
    told->no_yeast_probability = cup->no_yeast_probability;
    told->has_expected_ratio = mark->has_expected;
    told->expected_ratio = mark->expected;
    told->found = found_of(told, mark);
    return DW_OK;
}

static dw_status tell(dw_call *call, int64_t cup_id, cup_told *told)
{
    dw_batch_row batch;
    *told = (cup_told){.found = NOT_TOLD};
    DW_TRY(dw_row_get(call, "cup", &dw_cup_noun, cup_id, "cup_id", &told->cup));
    DW_TRY(dw_row_get(call, "batch", &dw_batch_noun, told->cup.batch_id,
                      "batch_id", &batch));
    DW_TRY(dw_rows_get(call, "cup_reading", &dw_cup_reading_noun, "cup_id",
                       cup_id, "id", &told->readings, &told->readings_count));
    if (told->readings_count == 0)
        return DW_OK;
    DW_TRY(tell_newest(call, &batch, told));
    return say(call, told);
}

/* ---- cup.begin ----------------------------------------------------------- */

typedef struct begin_given {
    int64_t batch_id;
    double start_ml;
    bool has_place_c;
    double place_c;
} begin_given;
static const dw_field begin_given_fields[] = {
    DW_F_WHOLE(begin_given, batch_id, "", 1, ID_LAST, "of which batch"),
    DW_F_REAL_PRESET(begin_given, start_ml, "mL", 5, 5000, 100,
                     "dough in it, up to which mark"),
    DW_F_REAL_OPT(begin_given, place_c, "degC", -30, 110,
                  "where it stands; not told: the room, as read"),
};
static const dw_shape begin_given_shape =
    DW_SHAPE("cup_begin", begin_given, begin_given_fields,
             "dough off the mixer into a marked cup");

static dw_status begin_run(dw_call *call, const void *request, void *reply)
{
    const begin_given *given = request;
    dw_batch_row batch;
    bool read = true;
    DW_TRY(dw_batch_open(call, given->batch_id, &batch));
    dw_cup cup = {.batch_id = given->batch_id,
                  .start_ml = given->start_ml,
                  .place_c = given->place_c,
                  .occurred_ms = call->occurred_ms,
                  .received_ms = call->now_ms,
                  .person_id = call->person_id,
                  .device = call->device};
    if (!given->has_place_c)
        DW_TRY(dw_reading_or(call, given->batch_id, DW_READ_ROOM, 0,
                             &cup.place_c, &read));
    if (!read)
        return dw_fail(call->err, DW_E_MISSING, "place_c", NULL);
    DW_TRY(dw_row_save(call, "cup", &dw_cup_noun, &cup, &cup.id));
    return tell(call, cup.id, reply);
}

/* ---- cup.read ------------------------------------------------------------ */

typedef struct read_given {
    int64_t cup_id;
    double volume_ml;
    bool has_place_c;
    double place_c;
} read_given;
static const dw_field read_given_fields[] = {
    DW_F_WHOLE(read_given, cup_id, "", 1, ID_LAST, "which cup"),
    DW_F_REAL(read_given, volume_ml, "mL", 1, 50000, "up to which mark"),
    DW_F_REAL_OPT(read_given, place_c, "degC", -30, 110,
                  "where it stands from now on; not told: as before"),
};
static const dw_shape read_given_shape =
    DW_SHAPE("cup_read", read_given, read_given_fields, "a look at a cup");

static dw_status read_run(dw_call *call, const void *request, void *reply)
{
    const read_given *given = request;
    dw_cup cup;
    dw_cup_reading *rows;
    size_t n;
    DW_TRY(
        dw_row_get(call, "cup", &dw_cup_noun, given->cup_id, "cup_id", &cup));
    DW_TRY(dw_rows_get(call, "cup_reading", &dw_cup_reading_noun, "cup_id",
                       cup.id, "id", &rows, &n));
    if (n >= DW_CUP_LOOKS_MOST)
        return dw_fail_says(call->err, DW_E_CONFLICT, "cup_id", NULL,
                            DW_MSG("was looked at often enough; take another "
                                   "cup"));
    double stands_c = n > 0 ? rows[n - 1].place_c : cup.place_c;
    dw_cup_reading row = {.cup_id = cup.id,
                          .volume_ml = given->volume_ml,
                          .place_c =
                              given->has_place_c ? given->place_c : stands_c,
                          .occurred_ms = call->occurred_ms,
                          .received_ms = call->now_ms,
                          .person_id = call->person_id,
                          .device = call->device};
    DW_TRY(dw_row_save(call, "cup_reading", &dw_cup_reading_noun, &row, NULL));
    DW_TRY(dw_taught_learn(call, DW_LESSON_YEAST));
    return tell(call, cup.id, reply);
}

/* ---- cup.list ------------------------------------------------------------ */

typedef struct list_ask {
    int64_t batch_id;
} list_ask;
static const dw_field list_ask_fields[] = {
    DW_F_WHOLE(list_ask, batch_id, "", 1, ID_LAST, "of which batch"),
};
static const dw_shape list_ask_shape =
    DW_SHAPE("cup_list_ask", list_ask, list_ask_fields, "a batch's cups");

typedef struct cup_list {
    cup_told *cups;
    size_t cups_count;
} cup_list;
static const dw_field cup_list_fields[] = {
    DW_F_MANY_OPT(cup_list, cups, &cup_told_shape, 1000, "newest first"),
};
static const dw_shape cup_list_shape =
    DW_SHAPE("cup_list", cup_list, cup_list_fields, "the cups of a batch");

static dw_status list_run(dw_call *call, const void *request, void *reply)
{
    cup_list *list = reply;
    dw_cup *rows;
    size_t n;
    DW_TRY(dw_rows_get(call, "cup", &dw_cup_noun, "batch_id",
                       ((const list_ask *)request)->batch_id,
                       "occurred_ms DESC, id DESC", &rows, &n));
    list->cups = DW_NEW_ARRAY(call->arena, cup_told, n + 1);
    if (!list->cups)
        return dw_fail(call->err, DW_E_ROOM, "cups", NULL);
    n = n < 2 ? n : 2; /* a batch has one, seldom a second in the cold */
    for (size_t i = 0; i < n; i++)
        DW_TRY(tell(call, rows[i].id, &list->cups[i]));
    list->cups_count = n;
    return DW_OK;
}

const dw_op dw_ops_cup[] = {
    {"cup.begin", DW_OP_WRITE, &begin_given_shape, &cup_told_shape, begin_run,
     "Put dough of a batch into a marked cup."},
    {"cup.list", DW_OP_READ, &list_ask_shape, &cup_list_shape, list_run,
     "The newest two cups of a batch and what they say."},
    {"cup.read", DW_OP_WRITE, &read_given_shape, &cup_told_shape, read_run,
     "Look at a cup: does its yeast work?"},
};
const size_t dw_ops_cup_count = DW_COUNT(dw_ops_cup);
