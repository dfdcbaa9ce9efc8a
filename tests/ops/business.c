#include "business.h"

#include "door/json.h"
#include "dw_test.h"

#include <stdarg.h>
#include <stdlib.h>

/* The application takes a clock without a handle, so it stands here. */
static int64_t clock_ms;

static int64_t now(void)
{
    return clock_ms;
}

static void open_app(business *b)
{
    dw_app_options options = {.path = dw_temp_path(&b->temp, "business.db"),
                              .readers = 1,
                              .codec = &dw_json_codec,
                              .now_ms = now};
    dw_err err;
    if (dw_app_open(&options, &b->app, &err) != DW_OK) {
        printf("no business: %s %s\n", err.field, err.value);
        exit(2);
    }
}

void business_start(business *b)
{
    memset(b, 0, sizeof *b);
    dw_temp_make(&b->temp);
    clock_ms = 1780660800000; /* 2026-06-05 12:00 UTC */
    open_app(b);
}

void business_reopen(business *b)
{
    dw_app_free(b->app);
    open_app(b);
}

void business_stop(business *b)
{
    dw_app_free(b->app);
    json_decref(b->reply);
    dw_temp_remove(&b->temp);
}

void business_wait(business *b, double minutes)
{
    (void)b;
    clock_ms += (int64_t)(minutes * 60000);
}

static dw_status ask(business *b, const char *op, const char *format,
                     va_list args)
{
    static char body[65536];
    int n = vsnprintf(body, sizeof body, format, args);
    if (n < 0 || (size_t)n >= sizeof body)
        abort();
    for (char *c = body; *c; c++)
        if (*c == '\'')
            *c = '"';
    dw_job job = {.op = dw_op_find(op),
                  .body = body,
                  .body_bytes = (size_t)n,
                  .device = "bench",
                  .lang = "en"};
    json_decref(b->reply);
    b->reply = NULL;
    if (!job.op) {
        dw_test_fail(__FILE__, __LINE__, "there is no operation %s", op);
        return DW_E_NOT_FOUND;
    }
    dw_app_perform(b->app, &job);
    b->err = job.err;
    b->now_ms = clock_ms;
    if (job.status == DW_OK)
        b->reply = json_loadb(job.reply, job.reply_bytes, 0, NULL);
    return job.status;
}

dw_status business_ask(business *b, const char *op, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    dw_status status = ask(b, op, format, args);
    va_end(args);
    return status;
}

void business_do(business *b, const char *op, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    dw_status status = ask(b, op, format, args);
    va_end(args);
    if (status != DW_OK)
        dw_test_fail(__FILE__, __LINE__, "%s: %s at %s (%s) %s", op,
                     dw_status_code(status), b->err.field, b->err.value,
                     b->err.sentence ? b->err.sentence : "");
}

json_t *business_at(const business *b, const char *path)
{
    json_t *at = b->reply;
    char step[64];
    while (at && *path) {
        size_t n = strcspn(path, ".");
        memcpy(step, path, n);
        step[n] = '\0';
        at = json_is_array(at) ? json_array_get(at, (size_t)atoi(step))
                               : json_object_get(at, step);
        path += n + (path[n] == '.');
    }
    return at;
}

double business_number(const business *b, const char *path)
{
    json_t *at = business_at(b, path);
    return json_is_number(at) ? json_number_value(at) : (double)NAN;
}

const char *business_text(const business *b, const char *path)
{
    return json_string_value(business_at(b, path));
}

size_t business_size(const business *b, const char *path)
{
    return json_array_size(business_at(b, path));
}

static void set_up_formula(business *b)
{
    business_do(b, "procedure.templates", "{}");
    char *steps = json_dumps(business_at(b, "templates.0.steps"), 0);
    business_do(b, "recipe.save",
                "{'name':'White dough','dough_goal_c':25,'formula':{'lines':["
                "{'material':'bread flour','kind':'flour','percent':100},"
                "{'material':'water','kind':'water','percent':60},"
                "{'material':'salt','kind':'salt','percent':2},"
                "{'material':'oil','kind':'fat','percent':2},"
                "{'material':'instant yeast','kind':'yeast_instant',"
                "'percent':0.3}]},'steps':%s}",
                steps ? steps : "[]");
    free(steps);
}

void business_set_up(business *b)
{
    business_do(b, "shop.save",
                "{'name':'Alder Street','zone':'America/New_York',"
                "'currency':'USD'}");
    business_do(b, "mixer.save",
                "{'mixer':{'name':'big mixer','duty':'heavy',"
                "'bowl_litres':56.78,'bowl_kg':18,'plate_note':'plate'},"
                "'limits':[{'rating':{'absorption_percent':60,"
                "'dough_kg':45}}]}");
    business_do(b, "scale.save",
                "{'name':'floor scale','capacity_kg':60,'division_kg':0.02}");
    business_do(b, "scale.save",
                "{'name':'bench scale','capacity_kg':3,'division_kg':0.001}");
    business_do(b, "box_type.save",
                "{'name':'tray','length_m':0.66,'width_m':0.46,'owned':80}");
    business_do(b, "cold_room.save", "{'name':'walk-in','air_c':3}");
    business_do(b, "standard_batch.replace",
                "{'rows':[{'name':'whole bag','flour_kg':22.68},"
                "{'name':'half bag','flour_kg':11.34}]}");
    business_do(
        b, "opening.replace",
        "{'rows':[{'weekday':0,'opens_minute':420,'leaves_minute':1320},"
        "{'weekday':4,'opens_minute':420,'leaves_minute':1320},"
        "{'weekday':5,'opens_minute':420,'leaves_minute':1320}]}");
    business_do(b, "material.save",
                "{'name':'bread flour','kind':'flour','pack_kg':22.68,"
                "'allergens':'wheat'}");
    set_up_formula(b);
    business_do(b, "product.save",
                "{'name':'14 oz ball','position':1,'formula_id':1,"
                "'box_type_id':1,'ball_kg':0.3969,'balls_per_box':8}");
    business_do(b, "product.save",
                "{'name':'10 oz ball','position':2,'formula_id':1,"
                "'box_type_id':1,'ball_kg':0.2835,'balls_per_box':12}");
}
