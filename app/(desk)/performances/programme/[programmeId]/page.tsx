import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { sumOf } from "@/app/_data/occasions/sum-of-programme";
import { requireViewer } from "@/app/_data/viewer";
import { SkipLink } from "@/app/_ui/skip-link";
import { listMyPerformances } from "@/lib/store/performances/list-performances";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { readProgramme } from "@/lib/store/programmes/read-programme";
import { may } from "@/lib/store/who-may";
import { PiecesHeader } from "../../../_home/pieces-header";
import { ForeignProgramme } from "./_components/foreign-programme";
import { OwnProgrammeScreen } from "./_components/own-programme";

export const metadata: Metadata = { title: "Programme" };

/** What is played on one occasion, in order, on one clock. */
export default async function ProgrammePage({ params }: { params: Promise<{ programmeId: string }> }) {
  const viewer = await requireViewer();
  const read = await readProgramme(viewer, (await params).programmeId);
  if (!read.ok) notFound();
  const programme = read.value;
  const now = new Date().toISOString();
  return (
    <>
      <SkipLink to="main">Go to the programme</SkipLink>
      <PiecesHeader viewer={viewer} />
      {programme.own === null ? (
        <ForeignProgramme programme={programme} userId={viewer.userId} now={now} />
      ) : (
        <OwnProgrammeScreen
          programme={programme}
          own={programme.own}
          userId={viewer.userId}
          sum={sumOf(programme)}
          {...(await readChoices(viewer))}
          now={now}
        />
      )}
    </>
  );
}

/** What can be put on a programme. */
async function readChoices(viewer: { userId: string }) {
  const [pieces, performances] = await Promise.all([listPieces(viewer), listMyPerformances(viewer)]);
  return {
    pieces: pieces.flatMap(({ id, title, lastEdition, myRole }) =>
      lastEdition !== null && may(myRole, "log-performance") ? [{ id, title, lastEdition }] : [],
    ),
    performances: performances.map(({ id, name, on, pieceTitle, editionNumber }) => ({
      ...{ id, name, on, pieceTitle, editionNumber },
    })),
  };
}
