#include "dw_test.h"

#include "doughwright/base.h"
#include "http/assets.h"
#include "http/guard.h"
#include "http/lockout.h"

static const char *const names[] = {"192.168.7.20", "dough.example",
                                    "fd00::20"};

static bool host(const char *text)
{
    return dw_guard_host(text, names, DW_COUNT(names));
}

TEST(only_our_own_names_pass_as_host, DERIVED,
     "RFC 9110 section 7.2, host and port; DNS rebinding")
{
    CHECK(host("localhost") && host("LOCALHOST:8080"));
    CHECK(host("127.0.0.1:80") && host("[::1]") && host("[::1]:8080"));
    CHECK(host("192.168.7.20:8443") && host("dough.example"));
    CHECK(host("[fd00::20]:443"));
    CHECK(!host(NULL) && !host("") && !host(":80"));
    CHECK(!host("evil.example") && !host("evil.example:8080"));
    CHECK(!host("localhost.evil.example") && !host("localhos"));
    CHECK(!host("127.0.0.1.evil.example") && !host("127.0.0.2"));
    CHECK(!host("localhost:80@evil.example") && !host("localhost:"));
    CHECK(!host("[::1") && !host("[::1]x") && !host("[::2]"));
}

TEST(only_our_own_origin_may_post, DERIVED,
     "RFC 6454 section 6, ASCII serialization; Fetch Metadata")
{
    const char *h = "localhost:8080";
    CHECK(dw_guard_origin(NULL, NULL, h, false));
    CHECK(dw_guard_origin("http://localhost:8080", "same-origin", h, false));
    CHECK(dw_guard_origin(NULL, "none", h, false));
    CHECK(!dw_guard_origin("http://localhost:9090", NULL, h, false));
    CHECK(!dw_guard_origin("https://localhost:8080", NULL, h, false));
    CHECK(dw_guard_origin("https://localhost:8080", NULL, h, true));
    CHECK(!dw_guard_origin("http://evil.example", NULL, h, false));
    CHECK(!dw_guard_origin("null", NULL, h, false));
    CHECK(!dw_guard_origin(NULL, "cross-site", h, false));
    CHECK(!dw_guard_origin(NULL, "same-site", h, false));
}

TEST(only_json_is_taken, DERIVED, "RFC 9110 section 8.3, media type")
{
    CHECK(dw_guard_json("application/json"));
    CHECK(dw_guard_json("Application/JSON ; charset=utf-8"));
    CHECK(!dw_guard_json(NULL) && !dw_guard_json("text/plain"));
    CHECK(!dw_guard_json("application/jsonp"));
    CHECK(!dw_guard_json("application/x-www-form-urlencoded"));
}

TEST(a_path_cannot_climb_or_hide, DERIVED, "worked by hand")
{
    CHECK(dw_guard_path("/") && dw_guard_path("/lib/api.js"));
    CHECK(dw_guard_path("/vendor/htm-preact-3.1.1.js"));
    CHECK(!dw_guard_path("") && !dw_guard_path("app.js"));
    CHECK(!dw_guard_path("/../etc/passwd") && !dw_guard_path("/a/../b"));
    CHECK(!dw_guard_path("/.git/config") && !dw_guard_path("/a/./b"));
    CHECK(!dw_guard_path("//etc/passwd") && !dw_guard_path("/a\\..\\b"));
    CHECK(!dw_guard_path("/a\nb"));
}

TEST(files_have_dots_and_pages_have_none, DERIVED, "assets.h")
{
    CHECK(dw_assets_is_page("/") && dw_assets_is_page("/today"));
    CHECK(dw_assets_is_page("/mix/12"));
    CHECK(!dw_assets_is_page("/app.js") && !dw_assets_is_page("/lib/a.css"));
    SAME_TEXT(dw_assets_type("/lib/api.js"), "text/javascript; charset=utf-8");
    SAME_TEXT(dw_assets_type("/what"), "application/octet-stream");
    SAME_TEXT(dw_assets_cache("/app.js"), "no-cache");
    CHECK(strstr(dw_assets_cache("/vendor/type-5.3.0.woff2"), "immutable"));
}

TEST(wrong_passwords_make_an_address_wait_longer_each_time, DERIVED,
     "lockout.h: 2 free, then 1, 2, 4, ... 300 s")
{
    dw_lockout lockout = {0};
    static const int waits_s[] = {0,  0,  1,   2,   4,   8,  16,
                                  32, 64, 128, 256, 300, 300};
    int64_t now = 5000;
    for (size_t i = 0; i < DW_COUNT(waits_s); i++) {
        dw_lockout_failed(&lockout, "10.0.0.9", now);
        int64_t wait = dw_lockout_wait_ms(&lockout, "10.0.0.9", now);
        SAME(wait, waits_s[i] * 1000);
        SAME(dw_lockout_wait_ms(&lockout, "10.0.0.9", now + wait), 0);
        now += wait;
    }
    SAME(dw_lockout_wait_ms(&lockout, "10.0.0.8", now), 0);
    dw_lockout_forgive(&lockout, "10.0.0.9");
    SAME(dw_lockout_wait_ms(&lockout, "10.0.0.9", now - 300000), 0);
}

TEST(more_addresses_than_places_push_out_the_one_that_is_free_first, DERIVED,
     "lockout.h")
{
    dw_lockout lockout = {0};
    char address[32];
    for (int i = 0; i < 4; i++)
        dw_lockout_failed(&lockout, "10.1.1.1", 0); /* waits 2 s */
    for (int i = 0; i < 3 * DW_LOCKOUT_PLACES; i++) {
        snprintf(address, sizeof address, "10.0.0.%d", i);
        dw_lockout_failed(&lockout, address, 10);
    }
    SAME(dw_lockout_wait_ms(&lockout, "10.1.1.1", 10), 1990);
}
