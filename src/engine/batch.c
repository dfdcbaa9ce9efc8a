#include "engine/pack.h"

#include <math.h>
#include <string.h>

/* Batches of standard sizes tried for one number of batches, least flour
 * first, before one more batch is allowed. */
enum { TRIES = 6, NOTES = 64 };

typedef struct packer {
    const dw_pack_request *request;
    dw_arena *arena;
    dw_err *err;
    dw_notes notes;
    dw_pack__problem problem;    /* sizes largest first */
    size_t order[DW_PACK_SIZES]; /* problem size -> request size */
    double usable_per_flour;     /* (1) of batch.h */
    dw_pack_standard standards[DW_PACK_STANDARDS]; /* fit, largest first */
    size_t standards_count;
    dw_pack__menu menus[DW_PACK_STANDARDS];
    double flour_kg[DW_PACK_BATCHES];
    const char *names[DW_PACK_BATCHES];
    dw_pack__answer answer;
} packer;

static double dough_of(const packer *p, double flour_kg)
{
    return flour_kg * p->request->total_percent / 100;
}

static dw_status set_sizes(packer *p)
{
    const dw_pack_request *r = p->request;
    dw_pack__problem *m = &p->problem;
    m->sizes = r->sizes_count;
    for (size_t i = 0; i < r->sizes_count; i++) {
        size_t at = i;
        for (;
             at > 0 && r->sizes[p->order[at - 1]].piece_g < r->sizes[i].piece_g;
             at--)
            p->order[at] = p->order[at - 1];
        p->order[at] = i;
    }
    for (size_t k = 0; k < m->sizes; k++) {
        const dw_pack_size *size = &r->sizes[p->order[k]];
        m->piece_kg[k] = size->piece_g / 1000;
        m->box[k] = (int)size->per_box;
        m->need[k] = (int)size->count;
    }
    m->part_box_kg = r->part_box_g / 1000;
    m->bench = INT16_MAX;
    if (r->has_bench) {
        double balls = floor(r->bench.hands * r->bench.balls_per_minute *
                                 r->bench.minutes +
                             1e-9);
        if (balls < 1)
            return dw_fail_says(p->err, DW_E_UNREACHABLE, "bench", NULL,
                                "takes no ball in the minutes allowed");
        m->bench = balls < INT16_MAX ? (int)balls : INT16_MAX;
    }
    return DW_OK;
}

static double need_kg(const dw_pack__problem *m)
{
    double kg = 0;
    for (size_t k = 0; k < m->sizes; k++)
        kg += m->need[k] * m->piece_kg[k];
    return kg;
}

static long need_balls(const dw_pack__problem *m)
{
    long balls = 0;
    for (size_t k = 0; k < m->sizes; k++)
        balls += m->need[k];
    return balls;
}

/* Keep the standards that the mixer takes, largest first. */
static void set_standards(packer *p)
{
    const dw_pack_request *r = p->request;
    for (size_t i = 0; i < r->standards_count; i++) {
        const dw_pack_standard *one = &r->standards[i];
        double dough_kg = dough_of(p, one->flour_kg);
        if (r->has_max_dough_kg && dough_kg > r->max_dough_kg * (1 + 1e-9)) {
            dw_note_limit(&p->notes, DW_NOTE_WARN, "standard_over_mixer",
                          one->name, dough_kg, r->max_dough_kg);
            continue;
        }
        if (r->has_min_dough_kg && dough_kg < r->min_dough_kg * (1 - 1e-9)) {
            dw_note_limit(&p->notes, DW_NOTE_WARN, "standard_under_mixer",
                          one->name, dough_kg, r->min_dough_kg);
            continue;
        }
        size_t at = p->standards_count++;
        for (; at > 0 && p->standards[at - 1].flour_kg < one->flour_kg; at--)
            p->standards[at] = p->standards[at - 1];
        p->standards[at] = *one;
    }
    if (r->standards_count > 0 && p->standards_count == 0)
        dw_note_add(&p->notes, DW_NOTE_WARN, "no_standard_fits", NULL);
}

