import type { IncomingMessage } from "node:http";
import type { Duplex } from "node:stream";
import type { Result } from "@/lib/score/result";
import { type Admission, type AdmissionProblem, authenticate } from "./authenticate";
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
  unavailable: "503 Service Unavailable",
} as const;

export type DoorProblem = keyof typeof statuses;

/** Answers an upgrade with an HTTP status and no body. */
export function turnAway(socket: Duplex, problem: DoorProblem): void {
  socket.end(`HTTP/1.1 ${statuses[problem]}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`, () =>
    socket.destroy(),
  );
}

/** Lets a request in, or turns it away and returns null. */
export async function admit(
  request: IncomingMessage,
  socket: Duplex,
  options: DoorOptions,
): Promise<Admission | null> {
  const answer = await askInTime(request, options);
  if (answer !== "unavailable" && answer.ok) return answer.value;
  const problem = answer === "unavailable" ? answer : answer.problem.kind;
  options.log({ what: "turned-away", detail: problem });
  turnAway(socket, problem);
  return null;
}

async function askInTime(
  request: IncomingMessage,
  { path, publicUrl, admissionMs, log }: DoorOptions,
): Promise<Result<Admission, AdmissionProblem> | "unavailable"> {
  let timer: NodeJS.Timeout | undefined;
  const tooLate = new Promise<"unavailable">((resolve) => {
    timer = setTimeout(resolve, admissionMs, "unavailable");
  });
  try {
    return await Promise.race([authenticate(request, path, publicUrl), tooLate]);
  } catch (error) {
    log({ what: "cannot-admit", detail: nameFailure(error) });
    return "unavailable";
  } finally {
    clearTimeout(timer);
  }
}
