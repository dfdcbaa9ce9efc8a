/* The shop's password: argon2id, 19 MiB, 2 passes (OWASP Password Storage
 * Cheat Sheet: at least that for argon2id), by libsodium.
 *
 * A password file has one line: the hash that dw_password_write wrote, or the
 * password itself (a secret that something else mounted for us).
 */
#ifndef DW_HTTP_PASSWORD_H
#define DW_HTTP_PASSWORD_H

#include "doughwright/base.h"

enum {
    DW_PASSWORD_SHORTEST = 8,
    DW_PASSWORD_LONGEST = 128,
    DW_PASSWORD_HASH_BYTES = 128 /* text, its NUL included */
};

typedef struct dw_password_hash {
    char text[DW_PASSWORD_HASH_BYTES];
} dw_password_hash;

/* DW_E_RANGE with field "password" when it is too short or too long (bytes),
 * DW_E_ROOM when there is no memory for it. Takes some 30 ms by design. */
dw_status dw_password_make(const char *password, dw_password_hash *hash,
                           dw_err *err);
/* The same work whether it fits or not. */
bool dw_password_fits(const dw_password_hash *hash, const char *password);

/* As dw_file_read, or as dw_password_make. */
dw_status dw_password_read(const char *path, dw_password_hash *hash,
                           dw_err *err);
/* Only the owner may read the file. */
dw_status dw_password_write(const char *path, const dw_password_hash *hash,
                            dw_err *err);

/* What a signed-in browser carries: "until_ms.seal", the seal made with a key
 * drawn from the hash, so it outlives a restart and dies with the password. */
enum { DW_SESSION_BYTES = 96 };
void dw_session_make(const dw_password_hash *hash, int64_t until_ms,
                     char out[DW_SESSION_BYTES]);
bool dw_session_holds(const dw_password_hash *hash, int64_t now_ms,
                      const char *session, size_t bytes);

#endif