/* --- standard batches ------------------------------------------------- */

typedef struct mix {
    int of[DW_PACK_STANDARDS]; /* how many of each standard */
    double flour_kg;
    long rank; /* ties: more of the large ones first */
} mix;

typedef struct mix_search {
    const packer *p;
    mix now, after, best;
    bool has_after, found;
    double need_flour_kg;
    long rank;
} mix_search;

static bool mix_before(const mix *a, const mix *b)
{
    if (fabs(a->flour_kg - b->flour_kg) > 1e-9)
        return a->flour_kg < b->flour_kg;
    return a->rank < b->rank;
}

/* Every choice of `left` more batches from standard k on; the best one that
 * comes after `after` is kept. */
static void mixes_from(mix_search *s, size_t k, int left)
{
    const packer *p = s->p;
    if (k + 1 == p->standards_count) {
        mix one = s->now;
        one.of[k] = left;
        one.flour_kg += left * p->standards[k].flour_kg;
        one.rank = s->rank++;
        bool later = !s->has_after || mix_before(&s->after, &one);
        if (one.flour_kg >= s->need_flour_kg - 1e-9 && later &&
            (!s->found || mix_before(&one, &s->best))) {
            s->best = one;
            s->found = true;
        }
        return;
    }
    mix kept = s->now;
    for (int n = left; n >= 0; n--) {
        s->now.of[k] = n;
        s->now.flour_kg = kept.flour_kg + n * p->standards[k].flour_kg;
        mixes_from(s, k + 1, left - n);
    }
    s->now = kept;
}

static bool try_mix(packer *p, const mix *one)
{
    dw_pack__problem *m = &p->problem;
    m->batches = 0;
    for (size_t k = 0; k < p->standards_count; k++)
        for (int i = 0; i < one->of[k]; i++) {
            p->flour_kg[m->batches] = p->standards[k].flour_kg;
            p->names[m->batches] = p->standards[k].name;
            m->menu[m->batches++] = &p->menus[k];
        }
    dw_pack__search(m, NULL, &p->answer);
    return p->answer.found;
}

static dw_status new_menu(packer *p, dw_pack__menu *menu)
{
    menu->at = DW_NEW_ARRAY(p->arena, dw_pack__pattern, DW_PACK__PATTERNS);
    return menu->at ? DW_OK : dw_fail(p->err, DW_E_ROOM, "arena", NULL);
}

static dw_status too_many(packer *p)
{
    return dw_fail_says(p->err, DW_E_TOO_LARGE, "sizes", NULL,
                        "need more batches than one run can plan");
}

static dw_status pack_standard(packer *p)
{
    dw_pack__problem *m = &p->problem;
    double largest = p->standards[0].flour_kg * p->usable_per_flour;
    for (size_t k = 0; k < m->sizes; k++)
        if (m->piece_kg[k] > largest) {
            char field[48];
            dw_text_item(field, sizeof field, "sizes", p->order[k], ".piece_g");
            return dw_fail_range(p->err, field, m->piece_kg[k] * 1000, 0,
                                 largest * 1000);
        }
    for (size_t k = 0; k < p->standards_count; k++) {
        DW_TRY(new_menu(p, &p->menus[k]));
        dw_pack__list(m, p->standards[k].flour_kg * p->usable_per_flour,
                      &p->menus[k]);
    }
    double flour_kg = need_kg(m) / p->usable_per_flour;
    for (int n = 1; n <= DW_PACK_BATCHES; n++) {
        if (n * (long)m->bench < need_balls(m))
            continue;
        mix_search s = {.p = p, .need_flour_kg = flour_kg};
        for (int t = 0; t < TRIES; t++) {
            s.found = false;
            s.rank = 0;
            mixes_from(&s, 0, n);
            if (!s.found)
                break;
            if (try_mix(p, &s.best))
                return DW_OK;
            s.after = s.best;
            s.has_after = true;
        }
    }
    return too_many(p);
}

