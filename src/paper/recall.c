/* The report on a lot that came back: whom to call first, then where all of it
 * is, whether masses add up, and how long a drill took. */
#include "paper/papers.h"

#include "app/recall.h"
#include "paper/words.h"

#define CALL_ROWS 2 /* beyond the shops and who sent it */

static const char *kg_text(dw_sheet *sheet, const dw_trace_place *place)
{
    const char *mass = dw_paper__mass(sheet, place->kg, 0);
    const dw_value value = DW_VALUE_TEXT("mass", mass);
    return place->at_least
               ? dw_paper__say(sheet, DW_MSG("at least {mass}"), &value, 1)
               : mass;
}

static const char *day_of(dw_sheet *sheet, int64_t utc_ms)
{
    return utc_ms > 0
               ? dw_paper__short_day(sheet, dw_paper__day_of(sheet, utc_ms))
               : NULL;
}

static void say(dw_sheet *sheet, dw_ink ink, const char *msgid)
{
    dw_sheet_say(sheet, ink, dw_paper__word(sheet, msgid));
}

static void heading(dw_sheet *sheet, const char *msgid)
{
    dw_sheet_heading(sheet, dw_paper__word(sheet, msgid), 60);
}

/* ---- the lot ------------------------------------------------------------- */

typedef struct facts {
    const char *label[10], *value[10];
    size_t count;
} facts;

static void add_fact(dw_sheet *sheet, facts *all, const char *label,
                     const char *value)
{
    if (!value)
        return;
    all->label[all->count] = dw_paper__word(sheet, label);
    all->value[all->count++] = value;
}

/* Two in a row. */
static void draw_facts(dw_sheet *sheet, const facts *all)
{
    for (size_t i = 0; i < all->count; i += 2) {
        bool pair = i + 1 < all->count;
        const dw_cell cells[] = {
            {DW_CELL_TEXT, 140, DW_INK_LABEL, all->label[i]},
            {DW_CELL_TEXT, 0, DW_INK_STRONG, all->value[i]},
            {DW_CELL_TEXT, 100, DW_INK_LABEL, pair ? all->label[i + 1] : NULL},
            {DW_CELL_TEXT, 0, DW_INK_STRONG, pair ? all->value[i + 1] : NULL},
        };
        dw_sheet_row(sheet, cells, DW_COUNT(cells));
    }
}

static void draw_lot(dw_sheet *sheet, const dw_recall *recall)
{
    const dw_material_lot *lot = &recall->lot;
    facts all = {.count = 0};
    add_fact(sheet, &all, DW_MSG("Lot"), lot->code);
    add_fact(sheet, &all, DW_MSG("Material"), recall->material.name);
    add_fact(sheet, &all, DW_MSG("Received"),
             lot->received_ms ? dw_paper__moment(sheet, lot->received_ms)
                              : NULL);
    add_fact(sheet, &all, DW_MSG("How much came"),
             lot->has_kg ? dw_paper__mass(sheet, lot->kg, 0)
                         : dw_paper__word(sheet, DW_MSG("weight not known")));
    add_fact(sheet, &all, DW_MSG("Who sent it"), lot->supplier);
    add_fact(sheet, &all, DW_MSG("Who brought it"), lot->carrier);
    add_fact(sheet, &all, DW_MSG("Best before"),
             lot->best_before_day
                 ? dw_paper__short_day(sheet, lot->best_before_day)
                 : NULL);
    add_fact(sheet, &all, DW_MSG("Temperature at the door"),
             lot->has_received_c ? dw_paper__temperature(sheet, lot->received_c)
                                 : NULL);
    add_fact(sheet, &all, DW_MSG("What was seen"), lot->note);
    draw_facts(sheet, &all);
}

/* ---- whom to call -------------------------------------------------------- */

