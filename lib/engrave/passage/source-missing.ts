/** How the failure of a job begins when the thread has not got the source, by which it is known on the other side. */
export const sourceMissing = "the source has to be sent";

/** The thread has not got the source of these bytes. */
export class SourceMissing extends Error {
  override readonly name = "SourceMissing";
  constructor(sourceHash: string) {
    super(`${sourceMissing}: ${sourceHash}`);
  }
}
