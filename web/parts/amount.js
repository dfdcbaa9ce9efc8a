/* A quantity that keeps its text as typed; what cannot be read is said under
 * it and changes nothing. An empty blank means none (null), unless it is
 * needed. */

import { html, useEffect, useState } from "../lib/view.js";
import { Blank } from "./blank.js";

/* shown: the value as text, taken anew when `units` change; read(text) gives
 * the value or throws. */
export function Amount({ name, shown, units, needed, read, onValue }) {
    const [text, setText] = useState(shown);
    const [error, setError] = useState(null);
    useEffect(() => setText(shown), [units]);
    function type(typed) {
        setText(typed);
        try {
            onValue(typed.trim() === "" && !needed ? null : read(typed));
            setError(null);
        } catch (problem) {
            setError(problem.message);
        }
    }
    return html`<${Blank} number name=${name} text=${text} error=${error}
        onType=${type} />`;
}
