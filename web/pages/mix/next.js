/* What is tapped next, always in the same place: in the bar at the foot of the
 * card, drawn there by the stop in hand. */

import { html, render, useLayoutEffect } from "../../lib/view.js";

const PLACE = "card-next";

/* Where it is drawn. */
export function NextPlace() {
    return html`<div class="card-next" id=${PLACE}></div>`;
}

export function Next({ children }) {
    const place = () => document.getElementById(PLACE);
    useLayoutEffect(() => render(html`${children}`, place()));
    useLayoutEffect(() => () => place() && render(null, place()), []);
    return null;
}
