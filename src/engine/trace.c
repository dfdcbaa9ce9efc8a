#include "doughwright/trace.h"

#include "doughwright/say.h"

#include <math.h>

/* Below this a weight is none, kg. */
#define NOTHING_KG 1e-6

/* The links of each node on one side: of node i from start[i] to start[i + 1].
 */
typedef struct side {
    size_t *start, *links, *ends; /* ends: the node at the other end */
    size_t *order;                /* nodes, each after those before it */
} side;

typedef struct graph {
    const dw_trace_request *request;
    size_t n, m;
    side out, in;
    double *mass; /* all that passed through each node, kg */
} graph;

/* What a walk from the node asked for finds. */
typedef struct walk {
    size_t *steps; /* by node; 0: not reached, else one more than the steps */
    double *kg;
    bool *at_least;
} walk;

static dw_status no_room(dw_err *err)
{
    return dw_fail(err, DW_E_ROOM, "nodes", NULL);
}

static dw_status check(const dw_trace_request *request, dw_err *err)
{
    double last = (double)request->nodes_count - 1;
    DW_TRY(dw_check_range(err, "of", (double)request->of, 0, last));
    for (size_t i = 0; i < request->links_count; i++) {
        const dw_trace_link *link = &request->links[i];
        dw_status status =
            dw_check_range(err, "from", (double)link->from, 0, last);
        if (status == DW_OK)
            status = dw_check_range(err, "to", (double)link->to, 0, last);
        if (status != DW_OK)
            return dw_err_within_item(err, "links", i);
    }
    return DW_OK;
}

/* Sort the links by the node at their near end. */
static dw_status make_side(size_t n, size_t m, const int64_t *near,
                           const int64_t *far, dw_arena *arena, side *s,
                           dw_err *err)
{
    s->start = DW_NEW_ARRAY(arena, size_t, n + 2);
    s->links = DW_NEW_ARRAY(arena, size_t, m + 1);
    s->ends = DW_NEW_ARRAY(arena, size_t, m + 1);
    s->order = DW_NEW_ARRAY(arena, size_t, n);
    if (!s->start || !s->links || !s->ends || !s->order)
        return no_room(err);
    for (size_t i = 0; i < m; i++)
        s->start[near[i] + 2]++;
    for (size_t i = 2; i < n + 2; i++)
        s->start[i] += s->start[i - 1];
    for (size_t i = 0; i < m; i++) {
        size_t at = s->start[near[i] + 1]++;
        s->links[at] = i;
        s->ends[at] = (size_t)far[i];
    }
    return DW_OK;
}

static dw_status make_sides(graph *g, dw_arena *arena, dw_err *err)
{
    int64_t *from = DW_NEW_ARRAY(arena, int64_t, g->m + 1);
    int64_t *to = DW_NEW_ARRAY(arena, int64_t, g->m + 1);
    if (!from || !to)
        return no_room(err);
    for (size_t i = 0; i < g->m; i++) {
        from[i] = g->request->links[i].from;
        to[i] = g->request->links[i].to;
    }
    DW_TRY(make_side(g->n, g->m, from, to, arena, &g->out, err));
    return make_side(g->n, g->m, to, from, arena, &g->in, err);
}

/* Kahn: take a node when all that leads to it has been taken. */
static dw_status put_in_order(graph *g, dw_arena *arena, dw_err *err)
{
    size_t *waits = DW_NEW_ARRAY(arena, size_t, g->n);
    size_t count = 0;
    if (!waits)
        return no_room(err);
    for (size_t i = 0; i < g->n; i++) {
        waits[i] = g->in.start[i + 1] - g->in.start[i];
        if (waits[i] == 0)
            g->out.order[count++] = i;
    }
    for (size_t next = 0; next < count; next++) {
        size_t node = g->out.order[next];
        for (size_t k = g->out.start[node]; k < g->out.start[node + 1]; k++)
            if (--waits[g->out.ends[k]] == 0)
                g->out.order[count++] = g->out.ends[k];
    }
    for (size_t i = 0; count < g->n && i < g->n; i++)
        if (waits[i] > 0)
            return dw_fail_says(err, DW_E_CONFLICT, "links",
                                g->request->nodes[i].name,
                                DW_MSG("go round in a circle"));
    for (size_t i = 0; i < g->n; i++)
        g->in.order[i] = g->out.order[g->n - 1 - i];
    return DW_OK;
}

static double sum_of(const graph *g, const side *s, size_t node, bool *unknown)
{
    double kg = 0;
    for (size_t k = s->start[node]; k < s->start[node + 1]; k++) {
        const dw_trace_link *link = &g->request->links[s->links[k]];
        kg += link->has_kg ? link->kg : 0;
        *unknown = *unknown || !link->has_kg;
    }
    return kg;
}