/* --- equal batches ---------------------------------------------------- */

/* Deal the order out, heaviest first, each lot to the lightest batch that the
 * bench still has hands for. A lot is a full box, or one ball. The heaviest
 * load, or 0 when the bench cannot take it all. */
static double deal(const dw_pack__problem *m, const int lot[DW_PACK_SIZES],
                   int16_t n[DW_PACK_BATCHES][DW_PACK_SIZES])
{
    double load[DW_PACK_BATCHES] = {0}, heaviest = 0;
    int balls[DW_PACK_BATCHES] = {0};
    memset(n, 0, sizeof(int16_t) * DW_PACK_BATCHES * DW_PACK_SIZES);
    for (size_t k = 0; k < m->sizes; k++) {
        for (int left = m->need[k]; left > 0; left -= lot[k]) {
            int take = left < lot[k] ? left : lot[k];
            size_t to = m->batches;
            for (size_t j = 0; j < m->batches; j++)
                if (balls[j] + take <= m->bench &&
                    (to == m->batches || load[j] < load[to] - 1e-9))
                    to = j;
            if (to == m->batches)
                return 0;
            n[to][k] = (int16_t)(n[to][k] + take);
            balls[to] += take;
            load[to] += take * m->piece_kg[k];
            heaviest = load[to] > heaviest ? load[to] : heaviest;
        }
    }
    return heaviest;
}

static bool try_equal(packer *p, const int *lot)
{
    const dw_pack_request *r = p->request;
    dw_pack__problem *m = &p->problem;
    int16_t start[DW_PACK_BATCHES][DW_PACK_SIZES];
    double usable_kg = deal(m, lot, start);
    double flour_kg = usable_kg / p->usable_per_flour;
    if (usable_kg <= 0 ||
        (r->has_max_dough_kg &&
         dough_of(p, flour_kg) > r->max_dough_kg * (1 + 1e-9)))
        return false;
    dw_pack__list(m, usable_kg, &p->menus[0]);
    for (size_t j = 0; j < m->batches; j++) {
        m->menu[j] = &p->menus[0];
        p->flour_kg[j] = flour_kg;
        p->names[j] = NULL;
    }
    dw_pack__search(m, start, &p->answer);
    return p->answer.found;
}

static dw_status pack_equal(packer *p)
{
    dw_pack__problem *m = &p->problem;
    int boxes[DW_PACK_SIZES], singles[DW_PACK_SIZES];
    for (size_t k = 0; k < m->sizes; k++) {
        boxes[k] = m->box[k] > 0 ? m->box[k] : 1;
        singles[k] = 1;
        m->need[k] = (m->need[k] + boxes[k] - 1) / boxes[k] * boxes[k];
    }
    DW_TRY(new_menu(p, &p->menus[0]));
    for (m->batches = 1; m->batches <= DW_PACK_BATCHES; m->batches++)
        if (try_equal(p, boxes) || try_equal(p, singles))
            return DW_OK;
    return too_many(p);
}

/* --- the reply -------------------------------------------------------- */

