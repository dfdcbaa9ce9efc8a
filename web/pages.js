/* The pages, in the order people read them in the band. A page's module is
 * fetched when it is first opened; it exports `Page`, drawn with `path`. */

import { t } from "./lib/say.js";

function entry(path, name, load) {
    const page = { path, name };
    page.load = async () => ({ page, Page: (await load()).Page });
    return page;
}

export const pages = [
    entry("/formulas", () => t("Formulas"),
        () => import("./pages/formulas.js")),
];
