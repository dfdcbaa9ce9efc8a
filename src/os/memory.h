/* Blocks of working memory for arenas: address space now, pages when touched.
 */
#ifndef DW_OS_MEMORY_H
#define DW_OS_MEMORY_H

#include <stddef.h>

/* Zeroed, page-aligned; NULL when there is none. Yours: dw_memory_unmap with
 * the same size. */
void *dw_memory_map(size_t bytes);
void dw_memory_unmap(void *block, size_t bytes);
/* Give the pages of the first `used` bytes back to the system, so that one
 * large job does not keep its memory while the program idles. The block stays
 * usable; what was in it is gone. */
void dw_memory_shed(void *block, size_t used);

#endif
