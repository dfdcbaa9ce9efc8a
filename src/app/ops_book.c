/* The batch book: every batch as a line that reads like a log; a batch entered
 * from paper; bags of minors. */
#include "app/card.h"
#include "app/doubt.h"
#include "app/stock.h"
#include "app/taught.h"
#include "store/trace.h"

#include "doughwright/minors.h"
#include "doughwright/say.h"

#define MOMENT_LAST 9007199254740991.0

/* ---- batch.list ---------------------------------------------------------- */

typedef struct days_asked {
    int64_t from_day, to_day;
} days_asked;
static const dw_field days_asked_fields[] = {
    DW_F_WHOLE_PRESET(days_asked, from_day, "d", 0, 84000, 0, "first day"),
    DW_F_WHOLE_PRESET(days_asked, to_day, "d", 0, 84000, 84000, "last day"),
};
static const dw_shape days_asked_shape =
    DW_SHAPE("days_asked", days_asked, days_asked_fields, "which days");

/* A line of the book. */
typedef struct book_line {
    dw_batch_row batch;
    const char *formula_name, *mixer_name, *person_name;
    int64_t version_number;
    dw_card_cut *pieces;
    size_t pieces_count;
    bool has_dough_c;
    double dough_c;
    dw_verdict *verdicts;
    size_t verdicts_count;
    int64_t changes; /* how many things were off */
} book_line;
static const dw_field book_line_fields[] = {
    DW_F_ONE(book_line, batch, &dw_batch_noun, "the batch"),
    DW_F_TEXT(book_line, formula_name, 80, "its formula"),
    DW_F_TEXT_OPT(book_line, mixer_name, 60, "its mixer"),
    DW_F_TEXT_OPT(book_line, person_name, 60, "who mixed"),
    DW_F_WHOLE(book_line, version_number, "", 0, 100000, "its version"),
    DW_F_MANY_OPT(book_line, pieces, &dw_card_cut_shape, 40, "cut into"),
    DW_F_REAL_OPT(book_line, dough_c, "degC", -30, 110, "as last read"),
    DW_F_MANY_OPT(book_line, verdicts, &dw_verdict_noun, 1000, "how it was"),
    DW_F_WHOLE(book_line, changes, "", 0, 1e9, "things that were off"),
};
static const dw_shape book_line_shape =
    DW_SHAPE("book_line", book_line, book_line_fields, "a line of the book");

typedef struct book {
    book_line *batches; /* by day and planned start */
    size_t batches_count;
} book;
static const dw_field book_fields[] = {
    DW_F_MANY_OPT(book, batches, &book_line_shape, 100000, "in order of days"),
};
static const dw_shape book_shape =
    DW_SHAPE("book", book, book_fields, "the batch book");

static dw_status fill_line(dw_call *call, const dw_batch_row *row,
                           book_line *line)
{
    dw_card card;
    *line = (book_line){.batch = *row};
    DW_TRY(dw_card_outline(call, row->id, &card));
    line->formula_name = card.formula_name;
    line->mixer_name = card.mixer_name;
    line->person_name = card.person_name;
    line->version_number = card.version_number;
    line->pieces = card.pieces;
    line->pieces_count = card.pieces_count;
    line->verdicts = card.verdicts;
    line->verdicts_count = card.verdicts_count;
    line->changes = (int64_t)card.changes_count;
    return dw_reading_newest(call, row->id, DW_READ_DOUGH, &line->dough_c,
                             &line->has_dough_c);
}

static dw_status fill_lines(dw_call *call, const dw_batch_row *rows, size_t n,
                            book_line **lines)
{
    book_line *all = DW_NEW_ARRAY(call->arena, book_line, n);
    if (!all)
        return dw_fail(call->err, DW_E_ROOM, "batches", NULL);
    for (size_t i = 0; i < n; i++)
        DW_TRY(fill_line(call, &rows[i], &all[i]));
    *lines = all;
    return DW_OK;
}

