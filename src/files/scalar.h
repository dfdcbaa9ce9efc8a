/* One member of a shape as a text in a file. Module-internal. */
#ifndef DW_FILES_SCALAR_H
#define DW_FILES_SCALAR_H

#include "doughwright/field.h"

enum { DW_FILES__KEY = 64, DW_FILES__TEXT = 64 };

/* The member's key in a file; false when files do not have it (ids, positions,
 * moments). */
bool dw_files__key(const dw_field *field, char key[DW_FILES__KEY]);
/* A nested object whose members are keys of the object around it. */
bool dw_files__is_flat(const dw_field *field);

/* Read the number of a REAL, WHOLE or of one of REALS, WHOLES. Ranges are
 * checked; the error has no field. */
dw_status dw_files__number(const dw_field *field, const char *text,
                           double *value, dw_err *err);
dw_status dw_files__yes(const char *text, bool *value, dw_err *err);
dw_status dw_files__choice(const dw_field *field, const char *text, int *value,
                           dw_err *err);
/* Write a number so that dw_files__number gives the same again. */
void dw_files__print(const dw_field *field, double value,
                     char out[DW_FILES__TEXT]);

#endif
