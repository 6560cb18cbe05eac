import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { readBreath } from "@/app/_data/desk/read-breath";
import { readTalk } from "@/app/_data/desk/read-talk";
import { readDesk, readPieceOnce } from "@/app/_data/read-desk";
import { readViewer, requireViewer } from "@/app/_data/viewer";
import { SkipLink } from "@/app/_ui/skip-link";
import { BreathScreen } from "./_components/breath-screen";

interface PageProps {
  params: Promise<{ pieceId: string }>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const viewer = await readViewer();
  const piece = viewer && (await readPieceOnce(viewer.userId, (await params).pieceId));
  return { title: piece?.ok ? `${piece.value.title}: breath and rest` : "Breath and rest" };
}

/** Breath and rest: where the soloist breathes, how long they rest, and what cuts do to it. */
export default async function BreathPage({ params }: PageProps) {
  const viewer = await requireViewer();
  const { pieceId } = await params;
  const [desk, breath, talk] = await Promise.all([
    readDesk(viewer, pieceId),
    readBreath(viewer, pieceId),
    readTalk(viewer, pieceId),
  ]);
  if (!desk.ok || !breath.ok) notFound();
  return (
    <>
      <SkipLink to="solo">Go to the solo part</SkipLink>
      <BreathScreen desk={desk.value} breath={breath.value} since={talk.since} />
    </>
  );
}
