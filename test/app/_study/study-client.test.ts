import { afterEach, describe, expect, test } from "vitest";
import { StudyClient, StudyFailure } from "@/app/_study/study-client";
import type { ToStudy } from "@/app/_study/study-message";
import { StudyServer } from "@/app/_study/study-server";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { noQuarters } from "@/lib/score/quarters";
import type { CutSearch } from "@/lib/study/look-for-cuts";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";

// A worker's two ends, joined in one thread: messages are cloned and come later, as between threads.
class JoinedWorker {
  onmessage: ((event: { data: unknown }) => void) | null = null;
  onerror: (() => void) | null = null;
  readonly heard: ToStudy[] = [];
  private readonly server = new StudyServer(
    (message) => queueMicrotask(() => this.onmessage?.({ data: structuredClone(message) })),
    () => ["/study.js"],
  );

  postMessage(message: ToStudy): void {
    this.heard.push(message);
    const copy = structuredClone(message);
    queueMicrotask(() => this.server.hear(copy));
  }

  terminate(): void {
    this.server.close();
  }
}

const terms = { partRoles: {}, tempo: printedTempo, longTuttiBars: 16 };
const score = () => new TextEncoder().encode(writeSoloAndReduction());
const bar = (barIndex: number) => ({ barIndex, offset: noQuarters });

const opening: CutSearch = {
  span: { from: bar(1), to: bar(28) },
  look: "anywhere",
  filters: { resolution: "beats", limit: 5 },
  agreed: [],
  needs: [],
};

let opened: StudyClient[] = [];
afterEach(() => {
  for (const client of opened) client.close();
  opened = [];
});

function bring(onScripts?: (paths: readonly string[]) => void) {
  const worker = new JoinedWorker();
  const client = new StudyClient(() => worker as unknown as Worker, onScripts);
  opened.push(client);
  return { worker, client };
}

describe("the study of a piece", () => {
  test("answers what was asked before it was open, and says from where it was loaded", async () => {
    const scripts: string[] = [];
    const { client } = bring((paths) => scripts.push(...paths));
    const answer = client.ask({ kind: "look", question: opening });
    client.open(score(), terms);
    const cuts = await answer;
    expect(cuts.length).toBeGreaterThan(0);
    expect(cuts[0]?.reasons.length).toBeGreaterThan(0);
    expect(client.state()).toEqual({ kind: "open" });
    expect(scripts).toEqual(["/study.js"]);
  });

  test("tells how far a search has come, never backwards", async () => {
    const { client } = bring();
    client.open(score(), terms);
    const steps: number[] = [];
    await client.ask({ kind: "look", question: opening }, { onProgress: (done) => steps.push(done) });
    expect(steps).toEqual(steps.toSorted((a, b) => a - b));
    expect(steps.every((done) => done >= 0 && done <= 1)).toBe(true);
  });

  test("a cancelled search ends, in the worker too, and the next is answered", async () => {
    const { client, worker } = bring();
    client.open(score(), terms);
    const leaving = new AbortController();
    const left = client.ask({ kind: "look", question: opening }, { signal: leaving.signal });
    leaving.abort(new Error("left"));
    await expect(left).rejects.toThrow("left");
    expect(worker.heard.at(-1)).toEqual({ kind: "cancel", id: 1 });
    const judged = await client.ask({
      kind: "judge",
      question: { cut: { from: bar(9), to: bar(17) }, agreed: [], needs: [] },
    });
    expect(judged.ok).toBe(true);
  });

  test("nothing is asked with a signal that is spent", async () => {
    const { client, worker } = bring();
    const question = { kind: "look", question: opening } as const;
    await expect(client.ask(question, { signal: AbortSignal.abort() })).rejects.toThrow();
    expect(worker.heard).toEqual([]);
  });

  test("a question that makes no sense fails alone", async () => {
    const { client } = bring();
    client.open(score(), terms);
    const bad = { ...opening, filters: { leastSeconds: -1 } };
    await expect(client.ask({ kind: "look", question: bad })).rejects.toBeInstanceOf(StudyFailure);
    await expect(client.ask({ kind: "look", question: opening })).resolves.not.toHaveLength(0);
  });

  test("a file that cannot be read says so in a sentence, to whoever waits too", async () => {
    const { client } = bring();
    const waiting = client.ask({ kind: "look", question: opening });
    client.open(new TextEncoder().encode("<score-partwise>"), terms);
    await expect(waiting).rejects.toBeInstanceOf(StudyFailure);
    const state = client.state();
    expect(state.kind === "unreadable" && state.sentence).toMatch(/\S/);
    await expect(client.ask({ kind: "look", question: opening })).rejects.toBeInstanceOf(StudyFailure);
  });

  test("closing rejects what is waited for", async () => {
    const { client } = bring();
    const waiting = client.ask({ kind: "look", question: opening });
    client.close();
    await expect(waiting).rejects.toBeInstanceOf(StudyFailure);
  });
});
