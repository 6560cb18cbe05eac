import type { Metadata } from "next";
import { Fragment } from "react";
import { readHome } from "@/app/_data/read-home";
import { requireViewer } from "@/app/_data/viewer";
import { LeftHere } from "@/app/_offline/left-here";
import { ButtonLink } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { Fermata } from "@/app/_ui/music-sign";
import { Sheet } from "@/app/_ui/sheet";
import { SkipLink } from "@/app/_ui/skip-link";
import { isoDateOf } from "@/lib/calendar/iso-date";
import { DeletedPieces } from "./_home/deleted-pieces";
import { groupByMusic } from "./_home/group-by-music";
import styles from "./_home/home.module.css";
import { AfterThat, NextPerformance } from "./_home/next-performance";
import { NoPieces } from "./_home/no-pieces";
import { OfMine } from "./_home/of-mine";
import { PieceRow } from "./_home/piece-row";
import { PiecesHeader } from "./_home/pieces-header";
import { sayWaiting } from "./_home/say-waiting";
import { WaitingSlip } from "./_home/waiting-slip";

export const metadata: Metadata = { title: "Your pieces" };

export default async function HomePage() {
  const viewer = await requireViewer();
  const now = new Date();
  const home = await readHome(viewer, isoDateOf(now));
  const { headline, below } = sayWaiting(home.waiting);
  return (
    <>
      <SkipLink to="main">Go to what waits</SkipLink>
      <PiecesHeader viewer={viewer} />
      <LeftHere
        userId={viewer.userId}
        name={viewer.name}
        pieceIds={home.pieces.map(({ summary }) => summary.id)}
      />
      {home.pieces.length === 0 ? (
        <NoPieces deleted={home.deleted} />
      ) : (
        <main className={styles.columns} id="main">
          <div className={styles.waits}>
            <h1 className={styles.headline}>
              {home.waiting.length > 0 && <Fermata />}
              <span>{headline}</span>
            </h1>
            {below && <p className={styles.below}>{below}</p>}
            <div className={styles.slips}>
              {home.waiting.map((waiting) => (
                <WaitingSlip
                  key={waiting.kind === "edition" ? waiting.hash : waiting.proposal.id}
                  waiting={waiting}
                  desk={home.pieces.find(({ summary }) => summary.id === waiting.pieceId)?.desk ?? null}
                  now={now}
                />
              ))}
            </div>
            <OfMine pieces={home.pieces} now={now} />
          </div>
          <div className={styles.list}>
            <div className={styles.listHead}>
              <h2>Pieces I prepare</h2>
              <ButtonLink href="/pieces/new">
                <Icon name="plus" /> Bring a piece
              </ButtonLink>
            </div>
            <Sheet>
              {groupByMusic(home.pieces).map((group) => (
                <Fragment key={group[0]?.summary.id}>
                  {group.map((piece, index) => (
                    <PieceRow key={piece.summary.id} piece={piece} now={now} isBesideAnother={index > 0} />
                  ))}
                </Fragment>
              ))}
            </Sheet>
            <p className={styles.bringIn}>
              <ButtonLink kind="bare" href="/pieces/bring-in">
                <Icon name="upload" /> Bring in a piece that was taken away
              </ButtonLink>
            </p>
            <DeletedPieces pieces={home.deleted} />
          </div>
          <aside className={styles.aside}>
            <NextPerformance home={home} now={now} />
            <AfterThat performances={home.upcoming.slice(1)} />
          </aside>
        </main>
      )}
    </>
  );
}
