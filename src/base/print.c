/* The one function of the base that needs stdio, in a file of its own so that
 * the engine does without. */
#include "doughwright/base.h"

#include <stdarg.h>
#include <stdio.h>

char *dw_arena_print(dw_arena *arena, const char *format, ...)
{
    char text[512];
    va_list args;
    va_start(args, format);
    int n = vsnprintf(text, sizeof text, format, args);
    va_end(args);
    DW_ASSERT(n >= 0 && (size_t)n < sizeof text);
    return dw_arena_text(arena, text);
}
