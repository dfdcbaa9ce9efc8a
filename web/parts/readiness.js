/* How far dough is: a word, a shape and a tone together, so that none is
 * needed alone. Hollow, quarter, full, notched, crossed. */

import { html } from "../lib/view.js";
import { t } from "../lib/say.js";

const WORDS = {
    not_yet: () => t("not yet"),
    ready: () => t("ready"),
    best: () => t("best"),
    use_first: () => t("use first"),
    past: () => t("past"),
};

const SHAPES = {
    not_yet: null,
    ready: html`<rect class="fill" x="1.5" y="1.5" width="10" height="13" />`,
    best: html`<rect class="fill" x="1.5" y="1.5" width="37" height="13" />`,
    use_first: html`<path class="fill"
        d="M1.5 1.5H38.5V14.5H28L20 6L12 14.5H1.5Z" />`,
    past: html`<path class="cross" d="M3 14.5L37 1.5M3 1.5L37 14.5" />`,
};

export function readinessWord(readiness) {
    return WORDS[readiness]();
}

export function Readiness({ readiness }) {
    return html`
        <span class="readiness" data-is=${readiness}>
            <svg viewBox="0 0 40 16" width="40" height="16" aria-hidden="true">
                <rect class="frame" x="1.5" y="1.5" width="37" height="13" />
                ${SHAPES[readiness]}
            </svg>
            <span>${readinessWord(readiness)}</span>
        </span>`;
}
