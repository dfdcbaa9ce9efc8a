/* Eight lives side by side, and the few functions the life kernel needs.
 *
 * A dw_lanes holds one number of each of eight members of an ensemble; the
 * operators of the language work on it member by member, so the kernel reads
 * like the equations. Every operation here is exactly rounded by IEEE 754 or
 * built from such operations in a fixed order, so every machine, compiler and
 * instruction set gives the same bits (the C library's exp and cbrt do not).
 */
#ifndef DW_ENGINE_LANES_H
#define DW_ENGINE_LANES_H

#include <stdint.h>
#include <string.h>

enum { DW_LANES = 8 };

/* The alignment is said because compilers take less for it where the processor
 * has no such vectors, and code for several processors shares these objects. */
typedef double dw_lanes
    __attribute__((vector_size(8 * DW_LANES), aligned(8 * DW_LANES)));
/* All bits set or none, as comparisons give. */
typedef int64_t dw_lanes_mask
    __attribute__((vector_size(8 * DW_LANES), aligned(8 * DW_LANES)));

/* Wide vectors never cross a call: everything that takes or gives one is
 * inlined, so the calling convention that compilers warn of does not matter. */
#pragma GCC diagnostic ignored "-Wpsabi"
#define DW_LANES_INLINE static inline __attribute__((always_inline, unused))

DW_LANES_INLINE dw_lanes dw_lanes_all(double value)
{
    return value - (dw_lanes){0};
}

DW_LANES_INLINE dw_lanes dw_lanes_pick(dw_lanes_mask when, dw_lanes yes,
                                       dw_lanes no)
{
    return (dw_lanes)((when & (dw_lanes_mask)yes) |
                      (~when & (dw_lanes_mask)no));
}

DW_LANES_INLINE dw_lanes dw_lanes_least(dw_lanes a, dw_lanes b)
{
    return dw_lanes_pick(a < b, a, b);
}

DW_LANES_INLINE dw_lanes dw_lanes_most(dw_lanes a, dw_lanes b)
{
    return dw_lanes_pick(a > b, a, b);
}

DW_LANES_INLINE dw_lanes dw_lanes_sqrt(dw_lanes x)
{
    dw_lanes root = x;
    for (int i = 0; i < DW_LANES; i++)
        root[i] = __builtin_sqrt(root[i]);
    return root;
}

/* e^x for -700 <= x <= 700, within 2e-15 of its value: x = k ln 2 + r with
 * |r| <= ln 2 / 2, the series of e^r to r^12, and k put into the exponent. */
DW_LANES_INLINE dw_lanes dw_lanes_exp(dw_lanes x)
{
    const double to_whole = 0x1.8p52; /* the sum's low bits are round(x) */
    dw_lanes shifted = x * 0x1.71547652b82fep0 + to_whole;
    dw_lanes whole = shifted - to_whole;
    dw_lanes r = x - whole * 0x1.62e42fee00000p-1;
    r = r - whole * 0x1.a39ef35793c76p-33;
    dw_lanes sum = r * (1.0 / 479001600) + 1.0 / 39916800;
    sum = sum * r + 1.0 / 3628800;
    sum = sum * r + 1.0 / 362880;
    sum = sum * r + 1.0 / 40320;
    sum = sum * r + 1.0 / 5040;
    sum = sum * r + 1.0 / 720;
    sum = sum * r + 1.0 / 120;
    sum = sum * r + 1.0 / 24;
    sum = sum * r + 1.0 / 6;
    sum = sum * r + 0.5;
    sum = sum * r + 1.0;
    sum = sum * r + 1.0;
    dw_lanes_mask k = (dw_lanes_mask)shifted << 52;
    return (dw_lanes)((dw_lanes_mask)sum + k);
}

/* Cube root for 0.05 <= x <= 40, the range of a ball's swelling: a straight
 * line to start with, then Halley's iteration, which cubes the error. */
DW_LANES_INLINE dw_lanes dw_lanes_cbrt(dw_lanes x)
{
    dw_lanes root = (x * 0.0925 + 1.3) * (x + 0.42) / (x + 1.05);
    for (int i = 0; i < 3; i++) {
        dw_lanes cube = root * root * root;
        root = root * (cube + 2.0 * x) / (2.0 * cube + x);
    }
    return root;
}

#endif
