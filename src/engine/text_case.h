/* Comparing names as people write them: ASCII capitals do not matter. */
#ifndef DW_ENGINE_TEXT_CASE_H
#define DW_ENGINE_TEXT_CASE_H

#include <stdbool.h>
#include <stddef.h>
#include <string.h>

static inline char dw_text__lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* The first `bytes` of both, which have at least that many. */
static inline bool dw_text__same_start(const char *a, const char *b,
                                       size_t bytes)
{
    for (size_t i = 0; i < bytes; i++)
        if (dw_text__lower(a[i]) != dw_text__lower(b[i]))
            return false;
    return true;
}

static inline bool dw_text__same(const char *a, const char *b)
{
    size_t n = strlen(a);
    return n == strlen(b) && dw_text__same_start(a, b, n);
}

#endif
