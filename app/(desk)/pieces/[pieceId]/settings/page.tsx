import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { readNewsSettings } from "@/app/_data/read-news-settings";
import { readPieceSettings } from "@/app/_data/read-piece-settings";
import { requireViewer } from "@/app/_data/viewer";
import { may } from "@/lib/store/who-may";
import { ClockSettings } from "./_components/clock-settings";
import { DeleteSettings } from "./_components/delete-settings";
import { NewsSettings } from "./_components/news-settings";
import { OccasionSettings } from "./_components/occasion-settings";
import { PartSettings } from "./_components/part-settings";
import { PeopleSettings } from "./_components/people-settings";
import { TakeAwaySettings } from "./_components/take-away-settings";
import { TempoSettings } from "./_components/tempo-settings";
import styles from "./page.module.css";

export const metadata: Metadata = { title: "Settings" };

/** What the duo says about its piece: who is in it, what the parts are for, how fast and how long. */
export default async function SettingsPage({ params }: { params: Promise<{ pieceId: string }> }) {
  const viewer = await requireViewer();
  const read = await readPieceSettings(viewer, (await params).pieceId);
  if (!read.ok) notFound();
  const { piece, mayChange, parts, bars, printedTempi, invitations } = read.value;
  return (
    <main className={styles.settings}>
      <h1>Settings</h1>
      {!mayChange && <p className={styles.say}>The two players change these. You see them as they are.</p>}
      <PeopleSettings
        pieceId={piece.id}
        members={piece.members}
        invitations={invitations}
        myId={viewer.userId}
        mayChange={mayChange}
      />
      <NewsSettings {...(await readNewsSettings(viewer))} />
      <OccasionSettings
        key={piece.occasion}
        pieceId={piece.id}
        occasion={piece.occasion}
        mayChange={may(piece.myRole, "branch")}
      />
      <ClockSettings
        pieceId={piece.id}
        limitSeconds={piece.limitSeconds}
        longTuttiBars={piece.longTuttiBars}
        mayChange={mayChange}
      />
      <TempoSettings
        // What was saved is the new beginning.
        key={JSON.stringify(piece.settings)}
        pieceId={piece.id}
        settings={piece.settings}
        printed={printedTempi}
        bars={bars}
        mayChange={mayChange}
      />
      <PartSettings
        key={JSON.stringify(piece.source.partRoles)}
        pieceId={piece.id}
        parts={parts}
        fileName={piece.source.fileName}
        mayChange={mayChange}
      />
      {may(piece.myRole, "take-away") && <TakeAwaySettings pieceId={piece.id} />}
      {may(piece.myRole, "delete-piece") && <DeleteSettings pieceId={piece.id} title={piece.title} />}
    </main>
  );
}
