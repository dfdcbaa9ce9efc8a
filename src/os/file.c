#include "os/file.h"

#include "doughwright/say.h"
#include "os/random.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static dw_status failed(const char *path, int why, dw_err *err)
{
    if (why == ENOENT)
        return dw_fail(err, DW_E_NOT_FOUND, "file", path);
    if (why == ENOSPC || why == EDQUOT)
        return dw_fail_says(err, DW_E_IO, "file", path,
                            DW_MSG("could not be written: the disk is full"));
    if (why == EACCES || why == EPERM || why == EROFS)
        return dw_fail_says(err, DW_E_IO, "file", path,
                            DW_MSG("may not be opened by this user"));
    return dw_fail(err, DW_E_IO, "file", path);
}

/* Up to `bytes`; fewer when the file ends. -1 and errno on failure. */
static ssize_t read_all(int file, char *out, size_t bytes)
{
    size_t used = 0;
    while (used < bytes) {
        ssize_t got = read(file, out + used, bytes - used);
        if (got == 0)
            break;
        if (got < 0 && errno != EINTR)
            return -1;
        if (got > 0)
            used += (size_t)got;
    }
    return (ssize_t)used;
}

static dw_status read_open(int file, const char *path, size_t most,
                           dw_arena *arena, const char **text, size_t *bytes,
                           dw_err *err)
{
    struct stat about;
    if (fstat(file, &about) != 0)
        return failed(path, errno, err);
    if (!S_ISREG(about.st_mode))
        return dw_fail_says(err, DW_E_IO, "file", path,
                            DW_MSG("is not a file"));
    if ((uint64_t)about.st_size > most)
        return dw_fail(err, DW_E_TOO_LARGE, "file", path);
    size_t size = (size_t)about.st_size;
    char *all = dw_arena_take(arena, size + 1);
    if (!all)
        return dw_fail(err, DW_E_ROOM, "file", path);
    ssize_t got = read_all(file, all, size);
    if (got < 0)
        return failed(path, errno, err);
    *text = all;
    *bytes = (size_t)got;
    return DW_OK;
}

dw_status dw_file_read(const char *path, size_t most, dw_arena *arena,
                       const char **text, size_t *bytes, dw_err *err)
{
    int file = open(path, O_RDONLY | O_CLOEXEC);
    if (file < 0)
        return failed(path, errno, err);
    dw_status status = read_open(file, path, most, arena, text, bytes, err);
    close(file);
    return status;
}

/* 0 or an errno. */
static int write_synced(int file, const void *data, size_t bytes)
{
    const char *at = data;
    while (bytes > 0) {
        ssize_t put = write(file, at, bytes);
        if (put < 0 && errno != EINTR)
            return errno;
        if (put > 0) {
            at += put;
            bytes -= (size_t)put;
        }
    }
    return fsync(file) == 0 ? 0 : errno;
}

/* The name itself is kept by the folder; 0 or an errno. */
static int sync_folder(const char *path)
{
    char folder[4096] = ".";
    const char *slash = strrchr(path, '/');
    if (slash)
        snprintf(folder, sizeof folder, "%.*s",
                 (int)(slash == path ? 1 : slash - path), path);
    int file = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file < 0)
        return errno;
    int why = fsync(file) == 0 ? 0 : errno;
    close(file);
    return why;
}

static int write_beside(const char *path, const char *beside, mode_t mode,
                        const void *data, size_t bytes)
{
    int file = open(beside, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
    if (file < 0)
        return errno;
    int why = write_synced(file, data, bytes);
    if (close(file) != 0 && why == 0)
        why = errno;
    if (why == 0 && rename(beside, path) != 0)
        why = errno;
    if (why != 0)
        unlink(beside);
    return why;
}

static dw_status write_mode(const char *path, mode_t mode, const void *data,
                            size_t bytes, dw_err *err)
{
    uint32_t chance;
    char beside[4096];
    DW_TRY(dw_random_bytes(&chance, sizeof chance, err));
    int used = snprintf(beside, sizeof beside, "%s.%08x.new", path, chance);
    if (used < 0 || (size_t)used >= sizeof beside)
        return dw_fail(err, DW_E_TOO_LARGE, "file", path);
    int why = write_beside(path, beside, mode, data, bytes);
    if (why == 0)
        why = sync_folder(path);
    return why == 0 ? DW_OK : failed(path, why, err);
}

dw_status dw_file_write(const char *path, const void *data, size_t bytes,
                        dw_err *err)
{
    return write_mode(path, 0666, data, bytes, err); /* less the umask */
}

dw_status dw_file_write_private(const char *path, const void *data,
                                size_t bytes, dw_err *err)
{
    return write_mode(path, 0600, data, bytes, err);
}
