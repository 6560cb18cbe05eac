"use client";

import type { ReactNode } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { Strain } from "@/lib/hands/strain";
import styles from "./beside-keys.module.css";
import { findKeyFigure, keyRange } from "./key-figure";
import { KeyboardFigure } from "./keyboard-figure";
import { nameBeat } from "./name-beat";

/** The keys of the worst place, as printed and rewritten, and what is still heard beside them. */
export function BesideKeys({
  desk,
  strain,
  printed,
  written,
  children,
}: {
  desk: Desk;
  /** Whose place is shown; null shows no keys. */
  strain: Pick<Strain, "at" | "hand"> | null;
  printed: RewriteTerms | null;
  written: RewriteTerms;
  children: ReactNode;
}) {
  return (
    <div className={styles.beside} data-keys={strain !== null && printed !== null}>
      {strain && printed && <Keys {...{ desk, strain, printed, written }} />}
      {children}
    </div>
  );
}

function Keys({
  desk,
  strain: { at, hand },
  printed,
  written,
}: {
  desk: Desk;
  strain: Pick<Strain, "at" | "hand">;
  printed: RewriteTerms;
  written: RewriteTerms;
}) {
  const before = findKeyFigure(printed, at, hand);
  const after = findKeyFigure(written, at, hand);
  const range = keyRange([before, after].flatMap((one) => (one ? [...one.keys, ...one.other] : [])));
  const where = `${hand === "left" ? "Left" : "Right"} hand, ${nameBeat(desk.bars, at)}`;
  return (
    <>
      <KeyboardFigure caption={where} figure={before} range={range} />
      <KeyboardFigure caption="Rewritten" figure={after} range={range} />
    </>
  );
}
