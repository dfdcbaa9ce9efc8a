/* The identifiers that are known, shared by writing and reading. */
#ifndef DW_ENGINE_GS1_H
#define DW_ENGINE_GS1_H

#include "doughwright/gs1.h"

typedef enum dw_gs1__form {
    DW_GS1__KEY,    /* digits with a check digit */
    DW_GS1__DATE,   /* YYMMDD */
    DW_GS1__WEIGHT, /* six digits, decimals by the identifier's last */
    DW_GS1__DIGITS,
    DW_GS1__TEXT
} dw_gs1__form;

typedef struct dw_gs1__identifier {
    const char *code; /* 'n' stands for a digit: decimals */
    const char *title;
    dw_gs1__form form;
    size_t least, most; /* characters */
    bool closed;        /* by FNC1 */
    const char *needs;  /* one of these too, by commas; NULL: none */
} dw_gs1__identifier;

/* The identifier that text begins with; NULL when none. */
const dw_gs1__identifier *dw_gs1__find(const char *text, size_t bytes);
/* Is the value one of this identifier? Fills what it says; outputs only on
 * DW_OK. Errors name the field `field`. */
dw_status dw_gs1__understand(const dw_gs1__identifier *identifier,
                             const char *field, int64_t today,
                             dw_gs1_element *element, dw_err *err);

#endif
