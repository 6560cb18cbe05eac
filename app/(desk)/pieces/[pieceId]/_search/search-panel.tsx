"use client";

import { type Dispatch, type FormEvent, type ReactNode, useEffect, useRef } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { Evidence } from "@/app/_ui/evidence";
import { SelectField, TextField } from "@/app/_ui/field";
import { IconButton } from "@/app/_ui/icon-button";
import { Progress } from "@/app/_ui/progress";
import { SayProblem } from "@/app/_ui/say";
import { spanOf } from "@/app/_ui/score/mark-bars";
import { Segmented } from "@/app/_ui/segmented";
import { Sheet } from "@/app/_ui/sheet";
import type { DeskMove, DeskState } from "../_components/desk-state";
import styles from "./search-panel.module.css";
import { useFoundCuts } from "./search-provider";
import { SearchResults } from "./search-results";
import {
  lengthProblem,
  lettersWithin,
  namePlaceOfSearch,
  type SearchPlace,
  type SearchSettings,
  sayKept,
  spanOfPlace,
} from "./search-settings";

interface PanelProps {
  desk: Desk;
  state: DeskState;
  move: Dispatch<DeskMove>;
}

/** Finding cuts: where, what is to stay, and what was found. */
export function SearchPanel({ desk, state, move }: PanelProps) {
  const { search, asked } = state;
  const heading = useRef<HTMLHeadingElement>(null);
  const isOpen = search !== null;
  useEffect(() => {
    if (isOpen) heading.current?.focus({ preventScroll: true });
  }, [isOpen]);
  if (search === null) return null;
  const ask = (event: FormEvent) => {
    event.preventDefault();
    move({ kind: "ask", asked: search });
  };
  const change = (changed: Partial<SearchSettings>) =>
    move({ kind: "search", search: { ...search, ...changed } });
  const span = spanOfPlace(desk, search.place);
  const problem = lengthProblem(search.savesAtLeast);
  return (
    <Sheet className={styles.search} aria-labelledby="search-heading">
      <header>
        <h2 id="search-heading" ref={heading} tabIndex={-1}>
          Find cuts
        </h2>
        <IconButton
          icon="cross"
          label="Close Find cuts"
          onClick={() => move({ kind: "search", search: null })}
        />
      </header>
      <form onSubmit={ask}>
        <PlaceChoice desk={desk} state={state} search={search} onChange={(place) => change({ place })} />
        <Evidence summary={sayKept(search)}>
          <Filters desk={desk} search={search} onChange={change} />
        </Evidence>
        {span === null && (
          <p className={styles.hint}>No entry of the soloist follows: there is nothing to look through.</p>
        )}
        <SearchRun asked={asked} onCancel={() => move({ kind: "ask", asked: null })}>
          <Button
            type="submit"
            kind={asked === null ? "settle" : "plain"}
            disabled={span === null || problem !== null}
          >
            {asked === null ? "Find" : "Find again"}
          </Button>
        </SearchRun>
      </form>
      {asked && <SearchResults desk={desk} state={state} move={move} asked={asked} />}
    </Sheet>
  );
}

/** The button that starts it; while it runs, how far it is and the way out. */
function SearchRun({
  asked,
  onCancel,
  children,
}: {
  asked: SearchSettings | null;
  onCancel: () => void;
  children: ReactNode;
}) {
  const { isWorking, done, problem } = useFoundCuts();
  if (asked !== null && problem !== null) {
    return (
      <>
        <SayProblem>{problem}</SayProblem>
        {children}
      </>
    );
  }
  if (asked === null || !isWorking) return children;
  return (
    <div className={styles.run}>
      <Progress words="Listening to every join…" done={done} />
      <Button onClick={onCancel}>Cancel</Button>
    </div>
  );
}

const keyOf = (place: SearchPlace): string => (place.kind === "tutti" ? `tutti ${place.index}` : place.kind);

/** The places that make sense now: every tutti, what is marked, from the top of the score on, a later beginning. */
function placesNow(desk: Desk, state: DeskState, chosen: SearchPlace): SearchPlace[] {
  const here = state.marking ? spanOf(state.marking).firstBar : (state.view?.firstBar ?? 0);
  const offered: SearchPlace[] = [
    ...desk.tuttis.map((_, index): SearchPlace => ({ kind: "tutti", index })),
    ...(state.marking ? [{ kind: "marked" as const, span: spanOf(state.marking) }] : []),
    { kind: "from-here", bar: here },
    { kind: "start" },
  ];
  return [
    ...offered.filter((place) => keyOf(place) !== keyOf(chosen) && spanOfPlace(desk, place) !== null),
    chosen,
  ];
}

function PlaceChoice({
  desk,
  state,
  search,
  onChange,
}: {
  desk: Desk;
  state: DeskState;
  search: SearchSettings;
  onChange: (place: SearchPlace) => void;
}) {
  const order = (place: SearchPlace) =>
    ["tutti", "marked", "from-here", "start"].indexOf(place.kind) * 1000 +
    (place.kind === "tutti" ? place.index : 0);
  const places = placesNow(desk, state, search.place).sort((a, b) => order(a) - order(b));
  return (
    <SelectField
      label="Look in"
      value={keyOf(search.place)}
      onChange={({ target }) => {
        const place = places.find((one) => keyOf(one) === target.value);
        if (place) onChange(place);
      }}
    >
      {places.map((place) => (
        <option key={keyOf(place)} value={keyOf(place)}>
          {namePlaceOfSearch(desk, place)}
        </option>
      ))}
    </SelectField>
  );
}

const lastBars = [2, 4, 6, 8, 12, 16];

function Filters({
  desk,
  search,
  onChange,
}: {
  desk: Desk;
  search: SearchSettings;
  onChange: (changed: Partial<SearchSettings>) => void;
}) {
  const span = spanOfPlace(desk, search.place);
  const letters = span ? lettersWithin(desk, span) : [];
  const toggle = (letter: string) =>
    onChange({
      keepRehearsal: search.keepRehearsal.includes(letter)
        ? search.keepRehearsal.filter((one) => one !== letter)
        : [...search.keepRehearsal, letter],
    });
  return (
    <>
      <div className={styles.pair}>
        <SelectField
          label="Keep before the entry"
          value={search.keepLastBars ?? ""}
          onChange={({ target }) =>
            onChange({ keepLastBars: target.value === "" ? null : Number(target.value) })
          }
        >
          <option value="">what is usual</option>
          {lastBars.map((count) => (
            <option key={count} value={count}>
              the last {count} bars
            </option>
          ))}
        </SelectField>
        <TextField
          label="Saves at least"
          inputMode="numeric"
          placeholder="0:20"
          value={search.savesAtLeast}
          problem={lengthProblem(search.savesAtLeast)}
          onChange={({ target }) => onChange({ savesAtLeast: target.value })}
        />
      </div>
      <div className={styles.more}>
        <Segmented
          label="Where a cut may begin and land"
          value={search.resolution}
          options={[
            { value: "bars", label: "By bars" },
            { value: "beats", label: "By beats" },
          ]}
          onChange={(resolution) => onChange({ resolution })}
        />
        <label>
          <input
            type="checkbox"
            checked={search.keepTheme}
            onChange={({ target }) => onChange({ keepTheme: target.checked })}
          />
          Keep every theme once
        </label>
        {letters.map((letter) => (
          <label key={letter}>
            <input
              type="checkbox"
              checked={search.keepRehearsal.includes(letter)}
              onChange={() => toggle(letter)}
            />
            Keep letter {letter}
          </label>
        ))}
      </div>
    </>
  );
}
