import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireViewer } from "@/app/_data/viewer";
import { ReadingScreen } from "@/app/_read/reading-screen";
import { readCover } from "@/lib/store/readings/read-reading";

export const metadata: Metadata = { title: "Reading" };

/** An edition on the stand, page by page. */
export default async function ReadPage({ params }: { params: Promise<{ pieceId: string; number: string }> }) {
  const viewer = await requireViewer();
  const { pieceId, number } = await params;
  const read = await readCover(viewer, pieceId, number);
  if (!read.ok) notFound();
  const { mine, ...cover } = read.value;
  const api = `/api/pieces/${encodeURIComponent(pieceId)}`;
  return (
    <ReadingScreen
      cover={cover}
      mine={mine}
      planAddress={`${api}/editions/${cover.editionNumber}/reading`}
      pictureAddress={`${api}/engraving`}
      close={`/pieces/${encodeURIComponent(pieceId)}/editions`}
    />
  );
}
