import type { Schedule } from "@/lib/sound/schedule";
import type { SoundAt } from "./sound-context";

/**
 * Where the music is at a moment of a schedule: the last place that began, the first one while it is counted in.
 *
 * @param seconds at the schedule's own tempo; negative while it is counted in.
 * @param pace the share of that tempo at which it is heard: the seconds told are those.
 * @returns null where nothing is played at all.
 */
export function findPlace(
  { places, sections, countInSeconds }: Pick<Schedule, "places" | "sections" | "countInSeconds">,
  seconds: number,
  pace = 1,
): SoundAt | null {
  let [low, high] = [0, places.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((places[middle]?.startSeconds ?? 0) <= seconds + 1e-6) low = middle + 1;
    else high = middle;
  }
  const place = places[low - 1] ?? places[0];
  if (!place) return null;
  const section = sections.findLast(({ startSeconds }) => startSeconds <= place.startSeconds + 1e-6);
  // Between two places it stays the same, so that nobody draws again; so it does while it is counted in.
  const told = seconds < 0 ? -countInSeconds : place.startSeconds;
  return { ...place, seconds: told / pace, section: section?.kind ?? "as-asked" };
}
