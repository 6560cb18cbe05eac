"use client";

import { type RefObject, useRef, useState } from "react";
import type { EngravedSystem } from "@/app/_ui/score/engraving";
import { saySoloBar } from "@/app/_ui/score/say-solo";
import { SystemDrawing } from "@/app/_ui/score/system-drawing";
import { useNear } from "@/app/_ui/score/use-near";
import { Spoken } from "@/app/_ui/spoken";
import styles from "./compared-system.module.css";
import type { SideOfSystem } from "./lay-out-score";

/** The page itself scrolls. */
const page: RefObject<Element | null> = { current: null };
const nothing: readonly never[] = [];
const percent = (part: number) => `${100 * part}%`;

/** One system as one side plays it: the engraving of the print, and over it folds and brackets. */
export function ComparedSystem({
  system,
  side,
  name,
  url,
  bars,
}: {
  system: EngravedSystem;
  side: SideOfSystem;
  /** "№ 2". */
  name: string;
  url: string;
  bars: readonly { readonly label: string; readonly solo: string }[];
}) {
  const element = useRef<HTMLDivElement>(null);
  const isNear = useNear(element, page);
  const [, hearHead] = useState(0);
  if (side.isFolded)
    return (
      <div ref={element} className={styles.whole}>
        <p className={styles.name}>{name}</p>
        <p className={styles.plate}>{side.text}</p>
      </div>
    );
  const label = (index: number) => bars[index]?.label ?? "";
  return (
    <div ref={element} className={styles.side}>
      <p className={styles.name}>{name}</p>
      <div className={styles.over}>
        {side.brackets.map(({ left, width, text }) => (
          <p key={`${left} ${text}`} style={{ left: percent(left), width: percent(width) }}>
            <span>{text}</span>
          </p>
        ))}
      </div>
      <div className={styles.music} style={{ aspectRatio: `${system.width} / ${system.height}` }}>
        <SystemDrawing
          url={url}
          isNear={isNear}
          x={0}
          width={system.width}
          height={system.height}
          firstPlace={0}
          lastPlace={system.bars.length - 1}
          head={0}
          greyBars={nothing}
          noteIds={nothing}
          onHead={hearHead}
        />
        {side.folds.map(({ left, width, text, isStart, isEnd }) => (
          <p
            key={left}
            className={styles.fold}
            data-start={isStart || undefined}
            data-end={isEnd || undefined}
            style={{ left: percent(left), width: percent(width) }}
          >
            {text}
          </p>
        ))}
      </div>
      <Spoken>
        {`${name}: bars ${label(system.firstBarIndex)} to ${label(system.lastBarIndex)}. `}
        {system.bars
          .filter(({ barIndex }) => bars[barIndex]?.solo)
          .map(({ barIndex }) => saySoloBar(label(barIndex), bars[barIndex]?.solo ?? ""))
          .join("; ")}
      </Spoken>
    </div>
  );
}
