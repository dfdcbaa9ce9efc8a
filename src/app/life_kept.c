#include "app/life_kept.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>

/* How the balls of a stack stood after `legs` legs. */
typedef struct entry {
    int64_t stack_id, members;
    uint64_t asked; /* when, by the count of askings */
    size_t legs;
    void *state;
    size_t state_bytes;
    unsigned char *past; /* everything that made it, byte for byte */
    size_t past_bytes;
} entry;

struct dw_life_kept {
    pthread_mutex_t lock; /* over all that follows */
    entry **entries;
    size_t count, room;
    size_t bytes, bytes_most;
    uint64_t askings, gone_on, begun;
};

dw_life_kept *dw_life_kept_new(size_t bytes_most)
{
    dw_life_kept *kept = calloc(1, sizeof *kept);
    if (!kept)
        return NULL;
    pthread_mutex_init(&kept->lock, NULL);
    kept->bytes_most = bytes_most;
    return kept;
}

static void entry_free(entry *e)
{
    if (!e)
        return;
    free(e->state);
    free(e->past);
    free(e);
}

void dw_life_kept_free(dw_life_kept *kept)
{
    if (!kept)
        return;
    for (size_t i = 0; i < kept->count; i++)
        entry_free(kept->entries[i]);
    free(kept->entries);
    pthread_mutex_destroy(&kept->lock);
    free(kept);
}

static size_t bytes_of(const entry *e)
{
    return sizeof *e + e->state_bytes + e->past_bytes;
}

/* ---- the past of a life, as bytes ---------------------------------------- */

typedef struct past {
    unsigned char *bytes;
    size_t used, room;
} past;

static void add(past *p, const void *bytes, size_t count)
{
    DW_ASSERT(p->used + count <= p->room);
    memcpy(p->bytes + p->used, bytes, count);
    p->used += count;
}

static void add_real(past *p, double value)
{
    add(p, &value, sizeof value);
}

enum { LINE_REALS = 4, ALONE_REALS = 10, NAME_MOST = 64 };

static void add_line(past *p, const dw_line *line)
{
    add_real(p, line->kind);
    add_real(p, line->percent);
    add_real(p, line->has_water_percent ? line->water_percent : -1);
    add_real(p, line->has_protein_percent ? line->protein_percent : -1);
}

static void add_range(past *p, const dw_life_range *range)
{
    char name[NAME_MOST] = {0};
    strncpy(name, range->parameter, sizeof name - 1);
    add(p, name, sizeof name);
    add_real(p, range->low);
    add_real(p, range->high);
}

static void add_rest(past *p, const dw_life_request *r)
{
    const double alone[ALONE_REALS] = {r->piece_g,
                                       r->has_dough_c ? r->dough_c : -1000,
                                       r->elevation_m,
                                       r->report_every_h,
                                       r->hold_temperature,
                                       (double)r->members,
                                       (double)r->shells,
                                       r->step_scale,
                                       r->earliest_cold_use_h,
                                       r->has_bench_life_h ? r->bench_life_h
                                                           : -1};
    add(p, alone, sizeof alone);
    add(p, &r->model, sizeof r->model);
}

/* Everything that makes the life up to the end of its first `legs` legs. */
static bool past_of(const dw_life_request *r, size_t legs, dw_arena *arena,
                    past *p)
{
    p->used = 0;
    p->room = r->formula.lines_count * LINE_REALS * sizeof(double) +
              ALONE_REALS * sizeof(double) + sizeof r->model +
              r->ranges_count * (NAME_MOST + 2 * sizeof(double)) +
              r->events_count * 2 * sizeof(double) + legs * sizeof(dw_leg);
    p->bytes = dw_arena_take(arena, p->room);
    if (!p->bytes)
        return false;
    for (size_t i = 0; i < r->formula.lines_count; i++)
        add_line(p, &r->formula.lines[i]);
    add_rest(p, r);
    for (size_t i = 0; i < r->ranges_count; i++)
        add_range(p, &r->ranges[i]);
    for (size_t i = 0; i < r->events_count; i++) {
        add_real(p, r->events[i].at_h);
        add_real(p, r->events[i].kind);
    }
    add(p, r->legs, legs * sizeof *r->legs);
    return true;
}

/* ---- taking out and putting back ----------------------------------------- */

/* With the lock held: out of the list. */
static entry *remove_at(dw_life_kept *kept, size_t index)
{
    entry *e = kept->entries[index];
    kept->entries[index] = kept->entries[--kept->count];
    kept->bytes -= bytes_of(e);
    return e;
}

