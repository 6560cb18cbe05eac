import { listEngravings } from "./open-engravings";
import { isKeepablePage } from "./plan-answer";
import type { KeepMessage } from "./worker-message";

const piecePattern = /^\/pieces\/(?!new(?:\/|$))([\w-]+)/;

/** The piece that an address belongs to; null for the lists and everything else. */
export function pieceOf(pathname: string): string | null {
  return piecePattern.exec(pathname)?.[1] ?? null;
}

/** What it takes to show the open page, and those beside it, without a connection. */
export function whatToKeep(userId: string, pathname: string): KeepMessage {
  const pieceId = pieceOf(pathname);
  const links = [...document.querySelectorAll<HTMLAnchorElement>("nav a[href]")].map((link) => link.pathname);
  const beside = links.filter((page) => pieceOf(page) === pieceId);
  const pages = new Set(["/", "/performances", pathname, ...beside].filter(isKeepablePage));
  return {
    kind: "keep",
    userId,
    pieceId,
    pages: [...pages].slice(0, 12),
    files: listFiles(),
    engravings: pieceId === null ? [] : listEngravings(pieceId).slice(0, 6),
  };
}

/** Scripts, styles and fonts that this page has loaded so far. */
function listFiles(): string[] {
  const loaded = performance.getEntriesByType("resource").map(({ name }) => new URL(name));
  const ours = loaded.filter(({ origin, pathname }) => {
    return origin === window.location.origin && /^\/_next\/static\/|^\/icon\.svg$/.test(pathname);
  });
  return [...new Set(ours.map(({ pathname }) => pathname))].slice(0, 400);
}
