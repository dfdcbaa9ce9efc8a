/* doughwright serve: the pages and the operations over HTTP. */
#include "app/app.h"
#include "cli/cli.h"
#include "cli/secrets.h"
#include "door/json.h"
#include "doughwright/say.h"
#include "http/server.h"
#include "os/clock.h"
#include "os/net.h"

#include <pthread.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>

enum { PORT = 8317, READERS = 2 };

static dw_status read_port(const dw_args *args, int *port, dw_err *err)
{
    const char *text = dw_args_value(args, "port");
    *port = PORT;
    if (!text)
        return DW_OK;
    char *end;
    long value = strtol(text, &end, 10);
    if (end == text || *end)
        return dw_fail(err, DW_E_TYPE, "port", text);
    DW_TRY(dw_check_range(err, "port", (double)value, 0, 65535));
    *port = (int)value;
    return DW_OK;
}

/* Hosts that requests may name: with a network, this machine's own names. */
static dw_status read_names(dw_cli *cli, const dw_args *args,
                            dw_server_options *options, dw_err *err)
{
    const char *name = dw_args_value(args, "name");
    const char *const *own = NULL;
    size_t count = 0;
    if (!dw_net_is_loopback(options->address))
        DW_TRY(dw_net_names(cli->arena, &own, &count, err));
    const char **all = DW_NEW_ARRAY(cli->arena, const char *, count + 1);
    if (!all)
        return dw_fail(err, DW_E_ROOM, "name", NULL);
    if (count > 0)
        memcpy(all, own, count * sizeof *all);
    if (name)
        all[count++] = name;
    options->names = all;
    options->names_count = count;
    return DW_OK;
}

static dw_status read_options(dw_cli *cli, const dw_args *args,
                              dw_server_options *options, dw_err *err)
{
    const char *listen = dw_args_value(args, "listen");
    options->address = listen ? listen : "127.0.0.1";
    options->web_dir = dw_args_value(args, "web");
    options->now_ms = dw_clock_now_ms;
    if (!dw_net_is_address(options->address))
        return dw_fail(err, DW_E_SYNTAX, "listen", listen);
    DW_TRY(read_port(args, &options->port, err));
    return read_names(cli, args, options, err);
}

static void say(const dw_cli *cli, const char *sentence, const char *address)
{
    dw_value values[] = {DW_VALUE_TEXT("address", address)};
    char line[512];
    dw_say(line, sizeof line, cli->lang, sentence, values, DW_COUNT(values));
    puts(line);
}

static void say_where(const dw_cli *cli, const dw_server_options *options,
                      int port)
{
    char address[400];
    const char *host = options->address;
    if (dw_net_is_any(host))
        host = options->names_count > 0 ? options->names[0] : "localhost";
    bool v6 = strchr(host, ':') != NULL;
    snprintf(address, sizeof address, "%s://%s%.300s%s:%d/",
             options->certificate_pem ? "https" : "http", v6 ? "[" : "", host,
             v6 ? "]" : "", port);
    say(cli, DW_MSG("Doughwright is at {address}"), address);
    if (!options->password)
        say(cli,
            DW_MSG("Only this machine can reach it, so nobody needs a "
                   "password."),
            address);
    fflush(stdout);
}

/* Until the terminal or the system asks us to end. The signals are blocked
 * before any thread starts, so that all of them wait here. */
static void block_signals(sigset_t *ends)
{
    sigemptyset(ends);
    sigaddset(ends, SIGTERM);
    sigaddset(ends, SIGINT);
    sigaddset(ends, SIGHUP);
    pthread_sigmask(SIG_BLOCK, ends, NULL);
    signal(SIGPIPE, SIG_IGN);
}

static dw_status serve(const dw_cli *cli, dw_server_options *options,
                       const dw_app_options *app_options, dw_err *err)
{
    sigset_t ends;
    int which;
    dw_server *server;
    block_signals(&ends);
    DW_TRY(dw_app_open(app_options, &options->app, err));
    dw_status status = dw_server_open(options, &server, err);
    if (status == DW_OK) {
        say_where(cli, options, dw_server_port(server));
        sigwait(&ends, &which);
        dw_server_free(server);
    }
    dw_app_free(options->app);
    return status;
}

static int run(dw_cli *cli, const dw_args *args)
{
    dw_err err = {0};
    dw_server_options options = {0};
    dw_app_options app_options = {.readers = READERS, .codec = &dw_json_codec};
    dw_secrets secrets;
    if (dw_cli_data_path(args, cli->arena, &app_options.path, &err) != DW_OK ||
        read_options(cli, args, &options, &err) != DW_OK ||
        dw_secrets_load(cli, args, app_options.path, &secrets, &options,
                        &err) != DW_OK ||
        serve(cli, &options, &app_options, &err) != DW_OK)
        return dw_cli_refuse(cli, &err);
    return DW_EXIT_DONE;
}

static const dw_flag flags[] = {
    {"data", "FILE", DW_MSG("the business's database"), false},
    {"port", "N", DW_MSG("TCP port, 8317 if not told, 0 for any free one"),
     false},
    {"listen", "ADDRESS",
     DW_MSG("the address of a network, 0.0.0.0 for all; 127.0.0.1 if not told"),
     false},
    {"name", "HOST", DW_MSG("one more name the server may be called by"),
     false},
    {"cert", "FILE", DW_MSG("certificate in PEM, for HTTPS"), false},
    {"key", "FILE", DW_MSG("its private key in PEM"), false},
    {"password-file", "FILE",
     DW_MSG("the shop's password; see doughwright password"), false},
    {"web", "FOLDER", DW_MSG("serve the pages from a folder"), false},
};

extern const dw_command dw_command_serve;
const dw_command dw_command_serve = {
    .name = "serve",
    .operands = "",
    .flags = flags,
    .flags_count = DW_COUNT(flags),
    .about = DW_MSG("Serve the pages and the operations."),
    .run = run,
};
