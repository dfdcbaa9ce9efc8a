/* The list of stops as a thin rail beside the one in hand. */

import { html, useEffect, useRef } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { nameOf } from "./words.js";

export function stateOf(stop) {
    if (stop.skipped)
        return ["skipped", t("left out")];
    if (stop.done)
        return ["done", t("done")];
    return stop.running ? ["running", t("running")] : ["open", t("to do")];
}

/* Each mark has a shape of its own, not only a colour. */
const SHAPES = { done: "\u2713", skipped: "\u2013", running: "\u25b6",
    open: "" };

export function Rail({ walk, shown, current, onGo }) {
    const here = useRef(null);
    useEffect(() => {
        const list = here.current?.closest("ol");
        list?.scrollTo({ top: here.current.offsetTop - 96,
            left: here.current.offsetLeft - 96 });
    }, [shown.key]);
    return html`
        <nav class="rail" aria-label=${t("Steps of this batch")}>
            <ol>${walk.map((stop) => {
        const [state, words] = stateOf(stop);
        return html`
                <li key=${stop.key} ref=${stop === shown ? here : null}
                    data-state=${state}>
                    <button type="button" class="plain"
                        aria-current=${stop === shown ? "step" : null}
                        onClick=${() => onGo(stop.key)}>
                        <span aria-hidden="true" class="mark">
                            ${stop === current && state === "open"
        ? "\u25cf" : SHAPES[state]}</span>
                        <span>${nameOf(stop)}</span>
                        <span class="only-heard">${words}</span>
                    </button>
                </li>`;
    })}
            </ol>
        </nav>`;
}
