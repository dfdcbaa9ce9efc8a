#include "http/certificate.h"

#include "os/file.h"

#include <arpa/inet.h>
#include <gnutls/crypto.h>
#include <gnutls/x509.h>
#include <stdio.h>
#include <string.h>

enum { PEM_MOST = 64 * 1024, DAY_S = 24 * 3600, SERVER_DAYS = 397, LEFT = 30 };
enum { SHOP_DAYS = 3650 };

/* A certificate with its key. */
typedef struct pair {
    gnutls_x509_crt_t certificate;
    gnutls_x509_privkey_t key;
} pair;

typedef struct maker {
    const char *data;
    const char *const *names;
    size_t count;
    time_t now;
    dw_arena *arena;
    dw_err *err;
} maker;

static const char *const loopback[] = {"localhost", "127.0.0.1", "::1"};

static dw_status failed(const maker *m, int code)
{
    return dw_fail(m->err, DW_E_IO, "certificate", gnutls_strerror(code));
}

/* GnuTLS calls one after the other; the first that fails ends it. */
#define GNUTLS(m, call)                                                        \
    do {                                                                       \
        int gnutls_code_ = (call);                                             \
        if (gnutls_code_ < 0)                                                  \
            return failed((m), gnutls_code_);                                  \
    } while (0)

static dw_status pair_open(const maker *m, pair *p)
{
    memset(p, 0, sizeof *p);
    GNUTLS(m, gnutls_x509_crt_init(&p->certificate));
    GNUTLS(m, gnutls_x509_privkey_init(&p->key));
    return DW_OK;
}

static void pair_close(pair *p)
{
    if (p->certificate)
        gnutls_x509_crt_deinit(p->certificate);
    if (p->key)
        gnutls_x509_privkey_deinit(p->key);
}

/* --- files --------------------------------------------------------------- */

static const char *path_of(const maker *m, const char *ending)
{
    return dw_arena_print(m->arena, "%.400s.%s", m->data, ending);
}

static dw_status read_pem(const maker *m, const char *ending, const char **pem)
{
    size_t bytes;
    const char *path = path_of(m, ending);
    if (!path)
        return dw_fail(m->err, DW_E_ROOM, "certificate", NULL);
    return dw_file_read(path, PEM_MOST, m->arena, pem, &bytes, m->err);
}

/* DW_E_NOT_FOUND when there is none yet. */
static dw_status pair_read(const maker *m, const char *name, pair *p)
{
    char ending[32];
    const char *certificate, *key;
    snprintf(ending, sizeof ending, "%s.pem", name);
    DW_TRY(read_pem(m, ending, &certificate));
    snprintf(ending, sizeof ending, "%s-key.pem", name);
    DW_TRY(read_pem(m, ending, &key));
    gnutls_datum_t c = {(unsigned char *)(uintptr_t)certificate,
                        (unsigned)strlen(certificate)};
    gnutls_datum_t k = {(unsigned char *)(uintptr_t)key, (unsigned)strlen(key)};
    GNUTLS(m, gnutls_x509_crt_import(p->certificate, &c, GNUTLS_X509_FMT_PEM));
    GNUTLS(m, gnutls_x509_privkey_import(p->key, &k, GNUTLS_X509_FMT_PEM));
    return DW_OK;
}

static dw_status write_pem(const maker *m, const char *ending,
                           const gnutls_datum_t *pem)
{
    const char *path = path_of(m, ending);
    if (!path)
        return dw_fail(m->err, DW_E_ROOM, "certificate", NULL);
    return dw_file_write_private(path, pem->data, pem->size, m->err);
}

static dw_status pair_write(const maker *m, const char *name, const pair *p)
{
    char ending[32];
    gnutls_datum_t pem;
    GNUTLS(m, gnutls_x509_privkey_export2(p->key, GNUTLS_X509_FMT_PEM, &pem));
    snprintf(ending, sizeof ending, "%s-key.pem", name);
    dw_status status = write_pem(m, ending, &pem);
    gnutls_memset(pem.data, 0, pem.size);
    gnutls_free(pem.data);
    DW_TRY(status);
    GNUTLS(m,
           gnutls_x509_crt_export2(p->certificate, GNUTLS_X509_FMT_PEM, &pem));
    snprintf(ending, sizeof ending, "%s.pem", name);
    status = write_pem(m, ending, &pem);
    gnutls_free(pem.data);
    return status;
}

/* --- making -------------------------------------------------------------- */

/* What both kinds have: a new key, a random number, a time to live. */
static dw_status fill(const maker *m, pair *p, const char *called, int days)
{
    unsigned char serial[16], id[20];
    size_t id_bytes = sizeof id;
    gnutls_x509_crt_t c = p->certificate;
    GNUTLS(m, gnutls_x509_privkey_generate(
                  p->key, GNUTLS_PK_ECDSA,
                  GNUTLS_CURVE_TO_BITS(GNUTLS_ECC_CURVE_SECP256R1), 0));
    GNUTLS(m, gnutls_rnd(GNUTLS_RND_NONCE, serial, sizeof serial));
    serial[0] = (serial[0] & 0x3f) | 0x40; /* positive, of full length */
    GNUTLS(m, gnutls_x509_crt_set_version(c, 3));
    GNUTLS(m, gnutls_x509_crt_set_serial(c, serial, sizeof serial));
    GNUTLS(m, gnutls_x509_crt_set_key(c, p->key));
    GNUTLS(m, gnutls_x509_crt_set_dn_by_oid(c, GNUTLS_OID_X520_COMMON_NAME, 0,
                                            called, (unsigned)strlen(called)));
    GNUTLS(m, gnutls_x509_crt_set_activation_time(c, m->now - DAY_S));
    GNUTLS(m, gnutls_x509_crt_set_expiration_time(
                  c, m->now + (time_t)(days - 1) * DAY_S));
    GNUTLS(m, gnutls_x509_crt_get_key_id(c, 0, id, &id_bytes));
    GNUTLS(m, gnutls_x509_crt_set_subject_key_id(c, id, id_bytes));
    return DW_OK;
}

