#include "paper/paper.h"

#include "door/json.h"
#include "paper/papers.h"

const char *const dw_paper_words[] = {"batch", "procedure", "scale",  "run",
                                      "day",   "handover",  "labels", "pull",
                                      "drops", "recall",    NULL};
const char *const dw_paper_size_words[] = {"usual", "a4", "letter", "label",
                                           NULL};
const char *const dw_paper_units_words[] = {"shop", "metric", "us", NULL};

static const dw_field request_fields[] = {
    DW_F_CHOICE(dw_paper_request, what, dw_paper_words, "which paper"),
    DW_F_ID(dw_paper_request, id,
            "the batch; for procedure and scale the formula; for recall "
            "the lot; for drops one shop, 0: all"),
    DW_F_WHOLE_PRESET(dw_paper_request, day, "d", 0, 84000, 0,
                      "of run, pull and drops; 0: today"),
    DW_F_CHOICE_PRESET(dw_paper_request, size, dw_paper_size_words, 0,
                       "usual: letter with US units, else A4; labels: label"),
    DW_F_CHOICE_PRESET(dw_paper_request, units, dw_paper_units_words, 0,
                       "of the numbers"),
    DW_F_ONE_OPT(dw_paper_request, target, &dw_target_shape,
                 "of scale; else 10 kg of flour"),
};
const dw_shape dw_paper_request_shape = DW_SHAPE(
    "paper_request", dw_paper_request, request_fields, "a paper to print");

static dw_status open_sheet(dw_call *call, const dw_paper_request *request,
                            dw_sheet *sheet)
{
    /* width and height in points, by dw_paper_size */
    static const double sizes[][2] = {[DW_PAPER_A4] = {595.276, 841.89},
                                      [DW_PAPER_LETTER] = {612, 792},
                                      [DW_PAPER_LABEL] = {283.465, 170.079}};
    *sheet = (dw_sheet){.call = call};
    DW_TRY(dw_shop_get(call, &sheet->shop));
    DW_TRY(
        dw_zone_load(sheet->shop.zone, call->arena, &sheet->zone, call->err));
    bool us = request->units == 2 ||
              (request->units == 0 && sheet->shop.units == DW_UNITS_US);
    sheet->units = us ? DW_US : DW_METRIC;
    int size = request->size;
    bool labels = request->what == DW_PAPER_LABELS;
    if (size == DW_PAPER_LABEL && !labels)
        return dw_fail(call->err, DW_E_CHOICE, "size",
                       dw_paper_size_words[size]);
    if (size == DW_PAPER_USUAL)
        size = labels ? DW_PAPER_LABEL : us ? DW_PAPER_LETTER : DW_PAPER_A4;
    sheet->width = sizes[size][0];
    sheet->height = sizes[size][1];
    return DW_OK;
}

dw_status dw_paper_make(dw_call *call, const dw_paper_request *request,
                        dw_paper *paper)
{
    static const struct {
        dw_paper__maker *make;
        bool of_something;
    } papers[] = {
        [DW_PAPER_BATCH] = {dw_paper__batch, true},
        [DW_PAPER_PROCEDURE] = {dw_paper__procedure, true},
        [DW_PAPER_SCALE] = {dw_paper__scale, true},
        [DW_PAPER_RUN] = {dw_paper__run, false},
        [DW_PAPER_DAY] = {dw_paper__day, false},
        [DW_PAPER_HANDOVER] = {dw_paper__handover, false},
        [DW_PAPER_LABELS] = {dw_paper__labels, true},
        [DW_PAPER_PULL] = {dw_paper__pull, false},
        [DW_PAPER_DROPS] = {dw_paper__drops, false},
        [DW_PAPER_RECALL] = {dw_paper__recall, true},
    };
    dw_sheet sheet;
    if (papers[request->what].of_something && request->id == 0)
        return dw_fail(call->err, DW_E_MISSING, "id", NULL);
    DW_TRY(open_sheet(call, request, &sheet));
    return papers[request->what].make(&sheet, request, paper);
}

/* ---- for a job ----------------------------------------------------------- */

static dw_status run(dw_call *call, const void *request, void *reply)
{
    return dw_paper_make(call, request, reply);
}

static dw_status encode(const dw_shape *shape, const void *object,
                        dw_arena *arena, const char **text, size_t *bytes)
{
    const dw_paper *paper = object;
    (void)arena;
    DW_ASSERT(shape == dw_paper_op.reply);
    *text = paper->bytes;
    *bytes = paper->count;
    return DW_OK;
}

static dw_status decode(const dw_shape *shape, const char *text, size_t bytes,
                        dw_arena *arena, void *object, dw_err *err)
{
    return dw_json_codec.decode(shape, text, bytes, arena, object, err);
}

/* It has no members that a person reads. */
static const dw_shape paper_shape = {"paper", "a PDF", sizeof(dw_paper), NULL,
                                     0};

const dw_op dw_paper_op = {
    "paper.make", DW_OP_READ, &dw_paper_request_shape,
    &paper_shape, run,        "A sheet or labels as PDF.",
};
const dw_codec dw_paper_codec = {decode, encode};