/* Equation (3). */
static void balance_node(const graph *g, size_t i, dw_trace_balance *b)
{
    const dw_trace_node *node = &g->request->nodes[i];
    bool unknown = node->other_unknown;
    double in = sum_of(g, &g->in, i, &unknown) + node->other_in_kg;
    double out = sum_of(g, &g->out, i, &unknown) + node->other_out_kg;
    unknown = unknown || (in <= 0 && !node->has_received_kg);
    in += node->has_received_kg ? node->received_kg : 0;
    double gone =
        out + node->wasted_kg + (node->has_left_kg ? node->left_kg : 0);
    double allowed =
        g->request->tolerance_percent / 100 * fmax(in, gone) + NOTHING_KG;
    *b = (dw_trace_balance){(int64_t)i, in, out, in - gone, DW_TRACE_CLOSES};
    if (unknown)
        b->verdict = DW_TRACE_NOT_KNOWN;
    else if (b->off_kg < -allowed)
        b->verdict = DW_TRACE_MORE_OUT;
    else if (b->off_kg > allowed)
        b->verdict =
            node->has_left_kg ? DW_TRACE_NOT_FOUND : DW_TRACE_REST_LEFT;
    g->mass[i] = fmax(in, gone);
}

/* Along one side: who is reached in how few links, and (1) or (2). How many
 * are in the queue, nearest first. */
static size_t go(const graph *g, const side *s, size_t *queue, walk *w)
{
    size_t of = (size_t)g->request->of, count = 0;
    queue[count++] = of;
    w->steps[of] = 1;
    w->kg[of] = g->mass[of];
    for (size_t next = 0; next < count; next++)
        for (size_t k = s->start[queue[next]]; k < s->start[queue[next] + 1];
             k++) {
            size_t end = s->ends[k];
            if (w->steps[end] > 0)
                continue;
            w->steps[end] = w->steps[queue[next]] + 1;
            queue[count++] = end;
        }
    for (size_t i = 0; i < g->n; i++) {
        size_t node = s->order[i];
        double share = g->mass[node] > 0 ? w->kg[node] / g->mass[node] : 0;
        for (size_t k = s->start[node];
             w->steps[node] > 0 && k < s->start[node + 1]; k++) {
            const dw_trace_link *link = &g->request->links[s->links[k]];
            w->kg[s->ends[k]] += link->has_kg ? share * link->kg : 0;
            w->at_least[s->ends[k]] =
                w->at_least[s->ends[k]] || w->at_least[node] || !link->has_kg;
        }
    }
    return count;
}

/* The places of one side: the queue without the node asked for. */
static dw_status find(const graph *g, const side *s, dw_arena *arena,
                      dw_trace_place **places, size_t *count, dw_err *err)
{
    size_t *queue = DW_NEW_ARRAY(arena, size_t, g->n + 1);
    walk w = {DW_NEW_ARRAY(arena, size_t, g->n),
              DW_NEW_ARRAY(arena, double, g->n),
              DW_NEW_ARRAY(arena, bool, g->n)};
    *places = DW_NEW_ARRAY(arena, dw_trace_place, g->n);
    if (!queue || !w.steps || !w.kg || !w.at_least || !*places)
        return no_room(err);
    size_t reached = go(g, s, queue, &w);
    *count = reached - 1;
    for (size_t i = 1; i < reached; i++)
        (*places)[i - 1] =
            (dw_trace_place){.node = (int64_t)queue[i],
                             .steps = (int64_t)w.steps[queue[i]] - 1,
                             .kg = w.kg[queue[i]],
                             .at_least = w.at_least[queue[i]]};
    return DW_OK;
}

dw_status dw_trace_walk(const dw_trace_request *request, dw_arena *arena,
                        dw_err *err, dw_trace_reply *reply)
{
    DW_TRY(check(request, err));
    graph g = {.request = request,
               .n = request->nodes_count,
               .m = request->links_count,
               .mass = DW_NEW_ARRAY(arena, double, request->nodes_count)};
    dw_trace_reply out = {.balances =
                              DW_NEW_ARRAY(arena, dw_trace_balance, g.n),
                          .balances_count = g.n};
    if (!g.mass || !out.balances)
        return no_room(err);
    DW_TRY(make_sides(&g, arena, err));
    DW_TRY(put_in_order(&g, arena, err));
    for (size_t i = 0; i < g.n; i++)
        balance_node(&g, i, &out.balances[i]);
    DW_TRY(find(&g, &g.in, arena, &out.backward, &out.backward_count, err));
    DW_TRY(find(&g, &g.out, arena, &out.forward, &out.forward_count, err));
    *reply = out;
    return DW_OK;
}
