/* The pages, in the order people read them in the band. A page's module is
 * fetched when it is first opened; one that is `under` another is not in the
 * band but belongs to that; it exports `Page`, drawn with `path`. */

import { t } from "./lib/say.js";

export const pages = [
    { path: "/batches", name: () => t("Batches"),
        load: () => import("./pages/batches.js").then((it) => it.Page) },
    { path: "/mix", under: "/batches", name: () => t("Mix card"),
        load: () => import("./pages/mix.js").then((it) => it.Page) },
    { path: "/formulas", name: () => t("Formulas"),
        load: () => import("./pages/formulas.js").then((it) => it.Page) },
];
