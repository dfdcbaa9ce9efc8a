/* The whole story on this machine, over plain HTTP. */

import { demo, loopback, runAll } from "./stage.js";
import "./story.js";

await runAll(undefined, async (folder) => {
    demo(folder);
    return loopback;
});
