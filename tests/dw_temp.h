/* A folder of its own for a test that writes files. */
#ifndef DW_TEMP_H
#define DW_TEMP_H

typedef struct dw_temp {
    char folder[64];
    char path[128]; /* of the last dw_temp_path */
} dw_temp;

void dw_temp_make(dw_temp *temp); /* ends the program when it cannot */
const char *dw_temp_path(dw_temp *temp, const char *name);
void dw_temp_remove(dw_temp *temp); /* with all the files in it */

#endif
