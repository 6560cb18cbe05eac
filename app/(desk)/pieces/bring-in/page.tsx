import type { Metadata } from "next";
import { requireViewer } from "@/app/_data/viewer";
import { initialOf } from "@/lib/store/pieces/piece-record";
import { PiecesHeader } from "../../_home/pieces-header";
import { BringIn } from "./_components/bring-in";

export const metadata: Metadata = { title: "Bring in a piece that was taken away" };

export default async function BringInPage() {
  const viewer = await requireViewer();
  return (
    <>
      <PiecesHeader viewer={viewer} />
      <BringIn initial={initialOf(viewer.name)} />
    </>
  );
}
