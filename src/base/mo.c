#include "base/mo.h"

#include "doughwright/base.h"

#include <string.h>

enum { MAGIC_AT = 0, COUNT_AT = 8, IDS_AT = 12, TRANSLATIONS_AT = 16 };
enum { HEADER_BYTES = 28, ROW_BYTES = 8, OFFSET_AT = 4 };
static const uint32_t magic = 0x950412de;

static uint32_t word_at(const dw_mo *mo, size_t at)
{
    uint32_t word;
    DW_ASSERT(at + sizeof word <= mo->bytes);
    memcpy(&word, mo->data + at, sizeof word);
    return word;
}

/* Texts are NUL-terminated in the file. */
static const char *text_of(const dw_mo *mo, size_t table_at, size_t i)
{
    size_t row = word_at(mo, table_at) + i * ROW_BYTES;
    size_t offset = word_at(mo, row + OFFSET_AT);
    DW_ASSERT(offset + word_at(mo, row) < mo->bytes);
    return (const char *)mo->data + offset;
}

size_t dw_mo_count(const dw_mo *mo)
{
    if (mo->bytes < HEADER_BYTES || word_at(mo, MAGIC_AT) != magic)
        return 0;
    return word_at(mo, COUNT_AT);
}

void dw_mo_entry(const dw_mo *mo, size_t i, const char **msgid,
                 const char **translation)
{
    *msgid = text_of(mo, IDS_AT, i);
    *translation = text_of(mo, TRANSLATIONS_AT, i);
}

const char *dw_mo_find(const dw_mo *mo, const char *msgid)
{
    size_t low = 0, high = dw_mo_count(mo);
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        int order = strcmp(msgid, text_of(mo, IDS_AT, middle));
        if (order == 0)
            return text_of(mo, TRANSLATIONS_AT, middle);
        if (order < 0)
            high = middle;
        else
            low = middle + 1;
    }
    return NULL;
}
