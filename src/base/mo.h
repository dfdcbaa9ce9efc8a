/* Read-only look-up in a compiled message catalogue (GNU gettext, "The Format
 * of GNU MO Files": five 32-bit words of header, two tables of length and
 * offset, the first sorted by message id). */
#ifndef DW_BASE_MO_H
#define DW_BASE_MO_H

#include <stddef.h>
#include <stdint.h>

typedef struct dw_mo {
    const unsigned char *data; /* borrowed */
    size_t bytes;
} dw_mo;

/* Messages in it, 0 when it is not a catalogue of this machine's byte order. */
size_t dw_mo_count(const dw_mo *mo);
/* The i-th id and its translation, in the order of the ids. */
void dw_mo_entry(const dw_mo *mo, size_t i, const char **msgid,
                 const char **translation);
/* The translation, or NULL. */
const char *dw_mo_find(const dw_mo *mo, const char *msgid);

#endif