static dw_status list_run(dw_call *call, const void *request, void *reply)
{
    const days_asked *asked = request;
    book *list = reply;
    dw_batch_row *rows;
    DW_TRY(dw_store_batches_of_days(call->store, asked->from_day, asked->to_day,
                                    call->arena, &rows, &list->batches_count,
                                    call->err));
    return fill_lines(call, rows, list->batches_count, &list->batches);
}

/* ---- batch.find ---------------------------------------------------------- */

static const dw_field search_fields[] = {
    DW_F_WHOLE_PRESET(dw_batch_search, from_day, "d", 0, 84000, 0, "first day"),
    DW_F_WHOLE_PRESET(dw_batch_search, to_day, "d", 0, 84000, 84000,
                      "last day"),
    DW_F_TEXT_OPT(dw_batch_search, text, DW_FIND_TEXT,
                  "words of formula, product, person, mixer, note or lot; or "
                  "a batch's number"),
    DW_F_CHOICE_OPT(dw_batch_search, verdict, dw_verdict_words, "how it was"),
    DW_F_YES(dw_batch_search, off, false, "only where something was off"),
    DW_F_WHOLE_PRESET(dw_batch_search, limit, "", 1, 1000, 40, "at most"),
    DW_F_WHOLE_PRESET(dw_batch_search, offset, "", 0, 1e9, 0,
                      "so many newer ones are left out"),
};
static const dw_shape search_shape =
    DW_SHAPE("batch_search", dw_batch_search, search_fields, "which batches");

typedef struct found {
    book_line *batches;
    size_t batches_count;
    bool more;
} found;
static const dw_field found_fields[] = {
    DW_F_MANY_OPT(found, batches, &book_line_shape, 1000, "newest first"),
    DW_F_YES(found, more, false, "older ones match as well"),
};
static const dw_shape found_shape =
    DW_SHAPE("found_batches", found, found_fields, "what was found");

/* One more than asked is looked for, to know whether there is one. */
static dw_status find_run(dw_call *call, const void *request, void *reply)
{
    dw_batch_search search = *(const dw_batch_search *)request;
    found *out = reply;
    dw_batch_row *rows;
    size_t n, most = (size_t)search.limit++;
    DW_TRY(dw_store_batches_find(call->store, &search, call->arena, &rows, &n,
                                 call->err));
    out->more = n > most;
    out->batches_count = out->more ? most : n;
    return fill_lines(call, rows, out->batches_count, &out->batches);
}

/* ---- batch.enter --------------------------------------------------------- */

/* A sheet that was filled in by hand, in the order of the sheet. Whatever is
 * blank stays as it was planned. */
typedef struct sheet_weighing {
    int64_t weighing_id, lot_id;
    bool has_weighed_kg;
    double weighed_kg;
} sheet_weighing;
static const dw_field sheet_weighing_fields[] = {
    DW_F_WHOLE(sheet_weighing, weighing_id, "", 1, MOMENT_LAST, "which"),
    DW_F_REAL_OPT(sheet_weighing, weighed_kg, "kg", 0, 2000, "what came"),
    DW_F_ID(sheet_weighing, lot_id, "from which lot"),
};
static const dw_shape sheet_weighing_shape =
    DW_SHAPE("sheet_weighing", sheet_weighing, sheet_weighing_fields,
             "a weighing of the sheet");

