import process from "node:process";
import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";

// Runs in a process of its own: the engraver's memory never shrinks, and a source it cannot take may end the process.
// One message in ({ musicXml }), one out ({ timemap } or { failure }).

const toolkit = new VerovioToolkit(await createVerovioModule());
toolkit.setOptions({ inputFrom: "musicxml", breaks: "none" });

process.on("message", (/** @type {{ musicXml: string }} */ message) => {
  const isLoaded = toolkit.loadData(message.musicXml);
  const options = { includeMeasures: true, includeRests: true, useFractions: true };
  process.send?.(isLoaded ? { timemap: toolkit.renderToTimemap(options) } : { failure: "not loaded" });
});
process.send?.({ isReady: true });