static dw_status make_shop(const maker *m, pair *shop)
{
    gnutls_x509_crt_t c = shop->certificate;
    DW_TRY(fill(m, shop, "Doughwright, this shop", SHOP_DAYS));
    GNUTLS(m, gnutls_x509_crt_set_basic_constraints(c, 1, 0));
    GNUTLS(m, gnutls_x509_crt_set_key_usage(c, GNUTLS_KEY_KEY_CERT_SIGN));
    GNUTLS(m, gnutls_x509_crt_sign2(c, c, shop->key, GNUTLS_DIG_SHA256, 0));
    return pair_write(m, "shop", shop);
}

static dw_status add_name(const maker *m, gnutls_x509_crt_t c, const char *name)
{
    unsigned char bytes[16];
    unsigned count = inet_pton(AF_INET, name, bytes) == 1    ? 4
                     : inet_pton(AF_INET6, name, bytes) == 1 ? 16
                                                             : 0;
    if (count > 0)
        GNUTLS(m, gnutls_x509_crt_set_subject_alt_name(c, GNUTLS_SAN_IPADDRESS,
                                                       bytes, count,
                                                       GNUTLS_FSAN_APPEND));
    else
        GNUTLS(m, gnutls_x509_crt_set_subject_alt_name(
                      c, GNUTLS_SAN_DNSNAME, name, (unsigned)strlen(name),
                      GNUTLS_FSAN_APPEND));
    return DW_OK;
}

static dw_status make_server(const maker *m, const pair *shop, pair *server)
{
    unsigned char id[20];
    size_t id_bytes = sizeof id;
    gnutls_x509_crt_t c = server->certificate;
    DW_TRY(fill(m, server, "Doughwright server", SERVER_DAYS));
    for (size_t i = 0; i < DW_COUNT(loopback); i++)
        DW_TRY(add_name(m, c, loopback[i]));
    for (size_t i = 0; i < m->count; i++)
        DW_TRY(add_name(m, c, m->names[i]));
    GNUTLS(m, gnutls_x509_crt_set_basic_constraints(c, 0, -1));
    GNUTLS(m, gnutls_x509_crt_set_key_usage(c, GNUTLS_KEY_DIGITAL_SIGNATURE));
    GNUTLS(m,
           gnutls_x509_crt_set_key_purpose_oid(c, GNUTLS_KP_TLS_WWW_SERVER, 0));
    GNUTLS(m, gnutls_x509_crt_get_key_id(shop->certificate, 0, id, &id_bytes));
    GNUTLS(m, gnutls_x509_crt_set_authority_key_id(c, id, id_bytes));
    GNUTLS(m, gnutls_x509_crt_sign2(c, shop->certificate, shop->key,
                                    GNUTLS_DIG_SHA256, 0));
    return pair_write(m, "server", server);
}

static bool still_good(const maker *m, const pair *shop, const pair *server)
{
    gnutls_x509_crt_t c = server->certificate;
    unsigned how;
    if (gnutls_x509_crt_verify(c, &shop->certificate, 1,
                               GNUTLS_VERIFY_DISABLE_TIME_CHECKS, &how) < 0 ||
        how != 0)
        return false;
    if (gnutls_x509_crt_get_expiration_time(c) < m->now + (time_t)LEFT * DAY_S)
        return false;
    for (size_t i = 0; i < m->count; i++)
        if (!gnutls_x509_crt_check_hostname(c, m->names[i]))
            return false;
    return true;
}

static dw_status settle(const maker *m, pair *shop, pair *server)
{
    dw_status status = pair_read(m, "shop", shop);
    if (status == DW_E_NOT_FOUND)
        status = make_shop(m, shop);
    DW_TRY(status);
    status = pair_read(m, "server", server);
    if (status == DW_OK && still_good(m, shop, server))
        return DW_OK;
    if (status != DW_OK && status != DW_E_NOT_FOUND)
        return status;
    pair_close(server);
    DW_TRY(pair_open(m, server));
    return make_server(m, shop, server);
}

dw_status dw_certificate_of_shop(const char *data, const char *const *names,
                                 size_t count, int64_t now_ms, dw_arena *arena,
                                 dw_certificate *out, dw_err *err)
{
    maker m = {data, names, count, (time_t)(now_ms / 1000), arena, err};
    pair shop = {NULL, NULL}, server = {NULL, NULL};
    dw_certificate made;
    dw_status status = pair_open(&m, &shop);
    if (status == DW_OK)
        status = pair_open(&m, &server);
    if (status == DW_OK)
        status = settle(&m, &shop, &server);
    pair_close(&shop);
    pair_close(&server);
    DW_TRY(status);
    DW_TRY(read_pem(&m, "server.pem", &made.certificate_pem));
    DW_TRY(read_pem(&m, "server-key.pem", &made.key_pem));
    DW_TRY(read_pem(&m, "shop.pem", &made.ca_pem));
    *out = made;
    return DW_OK;
}
