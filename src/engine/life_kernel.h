/* Eight lives of a ball side by side: one step in time, and a look at them.
 *
 * The ball is a sphere of shells. A shell is a fixed part of the mass; its
 * volume follows the gas in it, so the radii swell and nothing crosses a
 * boundary but heat. Equations: docs/models/life.md.
 */
#ifndef DW_ENGINE_LIFE_KERNEL_H
#define DW_ENGINE_LIFE_KERNEL_H

#include "engine/ferment_lanes.h"

enum { DW_LIFE_SHELLS_MOST = 48 };

/* What a shell is before it swells: shells of equal thickness. */
typedef struct dw_life__shape {
    double part;   /* of the mass */
    double inside; /* of the mass within its outer boundary */
    double radius; /* of that boundary, of the ball's */
    /* From the mean temperature of this shell to that of the next, against the
     * way between their middles; for the last shell from its mean to the
     * surface against its thickness. Exact for a parabola. */
    double stretch;
} dw_life__shape;

typedef struct dw_life__shell {
    dw_ferment__state y;
    dw_lanes temp; /* mean of the shell, degC */
    /* Of the last two steps: V / V0 in their middles, mmol/h over them. */
    dw_lanes swelling, swelling_before;
    dw_lanes rate, rate_before;
} dw_life__shell;

typedef struct dw_life__block {
    dw_ferment__set set;
    dw_life__shell shell[DW_LIFE_SHELLS_MOST];
    dw_life__shape shape[DW_LIFE_SHELLS_MOST];
    int shells;
    double flour_100g;            /* of flour in the ball */
    double heat_capacity_j_per_k; /* of the ball */
    double k_w_per_m_k;           /* of dough without bubbles */
    double radius_m;              /* off the mixer */
    double dt_h, dt_before_h;     /* of the last two steps */
} dw_life__block;

typedef enum dw_life__how {
    DW_LIFE__MIDPOINT, /* second order */
    DW_LIFE__DAMPED,   /* two backward Euler halves, after a jump outside */
    DW_LIFE__HELD      /* everywhere at the temperature of the air */
} dw_life__how;

typedef struct dw_life__outside {
    double air_c, h_w_per_m2_k;
} dw_life__outside;

/* After a step, means by mass. */
typedef struct dw_life__pace {
    dw_lanes gas;        /* mmol */
    dw_lanes age;        /* h */
    dw_lanes rate, leak; /* mmol/h made and escaped over the step */
    dw_lanes swelling;   /* in the middle of the step */
    dw_lanes core_c;
    dw_lanes fastest; /* 1/h, of all the reactions in any shell */
    dw_lanes warmed;  /* K, most that any shell moved */
} dw_life__pace;

typedef struct dw_life__look {
    dw_lanes core_c, mean_c, skin_c;
    dw_lanes gas, held, dissolved, lost; /* mmol */
    dw_lanes swelling;
    dw_lanes sugar;      /* mmol, maltose included */
    dw_lanes age, yeast; /* h; g */
} dw_life__look;

/* The vector instructions a kernel was compiled for. */
typedef struct dw_life__kernel {
    const char *instructions;
    void (*step)(dw_life__block *block, double dt_h,
                 const dw_life__outside *outside, dw_life__how how,
                 dw_life__pace *pace);
    void (*look)(const dw_life__block *block, const dw_life__outside *outside,
                 dw_life__look *look);
    /* A part (one for each member) of the held gas goes, everywhere. */
    void (*release)(dw_life__block *block, const double part[DW_LANES]);
} dw_life__kernel;

/* For any machine; on x86-64 the same source is compiled twice more, for AVX2
 * and AVX-512. All give the same bits. */
extern const dw_life__kernel dw_life__kernel_plain;
/* Those this processor can run, plain first; NULL at the end. */
enum { DW_LIFE_KERNELS_MOST = 4 };
void dw_life__kernels(const dw_life__kernel *kernels[DW_LIFE_KERNELS_MOST]);
/* The last of them. */
const dw_life__kernel *dw_life__kernel_best(void);

/* Shape of `shells` (1 to DW_LIFE_SHELLS_MOST) equally thick shells. */
void dw_life__shape_shells(dw_life__block *block, int shells);

#endif
