/* Whole files, read and written. */
#ifndef DW_OS_FILE_H
#define DW_OS_FILE_H

#include "doughwright/base.h"

/* The whole file with a NUL behind it, in the arena. DW_E_TOO_LARGE beyond
 * `most` bytes, DW_E_NOT_FOUND when there is none of that name, DW_E_IO when it
 * is not a file or cannot be read, DW_E_ROOM. The path is the error's value. */
dw_status dw_file_read(const char *path, size_t most, dw_arena *arena,
                       const char **text, size_t *bytes, dw_err *err);
/* Write it all or leave what was there: into a new file beside it, synced,
 * then renamed. DW_E_IO. */
dw_status dw_file_write(const char *path, const void *data, size_t bytes,
                        dw_err *err);
/* The same for a secret: only its owner may read it (0600). */
dw_status dw_file_write_private(const char *path, const void *data,
                                size_t bytes, dw_err *err);

#endif
