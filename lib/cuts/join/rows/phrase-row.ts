import { asGoodAsEqual } from "../find-precedent";
import { type JoinEdges, sayBar } from "../join-edges";
import type { JoinFigure, JoinGrade, JoinRow } from "../join-row";
import { precedentOf } from "../join-signs";
import type { Heard } from "../listen";
import { phraseBegins } from "../places";

/** Bars around a place in which phrases begin, for ticks, relative to it. */
function ticksAround({ phrases }: Heard, bar: number): number[] {
  return [-4, -3, -2, -1, 0, 1, 2, 3, 4].filter((step) => phrases[bar + step]?.isChosen);
}

function saySides(ends: boolean, starts: boolean, cadence: boolean, isMade: boolean): string {
  if (isMade && !ends && !starts) return "Both sides stand at the same place of a phrase, which goes on";
  const ended = `A phrase ends${cadence ? " with a cadence" : ""} before the cut`;
  if (ends && starts) return `${ended} and another begins after it`;
  if (starts) return "A phrase begins after the cut, but the one before is broken off";
  return ends
    ? `${ended}, but the music lands inside another`
    : "The cut goes from the middle of one phrase into the middle of another";
}

function judge({ heard, cut, fromPlace, toPlace }: JoinEdges): { grade: JoinGrade; sentence: string } {
  const [ends, starts] = [fromPlace.phraseStart >= phraseBegins, toPlace.phraseStart >= phraseBegins];
  const goesOn = fromPlace.inLargeBar === toPlace.inLargeBar;
  const precedent = precedentOf(heard, cut);
  const isMade = precedent !== null && precedent.likeness >= asGoodAsEqual;
  const keepsFour = goesOn && (toPlace.bar - fromPlace.bar) % 4 === 0;
  const isAlike = precedent !== null && keepsFour && ends === starts;
  const isSound = isMade || (ends && starts) || isAlike;
  const count = goesOn
    ? "the groups of four bars go on"
    : toPlace.inLargeBar === 0
      ? "a new group of four bars begins"
      : "the groups of four bars lose count";
  return {
    grade: isSound ? "clean" : starts || goesOn || ends ? "needs-a-touch" : "rough",
    sentence: `${saySides(ends, starts, fromPlace.cadenceBefore !== null, isMade)}; ${count}.`,
  };
}

/** The piece begins with the landing. */
function judgeStart({ heard, toPlace }: JoinEdges): { grade: JoinGrade; sentence: string } {
  const bar = sayBar(heard, toPlace.bar);
  if (toPlace.phraseStart >= phraseBegins)
    return { grade: "clean", sentence: `A phrase begins with ${bar}.` };
  if (toPlace.inLargeBar === 0) {
    return {
      grade: "needs-a-touch",
      sentence: `A group of four bars begins with ${bar}, but no clear phrase.`,
    };
  }
  return { grade: "rough", sentence: `The piece would start in mid-phrase, in ${bar}.` };
}

/** The piece ends at the cut. */
function judgeEnd({ fromPlace }: JoinEdges): { grade: JoinGrade; sentence: string } {
  const { cadenceBefore } = fromPlace;
  if (cadenceBefore === "authentic")
    return { grade: "clean", sentence: "The piece ends with a full cadence." };
  if (cadenceBefore) {
    return { grade: "needs-a-touch", sentence: `The piece would end with a ${cadenceBefore} cadence.` };
  }
  return { grade: "rough", sentence: "The piece would end without a cadence." };
}

/** Where phrases and the large bars of four stand on both sides. */
export function assessPhrase(edges: JoinEdges): JoinRow | null {
  const { heard, fromPlace, toPlace, before, after } = edges;
  if (!before && !after) return null;
  const { grade, sentence } = !before ? judgeStart(edges) : after ? judge(edges) : judgeEnd(edges);
  const figures: Record<string, JoinFigure> = {
    placeBefore: fromPlace.inLargeBar + 1,
    placeAfter: toPlace.inLargeBar + 1,
    cadenceBefore: fromPlace.cadenceBefore,
    phraseStartsBefore: ticksAround(heard, fromPlace.bar),
    phraseStartsAfter: ticksAround(heard, toPlace.bar),
    confidenceBefore: heard.phrases[fromPlace.bar]?.confidence ?? null,
    confidenceAfter: heard.phrases[toPlace.bar]?.confidence ?? null,
  };
  const bars = [fromPlace.bar, toPlace.bar].filter((bar) => bar < heard.score.bars.length);
  return { kind: "phrase", grade, sentence, figures, noteIds: [], bars };
}
