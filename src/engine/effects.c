#include "doughwright/effects.h"

#include <math.h>

/* Errors that are so much opposed belong together. */
#define OPPOSED (-0.8)

/* What is solved: place 0 is the mean, then the parts. */
typedef struct model {
    const dw_effects_request *request;
    size_t n;         /* places */
    size_t *places;   /* of each value: one for each factor, 0 none */
    double *matrix;   /* n x n: then its Cholesky factor, then the inverse */
    double *right;    /* n */
    double *answer;   /* n */
    dw_effect *parts; /* n, place 0 unused */
    double part_sd, noise_sd;
} model;

static dw_status no_room(dw_err *err)
{
    return dw_fail(err, DW_E_ROOM, "effects", NULL);
}

static dw_status check(const dw_effects_request *request, dw_err *err)
{
    size_t count = request->values_count;
    if (count < 3 || count > DW_EFFECTS_VALUES)
        return dw_fail_range(err, "values", (double)count, 3,
                             DW_EFFECTS_VALUES);
    for (size_t f = 0; f < request->factors_count; f++) {
        char field[64];
        dw_text_item(field, sizeof field, "factors", f, ".levels");
        if (request->factors[f].levels_count != count)
            return dw_fail_range(err, field,
                                 (double)request->factors[f].levels_count,
                                 (double)count, (double)count);
    }
    return DW_OK;
}

/* The place of a level, a new one when it comes first. */
static dw_status place_of(model *m, size_t f, int64_t level, dw_err *err,
                          size_t *place)
{
    const char *factor = m->request->factors[f].name;
    *place = 0;
    if (level == 0)
        return DW_OK;
    for (size_t i = 1; i < m->n; i++)
        if (m->parts[i].level == level && m->parts[i].factor == factor)
            *place = i;
    if (*place > 0)
        return DW_OK;
    if (m->n > DW_EFFECTS_LEVELS)
        return dw_fail_range(err, "factors", (double)m->n, 0,
                             DW_EFFECTS_LEVELS);
    *place = m->n++;
    m->parts[*place] = (dw_effect){.factor = factor, .level = level};
    return DW_OK;
}

static dw_status set_places(model *m, dw_arena *arena, dw_err *err)
{
    const dw_effects_request *r = m->request;
    m->parts = DW_NEW_ARRAY(arena, dw_effect, DW_EFFECTS_LEVELS + 1);
    m->places =
        DW_NEW_ARRAY(arena, size_t, r->values_count * r->factors_count + 1);
    if (!m->parts || !m->places)
        return no_room(err);
    m->n = 1;
    for (size_t f = 0; f < r->factors_count; f++)
        for (size_t i = 0; i < r->values_count; i++) {
            size_t *place = &m->places[i * r->factors_count + f];
            DW_TRY(place_of(m, f, r->factors[f].levels[i], err, place));
            m->parts[*place].values_count++;
        }
    return DW_OK;
}

static dw_status set_spreads(model *m, dw_err *err)
{
    const dw_effects_request *r = m->request;
    double sum = 0, squares = 0, count = (double)r->values_count;
    for (size_t i = 0; i < r->values_count; i++)
        sum += r->values[i];
    for (size_t i = 0; i < r->values_count; i++)
        squares += (r->values[i] - sum / count) * (r->values[i] - sum / count);
    double sd = sqrt(squares / (count - 1));
    if (!(sd > 0))
        return dw_fail_says(err, DW_E_UNREACHABLE, "values", NULL,
                            "are all alike");
    m->part_sd = r->has_part_sd ? r->part_sd : sd;
    m->noise_sd = r->has_noise_sd ? r->noise_sd : sd;
    return DW_OK;
}

/* Sums over the values, and the priors; the mean has none. */
static void set_system(model *m)
{
    const dw_effects_request *r = m->request;
    size_t n = m->n, factors = r->factors_count;
    double prior = m->noise_sd / m->part_sd;
    for (size_t i = 0; i < n * n; i++)
        m->matrix[i] = 0;
    for (size_t i = 0; i < n; i++) {
        m->right[i] = 0;
        m->matrix[i * n + i] = i == 0 ? 0 : prior * prior;
    }
    for (size_t v = 0; v < r->values_count; v++) {
        size_t at[DW_EFFECTS_FACTORS + 1] = {0}, count = 1;
        for (size_t f = 0; f < factors; f++)
            if (m->places[v * factors + f] > 0)
                at[count++] = m->places[v * factors + f];
        for (size_t a = 0; a < count; a++) {
            m->right[at[a]] += r->values[v];
            for (size_t b = 0; b < count; b++)
                m->matrix[at[a] * n + at[b]] += 1;
        }
    }
}

/* Lower factor in place: matrix = L L'. It is positive definite: every part has
 * a prior, and the mean has values. */
static void factorise(model *m)
{
    size_t n = m->n;
    double *a = m->matrix;
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j <= i; j++) {
            double sum = a[i * n + j];
            for (size_t k = 0; k < j; k++)
                sum -= a[i * n + k] * a[j * n + k];
            a[i * n + j] = i == j ? sqrt(sum) : sum / a[j * n + j];
        }
}

