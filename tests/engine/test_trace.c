#include "doughwright/trace.h"
#include "dw_test.h"

#include <stdlib.h>

enum { BLOCK = 1 << 20, MOST = 24, HISTORIES = 300 };

typedef struct found {
    void *block;
    dw_status status;
    dw_err err;
    dw_trace_reply reply;
} found;

static found walk(const dw_trace_request *request)
{
    dw_arena arena;
    found f = {.block = malloc(BLOCK)};
    dw_arena_init(&arena, f.block, BLOCK);
    f.status = dw_trace_walk(request, &arena, &f.err, &f.reply);
    return f;
}

/* ---- random histories ---------------------------------------------------- */

static uint64_t chance(uint64_t *state, uint64_t below)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return (*state >> 33) % below;
}

typedef struct history {
    dw_trace_node nodes[MOST];
    dw_trace_link links[MOST * MOST];
    dw_trace_request request;
} history;

/* Links lead from lower to higher rank; ranks are dealt out, so that nodes do
 * not stand in their order. Each node hands on parts of what it has. */
static void make_history(uint64_t *state, history *h)
{
    size_t n = 2 + chance(state, MOST - 2), rank[MOST], m = 0;
    double has[MOST];
    for (size_t i = 0; i < n; i++)
        rank[i] = i;
    for (size_t i = n - 1; i > 0; i--) {
        size_t j = chance(state, i + 1), swap = rank[i];
        rank[i] = rank[j];
        rank[j] = swap;
    }
    for (size_t i = 0; i < n; i++) {
        h->nodes[i] =
            (dw_trace_node){.id = (int64_t)i,
                            .has_received_kg = true,
                            .received_kg = 1 + (double)chance(state, 50)};
        has[i] = h->nodes[i].received_kg;
    }
    for (size_t a = 0; a < n; a++) {
        size_t from = rank[a];
        double left = has[from];
        for (size_t b = a + 1; b < n; b++) {
            if (chance(state, n) > 2)
                continue;
            double kg = left * 0.1 * (double)(1 + chance(state, 9));
            left -= kg;
            has[rank[b]] += kg;
            h->links[m++] = (dw_trace_link){(int64_t)from, (int64_t)rank[b],
                                            true, kg, false};
        }
        h->nodes[from].has_left_kg = true;
        h->nodes[from].left_kg = left;
    }
    h->request = (dw_trace_request){
        h->nodes, n, h->links, m, (int64_t)chance(state, n), 0.001};
}

/* Warshall's closure: a chain from i to j, by yes and no alone. */
static void close_up(const history *h, bool reach[MOST][MOST])
{
    size_t n = h->request.nodes_count;
    for (size_t i = 0; i < h->request.links_count; i++)
        reach[h->links[i].from][h->links[i].to] = true;
    for (size_t k = 0; k < n; k++)
        for (size_t i = 0; i < n; i++)
            for (size_t j = 0; j < n; j++)
                reach[i][j] = reach[i][j] || (reach[i][k] && reach[k][j]);
}

TEST(a_trace_reaches_what_the_closure_of_the_links_reaches, LIMIT,
     "Warshall's boolean closure of 300 random histories")
{
    uint64_t state = 20260605;
    size_t reached = 0;
    for (int round = 0; round < HISTORIES; round++) {
        history h;
        bool reach[MOST][MOST] = {{false}}, ahead[MOST] = {false},
             behind[MOST] = {false};
        make_history(&state, &h);
        close_up(&h, reach);
        found f = walk(&h.request);
        SAME(f.status, DW_OK);
        for (size_t i = 0; i < f.reply.forward_count; i++)
            ahead[f.reply.forward[i].node] = true;
        for (size_t i = 0; i < f.reply.backward_count; i++)
            behind[f.reply.backward[i].node] = true;
        for (size_t i = 0; i < h.request.nodes_count; i++) {
            CHECK(ahead[i] == reach[h.request.of][i]);
            CHECK(behind[i] == reach[i][h.request.of]);
        }
        reached += f.reply.forward_count + f.reply.backward_count;
        free(f.block);
    }
    CHECK(reached > HISTORIES);
}

TEST(what_a_lot_was_is_found_again_where_it_lies, LIMIT,
     "conservation of mass: all that is left of a node, wherever, is its own "
     "mass")
{
    uint64_t state = 7;
    for (int round = 0; round < HISTORIES; round++) {
        history h;
        make_history(&state, &h);
        found f = walk(&h.request);
        size_t of = (size_t)h.request.of;
        double mass = f.reply.balances[of].in_kg;
        double kg = h.nodes[of].left_kg;
        for (size_t i = 0; i < f.reply.forward_count; i++) {
            size_t node = (size_t)f.reply.forward[i].node;
            kg += f.reply.forward[i].kg * h.nodes[node].left_kg /
                  f.reply.balances[node].in_kg;
        }
        NEAR(kg, mass, 1e-9);
        free(f.block);
    }
}

