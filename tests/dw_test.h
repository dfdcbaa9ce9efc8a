/* The test runner: each test is a sentence with a grade and a source.
 *
 *     TEST(ice_table_of_the_trade, PUBLISHED, "published ice table")
 *     {
 *         NEAR(ice_kg, 0.109, 0.007);
 *     }
 *
 * Grades say where the expected values come from:
 *   PUBLISHED   printed in the named source
 *   DERIVED     worked by hand or by an independent program
 *   PRACTICE    common practice, no source
 *   LIMIT       conservation, monotony, round trip
 *   REGRESSION  what the program did when this was written
 *
 * A program of tests prints one line for each failure and closes with
 * "N passed, N failed". With --list it prints every test with its grade and
 * source; with NAME it runs only tests whose name contains it. Names that
 * begin with long_ run only with --long. */
#ifndef DW_TEST_H
#define DW_TEST_H

#include <math.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

typedef struct dw_test {
    const char *name, *grade, *source, *file;
    int line;
    void (*run)(void);
    struct dw_test *next;
} dw_test;

void dw_test_add(dw_test *test);
void dw_test_fail(const char *file, int line, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

#define DW_GRADE_PUBLISHED "published"
#define DW_GRADE_DERIVED "derived"
#define DW_GRADE_PRACTICE "practice"
#define DW_GRADE_LIMIT "limit"
#define DW_GRADE_REGRESSION "regression"

#define TEST(test_name, test_grade, test_source)                               \
    static void test_name(void);                                               \
    __attribute__((constructor)) static void add_##test_name(void)             \
    {                                                                          \
        static dw_test test = {#test_name, DW_GRADE_##test_grade, test_source, \
                               __FILE__, __LINE__, test_name, NULL};           \
        dw_test_add(&test);                                                    \
    }                                                                          \
    static void test_name(void)

/* Checks go on after a failure, so one run tells all. */
#define CHECK(condition)                                                       \
    do {                                                                       \
        if (!(condition))                                                      \
            dw_test_fail(__FILE__, __LINE__, "%s", #condition);                \
    } while (0)

#define NEAR(got, want, tolerance)                                             \
    do {                                                                       \
        double got_ = (got), want_ = (want);                                   \
        if (!(fabs(got_ - want_) <= (tolerance)))                              \
            dw_test_fail(__FILE__, __LINE__, "%s is %.10g, not %.10g +- %g",   \
                         #got, got_, want_, (double)(tolerance));              \
    } while (0)

#define SAME(got, want)                                                        \
    do {                                                                       \
        long long got_ = (long long)(got), want_ = (long long)(want);          \
        if (got_ != want_)                                                     \
            dw_test_fail(__FILE__, __LINE__, "%s is %lld, not %lld", #got,     \
                         got_, want_);                                         \
    } while (0)

#define SAME_TEXT(got, want)                                                   \
    do {                                                                       \
        const char *got_ = (got), *want_ = (want);                             \
        if (!got_ || strcmp(got_, want_) != 0)                                 \
            dw_test_fail(__FILE__, __LINE__, "%s is \"%s\", not \"%s\"", #got, \
                         got_ ? got_ : "(null)", want_);                       \
    } while (0)

/* Stop this test when going on makes no sense. */
#define NEED(condition)                                                        \
    do {                                                                       \
        if (!(condition)) {                                                    \
            dw_test_fail(__FILE__, __LINE__, "%s", #condition);                \
            return;                                                            \
        }                                                                      \
    } while (0)

/* A small generator for property tests (splitmix64), seeded by the test. */
unsigned long long dw_test_bits(unsigned long long *seed);
double dw_test_between(unsigned long long *seed, double low, double high);

/* The path of a file under tests/data. Static, overwritten by the next call. */
const char *dw_test_data(const char *name);

#endif
