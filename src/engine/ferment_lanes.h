/* The equations of fermentation for some members at once: the one place where
 * they are written. ferment.c shows them one by one, the life kernel runs
 * them. Numbers in brackets are those of docs/models/ferment.md.
 */
#ifndef DW_ENGINE_FERMENT_LANES_H
#define DW_ENGINE_FERMENT_LANES_H

#include "doughwright/ferment.h"
#include "engine/lanes.h"

#define DW_FERMENT_GAS_CONSTANT 8.314462618 /* J/mol/K, CODATA */
#define DW_FERMENT_KELVIN 273.15
#define DW_FERMENT_ETHANOL_G 0.04607 /* of a mmol */

/* What does not change during a life: model and dough made ready. */
#define DW_FERMENT__SET(X)                                                     \
    X(gas_scale)  /* mmol/h/g where ctmi is 1 */                               \
    X(per_gas_30) /* f is ctmi times this */                                   \
    X(f_Tmin)                                                                  \
    X(f_Topt)                                                                  \
    X(f_Tmax)                                                                  \
    X(g_Tmin)                                                                  \
    X(g_Topt)                                                                  \
    X(g_Tmax)                                                                  \
    X(growth_scale) /* 1/h per g of nutrient, where g is 1 */                  \
    X(per_g27)      /* 1 / g(27) */                                            \
    X(growth_lag)                                                              \
    X(per_gas_lag)                                                             \
    X(per_adapt_time)                                                          \
    X(kd) /* 1/h */                                                            \
    X(hexose_per_co2)                                                          \
    X(ka30)                                                                    \
    X(ka_K) /* activation energies over R */                                   \
    X(age_K)                                                                   \
    X(maltose_rate)                                                            \
    X(sugar_half)                                                              \
    X(maltose_half)                                                            \
    X(ethanol_slope) /* of f_E, per mmol */                                    \
    X(v_crit)                                                                  \
    X(k_loss)                                                                  \
    X(capacity_scale) /* of H', with x = 1 */                                  \
    X(solid)          /* of V0 */                                              \
    X(air_mmol)                                                                \
    X(swell) /* of V0, by a mmol of gas, per K */                              \
    X(heat)  /* J/mmol */

#define DW_FERMENT__STATE(X)                                                   \
    X(x)  /* yeast, g */                                                       \
    X(n)  /* nutrient, g */                                                    \
    X(lf) /* lags */                                                           \
    X(lg)                                                                      \
    X(s) /* hexose free, as maltose, as starch: mmol */                        \
    X(mal)                                                                     \
    X(d)                                                                       \
    X(c) /* CO2 made, escaped: mmol */                                         \
    X(lost)                                                                    \
    X(a) /* adaptation */                                                      \
    X(q) /* age, h */

/* Each of them of one member, and of some members side by side. */
#define DW_FERMENT__NUMBER(name) double name;
#define DW_FERMENT__LANES(name) dw_lanes name;
typedef struct dw_ferment__one {
    DW_FERMENT__SET(DW_FERMENT__NUMBER)
} dw_ferment__one;
typedef struct dw_ferment__set {
    DW_FERMENT__SET(DW_FERMENT__LANES)
} dw_ferment__set;
typedef struct dw_ferment__start {
    DW_FERMENT__STATE(DW_FERMENT__NUMBER)
} dw_ferment__start;
typedef struct dw_ferment__state {
    DW_FERMENT__STATE(DW_FERMENT__LANES)
} dw_ferment__state;
#undef DW_FERMENT__NUMBER
#undef DW_FERMENT__LANES

/* At one temperature. */
typedef struct dw_ferment__at {
    dw_lanes gas;      /* mmol/h per g of yeast: q30 f f_salt f_sug */
    dw_lanes wake;     /* 1/h, of the gas lag */
    dw_lanes adapt;    /* 1/h, to maltose */
    dw_lanes grow;     /* 1/h per g of nutrient */
    dw_lanes lag;      /* hours of growth lag per hour */
    dw_lanes ka;       /* 1/h */
    dw_lanes age;      /* h at 25 degC per h */
    dw_lanes leak;     /* 1/h, of held gas, by swelling beyond v_crit */
    dw_lanes capacity; /* mmol, H' */
    dw_lanes swell;    /* of V0, by a mmol of gas */
} dw_ferment__at;

/* [1] Rosso et al. 1993, as top / bottom; 0 / 1 outside. */
DW_LANES_INLINE dw_lanes dw_ferment__ctmi_top(dw_lanes t, dw_lanes tmin,
                                              dw_lanes topt, dw_lanes tmax,
                                              dw_lanes *bottom)
{
    dw_lanes above = t - tmin, span = topt - tmin;
    dw_lanes shape =
        span * (t - topt) - (topt - tmax) * (topt + tmin - 2.0 * t);
    dw_lanes_mask inside = (t > tmin) & (t < tmax);
    *bottom = dw_lanes_pick(inside, span * shape, dw_lanes_all(1));
    return dw_lanes_pick(inside, (t - tmax) * above * above, dw_lanes_all(0));
}

