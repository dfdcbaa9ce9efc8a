/* doughwright password: set the shop's password. */
#include "cli/secrets.h"
#include "doughwright/say.h"

#include <string.h>
#include <termios.h>
#include <unistd.h>

/* One line; a terminal does not show it. */
static dw_status read_line(const dw_cli *cli, const char *prompt, char *out,
                           size_t room, dw_err *err)
{
    struct termios shown, hidden;
    bool terminal = tcgetattr(STDIN_FILENO, &shown) == 0;
    if (terminal) {
        hidden = shown;
        hidden.c_lflag &= ~(tcflag_t)ECHO;
        fprintf(stderr, "%s: ", dw_say_sentence(cli->lang, prompt));
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &hidden);
    }
    bool got = fgets(out, (int)room, stdin) != NULL;
    if (terminal) {
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &shown);
        fputc('\n', stderr);
    }
    if (!got)
        return dw_fail(err, DW_E_MISSING, "password", NULL);
    out[strcspn(out, "\r\n")] = '\0';
    return DW_OK;
}

/* Typed twice where nobody sees it, once from a file or a pipe. */
static dw_status ask(const dw_cli *cli, dw_password_hash *hash, dw_err *err)
{
    char password[DW_PASSWORD_LONGEST + 3], again[DW_PASSWORD_LONGEST + 3];
    DW_TRY(read_line(cli, DW_MSG("New shop password"), password,
                     sizeof password, err));
    if (isatty(STDIN_FILENO)) {
        DW_TRY(
            read_line(cli, DW_MSG("The same again"), again, sizeof again, err));
        if (strcmp(password, again) != 0)
            return dw_fail_says(err, DW_E_SUM, "password", NULL,
                                DW_MSG("was typed differently the second "
                                       "time"));
    }
    return dw_password_make(password, hash, err);
}

static int run(dw_cli *cli, const dw_args *args)
{
    dw_err err = {0};
    const char *data;
    dw_password_hash hash;
    if (dw_cli_data_path(args, cli->arena, &data, &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    const char *path = dw_secrets_password_path(data, cli->arena);
    if (!path || ask(cli, &hash, &err) != DW_OK ||
        dw_password_write(path, &hash, &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    puts(dw_say_sentence(cli->lang,
                         DW_MSG("The password is set. Whoever had signed in "
                                "signs in again.")));
    return DW_EXIT_DONE;
}

static const dw_flag flags[] = {
    {"data", "FILE", DW_MSG("the business's database"), false},
};

extern const dw_command dw_command_password;
const dw_command dw_command_password = {
    .name = "password",
    .operands = "",
    .flags = flags,
    .flags_count = DW_COUNT(flags),
    .about = DW_MSG("Set the password that the shop's tablets sign in with."),
    .run = run,
};