static void call_row(dw_sheet *sheet, const char *whom, const char *mass,
                     const char *last)
{
    const dw_cell cells[] = {
        {DW_CELL_BOX, 16, DW_INK_BODY, NULL},
        {whom ? DW_CELL_TEXT : DW_CELL_BLANK, 0, DW_INK_STRONG, whom},
        {DW_CELL_RIGHT, 84, DW_INK_BODY, mass},
        {DW_CELL_RIGHT, 68, DW_INK_BODY, last},
        {DW_CELL_TEXT, 4, DW_INK_BODY, NULL},
        {DW_CELL_BLANK, 92, DW_INK_BODY, NULL},
        {DW_CELL_BLANK, 52, DW_INK_BODY, NULL},
        {DW_CELL_BLANK, 74, DW_INK_BODY, NULL},
    };
    dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

static void draw_call_head(dw_sheet *sheet)
{
    const dw_cell cells[] = {
        {DW_CELL_TEXT, 16, DW_INK_LABEL, NULL},
        {DW_CELL_TEXT, 0, DW_INK_LABEL, dw_paper__word(sheet, DW_MSG("Who"))},
        {DW_CELL_RIGHT, 84, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Of this lot"))},
        {DW_CELL_RIGHT, 68, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Last drop"))},
        {DW_CELL_TEXT, 4, DW_INK_LABEL, NULL},
        {DW_CELL_TEXT, 92, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Told by"))},
        {DW_CELL_TEXT, 52, DW_INK_LABEL, dw_paper__word(sheet, DW_MSG("Time"))},
        {DW_CELL_TEXT, 74, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Balls found"))},
    };
    dw_sheet_head_row(sheet, cells, DW_COUNT(cells));
}

static void draw_calls(dw_sheet *sheet, const dw_recall *recall)
{
    const dw_trace_found *trace = &recall->trace;
    const char *law = dw_paper__word(
        sheet, DW_MSG("What has to be told to whom, and how soon, is for the "
                      "law of your place and your authority to say."));
    heading(sheet, DW_MSG("Who has some of it, and who was told"));
    if (trace->sent_unknown)
        say(sheet, DW_INK_STRONG,
            DW_MSG("Some was sent, and nobody wrote where."));
    draw_call_head(sheet);
    for (size_t i = 0; i < trace->shops_count; i++) {
        const dw_trace_shop *shop = &trace->shops[i];
        const dw_trace_place place = {.kg = shop->kg,
                                      .at_least = shop->at_least};
        call_row(sheet,
                 shop->outlet_id ? shop->name
                                 : dw_paper__word(sheet, DW_MSG("used here")),
                 kg_text(sheet, &place), day_of(sheet, shop->last_ms));
    }
    if (recall->lot.supplier)
        call_row(sheet, recall->lot.supplier, NULL, NULL);
    for (int i = 0; i < CALL_ROWS; i++)
        call_row(sheet, NULL, NULL, NULL);
    dw_sheet_gap(sheet, 2);
    dw_sheet_caution(sheet, &law, 1);
}

/* ---- where it went ------------------------------------------------------- */

static const char *way_of(dw_sheet *sheet, const dw_recall_batch *batch)
{
    const dw_value by =
        DW_VALUE_TEXT("name", batch->by ? batch->by : batch->name);
    if (batch->by)
        return dw_paper__say(sheet,
                             batch->direct
                                 ? DW_MSG("weighed in, and with {name}")
                                 : DW_MSG("carried on with {name}"),
                             &by, 1);
    return dw_paper__word(
        sheet, batch->assumed ? DW_MSG("by the plan; nobody tapped the lot")
                              : DW_MSG("weighed in"));
}

static void draw_batches(dw_sheet *sheet, const dw_recall *recall)
{
    const dw_cell head[] = {
        {DW_CELL_TEXT, 150, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Formula and batch"))},
        {DW_CELL_RIGHT, 80, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Mixed"))},
        {DW_CELL_RIGHT, 90, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Of this lot"))},
        {DW_CELL_TEXT, 6, DW_INK_LABEL, NULL},
        {DW_CELL_TEXT, 0, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("How it got in"))},
    };
    heading(sheet, DW_MSG("Batches with some of it"));
    if (recall->batches_count == 0) {
        say(sheet, DW_INK_BODY, DW_MSG("In no batch yet."));
        return;
    }
    dw_sheet_head_row(sheet, head, DW_COUNT(head));
    for (size_t i = 0; i < recall->batches_count; i++) {
        const dw_recall_batch *batch = &recall->batches[i];
        const dw_cell cells[] = {
            {DW_CELL_TEXT, 150, DW_INK_STRONG, batch->name},
            {DW_CELL_RIGHT, 80, DW_INK_BODY,
             dw_paper__short_day(sheet, batch->day)},
            {DW_CELL_RIGHT, 90, DW_INK_STRONG, kg_text(sheet, batch->place)},
            {DW_CELL_TEXT, 6, DW_INK_BODY, NULL},
            {DW_CELL_TEXT, 0, DW_INK_BODY, way_of(sheet, batch)},
        };
        dw_sheet_row(sheet, cells, DW_COUNT(cells));
    }
}

static void draw_stacks(dw_sheet *sheet, const dw_recall *recall)
{
    const dw_cell head[] = {
        {DW_CELL_TEXT, 0, DW_INK_LABEL, dw_paper__word(sheet, DW_MSG("Stack"))},
        {DW_CELL_RIGHT, 76, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Of this lot"))},
        {DW_CELL_RIGHT, 42, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Balls"))},
        {DW_CELL_RIGHT, 66, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Still here"))},
        {DW_CELL_TEXT, 4, DW_INK_LABEL, NULL},
        {DW_CELL_TEXT, 64, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Set aside"))},
    };
    dw_sheet_head_row(sheet, head, DW_COUNT(head));
    for (size_t i = 0; i < recall->stacks_count; i++) {
        const dw_recall_stack *stack = &recall->stacks[i];
        const dw_value values[] = {
            DW_VALUE_TEXT("name", stack->product),
            DW_VALUE_NUMBER("number", (double)stack->batch_number),
            DW_VALUE_TEXT("day",
                          dw_paper__short_day(sheet, stack->mixing_day))};
        const dw_cell cells[] = {
            {DW_CELL_TEXT, 0, DW_INK_BODY,
             dw_paper__say(sheet, DW_MSG("{name}: batch {number}, {day}"),
                           values, DW_COUNT(values))},
            {DW_CELL_RIGHT, 76, DW_INK_BODY, kg_text(sheet, stack->place)},
            {DW_CELL_RIGHT, 42, DW_INK_BODY,
             dw_paper__number(sheet, (double)stack->balls, 6)},
            {DW_CELL_RIGHT, 66, DW_INK_AMOUNT,
             dw_paper__number(sheet, (double)stack->here_balls, 6)},
            {DW_CELL_TEXT, 4, DW_INK_BODY, NULL},
            {DW_CELL_BLANK, 64, DW_INK_BODY, NULL},
        };
        dw_sheet_row(sheet, cells, DW_COUNT(cells));
    }
}

/* What should be left of the lot itself, by the record. */
static const char *rest_of_lot(dw_sheet *sheet, const dw_recall *recall)
{
    const dw_trace_balance *own = &recall->trace.balances[0];
    const dw_value rest =
        DW_VALUE_TEXT("mass", dw_paper__mass(sheet, own->off_kg, 0));
    if (recall->trace.nodes[0].has_left_kg)
        return dw_paper__word(sheet, DW_MSG("The lot is closed: none of it "
                                            "is left."));
    if (own->verdict == DW_TRACE_REST_LEFT)
        return dw_paper__say(sheet,
                             DW_MSG("Of the lot itself {mass} should be left. "
                                    "Look, weigh it and set it aside."),
                             &rest, 1);
    return dw_paper__word(sheet, DW_MSG("How much of the lot itself is left is "
                                        "not known: look."));
}

static void draw_kept(dw_sheet *sheet, const dw_recall_kept *kept)
{
    bool rest = kept->balance && kept->balance->verdict == DW_TRACE_REST_LEFT;
    const dw_value values[] = {
        DW_VALUE_TEXT("name", kept->node->name ? kept->node->name : ""),
        DW_VALUE_TEXT(
            "day", kept->node->at_ms ? day_of(sheet, kept->node->at_ms) : ""),
        DW_VALUE_TEXT("mass", kg_text(sheet, kept->place)),
        DW_VALUE_TEXT("left", dw_paper__mass(
                                  sheet, rest ? kept->balance->off_kg : 0, 0))};
    dw_sheet_say(
        sheet, DW_INK_BODY,
        dw_paper__say(sheet,
                      rest ? DW_MSG("{name}, kept {day}: {mass} of this lot in "
                                    "it; {left} of it should be left.")
                           : DW_MSG("{name}, kept {day}: {mass} of this lot in "
                                    "it."),
                      values, DW_COUNT(values)));
}

static void draw_here(dw_sheet *sheet, const dw_recall *recall)
{
    heading(sheet, DW_MSG("What is still here"));
    dw_sheet_say(sheet, DW_INK_BODY, rest_of_lot(sheet, recall));
    for (size_t i = 0; i < recall->kept_count; i++)
        draw_kept(sheet, &recall->kept[i]);
    dw_sheet_gap(sheet, 4);
    if (recall->stacks_count > 0)
        draw_stacks(sheet, recall);
}

static void sent_row(dw_sheet *sheet, const dw_released_row *sent)
{
    const dw_value values[] = {
        DW_VALUE_TEXT("name", sent->product ? sent->product : ""),
        DW_VALUE_NUMBER("number", (double)sent->batch_number)};
    const dw_cell cells[] = {
        {DW_CELL_TEXT, 66, DW_INK_BODY, dw_paper__short_day(sheet, sent->day)},
        {DW_CELL_TEXT, 104, DW_INK_STRONG, sent->recipient},
        {DW_CELL_TEXT, 0, DW_INK_BODY,
         dw_paper__say(sheet, DW_MSG("{name}: batch {number}"), values,
                       DW_COUNT(values))},
        {DW_CELL_RIGHT, 50, DW_INK_STRONG,
         dw_paper__number(sheet, (double)sent->balls, 6)},
        {DW_CELL_RIGHT, 50, DW_INK_BODY,
         dw_paper__number(sheet, (double)sent->boxes, 6)},
        {DW_CELL_TEXT, 6, DW_INK_BODY, NULL},
        {sent->carrier ? DW_CELL_TEXT : DW_CELL_BLANK, 84, DW_INK_BODY,
         sent->carrier},
    };
    dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

static void draw_sent(dw_sheet *sheet, const dw_recall *recall)
{
    const dw_cell head[] = {
        {DW_CELL_TEXT, 66, DW_INK_LABEL, dw_paper__word(sheet, DW_MSG("Day"))},
        {DW_CELL_TEXT, 104, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("To whom"))},
        {DW_CELL_TEXT, 0, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Product"))},
        {DW_CELL_RIGHT, 50, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Balls"))},
        {DW_CELL_RIGHT, 50, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Boxes"))},
        {DW_CELL_TEXT, 6, DW_INK_LABEL, NULL},
        {DW_CELL_TEXT, 84, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Loaded by"))},
    };
    heading(sheet, DW_MSG("What went out"));
    if (recall->sent_count == 0) {
        say(sheet, DW_INK_BODY, DW_MSG("No drop with any of it went out."));
        return;
    }
    dw_sheet_head_row(sheet, head, DW_COUNT(head));
    for (size_t i = 0; i < recall->sent_count; i++)
        sent_row(sheet, &recall->sent[i]);
}

/* ---- masses -------------------------------------------------------------- */

static const char *verdict_text(dw_sheet *sheet, const dw_trace_balance *one)
{
    bool more = one->verdict == DW_TRACE_MORE_OUT;
    const dw_value off = DW_VALUE_TEXT(
        "mass", dw_paper__mass(sheet, more ? -one->off_kg : one->off_kg, 0));
    static const char *const words[] = {
        [DW_TRACE_CLOSES] = DW_MSG("adds up"),
        [DW_TRACE_REST_LEFT] = DW_MSG("{mass} should be left"),
        [DW_TRACE_MORE_OUT] = DW_MSG("{mass} more came out than went in"),
        [DW_TRACE_NOT_FOUND] =
            DW_MSG("{mass} went in, and nobody wrote where it is"),
        [DW_TRACE_NOT_KNOWN] = DW_MSG("a weight was not written down")};
    return dw_paper__say(sheet, words[one->verdict], &off, 1);
}

static void balance_row(dw_sheet *sheet, const dw_trace_found *trace,
                        const dw_trace_balance *one)
{
    const dw_trace_node *node = &trace->nodes[one->node];
    const dw_cell cells[] = {
        {DW_CELL_TEXT, 104, DW_INK_BODY, node->name},
        {DW_CELL_RIGHT, 74, DW_INK_BODY, dw_paper__mass(sheet, one->in_kg, 0)},
        {DW_CELL_RIGHT, 74, DW_INK_BODY, dw_paper__mass(sheet, one->out_kg, 0)},
        {DW_CELL_RIGHT, 74, DW_INK_BODY,
         dw_paper__mass(sheet, node->wasted_kg, 0)},
        {DW_CELL_TEXT, 6, DW_INK_BODY, NULL},
        {DW_CELL_TEXT, 0, DW_INK_BODY, verdict_text(sheet, one)},
    };
    dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

/* The lot's own, and what does not add up; the rest in a sentence. */
static void draw_masses(dw_sheet *sheet, const dw_recall *recall)
{
    const dw_trace_found *trace = &recall->trace;
    const dw_cell head[] = {
        {DW_CELL_TEXT, 104, DW_INK_LABEL, NULL},
        {DW_CELL_RIGHT, 74, DW_INK_LABEL, dw_paper__word(sheet, DW_MSG("In"))},
        {DW_CELL_RIGHT, 74, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Passed on"))},
        {DW_CELL_RIGHT, 74, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Thrown away"))},
        {DW_CELL_TEXT, 6, DW_INK_LABEL, NULL},
        {DW_CELL_TEXT, 0, DW_INK_LABEL, NULL},
    };
    heading(sheet, DW_MSG("Does it add up?"));
    dw_sheet_head_row(sheet, head, DW_COUNT(head));
    for (size_t i = 0; i < trace->balances_count; i++) {
        const dw_trace_balance *one = &trace->balances[i];
        if (i == 0 || (one->verdict != DW_TRACE_CLOSES &&
                       one->verdict != DW_TRACE_REST_LEFT))
            balance_row(sheet, trace, one);
    }
    dw_sheet_gap(sheet, 3);
    say(sheet, DW_INK_BODY,
        trace->not_closing == 0
            ? DW_MSG("What went in is what came out, was thrown away or is "
                     "left, within 2 %, at each step.")
            : DW_MSG("What is not named here adds up within 2 %. Masses say "
                     "how much, never whom a lot may have touched."));
}

/* ---- drills -------------------------------------------------------------- */

static void draw_drills(dw_sheet *sheet, const dw_recall *recall)
{
    if (recall->drills_count == 0)
        return;
    heading(sheet, DW_MSG("Drills on this lot"));
    for (size_t i = 0; i < recall->drills_count; i++) {
        const dw_recall_drill *drill = &recall->drills[i];
        bool over = drill->stopped_ms > 0;
        double minutes =
            (double)(drill->stopped_ms - drill->started_ms) / 60000;
        const dw_value values[] = {
            DW_VALUE_TEXT("from", dw_paper__moment(sheet, drill->started_ms)),
            DW_VALUE_TEXT("to",
                          dw_paper__clock(sheet, over ? drill->stopped_ms
                                                      : drill->started_ms)),
            DW_VALUE_TEXT(
                "time", dw_paper__minutes(sheet, over ? minutes : 0, false, 0)),
            DW_VALUE_TEXT("note", drill->note ? drill->note : "")};
        dw_sheet_say(
            sheet, DW_INK_BODY,
            dw_paper__say(sheet,
                          over ? DW_MSG("Begun {from}, all found at {to}: "
                                        "{time}. {note}")
                               : DW_MSG("Begun {from}; the clock runs."),
                          values, DW_COUNT(values)));
    }
}

static void draw_recall(dw_sheet *sheet, const void *object)
{
    const dw_recall *recall = object;
    draw_lot(sheet, recall);
    draw_calls(sheet, recall);
    draw_here(sheet, recall);
    draw_batches(sheet, recall);
    draw_sent(sheet, recall);
    draw_masses(sheet, recall);
    draw_drills(sheet, recall);
}

dw_status dw_paper__recall(dw_sheet *sheet, const dw_paper_request *request,
                           dw_paper *paper)
{
    dw_recall recall;
    DW_TRY(dw_recall_read(sheet->call, request->id, &recall));
    sheet->title = dw_paper__word(sheet, DW_MSG("Report on a lot"));
    return dw_sheet_print(sheet, draw_recall, &recall, paper);
}
