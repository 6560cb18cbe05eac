import type { ListenManner } from "./listen-manner";
import { paceSchedule } from "./pace-schedule";
import type { Schedule } from "./schedule";

/** A schedule with everything in it, played in a certain manner: slower, without the solo, without a count-in. */
export function playAs(schedule: Schedule, manner: ListenManner): Schedule {
  const { tempoPercent, hasSolo, hasAccompaniment, hasCountIn } = manner;
  const paced = paceSchedule(schedule, tempoPercent);
  const notes = paced.notes.filter(({ role }) => (role === "solo" ? hasSolo : hasAccompaniment));
  return hasCountIn ? { ...paced, notes } : { ...paced, notes, countIn: [], countInSeconds: 0 };
}
