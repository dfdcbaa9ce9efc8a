/* Weights and slips for what is on the page, asked anew at each keystroke; the
 * last answer wins, and while one is missing the numbers before it stay. */

import { html, useLayoutEffect, useLoaded, useMemo, useState }
    from "../../lib/view.js";
import { latest } from "../../lib/api.js";

/* The newest reply to `op` for this request (none while it is null), and the
 * newest refusal. What need not keep up with the fingers waits `rest_ms` for
 * them to rest. */
export function useAnswer(op, request, rest_ms = 0) {
    const [answer, set] = useState({ reply: null, refusal: null });
    const ask = useMemo(() => latest(op), [op]);
    const text = request && JSON.stringify(request);
    useLayoutEffect(() => {
        if (!text)
            return undefined;
        const go = () => ask(request).then(
            (reply) => reply && set({ reply, refusal: null }),
            (refusal) => set((was) => ({ ...was, refusal })));
        if (!rest_ms)
            return void go();
        const timer = setTimeout(go, rest_ms);
        return () => clearTimeout(timer);
    }, [text, ask]);
    return answer;
}

const loadSentence = () =>
    import("./refusal.js").then((it) => it.refusalSentence);

/* What the server refused of this draft, said; its words are fetched for the
 * first one. */
export function Refused({ refusal, draft, tone = "trouble" }) {
    const sentence = useLoaded(refusal ? loadSentence : null);
    return refusal && sentence && html`
        <p class=${tone} role="alert">${sentence(refusal, draft)}</p>`;
}
