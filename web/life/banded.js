/* An answer at once and, once the hand rests, the same with its band. */

import { useEffect, useState } from "../lib/view.js";
import { call } from "../lib/api.js";
import { useFollowing } from "./follow.js";

const REST_MS = 300;
const MEMBERS = 63;

/* make(members): the request, or null for none. { reply, refusal, banded }:
 * banded belongs to the newest request or is null. */
export function useBanded(op, make, most = MEMBERS) {
    const quick = useFollowing(op, make(0));
    const [slow, set] = useState({ reply: null, text: "" });
    const text = JSON.stringify(make(most));
    useEffect(() => {
        let wanted = true;
        const timer = setTimeout(() => text !== "null" &&
            call(op, JSON.parse(text)).then((reply) =>
                wanted && set({ reply, text }), () => undefined), REST_MS);
        return () => {
            wanted = false;
            clearTimeout(timer);
        };
    }, [op, text]);
    return { reply: quick.reply, refusal: quick.refusal,
        banded: slow.text === text ? slow.reply : null };
}
