/* The pages, inside the program (tools/embed-assets) or from a folder.
 */
#ifndef DW_HTTP_ASSETS_H
#define DW_HTTP_ASSETS_H

#include <stdbool.h>
#include <stddef.h>

typedef struct dw_asset {
    const char *path; /* "/app.js" */
    const unsigned char *begin, *end;
    const char *tag; /* entity tag, quoted: a hash of the content */
    /* The same in gzip (RFC 1952), with a tag of its own (RFC 9110 8.8.3.3);
     * NULL where packing saves nothing. */
    const unsigned char *packed, *packed_end;
    const char *packed_tag;
} dw_asset;

/* Sorted by path; written at build time. */
extern const dw_asset dw_assets[];
extern const size_t dw_assets_count;

/* The asset at that path, or NULL. */
const dw_asset *dw_assets_find(const char *path);
/* The content type for a file name; unknown endings are plain bytes. */
const char *dw_assets_type(const char *path);
/* How long a browser may keep it without asking: vendored fonts carry their
 * version in their name and never change, all else is asked for again. */
const char *dw_assets_cache(const char *path);
/* Does this path name a page of the application, not a file? Pages have no dot
 * in their last segment; "/" is one. */
bool dw_assets_is_page(const char *path);

#endif
