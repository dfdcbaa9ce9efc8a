/* A business for the tests of stored operations: a database of its own, asked
 * in JSON as the doors ask. */
#ifndef DW_TEST_BUSINESS_H
#define DW_TEST_BUSINESS_H

#include "app/app.h"
#include "dw_temp.h"

#include <jansson.h>

typedef struct business {
    dw_temp temp;
    dw_app *app;
    json_t *reply; /* of the last request; replaced by the next */
    dw_err err;    /* of the last refusal */
    int64_t now_ms;
} business;

/* An empty database whose clock stands at 2026-06-05 12:00 UTC, a Friday. */
void business_start(business *b);
void business_stop(business *b);
/* The program is stopped and started again; its clock goes on. */
void business_reopen(business *b);
/* Move the clock. */
void business_wait(business *b, double minutes);

/* Ask; single quotes stand for double ones. The status; the reply is in
 * b->reply. */
dw_status business_ask(business *b, const char *op, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* The same, where a refusal fails the test. */
void business_do(business *b, const char *op, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* A member of the reply by path, "batches.0.pieces.1.balls"; NULL when there is
 * none. */
json_t *business_at(const business *b, const char *path);
double business_number(const business *b, const char *path); /* NAN: none */
const char *business_text(const business *b, const char *path);
size_t business_size(const business *b, const char *path);

/* A small shop: Alder Street, New York time, two products (14 oz and 10 oz
 * balls) of one formula (water 60, salt 2, oil 2, instant yeast 0.3), delayed
 * oil, one heavy 60 qt mixer, two scales, standard batches of a 50 lb bag,
 * open 07:00-22:00 every day. Ids are 1, 2... in that order. */
void business_set_up(business *b);

#endif
