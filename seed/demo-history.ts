import { type HandsProfile, usualHands } from "@/lib/hands/hands-profile";
import type { DemoName } from "./demo-people";

/** How long before the demo is loaded something happened. */
export interface Ago {
  readonly days?: number;
  readonly hours?: number;
}

/** Printed bar numbers of the concertino, whose upbeat is bar 0; both ends played. */
export interface BarSpan {
  readonly first: number;
  readonly last: number;
}

export interface DemoComment {
  readonly ago: Ago;
  readonly by: DemoName;
  readonly text: string;
  /** What it said before its author reworded it. */
  readonly reworded?: { readonly ago: Ago; readonly from: string };
  readonly about: BarSpan | "open cut";
  readonly replies?: readonly { readonly ago: Ago; readonly by: DemoName; readonly text: string }[];
  readonly resolved?: { readonly ago: Ago; readonly by: DemoName };
  /** When its author marked it to be printed. */
  readonly printed?: Ago;
}

/** The instrument that has the line, written over the reduction. */
export interface DemoCue {
  readonly ago: Ago;
  readonly by: DemoName;
  readonly bar: number;
  readonly text: string;
}

/** A rest that the clarinet needs, and how long. */
export interface DemoRestNeed {
  readonly ago: Ago;
  readonly bars: BarSpan;
  readonly needs: { readonly seconds: number } | { readonly bars: number };
  readonly why: string;
  /** When he let it go again. */
  readonly released?: Ago;
}

/** What the two players have done with the concertino so far. */
export const demoHistory = {
  limitSeconds: 7 * 60 + 30,
  brought: { ago: { days: 26 } },
  joined: { matthis: { days: 25 }, dagny: { days: 22 } },
  agreedCut: {
    bars: { first: 9, last: 16 },
    proposed: { ago: { days: 21, hours: 3 }, by: "nerys" },
    reason:
      "Theme and answer close with the same two bars, so we can go straight from the first close into the answer by everybody.",
    agreed: { ago: { days: 20 }, by: "matthis", reason: "Good. I still have time to settle." },
  },
  /** The soloist's own numbers: a little shorter of breath than clarinets usually are. */
  breath: {
    ago: { days: 16, hours: 2 },
    preferences: { comfortableSeconds: 13, catchSeconds: 0.3, restPerPlayed: 0.25, windowSeconds: 90 },
  },
  /**
   * In the order in which he noted them. The middle tutti lasts 46 seconds: the open cut leaves 31 of them, a cut to the
   * dominant before the fermata only 4. The last he let go when he pencilled a cut into it.
   */
  restNeeds: [
    { ago: { days: 16, hours: 1 }, bars: { first: 97, last: 118 }, needs: { seconds: 25 }, why: "lip" },
    { ago: { days: 16 }, bars: { first: 1, last: 28 }, needs: { bars: 8 }, why: "pitch" },
    {
      ago: { days: 15, hours: 23 },
      bars: { first: 173, last: 177 },
      needs: { seconds: 8 },
      why: "water out of the upper joint",
      released: { days: 1, hours: 4 },
    },
  ] as readonly DemoRestNeed[],
  /** The pianist's own hands: the left reaches a little further than the right. Nobody but her sees them. */
  hands: {
    ago: { days: 12 },
    profile: {
      ...usualHands,
      left: { comfortable: 16, possible: 17 },
    } satisfies HandsProfile,
  },
  frozen: { nerys: { days: 14, hours: 2 }, matthis: { days: 13, hours: 20 } },
  performance: {
    ago: { days: 9 },
    loggedBy: "nerys",
    kind: "examination",
    name: "Mock examination",
    place: "Tern Hall",
    limitSeconds: 8 * 60,
    realSeconds: 7 * 60 + 41,
    remarks: "The Andante stood still after the fermata. Bars 112–115 too loud under the clarinet’s entry.",
  },
  nextPerformance: {
    ago: { days: 3 },
    loggedBy: "matthis",
    inDays: 19,
    kind: "jury",
    name: "Diploma jury, final round",
    place: "Larkfield Conservatory",
    limitSeconds: 7 * 60 + 30,
  },
  openCut: {
    bars: { first: 104, last: 111 },
    proposed: { ago: { days: 2, hours: 5 }, by: "matthis" },
    reason:
      "The storm is in G minor too. From the F major close straight into it, and half a minute is rest enough.",
  },
  comments: [
    {
      ago: { days: 24 },
      by: "nerys",
      text: "Nearly a minute before you come in. I would keep the theme, and everything from the answer by the full orchestra.",
      about: { first: 1, last: 28 },
      replies: [{ ago: { days: 23, hours: 4 }, by: "matthis", text: "Yes. Put it forward and I count it." }],
      resolved: { ago: { days: 20 }, by: "nerys" },
    },
    {
      ago: { days: 18 },
      by: "matthis",
      text: "Second time I start softer. Can you stay under me until the top note?",
      about: { first: 63, last: 69 },
      replies: [
        {
          ago: { days: 17, hours: 6 },
          by: "nerys",
          text: "I leave the pedal off the second time and play the basses short.",
        },
      ],
    },
    {
      ago: { days: 12 },
      by: "dagny",
      reworded: { ago: { days: 11, hours: 20 }, from: "Nobody hears the inner sixteenths here." },
      text: "Nobody hears the inner sixteenths here. Bass and top line are enough, and the arm stays free.",
      about: { first: 112, last: 115 },
    },
    {
      ago: { days: 8 },
      by: "matthis",
      text: "I breathe in with the release of the fermata. Please wait for that, not for my fingers.",
      about: { first: 119, last: 120 },
      replies: [{ ago: { days: 7, hours: 20 }, by: "nerys", text: "I look up before I release it." }],
      printed: { days: 6 },
    },
    {
      ago: { days: 1, hours: 6 },
      by: "nerys",
      text: "Then the suspensions in 108–111 are gone as well, and they prepare the storm. Let me play you both before I answer.",
      about: "open cut",
    },
    {
      ago: { days: 1, hours: 3 },
      by: "nerys",
      text: "@Matthis, with your pencil mark we would arrive together. Leave me bar 177 to make room for you?",
      about: { first: 173, last: 177 },
      replies: [
        {
          ago: { hours: 20 },
          by: "matthis",
          text: "@Nerys, moved: 177 stays. @Dagny, would you listen for the join on Thursday?",
        },
      ],
    },
  ] as readonly DemoComment[],
  /** The first horn sings against the soloist and the violoncellos answer; the oboe leads into the fermata. */
  cues: [
    { ago: { days: 15 }, by: "nerys", bar: 120, text: "Cor." },
    { ago: { days: 15 }, by: "nerys", bar: 128, text: "Vc." },
    { ago: { days: 5 }, by: "matthis", bar: 118, text: "Ob. solo" },
  ] as readonly DemoCue[],
  /** Bars before which the clarinet breathes, at the end of a phrase without a rest. */
  breathsBefore: [31, 37, 65, 71, 122, 126, 138, 180, 184],
  breathsMarked: { ago: { days: 16 } },
  /** One that he marked with the others and took away again. */
  breathTakenAway: { before: 134, ago: { days: 6, hours: 4 } },
  /** The soloist's idea for the last tutti, and where he moved it. */
  pencilledCut: {
    by: "matthis",
    versions: [
      { ago: { days: 1, hours: 5 }, bars: { first: 173, last: 177 } },
      { ago: { hours: 21 }, bars: { first: 173, last: 176 } },
    ],
  },
} as const;
