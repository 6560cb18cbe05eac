import Link from "next/link";
import type { HomePiece } from "@/app/_data/read-home";
import { inkOf } from "@/app/_ui/party";
import { sayDay } from "@/app/_ui/say-date";
import { WhoMark } from "@/app/_ui/who-mark";
import styles from "./home.module.css";
import { firstName } from "./say-waiting";

/** What the viewer put forward and nobody has answered. */
export function OfMine({ pieces, now }: { pieces: readonly HomePiece[]; now: Date }) {
  const open = pieces.flatMap(({ desk }) =>
    desk
      ? desk.cuts
          .filter((cut) => cut.state === "open" && cut.proposedBy === desk.me.userId)
          .map((cut) => ({ desk, cut }))
      : [],
  );
  return (
    <ul>
      {open.map(({ desk, cut }) => {
        const other = desk.people.find(
          ({ role, userId, hasLeft }) =>
            !hasLeft && (role === "pianist" || role === "soloist") && userId !== desk.me.userId,
        );
        return (
          <li key={cut.id} className={styles.mine}>
            <WhoMark ink={inkOf(desk.me.role)} initial={desk.me.initial} />
            <span>
              <b>One of yours waits for an answer:</b>{" "}
              <Link href={`/pieces/${desk.pieceId}?cut=${cut.id}`}>
                cut {cut.number} in {desk.title}
              </Link>
              ,{" "}
              {other
                ? `with ${firstName(other.name)} since ${sayDay(cut.createdAt, now)}`
                : "nobody invited yet"}
              .
            </span>
          </li>
        );
      })}
    </ul>
  );
}
