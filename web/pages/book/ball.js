/* A verdict as the ball looks on the bench: round, tight, blistered, slumped,
 * collapsed, or unseen. Drawn, so that it is told without colour. */

import { html } from "../../lib/view.js";

const SHAPES = {
    good: html`<path d="M3 22a13 12 0 0 1 26 0z" />`,
    tight: html`<path d="M8 22a8 10 0 0 1 16 0z" />
        <path d="M11 16q5-4 10 0M12 19.500q4-3 8 0" class="cut" />`,
    bubbles: html`<path d="M3 22a13 12 0 0 1 26 0z" />
        <circle cx="10" cy="17" r="2.500" class="hole" />
        <circle cx="17" cy="14" r="3" class="hole" />
        <circle cx="22" cy="19" r="2" class="hole" />`,
    sticky: html`<path d="M2 22c3-1 4-9 14-9s11 8 14 9z" />
        <path d="M9 22v5M16 22v7M23 22v4" class="drip" />`,
    blown: html`<path d="M1 22q4-5 9-3 6 3 12 0 5-2 9 3z" />`,
    not_looked: html`<path d="M3 22a13 12 0 0 1 26 0z" class="unseen" />`,
};

export function Ball({ verdict }) {
    return html`
        <svg class="ball" viewBox="0 0 32 30" width="32" height="30"
            aria-hidden="true">
            ${SHAPES[verdict]}
            <path d="M0 22.500h32" class="table" />
        </svg>`;
}