/* Nobody else uses it until it is put back. NULL: there is none. */
static entry *take_out(dw_life_kept *kept, int64_t stack_id, int64_t members)
{
    entry *taken = NULL;
    pthread_mutex_lock(&kept->lock);
    for (size_t i = 0; i < kept->count; i++) {
        const entry *e = kept->entries[i];
        if (e->stack_id == stack_id && e->members == members) {
            taken = remove_at(kept, i);
            break;
        }
    }
    pthread_mutex_unlock(&kept->lock);
    return taken;
}

/* With the lock held: make room for so many bytes more. */
static void let_go(dw_life_kept *kept, size_t bytes)
{
    while (kept->count > 0 && kept->bytes + bytes > kept->bytes_most) {
        size_t oldest = 0;
        for (size_t i = 1; i < kept->count; i++)
            if (kept->entries[i]->asked < kept->entries[oldest]->asked)
                oldest = i;
        entry_free(remove_at(kept, oldest));
    }
}

/* With the lock held: a place in the list. */
static bool has_place(dw_life_kept *kept)
{
    if (kept->count < kept->room)
        return true;
    size_t room = kept->room ? 2 * kept->room : 64;
    entry **grown = realloc(kept->entries, room * sizeof(entry *));
    if (!grown)
        return false;
    kept->entries = grown;
    kept->room = room;
    return true;
}

static void put_back(dw_life_kept *kept, entry *e, bool went_on)
{
    pthread_mutex_lock(&kept->lock);
    size_t bytes = bytes_of(e);
    let_go(kept, bytes);
    bool fits = bytes <= kept->bytes_most && has_place(kept);
    e->asked = ++kept->askings;
    kept->gone_on += went_on;
    kept->begun += !went_on;
    if (fits) {
        kept->entries[kept->count++] = e;
        kept->bytes += bytes;
    }
    pthread_mutex_unlock(&kept->lock);
    if (!fits)
        entry_free(e);
}

/* ---- living -------------------------------------------------------------- */

/* Is this how `request` stood after e->legs legs? */
static bool is_past_of(const entry *e, const dw_life_request *request,
                       size_t over, dw_arena *arena)
{
    past p;
    size_t used = arena->used;
    bool same = e->legs <= over && past_of(request, e->legs, arena, &p) &&
                p.used == e->past_bytes &&
                memcmp(p.bytes, e->past, p.used) == 0;
    arena->used = used;
    return same;
}

/* An empty one of this life. NULL: no memory. */
static entry *entry_new(int64_t stack_id, const dw_life_request *request)
{
    entry *e = calloc(1, sizeof *e);
    if (!e)
        return NULL;
    e->stack_id = stack_id;
    e->members = request->members;
    e->state_bytes = dw_life_state_bytes(request);
    e->state = malloc(e->state_bytes);
    if (!e->state) {
        entry_free(e);
        return NULL;
    }
    return e;
}

/* The entry is now about the first `over` legs. */
static bool is_told(entry *e, const dw_life_request *request, size_t over,
                    dw_arena *arena)
{
    past p;
    size_t used = arena->used;
    bool fits = past_of(request, over, arena, &p);
    unsigned char *copy = fits ? realloc(e->past, p.used) : NULL;
    if (copy) {
        memcpy(copy, p.bytes, p.used);
        e->past = copy;
        e->past_bytes = p.used;
        e->legs = over;
    }
    arena->used = used;
    return copy != NULL;
}

dw_status dw_life_kept_run(dw_life_kept *kept, int64_t stack_id,
                           const dw_life_request *request, size_t over,
                           dw_arena *arena, dw_life_reply *reply, dw_err *err)
{
    if (!kept || over == 0 || over >= request->legs_count)
        return dw_life_run(request, arena, reply, err);
    entry *e = take_out(kept, stack_id, request->members);
    bool goes_on = e && is_past_of(e, request, over, arena);
    if (!goes_on) {
        entry_free(e);
        e = entry_new(stack_id, request);
    }
    if (!e)
        return dw_life_run(request, arena, reply, err);
    bool further = e->legs < over;
    dw_life_going going = {.from = goes_on ? e->state : NULL,
                           .keep = further ? e->state : NULL,
                           .keep_legs = over};
    dw_status status = dw_life_go(request, &going, arena, reply, err);
    if (status == DW_OK && (!further || is_told(e, request, over, arena)))
        put_back(kept, e, goes_on);
    else
        entry_free(e);
    return status;
}

dw_life_kept_tally dw_life_kept_count(dw_life_kept *kept)
{
    pthread_mutex_lock(&kept->lock);
    dw_life_kept_tally tally = {kept->count, kept->bytes, kept->gone_on,
                                kept->begun};
    pthread_mutex_unlock(&kept->lock);
    return tally;
}
