import { notFound } from "next/navigation";
import type { ReactNode } from "react";
import { findWaiting } from "@/app/_data/find-waiting";
import { readPieceOnce } from "@/app/_data/read-desk";
import { readOccasions } from "@/app/_data/read-occasions";
import { foreignRoomsAddress } from "@/app/_data/rooms-address";
import { requireViewer } from "@/app/_data/viewer";
import { soundAddresses } from "@/app/_sound/sound-files";
import { SoundProvider } from "@/app/_sound/sound-provider";
import { StudyProvider } from "@/app/_study/study-provider";
import { Header, PieceTitle } from "@/app/_ui/header";
import { WithFlats } from "@/app/_ui/music-sign";
import { OccasionSwitch } from "@/app/_ui/occasion-switch";
import { Views } from "@/app/_ui/views";
import { WaitLink } from "@/app/_ui/wait-tag";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import { may } from "@/lib/store/who-may";
import { PeopleHere } from "./_components/people-here";
import { RoomProvider } from "./_components/room-provider";

/** What all screens of one piece share: its header, its room, its study and its player. */
export default async function PieceLayout({
  params,
  children,
}: {
  params: Promise<{ pieceId: string }>;
  children: ReactNode;
}) {
  const viewer = await requireViewer();
  const { pieceId } = await params;
  const read = await readPieceOnce(viewer.userId, pieceId);
  if (!read.ok) notFound();
  const piece = read.value;
  const occasions = await readOccasions(viewer.userId, pieceId);
  const home = `/pieces/${piece.id}`;
  const waiting = await findWaiting(viewer, piece);
  const me = { userId: viewer.userId, name: viewer.name, role: piece.myRole };
  return (
    <RoomProvider
      pieceId={piece.id}
      me={me}
      changedAt={piece.changedAt.toISOString()}
      roomsAddress={foreignRoomsAddress()}
    >
      <Header
        back={{ href: "/", label: "Back to your pieces" }}
        title={
          <PieceTitle
            title={<WithFlats text={piece.title} />}
            occasions={
              occasions.length > 1 && (
                <OccasionSwitch
                  occasions={occasions.map(({ pieceId: id, name }) => ({ pieceId: id, name }))}
                  here={piece.id}
                />
              )
            }
            movement={piece.movement && <WithFlats text={piece.movement} />}
            below={<WithFlats text={sayBelow(piece, occasions.length > 1)} />}
          />
        }
        views={
          <Views
            label="This piece"
            views={[
              { href: home, label: "Score and cuts" },
              { href: `${home}/breath`, label: "Breath and rest" },
              ...(may(piece.myRole, "read-discussion") ? [{ href: `${home}/hands`, label: "Hands" }] : []),
              ...(may(piece.myRole, "read-discussion") ? [{ href: `${home}/plan`, label: "Plan" }] : []),
              { href: `${home}/editions`, label: "Editions" },
              ...(may(piece.myRole, "read-discussion")
                ? [{ href: `${home}/history`, label: "History" }]
                : []),
              { href: `${home}/settings`, label: "Settings" },
            ]}
          />
        }
        people={<PeopleHere members={piece.members} myId={viewer.userId} />}
        waits={<WaitLink count={waiting.count} href={`${home}${waiting.place}`} />}
      />
      <StudyProvider
        sourceAddress={`/api/pieces/${piece.id}/source/${piece.source.hash}`}
        terms={{
          partRoles: piece.source.partRoles,
          tempo: piece.settings,
          longTuttiBars: piece.longTuttiBars,
        }}
      >
        <SoundProvider sounds={await soundAddresses()}>{children}</SoundProvider>
      </StudyProvider>
    </RoomProvider>
  );
}

/** "Anselm Vordak · trombone and piano", as far as it is known; after the occasion, where no switch names it. */
function sayBelow({ occasion, composer, soloInstrument }: PieceRecord, isNamed: boolean): string {
  const players =
    soloInstrument && `${soloInstrument.charAt(0).toLocaleLowerCase()}${soloInstrument.slice(1)} and piano`;
  return [isNamed ? null : occasion, composer, players].filter(Boolean).join(" · ");
}
