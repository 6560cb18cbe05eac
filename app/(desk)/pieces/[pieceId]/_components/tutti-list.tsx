"use client";

import Link from "next/link";
import type { ReactNode } from "react";
import type { Desk, DeskTutti } from "@/app/_data/desk/desk";
import { inkOf } from "@/app/_ui/party";
import { RehearsalBox } from "@/app/_ui/rehearsal-box";
import { Sheet } from "@/app/_ui/sheet";
import { ViDe } from "@/app/_ui/vi-de";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayClock } from "@/lib/score/say-clock";
import { namePlaceOfSearch } from "../_search/search-settings";
import { personOf } from "./person";
import styles from "./tutti-list.module.css";

/** Every tutti: its bars, how long, and whether a cut stands in it. Each goes to its place in the score. */
export function TuttiList({
  desk,
  view,
  onGo,
  onFind,
  children,
}: {
  desk: Desk;
  view: { firstBar: number; lastBar: number } | null;
  onGo: (tutti: DeskTutti) => void;
  /** Looks for cuts in the tutti at this place of the list. */
  onFind: (index: number) => void;
  /** Stands beside the heading. */
  children?: ReactNode;
}) {
  const { tuttis } = desk;
  const bars = tuttis.reduce((sum, tutti) => sum + tutti.barCount, 0);
  const length = tuttis.reduce((sum, tutti) => sum + tutti.to - tutti.from, 0);
  return (
    <Sheet className={styles.tutti} aria-labelledby="tutti-heading">
      <header>
        <h2 id="tutti-heading">
          Tutti{" "}
          <small>
            {tuttis.length === 0 ? "none found" : `${tuttis.length} found, ${bars} bars, ${sayClock(length)}`}
          </small>
        </h2>
        {children}
      </header>
      {!desk.knowsSolo && (
        <p className={styles.unknown}>
          Nothing tells when the soloist plays.{" "}
          <Link href={`/pieces/${desk.pieceId}/settings#parts`}>Say which part is the solo</Link>
        </p>
      )}
      <ul>
        {tuttis.map((tutti, index) => (
          <li key={tutti.from} className={styles.place} data-here={isOnView(tutti, view) || undefined}>
            <TuttiTile desk={desk} tutti={tutti} isHere={isOnView(tutti, view)} onGo={() => onGo(tutti)} />
            <button
              type="button"
              className={styles.find}
              aria-label={`Find cuts in ${namePlaceOfSearch(desk, { kind: "tutti", index })}`}
              onClick={() => onFind(index)}
            >
              Find cuts
            </button>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}

/** A tutti from the middle of one bar to the middle of the next has no whole bar to count. */
function sayBars(count: number): string {
  if (count === 0) return "in a bar";
  return sayBarCount(count);
}

function isOnView(tutti: DeskTutti, view: { firstBar: number; lastBar: number } | null): boolean {
  return view !== null && tutti.start.barIndex >= view.firstBar && tutti.start.barIndex <= view.lastBar;
}

function TuttiTile({
  desk,
  tutti,
  isHere,
  onGo,
}: {
  desk: Desk;
  tutti: DeskTutti;
  isHere: boolean;
  onGo: () => void;
}) {
  const { firstLabel, lastLabel, barCount } = tutti;
  const bars = firstLabel === lastLabel ? firstLabel : `${firstLabel}–${lastLabel}`;
  const cut = desk.cuts.find(
    ({ gaps, state }) =>
      (state === "open" || state === "agreed") &&
      gaps.some((gap) => gap.from < tutti.to - 0.01 && gap.to > tutti.from + 0.01),
  );
  return (
    <button type="button" className={styles.tile} aria-current={isHere || undefined} onClick={onGo}>
      <span className={styles.where}>
        {tutti.letter ? (
          <RehearsalBox text={tutti.letter} />
        ) : (
          <span className={styles.bar}>{firstLabel}</span>
        )}
      </span>
      <span className={styles.words}>
        <span className={styles.first}>
          <b>{bars}</b>
          {cut ? (
            <ViDe ink={cut.state === "agreed" ? "agreed" : inkOf(personOf(desk, cut.proposedBy).role)} />
          ) : (
            tutti.isLong && <em title="More bars than a long tutti is set to have">long</em>
          )}
        </span>
        <span className={styles.second}>
          {sayBars(barCount)} · {sayClock(tutti.to - tutti.from)}
        </span>
      </span>
    </button>
  );
}
