/* The answer for what is on the page while it moves: one question under way,
 * the newest waiting, so a drag is answered at every step the server keeps up
 * with and never starved. */

import { useEffect, useRef, useState } from "../lib/view.js";
import { call } from "../lib/api.js";

export function useFollowing(op, request) {
    const [answer, set] = useState({ reply: null, refusal: null, text: "" });
    const line = useRef({ busy: false, next: null, gone: false });
    const text = request && JSON.stringify(request);
    useEffect(() => () => { line.current.gone = true; }, []);
    useEffect(() => {
        const state = line.current;
        state.gone = false;
        state.next = text;
        async function work() {
            state.busy = true;
            while (state.next && !state.gone) {
                const mine = state.next;
                state.next = null;
                try {
                    const reply = await call(op, JSON.parse(mine));
                    if (!state.gone)
                        set({ reply, refusal: null, text: mine });
                } catch (refusal) {
                    if (!state.gone)
                        set((was) => ({ ...was, refusal, text: mine }));
                }
            }
            state.busy = false;
        }
        if (!state.busy)
            work();
    }, [op, text]);
    return { ...answer, settled: answer.text === text };
}
