/** Name of the element in a page's head that says since when it was put by: only pages shown without a connection have it. */
export const keptAtMetaName = "colla-kept-at";

/** A kept page that says what it is. */
export function withKeptAt(html: string, at: string): string {
  const iso = new Date(at).toISOString();
  return html.replace(/<head[^>]*>/, (head) => `${head}<meta name="${keptAtMetaName}" content="${iso}"/>`);
}

/** "Tue 14:05" within the last six days, "3 Nov 14:05" before. */
export function sayKeptAt(at: Date, now: Date): string {
  const isRecent = now.getTime() - at.getTime() < 6 * 24 * 60 * 60 * 1000;
  const time = new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit" }).format(at);
  const day = new Intl.DateTimeFormat(
    "en-GB",
    isRecent ? { weekday: "short" } : { day: "numeric", month: "short" },
  );
  return `${day.format(at)} ${time}`;
}
