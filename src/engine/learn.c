#include "doughwright/learn.h"

#include "doughwright/constants.h"

#include <math.h>
#include <string.h>

enum { GRID = 129, ZOOMS = 4, SCATTERS = 5, LOT_KEPT = 8 };

/* Batch-to-batch scatter of the work, J/kg, and its prior weights. */
static const double scatters[SCATTERS] = {250, 500, 1000, 2000, 4000};
static const double scatter_weights[SCATTERS] = {.1, .2, .35, .25, .1};
static const double sound = 0.95, gross_width = 10;
/* Formulas on one mixer differ by about this. */
static const double between_formulas = 1500;

typedef struct normal {
    double mean, sd;
} normal;

/* The posterior of mu on an even grid, as logarithms and then as shares. */
typedef struct grid {
    double low, step;
    double at[GRID];
} grid;

dw_status dw_learn_update(dw_learned *state, const dw_reading *reading,
                          dw_err *err)
{
    DW_TRY(dw_shape_check(&dw_reading_shape, reading, err));
    if (state->kept_count == DW_LEARN_KEPT) {
        memmove(state->kept, state->kept + 1,
                (DW_LEARN_KEPT - 1) * sizeof state->kept[0]);
        state->kept_count--;
    }
    state->kept[state->kept_count++] = *reading;
    state->seen++;
    return DW_OK;
}

/* Densities of one reading, common factors left out. */
static void densities(double gap, double variance, double *good, double *bad)
{
    double z2 = gap * gap / variance, sd = sqrt(variance);
    *good = sound / sd * exp(-0.5 * z2);
    *bad = (1 - sound) / (sd * gross_width) *
           exp(-0.5 * z2 / (gross_width * gross_width));
}

static double log_likelihood(const dw_learned *state, double mu, double scatter)
{
    double sum = 0;
    for (size_t i = 0; i < state->kept_count; i++) {
        const dw_reading *r = &state->kept[i];
        double good, bad;
        densities(r->work_j_per_kg_dough - mu,
                  r->sd_j_per_kg * r->sd_j_per_kg + scatter * scatter, &good,
                  &bad);
        sum += log(good + bad);
    }
    return sum;
}

/* log of prior times the sum over scatters of the likelihood */
static double log_posterior(const dw_learned *state, normal prior, double mu)
{
    double logs[SCATTERS], top = -INFINITY, sum = 0;
    for (int k = 0; k < SCATTERS; k++) {
        logs[k] = log_likelihood(state, mu, scatters[k]);
        top = fmax(top, logs[k]);
    }
    for (int k = 0; k < SCATTERS; k++)
        sum += scatter_weights[k] * exp(logs[k] - top);
    double z = (mu - prior.mean) / prior.sd;
    return top + log(sum) - 0.5 * z * z;
}

/* First the span that can hold mass at all, then what does, a few times. */
static void first_span(const dw_learned *state, normal prior, grid *g)
{
    double low = prior.mean - 6 * prior.sd, high = prior.mean + 6 * prior.sd;
    for (size_t i = 0; i < state->kept_count; i++) {
        const dw_reading *r = &state->kept[i];
        low = fmin(low, r->work_j_per_kg_dough);
        high = fmax(high, r->work_j_per_kg_dough);
    }
    g->low = low;
    g->step = (high - low) / (GRID - 1);
}

static void fill(const dw_learned *state, normal prior, grid *g)
{
    for (int i = 0; i < GRID; i++)
        g->at[i] = log_posterior(state, prior, g->low + i * g->step);
}

static double top_of(const grid *g)
{
    double top = g->at[0];
    for (int i = 1; i < GRID; i++)
        top = fmax(top, g->at[i]);
    return top;
}

static void zoom(grid *g)
{
    double keep = top_of(g) - 25;
    int first = 0, last = GRID - 1;
    while (g->at[first] < keep)
        first++;
    while (g->at[last] < keep)
        last--;
    double low = g->low + (first - 1) * g->step;
    double high = g->low + (last + 1) * g->step;
    g->low = low;
    g->step = (high - low) / (GRID - 1);
}

