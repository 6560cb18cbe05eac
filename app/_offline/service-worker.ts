import { answerRequest } from "./answer-request";
import { forgetPiece } from "./forget-piece";
import { keepPiece } from "./keep-piece";
import { KeptStore, storeName } from "./kept-store";
import { planAnswer } from "./plan-answer";
import { type WorkerMessage, workerMessageSchema } from "./worker-message";
import type { WorkerScope } from "./worker-scope";

const scope = self as unknown as WorkerScope;

// What is kept fits together by itself (keep-piece.ts), so a new worker may take over at once.
scope.addEventListener("install", (event) => event.waitUntil(scope.skipWaiting()));
scope.addEventListener("activate", (event) => event.waitUntil(takeOver()));

scope.addEventListener("fetch", (event) => {
  const plan = planAnswer(event.request, scope.location.origin);
  if (plan !== "pass") event.respondWith(answerRequest(event.request, plan));
});

/** What pages tell is done one after the other. */
let work: Promise<void> = Promise.resolve();

scope.addEventListener("message", (event) => {
  const message = workerMessageSchema.safeParse(event.data);
  if (!message.success) return;
  work = work.then(() => doAsTold(message.data)).catch(letGoOfAll);
  event.waitUntil(work.then(() => event.ports[0]?.postMessage("done")));
});

async function takeOver(): Promise<void> {
  const names = await caches.keys();
  const older = names.filter((name) => name.startsWith("colla-kept-") && name !== storeName);
  await Promise.all(older.map((name) => caches.delete(name)));
  await scope.clients.claim();
}

async function doAsTold(message: WorkerMessage): Promise<void> {
  switch (message.kind) {
    case "here":
      return forgetOthers(message.userId);
    case "keep":
      await forgetOthers(message.userId);
      return keepPiece(message);
    case "forget-piece":
      return forgetPiece(message.pieceId);
    case "forget-all":
      return KeptStore.forgetAll();
  }
}

async function forgetOthers(userId: string): Promise<void> {
  const list = await (await KeptStore.open()).readList();
  if (list?.userId !== userId) await KeptStore.forgetAll();
}

/** The disk is full or out of order: what is half written would only be in the way. */
async function letGoOfAll(): Promise<void> {
  await KeptStore.forgetAll().catch(() => {});
}
