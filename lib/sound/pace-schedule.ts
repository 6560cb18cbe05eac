import { tempoPercents } from "./listen-manner";
import type { Schedule } from "./schedule";

/**
 * The schedule at a percentage of its tempo: every length and every moment is divided by the same number, so that the
 * place of the music is kept when the seconds are divided by it too.
 *
 * @param percent of the tempo the schedule has.
 * @throws RangeError outside `tempoPercents`.
 */
export function paceSchedule(schedule: Schedule, percent: number): Schedule {
  if (!(percent >= tempoPercents.slowest && percent <= tempoPercents.fastest)) {
    throw new RangeError(`A tempo of ${percent} percent is outside 30 to 150`);
  }
  if (percent === 100) return schedule;
  const pace = (seconds: number) => (seconds * 100) / percent;
  return {
    ...schedule,
    notes: schedule.notes.map((note) => ({
      ...note,
      onsetSeconds: pace(note.onsetSeconds),
      endSeconds: pace(note.endSeconds),
    })),
    places: schedule.places.map((place) => ({
      ...place,
      startSeconds: pace(place.startSeconds),
      endSeconds: pace(place.endSeconds),
    })),
    seams: schedule.seams.map((seam) => ({ ...seam, seconds: pace(seam.seconds) })),
    sections: schedule.sections.map((section) => ({
      ...section,
      startSeconds: pace(section.startSeconds),
      endSeconds: pace(section.endSeconds),
    })),
    countIn: schedule.countIn.map((click) => ({ ...click, seconds: pace(click.seconds) })),
    countInSeconds: pace(schedule.countInSeconds),
    totalSeconds: pace(schedule.totalSeconds),
  };
}
