/* The shop's own certificates, for HTTPS on its network.
 *
 * An authority is made once and installed on every tablet; it signs the
 * server's certificate, which is made anew when an address is missing from it
 * or less than 30 days are left of its 397. ECDSA on P-256. All four files lie
 * beside the database, readable by its owner alone.
 */
#ifndef DW_HTTP_CERTIFICATE_H
#define DW_HTTP_CERTIFICATE_H

#include "doughwright/base.h"

/* PEM texts, in the arena. */
typedef struct dw_certificate {
    const char *certificate_pem, *key_pem, *ca_pem;
} dw_certificate;

/* Files DATA.shop.pem, DATA.shop-key.pem (the authority), DATA.server.pem and
 * DATA.server-key.pem. `names` are host names and numeric addresses; loopback
 * is added. DW_E_IO, DW_E_ROOM. */
dw_status dw_certificate_of_shop(const char *data, const char *const *names,
                                 size_t count, int64_t now_ms, dw_arena *arena,
                                 dw_certificate *out, dw_err *err);

#endif
