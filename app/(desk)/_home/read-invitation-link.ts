/**
 * The path of an invitation in what somebody pasted: the whole link, or only its end.
 *
 * @returns a path of ours, whatever host the link names; null for any other text.
 */
export function readInvitationLink(text: string): string | null {
  const token = /(?:^|\/invitation\/)([\w-]{20,200})\/?$/.exec(text.trim())?.[1];
  return token === undefined ? null : `/invitation/${token}`;
}
