/** What the mail writes down: what happened and to whose message. Never an address, a name or a text. */
export interface MailLine {
  readonly what: string;
  readonly userId?: string;
  readonly pieceId?: string;
  readonly detail?: string;
}

export type MailLog = (line: MailLine) => void;

/** One JSON object a line on standard error. */
export const logMail: MailLog = (line) => {
  process.stderr.write(`${JSON.stringify({ at: new Date().toISOString(), from: "mail", ...line })}\n`);
};

/** A failure in a few words: mail servers repeat addresses in theirs, so only its name and codes are kept. */
export function nameMailFailure(error: unknown): string {
  if (!(error instanceof Error)) return "unknown";
  const { code, responseCode } = error as { code?: unknown; responseCode?: unknown };
  const codes = [code, responseCode].filter((one) => typeof one === "string" || typeof one === "number");
  return [error.name, ...codes].join(" ");
}
