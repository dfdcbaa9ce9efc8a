#include "solve/wire.h"

#include <errno.h>
#include <unistd.h>

bool dw_solve__write(int file, const void *from, size_t bytes)
{
    const unsigned char *at = from;
    while (bytes > 0) {
        ssize_t n = write(file, at, bytes);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return false;
        at += n;
        bytes -= (size_t)n;
    }
    return true;
}

bool dw_solve__read(int file, void *to, size_t bytes)
{
    unsigned char *at = to;
    while (bytes > 0) {
        ssize_t n = read(file, at, bytes);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return false;
        at += n;
        bytes -= (size_t)n;
    }
    return true;
}
