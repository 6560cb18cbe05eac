"use client";

import type { Dispatch } from "react";
import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { useAnswer } from "@/app/_study/use-answer";
import { Button } from "@/app/_ui/button";
import { Spoken } from "@/app/_ui/spoken";
import { isSameSpan } from "@/lib/score/cut-span";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayClock } from "@/lib/score/say-clock";
import type { OfferedCut } from "@/lib/study/look-for-cuts";
import type { DeskMove, DeskState } from "../_components/desk-state";
import { endsOfSpan, spanOfEnds } from "../_cuts/cut-questions";
import { JoinSeam } from "../_join/join-seam";
import { sayGrade } from "../_join/join-words";
import styles from "./search-nearby.module.css";
import { isLookedAt, sayRunning } from "./search-results";
import { type SearchSettings, settingsFor, toCutSearch, tuttiOfCut } from "./search-settings";

/** So many other joins stand under a cut; the search gives more. */
const mostOthers = 4;

/** Other cuts that the tutti of a cut offers, and the way to look for more. */
export function OtherJoins({
  desk,
  cut,
  state,
  isReady,
  move,
}: {
  desk: Desk;
  cut: DeskCut;
  state: DeskState;
  /** The cut itself has been judged: that comes first. */
  isReady: boolean;
  move: Dispatch<DeskMove>;
}) {
  const index = tuttiOfCut(desk, cut.gaps);
  const settings = index === null ? null : settingsFor({ kind: "tutti", index });
  const question = settings && isReady ? toCutSearch(desk, settings, cut.number) : null;
  const { value, isWorking } = useAnswer<"look">(
    question && { kind: "look", question: { ...question, filters: { ...question.filters, limit: 6 } } },
  );
  if (settings === null) return null;
  const own = spanOfEnds(cut);
  const others = (value ?? []).filter((found) => !isSameSpan(found, own)).slice(0, mostOthers);
  return (
    <section className={styles.others} aria-label="Other joins in this tutti" aria-busy={isWorking}>
      <h4>Other joins in this tutti</h4>
      {value === null ? (
        <p className={styles.small}>{isWorking || !isReady ? "Listening…" : "None were looked for."}</p>
      ) : (
        <ul>
          {others.map((found) => (
            <Other key={found.name} found={found} state={state} move={move} />
          ))}
          {others.length === 0 && <li className={styles.small}>None that would be better heard.</li>}
        </ul>
      )}
      <MoreButton settings={settings} move={move} />
    </section>
  );
}

function MoreButton({ settings, move }: { settings: SearchSettings; move: Dispatch<DeskMove> }) {
  const find = () => {
    move({ kind: "search", search: settings });
    move({ kind: "ask", asked: settings });
  };
  return (
    <Button small kind="bare" onClick={find}>
      Find more, with reasons
    </Button>
  );
}

function Other({ found, state, move }: { found: OfferedCut; state: DeskState; move: Dispatch<DeskMove> }) {
  const ends = endsOfSpan(found);
  const isLooked = isLookedAt(state, ends);
  return (
    <li className={styles.other}>
      <JoinSeam grade={found.grade} />
      <span>
        <Spoken>{`Join ${sayGrade(found.grade)}: `}</Spoken>
        <b>{found.name.replace(/^bars? /, "")}</b> {sayBarCount(found.weight.barCount)} ·{" "}
        {sayClock(found.weight.savedSeconds)}
      </span>
      <span className={styles.after}>
        {sayRunning(found)}
        {found.robs.length > 0 && <b> short</b>}
      </span>
      <Button
        small
        aria-pressed={isLooked}
        aria-label={`Look at ${found.name}`}
        onClick={() => move({ kind: "look", looked: isLooked ? null : { ...ends, name: found.name } })}
      >
        Look
      </Button>
    </li>
  );
}
