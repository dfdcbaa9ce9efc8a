/* What a request must look like before anything is done for it. Pure checks.
 *
 * Sources: RFC 9110 (HTTP semantics), RFC 9112 section 6.3 (message body
 * length: a request with two lengths is an attack), RFC 6454 (origins), W3C
 * Fetch Metadata (Sec-Fetch-Site).
 */
#ifndef DW_HTTP_GUARD_H
#define DW_HTTP_GUARD_H

#include <stdbool.h>
#include <stddef.h>

/* May a request name this host? A page of another site that points its name at
 * our address (DNS rebinding) still names itself, so only loopback names and
 * `names` pass, with or without a port. NULL does not pass. */
bool dw_guard_host(const char *host, const char *const *names, size_t count);
/* Does the request come from our own page, or from no page at all? `origin` and
 * `site` (Sec-Fetch-Site) are header values or NULL; an origin must be this
 * scheme and `host`. */
bool dw_guard_origin(const char *origin, const char *site, const char *host,
                     bool tls);
/* Is it JSON? Parameters (charset) may follow. A form of another site cannot
 * send this type without asking first. */
bool dw_guard_json(const char *content_type);
/* Is a decoded path free of "..", hidden names, backslashes, empty segments and
 * control characters? It begins with '/'. */
bool dw_guard_path(const char *path);
/* Is it only digits, as a length must be? */
bool dw_guard_digits(const char *text);

#endif
