import Link from "next/link";
import type { Home } from "@/app/_data/read-home";
import { sayAgainstLimit } from "@/app/_ui/clock";
import { Icon } from "@/app/_ui/icon";
import { RunningTimeMeter } from "@/app/_ui/meter/running-time-meter";
import { Fermata } from "@/app/_ui/music-sign";
import { inkOf } from "@/app/_ui/party";
import { sayDay } from "@/app/_ui/say-date";
import { sayShortDay } from "@/app/_ui/say-short-day";
import { Sheet } from "@/app/_ui/sheet";
import { isoDateOf } from "@/lib/calendar/iso-date";
import { sayClock } from "@/lib/score/say-clock";
import type { MyPerformance } from "@/lib/store/performances/list-performances";
import { may } from "@/lib/store/who-may";
import { sayNewerEdition } from "../_performances/last-played";
import styles from "./next-performance.module.css";
import { firstName } from "./say-waiting";

const dayMilliseconds = 24 * 60 * 60 * 1000;

function daysUntil(on: string, now: Date): number {
  return Math.max(0, Math.ceil((Date.parse(on) - now.getTime()) / dayMilliseconds));
}

/** How many days are left, and whether the running time fits. */
export function NextPerformance({ home, now }: { home: Home; now: Date }) {
  const next = home.upcoming[0];
  const piece = next && home.pieces.find(({ summary }) => summary.id === next.pieceId);
  if (!next || !piece?.desk) {
    return (
      <>
        <h2 className={styles.head}>Next performance</h2>
        <Sheet className={styles.card}>
          <p className={styles.where}>
            None is planned. Log one on a piece’s Editions screen; its limit is then shown against the running
            time.
          </p>
        </Sheet>
      </>
    );
  }
  const { desk, summary } = piece;
  const days = daysUntil(next.on, now);
  const newer = sayNewerEdition(next.editionNumber, summary.lastEdition);
  const open = desk.cuts.find((cut) => cut.state === "open" && cut.weight);
  const partner = desk.people.find(
    ({ role, userId, hasLeft }) =>
      !hasLeft && (role === "pianist" || role === "soloist") && userId !== desk.me.userId,
  );
  return (
    <>
      <h2 className={styles.head}>Next performance</h2>
      <Sheet className={styles.card}>
        <p className={styles.days}>
          {days === 0 ? "today" : days} {days > 0 && <span>{days === 1 ? "day" : "days"}</span>}
        </p>
        <h3>{next.name}</h3>
        <p className={styles.where}>
          {[
            sayDay(next.on, now) + (next.startsAt ? `, ${next.startsAt}` : ""),
            next.place,
            partner && `with ${firstName(partner.name)}`,
          ]
            .filter(Boolean)
            .join(" · ")}
        </p>
        <RunningTimeMeter
          asWritten={desk.asWritten.seconds}
          agreed={desk.agreed.seconds}
          withOpen={
            open?.weight ? { label: `with cut ${open.number}`, seconds: open.weight.runningAfter } : null
          }
          openInk={inkOf(desk.people.find(({ userId }) => userId === open?.proposedBy)?.role ?? "")}
          limit={next.limitSeconds}
        />
        {next.limitSeconds !== null && (
          <p className={styles.against}>{sayAgainstLimit(desk.agreed.seconds, next.limitSeconds)}</p>
        )}
        <ul className={styles.todo}>
          {summary.waitsForMe > 0 && (
            <li>
              <Fermata />
              <span>{summary.waitsForMe === 1 ? "1 answer" : `${summary.waitsForMe} answers`}</span>
              <span>you</span>
            </li>
          )}
          <li>
            <Icon name="page" />
            <Link href={`/pieces/${summary.id}/editions`}>Edition № {next.editionNumber}</Link>
            <span>planned</span>
          </li>
          {newer !== null && (
            <li className={styles.newer}>
              <Icon name="warning" />
              <span>{newer}</span>
            </li>
          )}
          {next.on === isoDateOf(now) && may(summary.myRole, "log-performance") && (
            <li>
              <Icon name="clock" />
              <Link
                href={`/pieces/${summary.id}/stopwatch?performance=${next.id}&edition=${next.editionNumber}`}
              >
                Stopwatch
              </Link>
            </li>
          )}
        </ul>
      </Sheet>
    </>
  );
}

/** What comes later. */
export function AfterThat({ performances }: { performances: readonly MyPerformance[] }) {
  if (performances.length === 0) return null;
  return (
    <>
      <h2 className={styles.head}>After that</h2>
      <ul className={styles.later}>
        {performances.map((performance) => (
          <li key={performance.id}>
            <time dateTime={performance.on}>{sayShortDay(performance.on)}</time>
            <span>
              {performance.name}
              <br />
              <small>{[performance.place, performance.pieceTitle].filter(Boolean).join(", ")}</small>
            </span>
            <small>
              {performance.limitSeconds === null
                ? "no limit"
                : `${sayClock(performance.plannedSeconds)} of ${sayClock(performance.limitSeconds)}`}
            </small>
          </li>
        ))}
      </ul>
    </>
  );
}
