/* Some lives side by side, and the few functions the life kernel needs.
 *
 * A dw_lanes holds one number of each of DW_LANES members of an ensemble; the
 * operators of the language work on it member by member, so the kernel reads
 * like the equations. It is as wide as a register of the processor: compilers
 * split wider vectors clumsily. Every operation here is exactly rounded by IEEE
 * 754 or built from such operations in a fixed order, so every width, machine,
 * compiler and instruction set gives the same bits (the C library's exp and
 * cbrt do not).
 */
#ifndef DW_ENGINE_LANES_H
#define DW_ENGINE_LANES_H

#include <stdint.h>
#include <string.h>

/* The kernel is compiled with 4 and 8 as well; 2 is what SSE2 and NEON have. */
#ifndef DW_LANES
#define DW_LANES 2
#endif

typedef double dw_lanes __attribute__((vector_size(8 * DW_LANES)));
/* All bits set or none, as comparisons give. */
typedef int64_t dw_lanes_mask __attribute__((vector_size(8 * DW_LANES)));
typedef uint64_t dw_lanes_bits __attribute__((vector_size(8 * DW_LANES)));

/* Vectors never cross a call: everything that takes or gives one is inlined, so
 * the calling convention that compilers warn of does not matter. */
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
 * |r| <= ln 2 / 2, the series of e^r to r^12 (by fours, which need not wait for
 * each other), and k put into the exponent. */
DW_LANES_INLINE dw_lanes dw_lanes_exp(dw_lanes x)
{
    const double to_whole = 0x1.8p52; /* the sum's low bits are round(x) */
    dw_lanes shifted = x * 0x1.71547652b82fep0 + to_whole;
    dw_lanes whole = shifted - to_whole;
    dw_lanes r = x - whole * 0x1.62e42fee00000p-1;
    r = r - whole * 0x1.a39ef35793c76p-33;
    dw_lanes r2 = r * r, r4 = r2 * r2;
    dw_lanes low = (1.0 + r) + r2 * (0.5 + r * (1.0 / 6));
    dw_lanes mid = (1.0 / 24 + r * (1.0 / 120)) +
                   r2 * (1.0 / 720 + r * (1.0 / 5040));
    dw_lanes high = (1.0 / 40320 + r * (1.0 / 362880)) +
                    r2 * (1.0 / 3628800 + r * (1.0 / 39916800));
    dw_lanes sum = low + r4 * (mid + r4 * (high + r4 * (1.0 / 479001600)));
    dw_lanes_mask k = (dw_lanes_mask)shifted << 52;
    return (dw_lanes)((dw_lanes_mask)sum + k);
}

/* Divisions and roots are what a step waits for, so several are done by one. */
DW_LANES_INLINE void dw_lanes_invert(dw_lanes *a, dw_lanes *b)
{
    dw_lanes per = 1.0 / (*a * *b), per_a = *b * per;
    *b = *a * per;
    *a = per_a;
}

DW_LANES_INLINE void dw_lanes_invert_three(dw_lanes *a, dw_lanes *b,
                                           dw_lanes *c)
{
    dw_lanes ab = *a * *b, per_a = *b, per_b = *a;
    dw_lanes_invert(&ab, c);
    *a = per_a * ab;
    *b = per_b * ab;
}

/* Cube root of x > 0 as x y^2, where y is x^(-1/3): a third of the exponent (by
 * 1/4 + 1/16 + ...) within 4 %, then twice the series of (1 - r)^(-1/3) with r
 * = 1 - x y^3, which brings the error to its fourth power. */
DW_LANES_INLINE dw_lanes dw_lanes_cbrt(dw_lanes x)
{
    dw_lanes_bits bits = (dw_lanes_bits)x;
    dw_lanes_bits third = (bits >> 2) + (bits >> 4);
    third = third + (third >> 4);
    third = third + (third >> 8);
    dw_lanes y = (dw_lanes)(0x553ef0ff289dd796U - third);
    for (int i = 0; i < 2; i++) {
        dw_lanes r = 1.0 - x * y * y * y;
        y = y + y * r * (1.0 / 3 + r * (2.0 / 9 + r * (14.0 / 81)));
    }
    return x * y * y;
}

#endif
