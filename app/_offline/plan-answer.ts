/** How the worker answers a request. */
export type AnswerPlan =
  /** Not at all: the browser does what it would do without us. */
  | "pass"
  /** From the server; from what is kept when it does not answer; else a page that says so. */
  | "page"
  /** From what is kept; else from the server. Its address names its content. */
  | "content"
  /** From the server; from what is kept when it does not answer. */
  | "latest";

export interface AskedRequest {
  readonly method: string;
  readonly url: string;
  readonly mode: string;
  readonly headers: { has(name: string): boolean };
}

const content = [
  /^\/_next\/static\//,
  /^\/icon\.svg$/,
  /^\/api\/pieces\/[\w-]+\/engraving\/[\w-]+\/\d+$/,
  /^\/api\/pieces\/[\w-]+\/source\/[0-9a-f]{64}$/,
  /^\/sound\/[\w-]+\.[0-9a-f]{16}\.(?:sf3|js)$/,
];
const latest = /^\/api\/pieces\/[\w-]+\/(?:engraving|editions\/\d+\/reading)$/;

/** @param origin of the worker. */
export function planAnswer({ method, url, mode, headers }: AskedRequest, origin: string): AnswerPlan {
  const { origin: asked, pathname, searchParams } = new URL(url);
  if (method !== "GET" || asked !== origin || headers.has("range")) return "pass";
  // What Next asks for when it goes from page to page: without an answer it loads the whole page instead.
  if (headers.has("rsc") || searchParams.has("_rsc")) return "pass";
  if (content.some((pattern) => pattern.test(pathname))) return "content";
  if (latest.test(pathname)) return "latest";
  return mode === "navigate" && !pathname.startsWith("/api/") ? "page" : "pass";
}

const keepable =
  /^\/(?:performances(?:\/programme\/[\w-]+)?|pieces\/(?!new$)[\w-]+(?:\/(?:breath|editions|hands|history|plan|stopwatch|read\/\d{1,6}))?)?$/;

/**
 * Whether a page may be kept: those of a piece, the lists of pieces and performances, programmes, and no others. What a reader's link
 * opens is not: it may be taken back.
 */
export function isKeepablePage(address: string): boolean {
  return keepable.test(address);
}

/** Under which address an answer is looked for among what is kept: of a page, whatever it is asked to open at first. */
export function keptAddress(url: string, plan: AnswerPlan): string {
  const { pathname, search } = new URL(url);
  return plan === "latest" ? pathname + search : pathname;
}
