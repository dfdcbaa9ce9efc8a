/* What a trace calls things. */

import { t } from "../../lib/say.js";

const KINDS = () => ({ lot: t("lot"), minors: t("bags of minors"),
    batch: t("batch"), stack: t("stack"), shipment: t("shipment"),
    shop: t("shop") });
export const kindWord = (kind) => KINDS()[kind];

export function nameOf({ kind, id, name }) {
    if (id === 0)
        return kind === "shop" ? t("used here") : t("sent, not known where");
    return name ?? kindWord(kind);
}

const PATHS = { lot: "lot", minors: "minors", batch: "batch", stack: "stack",
    shipment: "drop" };
/* Its own trace; shops have none. */
export function linkTo({ kind, id }) {
    return PATHS[kind] && id > 0 ? `/trace/${PATHS[kind]}/${id}` : null;
}

export function verdictWord({ verdict, off_kg }, write) {
    if (verdict === "more_out")
        return t("{mass} more came out than went in", {
            mass: write(-off_kg) });
    if (verdict === "not_found")
        return t("{mass} went in, and nobody wrote where it is", {
            mass: write(off_kg) });
    return t("a weight was not written down");
}
