"use client";

import { type KeyboardEvent, useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { measureRepetition, type RepetitionMeasure } from "@/lib/hands/measure-repetition";
import type { KeyMove } from "@/lib/hands/widest-held";
import styles from "./measure-me.module.css";
import { sayFigure } from "./passage-words";

export type MeasuredRate = "repeatedNotes" | "repeatedChords";

/** So long the strokes are counted, from the first one on. Long enough that it is kept up. */
const tryMilliseconds = 5000;

/** Strikes a key or a chord for five seconds; the rate follows from the moments of the strokes. */
export function MeasureRate({
  moves,
  onRate,
}: {
  moves: { current: ((move: KeyMove) => void) | null };
  onRate: (name: MeasuredRate, perSecond: number) => void;
}) {
  const [name, setName] = useState<MeasuredRate>("repeatedNotes");
  const [strokes, setStrokes] = useState(0);
  const [result, setResult] = useState<RepetitionMeasure | null>(null);
  const onsets = useRef<number[]>([]);
  const timer = useRef<ReturnType<typeof setTimeout> | null>(null);
  const strike = useRef((_at: number) => {});
  strike.current = (at) => {
    if (result) return;
    onsets.current.push(at);
    setStrokes(onsets.current.length);
    timer.current ??= setTimeout(() => setResult(measureRepetition(onsets.current)), tryMilliseconds);
  };
  useEffect(() => {
    moves.current = ({ isDown, at }) => isDown && strike.current(at);
    return () => {
      moves.current = null;
      if (timer.current) clearTimeout(timer.current);
    };
  }, [moves]);
  const again = () => {
    if (timer.current) clearTimeout(timer.current);
    timer.current = null;
    onsets.current = [];
    setStrokes(0);
    setResult(null);
  };
  const onKey = (event: KeyboardEvent) => {
    // Tab and Escape still leave; a key that is held down repeats by itself and is no stroke.
    if (event.repeat || event.key === "Tab" || event.key === "Escape" || event.key === "Shift") return;
    event.preventDefault();
    strike.current(event.timeStamp);
  };
  return (
    <>
      <SelectField
        label="What you strike"
        value={name}
        onChange={(event) => {
          setName(event.target.value as MeasuredRate);
          again();
        }}
      >
        <option value="repeatedNotes">One key, again and again</option>
        <option value="repeatedChords">A chord or an octave, again and again</option>
      </SelectField>
      <button
        type="button"
        className={styles.pad}
        onPointerDown={(event) => strike.current(event.timeStamp)}
        onKeyDown={onKey}
      >
        {sayPad(strokes, result)}
      </button>
      <div className={styles.found} role="status">
        <span>
          {result?.kind === "measured" && (
            <>
              <b>{sayFigure(result.perSecond)}</b> a second, over {result.strokes} strokes
            </>
          )}
          {result?.kind === "too few" &&
            `Only ${result.strokes} strokes in one go: too few to tell. Try again.`}
        </span>
        <Button
          small
          disabled={result?.kind !== "measured"}
          onClick={() =>
            result?.kind === "measured" && onRate(name, Math.max(1, Math.min(20, result.perSecond)))
          }
        >
          Take it
        </Button>
        <Button small kind="bare" onClick={again}>
          Again
        </Button>
      </div>
    </>
  );
}

function sayPad(strokes: number, result: RepetitionMeasure | null): string {
  if (result) return "Done";
  if (strokes === 0) return "Strike here, or any key, as fast as is comfortable for five seconds";
  return `${strokes}`;
}
