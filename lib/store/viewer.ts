/** Who asks: always taken from the session, never from what a client sent. */
export interface Viewer {
  readonly userId: string;
}
