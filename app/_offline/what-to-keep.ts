import { listEngravings } from "./open-engravings";
import { isKeepablePage } from "./plan-answer";
import { programmeOf } from "./programme-page";
import { listWorkerFiles } from "./worker-files";
import type { KeepMessage } from "./worker-message";

const piecePattern = /^\/pieces\/(?!new(?:\/|$))([\w-]+)/;

/** The piece that an address belongs to; null for the lists and everything else. */
export function pieceOf(pathname: string): string | null {
  return piecePattern.exec(pathname)?.[1] ?? null;
}

/** The edition that is read page by page at an address; null elsewhere. */
export function editionOf(pathname: string): number | null {
  const [, number] = /^\/pieces\/[\w-]+\/read\/(\d{1,6})$/.exec(pathname) ?? [];
  return number === undefined ? null : Number(number);
}

/** What it takes to show the open page, and those beside it, without a connection. */
export function whatToKeep(userId: string, pathname: string): KeepMessage {
  const pieceId = pieceOf(pathname);
  const edition = editionOf(pathname);
  const links = [...document.querySelectorAll<HTMLAnchorElement>("nav a[href]")].map((link) => link.pathname);
  const beside = links.filter((page) => pieceOf(page) === pieceId);
  const pages = new Set(["/", "/performances", pathname, ...beside].filter(isKeepablePage));
  return {
    kind: "keep",
    userId,
    pieceId,
    edition,
    programme: programmeOf(pathname),
    pages: [...pages].slice(0, 12),
    files: [...new Set([...listFiles(), ...filesOf(pieceId)])].slice(0, 400),
    engravings: pieceId === null ? [] : listEngravings(pieceId, edition).slice(0, 6),
  };
}

/** Scripts, styles and fonts that this page has loaded so far. */
function listFiles(): string[] {
  const loaded = performance.getEntriesByType("resource").map(({ name }) => new URL(name));
  const ours = loaded.filter(({ origin, pathname }) => {
    return origin === window.location.origin && /^\/_next\/static\/|^\/icon\.svg$/.test(pathname);
  });
  return ours.map(({ pathname }) => pathname);
}

/** What workers have loaded: their own scripts, and the music of this piece. */
function filesOf(pieceId: string | null): string[] {
  return listWorkerFiles().filter(
    (address) => !address.startsWith("/api/") || address.startsWith(`/api/pieces/${pieceId}/`),
  );
}
