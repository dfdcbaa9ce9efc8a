#include "os/file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static dw_status io_failed(const char *path, dw_err *err)
{
    dw_status status = errno == ENOENT ? DW_E_NOT_FOUND : DW_E_IO;
    return dw_fail(err, status, path, strerror(errno));
}

static bool read_all(int fd, char *text, size_t bytes)
{
    while (bytes > 0) {
        ssize_t n = read(fd, text, bytes);
        if (n == 0 || (n < 0 && errno != EINTR))
            return false;
        if (n > 0) {
            text += n;
            bytes -= (size_t)n;
        }
    }
    return true;
}

static bool write_all(int fd, const char *text, size_t bytes)
{
    while (bytes > 0) {
        ssize_t n = write(fd, text, bytes);
        if (n < 0 && errno != EINTR)
            return false;
        if (n > 0) {
            text += n;
            bytes -= (size_t)n;
        }
    }
    return true;
}

static dw_status read_open(int fd, const char *path, size_t most, char **text,
                           size_t *bytes, dw_err *err)
{
    struct stat about;
    if (fstat(fd, &about) != 0)
        return io_failed(path, err);
    size_t size = (size_t)about.st_size;
    if (size > most)
        return dw_fail(err, DW_E_TOO_LARGE, path, NULL);
    char *made = malloc(size + 1);
    if (!made)
        return dw_fail(err, DW_E_ROOM, path, NULL);
    if (!read_all(fd, made, size)) {
        free(made);
        return dw_fail(err, DW_E_IO, path, NULL);
    }
    made[size] = '\0';
    *text = made;
    *bytes = size;
    return DW_OK;
}

dw_status dw_file_read(const char *path, size_t most, char **text,
                       size_t *bytes, dw_err *err)
{
    int fd = open(path, O_RDONLY | O_CLOEXEC);
    if (fd < 0)
        return io_failed(path, err);
    dw_status status = read_open(fd, path, most, text, bytes, err);
    close(fd);
    return status;
}

dw_status dw_file_write_private(const char *path, const char *text,
                                size_t bytes, dw_err *err)
{
    char beside[4096];
    int n = snprintf(beside, sizeof beside, "%s.new", path);
    if (n < 0 || (size_t)n >= sizeof beside)
        return dw_fail(err, DW_E_IO, path, NULL);
    unlink(beside); /* what a killed process left, with whatever mode */
    int fd = open(beside, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
    if (fd < 0)
        return io_failed(path, err);
    bool written = write_all(fd, text, bytes) && fsync(fd) == 0;
    written = close(fd) == 0 && written;
    if (written && rename(beside, path) == 0)
        return DW_OK;
    dw_status status = dw_fail(err, DW_E_IO, path, strerror(errno));
    unlink(beside);
    return status;
}
