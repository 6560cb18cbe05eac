"use client";

import { inkOf } from "@/app/_ui/party";
import { Spoken } from "@/app/_ui/spoken";
import { WhoTag } from "@/app/_ui/who-mark";
import type { MemberRecord } from "@/lib/store/pieces/piece-record";
import styles from "./people-here.module.css";
import { useRoomHere } from "./room-provider";

/** The people of the piece with their marks; a line under a mark says that its owner has the piece open now. */
export function PeopleHere({ members, myId }: { members: readonly MemberRecord[]; myId: string }) {
  const { people } = useRoomHere();
  const present = new Set(people.map(({ userId }) => userId));
  return (
    <ul className={styles.people} aria-label="People of this piece">
      {members.map(({ userId, name, role, initial }) => {
        const isHere = userId === myId || present.has(userId);
        return (
          <li key={userId} title={isHere ? `${name} is here now` : name}>
            <WhoTag
              ink={inkOf(role)}
              initial={initial}
              name={<span className={styles.name}>{name.split(" ")[0]}</span>}
              note={userId === myId ? <span className={styles.name}>you</span> : undefined}
              isHere={isHere}
            />
            {userId !== myId && <Spoken>{isHere ? ", here now" : ", not here now"}</Spoken>}
          </li>
        );
      })}
    </ul>
  );
}
