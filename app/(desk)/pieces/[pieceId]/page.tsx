import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { readTalk } from "@/app/_data/desk/read-talk";
import { readDesk, readPieceOnce } from "@/app/_data/read-desk";
import { readViewer, requireViewer } from "@/app/_data/viewer";
import { SkipLink } from "@/app/_ui/skip-link";
import { PieceDesk } from "./_components/piece-desk";

interface PageProps {
  params: Promise<{ pieceId: string }>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const viewer = await readViewer();
  const piece = viewer && (await readPieceOnce(viewer.userId, (await params).pieceId));
  return { title: piece?.ok ? piece.value.title : "Piece" };
}

/** Score and cuts. */
export default async function PiecePage({ params }: PageProps) {
  const viewer = await requireViewer();
  const { pieceId } = await params;
  const [desk, talk] = await Promise.all([readDesk(viewer, pieceId), readTalk(viewer, pieceId)]);
  if (!desk.ok) notFound();
  return (
    <>
      <SkipLink to="score">Go to the score</SkipLink>
      <PieceDesk desk={desk.value} talk={talk} />
    </>
  );
}
