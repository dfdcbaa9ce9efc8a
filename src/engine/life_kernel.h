/* Up to eight lives of a ball side by side: one step in time, and a look at
 * them.
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
    double part;       /* of the mass */
    double per_inside; /* 1 over the part within its outer boundary */
    double radius;     /* of that boundary, of the ball's */
    /* From the mean temperature of this shell to that of the next, against the
     * way between their middles; for the last shell from its mean to the
     * surface against its thickness. Exact for a parabola. */
    double stretch;
} dw_life__shape;

/* A shell of some lives. */
typedef struct dw_life__shell {
    dw_ferment__state y;
    dw_lanes temp; /* mean of the shell, degC */
    /* Of the last two steps: V / V0 in their middles, mmol/h over them. */
    dw_lanes swelling, swelling_before;
    dw_lanes rate, rate_before;
} dw_life__shell;

/* As many lives as a dw_lanes is wide; groups follow each other. */
typedef struct dw_life__group {
    dw_ferment__set set;
    dw_life__shell shell[];
} dw_life__group;

enum {
    DW_LIVES = 8, /* side by side in a block */
    DW_LIFE__SET = sizeof(dw_ferment__set) / sizeof(dw_lanes),
    DW_LIFE__SHELL = sizeof(dw_life__shell) / sizeof(dw_lanes)
};

typedef struct dw_life__block {
    int lives; /* 1 to DW_LIVES */
    int shells;
    dw_life__shape shape[DW_LIFE_SHELLS_MOST];
    double flour_100g;            /* of flour in the ball */
    double heat_capacity_j_per_k; /* of the ball */
    double k_w_per_m_k;           /* of dough without bubbles */
    double radius_m, mixed_c;     /* off the mixer */
    double dt_h, dt_before_h;     /* of the last two steps */
    double v_crit[DW_LIVES];
    /* The groups. How wide they are only the kernel knows; whatever its width,
     * they are the same numbers. */
    _Alignas(8 * DW_LIVES) double numbers[DW_LIVES *
                                          (DW_LIFE__SET + DW_LIFE_SHELLS_MOST *
                                                              DW_LIFE__SHELL)];
} dw_life__block;

typedef enum dw_life__how {
    DW_LIFE__FREE,
    DW_LIFE__HELD /* everywhere at the temperature of the air */
} dw_life__how;

typedef struct dw_life__outside {
    double air_c, h_w_per_m2_k;
} dw_life__outside;

/* After a step, of each life; means by mass. */
typedef struct dw_life__pace {
    double gas[DW_LIVES];                  /* mmol */
    double age[DW_LIVES];                  /* h */
    double rate[DW_LIVES], leak[DW_LIVES]; /* mmol/h over the step */
    double swelling[DW_LIVES];             /* in the middle of the step */
    double core_c[DW_LIVES];
    /* Of the first life alone: */
    double fastest; /* 1/h, of all the reactions in any shell */
    double warmed;  /* K, most that any shell moved */
    double rind_c;  /* mean of the outmost shell */
} dw_life__pace;

typedef struct dw_life__look {
    double core_c[DW_LIVES], mean_c[DW_LIVES], skin_c[DW_LIVES];
    /* mmol */
    double gas[DW_LIVES], held[DW_LIVES], dissolved[DW_LIVES], lost[DW_LIVES];
    double swelling[DW_LIVES];
    double sugar[DW_LIVES];                /* mmol, maltose included */
    double age[DW_LIVES], yeast[DW_LIVES]; /* h; g */
} dw_life__look;

/* The vector instructions a kernel was compiled for. */
typedef struct dw_life__kernel {
    const char *instructions;
    int width; /* lives in a group */
    /* Write the groups of block->lives (all that stands before them is there):
     * shells alike and not swollen. */
    void (*begin)(dw_life__block *block, const dw_ferment__one set[],
                  const dw_ferment__start start[]);
    void (*step)(dw_life__block *block, double dt_h,
                 const dw_life__outside *outside, dw_life__how how,
                 dw_life__pace *pace);
    void (*look)(const dw_life__block *block, const dw_life__outside *outside,
                 dw_life__look *look);
    /* A part (one for each life) of the held gas goes, everywhere. */
    void (*release)(dw_life__block *block, const double part[DW_LIVES]);
} dw_life__kernel;

/* For any machine; on x86-64 the same source is compiled twice more, for AVX2
 * and AVX-512. All give the same bits. */
extern const dw_life__kernel dw_life__kernel_plain;
/* Those this processor can run, plain first; NULL at the end. */
enum { DW_LIFE_KERNELS_MOST = 4 };
void dw_life__kernels(const dw_life__kernel *kernels[DW_LIFE_KERNELS_MOST]);
/* The last of them, for many lives. */
const dw_life__kernel *dw_life__kernel_best(void);

/* Shape of `shells` (1 to DW_LIFE_SHELLS_MOST) equally thick shells. */
void dw_life__shape_shells(dw_life__block *block, int shells);
/* How many numbers the groups of so many lives are. */
size_t dw_life__numbers(const dw_life__kernel *kernel, int lives, int shells);
/* A number of the groups that `kernel` wrote: the index-th of a life's set, or
 * beyond that of its shells one after the other. */
double *dw_life__number(const dw_life__kernel *kernel, dw_life__block *block,
                        int life, size_t index);

#endif
