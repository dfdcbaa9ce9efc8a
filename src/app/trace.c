#include "app/trace.h"

#include "doughwright/say.h"
#include "store/trace.h"

#define TOLERANCE_PERCENT 2

/* ---- shapes -------------------------------------------------------------- */

static const dw_field asked_fields[] = {
    DW_F_ID(dw_trace_asked, lot_id, "of a lot of a material"),
    DW_F_ID(dw_trace_asked, batch_id, "of a batch"),
    DW_F_ID(dw_trace_asked, minors_lot_id, "of bags of minors"),
    DW_F_ID(dw_trace_asked, stack_id, "of a stack"),
    DW_F_ID(dw_trace_asked, drop_id, "of a shipment"),
};
const dw_shape dw_trace_asked_shape =
    DW_SHAPE("trace_asked", dw_trace_asked, asked_fields,
             "one of them: where did it go, and what is in it?");

static const dw_field shop_fields[] = {
    DW_F_ID(dw_trace_shop, outlet_id, "0: used by the business itself"),
    DW_F_TEXT_OPT(dw_trace_shop, name, 60, "what people call it"),
    DW_F_WHOLE(dw_trace_shop, shipments, "", 0, 1e6, "with some of it"),
    DW_F_MOMENT(dw_trace_shop, last_ms, "the last of them left"),
    DW_F_REAL(dw_trace_shop, kg, "kg", -1e9, 1e9, "of what was asked for"),
    DW_F_YES(dw_trace_shop, at_least, false, "a weight is not known"),
};
static const dw_shape shop_shape =
    DW_SHAPE("trace_shop", dw_trace_shop, shop_fields, "a shop that got some");

static const dw_field found_fields[] = {
    DW_F_MANY_OPT(dw_trace_found, shops, &shop_shape, 10000,
                  "shops that got some of it"),
    DW_F_MANY_OPT(dw_trace_found, nodes, &dw_trace_node_shape, DW_TRACE_NODES,
                  "all that it touches; the first is the one asked for"),
    DW_F_MANY_OPT(dw_trace_found, links, &dw_trace_link_shape, DW_TRACE_LINKS,
                  "what passed between them"),
    DW_F_MANY_OPT(dw_trace_found, backward, &dw_trace_place_shape,
                  DW_TRACE_NODES, "what is in it, nearest first"),
    DW_F_MANY_OPT(dw_trace_found, forward, &dw_trace_place_shape,
                  DW_TRACE_NODES, "where it went, nearest first"),
    DW_F_MANY_OPT(dw_trace_found, balances, &dw_trace_balance_shape,
                  DW_TRACE_NODES, "the mass of each node but shops"),
    DW_F_WHOLE(dw_trace_found, not_closing, "", 0, 1e6,
               "masses that do not add up, or lack a weight"),
    DW_F_YES(dw_trace_found, sent_unknown, false,
             "some was sent, and nobody wrote where"),
};
const dw_shape dw_trace_found_shape =
    DW_SHAPE("trace_found", dw_trace_found, found_fields, "a trace, both ways");

/* ---- the nodes that are reached ------------------------------------------ */

enum { PLACES = 1 << 16 }; /* of the table; more than twice DW_TRACE_NODES */

typedef dw_status next_of(dw_store *store, int kind, int64_t id,
                          dw_arena *arena, dw_trace_next **rows, size_t *count,
                          dw_err *err);

/* Nodes as they are reached, found again by kind and id. */
typedef struct search {
    dw_call *call;
    dw_trace_node *nodes;
    size_t count;
    uint32_t *table; /* one more than the place of a node; 0: free */
} search;

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "nodes", NULL);
}

/* Where a node stands in the table, or would. */
static size_t slot_of(const search *s, int kind, int64_t id)
{
    uint64_t key = (uint64_t)id * DW_TRACE_KINDS + (uint64_t)kind;
    size_t slot = (size_t)(key * 0x9e3779b97f4a7c15u >> 48) % PLACES;
    while (s->table[slot] > 0 && (s->nodes[s->table[slot] - 1].kind != kind ||
                                  s->nodes[s->table[slot] - 1].id != id))
        slot = (slot + 1) % PLACES;
    return slot;
}

