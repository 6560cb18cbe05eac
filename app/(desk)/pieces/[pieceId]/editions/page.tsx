import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { readEditions } from "@/app/_data/editions/read-editions";
import { readReaderLinks } from "@/app/_data/editions/read-reader-links";
import { requireViewer } from "@/app/_data/viewer";
import { SkipLink } from "@/app/_ui/skip-link";
import { PiecePerformances } from "@/app/(desk)/_performances/piece-performances";
import { ChosenChangeProvider, ScoreOfChosen } from "./_components/chosen-change";
import { ComparisonSheet } from "./_components/comparison";
import { EditionList } from "./_components/edition-list";
import { MergeSheet } from "./_components/merge-sheet";
import { ReaderLinks } from "./_components/reader-links";
import { Timeline } from "./_components/timeline";
import { WhatStood } from "./_components/what-stood";
import { WorkingCard } from "./_components/working-card";
import styles from "./page.module.css";

export const metadata: Metadata = { title: "Editions" };

/** What was agreed and played, what stands now, and what lies between. */
export default async function EditionsPage({
  params,
  searchParams,
}: {
  params: Promise<{ pieceId: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const viewer = await requireViewer();
  const { from, to, bar, when, restore, other } = await searchParams;
  const read = await readEditions(viewer, (await params).pieceId, {
    ...{ earlier: from, later: to, bar, when, restore, other },
  });
  if (!read.ok) notFound();
  const view = read.value;
  const readers = await readReaderLinks(viewer, view.pieceId);
  const now = new Date().toISOString();
  return (
    <>
      <SkipLink to="freeze">Go to what is not frozen yet</SkipLink>
      <ChosenChangeProvider
        // Changes of two others are others: what was looked at is not looked at any more.
        key={`${view.chosen.earlier} ${view.chosen.later}`}
        count={view.comparison?.rows.length ?? 0}
      >
        <main className={styles.page} id="main">
          <h1>Editions of {view.title}</h1>
          <div className={styles.line}>
            <Timeline view={view} now={now} />
          </div>
          <ScoreOfChosen view={view} />
          <div className={styles.left}>
            <ComparisonSheet view={view} />
            <WhatStood view={view} now={now} />
            {view.merge && (
              <MergeSheet pieceId={view.pieceId} merge={view.merge} mayPropose={view.may.propose} />
            )}
            <EditionList view={view} now={now} />
          </div>
          <div className={styles.side}>
            <WorkingCard view={view} now={now} />
            <ReaderLinks
              pieceId={view.pieceId}
              numbers={view.editions.map(({ name }) => name)}
              view={readers}
              now={now}
            />
            <PiecePerformances
              piece={{
                id: view.pieceId,
                title: view.title,
                lastEdition: view.editions.length,
                limitSeconds: view.limitSeconds,
              }}
              mayLog={view.may.log}
              performances={view.performances}
              removed={view.removedPerformances}
              now={now}
            />
          </div>
        </main>
      </ChosenChangeProvider>
    </>
  );
}
