#include "engine/life_kernel.h"

/* Mean of r^2 over a shell between two radii. */
static double mean_square(double in, double out)
{
    double in3 = in * in * in, out3 = out * out * out;
    return 0.6 * (out3 * out * out - in3 * in * in) / (out3 - in3);
}

/* For T = r^2 the mean of a shell is mean_square, and the slope at a boundary
 * is 2 r: their ratio is the way that makes the flux exact. */
void dw_life__shape_shells(dw_life__block *block, int shells)
{
    DW_ASSERT(shells >= 1 && shells <= DW_LIFE_SHELLS_MOST);
    block->shells = shells;
    for (int i = 0; i < shells; i++) {
        double in = (double)i / shells, out = (double)(i + 1) / shells;
        double next = (double)(i + 2) / shells;
        double mean = mean_square(in, out);
        double to = i + 1 < shells ? mean_square(out, next) : out * out;
        block->shape[i] = (dw_life__shape){
            .part = out * out * out - in * in * in,
            .per_inside = 1 / (out * out * out),
            .radius = out,
            .stretch = (to - mean) / (2 * out) * shells,
        };
    }
}

void dw_life__kernels(const dw_life__kernel *kernels[DW_LIFE_KERNELS_MOST])
{
    int count = 0;
    kernels[count++] = &dw_life__kernel_plain;
#ifdef DW_LIFE_X86_KERNELS
    extern const dw_life__kernel dw_life__kernel_avx2, dw_life__kernel_avx512;
    if (__builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma"))
        kernels[count++] = &dw_life__kernel_avx2;
    if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq"))
        kernels[count++] = &dw_life__kernel_avx512;
#endif
    kernels[count] = NULL;
}

const dw_life__kernel *dw_life__kernel_best(void)
{
    const dw_life__kernel *kernels[DW_LIFE_KERNELS_MOST], *best = NULL;
    dw_life__kernels(kernels);
    for (int i = 0; kernels[i]; i++)
        best = kernels[i];
    return best;
}

/* Of one life. */
static size_t numbers_each(int shells)
{
    return DW_LIFE__SET + (size_t)shells * DW_LIFE__SHELL;
}

size_t dw_life__numbers(const dw_life__kernel *kernel, int lives, int shells)
{
    int groups = (lives + kernel->width - 1) / kernel->width;
    return (size_t)(groups * kernel->width) * numbers_each(shells);
}

double *dw_life__number(const dw_life__kernel *kernel, dw_life__block *block,
                        int life, size_t index)
{
    size_t each = numbers_each(block->shells), width = (size_t)kernel->width;
    size_t group = (size_t)life / width, lane = (size_t)life % width;
    DW_ASSERT(life < DW_LIVES && index < each);
    return &block->numbers[(group * each + index) * width + lane];
}