static dw_status reach(search *s, int kind, int64_t id)
{
    size_t slot = slot_of(s, kind, id);
    if (s->table[slot] > 0)
        return DW_OK;
    if (s->count == DW_TRACE_NODES)
        return dw_fail_range(s->call->err, "nodes", DW_TRACE_NODES + 1, 1,
                             DW_TRACE_NODES);
    DW_TRY(dw_store_trace_node(s->call->store, kind, id, s->call->arena,
                               &s->nodes[s->count], s->call->err));
    s->table[slot] = (uint32_t)++s->count;
    return DW_OK;
}

/* A shop has had shipments of everything, and what nobody wrote down has no
 * record: there a trace ends. */
static bool is_end(const dw_trace_node *node)
{
    return node->kind == DW_TRACE_SHOP || node->id == 0;
}

/* Follow one side from the node asked for. Nodes that are there already, but
 * for the first, were reached from the other side: nothing is on both, for
 * things do not go round in a circle. */
static dw_status follow(search *s, next_of *next)
{
    for (size_t i = 0, first = s->count; i < s->count;
         i = i == 0 ? first : i + 1) {
        dw_trace_next *rows = NULL;
        size_t count = 0;
        if (is_end(&s->nodes[i]))
            continue;
        DW_TRY(next(s->call->store, s->nodes[i].kind, s->nodes[i].id,
                    s->call->arena, &rows, &count, s->call->err));
        for (size_t k = 0; k < count; k++)
            DW_TRY(reach(s, rows[k].kind, rows[k].id));
    }
    return DW_OK;
}

static dw_status start(dw_call *call, const dw_trace_asked *asked, search *s)
{
    const int64_t ids[] = {asked->lot_id, asked->minors_lot_id, asked->batch_id,
                           asked->stack_id, asked->drop_id};
    int kind = -1;
    for (int k = 0; k < (int)DW_COUNT(ids); k++) {
        if (ids[k] == 0)
            continue;
        if (kind >= 0)
            return dw_fail_says(call->err, DW_E_CONFLICT, "lot_id", NULL,
                                DW_MSG("is asked for together with another"));
        kind = k;
    }
    if (kind < 0)
        return dw_fail(call->err, DW_E_MISSING, "lot_id", NULL);
    *s = (search){.call = call,
                  .nodes =
                      DW_NEW_ARRAY(call->arena, dw_trace_node, DW_TRACE_NODES),
                  .table = DW_NEW_ARRAY(call->arena, uint32_t, PLACES)};
    if (!s->nodes || !s->table)
        return no_room(call);
    return reach(s, kind, ids[kind]);
}

/* ---- links, and what passed beyond --------------------------------------- */

static void add_other(const dw_trace_next *row, double *kg, bool *unknown)
{
    *kg += row->has_kg ? row->kg : 0;
    *unknown = *unknown || !row->has_kg;
}

static dw_status link_onward(search *s, size_t i, dw_trace_found *out)
{
    dw_trace_node *node = &s->nodes[i];
    dw_trace_next *rows;
    size_t count;
    DW_TRY(dw_store_trace_from(s->call->store, node->kind, node->id,
                               s->call->arena, &rows, &count, s->call->err));
    for (size_t k = 0; k < count; k++) {
        const dw_trace_next *row = &rows[k];
        uint32_t place = s->table[slot_of(s, row->kind, row->id)];
        if (place == 0)
            add_other(row, &node->other_out_kg, &node->other_unknown);
        else if (out->links_count < DW_TRACE_LINKS)
            out->links[out->links_count++] =
                (dw_trace_link){(int64_t)i, (int64_t)place - 1, row->has_kg,
                                row->kg, row->assumed};
        else
            return dw_fail_range(s->call->err, "links", DW_TRACE_LINKS + 1, 0,
                                 DW_TRACE_LINKS);
    }
    return DW_OK;
}

