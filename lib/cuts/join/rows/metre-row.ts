import { nameBeat } from "@/lib/cuts/name-position";
import type { Bar } from "@/lib/score/bar";
import { beatOf } from "@/lib/score/beat-of";
import {
  addQuarters,
  compareQuarters,
  isEqualQuarters,
  quarters,
  scaleQuarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import { barPhase } from "../bar-phase";
import { type JoinEdges, sayBar } from "../join-edges";
import type { JoinRow } from "../join-row";
import { sayCount } from "../say-music";

const sayMetre = ({ metre }: Bar): string =>
  metre.groups.map(({ beats, beatType }) => `${beats.join("+")}/${beatType}`).join(" + ");

/** Whether the bar that the join makes has as many beats as its metre asks for. */
export function assessMetre({ heard, cut, before, after }: JoinEdges): JoinRow | null {
  const { score } = heard;
  const [fromBar, toBar] = [score.bars[cut.from.barIndex], score.bars[cut.to.barIndex]];
  if (!before || !after || !fromBar || !toBar) return null;
  const [fromPhase, toPhase] = [barPhase(score, cut.from), barPhase(score, cut.to)];
  const beat = beatOf(toBar.metre);
  const counted = (phase: typeof fromPhase) => nameBeat(phase, beat);
  const common = {
    kind: "metre" as const,
    noteIds: [],
    bars: [cut.from.barIndex, cut.to.barIndex],
  };
  const figures = {
    fromBeat: counted(fromPhase),
    toBeat: counted(toPhase),
    metreBefore: sayMetre(fromBar),
    metreAfter: sayMetre(toBar),
  };
  if (!isEqualQuarters(fromPhase, toPhase)) {
    // On a bar line the shorter piece stands as a bar of its own; otherwise both pieces are one bar.
    const rest = subtractQuarters(toBar.metreLength, toPhase);
    const made = fromPhase.num === 0 ? rest : toPhase.num === 0 ? fromPhase : addQuarters(fromPhase, rest);
    const beats = scaleQuarters(made, beat.den, beat.num);
    const full = scaleQuarters(toBar.metreLength, beat.den, beat.num);
    const name = sayBar(heard, fromPhase.num === 0 ? cut.to.barIndex : cut.from.barIndex);
    const count = beats.den === 1 ? sayCount(beats.num, "beat") : `${writeQuarters(beats)} beats`;
    const more = compareQuarters(beats, full) > 0 ? "too many" : "too few";
    const sentence = `The beats do not add up: ${name} comes out with ${count}, ${more}.`;
    return { ...common, grade: "rough", sentence, figures: { ...figures, beats: writeQuarters(beats) } };
  }
  const isSame = figures.metreBefore === figures.metreAfter;
  const beats = writeQuarters(
    scaleQuarters(quarters(toBar.metreLength.num, toBar.metreLength.den), beat.den, beat.num),
  );
  if (!isSame) {
    const sentence = `The beats add up; the metre changes from ${figures.metreBefore} to ${figures.metreAfter} at the join.`;
    return { ...common, grade: "needs-a-touch", sentence, figures: { ...figures, beats } };
  }
  const where =
    fromPhase.num === 0 ? "from bar line to bar line" : `from beat ${figures.fromBeat} to the same beat`;
  return {
    ...common,
    grade: "clean",
    sentence: `The beats add up, ${where}.`,
    figures: { ...figures, beats },
  };
}
