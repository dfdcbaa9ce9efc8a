/* Where did it go, and what was in it? Lots, batches, stacks, shipments and
 * shops, and what passed from one to the next.
 *
 * Nodes hold mass, links carry it. Backward from a node is everything that a
 * chain of links leads here from; forward, everything a chain leads to. Rework
 * (scrap or old dough of one batch weighed into a later one) is a link like
 * the others; a thing cannot be made of itself, so links that go round in a
 * circle are refused and every walk ends.
 *
 * How much of the node asked for, s, is in another, when each node is mixed
 * evenly (kg; M_u is all that passed through u):
 *
 *   forward   c_s = M_s,  c_v = sum over links u->v of  kg(u,v) c_u / M_u   (1)
 *   backward  b_s = M_s,  b_u = sum over links u->v of  kg(u,v) b_v / M_v   (2)
 *
 * b_u is how much of u is in s. The mass of a node:
 *
 *   off = received + in - out - wasted - left                              (3)
 *
 * It closes when |off| is within the tolerance. 2 % is preset: flour that
 * dusts, dough that stays in the bowl, water that dries off (common practice,
 * no source). Whom a lot may have touched is never decided by (1) or (2): a
 * link without a weight leads on as any other.
 *
 * Source: conservation of mass; depth-free search and topological order as in
 * Kahn 1962; docs/models/trace.md.
 */
#ifndef DOUGHWRIGHT_TRACE_H
#define DOUGHWRIGHT_TRACE_H

#include "doughwright/field.h"

enum { DW_TRACE_NODES = 20000, DW_TRACE_LINKS = 100000 };

extern const char *const dw_trace_kind_words[]; /* lot minors batch stack
                                                   shipment shop */
enum {
    DW_TRACE_LOT,    /* a material's, or scrap of a batch */
    DW_TRACE_MINORS, /* bags weighed ahead */
    DW_TRACE_BATCH,
    DW_TRACE_STACK, /* boxes of one product of one batch */
    DW_TRACE_SHIPMENT,
    DW_TRACE_SHOP, /* an outlet; id 0: the business's own use */
    DW_TRACE_KINDS
};

typedef struct dw_trace_node {
    int kind;
    int64_t id;
    const char *name; /* borrowed; may be NULL */
    int64_t at_ms;    /* received, begun, boxed, loaded */
    bool has_received_kg, has_left_kg;
    double received_kg; /* from outside, or weighed in without a lot */
    double left_kg;     /* absent: the rest is taken to be left */
    double wasted_kg;
    /* links to and from nodes that are not among these */
    double other_in_kg, other_out_kg;
    bool other_unknown; /* one of them has no weight */
} dw_trace_node;

typedef struct dw_trace_link {
    int64_t from, to; /* places in the list of nodes */
    bool has_kg;
    double kg;
    bool assumed; /* worked out, nobody tapped it */
} dw_trace_link;

typedef struct dw_trace_request {
    dw_trace_node *nodes;
    size_t nodes_count;
    dw_trace_link *links;
    size_t links_count;
    int64_t of; /* place of the node asked for */
    double tolerance_percent;
} dw_trace_request;

typedef struct dw_trace_place {
    int64_t node;  /* place in the list */
    int64_t steps; /* fewest links from the node asked for */
    double kg;     /* by (1) or (2) */
    bool at_least; /* a link without a weight leads here too */
} dw_trace_place;

extern const char *const dw_trace_verdict_words[]; /* closes rest_left more_out
                                                      not_found not_known */
enum {
    DW_TRACE_CLOSES,
    DW_TRACE_REST_LEFT, /* what is left was not told; off is taken to be it */
    DW_TRACE_MORE_OUT,  /* more came out than went in */
    DW_TRACE_NOT_FOUND, /* went in, and nobody wrote where it is */
    DW_TRACE_NOT_KNOWN  /* a weight is missing */
};

typedef struct dw_trace_balance {
    int64_t node;
    double in_kg, out_kg, off_kg; /* in: received and by links */
    int verdict;
} dw_trace_balance;

typedef struct dw_trace_reply {
    dw_trace_place *backward, *forward; /* nearest first; without the node */
    size_t backward_count, forward_count;
    dw_trace_balance *balances; /* one for each node, in their order */
    size_t balances_count;
} dw_trace_reply;

extern const dw_shape dw_trace_node_shape, dw_trace_link_shape,
    dw_trace_place_shape, dw_trace_balance_shape, dw_trace_request_shape,
    dw_trace_reply_shape;

/* Fails with DW_E_RANGE (of, links[i].from, links[i].to: no such node),
 * DW_E_CONFLICT (links: they go round in a circle; value: the name of a node in
 * it or behind it), DW_E_ROOM. 200 bytes for each node and 40 for each link
 * are enough. */
dw_status dw_trace_walk(const dw_trace_request *request, dw_arena *arena,
                        dw_err *err, dw_trace_reply *reply);

#endif
