import { sayBarCount } from "@/lib/score/say-bar-count";

/** "11 s", under ten with tenths: "4.5 s". */
export function sayAbout(seconds: number): string {
  const rounded = seconds < 9.95 ? Math.round(seconds * 10) / 10 : Math.round(seconds);
  return `${rounded} s`;
}

/** "0:20" of "20" in seconds, "4 bars". */
export function sayAmount(needs: { readonly seconds: number } | { readonly bars: number }): string {
  if ("bars" in needs) return sayBarCount(needs.bars);
  const whole = Math.ceil(needs.seconds - 1e-6);
  return `${Math.floor(whole / 60)}:${`${whole % 60}`.padStart(2, "0")}`;
}
