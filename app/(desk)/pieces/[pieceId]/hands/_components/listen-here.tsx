"use client";

import { useContext } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { SoundContext } from "@/app/_sound/sound-context";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { noQuarters, readQuarters } from "@/lib/score/quarters";
import { ListenPassage } from "./listen-passage";
import type { Bars } from "./passage-state";

/** "Listen", where the page has sound. */
export function ListenHere({
  desk,
  bars,
  rewrite,
  pace,
  what,
}: {
  desk: Pick<Desk, "bars">;
  bars: Bars;
  rewrite: RewriteTerms | null;
  pace: number;
  what: string;
}) {
  const last = desk.bars.length - 1;
  const lastLength = readQuarters(desk.bars[last]?.length ?? "0") ?? noQuarters;
  if (useContext(SoundContext) === null) return null;
  return <ListenPassage {...{ bars, rewrite, pace, what, lastLength }} lastBar={last} />;
}
