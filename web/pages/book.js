/* The batch book: the log, one batch of it, or the form for a paper sheet. */

import { html, useLoaded } from "../lib/view.js";

const loadLog = () => import("./book/log.js").then((it) => it.Log);
const loadOne = () => import("./book/one.js").then((it) => it.One);
const loadSheet = () => import("./book/sheet.js").then((it) => it.Sheet);

export function Page({ path }) {
    const [, , id, part] = path.split("/");
    const load = part === "sheet" ? loadSheet : id ? loadOne : loadLog;
    const Part = useLoaded(load);
    return Part && html`<${Part} key=${`${id} ${part}`} id=${Number(id)} />`;
}