static void to_shares(grid *g)
{
    double top = top_of(g), sum = 0;
    for (int i = 0; i < GRID; i++)
        sum += g->at[i] = exp(g->at[i] - top);
    for (int i = 0; i < GRID; i++)
        g->at[i] /= sum;
}

static normal moments(const grid *g)
{
    double mean = 0, square = 0;
    for (int i = 0; i < GRID; i++)
        mean += g->at[i] * (g->low + i * g->step);
    for (int i = 0; i < GRID; i++) {
        double gap = g->low + i * g->step - mean;
        square += g->at[i] * gap * gap;
    }
    return (normal){mean, sqrt(square)};
}

/* Where the shares add up to `share`; each grid point stands for the step
 * around it. */
static double quantile(const grid *g, double share)
{
    double sum = 0;
    for (int i = 0; i < GRID; i++) {
        if (sum + g->at[i] >= share)
            return g->low + (i - 0.5 + (share - sum) / g->at[i]) * g->step;
        sum += g->at[i];
    }
    return g->low + (GRID - 1) * g->step;
}

static normal solve(const dw_learned *state, normal prior, grid *g)
{
    first_span(state, prior, g);
    fill(state, prior, g);
    for (int i = 0; i < ZOOMS; i++) {
        double before = g->step;
        zoom(g);
        fill(state, prior, g);
        if (g->step > 0.5 * before)
            break;
    }
    to_shares(g);
    return moments(g);
}

static int64_t count_doubtful(const dw_learned *state, normal at)
{
    int64_t doubtful = 0;
    for (size_t i = 0; i < state->kept_count; i++) {
        const dw_reading *r = &state->kept[i];
        double good, bad;
        densities(r->work_j_per_kg_dough - at.mean,
                  r->sd_j_per_kg * r->sd_j_per_kg + scatters[2] * scatters[2] +
                      at.sd * at.sd,
                  &good, &bad);
        doubtful += bad > good;
    }
    return doubtful;
}

void dw_learn_estimate(const dw_learned *own, const dw_learned *mixer,
                       dw_estimate *estimate)
{
    static const dw_learned none = {.kept_count = 0};
    own = own ? own : &none;
    mixer = mixer ? mixer : &none;
    normal prior = {DW_MIXING_WORK, DW_MIXING_WORK_SD};
    grid g;
    if (mixer->kept_count > 0) {
        prior = solve(mixer, prior, &g);
        prior.sd = hypot(prior.sd, between_formulas);
    }
    normal result = solve(own, prior, &g);
    *estimate = (dw_estimate){
        .work_j_per_kg_dough = result.mean,
        .sd_j_per_kg = result.sd,
        .low_j_per_kg = quantile(&g, 0.05),
        .high_j_per_kg = quantile(&g, 0.95),
        .n = (int64_t)own->kept_count,
        .mixer_n = (int64_t)mixer->kept_count,
        .doubtful = count_doubtful(own, result),
        .level = own->kept_count > 0     ? DW_LEARN_OWN
                 : mixer->kept_count > 0 ? DW_LEARN_MIXER
                                         : DW_LEARN_PRIOR,
    };
}

static double median(const double *values, size_t count)
{
    double sorted[LOT_KEPT] = {0};
    for (size_t i = 0; i < count; i++) {
        size_t j = i;
        for (; j > 0 && sorted[j - 1] > values[i]; j--)
            sorted[j] = sorted[j - 1];
        sorted[j] = values[i];
    }
    return 0.5 * (sorted[(count - 1) / 2] + sorted[count / 2]);
}

double dw_learn_lot_water(const double *percent, size_t count)
{
    if (count == 0)
        return 0;
    size_t last = count < LOT_KEPT ? count : LOT_KEPT;
    percent += count - last;
    double middle = median(percent, last), sum = 0;
    size_t near = 0;
    for (size_t i = 0; i < last; i++)
        if (fabs(percent[i] - middle) <= 1) {
            sum += percent[i];
            near++;
        }
    /* Two that disagree have a median near neither. */
    return near > 0 ? sum / (double)near : middle;
}
