import type { WorkerMessage } from "./worker-message";

const workerAddress = "/service-worker.js";
/** How long something that must be gone is waited for, in milliseconds. */
const forgetMs = 3_000;

/** Whether this browser can keep pages: not in some private windows, and not without https. */
export function canKeep(): boolean {
  return typeof navigator !== "undefined" && "serviceWorker" in navigator;
}

/** Starts the worker that answers when there is no connection. Where it cannot, everything else goes on. */
export async function startWorker(): Promise<void> {
  await navigator.serviceWorker
    .register(workerAddress, { scope: "/", updateViaCache: "none" })
    .catch(() => {});
}

async function activeWorker(): Promise<ServiceWorker | null> {
  if (!canKeep()) return null;
  const registration = await navigator.serviceWorker.getRegistration("/").catch(() => undefined);
  return registration?.active ?? registration?.waiting ?? registration?.installing ?? null;
}

/** Tells the worker something, when there is one. */
export async function tellWorker(message: WorkerMessage): Promise<void> {
  (await activeWorker())?.postMessage(message);
}

/** Tells the worker something; resolves when it is done, or when there is no worker. */
export async function askWorker(message: WorkerMessage): Promise<void> {
  const worker = await activeWorker();
  if (worker === null) return;
  const { port1, port2 } = new MessageChannel();
  const done = new Promise<void>((resolve) => {
    port1.onmessage = () => resolve();
  });
  worker.postMessage(message, [port2]);
  await done;
  port1.close();
}

/** Nothing of this piece is to be kept: the person no longer belongs to it. */
export function forgetPiece(pieceId: string): void {
  void tellWorker({ kind: "forget-piece", pieceId });
}

/** Lets go of everything that is kept for the time without a connection; resolves when it is gone. */
export async function forgetAllPages(): Promise<void> {
  const done = askWorker({ kind: "forget-all" });
  await Promise.race([done, new Promise((resolve) => setTimeout(resolve, forgetMs))]);
}
