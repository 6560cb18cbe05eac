import { parentPort } from "node:worker_threads";
import { openStudy, type Study } from "@/lib/study/open-study";
import { findCutReasons } from "./find-cut-reasons";
import type { ReasonsReply, ReasonsRequest, ReasonsSource } from "./reasons-message";

// Entry of the thread that finds reasons: hearing a long score takes seconds, in which the server would answer nobody.

/** Pieces heard lately, by key: whoever proposes one cut often proposes another soon. */
const lately = new Map<string, Study>();
const mostKept = 3;

/** Decides nothing here: reasons do not speak of long tuttis. */
const longTuttiBars = 16;

function read({ bytes, partRoles, tempo }: ReasonsSource): Study {
  const opened = openStudy(bytes, { partRoles, tempo, longTuttiBars });
  // It was readable when it was accepted: only a change to the reader can get here.
  if (!opened.ok) throw new Error(`the stored source cannot be read: ${opened.problem.kind}`);
  return opened.value;
}

function keep(key: string, study: Study): void {
  lately.delete(key);
  lately.set(key, study);
  const [oldest] = lately.keys();
  if (lately.size > mostKept && oldest !== undefined) lately.delete(oldest);
}

function answer({ id, key, question, source }: ReasonsRequest): ReasonsReply {
  const study = lately.get(key) ?? (source && read(source));
  if (!study) return { id, kind: "not-read" };
  keep(key, study);
  return { id, kind: "done", reasons: findCutReasons(study, question) };
}

parentPort?.on("message", (request: ReasonsRequest) => {
  try {
    parentPort?.postMessage(answer(request));
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    parentPort?.postMessage({ id: request.id, kind: "failed", detail } satisfies ReasonsReply);
  }
});
