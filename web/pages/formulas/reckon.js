/* Weights and slips for what is on the page, asked anew at each keystroke; the
 * last answer wins, and while one is missing the numbers before it stay. */

import { useLayoutEffect, useMemo, useState } from "../../lib/view.js";
import { latest } from "../../lib/api.js";

/* The newest reply to `op` for this request, and the newest refusal. */
export function useAnswer(op, request) {
    const [answer, set] = useState({ reply: null, refusal: null });
    const ask = useMemo(() => latest(op), [op]);
    const text = request && JSON.stringify(request);
    useLayoutEffect(() => {
        if (!text)
            return;
        ask(request).then(
            (reply) => reply && set({ reply, refusal: null }),
            (refusal) => set((was) => ({ ...was, refusal })));
    }, [text, ask]);
    return answer;
}
