import { describe, expect, it } from "vitest";
import { readTempoMap } from "@/lib/score/tempo-map";
import { bankPresets } from "@/lib/sound/instruments";
import { readSchedule } from "@/lib/sound/read-schedule";
import type { Schedule, ScheduledNote, ScheduledVoice } from "@/lib/sound/schedule";
import { CUT_TRAPS, GOOD_CUT } from "@/seed/concertino/planted";
import { concertino, cutOf } from "../cuts/join/hear-concertino";
import { attackOf, level, longestGap, render } from "./render";

// The schedule as sound, rendered by the synthesizer that the player has in the browser, with the bank it has there.

/** Joins that run on without a rest, one behind a rest, and one that the cut tears out of a bar. */
const joins = [GOOD_CUT, ...CUT_TRAPS.filter(({ kind }) => kind !== "stolen rest")];

interface HeardJoin {
  readonly schedule: Schedule;
  readonly seam: number;
  readonly before: readonly ScheduledNote[];
  readonly behind: readonly ScheduledNote[];
}

function hearJoin(planted: Parameters<typeof cutOf>[0]): HeardJoin {
  const schedule = readSchedule(concertino, readTempoMap(concertino), {
    ...{ kind: "join", cut: cutOf(planted), cuts: [], how: "with-the-cut" },
    ...{ barsBefore: 1, barsAfter: 1 },
  });
  const seam = schedule.seams[0]?.seconds ?? Number.NaN;
  const isBefore = ({ onsetSeconds }: ScheduledNote) => onsetSeconds < seam - 1e-6;
  const { notes } = schedule;
  return { schedule, seam, before: notes.filter(isBefore), behind: notes.filter((note) => !isBefore(note)) };
}

/** How long before a moment no note sounds by the schedule. */
const restBefore = (notes: readonly ScheduledNote[], moment: number) =>
  moment - Math.max(0, ...notes.map(({ endSeconds }) => Math.min(endSeconds, moment)));

describe("a join as sound", () => {
  it.each(joins)(
    "from bar $from.bar to $to.bar has no gap but the written one, and sounds right at the seam",
    async (cut) => {
      const { schedule, seam, before } = hearJoin(cut);
      const sound = await render(schedule, schedule.totalSeconds);
      const inaudible = 0.02 * level(sound, seam - 0.5, seam + 0.5);
      expect(longestGap(sound, seam - 0.3, seam + 0.3, inaudible)).toBeLessThan(
        restBefore(before, seam) + 0.01,
      );
      expect(level(sound, seam, seam + 0.05)).toBeGreaterThan(10 * inaudible);
    },
  );

  it.each(joins)(
    "from bar $from.bar to $to.bar begins behind the cut within 10 ms of the seam",
    async (cut) => {
      const { schedule, seam, behind } = hearJoin(cut);
      const lead = 0.1;
      const notes = behind.map((note) => ({
        ...note,
        onsetSeconds: note.onsetSeconds - seam + lead,
        endSeconds: note.endSeconds - seam + lead,
      }));
      const attack = attackOf(await render({ ...schedule, notes }, 0.8), 0.01, 0.8);
      expect(Math.abs(attack - lead)).toBeLessThan(0.01);
    },
  );

  it.each(joins)("from bar $from.bar to $to.bar lets nothing from before the cut sound on", async (cut) => {
    const { schedule, seam, before } = hearJoin(cut);
    const seconds = seam + 0.8;
    const damped = await render({ ...schedule, notes: before }, seconds);
    const held = before.map((note) => ({ ...note, endSeconds: seconds + 1 }));
    const undamped = await render({ ...schedule, notes: held }, seconds);
    // A damper takes a moment; half a second later less than a hundredth is left of what an open string has.
    expect(level(damped, seam + 0.5, seam + 0.6)).toBeLessThan(
      0.01 * level(undamped, seam + 0.5, seam + 0.6),
    );
    expect(Math.max(...before.map(({ endSeconds }) => endSeconds))).toBeLessThan(seam + 1e-6);
  });
});

describe("an attack", () => {
  it.each(Object.entries(bankPresets))(
    "of the %s is heard within 10 ms of its moment",
    async (_name, program) => {
      const voice: ScheduledVoice = {
        ...{ partId: "", partName: "", role: "solo", channel: 0 },
        program,
        substituted: null,
      } as const;
      const lead = 0.1;
      for (const midi of [48, 60, 72, 84]) {
        const note: ScheduledNote = {
          ...{ noteId: "", role: "solo", voice: 0, channel: 0, midi, staff: 1, isGrace: false },
          ...{ onsetSeconds: lead, endSeconds: 0.5, velocity: 80 },
        };
        const attack = attackOf(await render({ notes: [note], voices: [voice] }, 0.5), 0.01, 0.4);
        expect(Math.abs(attack - lead), `midi ${midi}`).toBeLessThan(0.01);
      }
    },
  );
});
