/** One line whatever a file says: its text could otherwise draw on the terminal. */
export const plainLine = (text: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out here
  text.replace(/[\u0000-\u001f\u007f-\u009f]+/g, " ").trim();
