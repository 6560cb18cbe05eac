"use client";

import type { ReactNode } from "react";
import { Segmented } from "@/app/_ui/segmented";
import styles from "./choose-options.module.css";
import { type CommonMark, commonMarks, type PrintChoice } from "./print-choice";

const markWords: Readonly<Record<CommonMark, string>> = {
  breaths: "Breaths",
  cues: "Cues",
  remarks: "Printed comments",
  ossias: "Ossias",
};

const aboutCuts = {
  removed: "Cut bars are gone; “Vi–” and “–de” stand at the join.",
  shown: "All bars stay; what is cut lies under a dashed line, for whoever keeps an old copy.",
} as const;

/** What holds for both players' parts. */
export function ChooseOptions({
  choice,
  onChange,
}: {
  choice: PrintChoice;
  onChange: (part: Partial<PrintChoice>) => void;
}) {
  return (
    <div className={styles.options}>
      <Option name="Page">
        <Segmented
          label="Page"
          value={choice.paper}
          options={[
            { value: "A4", label: "A4" },
            { value: "Letter", label: "Letter" },
            { value: "tablet", label: "Tablet" },
          ]}
          onChange={(paper) => onChange({ paper })}
        />
      </Option>
      {choice.paper !== "tablet" && (
        <Option name="Lying on the stand">
          <Segmented
            label="Lying on the stand"
            value={choice.sides}
            options={[
              { value: "single", label: "Single pages" },
              { value: "facing-right", label: "A book" },
              { value: "facing-left", label: "Opened at 1 and 2" },
            ]}
            onChange={(sides) => onChange({ sides })}
          />
        </Option>
      )}
      <Option name="Agreed cuts" note={aboutCuts[choice.cuts]}>
        <Segmented
          label="Agreed cuts"
          value={choice.cuts}
          options={[
            { value: "removed", label: "Taken out" },
            { value: "shown", label: "Shown" },
          ]}
          onChange={(cuts) => onChange({ cuts })}
        />
      </Option>
      <fieldset className={styles.marks}>
        <legend>Written over the music</legend>
        {commonMarks.map((mark) => (
          <label key={mark}>
            <input
              type="checkbox"
              checked={choice.marks.includes(mark)}
              onChange={(event) =>
                onChange({
                  marks: commonMarks.filter((each) =>
                    each === mark ? event.target.checked : choice.marks.includes(each),
                  ),
                })
              }
            />
            {markWords[mark]}
          </label>
        ))}
      </fieldset>
    </div>
  );
}

function Option({ name, note, children }: { name: string; note?: string; children: ReactNode }) {
  return (
    <div className={styles.option}>
      <span aria-hidden="true">{name}</span>
      {children}
      {note && <p>{note}</p>}
    </div>
  );
}
