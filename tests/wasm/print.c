/* Prints the numbers of this machine's build, one 64-bit pattern a line. */

#include "wasm/numbers.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

int main(void)
{
    const double *values = dw_numbers();
    size_t count = dw_numbers_count();
    for (size_t i = 0; i < count; i++) {
        uint64_t bits;
        memcpy(&bits, &values[i], sizeof bits);
        printf("%016" PRIx64 "\n", bits);
    }
    return count > 0 ? 0 : 1;
}
