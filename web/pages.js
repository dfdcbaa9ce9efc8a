/* The pages, in the order people read them in the band. A page's module is
 * fetched when it is first opened; it exports `Page`, drawn with `path`. */

import { t } from "./lib/say.js";

export const pages = [
    { path: "/formulas", name: () => t("Formulas"),
        load: () => import("./pages/formulas.js").then((it) => it.Page) },
];
