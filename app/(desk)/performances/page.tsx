import type { Metadata } from "next";
import { requireViewer } from "@/app/_data/viewer";
import { SkipLink } from "@/app/_ui/skip-link";
import { listMyPerformances } from "@/lib/store/performances/list-performances";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { listMyProgrammes } from "@/lib/store/programmes/read-programme";
import { may } from "@/lib/store/who-may";
import { PiecesHeader } from "../_home/pieces-header";
import { AllPerformances } from "./_components/all-performances";

export const metadata: Metadata = { title: "Performances" };

/** Where the viewer's pieces were played and are going to be, each alone and in programmes. */
export default async function PerformancesPage() {
  const viewer = await requireViewer();
  const [performances, pieces, programmes] = await Promise.all([
    listMyPerformances(viewer),
    listPieces(viewer),
    listMyProgrammes(viewer),
  ]);
  const mine = pieces.map(({ id, title, lastEdition, limitSeconds, myRole }) => ({
    ...{ id, title, limitSeconds, lastEdition: lastEdition ?? 0 },
    mayLog: may(myRole, "log-performance"),
  }));
  return (
    <>
      <SkipLink to="main">Go to the performances</SkipLink>
      <PiecesHeader viewer={viewer} />
      <AllPerformances
        performances={performances}
        pieces={mine}
        programmes={programmes}
        now={new Date().toISOString()}
      />
    </>
  );
}
