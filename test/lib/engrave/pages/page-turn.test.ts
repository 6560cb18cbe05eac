import { describe, expect, it } from "vitest";
import type { TurnMoment } from "@/lib/engrave/pages/assess-turn";
import { describeTurn } from "@/lib/engrave/pages/page-turn";

const place = { page: 2, barId: "b44", barLabel: "45" };
const moment = (freeSeconds: number, more: Partial<TurnMoment> = {}): TurnMoment => ({
  atSeconds: 60,
  direction: "on",
  hands: [{ hand: "left hand", freeBefore: freeSeconds, freeAfter: 0, freeSeconds }],
  freeSeconds,
  freeHand: freeSeconds > 0 ? "left hand" : null,
  isAfterHold: false,
  silenceAfter: 0,
  cost: 7,
  ...more,
});

describe("describeTurn", () => {
  it.each([
    [[moment(0)], "bad", "V.S.", "Page 2, before bar 45: no hand free to turn."],
    [[moment(0.79)], "bad", "V.S.", "Page 2, before bar 45: left hand free for 0.7 s."],
    [[moment(1)], "quick", "V.S.", "Page 2, before bar 45: left hand free for 1 s."],
    [[moment(2)], "easy", null, "Page 2, before bar 45: left hand free for 2 s."],
    [[moment(9, { silenceAfter: 8 })], "easy", "time", "Page 2, before bar 45: left hand free for 9 s."],
    [
      [moment(3), moment(0.5)],
      "bad",
      "V.S.",
      "Page 2, before bar 45: left hand free for 0.5 s, the least of 2 times.",
    ],
    [
      [moment(1.5, { isAfterHold: true })],
      "quick",
      "V.S.",
      "Page 2, before bar 45: left hand free for 1.5 s, after a hold.",
    ],
    [
      [moment(12, { freeHand: "player", silenceAfter: 12 })],
      "easy",
      "time",
      "Page 2, before bar 45: a rest of 12 s.",
    ],
    [
      [moment(0, { hands: [{ hand: "player", freeBefore: 0, freeAfter: 0, freeSeconds: 0 }] })],
      "bad",
      "V.S.",
      "Page 2, before bar 45: no rest to turn.",
    ],
    [[], "easy", null, "Page 2, before bar 45: never turned in the order that is played."],
  ] as const)("%#", (moments, grade, sign, sentence) => {
    expect(describeTurn(place, moments)).toMatchObject({
      ...place,
      grade,
      sign,
      sentence,
      cost: 7 * moments.length,
    });
  });

  it("gives the least of the seconds, and none for a page that is never turned", () => {
    expect(describeTurn(place, [moment(3), moment(0.5)]).freeSeconds).toBe(0.5);
    expect(describeTurn(place, []).freeSeconds).toBeNull();
  });
});