/* e^(-K (1/T - 1/T0)), Arrhenius. */
DW_LANES_INLINE dw_lanes dw_ferment__arrhenius(dw_lanes k, dw_lanes per_kelvin,
                                               double t0_c)
{
    return dw_lanes_exp(k * (1.0 / (DW_FERMENT_KELVIN + t0_c) - per_kelvin));
}

/* [8] ln(1000 x): straight between the points of the table, and beyond its
 * ends, as a sum of hinges. */
DW_LANES_INLINE dw_lanes dw_ferment__solubility(dw_lanes t)
{
    /* ln 1.337, and ln of each value over the one before, per degC */
    static const double first = 0.2904282981198061;
    static const double slope[8] = {
        -0.03488492447269999,  -0.03345939402877136, -0.030900323718409256,
        -0.029036401968899568, -0.02735668560217998, -0.025315129860132173,
        -0.02351040174814408,  -0.02195183600040268};
    dw_lanes ln = first + slope[0] * t;
    for (int i = 1; i < 8; i++) {
        dw_lanes past = dw_lanes_most(t - 5.0 * i, dw_lanes_all(0));
        ln = ln + (slope[i] - slope[i - 1]) * past;
    }
    return dw_lanes_exp(ln);
}

/* Everything that follows from temperature alone. */
DW_LANES_INLINE dw_ferment__at dw_ferment__at_temp(const dw_ferment__set *set,
                                                   dw_lanes t)
{
    dw_lanes kelvin = t + DW_FERMENT_KELVIN, per_kelvin = kelvin, per_f, per_g;
    dw_lanes f =
        dw_ferment__ctmi_top(t, set->f_Tmin, set->f_Topt, set->f_Tmax, &per_f);
    dw_lanes g =
        dw_ferment__ctmi_top(t, set->g_Tmin, set->g_Topt, set->g_Tmax, &per_g);
    dw_lanes_invert_three(&per_f, &per_g, &per_kelvin);
    f = f * per_f * set->per_gas_30;
    g = g * per_g;
    return (dw_ferment__at){
        .gas = set->gas_scale * f,
        .wake = set->per_gas_lag * f,
        .adapt = set->per_adapt_time * f,
        .grow = set->growth_scale * g,
        .lag = set->per_g27 * g,
        .ka = set->ka30 * dw_ferment__arrhenius(set->ka_K, per_kelvin, 30),
        .age = dw_ferment__arrhenius(set->age_K, per_kelvin, 25),
        .leak = set->k_loss * dw_lanes_sqrt(f),
        .capacity = set->capacity_scale * dw_ferment__solubility(t),
        .swell = set->swell * kelvin,
    };
}

/* [9] The positive root of n^2 + (air + H' - total) n - total air = 0. */
DW_LANES_INLINE dw_lanes dw_ferment__free(dw_lanes total, dw_lanes capacity,
                                          dw_lanes air)
{
    dw_lanes b = total - air - capacity;
    return 0.5 * (b + dw_lanes_sqrt(b * b + 4.0 * total * air));
}

/* [10] Volume against that off the mixer. */
DW_LANES_INLINE dw_lanes dw_ferment__swelling(const dw_ferment__set *set,
                                              const dw_ferment__at *at,
                                              dw_lanes gas)
{
    return set->solid + (gas + set->air_mmol) * at->swell;
}

typedef struct dw_ferment__rates {
    dw_lanes gas, on_sugar, on_maltose; /* mmol/h of CO2 */
    dw_lanes growth;                    /* g/h */
    dw_lanes leak;                      /* mmol/h */
    dw_lanes swelling;                  /* V / V0 */
    dw_lanes by_sugar, by_maltose;      /* 1/h: how fast each is used up */
} dw_ferment__rates;

/* [2]-[7], [11]: the rates that hang on the state. `growing` is the part of the
 * step in which growth is on. */
DW_LANES_INLINE dw_ferment__rates
dw_ferment__rates_of(const dw_ferment__set *set, const dw_ferment__at *at,
                     const dw_ferment__state *y, dw_lanes growing)
{
    dw_ferment__rates r;
    dw_lanes zero = dw_lanes_all(0);
    dw_lanes ethanol = dw_lanes_most(1.0 - set->ethanol_slope * y->c, zero);
    dw_lanes q = at->gas * y->lf * y->x * ethanol;
    dw_lanes per_sugar = y->s + set->sugar_half;
    dw_lanes per_maltose = y->mal + set->maltose_half;
    dw_lanes_invert(&per_sugar, &per_maltose);
    r.by_sugar = q * per_sugar;
    r.by_maltose =
        set->maltose_rate * r.by_sugar * set->sugar_half * y->a * per_maltose;
    r.on_sugar = r.by_sugar * y->s;
    r.on_maltose = r.by_maltose * y->mal;
    r.gas = r.on_sugar + r.on_maltose;
    r.growth = growing * at->grow * y->x * y->n;
    dw_lanes gas =
        dw_ferment__free(y->c - y->lost, at->capacity, set->air_mmol);
    r.swelling = dw_ferment__swelling(set, at, gas);
    dw_lanes beyond = dw_lanes_most(r.swelling - set->v_crit, zero);
    r.leak = at->leak * beyond * gas;
    return r;
}

