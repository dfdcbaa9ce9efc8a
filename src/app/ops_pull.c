/* The pull sheet of a day. */
#include "app/expected.h"
#include "app/pulls.h"

static const dw_field line_fields[] = {
    {"at_ms", DW_WHOLE, true, "ms", 0, 9007199254740991.0, 0,
     offsetof(dw_pull_line, row.at_ms), DW_NOWHERE, DW_NOWHERE, NULL, NULL,
     "take out then"},
    {"have_out", DW_WHOLE, true, "", 0, 1e9, 0,
     offsetof(dw_pull_line, row.have_out), DW_NOWHERE, DW_NOWHERE, NULL, NULL,
     "balls to be out then, tempering ones included"},
    {"stack_id", DW_WHOLE, true, "", 0, 9007199254740991.0, 0,
     offsetof(dw_pull_line, row.stack_id), DW_NOWHERE, DW_NOWHERE, NULL, NULL,
     "from which stack; 0: none, or not known"},
    {"boxes", DW_WHOLE, true, "", 0, 1e6, 0, offsetof(dw_pull_line, row.boxes),
     DW_NOWHERE, DW_NOWHERE, NULL, NULL, "on a mean day; 0: none expected"},
    {"balls", DW_WHOLE, true, "", 0, 1e6, 0, offsetof(dw_pull_line, row.balls),
     DW_NOWHERE, DW_NOWHERE, NULL, NULL, "in them"},
    {"usable_ms", DW_WHOLE, true, "ms", 0, 9007199254740991.0, 0,
     offsetof(dw_pull_line, row.usable_ms), DW_NOWHERE, DW_NOWHERE, NULL, NULL,
     "tempered from then"},
    {"end_ms", DW_WHOLE, true, "ms", 0, 9007199254740991.0, 0,
     offsetof(dw_pull_line, row.end_ms), DW_NOWHERE, DW_NOWHERE, NULL, NULL,
     "past from then"},
    DW_F_WHOLE(dw_pull_line, number, "", 0, 1e9, "of its batch; 0: not known"),
    DW_F_WHOLE(dw_pull_line, mixing_day, "d", 0, 84100, "made when"),
    DW_F_YES(dw_pull_line, past, false, "its time has come"),
};
static const dw_shape line_shape =
    DW_SHAPE("pull_line", dw_pull_line, line_fields, "boxes that come out");

static const dw_field product_fields[] = {
    DW_F_ID(dw_product_pull, product_id, "of what"),
    DW_F_TEXT(dw_product_pull, name, 60, "what people call it"),
    DW_F_WHOLE(dw_product_pull, balls_per_box, "", 1, 200, "in a box"),
    DW_F_CHOICE(dw_product_pull, basis, dw_expected_basis_words,
                "what the demand comes from"),
    DW_F_YES(dw_product_pull, has_temper, false,
             "false: no ball is tempered in this room before it is past"),
    DW_F_REAL(dw_product_pull, temper_h, "h", 0, 1e6, "to usable"),
    DW_F_REAL(dw_product_pull, bench_h, "h", 0, 1e6, "to past"),
    DW_F_REAL(dw_product_pull, room_c, "degC", -60, 60, "the room"),
    DW_F_MANY_OPT(dw_product_pull, lines, &line_shape, 1000, "by time"),
    DW_F_REAL(dw_product_pull, wanted, "", 0, 1e9, "balls, on a mean day"),
    DW_F_WHOLE(dw_product_pull, pulled, "", 0, 1e9, "balls, on a mean day"),
    DW_F_WHOLE(dw_product_pull, lacking, "", 0, 1e9,
               "the most that a row calls for and no stack has"),
    DW_F_REAL(dw_product_pull, enough, "", 0, 1, "how sure it is made to be"),
    DW_F_REAL(dw_product_pull, unserved, "", 0, 1e9, "balls, mean of days"),
    DW_F_REAL(dw_product_pull, expired, "", 0, 1e9, "balls, mean of days"),
    DW_F_REAL(dw_product_pull, left, "", 0, 1e9, "out at the end, mean"),
};
const dw_shape dw_product_pull_shape =
    DW_SHAPE("product_pull", dw_product_pull, product_fields,
             "the pull sheet of a product");

static const dw_field day_fields[] = {
    DW_F_WHOLE(dw_pull_day, day, "d", 0, 84000, "business day"),
    DW_F_MOMENT(dw_pull_day, now_ms, "the server's clock"),
    DW_F_YES(dw_pull_day, runs_down, false,
             "rows whose time has come are taken to be done"),
    DW_F_MANY_OPT(dw_pull_day, products, &dw_product_pull_shape, 1000,
                  "of which something is wanted, in the shop's order"),
};
const dw_shape dw_pull_day_shape =
    DW_SHAPE("pull_day", dw_pull_day, day_fields, "which boxes come out when");

typedef struct asked {
    int64_t day;
} asked;
static const dw_field asked_fields[] = {
    DW_F_WHOLE_PRESET(asked, day, "d", 0, 84000, 0,
                      "business day, up to a week ahead; 0: today"),
};
static const dw_shape asked_shape =
    DW_SHAPE("pull_asked", asked, asked_fields, "which day");

static dw_status pull_sheet(dw_call *call, const void *request, void *reply)
{
    return dw_pull_day_read(call, ((const asked *)request)->day, reply);
}

const dw_op dw_ops_pull[] = {
    {"pull.sheet", DW_OP_READ, &asked_shape, &dw_pull_day_shape, pull_sheet,
     "Which boxes come out of the cold when, from what is there and wanted."},
};
const size_t dw_ops_pull_count = DW_COUNT(dw_ops_pull);
