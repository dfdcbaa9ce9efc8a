/* Golden examples: tests/golden/OP.json, or OP.CASE.json, each
 *
 *   {"op": "heat.ice", "about": "a sentence",
 *    "grade": "published", "source": "where the expected numbers come from",
 *    "request": {...},
 *    "reply": {...} or "error": {"code", "field"},
 *    "tolerance": 0.001, "tolerances": {"ice_kg": 0.007}}
 *
 * The reply may name only some of the members; lists are compared whole.
 * Numbers may differ by the tolerance of their own member, else by "tolerance",
 * else by a part in 1e12. */
#include "door/json.h"
#include "dw_test.h"

#include <dirent.h>
#include <ftw.h>
#include <jansson.h>
#include <stdlib.h>

typedef struct example {
    const char *file;
    json_t *json;
} example;

/* Call `take` with every example. */
static int each_example(void (*take)(const example *one, void *owner),
                        void *owner)
{
    int count = 0;
    DIR *folder = opendir(DW_TEST_GOLDEN);
    struct dirent *entry;
    while (folder && (entry = readdir(folder))) {
        if (!strstr(entry->d_name, ".json"))
            continue;
        char path[1024];
        snprintf(path, sizeof path, "%s/%s", DW_TEST_GOLDEN, entry->d_name);
        json_error_t why;
        example one = {entry->d_name, json_load_file(path, 0, &why)};
        if (!one.json) {
            dw_test_fail(path, why.line, "%s", why.text);
            continue;
        }
        take(&one, owner);
        json_decref(one.json);
        count++;
    }
    if (folder)
        closedir(folder);
    return count;
}

static const char *text_of(const json_t *json, const char *member)
{
    const char *text = json_string_value(json_object_get(json, member));
    return text ? text : "";
}

static double tolerance_of(const example *one, const char *member, double want)
{
    const json_t *own =
        json_object_get(json_object_get(one->json, "tolerances"), member);
    const json_t *all = json_object_get(one->json, "tolerance");
    if (json_is_number(own))
        return json_number_value(own);
    return json_is_number(all) ? json_number_value(all) : 1e-12 * fabs(want);
}

static void compare(const example *one, const char *member, const json_t *want,
                    const json_t *got);

static void compare_numbers(const example *one, const char *member,
                            const json_t *want, const json_t *got)
{
    double wanted = json_number_value(want), given = json_number_value(got);
    double tolerance = tolerance_of(one, member, wanted);
    if (!json_is_number(got) || !(fabs(wanted - given) <= tolerance))
        dw_test_fail(one->file, 0, "%s is %.10g, not %.10g +- %g", member,
                     given, wanted, tolerance);
}

static void compare_lists(const example *one, const char *member,
                          const json_t *want, const json_t *got)
{
    size_t n = json_array_size(want);
    if (!json_is_array(got) || json_array_size(got) != n) {
        dw_test_fail(one->file, 0, "%s has %zu entries, not %zu", member,
                     json_array_size(got), n);
        return;
    }
    for (size_t i = 0; i < n; i++)
        compare(one, member, json_array_get(want, i), json_array_get(got, i));
}

static void compare(const example *one, const char *member, const json_t *want,
                    const json_t *got)
{
    const char *key;
    json_t *value;
    if (json_is_object(want)) {
        json_object_foreach((json_t *)(uintptr_t)want, key, value)
            compare(one, key, value, json_object_get(got, key));
    } else if (json_is_array(want)) {
        compare_lists(one, member, want, got);
    } else if (json_is_number(want)) {
        compare_numbers(one, member, want, got);
    } else if (!json_equal(want, got)) {
        char *text = json_dumps(got, JSON_ENCODE_ANY);
        dw_test_fail(one->file, 0, "%s is %s", member, text ? text : "absent");
        free(text);
    }
}

static void compare_outcome(const example *one, const dw_job *job)
{
    const json_t *error = json_object_get(one->json, "error");
    if (error) {
        SAME_TEXT(dw_status_code(job->status), text_of(error, "code"));
        SAME_TEXT(job->err.field, text_of(error, "field"));
        return;
    }
    if (job->status != DW_OK) {
        dw_test_fail(one->file, 0, "%s: %s", job->err.field,
                     dw_status_code(job->status));
        return;
    }
    json_t *got = json_loadb(job->reply, job->reply_bytes, 0, NULL);
    compare(one, "reply", json_object_get(one->json, "reply"), got);
    json_decref(got);
}

static void run_example(const example *one, void *owner)
{
    const dw_op *op = dw_op_find(text_of(one->json, "op"));
    if (!op || !dw_op_is_pure(op)) {
        dw_test_fail(one->file, 0, "\"op\" names no pure operation");
        return;
    }
    bool graded = *text_of(one->json, "grade") && *text_of(one->json, "source");
    if (!graded)
        dw_test_fail(one->file, 0, "has no grade or no source");
    char *body =
        json_dumps(json_object_get(one->json, "request"), JSON_COMPACT);
    dw_job job = {.op = op, .body = body, .body_bytes = strlen(body)};
    dw_app_perform(owner, &job);
    compare_outcome(one, &job);
    free(body);
}

TEST(golden_examples_come_out_as_written, DERIVED,
     "each names its own grade and source")
{
    const dw_app_options options = {.readers = 1, .codec = &dw_json_codec};
    dw_app *app;
    dw_err err;
    NEED(dw_app_open(&options, &app, &err) == DW_OK);
    CHECK(each_example(run_example, app) > 0);
    dw_app_free(app);
}

typedef struct search {
    const char *op;
    bool found;
} search;

static void look_at_example(const example *one, void *owner)
{
    search *looking = owner;
    if (strcmp(text_of(one->json, "op"), looking->op) == 0)
        looking->found = true;
}

/* nftw has no owner. */
static search in_sources;

static int look_at_file(const char *path, const struct stat *about, int type,
                        struct FTW *where)
{
    static char text[1 << 20];
    char quoted[128];
    const char *dot = strrchr(path, '.');
    bool source = type == FTW_F && dot &&
                  (strcmp(dot, ".c") == 0 || strcmp(dot, ".mjs") == 0);
    FILE *from = source ? fopen(path, "rb") : NULL;
    if (!from)
        return 0;
    text[fread(text, 1, sizeof text - 1, from)] = '\0';
    fclose(from);
    snprintf(quoted, sizeof quoted, "\"%s\"", in_sources.op);
    in_sources.found = strstr(text, quoted) != NULL;
    return in_sources.found;
}

TEST(long_every_operation_has_a_test, LIMIT, "DESIGN: one door")
{
    size_t count;
    const dw_op *ops = dw_ops(&count);
    for (size_t i = 0; i < count; i++) {
        if (dw_op_is_pure(&ops[i])) {
            search looking = {ops[i].name, false};
            each_example(look_at_example, &looking);
            if (!looking.found)
                dw_test_fail("tests/golden", 0, "no example of %s",
                             ops[i].name);
            continue;
        }
        in_sources = (search){ops[i].name, false};
        nftw(DW_TEST_GOLDEN "/..", look_at_file, 8, FTW_PHYS);
        if (!in_sources.found)
            dw_test_fail("tests", 0, "no test calls %s", ops[i].name);
    }
}
