"use client";

import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import type { BreathDesk } from "@/app/_data/desk/read-breath";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { inkOf } from "@/app/_ui/party";
import { RehearsalBox } from "@/app/_ui/rehearsal-box";
import { Sheet } from "@/app/_ui/sheet";
import { ViDe } from "@/app/_ui/vi-de";
import { sayClock } from "@/lib/score/say-clock";
import { firstName, personOf } from "../../_components/person";
import { sayEntry } from "./name-entry";
import { NeedItem } from "./need-item";
import { RestFigure } from "./rest-figure";
import styles from "./rest-list.module.css";
import { looseNeeds, type RestRow } from "./rest-rows";
import { sayShort, sayWanted } from "./say-rest";

/** The rest before each entry, what cuts take of it, and what the soloist asked for. */
export function RestList({
  desk,
  breath,
  rows,
  onNote,
  onChange,
  onGo,
}: {
  desk: Desk;
  breath: BreathDesk;
  /** Null while they are worked out. */
  rows: readonly RestRow[] | null;
  onNote: () => void;
  onChange: (needId: string) => void;
  onGo: (bar: number) => void;
}) {
  const longest = Math.max(
    1,
    ...(rows ?? []).flatMap(({ rest }) => [rest.seconds.before, rest.seconds.after]),
  );
  const loose = rows ? looseNeeds(breath.needs, rows) : [];
  const item = { desk, mayChange: breath.maySetRests, onChange };
  return (
    <Sheet className={styles.list} aria-label="Rest before each entry">
      <h2>Rest before each entry</h2>
      {rows === null && <p className={styles.none}>Working out the rests.</p>}
      {rows?.length === 0 && <p className={styles.none}>The soloist never rests for longer than a breath.</p>}
      <ul className={styles.rows}>
        {rows?.map((row) => (
          <li key={row.key} aria-label={`Before ${sayEntry(row.entry)}`}>
            <button
              type="button"
              className={styles.entry}
              aria-label={`Go to ${sayEntry(row.entry)}`}
              onClick={() => onGo(row.entry.barIndex)}
            >
              {row.entry.isLetter ? <RehearsalBox text={row.entry.text} /> : <b>{row.entry.text}</b>}
            </button>
            <RestFigure
              written={row.rest.seconds.before}
              now={row.rest.seconds.after}
              open={row.openSeconds}
              wished={wishedSeconds(row)}
              longest={longest}
            />
            <div className={styles.words}>
              <Figures row={row} />
              {row.takenBy.map((cut) => (
                <TakenBy key={cut.id} desk={desk} cut={cut} />
              ))}
              {row.needs.length === 0 && <span className={styles.dim}>no wish noted</span>}
            </div>
            {row.needs.length > 0 && (
              <ul className={styles.needs}>
                {row.needs.map((here) => (
                  <NeedItem key={here.need.id} {...item} need={here.need} here={here} entry={row.entry} />
                ))}
              </ul>
            )}
          </li>
        ))}
      </ul>
      {loose.length > 0 && (
        <ul className={styles.needs} aria-label="Other noted rests">
          {loose.map((need) => (
            <NeedItem key={need.id} {...item} need={need} here={null} entry={null} />
          ))}
        </ul>
      )}
      {breath.maySetRests && (
        <Button wide className={styles.note} onClick={onNote}>
          <Icon name="plus" small /> Note a rest I need
        </Button>
      )}
    </Sheet>
  );
}

function Figures({ row: { rest, openSeconds, needs } }: { row: RestRow }) {
  const { before, after } = rest.seconds;
  const isTaken = Math.abs(before - after) >= 0.5;
  const held = needs.filter(({ need }) => need.releasedBy === null);
  const shorts = held.flatMap(({ checked, underOpen }) => sayShort(underOpen ?? checked) ?? []);
  return (
    <>
      <span>
        {isTaken && <span className={styles.dim}>{sayClock(before)} → </span>}
        <b>{sayClock(after)}</b>
        {openSeconds !== null && (
          <>
            {" → "}
            <b>{sayClock(openSeconds)}</b>
          </>
        )}{" "}
        {held.length > 0 && <span className={styles.dim}>of {sayWanted(held.map(({ need }) => need))}</span>}
      </span>
      {shorts.map((words) => (
        <b key={words} className={styles.short}>
          {words}
        </b>
      ))}
    </>
  );
}

function TakenBy({ desk, cut }: { desk: Desk; cut: DeskCut }) {
  const proposer = personOf(desk, cut.proposedBy);
  const isMine = proposer.userId === desk.me.userId;
  const how =
    cut.state === "agreed" ? "agreed" : isMine ? "your proposal" : `${firstName(proposer)} proposes`;
  return (
    <span className={styles.taken}>
      <ViDe ink={cut.state === "agreed" ? "agreed" : inkOf(proposer.role)} />{" "}
      <span className={styles.dim}>
        Cut {cut.number}, {how}
      </span>
    </span>
  );
}

/** The longest that is still asked for before an entry, in seconds; wishes in bars by how long bars last there. */
function wishedSeconds({ rest, needs }: RestRow): number | null {
  const perBar = rest.bars.before > 0 ? rest.seconds.before / rest.bars.before : 0;
  const wished = needs
    .filter(({ need }) => need.releasedBy === null)
    .map(({ need }) => ("seconds" in need.needs ? need.needs.seconds : need.needs.bars * perBar));
  return wished.length > 0 ? Math.max(...wished) : null;
}
