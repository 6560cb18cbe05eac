/** The room for music on pages, in points from the top of the page. */
export interface PageRoom {
  /** Where music may start, on the first page and on the others. */
  readonly firstTop: number;
  readonly top: number;
  readonly bottom: number;
  /** Least distance between two systems. */
  readonly gap: number;
}
