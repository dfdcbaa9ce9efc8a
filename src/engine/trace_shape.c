#include "doughwright/trace.h"

#define MOST_KG 1e9

const char *const dw_trace_kind_words[] = {
    "lot", "minors", "batch", "stack", "shipment", "shop", NULL};
const char *const dw_trace_verdict_words[] = {
    "closes", "rest_left", "more_out", "not_found", "not_known", NULL};

static const dw_field node_fields[] = {
    DW_F_CHOICE(dw_trace_node, kind, dw_trace_kind_words, "what it is"),
    DW_F_ID(dw_trace_node, id, "which one of its kind"),
    DW_F_TEXT_OPT(dw_trace_node, name, 200, "what people call it"),
    DW_F_MOMENT(dw_trace_node, at_ms, "received, begun, boxed or loaded"),
    DW_F_REAL_OPT(dw_trace_node, received_kg, "kg", -MOST_KG, MOST_KG,
                  "from outside, or weighed in without a lot"),
    DW_F_REAL_OPT(dw_trace_node, left_kg, "kg", -MOST_KG, MOST_KG,
                  "still there; else the rest is taken to be"),
    DW_F_REAL_PRESET(dw_trace_node, wasted_kg, "kg", -MOST_KG, MOST_KG, 0,
                     "thrown away"),
    DW_F_REAL_PRESET(dw_trace_node, other_in_kg, "kg", -MOST_KG, MOST_KG, 0,
                     "from nodes that are not listed"),
    DW_F_REAL_PRESET(dw_trace_node, other_out_kg, "kg", -MOST_KG, MOST_KG, 0,
                     "to nodes that are not listed"),
    DW_F_YES(dw_trace_node, other_unknown, false,
             "one of those weights is not known"),
};
const dw_shape dw_trace_node_shape =
    DW_SHAPE("trace_node", dw_trace_node, node_fields,
             "a lot, batch, stack, shipment or shop");

static const dw_field link_fields[] = {
    DW_F_WHOLE(dw_trace_link, from, "", 0, DW_TRACE_NODES,
               "place in the list of nodes, the first is 0"),
    DW_F_WHOLE(dw_trace_link, to, "", 0, DW_TRACE_NODES,
               "place in the list of nodes"),
    DW_F_REAL_OPT(dw_trace_link, kg, "kg", -MOST_KG, MOST_KG, "how much"),
    DW_F_YES(dw_trace_link, assumed, false, "worked out, nobody tapped it"),
};
const dw_shape dw_trace_link_shape = DW_SHAPE(
    "trace_link", dw_trace_link, link_fields, "what passed from one to next");

static const dw_field request_fields[] = {
    DW_F_MANY(dw_trace_request, nodes, &dw_trace_node_shape, 1, DW_TRACE_NODES,
              "what there is"),
    DW_F_MANY_OPT(dw_trace_request, links, &dw_trace_link_shape, DW_TRACE_LINKS,
                  "what passed between them"),
    DW_F_WHOLE_PRESET(dw_trace_request, of, "", 0, DW_TRACE_NODES, 0,
                      "place of the node asked for"),
    DW_F_REAL_PRESET(dw_trace_request, tolerance_percent, "percent", 0, 100, 2,
                     "a mass that is off by no more closes"),
};
const dw_shape dw_trace_request_shape =
    DW_SHAPE("trace_request", dw_trace_request, request_fields,
             "a history, and the node asked for");

static const dw_field place_fields[] = {
    DW_F_WHOLE(dw_trace_place, node, "", 0, DW_TRACE_NODES,
               "place in the list of nodes"),
    DW_F_WHOLE(dw_trace_place, steps, "", 1, DW_TRACE_NODES, "fewest links"),
    DW_F_REAL(dw_trace_place, kg, "kg", -MOST_KG, MOST_KG,
              "backward: of it in the one asked for; forward: of that in it; "
              "each mixed evenly"),
    DW_F_YES(dw_trace_place, at_least, false,
             "a link without a weight leads here too"),
};
const dw_shape dw_trace_place_shape =
    DW_SHAPE("trace_place", dw_trace_place, place_fields, "a node reached");

static const dw_field balance_fields[] = {
    DW_F_WHOLE(dw_trace_balance, node, "", 0, DW_TRACE_NODES,
               "place in the list of nodes"),
    DW_F_REAL(dw_trace_balance, in_kg, "kg", -MOST_KG, MOST_KG,
              "received and from others"),
    DW_F_REAL(dw_trace_balance, out_kg, "kg", -MOST_KG, MOST_KG, "to others"),
    DW_F_REAL(dw_trace_balance, off_kg, "kg", -MOST_KG, MOST_KG,
              "in less out, wasted and left"),
    DW_F_CHOICE(dw_trace_balance, verdict, dw_trace_verdict_words,
                "does it add up"),
};
const dw_shape dw_trace_balance_shape = DW_SHAPE(
    "trace_balance", dw_trace_balance, balance_fields, "the mass of a node");

static const dw_field reply_fields[] = {
    DW_F_MANY_OPT(dw_trace_reply, backward, &dw_trace_place_shape,
                  DW_TRACE_NODES, "what is in it, nearest first"),
    DW_F_MANY_OPT(dw_trace_reply, forward, &dw_trace_place_shape,
                  DW_TRACE_NODES, "where it went, nearest first"),
    DW_F_MANY_OPT(dw_trace_reply, balances, &dw_trace_balance_shape,
                  DW_TRACE_NODES, "the mass of each node, in their order"),
};
const dw_shape dw_trace_reply_shape = DW_SHAPE(
    "trace_reply", dw_trace_reply, reply_fields, "backward, forward, masses");
