/* The pages, in the order people read them in the band. A page's module is
 * fetched when it is first opened; one that is `under` another is not in the
 * band but belongs to that; it exports `Page`, drawn with `path`. */

import { t } from "./lib/say.js";

function style(href) {
    if (document.querySelector(`link[href="${href}"]`))
        return undefined;
    const link = document.createElement("link");
    link.rel = "stylesheet";
    link.href = href;
    const here = new Promise((resolve) => {
        link.onload = link.onerror = resolve;
    });
    document.head.append(link);
    return here;
}

/* The page of a module, once what it alone looks like is here too. */
async function styled(hrefs, module) {
    await Promise.all(hrefs.map(style));
    return (await module).Page;
}

export const pages = [
    { path: "/today", name: () => t("Today"),
        load: () => styled(["/mix.css", "/today.css"],
            import("./pages/today.js")) },
    { path: "/count", name: () => t("Count"),
        load: () => styled(["/today.css"], import("./pages/count.js")) },
    { path: "/batches", name: () => t("Batches"),
        load: () => styled(["/mix.css"], import("./pages/batches.js")) },
    { path: "/mix", under: "/batches", name: () => t("Mix card"),
        load: () => styled(["/mix.css"], import("./pages/mix.js")) },
    { path: "/formulas", name: () => t("Formulas"),
        load: () => import("./pages/formulas.js").then((it) => it.Page) },
    { path: "/week", name: () => t("Week"),
        load: () => styled(["/shop.css", "/week.css"],
            import("./pages/week.js")) },
    { path: "/buy", under: "/week", name: () => t("To order"),
        load: () => styled(["/book.css"], import("./pages/buy.js")) },
    { path: "/drops", name: () => t("Drops"),
        load: () => styled(["/book.css"], import("./pages/drops.js")) },
    { path: "/cold", name: () => t("Cold room"),
        load: () => styled(["/life/life.css"], import("./pages/cold.js")) },
    { path: "/book", name: () => t("Batch book"),
        load: () => styled(["/book.css"], import("./pages/book.js")) },
    { path: "/minors", under: "/book", name: () => t("Bags of minors"),
        load: () => styled(["/book.css"], import("./pages/minors.js")) },
    { path: "/drift", under: "/book", name: () => t("Drift"),
        load: () => styled(["/book.css", "/drift.css"],
            import("./pages/drift.js")) },
    { path: "/checks", under: "/book", name: () => t("Checks"),
        load: () => styled(["/book.css"],
            import("./pages/checks.js")) },
    { path: "/trace", name: () => t("Trace"),
        load: () => styled(["/book.css", "/trace.css"],
            import("./pages/trace.js")) },
    { path: "/shop", name: () => t("Shop"),
        load: () => styled(["/shop.css"], import("./pages/shop.js")) },
];
