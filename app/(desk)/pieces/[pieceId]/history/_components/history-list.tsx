"use client";

import Link from "next/link";
import type { HistoryRow, HistoryView } from "@/app/_data/desk/read-history";
import { ButtonLink } from "@/app/_ui/button";
import { inkOf } from "@/app/_ui/party";
import { Sheet } from "@/app/_ui/sheet";
import { WhoMark } from "@/app/_ui/who-mark";
import { Moment, useZone } from "../../_components/moment";
import { firstName, personOf } from "../../_components/person";
import { useTellBarLabels } from "../../_components/room-provider";
import styles from "./history-list.module.css";
import { groupByDay, historyAddress, kindNames } from "./history-words";

/** Every change of the room, newest first, by day, with who and when and what. */
export function HistoryList({ view }: { view: HistoryView }) {
  const { desk, rows, former, choice, earlierBefore } = view;
  useTellBarLabels(desk.bars);
  const zone = useZone();
  return (
    <Sheet className={styles.sheet} aria-labelledby="history-heading" id="changes">
      <h2 id="history-heading">History</h2>
      <Filters view={view} />
      {rows.length === 0 && <p className={styles.none}>Nothing of this kind was written yet.</p>}
      {groupByDay(rows, new Date(), zone).map(({ day, rows: ofDay }) => (
        <section key={ofDay[0]?.sequence} aria-label={day}>
          <h3>{day}</h3>
          <ol>
            {ofDay.map((row) => (
              <Row
                key={`${row.sequence} ${row.map} ${row.key}`}
                view={view}
                row={row}
                isLooked={row.sequence === former?.sequence}
              />
            ))}
          </ol>
        </section>
      ))}
      {earlierBefore !== null && (
        <p className={styles.more}>
          <ButtonLink
            href={historyAddress(desk.pieceId, choice, {
              before: earlierBefore,
              ...(former ? { at: former.sequence } : {}),
            })}
          >
            Earlier changes
          </ButtonLink>
        </p>
      )}
    </Sheet>
  );
}

function Row({ view, row, isLooked }: { view: HistoryView; row: HistoryRow; isLooked: boolean }) {
  const { desk, choice } = view;
  const person = row.userId === null ? null : personOf(desk, row.userId);
  return (
    <li data-looked={isLooked || undefined}>
      {person ? <WhoMark ink={inkOf(person.role)} initial={person.initial} /> : <span />}
      <p>
        {row.sentence}{" "}
        <small>
          <Moment iso={row.at} isTimeOnly />
        </small>
      </p>
      {isLooked ? (
        <small className={styles.looked}>looked at</small>
      ) : (
        <Link
          href={historyAddress(desk.pieceId, choice, { at: row.sequence })}
          scroll={false}
          aria-label={`Look at this state. ${row.sentence}`}
        >
          Look at this state
        </Link>
      )}
    </li>
  );
}

/** Links, so that what is shown has an address. */
function Filters({ view: { desk, choice, writers, former } }: { view: HistoryView }) {
  const looked = former ? { at: former.sequence } : {};
  const people = [
    { userId: null, name: "Everybody" },
    ...writers.map((userId) => ({ userId, name: firstName(personOf(desk, userId)) })),
  ];
  const kinds = [{ map: null, name: "Everything" } as const, ...kindNames];
  return (
    <div className={styles.filters}>
      <nav aria-label="By person">
        {people.map(({ userId, name }) => (
          <Link
            key={userId ?? "everybody"}
            href={historyAddress(desk.pieceId, { ...choice, userId }, looked)}
            aria-current={choice.userId === userId || undefined}
          >
            {name}
          </Link>
        ))}
      </nav>
      <nav aria-label="By kind">
        {kinds.map(({ map, name }) => (
          <Link
            key={name}
            href={historyAddress(desk.pieceId, { ...choice, map }, looked)}
            aria-current={choice.map === map || undefined}
          >
            {name}
          </Link>
        ))}
      </nav>
    </div>
  );
}
