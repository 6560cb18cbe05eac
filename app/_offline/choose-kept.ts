import type { KeptPiece } from "./kept-piece";

export interface KeepLimits {
  readonly pieces: number;
  /** Their pages alone: the editions on them count with their pieces. */
  readonly programmes: number;
  /** Of each piece, besides what of it is on the desk. */
  readonly editions: number;
  /** Of all pieces together. */
  readonly bytes: number;
}

/** A long concerto takes about 20 MB on a tablet; the rest is for browsers that give little room. */
export const keepLimits: KeepLimits = { pieces: 8, programmes: 4, editions: 3, bytes: 120_000_000 };

/** Largest part of the room that the pictures of one piece may take. */
export const mostBytesOfAPiece = 60_000_000;

/**
 * Which pieces stay: those opened last, within the limits, each with the editions of it that were opened last. The lists, the
 * programmes opened last and what was opened last always stay. A file that several pieces share counts once.
 */
export function chooseKept(pieces: readonly KeptPiece[], limits: KeepLimits): KeptPiece[] {
  const counted = new Set<string>();
  let bytes = 0;
  const take = (piece: KeptPiece) => {
    for (const { address, bytes: size } of piece.parts) {
      if (!counted.has(address)) bytes += size;
      counted.add(address);
    }
    return piece;
  };
  const ofNoPiece = pieces.filter(({ pieceId }) => pieceId === null);
  const programmes = ofNoPiece.filter(({ programme }) => programme !== null).sort(byLastOpened);
  const lists = [
    ...ofNoPiece.filter(({ programme }) => programme === null),
    ...programmes.slice(0, limits.programmes),
  ].map(take);
  const kept: KeptPiece[] = [];
  for (const piece of pieces.filter(({ pieceId }) => pieceId !== null).sort(byLastOpened)) {
    if (isOneTooMany(piece, kept, limits)) continue;
    if (kept.length > 0 && bytes + newBytes(piece, counted) > limits.bytes) break;
    kept.push(take(piece));
  }
  return [...lists, ...kept];
}

/** Addresses among `stored` that no piece needs: those of pieces let go, of engravings since redone, of older builds. */
export function findUnused(stored: readonly string[], pieces: readonly KeptPiece[]): string[] {
  const needed = new Set(pieces.flatMap(({ parts }) => parts.map(({ address }) => address)));
  return stored.filter((address) => !needed.has(address));
}

function isOneTooMany(piece: KeptPiece, kept: readonly KeptPiece[], limits: KeepLimits): boolean {
  const ids = new Set(kept.map(({ pieceId }) => pieceId));
  if (!ids.has(piece.pieceId) && ids.size >= limits.pieces) return true;
  const editions = kept.filter(({ pieceId, edition }) => pieceId === piece.pieceId && edition !== null);
  return piece.edition !== null && editions.length >= limits.editions;
}

function byLastOpened(a: KeptPiece, b: KeptPiece): number {
  return a.openedAt < b.openedAt ? 1 : a.openedAt > b.openedAt ? -1 : 0;
}

function newBytes({ parts }: KeptPiece, counted: ReadonlySet<string>): number {
  return parts.reduce((sum, { address, bytes }) => (counted.has(address) ? sum : sum + bytes), 0);
}
