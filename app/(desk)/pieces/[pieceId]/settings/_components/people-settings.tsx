"use client";

import { useState } from "react";
import type { PieceSettings } from "@/app/_data/read-piece-settings";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { SelectField, TextField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { inkOf } from "@/app/_ui/party";
import { SayProblem } from "@/app/_ui/say";
import { sayDay } from "@/app/_ui/say-date";
import { WhoTag } from "@/app/_ui/who-mark";
import type { MemberRecord } from "@/lib/store/pieces/piece-record";
import { useAction } from "../../_components/use-action";
import { inviteToPieceAction } from "../../actions/invite-to-piece";
import { removeMemberAction } from "../../actions/remove-member";
import { revokeInvitationAction } from "../../actions/revoke-invitation";
import styles from "./people-settings.module.css";
import { Section } from "./section";

const roleWords: Readonly<Record<string, string>> = {
  pianist: "pianist: plays the piano, proposes and answers",
  soloist: "soloist: plays the solo, proposes and answers",
  coach: "coach: reads and comments",
  reader: "reader: reads what is agreed",
};

/** Who belongs to the piece, and links that bring others in. */
export function PeopleSettings({
  pieceId,
  members,
  invitations,
  myId,
  mayChange,
}: {
  pieceId: string;
  members: readonly MemberRecord[];
  invitations: PieceSettings["invitations"];
  myId: string;
  mayChange: boolean;
}) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const remove = async (member: MemberRecord) => {
    const removed = await run(removeMemberAction, { pieceId, userId: member.userId });
    if (removed.ok) announce(`${member.name} no longer belongs to the piece.`);
  };
  return (
    <Section
      id="people"
      title="People"
      about="Two players agree with one another; a coach comments; a reader reads. A link lets one person in, once."
    >
      {problem && <SayProblem>{problem}</SayProblem>}
      <ul className={styles.list}>
        {members.map((member) => (
          <li key={member.userId}>
            <WhoTag
              ink={inkOf(member.role)}
              initial={member.initial}
              name={member.name}
              note={member.userId === myId ? `you, ${member.role}` : member.role}
            />
            {(mayChange || member.userId === myId) && (
              <Confirmed
                button={member.userId === myId ? "Leave the piece" : "Remove"}
                ask={
                  member.userId === myId
                    ? "Leave? You see the piece again only by a new invitation."
                    : `Remove ${member.name}? What they wrote stays.`
                }
                isBusy={isBusy}
                onConfirm={() => remove(member)}
              />
            )}
          </li>
        ))}
      </ul>
      {mayChange && <Invite pieceId={pieceId} members={members} />}
      {invitations.length > 0 && (
        <div>
          <h3>Links that can still be used</h3>
          <ul className={styles.list}>
            {invitations.map(({ id, role, invitedBy, expiresAt }) => (
              <li key={id}>
                <p>
                  for a <b>{role}</b>, made by {invitedBy}, good until {sayDay(expiresAt, new Date())}
                </p>
                <Button
                  small
                  disabled={isBusy}
                  onClick={async () => {
                    const revoked = await run(revokeInvitationAction, { pieceId, invitationId: id });
                    if (revoked.ok) announce("The link no longer works.");
                  }}
                >
                  Take back
                </Button>
              </li>
            ))}
          </ul>
        </div>
      )}
    </Section>
  );
}

/** A button that asks once before it does something that others feel. */
function Confirmed({
  button,
  ask,
  isBusy,
  onConfirm,
}: {
  button: string;
  ask: string;
  isBusy: boolean;
  onConfirm: () => void;
}) {
  const [isAsking, setIsAsking] = useState(false);
  if (!isAsking) {
    return (
      <Button kind="bare" small onClick={() => setIsAsking(true)}>
        {button}
      </Button>
    );
  }
  return (
    <span className={styles.ask} role="alert">
      {ask}
      <Button small disabled={isBusy} onClick={onConfirm}>
        {button}
      </Button>
      <Button kind="bare" small onClick={() => setIsAsking(false)}>
        No
      </Button>
    </span>
  );
}

function Invite({ pieceId, members }: { pieceId: string; members: readonly MemberRecord[] }) {
  const isFree = (role: string) => !members.some((member) => member.role === role);
  const roles = Object.keys(roleWords).filter(
    (role) => role === "coach" || role === "reader" || isFree(role),
  );
  const [role, setRole] = useState(roles[0] ?? "coach");
  const [link, setLink] = useState<string | null>(null);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const invite = async () => {
    const made = await run(inviteToPieceAction, { pieceId, role });
    if (made.ok) setLink(made.value.link);
  };
  const copy = async () => {
    if (link === null) return;
    await navigator.clipboard.writeText(link);
    announce("Copied.");
  };
  return (
    <div className={styles.invite}>
      <SelectField label="Invite a" value={role} onChange={(event) => setRole(event.target.value)}>
        {roles.map((name) => (
          <option key={name} value={name}>
            {roleWords[name]}
          </option>
        ))}
      </SelectField>
      <Button disabled={isBusy} onClick={invite}>
        <Icon name="link" /> Make a link
      </Button>
      {problem && <SayProblem>{problem}</SayProblem>}
      {link && (
        <div className={styles.link}>
          <TextField
            label="Send this link. It is shown this once and lets one person in."
            value={link}
            readOnly
            onFocus={(event) => event.target.select()}
          />
          <Button kind="settle" onClick={copy}>
            Copy
          </Button>
        </div>
      )}
    </div>
  );
}
