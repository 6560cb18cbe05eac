/** Words as the beginning of a line: "bars 85–96" becomes "Bars 85–96". */
export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
