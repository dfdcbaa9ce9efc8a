/* A question over the page, or (beside) an explanation next to it. The
 * browser's own dialog keeps the focus in, gives it back, and closes on Esc. */

import { html, useLayoutEffect, useName, useRef } from "../lib/view.js";
import { t } from "../lib/say.js";

export function Dialog({ title, onClose, beside, children }) {
    const element = useRef(null);
    const heading = useName("dialog");
    useLayoutEffect(() => {
        element.current.showModal();
    }, []);
    function onBackdrop(event) {
        if (event.target === element.current)
            element.current.close();
    }
    return html`
        <dialog ref=${element} class=${beside ? "beside" : ""}
            aria-labelledby=${heading} onClose=${onClose}
            onClick=${onBackdrop}>
            <div class="stack">
                <div class="row spread">
                    <h2 id=${heading}>${title}</h2>
                    <button class="plain" type="button"
                        onClick=${() => element.current.close()}>
                        ${t("Close")}
                    </button>
                </div>
                ${children}
            </div>
        </dialog>`;
}
