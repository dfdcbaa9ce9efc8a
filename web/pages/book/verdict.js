/* How the dough was at first use, one tap for each product; leaving it out is
 * fine. */

import { html, useState } from "../../lib/view.js";
import { write } from "../../lib/api.js";
import { t } from "../../lib/say.js";
import { toast } from "../../parts/toast.js";
import { Ball } from "./ball.js";
import { verdictOn, verdicts, verdictWord } from "./words.js";

function One({ batch_id, cut, said }) {
    const [tapped, setTapped] = useState(null);
    const value = tapped ?? said?.verdict ?? null;
    async function choose(verdict) {
        const before = tapped;
        setTapped(verdict);
        try {
            const reply = await write("verdict.save", { batch_id,
                product_id: cut.piece.product_id, verdict });
            toast(reply.queued ? t("Kept on this tablet until the shop's computer " +
                "is back.") : t("{product}: {verdict}.", { product: cut.name,
                verdict: verdictWord(verdict) }));
        } catch (refusal) {
            setTapped(before);
            toast(refusal.message);
        }
    }
    return html`
        <fieldset>
            <legend>${t("{product}, at first use", { product: cut.name })}
            </legend>
            <div class="choice verdicts">${verdicts().map(([one, word]) => html`
                <button type="button" key=${one} aria-pressed=${one === value}
                    onClick=${() => choose(one)}>
                    <${Ball} verdict=${one} />${word}
                </button>`)}
            </div>
        </fieldset>`;
}

export function Verdicts({ card }) {
    return html`
        <div class="stack">${card.pieces.map((cut) => html`
            <${One} key=${cut.piece.id} batch_id=${card.batch.id} cut=${cut}
                said=${verdictOn(card.verdicts, cut.piece.product_id)} />`)}
        </div>`;
}