typedef struct sheet {
    int64_t batch_id, person_id;
    int64_t started_ms, stopped_ms, first_box_ms, last_box_ms, closed_ms;
    bool has_flour_c, has_room_c, has_tap_c, has_water_c, has_dough_c;
    double flour_c, room_c, tap_c, water_c, dough_c;
    sheet_weighing *weighings;
    size_t weighings_count;
    dw_batch_piece *pieces;
    size_t pieces_count;
    bool has_scrap_kg, has_residue_kg;
    double scrap_kg, residue_kg;
    const char *note;
} sheet;
#define SHEET_C(m, about) DW_F_REAL_OPT(sheet, m, "degC", -30, 110, about)
static const dw_field sheet_fields[] = {
    DW_F_WHOLE(sheet, batch_id, "", 1, MOMENT_LAST, "which batch"),
    DW_F_ID(sheet, person_id, "who mixed"),
    DW_F_MANY_OPT(sheet, weighings, &sheet_weighing_shape, 400, "weighed"),
    SHEET_C(flour_c, "flour"),
    SHEET_C(room_c, "room"),
    SHEET_C(tap_c, "tap water"),
    SHEET_C(water_c, "water as it went in"),
    DW_F_WHOLE(sheet, started_ms, "ms", 1, MOMENT_LAST, "first step"),
    DW_F_MOMENT(sheet, stopped_ms, "mixer stopped"),
    SHEET_C(dough_c, "dough off the mixer"),
    DW_F_MANY_OPT(sheet, pieces, &dw_boxed_piece_shape, 40, "balls that came"),
    DW_F_MOMENT(sheet, first_box_ms, "first box in the cold room"),
    DW_F_MOMENT(sheet, last_box_ms, "last box in the cold room"),
    DW_F_MOMENT(sheet, closed_ms, "stack closed"),
    DW_F_REAL_OPT(sheet, scrap_kg, "kg", 0, 2000, "scrap left over"),
    DW_F_REAL_OPT(sheet, residue_kg, "kg", 0, 2000, "left in the bowl"),
    DW_F_TEXT_OPT(sheet, note, 400, "what people wrote"),
};
static const dw_shape sheet_shape =
    DW_SHAPE("sheet", sheet, sheet_fields, "a batch sheet filled in by hand");

/* Happened times run in order and not into the future. */
static dw_status check_times(dw_call *call, const sheet *given)
{
    const struct {
        const char *field;
        int64_t at_ms;
    } times[] = {{"started_ms", given->started_ms},
                 {"stopped_ms", given->stopped_ms},
                 {"first_box_ms", given->first_box_ms},
                 {"last_box_ms", given->last_box_ms},
                 {"closed_ms", given->closed_ms}};
    int64_t before = 0;
    for (size_t i = 0; i < DW_COUNT(times); i++) {
        if (times[i].at_ms == 0)
            continue;
        if (dw_check_range(call->err, times[i].field, (double)times[i].at_ms,
                           (double)before, (double)call->now_ms) != DW_OK) {
            call->err->sentence =
                DW_MSG("is before the time above it, or still to come");
            return call->err->status;
        }
        before = times[i].at_ms;
    }
    return DW_OK;
}

static dw_status enter_readings(dw_call *call, const sheet *given)
{
    int64_t end = given->stopped_ms ? given->stopped_ms : given->started_ms;
    const struct {
        bool has;
        int kind;
        double celsius;
        int64_t at_ms;
    } list[] = {
        {given->has_flour_c, DW_READ_FLOUR, given->flour_c, given->started_ms},
        {given->has_room_c, DW_READ_ROOM, given->room_c, given->started_ms},
        {given->has_tap_c, DW_READ_TAP, given->tap_c, given->started_ms},
        {given->has_water_c, DW_READ_WATER, given->water_c, given->started_ms},
        {given->has_dough_c, DW_READ_DOUGH, given->dough_c, end}};
    for (size_t i = 0; i < DW_COUNT(list); i++)
        if (list[i].has)
            DW_TRY(dw_reading_keep(
                call, &(dw_reading_row){.batch_id = given->batch_id,
                                        .kind = list[i].kind,
                                        .celsius = list[i].celsius,
                                        .occurred_ms = list[i].at_ms}));
    return DW_OK;
}

