import type { IncomingMessage } from "node:http";
import type { Duplex } from "node:stream";
import { failure, type Result } from "@/lib/score/result";
import { type Admission, authenticate } from "./authenticate";
import { type Log, nameFailure } from "./log-line";

export interface DoorOptions {
  readonly path: string;
  readonly publicUrl: URL;
  readonly admissionMs: number;
  readonly log: Log;
}

const statuses = {
  "wrong-origin": "403 Forbidden",
  "signed-out": "401 Unauthorized",
  "not-found": "404 Not Found",
  "too-many-sockets": "429 Too Many Requests",
  "too-many-rooms": "429 Too Many Requests",
  "too-many-tries": "429 Too Many Requests",
  unavailable: "503 Service Unavailable",
} as const;

export type DoorProblem = keyof typeof statuses;

/** Answers an upgrade with an HTTP status and no body. */
export function turnAway(socket: Duplex, problem: DoorProblem): void {
  socket.end(`HTTP/1.1 ${statuses[problem]}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`, () =>
    socket.destroy(),
  );
}

/** Whether whoever is turned away for this should have known better. */
export function isFault(problem: DoorProblem): boolean {
  return problem === "wrong-origin" || problem === "signed-out" || problem === "not-found";
}

/** Who asks to be let in, or why they cannot be. */
export async function admit(
  request: IncomingMessage,
  { path, publicUrl, admissionMs, log }: DoorOptions,
): Promise<Result<Admission, { readonly kind: DoorProblem }>> {
  let timer: NodeJS.Timeout | undefined;
  const tooLate = new Promise<typeof unavailable>((resolve) => {
    timer = setTimeout(resolve, admissionMs, unavailable);
  });
  try {
    return await Promise.race([authenticate(request, path, publicUrl), tooLate]);
  } catch (error) {
    log({ what: "cannot-admit", detail: nameFailure(error) });
    return unavailable;
  } finally {
    clearTimeout(timer);
  }
}

const unavailable = failure({ kind: "unavailable" } as const);
