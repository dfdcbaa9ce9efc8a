#include "dw_test.h"

#include "client.h"
#include "dw_temp.h"
#include "http/certificate.h"
#include "os/clock.h"
#include "os/net.h"

#include <gnutls/gnutls.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

static const char *const names[] = {"192.168.7.20", "oven.local", "fd00::20"};

enum { ROOM = 1 << 20 };

/* A folder, working memory and the certificates of a shop in it. */
typedef struct shop {
    dw_temp temp;
    dw_arena arena;
    unsigned char *block;
    dw_certificate made;
    dw_err err;
} shop;

static dw_status certify(shop *s, size_t names_count, int64_t days_from_now)
{
    return dw_certificate_of_shop(dw_temp_path(&s->temp, "a.db"), names,
                                  names_count,
                                  dw_clock_now_ms() + days_from_now * 86400000,
                                  &s->arena, &s->made, &s->err);
}

static bool shop_open(shop *s)
{
    dw_temp_make(&s->temp);
    s->block = malloc(ROOM);
    dw_arena_init(&s->arena, s->block, ROOM);
    return certify(s, 1, 0) == DW_OK;
}

static void shop_close(shop *s)
{
    free(s->block);
    dw_temp_remove(&s->temp);
}

TEST(only_the_owner_may_read_the_shops_keys, DERIVED, "certificate.h: 0600")
{
    static const char *const files[] = {"a.db.shop.pem", "a.db.shop-key.pem",
                                        "a.db.server.pem",
                                        "a.db.server-key.pem"};
    shop s;
    NEED(shop_open(&s));
    for (size_t i = 0; i < DW_COUNT(files); i++) {
        struct stat about = {0};
        CHECK(stat(dw_temp_path(&s.temp, files[i]), &about) == 0);
        SAME(about.st_mode & 0777, 0600);
    }
    shop_close(&s);
}

TEST(the_shops_certificate_stays_and_the_servers_is_made_anew_when_needed,
     DERIVED, "certificate.h: an address more, or less than 30 of 397 days")
{
    shop s;
    NEED(shop_open(&s));
    dw_certificate first = s.made;
    SAME(certify(&s, 1, 360), DW_OK);
    SAME_TEXT(s.made.certificate_pem, first.certificate_pem);
    SAME(certify(&s, 3, 0), DW_OK);
    CHECK(strcmp(s.made.certificate_pem, first.certificate_pem) != 0);
    SAME_TEXT(s.made.ca_pem, first.ca_pem);
    dw_certificate second = s.made;
    SAME(certify(&s, 3, 370), DW_OK);
    CHECK(strcmp(s.made.certificate_pem, second.certificate_pem) != 0);
    SAME_TEXT(s.made.ca_pem, first.ca_pem);
    shop_close(&s);
}

static shop *served;

static void over_tls(dw_server_options *options)
{
    options->certificate_pem = served->made.certificate_pem;
    options->key_pem = served->made.key_pem;
    options->ca_pem = served->made.ca_pem;
    options->names = names;
    options->names_count = DW_COUNT(names);
}

/* A handshake as `name` with only the shop's certificate trusted; then one
 * request. The status of the answer, or the GnuTLS error. */
static int ask_over_tls(int fd, const char *name, const char *priorities)
{
    gnutls_certificate_credentials_t trusted;
    gnutls_session_t session;
    gnutls_datum_t ca = {(unsigned char *)(uintptr_t)served->made.ca_pem,
                         (unsigned)strlen(served->made.ca_pem)};
    gnutls_certificate_allocate_credentials(&trusted);
    gnutls_certificate_set_x509_trust_mem(trusted, &ca, GNUTLS_X509_FMT_PEM);
    gnutls_init(&session, GNUTLS_CLIENT);
    gnutls_priority_set_direct(session, priorities, NULL);
    gnutls_credentials_set(session, GNUTLS_CRD_CERTIFICATE, trusted);
    gnutls_session_set_verify_cert(session, name, 0);
    gnutls_transport_set_int(session, fd);
    int code = gnutls_handshake(session);
    static const char request[] =
        "GET /shop-certificate.pem HTTP/1.1\r\nHost: 192.168.7.20:443\r\n"
        "Origin: https://192.168.7.20:443\r\nConnection: close\r\n\r\n";
    char text[8192] = "";
    if (code == 0) {
        gnutls_record_send(session, request, sizeof request - 1);
        ssize_t n = gnutls_record_recv(session, text, sizeof text - 1);
        code = n > 0 && sscanf(text, "HTTP/1.1 %d", &code) == 1 ? code : -1;
    }
    gnutls_deinit(session);
    gnutls_certificate_free_credentials(trusted);
    return code;
}

TEST(a_tablet_that_trusts_the_shop_reaches_it_by_each_of_its_names, DERIVED,
     "RFC 5280 and RFC 6125, as GnuTLS verifies them")
{
    static const char *const reached[] = {"192.168.7.20", "oven.local",
                                          "fd00::20", "localhost", "127.0.0.1"};
    shop s;
    bench b;
    NEED(shop_open(&s) && certify(&s, 3, 0) == DW_OK);
    served = &s;
    NEED(bench_open(&b, over_tls));
    for (size_t i = 0; i < DW_COUNT(reached); i++) {
        int fd = client_connect(&b);
        SAME(ask_over_tls(fd, reached[i], "NORMAL"), 200);
        close(fd);
    }
    int fd = client_connect(&b);
    CHECK(ask_over_tls(fd, "192.168.7.21", "NORMAL") < 0);
    close(fd);
    bench_close(&b);
    shop_close(&s);
}

TEST(old_versions_of_tls_are_refused, PUBLISHED, "RFC 8996: 1.0 and 1.1 end")
{
    shop s;
    bench b;
    NEED(shop_open(&s));
    served = &s;
    NEED(bench_open(&b, over_tls));
    int fd = client_connect(&b);
    CHECK(ask_over_tls(fd, "localhost",
                       "NORMAL:-VERS-ALL:+VERS-TLS1.1:%COMPAT") < 0);
    close(fd);
    bench_close(&b);
    shop_close(&s);
}

TEST(this_machine_knows_its_loopback, DERIVED, "RFC 1122, RFC 4291")
{
    CHECK(dw_net_is_loopback("127.0.0.1") && dw_net_is_loopback("127.9.9.9"));
    CHECK(dw_net_is_loopback("::1") && !dw_net_is_loopback("::2"));
    CHECK(!dw_net_is_loopback("192.168.7.20") && !dw_net_is_loopback("x"));
    CHECK(dw_net_is_any("0.0.0.0") && dw_net_is_any("::"));
    CHECK(!dw_net_is_any("127.0.0.1"));
}
