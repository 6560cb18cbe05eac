import type { KeptPiece } from "./kept-piece";
import { KeptStore } from "./kept-store";
import { programmePage } from "./programme-page";

/** Lets go of what is kept of a piece, and of the programmes that lead to it. */
export async function forgetPiece(pieceId: string): Promise<void> {
  const store = await KeptStore.open();
  const list = await store.readList();
  if (list === null) return;
  const stays = await Promise.all(list.pieces.map((piece) => isFree(store, piece, pieceId)));
  await store.writeList(
    list.userId,
    list.pieces.filter((_, index) => stays[index]),
  );
}

async function isFree(store: KeptStore, piece: KeptPiece, pieceId: string): Promise<boolean> {
  if (piece.programme === null) return piece.pieceId !== pieceId;
  const page = await store.find(programmePage(piece.programme));
  return !(await page?.text())?.includes(pieceId);
}
