import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { readHistory } from "@/app/_data/desk/read-history";
import { requireViewer } from "@/app/_data/viewer";
import { Sheet } from "@/app/_ui/sheet";
import { SkipLink } from "@/app/_ui/skip-link";
import { FormerRoomSheet } from "./_components/former-room";
import { HistoryList } from "./_components/history-list";
import styles from "./page.module.css";

export const metadata: Metadata = { title: "History" };

/** Who wrote what when in the room of a piece, and the room as it once stood. */
export default async function HistoryPage({
  params,
  searchParams,
}: {
  params: Promise<{ pieceId: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const viewer = await requireViewer();
  const read = await readHistory(viewer, (await params).pieceId, await searchParams);
  if (!read.ok && read.problem.kind === "not-allowed") return <NotForReaders />;
  if (!read.ok) notFound();
  const view = read.value;
  return (
    <>
      <SkipLink to="changes">Go to the changes</SkipLink>
      <main className={styles.page} id="main" data-former={view.former ? true : undefined}>
        <h1>History of {view.desk.title}</h1>
        <div className={styles.list}>
          <HistoryList view={view} />
        </div>
        {view.former && (
          <div className={styles.former}>
            <FormerRoomSheet key={view.former.sequence} desk={view.desk} former={view.former} />
          </div>
        )}
      </main>
    </>
  );
}

function NotForReaders() {
  return (
    <main className={styles.page} id="main">
      <Sheet className={styles.none}>
        <h1>History</h1>
        <p>
          Comments, breaths and pencil marks are between the players and their coaches. You read the editions.
        </p>
      </Sheet>
    </main>
  );
}