static dw_status enter_weighings(dw_call *call, const sheet *given)
{
    for (size_t i = 0; i < given->weighings_count; i++) {
        const sheet_weighing *one = &given->weighings[i];
        dw_batch_weighing row;
        DW_TRY(dw_row_get(call, "batch_weighing", &dw_batch_weighing_noun,
                          one->weighing_id, "weighings.weighing_id", &row));
        if (row.batch_id != given->batch_id)
            return dw_fail_says(call->err, DW_E_CONFLICT,
                                "weighings.weighing_id", NULL,
                                DW_MSG("belongs to another batch"));
        const char *said; /* the card that comes back shows what is off */
        DW_TRY(dw_weighing_keep(call, one->weighing_id, one->has_weighed_kg,
                                one->weighed_kg, one->lot_id, given->started_ms,
                                &said));
    }
    return DW_OK;
}

static dw_status enter_rest(dw_call *call, const sheet *given)
{
    dw_batch_row batch;
    DW_TRY(dw_batch_open(call, given->batch_id, &batch));
    batch.on_paper = true;
    batch.entered_ms = call->now_ms;
    batch.note = given->note;
    batch.has_scrap_kg = given->has_scrap_kg;
    batch.scrap_kg = given->scrap_kg;
    batch.has_residue_kg = given->has_residue_kg;
    batch.residue_kg = given->residue_kg;
    DW_TRY(dw_batch_keep(call, &batch));
    if (given->pieces_count > 0) {
        int64_t last = given->last_box_ms ? given->last_box_ms
                       : batch.stopped_ms ? batch.stopped_ms
                                          : batch.started_ms;
        DW_TRY(dw_batch_box(call, &batch, given->pieces, given->pieces_count,
                            given->first_box_ms ? given->first_box_ms : last,
                            last));
    }
    if (given->closed_ms)
        DW_TRY(dw_batch_close(call, &batch, given->closed_ms));
    return DW_OK;
}

static dw_status enter_run(dw_call *call, const void *request, void *reply)
{
    const sheet *given = request;
    dw_batch_row batch;
    DW_TRY(dw_batch_open(call, given->batch_id, &batch));
    if (batch.started_ms != 0)
        return dw_fail_says(call->err, DW_E_CONFLICT, "batch_id", NULL,
                            DW_MSG("was begun on a tablet already"));
    DW_TRY(check_times(call, given));
    batch.person_id = given->person_id;
    DW_TRY(dw_batch_begin(call, &batch, given->started_ms));
    if (given->stopped_ms)
        DW_TRY(dw_batch_stop(call, &batch, given->stopped_ms));
    DW_TRY(enter_weighings(call, given));
    DW_TRY(enter_readings(call, given));
    DW_TRY(enter_rest(call, given));
    DW_TRY(dw_taught_after(call, given->batch_id));
    dw_card *card = reply;
    DW_TRY(dw_card_read(call, given->batch_id, card));
    return dw_doubt_boxed(call, card, &card->message);
}

/* ---- minors -------------------------------------------------------------- */

typedef struct minors_given {
    int64_t formula_id, bags, days;
    double flour_kg, diluent_kg, tolerance_percent;
    const char *lots;
} minors_given;
static const dw_field minors_given_fields[] = {
    DW_F_WHOLE(minors_given, formula_id, "", 1, MOMENT_LAST, "which formula"),
    DW_F_REAL(minors_given, flour_kg, "kg", 0.1, 1000,
              "flour of the batch one bag serves"),
    DW_F_WHOLE(minors_given, bags, "", 1, 200, "how many"),
    DW_F_REAL_PRESET(minors_given, diluent_kg, "kg", 0, 5, 0.5,
                     "of that flour, into each bag"),
    DW_F_REAL_PRESET(minors_given, tolerance_percent, "percent", 0.1, 10, 1,
                     "plus or minus"),
    DW_F_WHOLE_PRESET(minors_given, days, "d", 1, 30, 7, "kept so long"),
    DW_F_TEXT_OPT(minors_given, lots, 400, "the lots that go in"),
};
static const dw_shape minors_given_shape = DW_SHAPE(
    "minors_given", minors_given, minors_given_fields, "bags to be weighed");

