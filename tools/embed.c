/* embed SYMBOL IN OUT: a file as a C array SYMBOL, with SYMBOL_bytes. */
#include <stdio.h>

static int copy(FILE *in, FILE *out, const char *symbol)
{
    fprintf(out,
            "#include <stddef.h>\n"
            "extern const unsigned char %s[];\n"
            "extern const size_t %s_bytes;\n"
            "const unsigned char %s[] = {",
            symbol, symbol, symbol);
    size_t bytes = 0;
    for (int c = getc(in); c != EOF; c = getc(in))
        fprintf(out, "%s%d,", bytes++ % 20 ? "" : "\n", c);
    /* One byte more keeps an empty file legal and texts terminated. */
    fprintf(out, "0};\nconst size_t %s_bytes = %zu;\n", symbol, bytes);
    return ferror(in) || ferror(out);
}

int main(int argc, char **argv)
{
    if (argc != 4) {
        fprintf(stderr, "usage: embed SYMBOL IN OUT\n");
        return 2;
    }
    FILE *in = fopen(argv[2], "rb");
    FILE *out = in ? fopen(argv[3], "wb") : NULL;
    if (!out) {
        perror(in ? argv[3] : argv[2]);
        return 1;
    }
    int failed = copy(in, out, argv[1]);
    failed |= fclose(out);
    fclose(in);
    if (failed)
        perror(argv[3]);
    return failed ? 1 : 0;
}
