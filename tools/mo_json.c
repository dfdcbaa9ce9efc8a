/* mo_json IN OUT: a compiled message catalogue as one JSON object from message
 * id to translation, for the pages. */
#include "base/mo.h"

#include <stdio.h>
#include <stdlib.h>

static void put_text(FILE *out, const char *text)
{
    putc('"', out);
    for (; *text; text++) {
        unsigned char c = (unsigned char)*text;
        if (c == '"' || c == '\\')
            fprintf(out, "\\%c", c);
        else if (c < 0x20)
            fprintf(out, "\\u%04x", c);
        else
            putc(c, out);
    }
    putc('"', out);
}

static void put_all(FILE *out, const dw_mo *mo)
{
    const char *before = "\n";
    putc('{', out);
    for (size_t i = 0; i < dw_mo_count(mo); i++) {
        const char *msgid, *translation;
        dw_mo_entry(mo, i, &msgid, &translation);
        if (!*msgid) /* the header */
            continue;
        fputs(before, out);
        put_text(out, msgid);
        fputs(": ", out);
        put_text(out, translation);
        before = ",\n";
    }
    fputs("\n}\n", out);
}

int main(int argc, char **argv)
{
    static unsigned char data[4 << 20];
    if (argc != 3) {
        fprintf(stderr, "usage: mo_json IN OUT\n");
        return 2;
    }
    FILE *in = fopen(argv[1], "rb");
    if (!in) {
        perror(argv[1]);
        return 1;
    }
    const dw_mo mo = {data, fread(data, 1, sizeof data, in)};
    fclose(in);
    FILE *out = fopen(argv[2], "wb");
    if (!out || dw_mo_count(&mo) == 0) {
        fprintf(stderr, "mo_json: %s: nothing to write\n", argv[1]);
        return 1;
    }
    put_all(out, &mo);
    return fclose(out) ? 1 : 0;
}
