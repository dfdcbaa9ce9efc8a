/* What serving on a network takes: the shop's password and certificates.
 */
#ifndef DW_CLI_SECRETS_H
#define DW_CLI_SECRETS_H

#include "cli/cli.h"
#include "http/certificate.h"
#include "http/password.h"
#include "http/server.h"

typedef struct dw_secrets {
    dw_password_hash password;
    dw_certificate certificate;
} dw_secrets;

/* The password file beside a database. In the arena; NULL when it is full. */
const char *dw_secrets_password_path(const char *data, dw_arena *arena);

/* Read them, or make what we can make, and put them into `options`, whose
 * address and names are set. On loopback only what was asked for. `secrets`
 * must outlive the options. */
dw_status dw_secrets_load(dw_cli *cli, const dw_args *args, const char *data,
                          dw_secrets *secrets, dw_server_options *options,
                          dw_err *err);

#endif
