import { parentPort } from "node:worker_threads";
import { engraveForScreen } from "./engrave-for-screen";
import type {
  EngraveJob,
  EngraveReply,
  EngraveRequest,
  EngraveResults,
  EngraverCode,
} from "./engrave-message";
import { drawPassage } from "./passage/draw-passage";
import { drawChangeSheet } from "./pdf/draw-change-sheet";
import { drawCutSheet } from "./pdf/draw-cut-sheet";
import { drawEdition } from "./pdf/draw-edition";
import { drawPreview } from "./pdf/draw-preview";
import { placeEdition } from "./pdf/place-edition";
import { openPrintFonts } from "./pdf/print-fonts";
import { openEngraver } from "./toolkit";

/** Entry of the thread that engraves: one request after the other, each with any number of replies. */
const engraver = openEngraver();
engraver.then(({ compiled }) => parentPort?.postMessage({ kind: "code", compiled } satisfies EngraverCode));
type Reply = EngraveReply extends infer R ? (R extends unknown ? Omit<R, "id"> : never) : never;

parentPort?.on("message", ({ id, job }: EngraveRequest) => {
  const reply = (message: Reply) => parentPort?.postMessage({ id, ...message });
  run(job, reply).catch(async (error: unknown) => {
    // The engraver does not survive a fault of its own: this thread ends, and another is started.
    if (error instanceof WebAssembly.RuntimeError) throw error;
    const detail = error instanceof Error ? error.message : String(error);
    reply({ kind: "failed", detail, memory: (await engraver).memory() });
  });
});

async function run(job: EngraveJob, reply: (message: Reply) => void): Promise<void> {
  const { toolkit, memory } = await engraver;
  const value = await make(job, toolkit, reply);
  reply({ kind: "done", value, memory: memory() });
}

async function make(
  job: EngraveJob,
  toolkit: Awaited<typeof engraver>["toolkit"],
  reply: (message: Reply) => void,
): Promise<EngraveResults[EngraveJob["kind"]]> {
  const tell = (progress: number) => reply({ kind: "progress", progress });
  switch (job.kind) {
    case "screen":
      return engraveForScreen(toolkit, job.music, job.layout, tell, (system, systemCount) =>
        reply({ kind: "system", system, systemCount }),
      );
    case "passage":
      return drawPassage(toolkit, job.input);
    case "edition":
      return drawEdition(toolkit, job.input, tell);
    case "edition-pages":
      return placeEdition(toolkit, await openPrintFonts(toolkit), job.input, tell);
    case "edition-preview":
      return drawPreview(toolkit, job.input, tell);
    case "change-sheet":
      return drawChangeSheet(toolkit, job.input);
    case "cut-sheet":
      return drawCutSheet(toolkit, job.input);
  }
}
