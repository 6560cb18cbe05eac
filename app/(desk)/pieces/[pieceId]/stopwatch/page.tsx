import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { readStopwatch } from "@/app/_data/occasions/read-stopwatch";
import { requireViewer } from "@/app/_data/viewer";
import { ButtonLink } from "@/app/_ui/button";
import { Sheet } from "@/app/_ui/sheet";
import { StopwatchScreen } from "./_components/stopwatch-screen";
import styles from "./page.module.css";

export const metadata: Metadata = { title: "Stopwatch" };

/** Tapped at the piano during a run-through: planned against real, section by section. */
export default async function StopwatchPage({ params }: { params: Promise<{ pieceId: string }> }) {
  const viewer = await requireViewer();
  const read = await readStopwatch(viewer, (await params).pieceId);
  if (!read.ok) notFound();
  const view = read.value;
  if (view.editions.length > 0) return <StopwatchScreen view={view} />;
  return (
    <main className={styles.none} id="main">
      <Sheet className={styles.words}>
        <h1>Stopwatch</h1>
        <p>
          {view.mayLog
            ? "A stopwatch goes through the sections of an edition: freeze the first one, then come back."
            : "The two players time their performances. What they took stands with the performances."}
        </p>
        <ButtonLink href={`/pieces/${view.pieceId}/editions`}>Editions</ButtonLink>
      </Sheet>
    </main>
  );
}
