import { mostBytesOfAPiece } from "./choose-kept";
import { listPictures } from "./kept-engraving";
import type { KeptPiece } from "./kept-piece";
import { KeptStore, keptAtHeader } from "./kept-store";
import { isKeepablePage, planAnswer } from "./plan-answer";
import { viewerMeta } from "./viewer-meta";
import type { KeepMessage } from "./worker-message";

interface Part {
  readonly address: string;
  readonly bytes: number;
}

/** How many pictures are fetched at once: whoever plays meanwhile comes first. */
const atOnce = 4;

/**
 * Puts a piece by: its pages as they are now, the files they are made of and its music. Pages and files come
 * together or not at all, so that what is kept fits together; a picture that did not come is left out.
 */
export async function keepPiece(message: KeepMessage, now: () => Date = () => new Date()): Promise<void> {
  const { userId, pieceId, edition, programme } = message;
  const pages = await fetchPages(message, now().toISOString());
  if (pages === null) return;
  const store = await KeptStore.open();
  const files = await keepFiles(store, [...message.files, ...pages.flatMap(({ files }) => files)]);
  if (files === null) return;
  const parts: Part[] = [...files];
  for (const { address, html, answer } of pages) {
    await store.put(address, answer);
    parts.push({ address, bytes: html.length });
  }
  for (const address of message.engravings) parts.push(...(await keepEngraving(store, address)));
  const piece: KeptPiece = {
    ...{ pieceId, edition, programme },
    ...{ openedAt: now().toISOString(), parts: withoutRepeats(parts) },
  };
  const list = await store.readList();
  const isSame = (one: KeptPiece) =>
    one.pieceId === pieceId && one.edition === edition && one.programme === programme;
  const others = list?.userId === userId ? list.pieces.filter((one) => !isSame(one)) : [];
  await store.writeList(userId, [piece, ...others]);
}

interface FetchedPage {
  readonly address: string;
  readonly html: string;
  readonly files: string[];
  readonly answer: Response;
}

/** @returns null when one of them did not come, or came for somebody else. */
async function fetchPages({ pages, userId }: KeepMessage, at: string): Promise<FetchedPage[] | null> {
  const fetched: FetchedPage[] = [];
  for (const address of pages.filter(isKeepablePage)) {
    const answer = await fetchOk(address, "text/html");
    if (answer === null) return null;
    const html = await answer.text();
    if (!html.includes(viewerMeta(userId))) return null;
    fetched.push({ address, html, files: findFiles(html), answer: asKept(html, answer, at) });
  }
  return fetched;
}

/** An answer that is what was asked for: not an error, not the way to sign in. */
async function fetchOk(address: string, accept: string): Promise<Response | null> {
  const answer = await ask(address, accept);
  return isOk(answer) ? answer : null;
}

function ask(address: string, accept: string): Promise<Response | null> {
  return fetch(address, { headers: { accept }, credentials: "same-origin" }).catch(() => null);
}

const isOk = (answer: Response | null): boolean => answer?.status === 200 && !answer.redirected;

/** The page with its own policy, so that its scripts' nonce stays right; without what its transport needed. */
function asKept(html: string, { headers }: Response, at: string): Response {
  const kept = new Headers(headers);
  for (const name of ["content-encoding", "content-length", "transfer-encoding"]) kept.delete(name);
  kept.set(keptAtHeader, at);
  return new Response(html, { headers: kept });
}

const named = /\/_next\/static\/[\w\-./~%@]+\.(?:js|css|woff2?)|\/sound\/[\w-]+\.[0-9a-f]{16}\.(?:sf3|js)/g;

/** Scripts, styles and sounds that a page names, in its tags or in what it tells its scripts. */
export function findFiles(html: string): string[] {
  return [...new Set([...html.matchAll(named)].map(([file]) => file))];
}

async function keepFiles(store: KeptStore, addresses: readonly string[]): Promise<Part[] | null> {
  const parts: Part[] = [];
  for (const address of new Set(addresses)) {
    if (planAnswer(asGet(address), self.location.origin) !== "content") continue;
    const part = await keepContent(store, address);
    if (part === null) return null;
    parts.push(part);
  }
  return parts;
}

function asGet(address: string) {
  return {
    method: "GET",
    url: new URL(address, self.location.origin).href,
    mode: "cors",
    headers: new Headers(),
  };
}

/** Something whose address names its content: when it is there already, it is right. */
async function keepContent(store: KeptStore, address: string): Promise<Part | null> {
  const kept = await store.find(address);
  if (kept) return { address, bytes: (await kept.arrayBuffer()).byteLength };
  const answer = await fetchOk(address, "*/*");
  if (answer === null) return null;
  const body = await answer.arrayBuffer();
  await store.put(address, new Response(body, { headers: answer.headers }));
  return { address, bytes: body.byteLength };
}

/** The engraving with all its pictures, as far as there is room. */
async function keepEngraving(store: KeptStore, address: string): Promise<Part[]> {
  const answer = await fetchEngraving(store, address);
  const text = (await answer?.text()) ?? "";
  const pictures = listPictures(address, text);
  if (pictures === null) return [];
  await store.put(address, new Response(text, { headers: { "content-type": "application/json" } }));
  const parts: Part[] = [{ address, bytes: text.length }];
  let bytes = 0;
  for (let start = 0; start < pictures.length && bytes < mostBytesOfAPiece; start += atOnce) {
    const asked = pictures.slice(start, start + atOnce).map((picture) => keepContent(store, picture));
    const kept = (await Promise.all(asked)).filter((part) => part !== null);
    bytes += kept.reduce((sum, part) => sum + part.bytes, 0);
    parts.push(...kept);
  }
  return parts;
}

/** While the server is away, or still makes a newer one, what was put by before: a lost connection takes nothing away. */
async function fetchEngraving(store: KeptStore, address: string): Promise<Response | null> {
  const answer = await ask(address, "application/json");
  if (isOk(answer)) return answer;
  const isOnlyLate = answer === null || answer.status === 202 || answer.status >= 500;
  return isOnlyLate ? store.find(address) : null;
}

function withoutRepeats(parts: readonly Part[]): Part[] {
  return [...new Map(parts.map((part) => [part.address, part])).values()];
}
