import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { readHandsDesk } from "@/app/_data/desk/read-hands";
import { readDesk, readPieceOnce } from "@/app/_data/read-desk";
import { readViewer, requireViewer } from "@/app/_data/viewer";
import { Sheet } from "@/app/_ui/sheet";
import { SkipLink } from "@/app/_ui/skip-link";
import { HandsScreen } from "./_components/hands-screen";
import { RewritesScreen } from "./_components/rewrites-screen";
import styles from "./page.module.css";

interface PageProps {
  params: Promise<{ pieceId: string }>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const viewer = await readViewer();
  const piece = viewer && (await readPieceOnce(viewer.userId, (await params).pieceId));
  return { title: piece?.ok ? `${piece.value.title}: hands` : "Hands" };
}

/** Under the hands: what is awkward at tempo, and what is played instead. Others see what they were told or asked. */
export default async function HandsPage({ params }: PageProps) {
  const viewer = await requireViewer();
  const { pieceId } = await params;
  const [desk, hands] = await Promise.all([readDesk(viewer, pieceId), readHandsDesk(viewer, pieceId)]);
  if (!desk.ok || !hands.ok) notFound();
  if (!desk.value.may.readDiscussion) return <NotForReaders />;
  return (
    <>
      <SkipLink to="passage">Go to the passage</SkipLink>
      {hands.value.mine ? (
        <HandsScreen desk={desk.value} handsDesk={hands.value} mine={hands.value.mine} />
      ) : (
        <RewritesScreen desk={desk.value} handsDesk={hands.value} />
      )}
    </>
  );
}

function NotForReaders() {
  return (
    <main className={styles.none} id="main">
      <Sheet className={styles.words}>
        <h1>Hands</h1>
        <p>What is played otherwise is between the players and their coaches. You read the editions.</p>
      </Sheet>
    </main>
  );
}
