"use client";

import type { Dispatch } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { ListenControls } from "@/app/_sound/listen-controls";
import { Button } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { Icon } from "@/app/_ui/icon";
import { IconButton } from "@/app/_ui/icon-button";
import { nameBars } from "@/app/_ui/name-span";
import { RehearsalBox } from "@/app/_ui/rehearsal-box";
import { spanOf } from "@/app/_ui/score/mark-bars";
import type { Reading } from "@/app/_ui/score/score-view";
import { Segmented } from "@/app/_ui/segmented";
import { settingsFor } from "../_search/search-settings";
import type { DeskMove, DeskState } from "./desk-state";
import { listenFrom } from "./listen-from";
import styles from "./score-bar.module.css";

const readings: readonly { value: Reading; label: string }[] = [
  { value: "open", label: "Open" },
  { value: "folded", label: "Folded" },
  { value: "as-it-will-read", label: "As it will read" },
];

interface ScorePart {
  desk: Desk;
  state: DeskState;
  move: Dispatch<DeskMove>;
}

/** Over the score: where one is, and how it is shown. */
export function ScoreBar({ desk, state, move }: ScorePart) {
  const { view } = state;
  const letter = view && lastLetter(desk, view.firstBar);
  return (
    <div className={styles.bar}>
      <h2 className={styles.where}>
        {letter && <RehearsalBox text={letter} />}
        {view ? `Bars ${nameBars(desk.bars, view).replace(/^bars? /, "")}` : "Score"}
      </h2>
      <Segmented
        label="How the score is shown"
        value={state.reading}
        options={readings}
        onChange={(reading) => move({ kind: "reading", reading })}
      />
      <ListenControls
        ask={() => listenFrom(desk, state)}
        labelOf={(barIndex) => desk.bars[barIndex]?.label ?? ""}
      />
      <IconButton
        icon="keys"
        label="Keys"
        className={styles.keys}
        onClick={() => move({ kind: "keys", isShown: true })}
      />
    </div>
  );
}

/** At the foot of the score while a cut is only looked at: what it is, and what can be done with it. */
export function LookedBar({ desk, state, move }: ScorePart) {
  const { looked, marking } = state;
  if (looked === null || marking !== null) return null;
  const { from, to, name } = looked;
  return (
    <div className={styles.marked}>
      <p>
        <b>{capital(name)}</b>
        <span> · only looked at</span>
      </p>
      {desk.may.propose && (
        <Button
          small
          aria-label={`Propose ${name}`}
          onClick={() => move({ kind: "draft", draft: { from, to, replaces: null } })}
        >
          Propose…
        </Button>
      )}
      {state.search !== null && (
        <Button
          small
          className={styles.back}
          aria-label="Back to the list"
          onClick={() => move({ kind: "pane", pane: "cuts" })}
        >
          Back
        </Button>
      )}
      <IconButton icon="cross" label="Let this cut go" onClick={() => move({ kind: "look", looked: null })} />
    </div>
  );
}

/** At the foot of the score while bars are marked; it lies over it, so that the page does not move under the finger. */
export function MarkedBar({ desk, state, move }: ScorePart) {
  const { marking } = state;
  if (marking === null) return null;
  const { firstBar } = spanOf(marking);
  return (
    <div className={styles.marked}>
      <p>
        <b>{capital(nameBars(desk.bars, spanOf(marking)))}</b>
        {marking.anchor === marking.head && <span> · tap the last bar</span>}
      </p>
      {desk.may.comment && (
        <Button small onClick={() => move({ kind: "comment-marked" })}>
          <Icon name="note" small /> Comment
        </Button>
      )}
      {desk.may.propose && state.draft === null && (
        <Button small onClick={() => move({ kind: "cue", cue: { kind: "write", bar: firstBar } })}>
          Cue…
        </Button>
      )}
      {state.draft === null && (
        <Button
          small
          onClick={() =>
            move({ kind: "search", search: settingsFor({ kind: "marked", span: spanOf(marking) }) })
          }
        >
          Find cuts…
        </Button>
      )}
      {desk.may.propose && state.draft === null && (
        <Button small onClick={() => move({ kind: "draft-marked", desk })}>
          Propose a cut
        </Button>
      )}
      <IconButton
        icon="cross"
        label="Let the marked bars go"
        onClick={() => move({ kind: "mark", marking: null, desk })}
      />
    </div>
  );
}

/** The rehearsal letter in whose section a bar lies. */
function lastLetter({ strip }: Desk, barIndex: number): string | null {
  const bar = strip.bars.find((candidate) => candidate.barIndex === barIndex);
  return bar ? (strip.letters.findLast(({ at }) => at <= bar.from + 0.01)?.text ?? null) : null;
}
