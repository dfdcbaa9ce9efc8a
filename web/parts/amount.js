/* A quantity that keeps its text as typed; what cannot be read is said under
 * it and changes nothing. An empty blank means none (null), unless it is
 * needed. */

import { html, useEffect, useRef, useState } from "../lib/view.js";
import { Blank } from "./blank.js";

/* shown: the value as text, taken anew when `units` change and, while nobody
 * writes here, when the value changes elsewhere; read(text) gives the value or
 * throws. */
export function Amount({ name, shown, units, needed, read, onValue }) {
    const [text, setText] = useState(shown);
    const [error, setError] = useState(null);
    const writing = useRef(false);
    useEffect(() => setText(shown), [units]);
    useEffect(() => {
        if (!writing.current)
            setText(shown);
    }, [shown]);
    function type(typed) {
        writing.current = true;
        setText(typed);
        try {
            onValue(typed.trim() === "" && !needed ? null : read(typed));
            setError(null);
        } catch (problem) {
            setError(problem.message);
        }
    }
    return html`<${Blank} number name=${name} text=${text} error=${error}
        onType=${type} onBlur=${() => { writing.current = false; }} />`;
}
