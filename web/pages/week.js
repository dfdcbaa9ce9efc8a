/* Week: what the next fourteen days may want, and what is known about it.
 * /week/sales takes a register's file in. */

import { html } from "../lib/view.js";
import { Demand } from "./week/demand.js";
import { Sales } from "./week/sales.js";

export function Page({ path }) {
    return path === "/week/sales" ? html`<${Sales} />` : html`<${Demand} />`;
}