TEST(what_is_in_a_node_is_what_was_received_for_it, LIMIT,
     "conservation of mass: the parts that came from outside add up to it")
{
    uint64_t state = 11;
    for (int round = 0; round < HISTORIES; round++) {
        history h;
        make_history(&state, &h);
        found f = walk(&h.request);
        size_t of = (size_t)h.request.of;
        double kg = h.nodes[of].received_kg;
        for (size_t i = 0; i < f.reply.backward_count; i++) {
            size_t node = (size_t)f.reply.backward[i].node;
            kg += f.reply.backward[i].kg * h.nodes[node].received_kg /
                  f.reply.balances[node].in_kg;
        }
        NEAR(kg, f.reply.balances[of].in_kg, 1e-9);
        SAME(f.reply.balances[of].verdict, DW_TRACE_CLOSES);
        free(f.block);
    }
}

/* ---- single cases -------------------------------------------------------- */

/* flour -> batch 1 -> scrap -> batch 2 */
static dw_trace_node chain_nodes[] = {
    {.kind = DW_TRACE_LOT, .has_received_kg = true, .received_kg = 20},
    {.kind = DW_TRACE_BATCH, .has_received_kg = true, .received_kg = 6},
    {.kind = DW_TRACE_LOT, .name = "scrap"},
    {.kind = DW_TRACE_BATCH, .has_received_kg = true, .received_kg = 14},
};
static dw_trace_link chain_links[] = {
    {0, 1, true, 10, false}, {1, 2, true, 2, false}, {2, 3, true, 2, false}};

static dw_trace_request chain(void)
{
    return (dw_trace_request){.nodes = chain_nodes,
                              .nodes_count = 4,
                              .links = chain_links,
                              .links_count = 3,
                              .tolerance_percent = 2};
}

TEST(rework_carries_a_lot_on_by_its_share, DERIVED,
     "by hand: 10 of 16 kg of dough are the lot, so 1.25 of 2 kg of scrap")
{
    dw_trace_request request = chain();
    found f = walk(&request);
    SAME(f.reply.forward_count, 3);
    NEAR(f.reply.forward[0].kg, 10, 1e-12);
    NEAR(f.reply.forward[1].kg, 1.25, 1e-12);
    NEAR(f.reply.forward[2].kg, 1.25, 1e-12);
    SAME(f.reply.forward[2].steps, 3);
    free(f.block);
    request.of = 3;
    f = walk(&request);
    SAME(f.reply.backward_count, 3);
    SAME(f.reply.backward[2].node, 0);
    NEAR(f.reply.backward[2].kg, 1.25, 1e-12);
    free(f.block);
}

TEST(a_link_without_a_weight_leads_on_and_says_at_least, DERIVED, "by hand")
{
    dw_trace_request request = chain();
    dw_trace_link links[] = {
        chain_links[0], {1, 2, false, 0, false}, chain_links[2]};
    request.links = links;
    found f = walk(&request);
    SAME(f.reply.forward_count, 3);
    CHECK(!f.reply.forward[0].at_least);
    CHECK(f.reply.forward[2].at_least);
    SAME(f.reply.balances[1].verdict, DW_TRACE_NOT_KNOWN);
    free(f.block);
}

TEST(a_mass_that_does_not_close_is_named, DERIVED, "by hand, 2 percent")
{
    dw_trace_node nodes[] = {
        {.has_received_kg = true, .received_kg = 100},
        {.has_left_kg = true, .left_kg = 0},
        {.has_left_kg = true, .left_kg = 0, .wasted_kg = 30},
        {.has_left_kg = true, .left_kg = 0, .wasted_kg = 19.7},
        {.wasted_kg = 1},
    };
    dw_trace_link links[] = {{0, 1, true, 20, false},
                             {0, 2, true, 20, false},
                             {0, 3, true, 20, false}};
    dw_trace_request request = {nodes, 5, links, 3, 0, 2};
    found f = walk(&request);
    static const int verdicts[] = {DW_TRACE_REST_LEFT, DW_TRACE_NOT_FOUND,
                                   DW_TRACE_MORE_OUT, DW_TRACE_CLOSES,
                                   DW_TRACE_NOT_KNOWN};
    static const double off[] = {40, 20, -10, 0.3, -1};
    for (size_t i = 0; i < DW_COUNT(verdicts); i++) {
        SAME(f.reply.balances[i].verdict, verdicts[i]);
        NEAR(f.reply.balances[i].off_kg, off[i], 1e-12);
    }
    free(f.block);
}

TEST(a_circle_is_refused, DERIVED, "nothing is made of itself")
{
    dw_trace_request request = chain();
    dw_trace_link links[] = {
        chain_links[0], chain_links[1], {2, 1, true, 1, false}};
    request.links = links;
    found f = walk(&request);
    SAME(f.status, DW_E_CONFLICT);
    SAME_TEXT(f.err.field, "links");
    free(f.block);
}

TEST(a_link_to_no_node_is_named, DERIVED, "there are four nodes")
{
    dw_trace_request request = chain();
    dw_trace_link links[] = {chain_links[0], {1, 4, true, 1, false}};
    request.links = links;
    request.links_count = 2;
    found f = walk(&request);
    SAME(f.status, DW_E_RANGE);
    SAME_TEXT(f.err.field, "links[1].to");
    free(f.block);
}
