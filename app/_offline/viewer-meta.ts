/** Name of the element in a page's head that says whose page it is. */
export const viewerMetaName = "colla-viewer";

/** The element as it stands in the page. */
export function viewerMeta(userId: string): string {
  return `<meta name="${viewerMetaName}" content="${userId}"`;
}
