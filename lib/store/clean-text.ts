/** Controls that turn the reading direction of what follows: in a name they would rearrange the words around it. */
const directionControls = /[\u202a-\u202e\u2066-\u2069]/gu;

/** Text as it is kept: whole characters in normal form C, line ends as "\n", no controls (Postgres takes no NUL). */
export function cleanText(text: string): string {
  return text
    .replace(/\p{Surrogate}/gu, "\ufffd")
    .replace(/\r\n?/g, "\n")
    .replace(/[^\P{Cc}\n\t]/gu, "")
    .replace(directionControls, "")
    .normalize("NFC")
    .trim();
}

/** The same in one line. */
export function cleanLine(text: string): string {
  return cleanText(text.replace(/[\p{Cc}\s]+/gu, " ")).replace(/ {2,}/g, " ");
}
