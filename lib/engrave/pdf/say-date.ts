const months = "January February March April May June July August September October November December".split(
  " ",
);

/** "26 February 2026" from an ISO date or time; any other text as it is. */
export function sayDate(iso: string): string {
  const match = /^(\d{4})-(\d{2})-(\d{2})/.exec(iso);
  const month = match && months[Number(match[2]) - 1];
  return match && month ? `${Number(match[3])} ${month} ${match[1]}` : iso;
}

/** "11:42" from seconds. */
export function sayClock(seconds: number): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${`${whole % 60}`.padStart(2, "0")}`;
}
