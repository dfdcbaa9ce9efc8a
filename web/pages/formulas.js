/* Formulas: the shop's own, or one of them on the bench; each comes with the
 * code that only it needs. */

import { html, useLoaded } from "../lib/view.js";

const loadList = () => import("./formulas/list.js").then((it) => it.List);
const loadOne = () => import("./formulas/one.js").then((it) => it.One);

export function Page({ path }) {
    const id = path.split("/")[2];
    const Part = useLoaded(id ? loadOne : loadList);
    return Part && html`<${Part} key=${id} id=${id} />`;
}
