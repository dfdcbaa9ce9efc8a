#include "dw_test.h"

#include <stdarg.h>

static dw_test *first, *running;
static bool failed;

void dw_test_add(dw_test *test)
{
    dw_test **at = &first;
    while (*at && (strcmp((*at)->file, test->file) < 0 ||
                   (strcmp((*at)->file, test->file) == 0 &&
                    (*at)->line < test->line)))
        at = &(*at)->next;
    test->next = *at;
    *at = test;
}

void dw_test_fail(const char *file, int line, const char *format, ...)
{
    if (!failed)
        printf("FAILED %s (%s: %s)\n", running->name, running->grade,
               running->source);
    failed = true;
    printf("  %s:%d: ", file, line);
    va_list args;
    va_start(args, format);
    vprintf(format, args);
    va_end(args);
    printf("\n");
}

unsigned long long dw_test_bits(unsigned long long *seed)
{
    unsigned long long z = *seed += 0x9E3779B97F4A7C15ULL;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31);
}

double dw_test_between(unsigned long long *seed, double low, double high)
{
    double unit = (double)(dw_test_bits(seed) >> 11) * 0x1.0p-53;
    return low + unit * (high - low);
}

const char *dw_test_data(const char *name)
{
    static char path[512];
    snprintf(path, sizeof path, "%s/%s", DW_TEST_DATA, name);
    return path;
}

static bool wanted(const dw_test *test, const char *part, bool all)
{
    if (part)
        return strstr(test->name, part) != NULL;
    return all || strncmp(test->name, "long_", 5) != 0;
}

int main(int argc, char **argv)
{
    const char *part = NULL;
    bool list = false, all = false;
    for (int i = 1; i < argc; i++) {
        if (strcmp(argv[i], "--list") == 0)
            list = true;
        else if (strcmp(argv[i], "--long") == 0)
            all = true;
        else
            part = argv[i];
    }
    int passed = 0, lost = 0;
    for (dw_test *test = first; test; test = test->next) {
        if (!wanted(test, part, all))
            continue;
        if (list) {
            printf("%-11s %s: %s\n", test->grade, test->name, test->source);
            continue;
        }
        running = test;
        failed = false;
        test->run();
        if (failed)
            lost++;
        else
            passed++;
    }
    if (!list)
        printf("%d passed, %d failed\n", passed, lost);
    return lost ? 1 : 0;
}
