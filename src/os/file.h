/* Whole files, read and written at once.
 */
#ifndef DW_OS_FILE_H
#define DW_OS_FILE_H

#include "doughwright/base.h"

/* The whole file as NUL-terminated text; yours (free). DW_E_NOT_FOUND when
 * there is none, DW_E_TOO_LARGE above `most` bytes, else DW_E_IO; the path is
 * the field. */
dw_status dw_file_read(const char *path, size_t most, char **text,
                       size_t *bytes, dw_err *err);
/* Readable by its owner alone (0600). Written beside and renamed over, synced,
 * so there is always a whole file. DW_E_IO with the path as field. */
dw_status dw_file_write_private(const char *path, const char *text,
                                size_t bytes, dw_err *err);

#endif