static dw_status tell_batch(packer *p, size_t j, dw_pack_batch *batch)
{
    const dw_pack__problem *m = &p->problem;
    const dw_pack_request *r = p->request;
    double flour_kg = p->flour_kg[j];
    *batch = (dw_pack_batch){
        .standard = p->names[j],
        .flour_kg = flour_kg,
        .dough_kg = dough_of(p, flour_kg),
        .usable_kg = flour_kg * p->usable_per_flour,
    };
    batch->sizes = DW_NEW_ARRAY(p->arena, dw_pack_balls, m->sizes);
    if (!batch->sizes)
        return dw_fail(p->err, DW_E_ROOM, "arena", NULL);
    double balled_kg = 0;
    for (size_t k = 0; k < m->sizes; k++) {
        const dw_pack_size *size = &r->sizes[p->order[k]];
        int64_t n = p->answer.n[j][k], box = size->per_box;
        if (n == 0)
            continue;
        batch->sizes[batch->sizes_count++] = (dw_pack_balls){
            size->product, size->piece_g, n, box > 0 ? (n + box - 1) / box : 0,
            box > 0 ? n % box : 0};
        batch->balls += n;
        balled_kg += (double)n * m->piece_kg[k];
    }
    batch->odd_kg = fmax(0, batch->usable_kg - balled_kg);
    if (r->has_min_dough_kg && batch->dough_kg < r->min_dough_kg * (1 - 1e-9)) {
        char digits[24];
        dw_text_number(digits, sizeof digits, (double)(j + 1), 15);
        const char *number = dw_arena_text(p->arena, digits);
        if (!number)
            return dw_fail(p->err, DW_E_ROOM, "arena", NULL);
        dw_note_limit(&p->notes, DW_NOTE_WARN, "batch_under_mixer", number,
                      batch->dough_kg, r->min_dough_kg);
    }
    return DW_OK;
}

static void tell_account(packer *p, dw_pack_reply *reply)
{
    for (size_t k = 0; k < p->problem.sizes; k++) {
        const dw_pack_size *size = &p->request->sizes[p->order[k]];
        dw_pack_account *line = &reply->account[p->order[k]];
        *line =
            (dw_pack_account){size->product, size->piece_g, size->count, 0, 0};
        for (size_t j = 0; j < p->problem.batches; j++)
            line->made += p->answer.n[j][k];
        line->surplus = line->made - line->ordered;
        if (line->surplus > 0)
            dw_note_value(&p->notes, DW_NOTE_INFO, "surplus", size->product,
                          (double)line->surplus);
    }
}

static dw_status tell(packer *p, dw_pack_reply *reply)
{
    size_t n = p->problem.batches;
    dw_pack_reply out = {
        .batches = DW_NEW_ARRAY(p->arena, dw_pack_batch, n),
        .batches_count = n,
        .account = DW_NEW_ARRAY(p->arena, dw_pack_account, p->problem.sizes),
        .account_count = p->problem.sizes,
        .cost_kg = fmax(0, p->answer.cost_kg),
        .bound_kg = fmax(0, p->answer.bound_kg),
        .proved = p->answer.proved,
        .has_bench_balls = p->request->has_bench,
        .bench_balls = p->problem.bench,
    };
    if (!out.batches || !out.account)
        return dw_fail(p->err, DW_E_ROOM, "arena", NULL);
    for (size_t j = 0; j < n; j++) {
        DW_TRY(tell_batch(p, j, &out.batches[j]));
        out.flour_kg += out.batches[j].flour_kg;
        out.dough_kg += out.batches[j].dough_kg;
        out.odd_kg += out.batches[j].odd_kg;
    }
    if (!out.proved)
        dw_note_limit(&p->notes, DW_NOTE_INFO, "not_proved", NULL, out.cost_kg,
                      out.bound_kg);
    tell_account(p, &out);
    out.notes = p->notes.at;
    out.notes_count = p->notes.count;
    *reply = out;
    return DW_OK;
}

dw_status dw_batch_pack(const dw_pack_request *request, dw_arena *arena,
                        dw_err *err, dw_pack_reply *reply)
{
    packer *p = DW_NEW(arena, packer);
    dw_note *notes = DW_NEW_ARRAY(arena, dw_note, NOTES);
    if (!p || !notes)
        return dw_fail(err, DW_E_ROOM, "arena", NULL);
    p->request = request;
    p->arena = arena;
    p->err = err;
    p->notes = (dw_notes){notes, NOTES, 0};
    p->usable_per_flour =
        request->total_percent / 100 * (1 - request->loss_percent / 100);
    DW_TRY(set_sizes(p));
    if (request->split == DW_PACK_STANDARD)
        set_standards(p);
    DW_TRY(p->standards_count > 0 ? pack_standard(p) : pack_equal(p));
    return tell(p, reply);
}
