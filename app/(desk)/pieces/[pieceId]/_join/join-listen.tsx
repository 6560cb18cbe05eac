"use client";

import { useContext } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { ListenButton } from "@/app/_sound/listen-button";
import { SoundContext } from "@/app/_sound/sound-context";
import { findOverlap } from "@/lib/cuts/overlapping-cuts";
import { barsAroundJoin } from "@/lib/sound/listen-request";
import { agreedCuts, type CutEnds, joinSeconds, spanOfEnds } from "../_cuts/cut-questions";

/** To hear a cut's join among the agreed cuts. Nothing stands here where nothing can sound. */
export function JoinListen({
  desk,
  ends,
  number,
}: {
  desk: Pick<Desk, "cuts" | "strip">;
  ends: CutEnds;
  /** Of the proposal, so that its own agreed cut is not made as well. */
  number: number | null;
}) {
  if (useContext(SoundContext) === null) return null;
  const cut = spanOfEnds(ends);
  const cuts = agreedCuts(desk, number).filter((other) => findOverlap([other], cut) === null);
  return <ListenButton small request={{ cut, cuts }} seconds={joinSeconds(desk, cut, barsAroundJoin)} />;
}