typedef struct minors_made {
    dw_minors_lot lot; /* id 0 in a preview */
    dw_minors_reply bag;
} minors_made;
static const dw_field minors_made_fields[] = {
    DW_F_ONE(minors_made, lot, &dw_minors_lot_noun, "as it is kept"),
    DW_F_ONE(minors_made, bag, &dw_minors_reply_shape, "what goes in"),
};
static const dw_shape minors_made_shape =
    DW_SHAPE("minors_made", minors_made, minors_made_fields, "bags of minors");

static dw_status minors_preview(dw_call *call, const void *request, void *reply)
{
    const minors_given *given = request;
    minors_made *made = reply;
    dw_recipe recipe;
    int64_t day;
    DW_TRY(dw_recipe_newest(call, given->formula_id, &recipe));
    DW_TRY(dw_today(call, &day));
    dw_minors_request asked;
    dw_shape_preset(&dw_minors_request_shape, &asked);
    asked.formula = recipe.formula;
    asked.flour_kg = given->flour_kg;
    asked.bags = given->bags;
    asked.diluent_kg = given->diluent_kg;
    asked.tolerance_percent = given->tolerance_percent;
    asked.made_ms = call->now_ms;
    asked.days = given->days;
    DW_TRY(dw_minors_bag(&asked, call->arena, call->err, &made->bag));
    made->lot =
        (dw_minors_lot){.version_id = recipe.version_id,
                        .made_day = day,
                        .discard_day = day + given->days,
                        .made = given->bags,
                        .left_count = given->bags,
                        .flour_kg = given->flour_kg,
                        .diluent_kg = given->diluent_kg,
                        .target_kg = made->bag.bag_kg,
                        .tolerance_kg = made->bag.high_kg - made->bag.bag_kg,
                        .lots = given->lots,
                        .person_id = call->person_id};
    return DW_OK;
}

static dw_status minors_make(dw_call *call, const void *request, void *reply)
{
    minors_made *made = reply;
    DW_TRY(minors_preview(call, request, reply));
    DW_TRY(dw_row_save(call, "minors_lot", &dw_minors_lot_noun, &made->lot,
                       &made->lot.id));
    DW_TRY(dw_store_minors_parts(call->store, made->lot.id, call->err));
    return dw_recipe_mark_used(call, made->lot.version_id);
}

/* Bags with the name of the formula they are for. */
typedef struct minors_weighed {
    dw_minors_lot lot;
    const char *formula_name;
    int64_t formula_id, version_number;
} minors_weighed;
static const dw_field minors_weighed_fields[] = {
    DW_F_ONE(minors_weighed, lot, &dw_minors_lot_noun, "the bags"),
    DW_F_TEXT(minors_weighed, formula_name, 80, "their formula"),
    DW_F_WHOLE(minors_weighed, formula_id, "", 1, MOMENT_LAST, "its id"),
    DW_F_WHOLE(minors_weighed, version_number, "", 0, 100000, "its version"),
};
static const dw_shape minors_weighed_shape =
    DW_SHAPE("minors_weighed", minors_weighed, minors_weighed_fields,
             "bags of one weighing");

typedef struct minors_list {
    minors_weighed *lots;
    size_t lots_count;
} minors_list;
static const dw_field minors_list_fields[] = {
    DW_F_MANY_OPT(minors_list, lots, &minors_weighed_shape, 100000,
                  "first to be thrown away first"),
};
static const dw_shape minors_list_shape = DW_SHAPE(
    "minors_list", minors_list, minors_list_fields, "bags weighed ahead");

