import type { Metadata } from "next";
import { requireViewer } from "@/app/_data/viewer";
import { initialOf } from "@/lib/store/pieces/piece-record";
import { PiecesHeader } from "../../_home/pieces-header";
import { BringPiece } from "./_components/bring-piece";

export const metadata: Metadata = { title: "Bring a piece" };

export default async function BringPiecePage() {
  const viewer = await requireViewer();
  return (
    <>
      <PiecesHeader viewer={viewer} />
      <BringPiece initial={initialOf(viewer.name)} />
    </>
  );
}
