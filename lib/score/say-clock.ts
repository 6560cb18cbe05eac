/** A duration as musicians write it: "0:52", "12:04", "1:02:30". Rounded to the second; a negative one with a minus. */
export function sayClock(durationSeconds: number): string {
  const whole = Math.round(Math.abs(durationSeconds));
  const sign = durationSeconds < 0 && whole > 0 ? "−" : "";
  const two = (value: number) => `${value}`.padStart(2, "0");
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  return hours > 0 ? `${sign}${hours}:${two(minutes)}:${two(rest)}` : `${sign}${minutes}:${two(rest)}`;
}
