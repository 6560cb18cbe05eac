import type { Metadata } from "next";
import { clientAddress } from "@/app/_data/client-address";
import { readViewer } from "@/app/_data/viewer";
import { Brand } from "@/app/_ui/brand";
import { ButtonLink } from "@/app/_ui/button";
import { WithFlats } from "@/app/_ui/music-sign";
import { inkOf } from "@/app/_ui/party";
import { sayDay } from "@/app/_ui/say-date";
import { Sheet } from "@/app/_ui/sheet";
import { WhoMark } from "@/app/_ui/who-mark";
import { type InvitationRecord, readInvitation } from "@/lib/store/invitations/read-invitation";
import { initialOf } from "@/lib/store/pieces/piece-record";
import { sayStoreProblem } from "@/lib/store/store-problem";
import { JoinForm } from "./_components/join-form";
import styles from "./page.module.css";

export const metadata: Metadata = { title: "Invitation" };

const seats: Readonly<Record<InvitationRecord["role"], string>> = {
  pianist: "You play the piano",
  soloist: "You play the solo",
  coach: "You coach: you read everything and comment",
  reader: "You read: you see the piece and change nothing",
};

/** The link somebody was sent: who asks them to which piece, and the way in. */
export default async function InvitationPage({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params;
  const invitation = await readInvitation(token, await clientAddress());
  return (
    <>
      <header className={styles.head}>
        <Brand />
      </header>
      <main className={styles.page}>
        {invitation.ok ? (
          <Invited invitation={invitation.value} token={token} />
        ) : (
          <Sheet className={styles.sheet}>
            <h1>This link opens nothing</h1>
            <p>
              {invitation.problem.kind === "not-found"
                ? "It was used already, taken back, or is older than two weeks. Ask your colleague for a new one."
                : sayStoreProblem(invitation.problem)}
            </p>
            <ButtonLink href="/">Your pieces</ButtonLink>
          </Sheet>
        )}
      </main>
    </>
  );
}

async function Invited({ invitation, token }: { invitation: InvitationRecord; token: string }) {
  const viewer = await readViewer();
  const { pieceTitle, composer, role, invitedBy, expiresAt } = invitation;
  return (
    <Sheet className={styles.sheet}>
      <p className={styles.seat}>
        <WhoMark ink={inkOf(role)} initial={viewer ? initialOf(viewer.name) : ""} big />
        {seats[role]}
      </p>
      <h1>
        <WithFlats text={pieceTitle} />
      </h1>
      {composer && (
        <p className={styles.composer}>
          <WithFlats text={composer} />
        </p>
      )}
      <p>
        {invitedBy} asks you to join. The link is good until {sayDay(expiresAt.toISOString(), new Date())}.
      </p>
      <JoinForm token={token} signedInAs={viewer?.name ?? null} />
    </Sheet>
  );
}
