/* What to reckon with in this shop: what it has taught where it has. */

import { useEffect, useState } from "../lib/view.js";
import { call } from "../lib/api.js";

/* The yeast of a formula that has one line of it. */
function yeastOf(formula) {
    const lines = (formula?.lines ?? []).filter((line) =>
        line.kind.startsWith("yeast_") && line.percent > 0);
    return lines.length === 1 ? lines[0].kind : null;
}

/* The reply of learn.used for such a dough (null: for any); null without a
 * shop, undefined while it is not known. */
export function useUsed(formula, formula_id) {
    const [used, set] = useState(undefined);
    const yeast = yeastOf(formula);
    useEffect(() => {
        let wanted = true;
        call("learn.used", { yeast, formula_id: formula_id ?? 0 })
            .then((reply) => wanted && set(reply), () => wanted && set(null));
        return () => { wanted = false; };
    }, [yeast, formula_id]);
    return used;
}

/* What of it goes into the request of a life: the yeast, once taught. */
export const intoLife = (used) => used?.ranges.length
    ? { model: used.model, ranges: used.ranges } : {};
