"use client";

import type { PresentPerson } from "@/app/_room/room-view";
import { inkOf } from "@/app/_ui/party";
import { Spoken } from "@/app/_ui/spoken";
import { WhoTag } from "@/app/_ui/who-mark";
import type { MemberRecord } from "@/lib/store/pieces/piece-record";
import styles from "./people-here.module.css";
import { useBarLabels, useRoomHere } from "./room-provider";

/**
 * The people of the piece with their marks; a line under a mark says that its owner has the piece open now. Under the names
 * of the others stands where they look, and that they are writing.
 */
export function PeopleHere({ members, myId }: { members: readonly MemberRecord[]; myId: string }) {
  const { people } = useRoomHere();
  const labels = useBarLabels();
  return (
    <ul className={styles.people} aria-label="People of this piece">
      {members.map(({ userId, name, role, initial }) => {
        const person = people.find((one) => one.userId === userId);
        const isMe = userId === myId;
        const isHere = isMe || person !== undefined;
        const where = isMe || !person ? null : sayWhere(person, labels);
        return (
          <li
            key={userId}
            title={isHere ? `${name} is here now${where ? `: ${where}` : ""}` : name}
            data-person={userId}
          >
            <WhoTag
              ink={inkOf(role)}
              initial={initial}
              name={
                <span className={styles.name}>
                  {name.split(" ")[0]}
                  {where && (
                    <small className={styles.where} aria-hidden="true">
                      {where}
                    </small>
                  )}
                </span>
              }
              note={isMe ? <span className={styles.name}>you</span> : undefined}
              isHere={isHere}
            />
            {!isMe && <Spoken>{isHere ? `, here now${where ? `, ${where}` : ""}` : ", not here now"}</Spoken>}
          </li>
        );
      })}
    </ul>
  );
}

/** "bar 84", "writing"; null when they did not say. */
export function sayWhere(
  { barIndex, editing }: Pick<PresentPerson, "barIndex" | "editing">,
  labels: readonly string[] | null,
): string | null {
  if (editing !== null) return "writing…";
  const label = barIndex === null ? undefined : labels?.[barIndex];
  return label ? `bar ${label}` : null;
}
