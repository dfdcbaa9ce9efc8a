/* Batches before they are mixed: mixer, packing, weighings, minors, card, run.
 * All pure. */
#include "app/said.h"

#include "doughwright/batch.h"
#include "doughwright/minors.h"
#include "doughwright/mixer.h"
#include "doughwright/procedure.h"
#include "doughwright/runsheet.h"
#include "doughwright/weigh.h"

typedef struct limit_request {
    dw_mixer_limits mixer;
    dw_mixer_dough dough;
} limit_request;

static const dw_field limit_fields[] = {
    DW_F_ONE(limit_request, mixer, &dw_mixer_limits_shape, "the mixer"),
    DW_F_ONE(limit_request, dough, &dw_mixer_dough_shape, "what goes in"),
};
static const dw_shape limit_shape =
    DW_SHAPE("mixer_limit_request", limit_request, limit_fields,
             "a mixer and the dough that is to go in");

static dw_status run_limit(dw_call *call, const void *request, void *reply)
{
    const limit_request *r = request;
    dw_mixer_answer *answer = reply;
    if (dw_mixer_limit(&r->mixer, &r->dough, call->err, answer) != DW_OK)
        return dw_err_within(call->err, "mixer");
    return dw_said_notes(call, answer->notes, answer->notes_count);
}

static dw_status run_pack(dw_call *call, const void *request, void *reply)
{
    dw_pack_reply *out = reply;
    DW_TRY(dw_batch_pack(request, call->arena, call->err, out));
    return dw_said_notes(call, out->notes, out->notes_count);
}

static dw_status run_weigh(dw_call *call, const void *request, void *reply)
{
    dw_weigh_reply *out = reply;
    DW_TRY(dw_weigh_split(request, call->arena, call->err, out));
    return dw_said_notes(call, out->notes, out->notes_count);
}

static dw_status run_balance(dw_call *call, const void *request, void *reply)
{
    dw_weigh_balance_reply *out = reply;
    dw_weigh_balance(request, out);
    return dw_said_notes(call, out->notes, out->notes_count);
}

static dw_status run_minors(dw_call *call, const void *request, void *reply)
{
    return dw_minors_bag(request, call->arena, call->err, reply);
}

static dw_status run_steps(dw_call *call, const void *request, void *reply)
{
    dw_card_reply *out = reply;
    DW_TRY(dw_procedure_card(request, call->arena, call->err, out));
    DW_TRY(dw_said_card(call, out->steps, out->steps_count, &out->sayings));
    out->sayings_count = out->steps_count;
    return dw_said_notes(call, out->notes, out->notes_count);
}

typedef struct templates_reply {
    dw_procedure *templates;
    size_t templates_count;
} templates_reply;

static const dw_field templates_fields[] = {
    DW_F_MANY(templates_reply, templates, &dw_procedure_shape, 1, 20,
              "each a procedure to start from; the first is the default"),
};
static const dw_shape templates_shape =
    DW_SHAPE("procedure_templates", templates_reply, templates_fields,
             "procedures to start from");

static dw_status run_templates(dw_call *call, const void *request, void *reply)
{
    templates_reply *out = reply;
    dw_procedure *list =
        DW_NEW_ARRAY(call->arena, dw_procedure, DW_TEMPLATE_COUNT);
    if (!list)
        return dw_fail(call->err, DW_E_ROOM, "templates", NULL);
    for (int i = 0; i < DW_TEMPLATE_COUNT; i++)
        DW_TRY(dw_procedure_template((dw_template)i, call->arena, call->err,
                                     &list[i]));
    out->templates = list;
    out->templates_count = DW_TEMPLATE_COUNT;
    return DW_OK;
}

static dw_status run_run(dw_call *call, const void *request, void *reply)
{
    dw_run_reply *out = reply;
    DW_TRY(dw_run_sheet(request, call->arena, call->err, out));
    dw_said_advice(call, out->advice, out->advice_count);
    return dw_said_notes(call, out->notes, out->notes_count);
}

const dw_op dw_ops_batch[] = {
    {"mixer.limit", DW_OP_PURE, &limit_shape, &dw_mixer_answer_shape, run_limit,
     "The most and least dough a mixer takes, and whether second speed may be "
     "used."},
    {"batch.pack", DW_OP_PURE, &dw_pack_request_shape, &dw_pack_reply_shape,
     run_pack,
     "Batches for an order of balls: standard ones first, within mixer and "
     "bench, least odd dough."},
    {"batch.weigh", DW_OP_PURE, &dw_weigh_request_shape, &dw_weigh_reply_shape,
     run_weigh,
     "How each line of a batch is weighed on the shop's scales, and the check "
     "sums."},
    {"batch.balance", DW_OP_PURE, &dw_weigh_balance_request_shape,
     &dw_weigh_balance_reply_shape, run_balance,
     "Balls, scrap and the bowl's residue against the dough that was weighed "
     "in."},
    {"batch.minors", DW_OP_PURE, &dw_minors_request_shape,
     &dw_minors_reply_shape, run_minors,
     "What goes into a bag of minors, its weight and its dates."},
    {"procedure.steps", DW_OP_PURE, &dw_card_request_shape,
     &dw_card_reply_shape, run_steps,
     "The mix card of one batch: every step with material, weight, speed and "
     "minutes."},
    {"procedure.templates", DW_OP_PURE, &dw_nothing_shape, &templates_shape,
     run_templates, "Procedures to start from."},
    {"batch.run", DW_OP_PURE, &dw_run_request_shape, &dw_run_reply_shape,
     run_run,
     "The run sheet of several batches: times, warm bowl, what closes too late "
     "and what to do instead."},
};
const size_t dw_ops_batch_count = DW_COUNT(dw_ops_batch);
