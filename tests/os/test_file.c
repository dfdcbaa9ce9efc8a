#include "dw_temp.h"
#include "dw_test.h"
#include "os/clock.h"
#include "os/file.h"
#include "os/memory.h"
#include "os/random.h"

#include <dirent.h>
#include <sys/stat.h>

typedef struct shelf {
    dw_temp temp;
    unsigned char block[4096];
    dw_arena arena;
    dw_err err;
} shelf;

static void set_up(shelf *s)
{
    dw_temp_make(&s->temp);
    dw_arena_init(&s->arena, s->block, sizeof s->block);
}

static int files_in(const char *path)
{
    int count = 0;
    DIR *folder = opendir(path);
    struct dirent *entry;
    while (folder && (entry = readdir(folder)))
        count += entry->d_name[0] != '.';
    if (folder)
        closedir(folder);
    return count;
}

TEST(a_file_is_read_as_it_was_written, LIMIT, "round trip")
{
    shelf s;
    set_up(&s);
    const char *path = dw_temp_path(&s.temp, "formula.yaml");
    const char *text = NULL;
    size_t bytes = 0;
    SAME(dw_file_write(path, "flour\0water\n", 12, &s.err), DW_OK);
    NEED(dw_file_read(path, 12, &s.arena, &text, &bytes, &s.err) == DW_OK);
    SAME(bytes, 12);
    CHECK(memcmp(text, "flour\0water\n", 13) == 0);
    SAME(dw_file_write(path, "", 0, &s.err), DW_OK);
    NEED(dw_file_read(path, 12, &s.arena, &text, &bytes, &s.err) == DW_OK);
    SAME(bytes, 0);
    SAME_TEXT(text, "");
    SAME(files_in(s.temp.folder), 1); /* nothing is left beside it */
    dw_temp_remove(&s.temp);
}

TEST(files_that_cannot_be_read_are_named, LIMIT, "file.h")
{
    shelf s;
    set_up(&s);
    const char *text = "untouched";
    size_t bytes = 7;
    const char *path = dw_temp_path(&s.temp, "none");
    SAME(dw_file_read(path, 10, &s.arena, &text, &bytes, &s.err),
         DW_E_NOT_FOUND);
    SAME_TEXT(s.err.value, path);
    SAME(dw_file_read(s.temp.folder, 10, &s.arena, &text, &bytes, &s.err),
         DW_E_IO);
    SAME_TEXT(s.err.sentence, "is not a file");
    SAME(dw_file_write(path, "eleven byte", 11, &s.err), DW_OK);
    SAME(dw_file_read(path, 10, &s.arena, &text, &bytes, &s.err),
         DW_E_TOO_LARGE);
    unsigned char small[16];
    dw_arena_init(&s.arena, small, sizeof small);
    dw_arena_take(&s.arena, 8);
    SAME(dw_file_read(path, 11, &s.arena, &text, &bytes, &s.err), DW_E_ROOM);
    SAME_TEXT(text, "untouched");
    SAME(bytes, 7);
    dw_temp_remove(&s.temp);
}

TEST(a_write_that_fails_leaves_what_was_there, LIMIT, "file.h")
{
    shelf s;
    set_up(&s);
    char target[128];
    snprintf(target, sizeof target, "%s", dw_temp_path(&s.temp, "folder"));
    NEED(mkdir(target, 0700) == 0);
    SAME(dw_file_write(target, "x", 1, &s.err), DW_E_IO);
    SAME(files_in(s.temp.folder), 1);
    SAME(dw_file_write("/nowhere/at/all", "x", 1, &s.err), DW_E_NOT_FOUND);
    remove(target);
    dw_temp_remove(&s.temp);
}

TEST(a_secret_is_readable_by_its_owner_alone, LIMIT, "file.h")
{
    shelf s;
    set_up(&s);
    struct stat about;
    const char *path = dw_temp_path(&s.temp, "secret");
    SAME(dw_file_write(path, "open", 4, &s.err), DW_OK);
    SAME(dw_file_write_private(path, "closed", 6, &s.err), DW_OK);
    NEED(stat(path, &about) == 0);
    SAME(about.st_mode & 0777, 0600);
    SAME(about.st_size, 6);
    dw_temp_remove(&s.temp);
}

TEST(random_bytes_differ, LIMIT, "256 equal bits are not chance")
{
    unsigned char a[32] = {0}, b[32] = {0};
    SAME(dw_random_bytes(a, sizeof a, NULL), DW_OK);
    SAME(dw_random_bytes(b, sizeof b, NULL), DW_OK);
    CHECK(memcmp(a, b, sizeof a) != 0);
}

TEST(the_clocks_go_forward, LIMIT, "clock.h")
{
    CHECK(dw_clock_now_ms() > 1763900000000); /* 2025-11-23 */
    int64_t before = dw_clock_steady_ms();
    CHECK(dw_clock_steady_ms() >= before);
}

TEST(memory_that_was_shed_is_there_again_and_zero, LIMIT, "memory.h")
{
    size_t bytes = 1 << 20;
    unsigned char *block = dw_memory_map(bytes);
    NEED(block);
    memset(block, 7, bytes);
    dw_memory_shed(block, bytes);
    CHECK(block[0] == 0 && block[bytes - 1] == 0);
    block[5] = 1;
    dw_memory_unmap(block, bytes);
}
