/* One pure operation asked in JSON, in this process. */
#ifndef DW_TEST_ASKED_H
#define DW_TEST_ASKED_H

#include "door/json.h"

typedef struct asked {
    dw_status status;
    dw_err err;
    const char *text; /* the reply, or "" */
} asked;

/* Static, overwritten by the next call. `lang` "en" or "es". */
const asked *dw_test_ask(const char *op, const char *lang, const char *json);
/* The number after the first "name": (or in its list, the item at `index`) in
 * the reply; NaN when it is not there. */
double dw_test_number(const asked *a, const char *name, int index);

#endif
