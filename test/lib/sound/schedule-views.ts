import type { Schedule, ScheduledNote } from "@/lib/sound/schedule";

const names = ["c", "c#", "d", "d#", "e", "f", "f#", "g", "g#", "a", "a#", "b"];

const nameOf = (midi: number) => `${names[midi % 12]}${Math.floor(midi / 12) - 1}`;

const round = (seconds: number) => Math.round(seconds * 1000) / 1000;

/** "c4 0–1", by onset. */
export const sounds = ({ notes }: Pick<Schedule, "notes">): string[] =>
  notes.map(({ midi, onsetSeconds, endSeconds }) => {
    return `${nameOf(midi)} ${round(onsetSeconds)}–${round(endSeconds)}`;
  });

/** "c4 0", by onset. */
export const onsets = ({ notes }: Pick<Schedule, "notes">): string =>
  notes.map(({ midi, onsetSeconds }) => `${nameOf(midi)} ${round(onsetSeconds)}`).join(" ");

export const velocities = ({ notes }: Pick<Schedule, "notes">): number[] =>
  notes.map(({ velocity }: ScheduledNote) => velocity);

/** Bars as they are played, with their passes where these are not the first: "1 2 3 2′". */
export const barsOf = ({ places }: Schedule): string => {
  const bars = places.map(({ barIndex, pass }) => `${barIndex + 1}${"′".repeat(pass - 1)}`);
  return bars.filter((bar, index) => bar !== bars[index - 1]).join(" ");
};

/** Clicks before the music; the first of a bar with an accent: "!-4 -3 -2 -1". */
export const clicks = ({ countIn }: Schedule): string =>
  countIn.map(({ seconds, isFirst }) => `${isFirst ? "!" : ""}${round(seconds)}`).join(" ");
