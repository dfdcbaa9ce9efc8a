#include "http/assets.h"

#include <stdlib.h>
#include <string.h>

static int by_path(const void *path, const void *asset)
{
    return strcmp(path, ((const dw_asset *)asset)->path);
}

const dw_asset *dw_assets_find(const char *path)
{
    return bsearch(path, dw_assets, dw_assets_count, sizeof dw_assets[0],
                   by_path);
}

static const char *ending(const char *path)
{
    const char *name = strrchr(path, '/');
    const char *dot = strrchr(name ? name : path, '.');
    return dot ? dot + 1 : "";
}

const char *dw_assets_type(const char *path)
{
    static const struct {
        const char *ending, *type;
    } types[] = {
        {"html", "text/html; charset=utf-8"},
        {"js", "text/javascript; charset=utf-8"},
        {"css", "text/css; charset=utf-8"},
        {"json", "application/json"},
        {"webmanifest", "application/manifest+json"},
        {"svg", "image/svg+xml"},
        {"png", "image/png"},
        {"ico", "image/x-icon"},
        {"woff2", "font/woff2"},
        {"txt", "text/plain; charset=utf-8"},
        {"md", "text/markdown; charset=utf-8"},
        {"mp3", "audio/mpeg"},
        {"wav", "audio/wav"},
        {"wasm", "application/wasm"},
    };
    const char *end = ending(path);
    for (size_t i = 0; i < sizeof types / sizeof types[0]; i++)
        if (strcmp(end, types[i].ending) == 0)
            return types[i].type;
    return "application/octet-stream";
}

const char *dw_assets_cache(const char *path)
{
    bool font =
        strncmp(path, "/vendor/", 8) == 0 && strcmp(ending(path), "woff2") == 0;
    return font ? "public, max-age=31536000, immutable" : "no-cache";
}

bool dw_assets_is_page(const char *path)
{
    return *ending(path) == '\0' && strchr(strrchr(path, '/'), '.') == NULL;
}