/* y0 + dt (rates at y). */
DW_LANES_INLINE dw_ferment__state dw_ferment__move(const dw_ferment__set *set,
                                                   const dw_ferment__at *at,
                                                   const dw_ferment__state *y0,
                                                   const dw_ferment__state *y,
                                                   const dw_ferment__rates *r,
                                                   double dt)
{
    dw_lanes broken = at->ka * y->d;
    return (dw_ferment__state){
        .x = y0->x + dt * (r->growth - set->kd * y->x),
        .n = y0->n - dt * r->growth,
        .lf = y0->lf + dt * (at->wake * (1.0 - y->lf)),
        .lg = y0->lg + dt * at->lag,
        .s = y0->s - dt * (set->hexose_per_co2 * r->on_sugar),
        .mal = y0->mal + dt * (broken - set->hexose_per_co2 * r->on_maltose),
        .d = y0->d - dt * broken,
        .c = y0->c + dt * r->gas,
        .lost = y0->lost + dt * r->leak,
        .a = y0->a + dt * (at->adapt * (1.0 - y->a)),
        .q = y0->q + dt * at->age,
    };
}

/* What holds in the mean over a step of what changes within it at a known
 * rate. */
typedef struct dw_ferment__means {
    dw_lanes lf, a;   /* of the gas lag and of adaptation */
    dw_lanes growing; /* the part of the step in which growth is on */
} dw_ferment__means;

/* What begins at y and goes to 1 at a constant rate, `part` the rate times the
 * step, is 1 - (1 - y) (1 - e^-part) / part in the mean: by Pade to part^4 /
 * 720. Growth's own lag ends inside the step. */
DW_LANES_INLINE dw_ferment__means
dw_ferment__means_of(const dw_ferment__set *set, const dw_ferment__at *at,
                     const dw_ferment__state *y, double dt)
{
    dw_lanes one = dw_lanes_all(1), lag = dt * at->lag;
    dw_lanes wake = dt * at->wake, adapt = dt * at->adapt;
    dw_lanes per_wake = 1.0 + wake * (0.5 + wake * (1.0 / 12));
    dw_lanes per_adapt = 1.0 + adapt * (0.5 + adapt * (1.0 / 12));
    /* the inverse of what is next to nothing would spoil the others' */
    dw_lanes per_lag = dw_lanes_pick(lag > 1e-30, lag, one);
    dw_lanes after = y->lg + lag - set->growth_lag;
    dw_lanes_invert_three(&per_wake, &per_adapt, &per_lag);
    dw_lanes part =
        dw_lanes_pick(after > 0.0, after * per_lag, dw_lanes_all(0));
    return (dw_ferment__means){
        .lf = 1.0 - (1.0 - y->lf) * per_wake,
        .a = 1.0 - (1.0 - y->a) * per_adapt,
        .growing = dw_lanes_pick(y->lg >= set->growth_lag, one, part)};
}

/* One step of dt h at the temperature of its middle: the midpoint rule, second
 * order, which keeps every linear sum of the states (carbon, yeast and
 * nutrient) to the last bits. Its middle takes the exact means of the two lags,
 * the quickest things in the first hour. Yeast that grows only in the last part
 * p of a step has grown, in the mean over the step, by p^2 of what it would by
 * its middle. Gives the rates of the middle. */
DW_LANES_INLINE dw_ferment__state dw_ferment__step(const dw_ferment__set *set,
                                                   const dw_ferment__at *at,
                                                   const dw_ferment__state *y,
                                                   double dt,
                                                   dw_ferment__rates *rates)
{
    dw_ferment__means means = dw_ferment__means_of(set, at, y, dt);
    dw_ferment__rates first =
        dw_ferment__rates_of(set, at, y, means.growing * means.growing);
    dw_ferment__state mid = dw_ferment__move(set, at, y, y, &first, 0.5 * dt);
    mid.lf = means.lf;
    mid.a = means.a;
    *rates = dw_ferment__rates_of(set, at, &mid, means.growing);
    return dw_ferment__move(set, at, y, &mid, rates, dt);
}

/* Let a part of the bubbles' CO2 out at once. */
DW_LANES_INLINE void dw_ferment__release(const dw_ferment__set *set,
                                         const dw_ferment__at *at,
                                         dw_lanes part, dw_ferment__state *y)
{
    y->lost = y->lost + part * dw_ferment__free(y->c - y->lost, at->capacity,
                                                set->air_mmol);
}

/* A model and a dough at mixing temperature and air pressure, made ready; and
 * the dough's state off the mixer. */
void dw_ferment__set_one(const dw_ferment_model *model,
                         const dw_ferment_dough *dough, double mixed_c,
                         double pressure_kpa, dw_ferment__one *set);
void dw_ferment__start_one(const dw_ferment_model *model,
                           const dw_ferment_dough *dough,
                           dw_ferment__start *state);

#endif
