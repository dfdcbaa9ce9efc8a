#include "http/password.h"

#include "os/file.h"

#include <inttypes.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

_Static_assert(DW_PASSWORD_HASH_BYTES >= crypto_pwhash_STRBYTES,
               "room for a hash");

enum { PASSES = 2, MEMORY = 19 * 1024 * 1024, SEAL = crypto_auth_BYTES };

dw_status dw_password_make(const char *password, dw_password_hash *hash,
                           dw_err *err)
{
    DW_ASSERT(sodium_init() >= 0);
    size_t bytes = strlen(password);
    if (bytes < DW_PASSWORD_SHORTEST || bytes > DW_PASSWORD_LONGEST) {
        dw_fail_says(err, DW_E_RANGE, "password", NULL,
                     "must have 8 to 128 bytes");
        return DW_E_RANGE;
    }
    char text[crypto_pwhash_STRBYTES] = "";
    if (crypto_pwhash_str_alg(text, password, bytes, PASSES, MEMORY,
                              crypto_pwhash_ALG_ARGON2ID13) != 0)
        return dw_fail(err, DW_E_ROOM, "password", NULL);
    memset(hash, 0, sizeof *hash);
    memcpy(hash->text, text, sizeof text);
    return DW_OK;
}

bool dw_password_fits(const dw_password_hash *hash, const char *password)
{
    DW_ASSERT(sodium_init() >= 0);
    return crypto_pwhash_str_verify(hash->text, password, strlen(password)) ==
           0;
}

dw_status dw_password_read(const char *path, dw_password_hash *hash,
                           dw_err *err)
{
    static const char prefix[] = crypto_pwhash_argon2id_STRPREFIX;
    enum { FILE_MOST = 512 };
    unsigned char block[FILE_MOST + 64];
    dw_arena arena;
    const char *text;
    size_t bytes;
    dw_arena_init(&arena, block, sizeof block);
    DW_TRY(dw_file_read(path, FILE_MOST, &arena, &text, &bytes, err));
    char line[FILE_MOST + 1];
    snprintf(line, sizeof line, "%.*s", (int)strcspn(text, "\r\n"), text);
    dw_status status = DW_OK;
    if (strncmp(line, prefix, sizeof prefix - 1) == 0 &&
        strlen(line) < sizeof hash->text)
        snprintf(hash->text, sizeof hash->text, "%s", line);
    else
        status = dw_password_make(line, hash, err);
    sodium_memzero(line, sizeof line);
    sodium_memzero(block, sizeof block);
    return status;
}

dw_status dw_password_write(const char *path, const dw_password_hash *hash,
                            dw_err *err)
{
    char line[DW_PASSWORD_HASH_BYTES + 1];
    int n = snprintf(line, sizeof line, "%s\n", hash->text);
    return dw_file_write_private(path, line, (size_t)n, err);
}

static void seal(const dw_password_hash *hash, const char *until,
                 char hex[2 * SEAL + 1])
{
    static const char purpose[] = "Doughwright session";
    unsigned char key[crypto_auth_KEYBYTES], made[SEAL];
    DW_ASSERT(sodium_init() >= 0);
    crypto_generichash(key, sizeof key, (const unsigned char *)hash->text,
                       strlen(hash->text), (const unsigned char *)purpose,
                       sizeof purpose - 1);
    crypto_auth(made, (const unsigned char *)until, strlen(until), key);
    sodium_bin2hex(hex, (size_t)2 * SEAL + 1, made, sizeof made);
}

void dw_session_make(const dw_password_hash *hash, int64_t until_ms,
                     char out[DW_SESSION_BYTES])
{
    char until[24], hex[(size_t)2 * SEAL + 1];
    snprintf(until, sizeof until, "%" PRId64, until_ms);
    seal(hash, until, hex);
    snprintf(out, DW_SESSION_BYTES, "%s.%s", until, hex);
}

bool dw_session_holds(const dw_password_hash *hash, int64_t now_ms,
                      const char *session, size_t bytes)
{
    char text[DW_SESSION_BYTES], hex[(size_t)2 * SEAL + 1];
    if (bytes >= sizeof text)
        return false;
    memcpy(text, session, bytes);
    text[bytes] = '\0';
    char *dot = strchr(text, '.');
    if (!dot || strlen(dot + 1) != (size_t)2 * SEAL)
        return false;
    *dot = '\0';
    seal(hash, text, hex);
    return sodium_memcmp(hex, dot + 1, (size_t)2 * SEAL) == 0 &&
           strtoll(text, NULL, 10) > now_ms;
}
