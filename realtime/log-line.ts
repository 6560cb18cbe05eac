/** What the room server writes down. Never what people wrote: no text, no update, no token. */
export interface LogLine {
  readonly what: string;
  readonly pieceId?: string;
  readonly userId?: string;
  readonly detail?: string;
}

export type Log = (line: LogLine) => void;

/** One JSON object a line on standard error. */
export const logToStderr: Log = (line) => {
  process.stderr.write(`${JSON.stringify({ at: new Date().toISOString(), from: "rooms", ...line })}\n`);
};

/** A failure in a few words, without what the caller passed in. */
export function nameFailure(error: unknown): string {
  if (!(error instanceof Error)) return "unknown";
  const code = (error as { code?: unknown }).code;
  return typeof code === "string" ? `${error.name} ${code}` : error.name;
}
