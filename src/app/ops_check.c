/* The log of checks: what is to be checked how often and within which limits,
 * and each time it was. Nothing in it is edited away; a check that is not asked
 * for any more keeps its log. */
#include "app/checks.h"

#include "app/rows.h"

#include "doughwright/say.h"

#include <stdlib.h>

#define ID_LAST 9007199254740991.0
#define DAY_MS 86400000LL
enum { LOG_MOST = 200 };

/* ---- when each is due ---------------------------------------------------- */

static int soonest_first(const void *a, const void *b)
{
    int64_t x = ((const dw_check *)a)->due_ms;
    int64_t y = ((const dw_check *)b)->due_ms;
    return (x > y) - (x < y);
}

/* One that was never done is due at once. */
static dw_status set_due(dw_call *call, dw_check *check)
{
    dw_check_done *done;
    size_t n;
    DW_TRY(dw_rows_get(call, "check_done", &dw_check_done_noun, "check_id",
                       check->due.id, "occurred_ms DESC, id DESC", &done, &n));
    check->has_last = n > 0;
    check->due_ms = check->due.since_ms;
    if (n > 0) {
        check->last = done[0];
        check->due_ms = done[0].occurred_ms + check->due.every_days * DAY_MS;
    }
    return DW_OK;
}

dw_status dw_checks_read(dw_call *call, dw_check **checks, size_t *count)
{
    dw_check_due *rows;
    size_t n;
    *count = 0;
    DW_TRY(dw_rows_get(call, "check_due", &dw_check_due_noun, "stopped", 0,
                       "id", &rows, &n));
    *checks = DW_NEW_ARRAY(call->arena, dw_check, n + 1);
    if (!*checks)
        return dw_fail(call->err, DW_E_ROOM, "checks", NULL);
    for (size_t i = 0; i < n; i++) {
        (*checks)[i] = (dw_check){.due = rows[i]};
        DW_TRY(set_due(call, &(*checks)[i]));
    }
    *count = n;
    qsort(*checks, n, sizeof **checks, soonest_first);
    return DW_OK;
}

/* ---- check.list ---------------------------------------------------------- */

typedef struct list {
    dw_check *checks;
    dw_check_done *done;
    size_t checks_count, done_count;
} list;

static const dw_field check_fields[] = {
    DW_F_ONE(dw_check, due, &dw_check_due_noun, "what is to be checked"),
    DW_F_ONE_OPT(dw_check, last, &dw_check_done_noun, "when last"),
    DW_F_MOMENT(dw_check, due_ms, "until when it is to be done"),
};
static const dw_shape check_shape =
    DW_SHAPE("check", dw_check, check_fields, "a check and when it is due");

static const dw_field list_fields[] = {
    DW_F_MANY_OPT(list, checks, &check_shape, 1000, "the soonest due first"),
    DW_F_MANY_OPT(list, done, &dw_check_done_noun, LOG_MOST,
                  "the log, newest first"),
};
static const dw_shape list_shape =
    DW_SHAPE("check_list", list, list_fields, "checks and their log");

static dw_status run_list(dw_call *call, const void *request, void *reply)
{
    (void)request;
    list *out = reply;
    *out = (list){.checks = NULL};
    DW_TRY(dw_rows_get(call, "check_done", &dw_check_done_noun, NULL, 0,
                       "occurred_ms DESC, id DESC", &out->done,
                       &out->done_count));
    if (out->done_count > LOG_MOST)
        out->done_count = LOG_MOST;
    return dw_checks_read(call, &out->checks, &out->checks_count);
}

/* ---- check.save ---------------------------------------------------------- */

static dw_status run_save(dw_call *call, const void *request, void *reply)
{
    dw_check_due row = *(const dw_check_due *)request;
    if (row.has_lowest && row.has_highest && row.lowest > row.highest)
        return dw_fail_range(call->err, "highest", row.highest, row.lowest,
                             1000);
    if (row.since_ms == 0)
        row.since_ms = call->now_ms;
    return dw_row_save(call, "check_due", &dw_check_due_noun, &row,
                       &((dw_made *)reply)->id);
}

/* ---- check.do ------------------------------------------------------------ */

typedef struct given {
    int64_t check_id;
    bool has_value;
    double value;
    bool fine;
    const char *action;
} given;
static const dw_field given_fields[] = {
    DW_F_WHOLE(given, check_id, "", 1, ID_LAST, "which check"),
    DW_F_REAL_OPT(given, value, "", -60, 1000,
                  "as read, where it has limits; degC or kg"),
    DW_F_YES(given, fine, true, "as it should be, where it has no limits"),
    DW_F_TEXT_OPT(given, action, 400, "what was done about it"),
};
static const dw_shape given_shape =
    DW_SHAPE("check_given", given, given_fields, "a check that was done");

static dw_status judge(dw_call *call, const dw_check_due *due, const given *ask,
                       bool *within)
{
    *within = ask->fine;
    if (!due->has_lowest && !due->has_highest)
        return DW_OK;
    if (!ask->has_value)
        return dw_fail(call->err, DW_E_MISSING, "value", NULL);
    *within = (!due->has_lowest || ask->value >= due->lowest) &&
              (!due->has_highest || ask->value <= due->highest);
    return DW_OK;
}

static dw_status run_do(dw_call *call, const void *request, void *reply)
{
    const given *ask = request;
    dw_check_due due;
    bool within;
    DW_TRY(dw_row_get(call, "check_due", &dw_check_due_noun, ask->check_id,
                      "check_id", &due));
    DW_TRY(judge(call, &due, ask, &within));
    if (!within && (!ask->action || ask->action[0] == '\0'))
        return dw_fail_says(call->err, DW_E_MISSING, "action", NULL,
                            DW_MSG("is needed: it is outside its limits, so "
                                   "say what was done about it"));
    dw_check_done row = {.check_id = ask->check_id,
                         .has_value = ask->has_value,
                         .value = ask->value,
                         .within = within,
                         .action = ask->action,
                         .occurred_ms = call->occurred_ms,
                         .received_ms = call->now_ms,
                         .person_id = call->person_id};
    DW_TRY(dw_row_save(call, "check_done", &dw_check_done_noun, &row, &row.id));
    *(dw_check_done *)reply = row;
    return DW_OK;
}

const dw_op dw_ops_check[] = {
    {"check.do", DW_OP_WRITE, &given_shape, &dw_check_done_noun, run_do,
     "Write down that a thermometer, scale, cold room or cleaning was "
     "checked."},
    {"check.list", DW_OP_READ, &dw_nothing_shape, &list_shape, run_list,
     "What is to be checked, when, and the log of what was."},
    {"check.save", DW_OP_WRITE, &dw_check_due_noun, &dw_made_shape, run_save,
     "Ask for a check every so many days, change or stop it."},
};
const size_t dw_ops_check_count = DW_COUNT(dw_ops_check);
