import type { Score } from "@/lib/score/score";
import { findCheapestPath } from "./cheapest-path";
import { hearFrame } from "./heard-frame";
import { allKeys, fifthsBetween, type Key } from "./key";
import { logTable, profileCost } from "./key-fit";
import { type KeyProfiles, kostkaPayne } from "./key-profiles";
import { type FrameOptions, pitchClassesPerQuarter } from "./pitch-class-frames";

/** A change of key costs this much, and so much more for each fifth, against a cost of −2 Σ ln p / √n a frame. */
const [changeCost, perFifth] = [10_000, 1500];

const changes = allKeys.map((from) =>
  Int32Array.from(allKeys, (to) => (from === to ? 0 : changeCost + perFifth * fifthsBetween(from, to))),
);

/**
 * The key of each frame by pitch classes alone: presence against a profile, and a cost of changing. What
 * `findLocalKeys` is measured against.
 *
 * @throws RangeError if `options.step` is not positive or a profile holds no shares between 0 and 1.
 * Source: Temperley, Music and Probability (2007); the costs are this project's own.
 */
export function findProfileKeys(
  score: Score,
  options: FrameOptions = {},
  profiles: KeyProfiles = kostkaPayne,
): Key[] {
  const logs = logTable(profiles);
  const heard = pitchClassesPerQuarter(score, options).map(hearFrame);
  if (heard.length === 0) return [];
  const { states } = findCheapestPath({
    costs: heard.map((frame) => Int32Array.from(logs, (log) => 2 * profileCost(frame, log))),
    changes: heard.map(() => changes),
    rank: (frame, state) => {
      const key = allKeys[state] as Key;
      return ((key.tonic - (heard[frame]?.bass ?? 0) + 12) % 12) * 2 + (key.mode === "minor" ? 1 : 0);
    },
  });
  return states.map((state) => allKeys[state] as Key);
}
