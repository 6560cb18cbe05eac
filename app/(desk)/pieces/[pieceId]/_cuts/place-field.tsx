"use client";

import type { ReactNode } from "react";
import type { DeskBar } from "@/app/_data/desk/desk";
import { SelectField } from "@/app/_ui/field";
import type { PositionTerms } from "@/lib/edition/position-terms";
import styles from "./place-field.module.css";

/** A place in the piece: a bar by its printed number, and a beat of it. */
export function PlaceField({
  label,
  bars,
  place,
  hasEnd = false,
  onChange,
}: {
  label: ReactNode;
  bars: readonly DeskBar[];
  place: PositionTerms;
  /** The end of the piece can be chosen too. */
  hasEnd?: boolean;
  onChange: (place: PositionTerms) => void;
}) {
  const last = bars.length - 1;
  const end: PositionTerms = { barIndex: last, offset: bars[last]?.length ?? "0" };
  const isEnd = hasEnd && place.barIndex === end.barIndex && place.offset === end.offset;
  const beats = bars[place.barIndex]?.beats ?? ["0"];
  const known = beats.includes(place.offset) ? beats : [...beats, place.offset];
  return (
    <fieldset className={styles.place}>
      <legend>{label}</legend>
      <SelectField
        label="Bar"
        isLabelHidden
        value={isEnd ? "end" : `${place.barIndex}`}
        onChange={(event) => {
          const { value } = event.target;
          onChange(value === "end" ? end : { barIndex: Number(value), offset: "0" });
        }}
      >
        {bars.map((bar, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a bar's index is its name; printed numbers can repeat
          <option key={index} value={index}>
            {bar.label === "" ? `bar after ${bars[index - 1]?.label ?? "the start"}` : `bar ${bar.label}`}
          </option>
        ))}
        {hasEnd && <option value="end">the end</option>}
      </SelectField>
      {!isEnd && (
        <SelectField
          label="Beat"
          isLabelHidden
          value={place.offset}
          onChange={(event) => onChange({ ...place, offset: event.target.value })}
        >
          {known.map((offset, index) => (
            <option key={offset} value={offset}>
              {index < beats.length ? `beat ${index + 1}` : `${offset} quarters in`}
            </option>
          ))}
        </SelectField>
      )}
    </fieldset>
  );
}
