#include "os/random.h"

#include <errno.h>
#include <sys/random.h>

dw_status dw_random_bytes(void *out, size_t bytes, dw_err *err)
{
    unsigned char *at = out;
    while (bytes > 0) {
        ssize_t got = getrandom(at, bytes, 0);
        if (got < 0 && errno != EINTR)
            return dw_fail(err, DW_E_IO, "random", NULL);
        if (got > 0) {
            at += got;
            bytes -= (size_t)got;
        }
    }
    return DW_OK;
}
