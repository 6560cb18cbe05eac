import { readPick, writePick } from "../_weigh/weigh-picks";
import type { CutEnds } from "./cut-questions";

/** Cuts in an address, each as `writePick` spells it: "8:0~16:0,40:3/2~52:0". */
export function writeEnds(list: readonly CutEnds[]): string {
  return list.map(({ from, to }) => writePick({ kind: "ends", from, to })).join(",");
}

/** What of an address is cuts. They may lie outside the piece. */
export function readEnds(text: string): CutEnds[] {
  return text.split(",").flatMap((one): CutEnds[] => {
    const pick = readPick(one);
    return pick?.kind === "ends" ? [{ from: pick.from, to: pick.to }] : [];
  });
}
