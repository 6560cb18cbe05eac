import { sayClock } from "./say-clock";

/** From a minute on as a clock has it, from ten seconds on in whole seconds, less in tenths: as exact as a player can use. */
function say(value: number, round: (scaled: number) => number): string {
  // The small shift takes away what binary fractions add: 0.3 must not become 0.4 when rounded up.
  const tenths = round(Number((value * 10).toFixed(6)));
  const whole = round(tenths / 10);
  if (whole >= 60) return sayClock(whole);
  return Math.abs(tenths) < 100 ? `${tenths / 10} s` : `${whole} s`;
}

/** What is there, rounded down: "18 s", "4.5 s". Never shows more than there is. */
export const sayLeft = (value: number): string => say(value, Math.floor);

/** What is missing, rounded up: never shown as nothing. */
export const sayMissing = (value: number): string => say(value, Math.ceil);
