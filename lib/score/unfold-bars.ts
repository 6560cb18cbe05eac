import type { Bar } from "./bar";
import { findJumpTargets, type JumpTargets } from "./jump-targets";
import type { Notice } from "./notice";
import { type Ending, type EndingGroup, findEndingGroups } from "./repeat-sections";

/** More rounds than any strophic song has; a larger number is a slip of the encoder. */
export const mostRounds = 32;

/** Far more bars than anyone plays; an order that grows beyond it is cut off. */
export const mostPerformedBars = 50_000;

type Ended = "took-repeat" | "goes-on";

/** Walks through the bars as a player does, with a finger on the start of the section and a count of its rounds. */
class Walk {
  readonly indices: number[] = [];
  readonly notices: Notice[] = [];
  private at = 0;
  private sectionStart = 0;
  private round = 1;
  private hasJumped = false;
  private readonly finishedRepeats = new Set<number>();
  private readonly takenJumps = new Set<number>();
  private readonly takenCodas = new Set<number>();
  private readonly endingAt = new Map<number, { group: EndingGroup; ending: Ending }>();
  private readonly groupThatEndsAt = new Map<number, EndingGroup>();

  constructor(
    private readonly bars: readonly Bar[],
    groups: readonly EndingGroup[],
    private readonly jumps: JumpTargets,
  ) {
    for (const group of groups) {
      for (const ending of group.endings) {
        this.endingAt.set(ending.first, { group, ending });
        this.groupThatEndsAt.set(ending.last, group);
      }
    }
  }

  run(): void {
    while (this.at < this.bars.length) {
      if (this.indices.length >= mostPerformedBars) {
        this.notices.push(tooLong());
        return;
      }
      const bar = this.bars[this.at];
      if (!bar || this.skipEnding()) continue;
      this.enter(bar);
      this.indices.push(bar.index);
      if (this.leave(bar) === "stop") return;
    }
  }

  /** Skips an ending that is not this round's. At the start of its own section a bar is past that question. */
  private skipEnding(): boolean {
    const found = this.endingAt.get(this.at);
    if (!found || (this.at === this.sectionStart && this.bars[this.at]?.repeats.startsRepeat)) return false;
    const { group, ending } = found;
    const round = this.hasJumped && this.isFinished(group) ? group.rounds : this.round;
    if (ending.numbers.includes(round)) return false;
    this.at = ending.last + 1;
    if (ending === group.endings.at(-1)) this.startSection(this.at);
    return true;
  }

  private isFinished(group: EndingGroup): boolean {
    return group.endings.some((ending) => this.finishedRepeats.has(ending.last));
  }

  private startSection(index: number): void {
    this.sectionStart = index;
    this.round = 1;
  }

  private enter(bar: Bar): void {
    if (bar.repeats.startsRepeat && bar.index !== this.sectionStart) this.startSection(bar.index);
  }

  private leave(bar: Bar): "stop" | "go" {
    if (this.endRound(bar) === "took-repeat") return "go";
    if (bar.jumps.fine && this.hasJumped) return "stop";
    const coda = this.hasJumped ? this.jumps.toCoda.get(bar.index) : undefined;
    if (coda !== undefined && !this.takenCodas.has(bar.index)) {
      this.takenCodas.add(bar.index);
      return this.jump(coda);
    }
    const back = this.jumps.back.get(bar.index);
    if (back !== undefined && !this.takenJumps.has(bar.index)) {
      this.takenJumps.add(bar.index);
      this.hasJumped = true;
      return this.jump(back);
    }
    this.at = bar.index + 1;
    return "go";
  }

  private jump(target: number): "go" {
    this.at = target;
    this.startSection(target);
    return "go";
  }

  private endRound(bar: Bar): Ended {
    const group = this.groupThatEndsAt.get(bar.index);
    if (bar.repeats.endsRepeatAfter !== null) {
      const rounds = Math.min(group?.rounds ?? bar.repeats.endsRepeatAfter, mostRounds);
      const isAgain = this.hasJumped && this.finishedRepeats.has(bar.index);
      if (this.round < rounds && !isAgain) {
        this.round += 1;
        this.at = this.sectionStart;
        return "took-repeat";
      }
      this.finishedRepeats.add(bar.index);
      this.startSection(bar.index + 1);
    } else if (group && this.isOver(group, bar.index)) {
      for (const ending of group.endings) this.finishedRepeats.add(ending.last);
      this.startSection(bar.index + 1);
    }
    return "goes-on";
  }

  /** The last ending leads on: the section is over, unless that ending itself begins the next repeat. */
  private isOver({ endings }: EndingGroup, index: number): boolean {
    const last = endings.at(-1);
    if (last?.last !== index) return false;
    return this.sectionStart < last.first || !this.bars[this.sectionStart]?.repeats.startsRepeat;
  }
}

function tooLong(): Notice {
  return {
    kind: "performed-order-too-long",
    sentence: `With all repeats the piece has more than ${mostPerformedBars} bars: the rest is left out.`,
    partName: null,
    barLabel: null,
  };
}

function tooManyRounds(bar: Bar): Notice {
  return {
    kind: "too-many-repeats",
    sentence: `The repeat that ends with bar ${bar.label} asks for ${bar.repeats.endsRepeatAfter} times: ${mostRounds} are played.`,
    partName: null,
    barLabel: bar.label,
  };
}

/** Signs that leave a bar silent for ever: better said than found out on stage. */
function neverPlayed(bars: readonly Bar[], indices: readonly number[]): Notice[] {
  const played = new Set(indices);
  const missing = bars.find((bar) => !played.has(bar.index));
  if (!missing) return [];
  const sentence = `As the repeat and jump signs stand, bar ${missing.label} is never played.`;
  return [{ kind: "bar-never-played", sentence, partName: null, barLabel: missing.label }];
}

/** The indices of the bars in the order they sound; see `findPerformedOrder` for the rules. */
export function unfoldBars(bars: readonly Bar[]): { indices: readonly number[]; notices: readonly Notice[] } {
  const { groups, notices } = findEndingGroups(bars);
  const jumps = findJumpTargets(bars);
  const walk = new Walk(bars, groups, jumps);
  walk.run();
  const overlong = bars.filter((bar) => (bar.repeats.endsRepeatAfter ?? 0) > mostRounds).map(tooManyRounds);
  return {
    indices: walk.indices,
    notices: [
      ...notices,
      ...jumps.notices,
      ...overlong,
      ...walk.notices,
      ...(walk.notices.length > 0 ? [] : neverPlayed(bars, walk.indices)),
    ],
  };
}
