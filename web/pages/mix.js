/* The mix card of one batch: /mix/3. */

import { html } from "../lib/view.js";
import { Card } from "./mix/card.js";

export function Page({ path }) {
    const id = Number(path.split("/")[2]);
    return html`<${Card} key=${id} id=${id} />`;
}