static dw_status minors_list_run(dw_call *call, const void *request,
                                 void *reply)
{
    (void)request;
    minors_list *list = reply;
    dw_minors_lot *lots;
    DW_TRY(dw_rows_get(call, "minors_lot", &dw_minors_lot_noun, NULL, 0,
                       "discard_day, id", &lots, &list->lots_count));
    list->lots = DW_NEW_ARRAY(call->arena, minors_weighed, list->lots_count);
    if (!list->lots)
        return dw_fail(call->err, DW_E_ROOM, "lots", NULL);
    for (size_t i = 0; i < list->lots_count; i++) {
        dw_recipe recipe;
        DW_TRY(dw_recipe_read(call, lots[i].version_id, &recipe));
        list->lots[i] = (minors_weighed){lots[i], recipe.name,
                                         recipe.formula_id, recipe.number};
    }
    return DW_OK;
}

/* Bags that are thrown away. */
typedef struct minors_discard {
    int64_t minors_lot_id;
    bool has_bags;
    int64_t bags;
} minors_discard;
static const dw_field minors_discard_fields[] = {
    DW_F_WHOLE(minors_discard, minors_lot_id, "", 1, MOMENT_LAST,
               "bags of which weighing"),
    DW_F_WHOLE_OPT(minors_discard, bags, "", 1, 200,
                   "how many; all that are left"),
};
static const dw_shape minors_discard_shape =
    DW_SHAPE("minors_discard", minors_discard, minors_discard_fields,
             "bags that are thrown away");

typedef struct minors_left {
    int64_t id, left_count;
} minors_left;
static const dw_field minors_left_fields[] = {
    DW_F_ID(minors_left, id, "bags of which weighing"),
    DW_F_WHOLE(minors_left, left_count, "", 0, 200, "left of them"),
};
static const dw_shape minors_left_shape =
    DW_SHAPE("minors_left", minors_left, minors_left_fields, "bags left");

static dw_status minors_discard_run(dw_call *call, const void *request,
                                    void *reply)
{
    const minors_discard *given = request;
    dw_minors_lot lot;
    DW_TRY(dw_row_get(call, "minors_lot", &dw_minors_lot_noun,
                      given->minors_lot_id, "minors_lot_id", &lot));
    if (lot.left_count == 0)
        return dw_fail_says(call->err, DW_E_CONFLICT, "minors_lot_id", NULL,
                            DW_MSG("has no bag left"));
    if (given->has_bags)
        DW_TRY(dw_check_range(call->err, "bags", (double)given->bags, 1,
                              (double)lot.left_count));
    lot.left_count -= given->has_bags ? given->bags : lot.left_count;
    DW_TRY(dw_row_save(call, "minors_lot", &dw_minors_lot_noun, &lot, NULL));
    *(minors_left *)reply = (minors_left){lot.id, lot.left_count};
    return DW_OK;
}

const dw_op dw_ops_book[] = {
    {"batch.list", DW_OP_READ, &days_asked_shape, &book_shape, list_run,
     "The batches of some days, as lines of the batch book."},
    {"batch.find", DW_OP_READ, &search_shape, &found_shape, find_run,
     "Find batches in the book, the newest first."},
    {"batch.enter", DW_OP_WRITE, &sheet_shape, &dw_card_shape, enter_run,
     "Enter a batch from its paper sheet."},
    {"minors.preview", DW_OP_READ, &minors_given_shape, &minors_made_shape,
     minors_preview, "What goes into bags of minors."},
    {"minors.make", DW_OP_WRITE, &minors_given_shape, &minors_made_shape,
     minors_make, "Write that bags of minors were weighed."},
    {"minors.discard", DW_OP_WRITE, &minors_discard_shape, &minors_left_shape,
     minors_discard_run, "Write that bags of minors were thrown away."},
    {"minors.list", DW_OP_READ, &dw_nothing_shape, &minors_list_shape,
     minors_list_run, "The bags of minors that were weighed ahead."},
};
const size_t dw_ops_book_count = DW_COUNT(dw_ops_book);