static dw_status weigh_others_in(search *s, dw_trace_node *node)
{
    dw_trace_next *rows;
    size_t count;
    DW_TRY(dw_store_trace_into(s->call->store, node->kind, node->id,
                               s->call->arena, &rows, &count, s->call->err));
    for (size_t k = 0; k < count; k++)
        if (s->table[slot_of(s, rows[k].kind, rows[k].id)] == 0)
            add_other(&rows[k], &node->other_in_kg, &node->other_unknown);
    return DW_OK;
}

static dw_status link_all(search *s, dw_trace_found *out)
{
    out->links = DW_NEW_ARRAY(s->call->arena, dw_trace_link, DW_TRACE_LINKS);
    if (!out->links)
        return no_room(s->call);
    for (size_t i = 0; i < s->count; i++) {
        if (is_end(&s->nodes[i]))
            continue;
        DW_TRY(link_onward(s, i, out));
        DW_TRY(weigh_others_in(s, &s->nodes[i]));
    }
    return DW_OK;
}

/* ---- the answer ---------------------------------------------------------- */

static bool is_settled(int verdict)
{
    return verdict == DW_TRACE_CLOSES || verdict == DW_TRACE_REST_LEFT;
}

static void keep_balances(const search *s, dw_trace_found *out)
{
    size_t n = 0;
    for (size_t i = 0; i < out->balances_count; i++) {
        if (is_end(&s->nodes[out->balances[i].node]))
            continue;
        out->balances[n++] = out->balances[i];
        out->not_closing += !is_settled(out->balances[n - 1].verdict);
    }
    out->balances_count = n;
}

/* The shipments that brought it. */
static void count_shipments(const search *s, size_t node,
                            const dw_trace_found *out, dw_trace_shop *shop)
{
    for (size_t i = 0; i < out->links_count; i++) {
        const dw_trace_node *from = &s->nodes[out->links[i].from];
        if (out->links[i].to != (int64_t)node ||
            from->kind != DW_TRACE_SHIPMENT)
            continue;
        shop->shipments++;
        shop->last_ms =
            from->at_ms > shop->last_ms ? from->at_ms : shop->last_ms;
    }
}

static dw_status keep_shops(const search *s, dw_trace_found *out)
{
    out->shops =
        DW_NEW_ARRAY(s->call->arena, dw_trace_shop, out->forward_count + 1);
    if (!out->shops)
        return no_room(s->call);
    for (size_t i = 0; i < out->forward_count; i++) {
        const dw_trace_place *place = &out->forward[i];
        const dw_trace_node *node = &s->nodes[place->node];
        if (node->kind == DW_TRACE_SHIPMENT && node->id == 0)
            out->sent_unknown = true;
        if (node->kind != DW_TRACE_SHOP)
            continue;
        dw_trace_shop *shop = &out->shops[out->shops_count++];
        *shop = (dw_trace_shop){.outlet_id = node->id,
                                .name = node->name,
                                .kg = place->kg,
                                .at_least = place->at_least};
        count_shipments(s, (size_t)place->node, out, shop);
    }
    return DW_OK;
}

dw_status dw_trace_find(dw_call *call, const dw_trace_asked *asked,
                        dw_trace_found *found)
{
    search s;
    dw_trace_found out = {.shops_count = 0};
    dw_trace_reply walked;
    DW_TRY(start(call, asked, &s));
    DW_TRY(follow(&s, dw_store_trace_from));
    DW_TRY(follow(&s, dw_store_trace_into));
    DW_TRY(link_all(&s, &out));
    const dw_trace_request request = {.nodes = s.nodes,
                                      .nodes_count = s.count,
                                      .links = out.links,
                                      .links_count = out.links_count,
                                      .tolerance_percent = TOLERANCE_PERCENT};
    DW_TRY(dw_trace_walk(&request, call->arena, call->err, &walked));
    out.nodes = s.nodes;
    out.nodes_count = s.count;
    out.backward = walked.backward;
    out.backward_count = walked.backward_count;
    out.forward = walked.forward;
    out.forward_count = walked.forward_count;
    out.balances = walked.balances;
    out.balances_count = walked.balances_count;
    keep_balances(&s, &out);
    DW_TRY(keep_shops(&s, &out));
    *found = out;
    return DW_OK;
}
