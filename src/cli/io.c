#include "cli/cli.h"
#include "door/error.h"
#include "door/json.h"
#include "doughwright/say.h"

#include <stdlib.h>
#include <string.h>

enum { MOST = (8 << 20) + 1, FIRST_BLOCK = 64 << 10 };

static bool put_error_json(const dw_cli *cli, const dw_err *err)
{
    unsigned char block[8192];
    dw_arena arena; /* the command's own may be what is full */
    dw_arena_init(&arena, block, sizeof block);
    const char *text;
    size_t bytes;
    if (dw_json_error(err, cli->lang, &arena, &text, &bytes) != DW_OK)
        return false;
    fprintf(stderr, "%s\n", text);
    return true;
}

int dw_cli_refuse(const dw_cli *cli, const dw_err *err)
{
    char text[1024];
    if (cli->json && put_error_json(cli, err))
        return DW_EXIT_REFUSED;
    dw_error_sentence(err, cli->lang, text, sizeof text);
    fprintf(stderr, "doughwright: %s\n", text);
    return DW_EXIT_REFUSED;
}

int dw_cli_close(const dw_cli *cli)
{
    if (!ferror(stdout) && fflush(stdout) == 0)
        return DW_EXIT_DONE;
    dw_err err;
    dw_fail(&err, DW_E_IO, "standard output", NULL);
    return dw_cli_refuse(cli, &err);
}

dw_status dw_cli_read(FILE *from, const char *name, char **text, size_t *bytes,
                      dw_err *err)
{
    char *all = NULL;
    size_t room = 0, used = 0, got = 1;
    while (got > 0 && used < MOST) {
        if (used + FIRST_BLOCK > room) {
            room = room ? 2 * room : (size_t)2 * FIRST_BLOCK;
            char *more = realloc(all, room + 1);
            if (!more) {
                free(all);
                return dw_fail(err, DW_E_ROOM, name, NULL);
            }
            all = more;
        }
        got = fread(all + used, 1, room - used, from);
        used += got;
    }
    if (ferror(from)) {
        free(all);
        return dw_fail(err, DW_E_IO, name, NULL);
    }
    all[used] = '\0';
    *text = all;
    *bytes = used;
    return DW_OK;
}

dw_status dw_cli_value_text(const char *value, dw_arena *arena,
                            const char **text, dw_err *err)
{
    if (value[0] != '@') {
        *text = value;
        return DW_OK;
    }
    FILE *from = fopen(value + 1, "rb");
    if (!from)
        return dw_fail(err, DW_E_IO, "", value + 1);
    char *all = NULL;
    size_t bytes;
    dw_status status = dw_cli_read(from, "", &all, &bytes, err);
    fclose(from);
    DW_TRY(status);
    *text = dw_arena_text(arena, all);
    free(all);
    return *text ? DW_OK : dw_fail(err, DW_E_ROOM, "", value + 1);
}
