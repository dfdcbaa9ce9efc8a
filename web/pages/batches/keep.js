/* Make the batches for an order, and say what came of it. */

import { write } from "../../lib/api.js";
import { t, tn } from "../../lib/say.js";
import { toast } from "../../parts/toast.js";

/* request: of batch.plan. True when they are made, or wait on this tablet. */
export async function keepBatches(request) {
    try {
        const kept = await write("batch.plan", request);
        toast(kept.queued ? t("Kept on this tablet.")
            : tn("{n} batch is planned.", "{n} batches are planned.",
                kept.batches.length));
        return true;
    } catch (refused) {
        toast(refused.message);
        return false;
    }
}