static void solve(const model *m, const double *right, double *answer)
{
    size_t n = m->n;
    const double *a = m->matrix;
    for (size_t i = 0; i < n; i++) {
        double sum = right[i];
        for (size_t k = 0; k < i; k++)
            sum -= a[i * n + k] * answer[k];
        answer[i] = sum / a[i * n + i];
    }
    for (size_t i = n; i-- > 0;) {
        double sum = answer[i];
        for (size_t k = i + 1; k < n; k++)
            sum -= a[k * n + i] * answer[k];
        answer[i] = sum / a[i * n + i];
    }
}

/* The noise that the parts leave, given as many values as are not spent on
 * them: n - trace of the fit, that is the share of each part that is not its
 * prior's. */
static double noise_left(const model *m, double *work, double *unit)
{
    const dw_effects_request *r = m->request;
    double squares = 0, spent = 1, prior = m->noise_sd / m->part_sd;
    for (size_t v = 0; v < r->values_count; v++) {
        double off = r->values[v] - m->answer[0];
        for (size_t f = 0; f < r->factors_count; f++) {
            size_t place = m->places[v * r->factors_count + f];
            off -= place > 0 ? m->answer[place] : 0;
        }
        squares += off * off;
    }
    for (size_t i = 1; i < m->n; i++) {
        unit[i] = 1;
        solve(m, unit, work);
        unit[i] = 0;
        spent += 1 - work[i] * prior * prior;
    }
    double left = (double)r->values_count - spent;
    return sqrt(squares / fmax(left, 1));
}

/* A part against the average of its factor, as weights of the places. */
static void set_contrast(const model *m, size_t i, double *weights)
{
    double levels = 0;
    for (size_t j = 0; j < m->n; j++) {
        bool same = j > 0 && m->parts[j].factor == m->parts[i].factor;
        weights[j] = same ? 1 : 0;
        levels += weights[j];
    }
    for (size_t j = 0; j < m->n; j++)
        weights[j] = (j == i) - weights[j] / levels;
}

static double product(const double *a, const double *b, size_t n)
{
    double sum = 0;
    for (size_t i = 0; i < n; i++)
        sum += a[i] * b[i];
    return sum;
}

/* With whom a part's error, `spread` = V x its contrast, is opposed. */
static void find_together(const model *m, size_t i, const double *spread,
                          double *weights)
{
    dw_effect *part = &m->parts[i];
    double worst = OPPOSED;
    for (size_t j = 1; j < m->n; j++) {
        if (m->parts[j].factor == part->factor || !(m->parts[j].sd > 0))
            continue;
        set_contrast(m, j, weights);
        const dw_effect *other = &m->parts[j];
        double covariance =
            product(weights, spread, m->n) * m->noise_sd * m->noise_sd;
        double correlation = covariance / (part->sd * other->sd);
        if (correlation >= worst)
            continue;
        worst = correlation;
        part->has_together_level = true;
        part->together_factor = other->factor;
        part->together_level = other->level;
        part->together_part = part->part + other->part;
        part->together_sd = sqrt(fmax(
            part->sd * part->sd + other->sd * other->sd + 2 * covariance, 0));
    }
}

static void set_errors(const model *m, double *work, double *weights,
                       dw_effects_reply *out)
{
    for (size_t i = 0; i < m->n; i++)
        weights[i] = i == 0;
    solve(m, weights, work);
    out->mean_sd = m->noise_sd * sqrt(work[0]);
    for (size_t i = 1; i < m->n; i++) {
        dw_effect *part = &m->parts[i];
        set_contrast(m, i, weights);
        solve(m, weights, work);
        double variance = product(weights, work, m->n);
        part->part = m->answer[i];
        /* the only one of its factor is its own average */
        part->sd = variance > 0 ? m->noise_sd * sqrt(variance) : 0;
        part->strength = part->sd > 0 ? fabs(part->part) / part->sd : 0;
    }
    for (size_t i = 1; i < m->n; i++) {
        set_contrast(m, i, weights);
        solve(m, weights, work);
        if (m->parts[i].sd > 0)
            find_together(m, i, work, weights);
    }
}

dw_status dw_effects_find(const dw_effects_request *request, dw_arena *arena,
                          dw_err *err, dw_effects_reply *reply)
{
    model m = {.request = request};
    DW_TRY(check(request, err));
    DW_TRY(set_places(&m, arena, err));
    DW_TRY(set_spreads(&m, err));
    m.matrix = DW_NEW_ARRAY(arena, double, m.n *m.n);
    m.right = DW_NEW_ARRAY(arena, double, 4 * m.n);
    if (!m.matrix || !m.right)
        return no_room(err);
    m.answer = m.right + m.n;
    double *work = m.answer + m.n, *unit = work + m.n;
    for (int step = 0; step < 3; step++) {
        set_system(&m);
        factorise(&m);
        solve(&m, m.right, m.answer);
        if (request->has_noise_sd || step == 2)
            break;
        m.noise_sd = fmax(noise_left(&m, work, unit), 1e-6 * m.part_sd);
    }
    dw_effects_reply out = {.mean = m.answer[0],
                            .noise_sd = m.noise_sd,
                            .effects = m.parts + 1,
                            .effects_count = m.n - 1};
    set_errors(&m, work, unit, &out);
    *reply = out;
    return DW_OK;
}
