/** As `patchOssias` writes it where an ossia goes on from the bar before. */
const goesOn = "<ossia>";
const begins = '<ossia type="show.scoredef.true">';

/**
 * Lets ossias that go on in these measures show clef and key there, as at their beginning: a line begins with each.
 *
 * @param mei as `patchOssias` wrote it.
 */
export function showOssiaClefs(mei: string, measureIds: readonly string[]): string {
  if (!mei.includes(goesOn)) return mei;
  let shown = mei;
  for (const id of measureIds) {
    const start = id === "" ? -1 : shown.indexOf(` xml:id="${id}"`);
    if (start === -1) continue;
    const end = shown.indexOf("</measure>", start);
    const measure = shown.slice(start, end);
    shown = `${shown.slice(0, start)}${measure.replaceAll(goesOn, begins)}${shown.slice(end)}`;
  }
  return shown;
}
