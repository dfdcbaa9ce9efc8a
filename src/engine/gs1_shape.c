#include "doughwright/gs1.h"

/* Civil days of 2000 to 2099. */
#define FIRST 10957
#define LAST 47481

static const dw_field element_fields[] = {
    DW_F_TEXT(dw_gs1_element, identifier, 4, "its number"),
    DW_F_TEXT(dw_gs1_element, title, 40, "what it is, in GS1's words"),
    DW_F_TEXT(dw_gs1_element, value, 40, "as in the symbol"),
    DW_F_WHOLE_OPT(dw_gs1_element, day, "d", -40000, 90000, "of a date"),
    DW_F_REAL_OPT(dw_gs1_element, amount, "", 0, 1e8,
                  "of a weight, kg, or a count"),
};
static const dw_shape element_shape =
    DW_SHAPE("gs1_element", dw_gs1_element, element_fields, "one element");

static const dw_field write_request_fields[] = {
    DW_F_TEXT(dw_gs1_write_request, gtin, 14,
              "the goods' number, with its check digit"),
    DW_F_TEXT_OPT(dw_gs1_write_request, lot, 20, "batch or lot"),
    DW_F_TEXT_OPT(dw_gs1_write_request, serial, 20, "of this very box"),
    DW_F_WHOLE_OPT(dw_gs1_write_request, made_day, "d", FIRST, LAST, "made"),
    DW_F_WHOLE_OPT(dw_gs1_write_request, packed_day, "d", FIRST, LAST,
                   "packed"),
    DW_F_WHOLE_OPT(dw_gs1_write_request, best_before_day, "d", FIRST, LAST,
                   "best before"),
    DW_F_WHOLE_OPT(dw_gs1_write_request, use_by_day, "d", FIRST, LAST,
                   "use by"),
    DW_F_REAL_OPT(dw_gs1_write_request, net_kg, "kg", 0.001, 999999,
                  "net weight"),
    DW_F_WHOLE_OPT(dw_gs1_write_request, count, "", 1, 99999999,
                   "pieces in the box"),
};
const dw_shape dw_gs1_write_request_shape =
    DW_SHAPE("gs1_write_request", dw_gs1_write_request, write_request_fields,
             "what a box's symbol is to say");

static const dw_field write_reply_fields[] = {
    DW_F_TEXT(dw_gs1_write_reply, text, DW_GS1_LONGEST,
              "for people and for printing"),
    DW_F_TEXT(dw_gs1_write_reply, path, DW_GS1_LONGEST,
              "of a GS1 Digital Link"),
    DW_F_MANY(dw_gs1_write_reply, elements, &element_shape, 1, DW_GS1_ELEMENTS,
              "in the symbol's order"),
};
const dw_shape dw_gs1_write_reply_shape =
    DW_SHAPE("gs1_write_reply", dw_gs1_write_reply, write_reply_fields,
             "the symbol's data");

static const dw_field read_request_fields[] = {
    DW_F_TEXT(dw_gs1_read_request, text, DW_GS1_LONGEST,
              "as scanned, or with brackets"),
    DW_F_WHOLE(dw_gs1_read_request, today, "d", FIRST, LAST,
               "for the century of a date"),
};
const dw_shape dw_gs1_read_request_shape =
    DW_SHAPE("gs1_read_request", dw_gs1_read_request, read_request_fields,
             "what a scanner read");

static const dw_field read_reply_fields[] = {
    DW_F_MANY(dw_gs1_read_reply, elements, &element_shape, 1, DW_GS1_ELEMENTS,
              "in order"),
};
const dw_shape dw_gs1_read_reply_shape = DW_SHAPE(
    "gs1_read_reply", dw_gs1_read_reply, read_reply_fields, "what it says");
