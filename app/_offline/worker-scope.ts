/** An event that the browser waits for. */
export interface WaitingEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}

export interface AskedEvent extends WaitingEvent {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

export interface ToldEvent extends WaitingEvent {
  readonly data: unknown;
  readonly ports: readonly MessagePort[];
}

/**
 * What is used of a service worker's own global scope: TypeScript's library for workers cannot stand beside the one
 * for pages.
 */
export interface WorkerScope {
  readonly location: { readonly origin: string };
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(name: "install" | "activate", hear: (event: WaitingEvent) => void): void;
  addEventListener(name: "fetch", hear: (event: AskedEvent) => void): void;
  addEventListener(name: "message", hear: (event: ToldEvent) => void): void;
}
