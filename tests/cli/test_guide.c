/* The examples of the guide do what the guide says: in a fenced block, a line
 * that begins with "$ " is run (lines with "> " go on from it), and what
 * follows is what it says. */
#include "cli/program.h"
#include "dw_temp.h"
#include "dw_test.h"

#include <dirent.h>
#include <stdlib.h>

typedef struct example {
    char command[4096], says[16384];
    int line;
} example;

/* What it says on standard error is part of the example. The files of a page
 * are in a folder of its own. */
static void run(const char *file, const char *folder, const example *one)
{
    char line[8192];
    snprintf(line, sizeof line, "cd %s && { %s} 2>&1", folder, one->command);
    const ran *r = dw_test_shell(line, "");
    if (strcmp(r->out, one->says) != 0)
        dw_test_fail(file, one->line, "says %s", r->out);
}

static void add(char *out, size_t room, const char *text)
{
    size_t used = strlen(out);
    snprintf(out + used, room - used, "%s", text);
}

static int run_file(const char *path)
{
    static example one;
    dw_temp temp;
    char text[4096];
    bool fenced = false;
    int line = 0, count = 0;
    FILE *from = fopen(path, "rb");
    one.command[0] = '\0';
    dw_temp_make(&temp);
    while (from && fgets(text, sizeof text, from)) {
        line++;
        bool fence = strncmp(text, "```", 3) == 0;
        bool begins = fenced && strncmp(text, "$ ", 2) == 0;
        if ((fence || begins) && one.command[0]) {
            run(path, temp.folder, &one);
            one.command[0] = one.says[0] = '\0';
            count++;
        }
        fenced = fence ? !fenced : fenced;
        if (begins)
            one.line = line;
        if (begins || (fenced && strncmp(text, "> ", 2) == 0))
            add(one.command, sizeof one.command, text + 2);
        else if (fenced && !fence && one.command[0])
            add(one.says, sizeof one.says, text);
    }
    if (from)
        fclose(from);
    dw_temp_remove(&temp);
    return count;
}

TEST(the_examples_of_the_guide_do_what_it_says, DERIVED,
     "docs/guide; ice and percents are held to their sources by the engine's "
     "own tests")
{
    int count = 0;
    DIR *folder = opendir(DW_TEST_GUIDE);
    struct dirent *entry;
    while (folder && (entry = readdir(folder))) {
        char path[1024];
        snprintf(path, sizeof path, "%s/%s", DW_TEST_GUIDE, entry->d_name);
        if (strstr(entry->d_name, ".md"))
            count += run_file(path);
    }
    if (folder)
        closedir(folder);
    CHECK(count > 0);
}
