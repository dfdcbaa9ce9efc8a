#include "cli/secrets.h"

#include "doughwright/say.h"
#include "os/clock.h"
#include "os/file.h"
#include "os/net.h"

enum { PEM_MOST = 256 * 1024 };

const char *dw_secrets_password_path(const char *data, dw_arena *arena)
{
    return dw_arena_print(arena, "%.400s.password", data);
}

static dw_status load_password(dw_cli *cli, const dw_args *args,
                               const char *data, dw_secrets *secrets,
                               dw_server_options *options, dw_err *err)
{
    const char *told = dw_args_value(args, "password-file");
    const char *path = told ? told : dw_secrets_password_path(data, cli->arena);
    bool network = !dw_net_is_loopback(options->address);
    if (!path)
        return dw_fail(err, DW_E_ROOM, "password", NULL);
    if (!told && !network)
        return DW_OK;
    dw_status status = dw_password_read(path, &secrets->password, err);
    if (status == DW_E_NOT_FOUND && !told)
        return dw_fail_says(err, DW_E_MISSING, "password", NULL,
                            DW_MSG("is needed to serve on a network; set it "
                                   "with doughwright password --data FILE"));
    options->password = &secrets->password;
    return status;
}

static dw_status read_pem(const dw_args *args, const char *flag,
                          dw_arena *arena, const char **pem, dw_err *err)
{
    const char *path = dw_args_value(args, flag);
    size_t bytes;
    if (!path)
        return dw_fail(err, DW_E_MISSING, flag, NULL);
    return dw_file_read(path, PEM_MOST, arena, pem, &bytes, err);
}

static dw_status load_certificate(dw_cli *cli, const dw_args *args,
                                  const char *data, dw_certificate *out,
                                  dw_server_options *options, dw_err *err)
{
    *out = (dw_certificate){NULL, NULL, NULL};
    if (dw_args_value(args, "cert") || dw_args_value(args, "key")) {
        DW_TRY(read_pem(args, "cert", cli->arena, &out->certificate_pem, err));
        DW_TRY(read_pem(args, "key", cli->arena, &out->key_pem, err));
    } else if (!dw_net_is_loopback(options->address)) {
        DW_TRY(dw_certificate_of_shop(data, options->names,
                                      options->names_count, dw_clock_now_ms(),
                                      cli->arena, out, err));
    }
    options->certificate_pem = out->certificate_pem;
    options->key_pem = out->key_pem;
    options->ca_pem = out->ca_pem;
    return DW_OK;
}

dw_status dw_secrets_load(dw_cli *cli, const dw_args *args, const char *data,
                          dw_secrets *secrets, dw_server_options *options,
                          dw_err *err)
{
    DW_TRY(load_password(cli, args, data, secrets, options, err));
    return load_certificate(cli, args, data, &secrets->certificate, options,
                            err);
}
