/** Gives the person a text as a file of their own. */
export function saveTextFile(name: string, text: string, type = "application/json"): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken the file over by then.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
