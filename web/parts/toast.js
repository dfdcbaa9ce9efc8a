/* One sentence that passes by, with at most one button (usually Undo). */

import { html, useEffect, useState } from "../lib/view.js";

let say = null;
let next = 0;

/* toast("Saved as version 4.") ; toast(text, { button, onPress }) */
export function toast(text, action) {
    say?.({ id: ++next, text, action });
}

export function Toasts() {
    const [shown, setShown] = useState([]);
    useEffect(() => {
        say = (one) => {
            setShown((was) => [...was.slice(-2), one]);
            setTimeout(() => drop(one.id), one.action ? 12000 : 6000);
        };
        return () => { say = null; };
    }, []);
    function drop(id) {
        setShown((was) => was.filter((one) => one.id !== id));
    }
    function press(one) {
        drop(one.id);
        one.action.onPress();
    }
    return html`
        <div class="toasts" role="status">
            ${shown.map((one) => html`
                <div class="toast" key=${one.id}>
                    <span>${one.text}</span>
                    ${one.action && html`
                        <button type="button" onClick=${() => press(one)}>
                            ${one.action.button}
                        </button>`}
                </div>`)}
        </div>`;
}
