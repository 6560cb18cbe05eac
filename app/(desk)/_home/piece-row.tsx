import Link from "next/link";
import type { HomePiece } from "@/app/_data/read-home";
import { classNames } from "@/app/_ui/class-names";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { Fermata, WithFlats } from "@/app/_ui/music-sign";
import { inkOf } from "@/app/_ui/party";
import { WhoTag } from "@/app/_ui/who-mark";
import { sayClock } from "@/lib/score/say-clock";
import type { PieceSummary } from "@/lib/store/pieces/list-pieces";
import { sayLastPlayed } from "../_performances/last-played";
import { FittedStrip } from "./fitted-strip";
import styles from "./piece-row.module.css";
import { firstName, sayPlays } from "./say-waiting";

/** A piece on one line: what it is, with whom, where the solo plays, how it stands. */
export function PieceRow({
  piece: { summary, desk, lastPlayed },
  now,
  isBesideAnother = false,
}: {
  piece: HomePiece;
  now: Date;
  /** The row before it is of the same music, for another occasion, and has the title. */
  isBesideAnother?: boolean;
}) {
  const others = summary.members.filter(({ userId }) => userId !== desk?.me.userId);
  const players = others.filter(({ role }) => role === "pianist" || role === "soloist");
  const shown = players.length > 0 ? players : others.slice(0, 1);
  return (
    <Link
      className={classNames(styles.row, isBesideAnother && styles.beside)}
      href={`/pieces/${summary.id}`}
      aria-label={
        isBesideAnother ? `${summary.title}, ${summary.occasion ?? "for another occasion"}` : undefined
      }
    >
      <div>
        {!isBesideAnother && (
          <>
            <h3>
              <WithFlats text={summary.title} />
            </h3>
            <p className={styles.by}>
              <WithFlats text={[summary.composer, summary.movement].filter(Boolean).join(" · ")} />
            </p>
          </>
        )}
        {summary.occasion && <p className={styles.occasion}>{summary.occasion}</p>}
        <p className={styles.with}>
          {shown.length === 0 && <span className={styles.by}>nobody invited yet</span>}
          {shown.map((member) => (
            <WhoTag
              key={member.userId}
              ink={inkOf(member.role)}
              initial={member.initial}
              name={firstName(member.name)}
              note={<WithFlats text={sayPlays(member.role, desk?.soloName)} />}
            />
          ))}
        </p>
      </div>
      <div className={styles.strip}>
        {desk ? (
          <FittedStrip piece={desk.strip} expected={360} />
        ) : (
          <p className={styles.by}>The file can no longer be read.</p>
        )}
      </div>
      <div className={styles.state}>
        <p>
          {summary.waitsForMe > 0 && <Fermata />} {sayState(summary, players[0]?.name)}
        </p>
        {summary.newComments > 0 && (
          <p>{summary.newComments === 1 ? "1 new comment" : `${summary.newComments} new comments`}</p>
        )}
        <p className={styles.time}>
          {summary.lastEdition !== null && <EditionStamp number={summary.lastEdition} />}
          {desk && <span>{sayClock(desk.agreed.seconds)}</span>}
        </p>
        {lastPlayed && <p>{sayLastPlayed(lastPlayed, now)}</p>}
      </div>
    </Link>
  );
}

function sayState(
  { waitsForMe, waitsForOther, lastEdition }: PieceSummary,
  other: string | undefined,
): string {
  if (waitsForMe > 0) return `${waitsForMe} ${waitsForMe === 1 ? "waits" : "wait"} for you`;
  if (waitsForOther > 0) return other ? `${waitsForOther} with ${firstName(other)}` : `${waitsForOther} open`;
  return lastEdition === null ? "not frozen yet" : "all agreed";
}
