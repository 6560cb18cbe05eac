import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { readDesk } from "@/app/_data/read-desk";
import { requireViewer } from "@/app/_data/viewer";
import { Sheet } from "@/app/_ui/sheet";
import { SkipLink } from "@/app/_ui/skip-link";
import { PlanScreen } from "./_components/plan-screen";
import styles from "./page.module.css";

export const metadata: Metadata = { title: "Plan" };

/** Which cuts together meet the clock and leave the soloist their rest. */
export default async function PlanPage({ params }: { params: Promise<{ pieceId: string }> }) {
  const viewer = await requireViewer();
  const desk = await readDesk(viewer, (await params).pieceId);
  if (!desk.ok) notFound();
  if (!desk.value.may.readDiscussion) return <NotForReaders />;
  return (
    <>
      <SkipLink to="set">Go to the cuts of this plan</SkipLink>
      <PlanScreen desk={desk.value} />
    </>
  );
}

function NotForReaders() {
  return (
    <main className={styles.none} id="main">
      <Sheet className={styles.words}>
        <h1>Plan</h1>
        <p>What might be cut is between the players and their coaches. You read the editions.</p>
      </Sheet>
    </main>
  );
}
